package bumpsteer

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// touching is how far, in mm, three spheres may miss each other and still meet:
// rounding alone parts links that stand in one line.
const touching = 1e-9

// threeSpheres returns the point at given distances from three others, on the
// given side of their plane (as of sideOf); false when there is none or the
// three stand in one line. In the frame with x from a to b and c in the xy
// plane the differences of the sphere equations are linear in x and y.
func threeSpheres(a kinematics.Vec, ra float64, b kinematics.Vec, rb float64, c kinematics.Vec, rc, side float64) (kinematics.Vec, bool) {
	ab, ac := r3.Sub(b, a), r3.Sub(c, a)
	d := r3.Norm(ab)
	if d < touching {
		return kinematics.Vec{}, false
	}
	ex := r3.Scale(1/d, ab)
	i := r3.Dot(ex, ac)
	off := r3.Sub(ac, r3.Scale(i, ex))
	j := r3.Norm(off)
	if j < touching {
		return kinematics.Vec{}, false
	}
	ey := r3.Scale(1/j, off)
	x := (ra*ra - rb*rb + d*d) / (2 * d)
	y := (ra*ra - rc*rc + i*i + j*j - 2*i*x) / (2 * j)
	flat := math.Hypot(x, y)
	square := (ra - flat) * (ra + flat)
	if square < 0 {
		if flat-ra > touching {
			return kinematics.Vec{}, false
		}
		square = 0
	}
	z := side * math.Sqrt(square)
	return r3.Add(a, r3.Add(r3.Add(r3.Scale(x, ex), r3.Scale(y, ey)), r3.Scale(z, r3.Cross(ex, ey)))), true
}

// sideOf tells on which side of the plane through a, b and c a point is: +1
// where (b-a) x (c-a) points, else -1.
func sideOf(p, a, b, c kinematics.Vec) float64 {
	if r3.Dot(r3.Sub(p, a), r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) < 0 {
		return -1
	}
	return 1
}

// axes is a right-handed set of unit vectors.
type axes struct{ a, b, c kinematics.Vec }

// uprightAxes are fixed to a body that carries three points: along the first
// two, toward the third, and square to both.
func uprightAxes(p, q, third kinematics.Vec) axes {
	a := r3.Unit(r3.Sub(q, p))
	b := r3.Sub(third, p)
	b = r3.Unit(r3.Sub(b, r3.Scale(r3.Dot(b, a), a)))
	return axes{a, b, r3.Cross(a, b)}
}

func (f axes) local(v kinematics.Vec) kinematics.Vec {
	return kinematics.Vec{X: r3.Dot(v, f.a), Y: r3.Dot(v, f.b), Z: r3.Dot(v, f.c)}
}

func (f axes) space(v kinematics.Vec) kinematics.Vec {
	return r3.Add(r3.Scale(v.X, f.a), r3.Add(r3.Scale(v.Y, f.b), r3.Scale(v.Z, f.c)))
}

// spinAxis is the unit spin axis of a wheel, pointing outboard.
func spinAxis(camber, toe float64) kinematics.Vec {
	sc, cc := math.Sincos(camber)
	st, ct := math.Sincos(toe)
	return kinematics.Vec{X: cc * st, Y: cc * ct, Z: -sc}
}
