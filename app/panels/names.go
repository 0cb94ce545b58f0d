package panels

import (
	"math"
	"strings"

	"armscribe/kinematics"
)

// estimateMark stands behind a name whose value rests on an estimate.
const estimateMark = " est."

// assumedMark stands behind one whose value rests on what nobody has measured.
const assumedMark = " assumed"

// label returns the name of a line as shown, and the sign that its values take
// so that the name says the side and the figure has no minus: an instant centre
// on this side of the centre plane or beyond it, a roll centre to the left or
// right. Where both wheels differ, the sign stays with the figures.
func (s *snapshot) label(it item, fits func(string) bool) (text string, sign float64) {
	v, ok := it.At(&s.now)
	switch it.Of {
	case kinematics.InstantCentreY:
		w, both := it.At(&s.right)
		if s.hasRight && both && ok && math.Signbit(v) != math.Signbit(w) {
			return choose(fits, "Inst. centre, on this side +", "Inst. centre, side +"), 1
		}
		if !ok {
			v = w
		}
		if v < 0 {
			return choose(fits, "Inst. centre, beyond centre plane", "Inst. centre, far side"), -1
		}
		return choose(fits, "Inst. centre, on this side", "Inst. centre, this side"), 1
	case kinematics.RollCentreY:
		if v < 0 {
			return choose(fits, "Roll centre, to the right", "Roll centre, right"), -1
		}
		return choose(fits, "Roll centre, to the left", "Roll centre, left"), 1
	}
	return s.words(it.Short), 1
}

func choose(fits func(string) bool, long, short string) string {
	if fits(long) {
		return long
	}
	return short
}

// words speaks of a toe link at a rear axle, which has no rack.
func (s *snapshot) words(text string) string {
	if !s.rear {
		return text
	}
	return rearWords.Replace(text)
}

var rearWords = strings.NewReplacer(
	"outer tie-rod end", "toe link's outer end", "Outer tie-rod end", "Toe link's outer end",
	"rack end", "toe link's body end", "Rack end", "Toe link's body end",
	" with the rack in this place", "",
	"tie rod", "toe link", "Tie rod", "Toe link",
	"tie-rod", "toe-link", "Tie-rod", "Toe-link",
	"how much longer the rod", "how much longer the link", "rod too short", "link too short",
)
