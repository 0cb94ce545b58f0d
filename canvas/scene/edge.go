package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// arrowRoom is how far inside the window, in points, marks of things outside stand.
const arrowRoom = 8.0

// inView tells whether p stands in the window with room for a mark.
func (b *builder) inView(p draw.Point) bool {
	return b.v.Window().Grow(-arrowRoom).Has(b.v.Sheet(draw.On(p)))
}

// edge is a label at the edge of the window, with an arrow toward something
// outside.
type edge struct {
	text, arrow draw.Role
	from, to    int // in builder.text
	short       int // bytes that say enough where the whole finds no room; 0 is none
	tip         draw.Point
	target      draw.Point // both on the sheet
}

// pointOut queues the text written since at, with an arrow toward p, near the
// place where the way from a to p leaves the window, or that nearest to p if
// the way misses it. p must not be in view.
func (b *builder) pointOut(text, arrow draw.Role, a, p draw.Point, at int) {
	w := b.v.Window().Grow(-arrowRoom)
	from, to := b.v.Sheet(draw.On(a)), b.v.Sheet(draw.On(p))
	tip := clampTo(w, to)
	if _, t1, ok := draw.SegmentInBox(from, to, w); ok {
		tip = from.Add(to.Sub(from).Mul(t1))
	}
	b.edges = append(b.edges, edge{text: text, arrow: arrow, from: at, to: len(b.text), tip: tip, target: to})
}

// Steps of the search for the place of an edge label, points.
const (
	edgeStep  = 12.0
	edgeIn    = 300.0 // farthest in from the edge
	edgeReach = 360.0 // farthest from the true place along it
	edgeArrow = 9.0
	edgeGap   = 4.0
)

// placeEdges finds the nearest free place for every edge label.
func (b *builder) placeEdges() {
	for i := range b.edges {
		e := &b.edges[i]
		if e.short == 0 {
			b.placeEdge(e, coverPart)
		} else if !b.placeEdge(e, coverPlain) {
			e.to = e.from + e.short
			b.placeEdge(e, coverPart)
		}
	}
}

// placeEdge draws an edge label where it covers least; false if everywhere it
// would cover as much as most.
func (b *builder) placeEdge(e *edge, most int) bool {
	text := b.text[e.from:e.to]
	w, up, down := houseStyles.TextSize(e.text, b.in.Medium, text)
	size := draw.Point{X: w + edgeArrow + edgeGap, Y: up + down}
	best, found := math.MaxInt, false
	var place draw.Box
	for d := 0.0; d <= edgeIn+edgeReach && best > 0; d += edgeStep {
		for in := 0.0; in <= min(d, edgeIn) && best > 0; in += edgeStep {
			for _, way := range [2]float64{1, -1} {
				box, ok := b.edgeBox(e, size, in, way*(d-in))
				if !ok {
					continue
				}
				if cost := b.cover(box.Grow(notePad), best); cost < best {
					best, found, place = cost, true, box
				}
			}
		}
	}
	if !found || best >= most {
		return false // better no word than that
	}
	b.addBar(bar{place.Min, place.Max, true, coverText})
	b.drawEdge(e, text, place, down)
	return true
}

// edgeBox is the box in points in from the edge and along points along it.
func (b *builder) edgeBox(e *edge, size draw.Point, in, along float64) (draw.Box, bool) {
	w := b.v.Window().Grow(-arrowRoom)
	p := e.tip
	switch e.side(w) {
	case draw.West:
		p = draw.Point{X: w.Min.X + in, Y: p.Y + along - size.Y/2}
	case draw.East:
		p = draw.Point{X: w.Max.X - in - size.X, Y: p.Y + along - size.Y/2}
	case draw.North:
		p = draw.Point{X: p.X + along - size.X/2, Y: w.Max.Y - in - size.Y}
	default:
		p = draw.Point{X: p.X + along - size.X/2, Y: w.Min.Y + in}
	}
	box := draw.Box{Min: p, Max: p.Add(size)}
	return box, inside(w, box)
}

// side tells which edge of the window the tip stands at.
func (e *edge) side(w draw.Box) draw.Direction {
	const near = 1.0
	switch {
	case e.tip.X <= w.Min.X+near:
		return draw.West
	case e.tip.X >= w.Max.X-near:
		return draw.East
	case e.tip.Y >= w.Max.Y-near:
		return draw.North
	}
	return draw.South
}

// drawEdge draws arrow and text into box; the arrow stands on the side where
// the target lies and points straight at it.
func (b *builder) drawEdge(e *edge, text []byte, box draw.Box, down float64) {
	x, textX := box.Min.X+edgeArrow/2, box.Min.X+edgeArrow+edgeGap
	if e.target.X > box.Mid().X {
		x, textX = box.Max.X-edgeArrow/2, box.Min.X
	}
	c := draw.Point{X: x, Y: box.Mid().Y}
	dir := e.target.Sub(c)
	n := dir.Len()
	tip := c.Add(dir.Mul(edgeArrow / 2 / n))
	b.l.On(draw.LayerNotes)
	b.l.Arrowhead(e.arrow, draw.Pos{At: b.v.Centre, By: tip}, dir)
	b.l.TextBytes(e.text, draw.Pos{At: b.v.Centre, By: draw.Point{X: textX, Y: box.Min.Y + down}}, draw.Left|draw.Baseline, text)
}

func clampTo(b draw.Box, p draw.Point) draw.Point {
	return draw.Point{X: max(b.Min.X, min(p.X, b.Max.X)), Y: max(b.Min.Y, min(p.Y, b.Max.Y))}
}

func mid(p, q draw.Point) draw.Point { return p.Add(q).Mul(0.5) }
