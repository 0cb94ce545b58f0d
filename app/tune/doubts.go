package tune

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// Doubts about readings.
const (
	// standsOut: a reading so many times the middle one of the others is asked
	// about: an inch is 25 mm, a degree on a rim is 8 mm. The end of a curve
	// that only bows is four times its middle.
	standsOut = 6.0
	// allOff: readings that are so many times what the points predict, in the
	// middle, are asked about.
	allOff = 8.0
	// fewest readings of which one can stand out.
	fewest = 3
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
// larger than the others, as in another unit; all of them far larger than the
// points predict; one written down twice. Nothing is left out by it.
func (s *Setup) Doubts(list []Taken) []Doubt {
	var doubts []Doubt
	sheet := s.predicted(list)
	sizes := s.sizes(list, sheet)
	for i := range list {
		others := append(append([]float64(nil), sizes[:i]...), sizes[i+1:]...)
		middle := max(median(others), s.ReadsWithin)
		if len(others) >= fewest-1 && sizes[i] > standsOut*middle {
			doubts = append(doubts, Doubt{i, fmt.Sprintf("%s: toe %s is %.0f times as far from rest as the middle one of the others: is it in another unit, or a slip?",
				s.where(&list[i]), degreesText(list[i].Toe), sizes[i]/middle)})
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
	if sheet != nil && len(doubts) == 0 && len(list) >= fewest {
		could := make([]float64, len(sheet))
		for i, l := range sheet {
			could[i] = math.Abs(l.Change.Value) + l.Change.Half
		}
		got, want := median(sizes), max(median(could), s.ReadsWithin)
		if got > allOff*want {
			doubts = append(doubts, Doubt{-1, fmt.Sprintf("the readings are about %.0f times what the points predict, even with their measuring error: are travel and toe in the units that they are read as?", got/want)})
		}
	}
	return doubts
}

// sizes is how far each reading is from the zero of its side: the middle one
// of what the readings of that side have beyond the prediction, or of the
// readings themselves where there is no prediction.
func (s *Setup) sizes(list []Taken, sheet []bumpsteer.GaugeLine) []float64 {
	beyond := map[bumpsteer.Side][]float64{}
	for i := range list {
		toe := list[i].Toe
		if sheet != nil {
			toe -= sheet[i].Change.Value
		}
		beyond[list[i].Side] = append(beyond[list[i].Side], toe)
	}
	sizes := make([]float64, len(list))
	for i := range list {
		sizes[i] = math.Abs(list[i].Toe - median(beyond[list[i].Side]))
	}
	return sizes
}

// predicted is what the points predict at the readings' travel; nil where they
// do not reach, of which the fit says why.
func (s *Setup) predicted(list []Taken) []bumpsteer.GaugeLine {
	travel := make([]float64, len(list))
	for i := range list {
		travel[i] = list[i].Travel
	}
	sheet, err := bumpsteer.GaugeSheet(s.Corner, s.Within, travel, bumpsteer.Gauge{})
	if err != nil {
		return nil
	}
	return sheet
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
	const decimals = 3
	return units.FormatNumber(rad*degreesPerRad, decimals) + " deg"
}

func signedLength(mm float64, unit units.Unit) string {
	text := units.FormatLength(mm, unit, decimals(unit))
	if units.In(mm, unit) > 0 {
		text = "+" + text
	}
	return text
}

// decimals of a length in words.
func decimals(unit units.Unit) int {
	if unit == units.Inch {
		return 3
	}
	return 1
}

// median of a list, 0 for an empty one.
func median(list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(list))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
