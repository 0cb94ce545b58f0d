package tune

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// BuildStep is what a move of a joint can be built to, mm: half a millimetre, or
// 1/32 in; thinner shims there are, but who files a steering arm closer? Common
// practice, no source.
func BuildStep(u units.Unit) float64 {
	if u == units.Inch {
		return 25.4 / 32
	}
	return 0.5
}

// BuildOff is the building error of which a cure says what it costs, mm: 1 mm, or
// 1/32 in, what may well go wrong in a shop that works in either.
func BuildOff(u units.Unit) float64 {
	if u == units.Inch {
		return BuildStep(u)
	}
	return 1
}

// OffText is BuildOff in words, "1 mm".
func (s *Setup) OffText() string { return units.ShortLength(BuildOff(s.Unit), s.Unit) }

// CureRequest asks for a cure that can be built, the outer end kept within the
// tallest stack that fits, where the job says how tall that is; one that stands
// there already is part of it.
func (s *Setup) CureRequest(free []bumpsteer.Free, g bumpsteer.Goal) bumpsteer.Request {
	q := bumpsteer.Request{Corner: s.Corner, Within: s.Within, Goal: g, Build: BuildStep(s.Unit), Off: BuildOff(s.Unit)}
	for _, f := range free {
		stands := s.Stands()
		if low, high := max(f.Min, -s.Tallest-stands), min(f.Max, s.Tallest-stands); f.Freedom == bumpsteer.OuterEndHeight && s.Tallest > 0 && low < high {
			f.Min, f.Max = low, high
		}
		q.Free = append(q.Free, f)
	}
	return q
}

// MoveMarks say of a move of a cure what its figures do not: that it stands
// still, or at a limit and what a little more would bring.
func (s *Setup) MoveMarks(m *bumpsteer.Move, r *bumpsteer.Result) string {
	var marks []string
	switch m.Limit {
	case bumpsteer.AtMin:
		marks = append(marks, "at its lower limit")
	case bumpsteer.AtMax:
		marks = append(marks, "at its upper limit")
	}
	if m.Limit != bumpsteer.Inside && s.Tallest > 0 && m.Free.Freedom == bumpsteer.OuterEndHeight && math.Abs(math.Abs(m.By()+s.Stands())-s.Tallest) < 1e-6 {
		marks[0] = "at the tallest stack that fits"
	}
	switch {
	case m.HasOneMore && r.After.Largest-m.OneMore > gained:
		marks = append(marks, fmt.Sprintf("%s more room would leave %s", s.OffText(), units.FormatDegrees(m.OneMore, degreeDecimals)))
	case m.Limit != bumpsteer.Inside:
		marks = append(marks, "more room would bring nothing")
	case m.By() == 0:
		marks = append(marks, "need not move")
	}
	return strings.Join(marks, ", ")
}

const (
	// gained is the least gain worth telling, rad: a thousandth of a degree.
	gained         = 0.001 * math.Pi / 180
	degreeDecimals = 3
)

// CureWords say how a cure was chosen.
func (s *Setup) CureWords(r *bumpsteer.Result) string {
	step := units.ShortLength(BuildStep(s.Unit), s.Unit)
	text := fmt.Sprintf("Moves in steps of %s, as they can be built.", step)
	if r.After.Largest-r.Least > gained {
		text = fmt.Sprintf("The smallest moves, in steps of %s, that points measured within ±%s cannot tell from the best there is, which leaves %s.",
			step, s.WithinText(), units.FormatDegrees(r.Least, degreeDecimals))
	}
	return text
}
