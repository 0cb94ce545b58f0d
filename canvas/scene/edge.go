package scene

import "armscribe/canvas/draw"

// arrowRoom is how far inside the window, in points, marks of things outside stand.
const arrowRoom = 8.0

// inView tells whether p stands in the window with room for a mark.
func (b *builder) inView(p draw.Point) bool {
	return b.v.Window().Grow(-arrowRoom).Has(b.v.Sheet(draw.On(p)))
}

// edgeArrow draws an arrow where the way from a to p leaves the window, or at
// the place of the window nearest to p if that way misses it, and returns a
// place just inside for the label. p must not be in view.
func (b *builder) edgeArrow(role draw.Role, a, p draw.Point) draw.Pos {
	w := b.v.Window().Grow(-arrowRoom)
	from, to := b.v.Sheet(draw.On(a)), b.v.Sheet(draw.On(p))
	tip := clampTo(w, to)
	if _, t1, ok := draw.SegmentInBox(from, to, w); ok {
		tip = from.Add(to.Sub(from).Mul(t1))
	}
	dir := to.Sub(tip)
	b.l.On(draw.LayerDimensions)
	at := draw.Pos{At: b.v.Centre, By: tip}
	b.l.Arrowhead(role, at, dir)
	dir = dir.Mul(1 / dir.Len())
	return at.Off(-9*dir.X, -9*dir.Y)
}

func clampTo(b draw.Box, p draw.Point) draw.Point {
	return draw.Point{X: max(b.Min.X, min(p.X, b.Max.X)), Y: max(b.Min.Y, min(p.Y, b.Max.Y))}
}

func mid(p, q draw.Point) draw.Point { return p.Add(q).Mul(0.5) }
