package clearance

import (
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

var shapeOf = map[job.ObstacleShape]clearance.Shape{job.PointShape: clearance.Point, job.LineShape: clearance.Line, job.CircleShape: clearance.Circle, job.ArcShape: clearance.Arc}

var carrierOf = map[job.ObstacleOn]clearance.Carrier{job.OnBody: clearance.OnBody, job.OnUpright: clearance.OnUpright, job.OnDamper: clearance.OnDamper}

// WishOf is the gap to keep to an obstacle: the one it states, or the usual one
// of what carries it.
func WishOf(o *job.Obstacle) float64 {
	switch {
	case o.Gap.Given:
		return o.Gap.MM
	case o.On == job.OnUpright:
		return clearance.WishInRim
	}
	return clearance.DefaultWish
}

// ObstacleOf turns an obstacle of a job into that of a corner whose upright
// stands elsewhere by so much; see Carried.
func ObstacleOf(o *job.Obstacle, by kinematics.Vec) clearance.Obstacle {
	out := clearance.Obstacle{Name: o.Name, Shape: shapeOf[o.Shape], Carrier: carrierOf[o.On], A: o.At.Vec(),
		Radius: o.Radius.MM, Thick: o.Diameter.MM / 2, Wish: WishOf(o)}
	switch o.Shape {
	case job.LineShape:
		out.B = o.To.Vec()
	case job.CircleShape:
		out.B = o.Facing.Vec()
	case job.ArcShape:
		if out.B, out.C = o.To.Vec(), o.Via.Vec(); o.Centred() {
			setArc(o, &out)
		}
		out.Radius = 0 // it follows from the places
	}
	if o.On == job.OnUpright {
		out.A = r3.Add(out.A, by)
		if o.Shape == job.LineShape || o.Shape == job.ArcShape {
			out.B = r3.Add(out.B, by)
		}
		if o.Shape == job.ArcShape {
			out.C = r3.Add(out.C, by)
		}
	}
	return out
}

// SetPlaces moves an obstacle of a job to the places and the radius of one that
// ObstacleOf made for the same by. What stays keeps the way it was typed; shape,
// carrier, name, facing, diameter and gap are left alone.
func SetPlaces(o *job.Obstacle, to *clearance.Obstacle, by kinematics.Vec) {
	was := ObstacleOf(o, by)
	if o.On != job.OnUpright {
		by = kinematics.Vec{}
	}
	if o.Shape == job.ArcShape {
		setArcPlaces(o, &was, to, by)
		return
	}
	if was.A != to.A {
		o.At.Set(r3.Sub(to.A, by))
	}
	switch o.Shape {
	case job.LineShape:
		if was.B != to.B {
			o.To.Set(r3.Sub(to.B, by))
		}
	case job.CircleShape:
		if was.Radius != to.Radius {
			o.Radius = units.Length{MM: to.Radius}
		}
	}
}

// Carried is by how much what the upright carries stands elsewhere than it was
// measured, for a variant of a job whose hub face is at a place. Obstacles are
// measured on the car, which is the first variant: there they stand as they are
// stated, wherever the hub is put.
func Carried(j *job.Job, variant int, hub kinematics.Vec) kinematics.Vec {
	if variant == 0 {
		return kinematics.Vec{}
	}
	return r3.Sub(hub, j.Variants[0].Hub.Vec())
}
