// Package effort turns forces at the tyres into moments about the steering
// axes, forces in tie rods and rack, and the pull at the steering wheel's rim.
// It holds maths only. Axes and signs are those of package kinematics; lengths
// are mm, forces N, moments N mm.
//
// All of it is statics of rigid parts without friction: indicative, for
// comparing one layout with another. It judges no part's strength.
package effort

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Vec is kinematics.Vec, for forces in N too.
type Vec = kinematics.Vec

// Errors of this package, for errors.Is.
var (
	// ErrLever: tie rod and steering axis lie in one plane, so that the rod
	// holds no moment about the axis.
	ErrLever = errors.New("the tie rod has no lever about the steering axis")
	// ErrInput: a number that makes no case; the error names it.
	ErrInput = errors.New("not a load case")
)

// Moment returns the moment in N mm of a force about an axis, given by a point
// of it and its unit direction: axis . ((at - on) x force), right-handed about
// the direction. A vertical axis and a force straight back at the contact
// centre make force times scrub radius.
func Moment(on, axis, at, force Vec) float64 {
	return r3.Dot(axis, r3.Cross(r3.Sub(at, on), force))
}

// Side is what acts on one wheel, in the axes of its own corner (y outboard).
type Side struct {
	Travel float64 // mm
	Force  Vec     // N, of the ground on the tyre at the contact centre
	Couple float64 // N mm about the steering axis besides, as of Part.Moment
	// Rolling: the wheel is free on its bearing, neither braked by the upright nor
	// driven. What of the force would turn it about its own axis spins it up and does
	// not reach the upright: a rearward push then acts at the height of the wheel's
	// centre, where the lean of the steering axis makes the arm longer.
	Rolling bool
}

// Case is what acts on an axle. Rack is mm, positive to the car's left. Scrub is what
// the couples of both wheels are, of parking alone.
type Case struct {
	Rack        float64
	Left, Right Side
	Scrub       kinematics.Root
}

// Gear is the way from rack to hand. Zero values leave the wheel out.
type Gear struct {
	RackPerTurn float64 // mm of rack for one turn of the steering wheel
	RimRadius   float64 // mm, of the steering wheel
}

// Part is one side's answer.
type Part struct {
	// Moment about the steering axis, N mm, positive when it turns the front of
	// the wheel outboard (toe-out): the left wheel to the left, the right one to
	// the right. It is that of the tyre, and of a spring that stands on the upright.
	Moment float64
	// Spring is the share of a spring on the upright in Moment, N mm; 0 for a
	// spring elsewhere, which reaches the upright through the ball joints alone.
	Spring float64
	// Lever is the arm on which the tie rod holds it, mm, its sign included.
	Lever float64
	// Rod is the force in the tie rod, N, positive in compression.
	Rod float64
}

// Answer is what a case does to the steering.
type Answer struct {
	Left, Right Part
	// Rack is the force of both tie rods along the rack, N, positive when it
	// pushes the rack to the car's left. The driver holds against it.
	Rack float64
	// WheelTorque at the steering column, N mm, and RimPull on one hand at the
	// rim, N; both positive when they turn the steering wheel to the left, whether
	// the rack moves left or right for that (kinematics.Mechanism.RackSense), and
	// only if HasWheel. Friction and power assistance are left out.
	WheelTorque, RimPull float64
	HasWheel             bool
}

// leastLever is the lever, mm, below which a rod holds nothing: the forces
// would be thousands of times those at the tyre.
const leastLever = 1.0

// Solve returns the answer to a case. The right corner is the mirror image of
// the mechanism, with the rack's sign turned. Errors: those of
// [kinematics.Mechanism.At], naming the side, ErrInput for a number that is
// none, ErrLever, and ErrNoSpring for a spring on the upright that a rise of the
// wheel leaves as long as it is.
func Solve(m *kinematics.Mechanism, g Gear, c Case) (Answer, error) {
	if err := c.check(g); err != nil {
		return Answer{}, err
	}
	var a Answer
	for _, s := range []struct {
		name string
		sign float64
		side Side
		part *Part
	}{{"left", 1, c.Left, &a.Left}, {"right", -1, c.Right, &a.Right}} {
		p, err := m.At(s.side.Travel, s.sign*c.Rack)
		if err != nil {
			return Answer{}, fmt.Errorf("%s corner: %w", s.name, err)
		}
		if s.part.Spring, err = springMoment(m, &p, s.side); err != nil {
			return Answer{}, fmt.Errorf("%s corner: %w", s.name, err)
		}
		rod, err := s.part.solve(&p, s.side)
		if err != nil {
			return Answer{}, fmt.Errorf("%s corner: %w", s.name, err)
		}
		a.Rack -= s.sign * s.part.Rod * rod.Y
	}
	if g.RackPerTurn > 0 && g.RimRadius > 0 {
		// One turn of the column moves the rack by RackPerTurn: equal work.
		a.WheelTorque = m.RackSense() * a.Rack * g.RackPerTurn / (2 * math.Pi)
		a.RimPull, a.HasWheel = a.WheelTorque/g.RimRadius, true
	}
	return a, nil
}

// PerScrub is what an answer holds of each N mm of the case's scrub: it grows evenly with
// that. Errors are those of Solve.
func PerScrub(m *kinematics.Mechanism, g Gear, c Case) (Answer, error) {
	torque := c.Scrub.Value()
	if torque == 0 {
		return Answer{}, nil
	}
	with, err := Solve(m, g, c)
	if err != nil {
		return Answer{}, err
	}
	c.Left.Couple, c.Right.Couple = 0, 0
	free, err := Solve(m, g, c)
	of := func(a, b float64) float64 { return (a - b) / torque }
	part := func(a, b Part) Part { return Part{Moment: of(a.Moment, b.Moment), Rod: of(a.Rod, b.Rod)} }
	return Answer{Left: part(with.Left, free.Left), Right: part(with.Right, free.Right), Rack: of(with.Rack, free.Rack),
		WheelTorque: of(with.WheelTorque, free.WheelTorque), RimPull: of(with.RimPull, free.RimPull), HasWheel: with.HasWheel}, err
}

// solve fills in one side and returns the unit direction of its tie rod, from
// rack end to outer end.
func (part *Part) solve(p *kinematics.Pose, s Side) (rod Vec, err error) {
	axis := p.SteeringAxis()
	rod = r3.Unit(r3.Sub(p.OuterEnd, p.RackEnd))
	// Seen from above, turning left about the upward axis is toe-out.
	part.Moment = Moment(p.LowerBall, axis, p.Contact, s.Force) + s.Couple + part.Spring
	if s.Rolling {
		part.Moment -= Moment(p.WheelCentre, p.Spin, p.Contact, s.Force) * r3.Dot(p.Spin, axis)
	}
	part.Lever = Moment(p.LowerBall, axis, p.OuterEnd, rod)
	if math.Abs(part.Lever) < leastLever {
		return rod, fmt.Errorf("%.2g mm at travel %s mm: %w", part.Lever, kinematics.Placed(s.Travel), ErrLever)
	}
	part.Rod = -part.Moment / part.Lever
	return rod, nil
}

// springMoment returns the moment about the steering axis, N mm, of a spring on
// the upright; 0 without one. Its force holds the wheel where it is: the work of
// tyre and spring over a small rise of the wheel with the rack held is nothing,
// and joints, arms and tie rod do none.
func springMoment(m *kinematics.Mechanism, p *kinematics.Pose, s Side) (float64, error) {
	if m.Corner().Spring.Carrier != kinematics.OnUpright {
		return 0, nil
	}
	rise, turn, ok := m.UprightMotion(p)
	way := r3.Sub(p.SpringMoving, p.SpringBody)
	push := r3.Unit(way) // on the upright, for each N of the spring's force
	speed := r3.Dot(push, r3.Add(rise, r3.Cross(turn, r3.Sub(p.SpringMoving, p.LowerBall))))
	if !ok || math.Abs(speed) < leastRatio {
		return 0, fmt.Errorf("at travel %s mm: %w", kinematics.Placed(s.Travel), ErrNoSpring)
	}
	force := -tyreWork(p, rise, turn, s) / speed
	return force * Moment(p.LowerBall, p.SteeringAxis(), p.SpringMoving, push), nil
}

// Limits of a case. They catch a number in the wrong unit.
const (
	maxForce  = 1e6 // N
	maxCouple = 1e9 // N mm
	maxRatio  = 1e4 // mm
)

func (c *Case) check(g Gear) error {
	for _, v := range []struct {
		name       string
		x, low, up float64
	}{
		{"rack", c.Rack, -kinematics.MaxLength, kinematics.MaxLength},
		{"travel of the left wheel", c.Left.Travel, -kinematics.MaxLength, kinematics.MaxLength},
		{"travel of the right wheel", c.Right.Travel, -kinematics.MaxLength, kinematics.MaxLength},
		{"couple on the left wheel", c.Left.Couple, -maxCouple, maxCouple},
		{"couple on the right wheel", c.Right.Couple, -maxCouple, maxCouple},
		{"rack for a turn of the wheel", g.RackPerTurn, 0, maxRatio},
		{"rim radius", g.RimRadius, 0, maxRatio},
	} {
		if !(v.x >= v.low && v.x <= v.up) {
			return fmt.Errorf("%s %g is not between %g and %g; check the number and its unit: %w", v.name, v.x, v.low, v.up, ErrInput)
		}
	}
	for _, f := range [...]Vec{c.Left.Force, c.Right.Force} {
		for _, x := range [...]float64{f.X, f.Y, f.Z} {
			if !(math.Abs(x) <= maxForce) {
				return fmt.Errorf("force %g N is not within ±%g N; check the number and its unit: %w", x, maxForce, ErrInput)
			}
		}
	}
	return nil
}
