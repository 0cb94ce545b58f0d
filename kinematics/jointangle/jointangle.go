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
	"armscribe/kinematics/internal/peak"
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

// fine is how closely the place of a largest tilt is sought, mm: tilt is flat
// there, so that it is right to 1e-9 rad.
const fine = 0.01

// rounds of travel and rack by turns to a largest tilt in the middle of both.
const rounds = 8

// Over returns the largest tilt of each joint between the first and the last of
// the given travels and racks, both in rising order. It is found, not sampled:
// from every place given that no neighbour exceeds it goes on between these; what
// tilts more for less than a step of the places and comes back is not seen. unmet
// counts the places out of reach, which are left out.
func Over(m *kinematics.Mechanism, travel, rack []float64) (most [JointCount]Most, unmet int) {
	s := search{m: m, corner: m.Corner(), travel: travel, rack: rack}
	var err error
	if s.rest, err = m.At(0, 0); err != nil {
		return most, len(travel) * len(rack)
	}
	places := make([]Tilts, 0, len(travel)*len(rack))
	for _, h := range travel {
		for _, k := range rack {
			t := s.at(h, k)
			if t == outOfReach {
				unmet++
			}
			places = append(places, t)
		}
	}
	for i := range travel {
		for k := range rack {
			for j := range JointCount {
				if s.isTop(places, i, k, j) {
					most[j] = larger(most[j], s.climb(i, k, j))
				}
			}
		}
	}
	return most, unmet
}

// outOfReach is less than any tilt.
var outOfReach = Tilts{-1, -1, -1, -1}

// search is one for the largest tilts of a corner.
type search struct {
	m            *kinematics.Mechanism
	corner       kinematics.Corner
	rest         kinematics.Pose
	travel, rack []float64
}

func (s *search) at(travel, rack float64) Tilts {
	p, err := s.m.At(travel, rack)
	if err != nil {
		return outOfReach
	}
	return between(&s.corner, &s.rest, &p)
}

// isTop tells whether a joint tilts at a place and no more at its neighbours.
func (s *search) isTop(places []Tilts, i, k int, j Joint) bool {
	tilt := places[i*len(s.rack)+k][j]
	for _, by := range [...][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
		ii, kk := i+by[0], k+by[1]
		if ii >= 0 && ii < len(s.travel) && kk >= 0 && kk < len(s.rack) && places[ii*len(s.rack)+kk][j] > tilt {
			return false
		}
	}
	return tilt > 0
}

// climb goes on from a place between its neighbours.
func (s *search) climb(i, k int, j Joint) Most {
	at := Most{s.at(s.travel[i], s.rack[k])[j], s.travel[i], s.rack[k]}
	hLow, hHigh := s.travel[max(i-1, 0)], s.travel[min(i+1, len(s.travel)-1)]
	kLow, kHigh := s.rack[max(k-1, 0)], s.rack[min(k+1, len(s.rack)-1)]
	for range rounds {
		was := at.Rack
		at.Travel, at.Tilt = peak.About(func(h float64) float64 { return s.at(h, at.Rack)[j] }, hLow, at.Travel, hHigh, at.Tilt, fine)
		at.Rack, at.Tilt = peak.About(func(r float64) float64 { return s.at(at.Travel, r)[j] }, kLow, at.Rack, kHigh, at.Tilt, fine)
		if math.Abs(at.Rack-was) < fine {
			break // the travel has been found for this rack
		}
	}
	return at
}

func larger(a, b Most) Most {
	if b.Tilt > a.Tilt {
		return b
	}
	return a
}
