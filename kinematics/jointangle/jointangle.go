// Package jointangle tells how far the ball joints and rod ends of a corner
// tilt from where they stand at rest, over travel and rack. It holds maths
// only; axes and units are those of package kinematics.
//
// A joint lets its stud turn about its own axis freely; what ends its movement
// is the tilt of the stud in its housing. The studs of both ball joints and of
// the outer tie-rod end are taken as parallel to the steering axis, fixed to
// the upright, and their housings as fixed to arm or rod: how the joints were
// built in is not known here. Whether a joint allows the tilt is its maker's to
// say.
package jointangle

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Joint names a joint of the corner.
type Joint uint8

// The joints.
const (
	UpperBall Joint = iota
	LowerBall
	OuterEnd
	RackEnd
	JointCount
)

// String returns the joint's name in the trade's words.
func (j Joint) String() string {
	switch j {
	case UpperBall:
		return kinematics.UpperBall.String()
	case LowerBall:
		return kinematics.LowerBall.String()
	case OuterEnd:
		return kinematics.OuterEnd.String()
	case RackEnd:
		return kinematics.RackEnd.String()
	}
	panic(fmt.Sprintf("kinematics: no joint %d", j))
}

// Tilts holds the tilt of each joint from its place at rest, rad, 0 and up:
//
//   - ball joints: between the steering axis as it stands in the arm and as it
//     stood there at rest;
//   - outer end: change of the angle between tie rod and steering axis; the rod
//     turns about itself to take up the rest;
//   - rack end: between the rod's direction and that at rest, for the rack does
//     not turn.
type Tilts [JointCount]float64

// Of returns the tilts in one pose. Errors are those of
// [kinematics.Mechanism.At].
func Of(m *kinematics.Mechanism, travel, rack float64) (Tilts, error) {
	c := m.Corner()
	rest, err := m.At(0, 0)
	if err != nil {
		return Tilts{}, err
	}
	p, err := m.At(travel, rack)
	if err != nil {
		return Tilts{}, err
	}
	return between(&c, &rest, &p), nil
}

func between(c *kinematics.Corner, rest, p *kinematics.Pose) Tilts {
	rod0, rod := r3.Sub(rest.OuterEnd, rest.RackEnd), r3.Sub(p.OuterEnd, p.RackEnd)
	return Tilts{
		UpperBall: angle(inArm(&c.Upper, rest.UpperBall, rest.SteeringAxis()), inArm(&c.Upper, p.UpperBall, p.SteeringAxis())),
		LowerBall: angle(inArm(&c.Lower, rest.LowerBall, rest.SteeringAxis()), inArm(&c.Lower, p.LowerBall, p.SteeringAxis())),
		OuterEnd:  math.Abs(angle(rod, p.SteeringAxis()) - angle(rod0, rest.SteeringAxis())),
		RackEnd:   angle(rod0, rod),
	}
}

// angle between two directions, rad, good for small ones too.
func angle(a, b kinematics.Vec) float64 { return math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b)) }

// inArm returns a direction in the frame of an arm: along its pivot axis,
// toward its ball joint, and square to both.
func inArm(arm *kinematics.Arm, ball, v kinematics.Vec) kinematics.Vec {
	on, along := arm.Front, kinematics.Vec{X: 1}
	if !arm.Flat {
		along = r3.Unit(r3.Sub(arm.Front, arm.Rear))
	}
	out := r3.Sub(ball, on)
	out = r3.Unit(r3.Sub(out, r3.Scale(r3.Dot(out, along), along)))
	return kinematics.Vec{X: r3.Dot(v, along), Y: r3.Dot(v, out), Z: r3.Dot(v, r3.Cross(along, out))}
}

// Most is the largest tilt of one joint and where it happens.
type Most struct{ Tilt, Travel, Rack float64 }

// Over returns the largest tilt of each joint over all the given travels with
// all the given racks. unmet counts poses out of reach, which are left out.
func Over(m *kinematics.Mechanism, travel, rack []float64) (most [JointCount]Most, unmet int) {
	c := m.Corner()
	rest, err := m.At(0, 0)
	if err != nil {
		return most, len(travel) * len(rack)
	}
	for _, h := range travel {
		for _, k := range rack {
			p, err := m.At(h, k)
			if err != nil {
				unmet++
				continue
			}
			for j, tilt := range between(&c, &rest, &p) {
				if tilt > most[j].Tilt {
					most[j] = Most{tilt, h, k}
				}
			}
		}
	}
	return most, unmet
}
