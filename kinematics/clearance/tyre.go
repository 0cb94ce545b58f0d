package clearance

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// Vec is kinematics.Vec.
type Vec = kinematics.Vec

// Tyre is a round-shouldered cylinder; see the package page. All in mm.
type Tyre struct {
	Radius   float64 // overall, unloaded
	Section  float64 // width across the side walls
	Tread    float64 // width of the flat of the tread
	Shoulder float64 // radius between tread and side wall
	Widest   float64 // distance from the spin axis at which the section is widest
}

// Limits of a tyre, mm.
const (
	maxRadius = 1000.0
	// minShoulder: a sharper edge than any tyre has would need a finer outline.
	minShoulder = 5.0
)

// TyreError says which measure of a tyre makes no round-shouldered cylinder.
type TyreError struct {
	Measure string
	Value   float64 // mm as given; may be NaN or Inf
	Min     float64 // mm
	Max     float64 // mm
}

// Error names measure, value, limits and cure in one line.
func (e *TyreError) Error() string {
	return fmt.Sprintf("tyre %s %g mm is not between %g and %g mm; measure the tyre on its rim", e.Measure, e.Value, e.Min, e.Max)
}

// Validate returns a *[TyreError] for the first measure that makes no tyre.
func (t Tyre) Validate() error {
	for _, m := range []struct {
		name             string
		value, low, high float64
	}{
		{"radius", t.Radius, 4 * minShoulder, maxRadius},
		{"section width", t.Section, 2 * minShoulder, 2 * maxRadius},
		{"tread width", t.Tread, 0, t.Section - 2*minShoulder},
		{"shoulder radius", t.Shoulder, minShoulder, min((t.Section-t.Tread)/2, t.Radius/2)},
		{"radius to the widest place", t.Widest, 0, t.Radius - t.Shoulder},
	} {
		if !(m.value >= m.low && m.value <= m.high) {
			return &TyreError{m.name, m.value, m.low, m.high}
		}
	}
	return nil
}

// profile is half of a tyre's section, in the plane of u along the spin axis
// from the centre plane and v from the spin axis, for u not below zero: under
// the tread v = top, inside the arc about (au, av), inside the flank with the
// unit normal (nu, nv), and within u = half up to v = widest.
type profile struct {
	top, half, widest float64
	au, av, r         float64
	nu, nv, flank     float64
}

// profile measures a valid tyre.
func (t Tyre) profile() profile {
	p := profile{top: t.Radius, half: t.Section / 2, widest: t.Widest,
		au: t.Tread / 2, av: t.Radius - t.Shoulder, r: t.Shoulder}
	// The flank touches the arc and passes through the widest place (du, -dv)
	// from the arc's centre: du cos a - dv sin a = r.
	du, dv := p.half-p.au, p.av-p.widest
	a := math.Acos(min(1, p.r/math.Hypot(du, dv))) - math.Atan2(dv, du)
	p.nv, p.nu = math.Sincos(a)
	p.flank = p.nu*p.half + p.nv*p.widest
	return p
}

// distance returns the signed distance of a point to the section turned about
// the spin axis, below zero inside. The section is convex and so is the
// distance along any straight line in space.
func (p *profile) distance(u, v float64) float64 {
	u = math.Abs(u)
	x, y := u-p.au, v-p.av
	if x >= 0 && p.nu*y >= p.nv*x { // over the arc
		return math.Sqrt(x*x+y*y) - p.r
	}
	tread, side, flank := v-p.top, u-p.half, p.nu*u+p.nv*v-p.flank
	if inside := max(tread, side, flank); inside <= 0 {
		return inside
	}
	if x < 0 {
		return tread
	}
	y = v - p.widest
	switch {
	case y <= 0:
		return side
	case p.nu*y <= p.nv*side: // round the corner at the widest place
		return math.Sqrt(side*side + y*y)
	}
	return flank
}

// stand is a tyre's place in one pose.
type stand struct{ centre, spin Vec }

func standOf(p *kinematics.Pose) stand { return stand{p.WheelCentre, p.Spin} }

// polar returns a point's place along the spin axis and off it.
func (s *stand) polar(q Vec) (u, v float64) {
	x, y, z := q.X-s.centre.X, q.Y-s.centre.Y, q.Z-s.centre.Z
	u = x*s.spin.X + y*s.spin.Y + z*s.spin.Z
	return u, math.Sqrt(max(0, x*x+y*y+z*z-u*u))
}

// gap is the signed distance of a point to the tyre as it stands.
func (p *profile) gap(s *stand, q Vec) float64 {
	u, v := s.polar(q)
	return p.distance(u, v)
}

// support returns how far the tyre reaches from its centre in a unit
// direction that makes the sine `along` with the centre plane. The section is
// the hull of both shoulder arcs and both widest places.
func (p *profile) support(along float64) float64 {
	along = math.Abs(along)
	across := math.Sqrt(max(0, 1-along*along))
	return max(p.au*along+p.av*across+p.r, p.half*along+p.widest*across)
}

// Gap returns the signed distance in mm of a point to the tyre in a pose,
// below zero by how deep the point stands inside. The pose must be relative to
// the same axes as the point. It panics for a tyre that Validate refuses.
func (t Tyre) Gap(p *kinematics.Pose, q Vec) float64 {
	t.must()
	prof, s := t.profile(), standOf(p)
	return prof.gap(&s, q)
}

// Reach returns how far the tyre reaches in a pose in a direction, mm from the
// origin: the largest scalar product of any of its points with the unit
// vector of the direction. It panics for a zero direction.
func (t Tyre) Reach(p *kinematics.Pose, direction Vec) float64 {
	t.must()
	n := r3.Norm(direction)
	if n == 0 {
		panic("kinematics: clearance: no direction")
	}
	direction = r3.Scale(1/n, direction)
	prof := t.profile()
	return r3.Dot(direction, p.WheelCentre) + prof.support(r3.Dot(direction, p.Spin))
}

func (t Tyre) must() {
	if err := t.Validate(); err != nil {
		panic("kinematics: clearance: " + err.Error())
	}
}
