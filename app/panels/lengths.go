package panels

import (
	"errors"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/kinematics"
)

// link is a member whose length can be typed. Its outer point then moves along
// the member: the ball joint away from the pivot axis, square to it; the outer
// tie-rod end away from the rack end. Nothing else moves, so the upright
// changes with it.
type link struct {
	name  string // of the edit
	moves kinematics.Point
	hint  string
}

var links = [...]link{
	{"upper arm length", kinematics.UpperBall, "pivot axis to ball joint; moves the ball joint"},
	{"lower arm length", kinematics.LowerBall, "pivot axis to ball joint; moves the ball joint"},
	{"tie rod length", kinematics.OuterEnd, "between the joints; moves the outer end"},
}

// foot is the fixed end of the link: the point of the pivot axis level with the
// ball joint, or the rack end.
func (l *link) foot(c *kinematics.Corner) kinematics.Vec {
	switch l.moves {
	case kinematics.UpperBall:
		return footOn(&c.Upper)
	case kinematics.LowerBall:
		return footOn(&c.Lower)
	}
	return c.TieRod.RackEnd
}

func footOn(a *kinematics.Arm) kinematics.Vec {
	along := kinematics.Vec{X: 1}
	if !a.Flat {
		along = r3.Sub(a.Front, a.Rear)
		if r3.Norm(along) < kinematics.MinSpan {
			return a.Front // both pivots in one place: the job is refused anyhow
		}
	}
	u := r3.Unit(along)
	return r3.Add(a.Front, r3.Scale(r3.Dot(r3.Sub(a.Ball, a.Front), u), u))
}

// length returns the length in mm.
func (l *link) length(c *kinematics.Corner) float64 {
	return r3.Norm(r3.Sub(*c.At(l.moves), l.foot(c)))
}

var errLength = errors.New("a length is at least 1 mm; type it without a sign")

// set returns the change that makes the link mm long.
func (l *link) set(mm float64) (func(v *job.Variant), error) {
	if mm < kinematics.MinSpan {
		return nil, errLength
	}
	return func(v *job.Variant) {
		c := v.Corner()
		foot := l.foot(&c)
		way := r3.Sub(*c.At(l.moves), foot)
		if r3.Norm(way) == 0 {
			return // no direction to go; such a corner is never shown
		}
		v.SetPoint(l.moves, r3.Add(foot, r3.Scale(mm/r3.Norm(way), way)))
	}, nil
}
