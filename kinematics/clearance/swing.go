package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/peak"
)

// Swing is how far the farthest point of each shoulder, from the edge of the
// tread over to the side wall, stands from the steering axis, square to it, mm:
// the radius on which it goes round as the wheel steers. Inner and outer are
// the two shoulders, front and rear their halves ahead of and behind the spin
// axis.
type Swing struct{ InnerFront, InnerRear, OuterFront, OuterRear float64 }

// SwingOf returns the swing radii in a pose. They are the same at any lock, for
// the axis and the tyre turn as one, and change a little with nothing but the
// tyre and where it stands on the hub. It panics for a tyre that Validate
// refuses.
func SwingOf(p *kinematics.Pose, t Tyre) Swing {
	t.must()
	prof, s := t.profile(), standOf(p)
	forward, _ := p.Heading()
	far := func(side float64, ahead Vec) float64 {
		return prof.farthest(&s, p.LowerBall, p.SteeringAxis(), side, ahead)
	}
	back := r3.Scale(-1, forward)
	return Swing{
		InnerFront: far(-1, forward), InnerRear: far(-1, back),
		OuterFront: far(1, forward), OuterRear: far(1, back),
	}
}

// Sizes of the search for the farthest point.
const (
	farLooks = 32   // over half a turn of the tyre: 6 degrees
	farFine  = 1e-5 // rad; the distance is flat there, so it is exact to rounding
	arcFine  = 1e-5 // rad of a shoulder's arc, likewise
)

// farthest returns the largest distance from a line, through `on` along the
// unit vector `axis`, of any point of one shoulder in the half turn that
// centres on the direction `ahead` square to the spin axis. It is a point of
// the arc or of the edge at the widest place, for in between the flank is straight.
func (p *profile) farthest(s *stand, on, axis Vec, side float64, ahead Vec) float64 {
	e := r3.Unit(r3.Sub(ahead, r3.Scale(r3.Dot(ahead, s.spin), s.spin)))
	f := r3.Cross(s.spin, e)
	off := func(u, v, t float64) float64 {
		sin, cos := math.Sincos(t)
		q := r3.Add(s.centre, r3.Add(r3.Scale(side*u, s.spin), r3.Add(r3.Scale(v*cos, e), r3.Scale(v*sin, f))))
		return math.Sqrt(r3.Norm2(r3.Cross(r3.Sub(q, on), axis))) // r3.Norm is slower
	}
	from := math.Atan2(p.nv, p.nu)
	shoulder := func(t float64) float64 {
		arc := func(a float64) float64 {
			sin, cos := math.Sincos(a)
			return off(p.au+p.r*cos, p.av+p.r*sin, t)
		}
		return max(most(arc, from, math.Pi/2, arcFine), off(p.half, p.widest, t))
	}
	// Where to look closer, with a whole ball for the shoulder.
	const step = math.Pi / farLooks
	best, at := math.Inf(-1), 0.0
	for i := range farLooks + 1 {
		t := -math.Pi/2 + float64(i)*step
		if d := max(off(p.au, p.av, t)+p.r, off(p.half, p.widest, t)); d > best {
			best, at = d, t
		}
	}
	return most(shoulder, at-step, at+step, farFine)
}

// most returns the largest value of f between two places.
func most(f func(float64) float64, a, b, tolerance float64) float64 {
	_, v := peak.Between(f, a, b, tolerance)
	return v
}
