package tyre

import (
	"errors"
	"fmt"
	"math"
)

// Seat tells how a rim's width suits a tyre.
type Seat uint8

// The seats. The zero value means that nothing is known.
const (
	SeatUnknown Seat = iota
	SeatUsual
	Pinched   // rim narrower than usual: the side walls bulge over it
	Stretched // rim wider than usual: the side walls are pulled apart
)

// Half inches by which rims in use differ from the measuring rim.
const (
	narrowerRims = 1
	widerRims    = 2
)

// UsualRims returns the span of rim widths usual for the tyre, mm: from half
// an inch under the measuring rim to an inch over. Common practice, no source:
// the standards list the permitted rims size by size, in tables that this
// package does not hold, and the tyre maker's list decides. ok is false for a
// size in inches.
func (t Tyre) UsualRims() (narrowest, widest float64, ok bool) {
	rim, ok := t.MeasuringRim()
	if !ok {
		return 0, 0, false
	}
	return rim - narrowerRims*inch/2, rim + widerRims*inch/2, true
}

// seatSlack, mm, keeps a rim that was typed in inches inside its own limit.
const seatSlack = 1e-6

// SeatOn tells how a rim of the given width in mm suits the tyre, by
// [Tyre.UsualRims].
func (t Tyre) SeatOn(rimWidth float64) Seat {
	narrowest, widest, ok := t.UsualRims()
	switch {
	case !ok:
		return SeatUnknown
	case rimWidth < narrowest-seatSlack:
		return Pinched
	case rimWidth > widest+seatSlack:
		return Stretched
	}
	return SeatUsual
}

// ErrFit: parts that cannot be put together; see [FitError].
var ErrFit = errors.New("the wheel does not fit")

// FitError says what does not fit, in mm.
type FitError struct {
	Place        string
	Value, Limit float64 // mm
	Problem      string
	Cure         string
}

// Error names place, problem, value, limit and cure in one line.
func (e *FitError) Error() string {
	return fmt.Sprintf("%s: %.1f mm %s %.1f mm; %s", e.Place, e.Value, e.Problem, e.Limit, e.Cure)
}

// Is makes errors.Is(err, ErrFit) true.
func (e *FitError) Is(target error) bool { return target == ErrFit }

// CheckOffset returns a *[FitError] when the mounting face lies outside the
// rim, beyond a flange: no disc can join them then, and most likely a sign or
// unit slipped.
func (w Wheel) CheckOffset() error {
	if limit := w.OverallWidth() / 2; math.Abs(w.Offset()) > limit {
		return &FitError{Place: "wheel offset", Value: w.Offset(), Limit: math.Copysign(limit, w.Offset()),
			Problem: "puts the mounting face outside the rim, whose edge stands at", Cure: "check sign and unit of the offset"}
	}
	return nil
}

// CheckBrake returns a *[FitError] when a brake, disc and caliper together, of
// the given diameter about the spin axis does not pass through the rim's
// inside diameter with the wished gap all round, all in mm. A diameter that is
// not above zero, a gap below zero or a number that is none is a *FitError
// too, of its own place.
func CheckBrake(rimInside, brake, gap float64) error {
	for _, v := range []struct {
		place string
		x     float64
	}{{"rim inside diameter", rimInside}, {"brake diameter", brake}} {
		if !(v.x > 0 && v.x <= maxBarrel) {
			return &FitError{Place: v.place, Value: v.x, Limit: maxBarrel, Problem: "is not above zero and at most", Cure: "check the number and its unit"}
		}
	}
	if gap > maxBarrel {
		return &FitError{Place: "gap to the brake", Value: gap, Limit: maxBarrel, Problem: "is more than the most there can be,", Cure: "check the number and its unit"}
	}
	if !(gap >= 0) {
		return &FitError{Place: "gap to the brake", Value: gap, Limit: 0, Problem: "is below the least there can be,", Cure: "give 0 mm or more"}
	}
	if most := rimInside - 2*gap; brake > most {
		return &FitError{Place: "brake", Value: brake, Limit: most, Problem: "across does not pass through the rim with its gap, which takes at most",
			Cure: "choose a larger rim, a smaller brake or caliper, or less gap"}
	}
	return nil
}

// maxBarrel, mm, catches a number in the wrong unit.
const maxBarrel = 1000.0
