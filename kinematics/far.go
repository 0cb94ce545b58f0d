package kinematics

import "math"

// FarArm is the swing arm, mm, from which on it makes no difference how long it
// is: over 100 mm of travel the wheel leans by less than 0.06 degrees, which no
// gauge on a car tells from nought.
const FarArm = 100_000.0

// Far tells whether an instant centre is at infinity, as far as anyone can tell.
type Far uint8

// Where the instant centre is.
const (
	Near        Far = iota
	FarInboard      // farther in than makes a difference
	FarOutboard     // farther out than makes a difference
	FarEither       // it may lie on either side, or the arms are parallel
)

// FarOf decides for a swing arm, mm, where known, and where it lies within the
// measuring error, where placed: the interval goes through infinity where that of
// the reciprocal holds nought, parallel arms. Every face of instant centre and
// swing arm asks here, so that none prints what rounding leaves of a length that
// says nothing. Far on one side is also one whose band is wider than it is long and
// reaches beyond FarArm.
func FarOf(arm float64, known bool, lies Interval, placed bool) Far {
	switch {
	case !known, placed && (lies.Infinite || lies.Any):
		return FarEither
	case arm >= FarArm:
		return FarInboard
	case arm <= -FarArm:
		return FarOutboard
	}
	// An interval that all but goes through infinity is wider than the arm is long: its
	// digits would leave nought of the arm.
	if half, ok := lies.Half(); placed && ok && half >= math.Abs(arm) && half >= FarArm {
		if arm > 0 {
			return FarInboard
		}
		return FarOutboard
	}
	return Near
}

// Far decides for the instant centre of these readings, with their bands.
func (b *Bands) Far(r *Readings) Far {
	arm, known := r.Of(SwingArm)
	lies, placed := b.Interval(SwingArm)
	return FarOf(arm, known, lies, placed)
}

// OfCentre tells whether a quantity goes to infinity with the instant centre.
func (q Quantity) OfCentre() bool {
	return q == InstantCentreY || q == InstantCentreZ || q == SwingArm
}

// FarLimits returns how near an instant centre that may lie on either side can
// be on each, as swing arms in mm, both positive: farther in than the one or
// farther out than the other; without a limit that says anything, beyond all
// numbers.
func FarLimits(lies Interval) (inboard, outboard float64) {
	if !lies.Infinite || lies.Low <= 0 || lies.High >= 0 {
		return math.MaxFloat64, math.MaxFloat64
	}
	return lies.Low, -lies.High
}

// String says it in words; empty where it is near.
func (f Far) String() string {
	switch f {
	case FarInboard:
		return "at infinity, inboard"
	case FarOutboard:
		return "at infinity, outboard"
	case FarEither:
		return "at infinity"
	}
	return ""
}

// Sign says it in a cell of a table; empty where it is near.
func (f Far) Sign() string {
	switch f {
	case FarInboard:
		return "∞ inboard"
	case FarOutboard:
		return "∞ outboard"
	case FarEither:
		return "∞"
	}
	return ""
}
