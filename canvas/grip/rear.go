package grip

import "strings"

// rearWords turns what is said of a steered corner into what is said of one with
// a toe link, which has no rack.
var rearWords = strings.NewReplacer(
	"outer tie-rod end", "outer toe-link end", "Outer tie-rod end", "Outer toe-link end",
	"rack end", "body end of the toe link", "Rack end", "Body end of the toe link",
	"tie rod", "toe link", "Tie rod", "Toe link", "tie-rod", "toe-link",
)

// ForRear puts a text about a corner into the words of a rear axle, where the tie
// rod is a toe link.
func ForRear(text string) string { return rearWords.Replace(text) }
