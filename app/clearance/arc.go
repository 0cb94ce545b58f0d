package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// arcAxes are the directions at 0 and at 90 degrees of an arc about its centre,
// by where it faces, either way round alike: forward and up for one that faces
// outboard most, forward and outboard where it faces up most, outboard and up
// where it faces forward most.
func arcAxes(facing kinematics.Vec) (zero, quarter kinematics.Vec) {
	n := r3.Unit(facing)
	x, y, z := math.Abs(n.X), math.Abs(n.Y), math.Abs(n.Z)
	zero, quarter = kinematics.Vec{X: 1}, kinematics.Vec{Z: 1}
	switch {
	case x > y && x >= z:
		zero = kinematics.Vec{Y: 1}
	case z > y:
		quarter = kinematics.Vec{Y: 1}
	}
	zero = r3.Unit(r3.Sub(zero, r3.Scale(r3.Dot(zero, n), n)))
	up := r3.Cross(n, zero)
	if r3.Dot(up, quarter) < 0 {
		up = r3.Scale(-1, up)
	}
	return zero, up
}

// setArc puts both ends and the middle of a job's arc about its centre into an
// obstacle.
func setArc(o *job.Obstacle, out *clearance.Obstacle) {
	zero, quarter := arcAxes(o.Facing.Vec())
	at := func(d job.Degrees) kinematics.Vec {
		s, c := math.Sincos(d.Radians())
		return r3.Add(o.At.Vec(), r3.Scale(o.Radius.MM, r3.Add(r3.Scale(c, zero), r3.Scale(s, quarter))))
	}
	out.A, out.B, out.C = at(o.Angles.From), at(o.Angles.To), at((o.Angles.From+o.Angles.To)/2)
}

// setArcPlaces moves a job's arc to the places of an obstacle, given where its
// own have been: one about its centre stays so while it keeps its form.
func setArcPlaces(o *job.Obstacle, was, to *clearance.Obstacle, by kinematics.Vec) {
	places := [3]struct {
		of      *job.Position
		was, to kinematics.Vec
	}{{&o.At, was.A, to.A}, {&o.To, was.B, to.B}, {&o.Via, was.C, to.C}}
	if o.Centred() {
		const same = 1e-9 // mm
		d := r3.Sub(to.A, was.A)
		if r3.Norm(r3.Sub(r3.Sub(to.B, was.B), d)) < same && r3.Norm(r3.Sub(r3.Sub(to.C, was.C), d)) < same {
			if d != (kinematics.Vec{}) {
				o.At.Set(r3.Add(o.At.Vec(), d))
			}
			return
		}
		o.Facing, o.Radius, o.Angles = job.Direction{}, units.Length{}, job.Angles{}
		for _, p := range places {
			*p.of = job.At(r3.Sub(p.to, by))
		}
		return
	}
	for _, p := range places {
		if p.was != p.to {
			p.of.Set(r3.Sub(p.to, by))
		}
	}
}

// SetCentred tells a job's arc by its centre and angles, or by three places.
func SetCentred(o *job.Obstacle, centred bool) {
	if o.Shape != job.ArcShape || o.Centred() == centred {
		return
	}
	seen := ObstacleOf(o, kinematics.Vec{})
	if !centred {
		o.At, o.To, o.Via = placed(seen.A), placed(seen.B), placed(seen.C)
		o.Facing, o.Radius, o.Angles = job.Direction{}, units.Length{}, job.Angles{}
		return
	}
	r, ok := seen.Round()
	if !ok {
		return // the job has a problem of its own
	}
	n := r3.Cross(r.E, r.F)
	if n.Y < 0 {
		n = r3.Scale(-1, n)
	}
	n = kinematics.Vec{X: fine(n.X), Y: fine(n.Y), Z: fine(n.Z)}
	zero, quarter := arcAxes(n)
	angle := func(t float64) float64 {
		d := r3.Sub(r.At(t), r.Centre)
		return math.Atan2(r3.Dot(d, quarter), r3.Dot(d, zero))
	}
	from, to := angle(0), angle(r.Sweep)
	if r3.Dot(r3.Cross(r.E, r.F), r3.Cross(zero, quarter)) < 0 {
		from, to = to, from
	}
	if from < -math.Pi/2 { // an end below the axle counts on from behind
		from += 2 * math.Pi
	}
	for to <= from {
		to += 2 * math.Pi
	}
	o.At, o.To, o.Via = placed(r.Centre), job.Position{}, job.Position{}
	o.Facing, o.Radius = job.Direction{X: n.X, Y: n.Y, Z: n.Z}, units.Length{MM: drawn(r.Radius)}
	o.Angles = job.Angles{From: toHundredth(from), To: toHundredth(to)}
}

// fine is a part of a unit direction to four decimals: 0.1 mm of 1 m.
func fine(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

// toHundredth is an angle to a hundredth of a degree: 0.1 mm of 600 mm.
func toHundredth(rad float64) job.Degrees {
	return job.Degrees(math.Round(float64(job.DegreesOf(rad))*100) / 100)
}
