package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Round is a circle or a part of it: Centre + Radius (cos t E + sin t F) for t
// from 0 to Sweep.
type Round struct {
	Centre, E, F Vec // E and F of unit length, square to each other
	Radius       float64
	Sweep        float64 // rad, up to a whole turn
}

// At is a place of it.
func (r *Round) At(t float64) Vec {
	s, k := math.Sincos(t)
	s, k = s*r.Radius, k*r.Radius
	return Vec{X: r.Centre.X + k*r.E.X + s*r.F.X, Y: r.Centre.Y + k*r.E.Y + s*r.F.Y, Z: r.Centre.Z + k*r.E.Z + s*r.F.Z}
}

// Round returns the round of a circle or an arc that check lets pass; ok is
// false for other shapes and for three places that make no arc.
func (o *Obstacle) Round() (r Round, ok bool) {
	switch {
	case o.Shape == Arc:
		return ArcThrough(o.A, o.C, o.B)
	case o.Shape != Circle || r3.Norm2(o.B) == 0:
		return Round{}, false
	}
	n := r3.Unit(o.B)
	least := Vec{X: 1}
	if math.Abs(n.X) > math.Abs(n.Y) {
		least = Vec{Y: 1}
	}
	e := r3.Unit(r3.Cross(n, least))
	return Round{o.A, e, r3.Cross(n, e), o.Radius, 2 * math.Pi}, true
}

// ArcThrough is the arc from one end through a place between to the other end.
// ok is false where two of them stand within MinSpan, or all three in a line or
// so nearly that the radius is beyond MaxLength.
func ArcThrough(from, through, to Vec) (r Round, ok bool) {
	a, b := r3.Sub(through, from), r3.Sub(to, from)
	if !(min(r3.Norm(a), r3.Norm(b), r3.Norm(r3.Sub(to, through))) >= kinematics.MinSpan) {
		return Round{}, false
	}
	n := r3.Cross(a, b)
	n2 := r3.Norm2(n)
	if !(n2 > 0) {
		return Round{}, false
	}
	// From the first end to the centre of the circle through all three.
	off := r3.Scale(1/(2*n2), r3.Add(r3.Scale(r3.Norm2(a), r3.Cross(b, n)), r3.Scale(r3.Norm2(b), r3.Cross(n, a))))
	if r.Radius = r3.Norm(off); !(r.Radius <= kinematics.MaxLength) {
		return Round{}, false
	}
	r.Centre = r3.Add(from, off)
	r.E = r3.Unit(r3.Scale(-1, off))
	r.F = r3.Cross(r3.Unit(n), r.E)
	end := r3.Sub(to, r.Centre)
	if r.Sweep = math.Atan2(r3.Dot(end, r.F), r3.Dot(end, r.E)); r.Sweep <= 0 {
		r.Sweep += 2 * math.Pi
	}
	return r, true
}
