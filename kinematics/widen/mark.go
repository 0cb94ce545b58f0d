package widen

import "math"

// Mark is the finest division in which a proposal is laid out: whole marks of
// spacer, and of what the arms grow by. With coordinates measured in whole marks
// those of the proposal are whole marks too.
type Mark uint8

// The marks. NoMark lays out as computed.
const (
	NoMark           Mark = iota
	HundredthOfMM         // 0.01 mm
	ThousandthOfInch      // 0.0254 mm
)

// fraction is a mark's length in mm, as a fraction of whole numbers: one division
// then gives the float64 next to the decimal that is meant.
func (m Mark) fraction() (num, den float64) {
	switch m {
	case NoMark:
		return 0, 1
	case HundredthOfMM:
		return 1, 100
	case ThousandthOfInch:
		return 127, 5000
	}
	panic("kinematics: widen: no such mark")
}

// length is a mark's, mm; nothing for NoMark.
func (m Mark) length() float64 {
	num, den := m.fraction()
	return num / den
}

// into returns the whole mark next to x within the first of the ranges that
// holds one, or x itself where none does.
func (m Mark) into(x float64, ranges ...interval) float64 {
	num, den := m.fraction()
	if num == 0 {
		return x
	}
	for _, r := range ranges {
		// sameLength: an end that is a mark but for rounding is one.
		low, high := math.Ceil((r.low-sameLength)*den/num), math.Floor((r.high+sameLength)*den/num)
		if low <= high {
			return max(low, min(math.Round(x*den/num), high)) * num / den
		}
	}
	return x
}

// decimals is how many figures after the point a measured length in mm or in
// inches may have; ulps is how much rounding a sum of two leaves.
const (
	decimals = 1e6
	ulps     = 0x1p-50
)

// sum returns a + b, and where that is a decimal but for its rounding, the
// float64 next to the decimal.
func sum(a, b float64) float64 {
	s := a + b
	if d := math.Round(s*decimals) / decimals; math.Abs(d-s) <= ulps*(math.Abs(a)+math.Abs(b)) {
		return d
	}
	return s
}
