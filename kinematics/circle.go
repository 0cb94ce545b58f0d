package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Vec is a point or direction in the axes of the package page, mm or unitless.
type Vec = r3.Vec

// fullReachSlack is how far, in mm of link length, a circle may miss its sphere
// and still count as touching it: two links in one line assemble exactly,
// although rounding leaves them a few times 1e-13 mm short.
const fullReachSlack = 1e-9

// onAxis is the square of the distance, in radii of a circle, within which a
// sphere's centre counts as standing on the circle's axis. 1e-7 of 400 mm is
// 4e-5 mm, where the direction from the axis still has seven digits.
const onAxis = 1e-14

// circle is the path of a point that turns about a fixed axis.
type circle struct {
	centre Vec     // on the axis, level with the point
	axis   Vec     // unit
	radius float64 // mm, above zero
}

// circleThrough returns the circle of a point about the axis through `on`.
func circleThrough(p, on, axis Vec) circle {
	centre := r3.Add(on, r3.Scale(r3.Dot(r3.Sub(p, on), axis), axis))
	return circle{centre, axis, length(r3.Sub(p, centre))}
}

// meetSphere returns where the circle meets the sphere of the given radius about q.
//
// Measured from the direction w of the sphere's centre as seen along the axis,
// the answer obeys r |w| cos t = k with k = (r^2 + |q-centre|^2 - R^2) / 2,
// which is the law of cosines. There are two roots; side (+1 or -1) picks the
// one to the left or right of w about the axis. A root missed by less than
// fullReachSlack is clamped to the touching point.
//
// ok is false when they do not meet, and when the sphere's centre lies on the
// axis, where every point of the circle is equally far.
func (c *circle) meetSphere(q Vec, radius, side float64) (p Vec, ok bool) {
	w := r3.Sub(q, c.centre)
	k := (c.radius*c.radius + r3.Dot(w, w) - radius*radius) / 2
	return c.meet(w, k, radius*fullReachSlack, side)
}

// meet returns the circle's point whose offset from the centre has the scalar
// product k with w; slack is how far k may overshoot (same unit as k).
func (c *circle) meet(w Vec, k, slack, side float64) (p Vec, ok bool) {
	w = r3.Sub(w, r3.Scale(r3.Dot(w, c.axis), c.axis))
	d2 := r3.Dot(w, w)
	if d2 <= onAxis*c.radius*c.radius {
		return Vec{}, false
	}
	square := c.radius*c.radius*d2 - k*k
	if square < 0 {
		reach := c.radius * math.Sqrt(d2)
		if math.Abs(k)-reach > slack {
			return Vec{}, false
		}
		k, square = math.Copysign(reach, k), 0
	}
	n := 1 / d2
	along, across := k*n, side*math.Sqrt(square)*n
	v := r3.Cross(c.axis, w)
	return Vec{
		X: c.centre.X + along*w.X + across*v.X,
		Y: c.centre.Y + along*w.Y + across*v.Y,
		Z: c.centre.Z + along*w.Z + across*v.Z,
	}, true
}

// sideOf tells on which side of a sphere about q the circle's point p lies,
// for meetSphere: +1 or -1, and +1 where p stands exactly at full reach.
func (c *circle) sideOf(p, q Vec) float64 {
	w := r3.Sub(q, c.centre)
	if r3.Dot(r3.Cross(c.axis, w), r3.Sub(p, c.centre)) < 0 {
		return -1
	}
	return 1
}

// miss returns by how many mm the sphere radius fails to meet the circle, 0
// when it does not fail; tooLarge is set when the radius exceeds the farthest
// point of the circle, and clear when it falls short of the nearest.
func (c *circle) miss(q Vec, radius float64) (mm float64, tooLarge bool) {
	w := r3.Sub(q, c.centre)
	h := r3.Dot(w, c.axis)
	d := length(r3.Sub(w, r3.Scale(h, c.axis)))
	near, far := math.Hypot(d-c.radius, h), math.Hypot(d+c.radius, h)
	switch {
	case radius > far:
		return radius - far, true
	case radius < near:
		return near - radius, false
	}
	return 0, false
}

// clearance says how far from full reach a pose stands.
type clearance struct {
	open float64 // square of the sine of the angle at a circle's centre, 0 at full reach
	near float64 // mm from a sphere's centre to its circle's axis
}

// isClear tells whether the circle's point p stands clear of full reach of a
// sphere about q.
func (c *circle) isClear(p, q Vec, least clearance) bool {
	w, e := r3.Sub(q, c.centre), r3.Sub(p, c.centre)
	v := r3.Cross(c.axis, w)
	cross, d2 := r3.Dot(v, e), r3.Dot(v, v)
	return cross*cross > least.open*d2*c.radius*c.radius && d2 > least.near*least.near
}

// length is the plain root: coordinates are limited to MaxLength, so squares
// neither overflow nor vanish and r3.Norm's scaling would only cost time.
func length(v Vec) float64 { return math.Sqrt(r3.Dot(v, v)) }

// unit returns v scaled to length 1; v must not be zero (callers check).
func unit(v Vec) Vec { return r3.Scale(1/length(v), v) }
