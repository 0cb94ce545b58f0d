package kinematics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Flat is a point or direction of the front view, X outboard and Y up, mm.
type Flat = r2.Vec

// Front drops the x of a point: its place in the front view.
func Front(v Vec) Flat { return Flat{X: v.Y, Y: v.Z} }

// Place is a point of the front view that may lie at infinity; then At is the
// unit direction toward it, of either sign.
type Place struct {
	At         Flat
	AtInfinity bool
}

// MeetLines returns where the line through a and b meets the line through c
// and d. Parallel lines meet at infinity, in their common direction. Coincident
// ends of a line are a caller's bug.
func MeetLines(a, b, c, d Flat) Place {
	u, v := r2.Sub(b, a), r2.Sub(d, c)
	if r2.Norm2(u) == 0 || r2.Norm2(v) == 0 {
		panic(fmt.Sprintf("kinematics: no line through %v and %v, or %v and %v", a, b, c, d))
	}
	u, v = r2.Unit(u), r2.Unit(v)
	sine := r2.Cross(u, v)
	if math.Abs(sine) <= parallelSine {
		return Place{At: u, AtInfinity: true}
	}
	s := r2.Cross(r2.Sub(c, a), v) / sine
	return Place{At: r2.Add(a, r2.Scale(s, u))}
}

// InstantCentre returns the point about which a coupler turns at this moment,
// by the theorem of the three centres (Aronhold, Kennedy): the centres of three
// bodies two by two lie on one line. The coupler's centre against an arm is
// their joint, the arm's against the body its pivot, so the coupler's centre
// against the body lies on both lines pivot-joint.
func InstantCentre(pivotA, jointA, pivotB, jointB Flat) Place {
	return MeetLines(pivotA, jointA, pivotB, jointB)
}

// ArmsCentre returns the point about which one arm turns against the other at
// this moment, by the same theorem: it lies on the line of both pivots and on
// the line of both joints. The ratio of the arms' angular velocities is that
// of its distances from their pivots, crossed.
func ArmsCentre(pivotA, jointA, pivotB, jointB Flat) Place {
	return MeetLines(pivotA, pivotB, jointA, jointB)
}

// CentreOfCurvature returns the centre of the circle that the path of a point
// of the coupler follows at this moment, given two points of the coupler
// (joints) whose path centres (pivots) are known.
//
// With the instant centre P at a finite place it is the Euler-Savary equation:
// the inflection point J on the ray of each point X with path centre X0 obeys
// XP^2 = XX0 * XJ (directed lengths along the ray); the inflection circle goes
// through P and both J; where the point's own ray meets it again gives its J
// and with the same equation its centre. (Bobillier's construction is the same
// relation drawn with ruler and compasses. Sources: Hartenberg and Denavit,
// Kinematic Synthesis of Linkages, 1964, chapter 7, from memory; K. H. Hunt,
// Kinematic Geometry of Mechanisms, 1978, from memory.)
//
// With P at infinity the coupler moves without turning: all points share one
// velocity along t, and their normal accelerations differ only by the angular
// acceleration's part, so curvature is linear along t: it runs from 1/AA0 at
// joint A to 1/BB0 at joint B.
//
// The centre is at infinity, in the direction of the point's ray, where the
// path has no curvature at this moment. ok is false when the point stands on
// P (it does not move), and when the two joints cannot settle the motion.
func CentreOfCurvature(point, pivotA, jointA, pivotB, jointB Flat) (centre Place, ok bool) {
	pole := InstantCentre(pivotA, jointA, pivotB, jointB)
	if pole.AtInfinity {
		return translationCentre(point, pole.At, pivotA, jointA, pivotB, jointB)
	}
	p := pole.At
	// The inflection circle through p with diameter vector e meets the ray of
	// unit direction u at the distance e.u.
	uA, jA, okA := inflection(p, pivotA, jointA)
	uB, jB, okB := inflection(p, pivotB, jointB)
	sine := r2.Cross(uA, uB)
	ray := r2.Sub(point, p)
	distance := r2.Norm(ray)
	if !okA || !okB || math.Abs(sine) <= parallelSine || distance <= fullReachSlack {
		return Place{}, false
	}
	e := Flat{X: (jA*uB.Y - jB*uA.Y) / sine, Y: (jB*uA.X - jA*uB.X) / sine}
	u := r2.Scale(1/distance, ray)
	gap := r2.Dot(e, u) - distance // directed from the point to its inflection point
	return along(point, u, distance*distance, gap), true
}

// inflection returns the direction from the pole to a joint and the distance
// from the pole to the inflection point on it.
func inflection(pole, pivot, joint Flat) (u Flat, distance float64, ok bool) {
	ray := r2.Sub(joint, pole)
	d := r2.Norm(ray)
	if d <= fullReachSlack {
		return Flat{}, 0, false
	}
	u = r2.Scale(1/d, ray)
	return u, d + d*d/r2.Dot(r2.Sub(pivot, joint), u), true
}

// along returns the point at num/den from a point in direction u, or the
// direction itself where that is farther than any mechanism reaches.
func along(from, u Flat, num, den float64) Place {
	if math.Abs(den) <= parallelSine*math.Abs(num)/MaxLength {
		return Place{At: u, AtInfinity: true}
	}
	return Place{At: r2.Add(from, r2.Scale(num/den, u))}
}

// translationCentre is CentreOfCurvature for parallel arms of direction n.
func translationCentre(point, n, pivotA, jointA, pivotB, jointB Flat) (Place, bool) {
	t := Flat{X: -n.Y, Y: n.X}
	kA, kB := 1/r2.Dot(r2.Sub(pivotA, jointA), n), 1/r2.Dot(r2.Sub(pivotB, jointB), n)
	span := r2.Dot(r2.Sub(jointB, jointA), t)
	if math.Abs(span) <= fullReachSlack {
		return Place{}, false // both joints on one line along the arms: a change point
	}
	k := kA + (kB-kA)*r2.Dot(r2.Sub(point, jointA), t)/span
	return along(point, n, 1, k), true
}
