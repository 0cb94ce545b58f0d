package draw

import "math"

// Point is a place or a difference of places, y up; in mm unless said otherwise.
type Point struct{ X, Y float64 }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p stretched by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Len returns the distance of p from the origin.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

// Pos is the point At of the world, in mm, and from there By, in points.
type Pos struct{ At, By Point }

// At returns the Pos on the world point (x, y).
func At(x, y float64) Pos { return Pos{At: Point{x, y}} }

// On returns the Pos on the world point p.
func On(p Point) Pos { return Pos{At: p} }

// Off returns p moved by dx, dy points.
func (p Pos) Off(dx, dy float64) Pos {
	p.By.X += dx
	p.By.Y += dy
	return p
}

func (p Pos) finite() bool {
	// A sum that is not finite minus itself is NaN, which differs from 0.
	s := p.At.X + p.At.Y + p.By.X + p.By.Y
	return s-s == 0
}

// Box is an upright rectangle. The zero Box is the point at the origin;
// EmptyBox holds nothing.
type Box struct{ Min, Max Point }

// EmptyBox returns the box that holds no point and may be extended.
func EmptyBox() Box {
	return Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
}

// IsEmpty tells whether b holds no point.
func (b Box) IsEmpty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y }

// W returns the width of b.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H returns the height of b.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Mid returns the middle of b.
func (b Box) Mid() Point { return Point{(b.Min.X + b.Max.X) / 2, (b.Min.Y + b.Max.Y) / 2} }

// With returns the smallest box around b and p.
func (b Box) With(p Point) Box {
	b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
	b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	return b
}

// Grow returns b with d added on every side.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Has tells whether p lies in b or on its edge.
func (b Box) Has(p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// nearest returns the point of b nearest to p.
func (b Box) nearest(p Point) Point {
	return Point{max(b.Min.X, min(p.X, b.Max.X)), max(b.Min.Y, min(p.Y, b.Max.Y))}
}

// Overlaps tells whether b and c share more than an edge.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// maxArcSteps bounds the chords of one arc. With a tolerance of a tenth of a
// point it is reached at a radius of about 5 million points, where the arc
// inside any window is a straight line.
const maxArcSteps = 16384

// ArcSteps returns how many chords follow an arc so closely that none leaves it
// by more than tol. radius and tol in the same unit, sweep in radians of either
// sign. From the sagitta of a chord, r (1 - cos(step/2)).
func ArcSteps(radius, sweep, tol float64) int {
	if radius <= tol {
		return min(4, 1+int(math.Abs(sweep)))
	}
	step := 2 * math.Acos(1-tol/radius)
	n := math.Ceil(math.Abs(sweep) / step)
	return int(max(1, min(n, maxArcSteps)))
}
