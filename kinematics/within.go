package kinematics

import (
	"fmt"
	"math"
)

// Within is how far off each measured coordinate of a corner may be: half-widths,
// mm, of independent errors that lie evenly between minus and plus as much. A
// coordinate may carry two of them, that of the tape and that of an assumption;
// one without either is exact. It is a plain value, to be compared and copied.
type Within struct {
	measured, assumed [pointCount][3]float64
}

// Evenly is the same measuring error, ±mm, on every coordinate. It panics below
// zero and above MaxLength.
func Evenly(mm float64) Within {
	mustBeWithin(mm)
	var w Within
	for p := range w.measured {
		w.measured[p] = [3]float64{mm, mm, mm}
	}
	return w
}

// Measured returns w with another measuring error on one coordinate.
func (w Within) Measured(at Coordinate, mm float64) Within {
	mustBeWithin(mm)
	w.measured[at.Point][at.Axis] = mm
	return w
}

// Assumed returns w with an assumption's error on one coordinate, beside that of
// the tape.
func (w Within) Assumed(at Coordinate, mm float64) Within {
	mustBeWithin(mm)
	w.assumed[at.Point][at.Axis] = mm
	return w
}

func mustBeWithin(mm float64) {
	if !(mm >= 0 && mm <= MaxLength) {
		panic(fmt.Sprintf("kinematics: measured within %g mm", mm))
	}
}

// errorSize is what one coordinate's errors come to.
type errorSize struct{ measured, assumed float64 }

func (w *Within) of(at Coordinate) errorSize {
	return errorSize{w.measured[at.Point][at.Axis], w.assumed[at.Point][at.Axis]}
}

func (e errorSize) none() bool { return e.measured == 0 && e.assumed == 0 }

// larger is the size of an error that two corners share.
func (e errorSize) larger(o errorSize) errorSize {
	return errorSize{max(e.measured, o.measured), max(e.assumed, o.assumed)}
}

func (e errorSize) squares() float64 { return e.measured*e.measured + e.assumed*e.assumed }
func (e errorSize) most() float64    { return e.measured + e.assumed }

// spread gathers what independent even errors do to a value.
type spread struct{ squares, most float64 }

// add adds an error that moves the value by slope for each mm.
func (s *spread) add(slope float64, e errorSize) {
	s.squares += slope * slope * e.squares()
	s.most += math.Abs(slope) * e.most()
}

// Normal95 is the 97.5 % point of the normal distribution: a sum of many small
// errors lies within ±1.96 standard deviations 95 times in 100. An even error
// within ±w has the standard deviation w/√3. Source: any table of the normal
// distribution.
const Normal95 = 1.959963984540054

// even95 turns the root sum of squares of even errors into the 95 % half-width.
var even95 = Normal95 / math.Sqrt(3)

// half is the 95 % half-width: that of many small errors, and never more than
// all of them together can do, which counts where one or two decide.
func (s spread) half() float64 { return min(even95*math.Sqrt(s.squares), s.most) }
