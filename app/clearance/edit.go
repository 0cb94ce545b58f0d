package clearance

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// FreeName is a name that no obstacle of the job has: the one wished for, or
// that with a number.
func FreeName(j *job.Job, wished string) string {
	return job.FreeName(wished, func(name string) bool {
		return slices.ContainsFunc(j.Obstacles, func(o job.Obstacle) bool { return o.Name == name })
	})
}

// firstSize is the length of a line and the radius of a circle or an arc, mm, that
// begin as a point: something to be typed over.
const firstSize = 100.0

// overCentre is an arc that begins: half a turn over its centre.
var overCentre = job.Angles{From: 0, To: 180}

// SetShape gives an obstacle another shape at its place. What the new shape
// needs and the old one did not have is made up: a line runs 100 mm forward, a
// circle or an arc of 100 mm faces outboard. A circle and an arc keep what both have.
func SetShape(o *job.Obstacle, s job.ObstacleShape) {
	if o.Shape == s {
		return
	}
	round := o.Shape == job.CircleShape && s == job.ArcShape || o.Centred() && s == job.CircleShape
	facing, radius := job.Direction{Y: 1}, units.Length{MM: firstSize}
	if round {
		facing, radius = o.Facing, o.Radius
	}
	o.Shape, o.To, o.Via, o.Facing, o.Radius, o.Angles = s, job.Position{}, job.Position{}, job.Direction{}, units.Length{}, job.Angles{}
	switch s {
	case job.ArcShape:
		o.Facing, o.Radius, o.Angles = facing, radius, overCentre
	case job.LineShape:
		o.To = o.At
		o.To.X = units.Length{MM: o.At.X.MM + firstSize}
	case job.CircleShape:
		o.Facing, o.Radius = facing, radius
	}
}

// SetOn fixes an obstacle to another part of the car, and leaves it where it is
// seen in a corner whose upright stands elsewhere by so much; see Carried.
func SetOn(o *job.Obstacle, on job.ObstacleOn, by kinematics.Vec) {
	seen := ObstacleOf(o, by)
	o.On = on
	SetPlaces(o, &seen, by)
}

// Draft is an obstacle in the making: its shape, for a circle or an arc where it faces,
// and whether its places are to be drawn in the views.
type Draft struct {
	Shape  job.ObstacleShape
	Facing job.Direction
	Drawn  bool
}

// Obstacle is the draft with its places, mm: the point; both ends of the line;
// the centre of circle or arc and a point that it goes through, of which only the
// part square to its facing counts. An arc goes half round over its centre.
func (d Draft) Obstacle(name string, a, b kinematics.Vec) job.Obstacle {
	o := job.Obstacle{Name: name, Shape: d.Shape, At: placed(a)}
	switch d.Shape {
	case job.LineShape:
		o.To = placed(b)
	case job.CircleShape, job.ArcShape:
		o.Facing = d.Facing
		if d.Shape == job.ArcShape {
			o.Angles = overCentre
		}
		n := r3.Unit(d.Facing.Vec())
		out := r3.Sub(b, a)
		o.Radius = units.Length{MM: drawn(r3.Norm(r3.Sub(out, r3.Scale(r3.Dot(out, n), n))))}
	}
	return o
}

// drawnTo, mm, is how finely a drawn place is kept: no hand draws finer.
const drawnTo = 0.1

func drawn(mm float64) float64 { return math.Round(mm/drawnTo) / (1 / drawnTo) }

func placed(v kinematics.Vec) job.Position {
	return job.At(kinematics.Vec{X: drawn(v.X), Y: drawn(v.Y), Z: drawn(v.Z)})
}

// Beside is a place clear of a tyre at rest to begin typing from: inboard of it,
// on the height of the wheel centre, a hand's breadth off. It is made up.
func Beside(p *kinematics.Pose, t clearance.Tyre) kinematics.Vec {
	const handsBreadth = 80.0
	inboard := t.Reach(p, kinematics.Vec{Y: -1})
	return kinematics.Vec{X: p.WheelCentre.X, Y: -inboard - handsBreadth, Z: p.WheelCentre.Z}
}

// copyRise is how much higher a copy lies, so that it is seen, mm.
const copyRise = 20.0

// CopyOf is an obstacle of the job once more, under a free name and a little
// higher.
func CopyOf(j *job.Job, i int) job.Obstacle {
	o := j.Obstacles[i]
	o.Name = FreeName(j, o.Name)
	o.At.Z = units.Length{MM: o.At.Z.MM + copyRise}
	if o.Shape == job.LineShape || o.Shape == job.ArcShape && !o.Centred() {
		o.To.Z = units.Length{MM: o.To.Z.MM + copyRise}
	}
	if o.Shape == job.ArcShape && !o.Centred() {
		o.Via.Z = units.Length{MM: o.Via.Z.MM + copyRise}
	}
	return o
}
