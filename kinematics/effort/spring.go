package effort

import (
	"errors"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// ErrNoSpring: the corner has no spring, or stands on a dead point, so that
// there is no motion ratio.
var ErrNoSpring = errors.New("the corner has no motion ratio")

// leastRatio is the motion ratio below which a spring carries no wheel.
const leastRatio = 1e-3

// SpringForce returns the force in the spring, N along it, that carries a wheel
// load at rest, the rack held: the work of load and spring over a small rise of
// the wheel is nothing. The load stands at the contact centre, which does not rise
// as the wheel's centre does where the upright tilts in side view; so the force is
// not quite load / motion ratio. The load is that of the sprung mass; the weight of
// wheel and upright goes into the ground without passing through the spring.
// Errors: those of At, and ErrNoSpring.
func SpringForce(m *kinematics.Mechanism, load float64) (float64, error) {
	p, err := m.At(0, 0)
	if err != nil {
		return 0, err
	}
	r := p.Readings()
	mr, ok := r.Of(kinematics.MotionRatio)
	rise, turn, moves := m.UprightMotion(&p)
	if !ok || !moves || mr < leastRatio {
		return 0, ErrNoSpring
	}
	return tyreWork(&p, rise, turn, Side{Force: Vec{Z: load}}) / mr, nil
}

// tyreWork is what the forces at a tyre do, N mm for each mm of wheel travel, as the
// upright moves so; see [kinematics.Mechanism.UprightMotion].
func tyreWork(p *kinematics.Pose, rise, turn Vec, s Side) float64 {
	moment := r3.Add(r3.Cross(r3.Sub(p.Contact, p.LowerBall), s.Force), r3.Scale(s.Couple, p.SteeringAxis()))
	if s.Rolling {
		moment = r3.Sub(moment, r3.Scale(Moment(p.WheelCentre, p.Spin, p.Contact, s.Force), p.Spin))
	}
	return r3.Dot(s.Force, rise) + r3.Dot(moment, turn)
}
