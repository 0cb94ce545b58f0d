package report

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/sheet"
	"armscribe/kinematics/bumpsteer"
)

// moveWords say a move above zero and one below of each kind of freedom; the name goes
// in.
var moveWords = [...]struct{ plus, minus, kind string }{
	{"raise the %s by ", "lower the %s by ", " height"}, {"move the %s outboard by ", "move the %s inboard by ", " side position"},
	{"move the %s forward by ", "move the %s back by ", " fore-aft"},
}

// says is the sentence that the answer begins with: what to move, and what that does.
func (t *Tuned) says() string {
	r, u := &t.Result, t.Source.Unit
	var moves []string
	decided := false // the tape tells of one move which way it goes
	for i := range r.Moves {
		m := &r.Moves[i]
		if math.Abs(m.By()) < sheet.LaidOut.Rounding() {
			continue
		}
		words := moveWords[int(m.Free.Freedom)%len(moveWords)]
		way := words.plus
		if m.By() < 0 {
			way = words.minus
		}
		by := sheet.Number(sheet.LaidOut, math.Abs(m.By()))
		decided = decided || m.Limit != bumpsteer.Inside || m.Band < math.Abs(m.By())
		if m.Limit == bumpsteer.Inside && m.Band > 0 {
			by = sheet.Banded(sheet.LaidOut, math.Abs(m.By()), m.Band)
		}
		moves = append(moves, fmt.Sprintf(way, strings.TrimSuffix(t.Setup.FreedomName(m.Free.Freedom), words.kind))+by.Phrase(u))
	}
	toe := func(rad float64) string { return sheet.Number(sheet.Toe, rad).Phrase(u) }
	after := "Toe then changes by up to " + toe(r.After.Change) + "; it was " + toe(r.Before.Change) + "."
	if len(moves) == 0 {
		return "Within these limits no move makes toe change less than it does: " + toe(r.Before.Change) + "."
	}
	text := strings.Join(moves, ", ")
	if !decided {
		return "Not decidable at ±" + t.Setup.WithinText() + ", so measure more closely or use a toe gauge: " + text + ". " + after
	}
	return strings.ToUpper(text[:1]) + text[1:] + ". " + after
}
