package effort

import (
	"errors"

	"armscribe/kinematics"
)

// ErrNoSpring: the corner has no spring, or stands on a dead point, so that
// there is no motion ratio.
var ErrNoSpring = errors.New("the corner has no motion ratio")

// motionRatio at rest.
func motionRatio(m *kinematics.Mechanism) (float64, error) {
	p, err := m.At(0, 0)
	if err != nil {
		return 0, err
	}
	r := p.Readings()
	mr, ok := r.Of(kinematics.MotionRatio)
	if !ok || mr < leastRatio {
		return 0, ErrNoSpring
	}
	return mr, nil
}

// leastRatio is the motion ratio below which a spring carries no wheel.
const leastRatio = 1e-3

// SpringForce returns the force in the spring, N along it, that carries a wheel
// load at rest: load / motion ratio, by virtual work. The load is that of the
// sprung mass; the weight of wheel and upright goes into the ground without
// passing through the spring. Errors: those of At, and ErrNoSpring.
func SpringForce(m *kinematics.Mechanism, load float64) (float64, error) {
	mr, err := motionRatio(m)
	if err != nil {
		return 0, err
	}
	return load / mr, nil
}

// SpringChange is what a change of the motion ratio does to a spring that
// carries the same wheel load, as shares: 0.1 is 10 % more.
type SpringChange struct {
	Before, After float64 // motion ratios, spring travel / wheel travel
	Load          float64 // more force in the spring for the same wheel load
	WheelRate     float64 // more rate at the wheel with the same spring: the ratios' square
}

// SpringChangeOf compares two corners at rest. Errors as of SpringForce.
func SpringChangeOf(before, after *kinematics.Mechanism) (SpringChange, error) {
	b, err := motionRatio(before)
	if err != nil {
		return SpringChange{}, err
	}
	a, err := motionRatio(after)
	if err != nil {
		return SpringChange{}, err
	}
	return SpringChange{b, a, b/a - 1, a*a/(b*b) - 1}, nil
}

// WheelRate returns the rate at the wheel of a spring, N/mm: rate x motion
// ratio squared, the motion ratio being constant. Source: virtual work; W. F.
// and D. L. Milliken, Race Car Vehicle Dynamics, chapter 16, from memory.
func WheelRate(springRate, motionRatio float64) float64 {
	return springRate * motionRatio * motionRatio
}
