package job

import (
	"errors"
	"math"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// UsualPivot is how far ahead of and behind the axle line an arm's pivots are
// assumed, mm. Common practice, no source.
const UsualPivot = 120.0

// pivotDigit is to how much a pivot that follows is rounded, mm.
const pivotDigit = 0.01

// arm returns an arm and its front pivot as a point; the rear one is next to it.
func (v *Variant) arm(upper bool) (*Arm, kinematics.Point) {
	if upper {
		return &v.UpperArm, kinematics.UpperFront
	}
	return &v.LowerArm, kinematics.LowerFront
}

// TwoPivots gives an arm of one pivot a front and a rear one on the axis that it
// had, so that nothing moves otherwise than before. Where they are along the car,
// and all of the rear one, is assumed.
func (v *Variant) TwoPivots(upper bool) {
	a, front := v.arm(upper)
	if !a.Flat {
		return
	}
	a.Flat, a.Rear = false, a.Front
	a.Front.X, a.Rear.X = units.Length{MM: UsualPivot}, units.Length{MM: -UsualPivot}
	a.Rear.Within = Within{}
	v.Assumed = v.Assumed.With(Coordinate(kinematics.Coordinate{Point: front}), true)
	for axis := range 3 {
		v.Assumed = v.Assumed.With(Coordinate(kinematics.Coordinate{Point: front + 1, Axis: axis}), true)
	}
}

// ErrAcross is that an arm's pivot axis runs across the car, so that no one pivot
// in the front view stands for it.
var ErrAcross = errors.New("the pivot axis runs across the car, so one pivot in the front view cannot stand for it; keep both")

// OnePivot makes an arm's two pivots the one of the front view: where their axis
// passes the ball joint. The axis then runs along the car.
func (v *Variant) OnePivot(upper bool) error {
	a, front := v.arm(upper)
	if a.Flat {
		return nil
	}
	f, r := a.Front.Vec(), a.Rear.Vec()
	along := f.X - r.X
	if math.Abs(along) < kinematics.MinSpan {
		return ErrAcross
	}
	share := (a.Ball.X.MM - r.X) / along
	round := func(mm float64) float64 { return math.Round(mm/pivotDigit) * pivotDigit }
	at := kinematics.Vec{Y: round(r.Y + share*(f.Y-r.Y)), Z: round(r.Z + share*(f.Z-r.Z))}
	assumed := func(axis int) bool {
		return v.Assumed.Has(Coordinate(kinematics.Coordinate{Point: front, Axis: axis})) || f != r && !alongCar(f, r) &&
			v.Assumed.Has(Coordinate(kinematics.Coordinate{Point: front + 1, Axis: axis}))
	}
	side, height := assumed(1), assumed(2)
	a.Front.Set(at)
	a.Flat, a.Rear = true, Position{}
	v.Assumed = v.Assumed.With(Coordinate(kinematics.Coordinate{Point: front}), false).
		With(Coordinate(kinematics.Coordinate{Point: front, Axis: 1}), side).With(Coordinate(kinematics.Coordinate{Point: front, Axis: 2}), height)
	for axis := range 3 {
		v.Assumed = v.Assumed.With(Coordinate(kinematics.Coordinate{Point: front + 1, Axis: axis}), false)
	}
	return nil
}

// alongCar tells whether an axis runs along the car, as that of one pivot does.
func alongCar(f, r kinematics.Vec) bool { return f.Y == r.Y && f.Z == r.Z }
