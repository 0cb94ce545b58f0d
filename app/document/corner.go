package document

import (
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// SetCorner puts a corner's numbers into a variant. What did not change keeps
// the way it was typed, and a loaded radius that was an estimate stays one.
func SetCorner(v *job.Variant, c kinematics.Corner) {
	for _, p := range c.Points() {
		v.SetPoint(p, *c.At(p))
	}
	set := func(l *units.Length, mm float64) {
		if l.MM != mm {
			*l = units.Length{MM: mm}
		}
	}
	set(&v.Wheel.Offset, c.Wheel.Offset)
	set(&v.Wheel.Spacer, c.Wheel.Spacer)
	if r, _ := v.LoadedRadius(); r != c.Wheel.LoadedRadius {
		v.Wheel.SetRadius(job.Given(units.Length{MM: c.Wheel.LoadedRadius}))
	}
	// Degrees to radians and back need not give the same bits: set only a change.
	if v.Camber.Radians() != c.Camber {
		v.Camber = job.DegreesOf(c.Camber)
	}
	if v.Toe.Radians() != c.Toe {
		v.Toe = job.DegreesOf(c.Toe)
	}
}
