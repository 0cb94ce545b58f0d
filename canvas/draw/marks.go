package draw

import "math"

// Sizes of marks in points.
const (
	HandleRadius = 5   // of a drawn handle
	HeldRadius   = 8.5 // of the ring about a held one
	HitRadius    = 12  // of the area that takes the pointer
	arrowLength  = 9
	arrowHalf    = 2.6
	diamondHalf  = 7
	extension    = 4 // of an extension line past its dimension line
)

// Handle adds the mark of a point that can be dragged.
func (l *List) Handle(role Role, p Point) { l.Circle(role, On(p), 0, HandleRadius) }

// Held adds the ring about a held point, role HandleHeld or Focus.
func (l *List) Held(role Role, p Point) { l.Circle(role, On(p), 0, HeldRadius) }

// Arrowhead adds a filled arrowhead with its tip at p, pointing along dir.
func (l *List) Arrowhead(role Role, p Pos, dir Point) {
	n := dir.Len()
	if n == 0 {
		panic("draw: arrowhead without direction")
	}
	u := dir.Mul(1 / n)
	l.Path(role, true, p,
		p.Off(-arrowLength*u.X-arrowHalf*u.Y, -arrowLength*u.Y+arrowHalf*u.X),
		p.Off(-arrowLength*u.X+arrowHalf*u.Y, -arrowLength*u.Y-arrowHalf*u.X))
}

// Diamond adds the mark of a centre that is found, not built.
func (l *List) Diamond(role Role, p Point) {
	o := On(p)
	l.Path(role, true, o.Off(diamondHalf, 0), o.Off(0, diamondHalf),
		o.Off(-diamondHalf, 0), o.Off(0, -diamondHalf))
}

// DimensionLine adds the dimension of the way from a to b: extension lines from
// both to a line drop points to the right hand of that way, with arrowheads. On
// a line shorter than tight mm the arrowheads stand outside, pointing in. It
// returns the middle of the dimension line, for the text. a and b must differ.
func (l *List) DimensionLine(line, arrow Role, a, b Point, drop, tight float64) Pos {
	d := b.Sub(a)
	n := d.Len()
	if n == 0 {
		panic("draw: dimension between equal points")
	}
	u := d.Mul(1 / n)
	r := Point{u.Y, -u.X}
	past := drop + math.Copysign(extension, drop)
	pa, pb := On(a).Off(r.X*drop, r.Y*drop), On(b).Off(r.X*drop, r.Y*drop)
	l.LineBy(line, On(a), On(a).Off(r.X*past, r.Y*past))
	l.LineBy(line, On(b), On(b).Off(r.X*past, r.Y*past))
	if n >= tight {
		l.LineBy(line, pa, pb)
		l.Arrowhead(arrow, pa, u.Mul(-1))
		l.Arrowhead(arrow, pb, u)
	} else {
		const out = 2.5 * arrowLength
		l.LineBy(line, pa.Off(-out*u.X, -out*u.Y), pb.Off(out*u.X, out*u.Y))
		l.Arrowhead(arrow, pa, u)
		l.Arrowhead(arrow, pb, u.Mul(-1))
	}
	return Pos{At: a.Add(d.Mul(0.5)), By: pa.By}
}
