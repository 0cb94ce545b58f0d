package tune

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// ErrDoubt: the readings can be used, but a person should look first.
var ErrDoubt = errors.New("the readings raise a question")

// Doubt is a question to the one who took the readings. It matches ErrDoubt.
type Doubt struct {
	Reading  int // index of the reading, -1 for all of them
	Question string
}

// Error is the question.
func (d *Doubt) Error() string { return d.Question }

// Is makes errors.Is(err, ErrDoubt) true.
func (d *Doubt) Is(target error) bool { return target == ErrDoubt }

// Doubts lists what should be asked before readings are used: one that is far
// from what the points predict with their band, as in another unit; all of them
// far larger than the points predict; one written down twice. Nothing is left
// out by it.
func (s *Setup) Doubts(list []Taken) []Doubt {
	var doubts []Doubt
	against, all, err := bumpsteer.CompareReadings(s.Corner, s.Within, s.ReadsWithin, BumpsteerReadings(list))
	if err != nil {
		against, all = nil, 0 // the points do not reach there: the fit says why
	}
	for i := range against {
		if a := &against[i]; a.Odd {
			doubts = append(doubts, Doubt{i, fmt.Sprintf("%s: toe %s, where the points predict %s and the gauge's zero is %s: %.0f times as far off as the measuring errors allow. Is it in another unit, or a slip?",
				s.where(&list[i]), degreesText(list[i].Toe), degreesBand(a.Predicted), degreesText(a.Zero), a.Times)})
		}
	}
	for i := range list {
		for k := range i {
			if list[i].Reading == list[k].Reading {
				doubts = append(doubts, Doubt{i, fmt.Sprintf("%s: the same as %s: was it written down twice?", s.where(&list[i]), list[k].Place)})
				break
			}
		}
	}
	if all > 0 {
		doubts = append(doubts, Doubt{-1, fmt.Sprintf("the readings are about %.0f times what the points predict, even with their measuring error: are travel and toe in the units that they are read as?", all)})
	}
	return doubts
}

// Remarks tells what is odd about readings but needs no answer.
func (s *Setup) Remarks(list []Taken) []string {
	var notes []string
	ordered := func(step float64, bySide bool) bool {
		return slices.IsSortedFunc(list, func(a, b Taken) int {
			if bySide && a.Side != b.Side {
				return cmp.Compare(a.Side, b.Side)
			}
			return cmp.Compare(step*a.Travel, step*b.Travel)
		})
	}
	if !ordered(1, true) && !ordered(-1, true) && !ordered(1, false) && !ordered(-1, false) {
		notes = append(notes, "the readings are not in order of travel: all are used, the order makes no difference; check that no line was mixed up.")
	}
	for i := range list {
		for k := range i {
			a, b := &list[k], &list[i]
			if a.Side == b.Side && a.Travel == b.Travel && a.Toe != b.Toe {
				notes = append(notes, fmt.Sprintf("%s and %s are of one travel: both are used; they differ by %s.", a.Place, b.Place, degreesText(b.Toe-a.Toe)))
				break
			}
		}
	}
	return notes
}

// where names a reading.
func (s *Setup) where(t *Taken) string {
	text := fmt.Sprintf("%s, travel %s", t.Place, signedLength(t.Travel, s.Unit))
	if side := SideWord(t.Side); side != "" {
		text += ", " + side
	}
	return text
}

func degreesText(rad float64) string {
	return units.SmallAngles.Number(rad*degreesPerRad) + " deg"
}

func degreesBand(b bumpsteer.Banded) string {
	return sheet.Banded(sheet.Toe, b.Value, b.Half).Phrase(units.Millimetre)
}

func signedLength(mm float64, unit units.Unit) string {
	return units.Signed(units.Built.Length(mm, unit))
}
