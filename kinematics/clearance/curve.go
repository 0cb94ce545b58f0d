package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// curve is an obstacle made ready: from + t along for a line, t from 0 to 1, and
// round for a circle or an arc.
type curve struct {
	shape       Shape
	from, along Vec
	length      float64 // of a line
	round       Round
	thick       float64
}

func (o *Obstacle) curve() curve {
	c := curve{shape: o.Shape, from: o.A, thick: o.Thick}
	switch o.Shape {
	case Line:
		c.along = r3.Sub(o.B, o.A)
		c.length = r3.Norm(c.along)
	case Circle, Arc:
		c.round, _ = o.Round()
	}
	return c
}

func (c *curve) at(t float64) Vec {
	switch c.shape {
	case Line:
		return Vec{X: c.from.X + t*c.along.X, Y: c.from.Y + t*c.along.Y, Z: c.from.Z + t*c.along.Z}
	case Circle, Arc:
		return c.round.At(t)
	}
	return c.from
}

// Sizes of the search along a curve.
const (
	// alongTolerance, mm: how closely the nearest place along a curve is found.
	// The gap is flat there, so it comes out closer by far; where it is not, at
	// an edge of the tyre, it changes by no more than this.
	alongTolerance = 0.01
	// circleCells: parts of a whole circle searched one by one. In a part of an arch
	// lip of 350 mm, 61 mm long, the gap has one least value.
	circleCells = 36
	golden      = 0.6180339887498949
)

// least returns the least gap along the curve and where, if it is below
// `below`; any higher value may come back as `below`. No gap changes by more
// than the way along the curve, which cuts the search short.
func (c *curve) least(p *profile, s *stand, below float64) (gap float64, at Vec) {
	below += c.thick
	switch c.shape {
	case Point:
		gap, at = p.gap(s, c.from), c.from
	case Line:
		if gap = p.gap(s, c.at(0.5)); gap-c.length/2 >= below {
			return below - c.thick, c.from
		}
		gap, at = c.descend(p, s, 0, 1, c.length, below)
	default:
		gap, at = c.leastOnRound(p, s, below)
	}
	if gap > below {
		gap = below
	}
	return gap - c.thick, at
}

// descend is golden-section search for the least gap between two places, with
// `scale` mm of way for each unit of t. The gap to a convex body is convex
// along a line, so on a line it finds the least of all.
func (c *curve) descend(p *profile, s *stand, a, b, scale, below float64) (float64, Vec) {
	x1, x2 := b-golden*(b-a), a+golden*(b-a)
	q1, q2 := c.at(x1), c.at(x2)
	g1, g2 := p.gap(s, q1), p.gap(s, q2)
	for (b-a)*scale > alongTolerance && min(g1, g2)-(b-a)*scale < below {
		if g1 <= g2 {
			b, x2, g2, q2 = x2, x1, g1, q1
			x1 = b - golden*(b-a)
			q1 = c.at(x1)
			g1 = p.gap(s, q1)
		} else {
			a, x1, g1, q1 = x1, x2, g2, q2
			x2 = a + golden*(b-a)
			q2 = c.at(x2)
			g2 = p.gap(s, q2)
		}
	}
	gap, at := g1, q1
	if g2 < gap {
		gap, at = g2, q2
	}
	for _, t := range [...]float64{a, b} { // the ends themselves
		q := c.at(t)
		if g := p.gap(s, q); g < gap {
			gap, at = g, q
		}
	}
	return gap, at
}

func (c *curve) leastOnRound(p *profile, s *stand, below float64) (float64, Vec) {
	r := &c.round
	if p.gap(s, r.Centre)-r.Radius >= below {
		return below, r.Centre
	}
	cells := int(math.Ceil(circleCells * r.Sweep / (2 * math.Pi)))
	step := r.Sweep / float64(cells)
	cell := step * r.Radius
	best, at := math.Inf(1), r.Centre
	first := p.gap(s, c.at(0))
	for i, g := 0, first; i < cells; i++ {
		next := first // a circle comes back to where it began
		if i+1 < cells || c.shape == Arc {
			next = p.gap(s, c.at(float64(i+1)*step))
		}
		if (g+next-cell)/2 < min(best, below) {
			if found, q := c.descend(p, s, float64(i)*step, float64(i+1)*step, r.Radius, min(best, below)); found < best {
				best, at = found, q
			}
		}
		g = next
	}
	return best, at
}

// turned returns the curve turned about a point as the direction `was` turns
// into `is`, the shortest way.
func (c *curve) turned(about, was, is Vec) curve {
	was, is = r3.Unit(was), r3.Unit(is)
	axis, cos := r3.Cross(was, is), r3.Dot(was, is)
	turn := func(v Vec) Vec { // Rodrigues, with sin t in the axis; cos > -1 for any strut
		return r3.Add(r3.Add(r3.Scale(cos, v), r3.Cross(axis, v)), r3.Scale(r3.Dot(axis, v)/(1+cos), axis))
	}
	n := *c
	n.from, n.along = r3.Add(about, turn(r3.Sub(c.from, about))), turn(c.along)
	n.round.Centre, n.round.E, n.round.F = r3.Add(about, turn(r3.Sub(c.round.Centre, about))), turn(c.round.E), turn(c.round.F)
	return n
}
