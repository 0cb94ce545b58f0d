package scene

import (
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
	name        name
	text, arrow draw.Role
	from, to    int // in builder.text
	short       int // bytes that say enough where the whole finds no room; 0 is none
	tip         draw.Point
	target      draw.Point // both on the sheet
}

// pointOut queues the text written since at, with an arrow toward p, near the
// place where the way from a to p leaves the window, or that nearest to p if
// the way misses it. p must not be in view.
func (b *builder) pointOut(called name, text, arrow draw.Role, a, p draw.Point, at int) {
	w := b.v.Window().Grow(-arrowRoom)
	from, to := b.v.Sheet(draw.On(a)), b.v.Sheet(draw.On(p))
	tip := clampTo(w, to)
	if _, t1, ok := draw.SegmentInBox(from, to, w); ok {
		tip = from.Add(to.Sub(from).Mul(t1))
	}
	b.edges = append(b.edges, edge{name: called, text: text, arrow: arrow, from: at, to: len(b.text), tip: tip, target: to})
}

// Steps of the search for the place of an edge label, points.
const (
	edgeStep  = 12.0
	edgeIn    = 300.0 // farthest in from the edge
	edgeReach = 360.0 // farthest from the true place along it
	edgeArrow = 9.0
	edgeGap   = 4.0
)

// placeEdges finds the nearest free place for every edge label, whole or short,
// or leaves it where it stays.
func (b *builder) placeEdges() {
	for i := range b.edges {
		e := &b.edges[i]
		if h, ok := b.homeOf(e.name); ok {
			b.edgeAtHome(e, h)
			continue
		}
		if !b.placeEdge(e, 0) && (e.short == 0 || !b.placeEdge(e, 2)) {
			b.leftOut(e.name)
		}
	}
}

func (e *edge) textOf(text []byte, cut uint8) []byte {
	lab := label{short: e.short}
	return lab.textOf(text[e.from:e.to], cut)
}

// placeEdge draws an edge label where it covers nothing; false if there is no
// such place.
func (b *builder) placeEdge(e *edge, cut uint8) bool {
	text := e.textOf(b.text, cut)
	w, up, down := houseStyles.TextSize(e.text, b.in.Medium, text)
	size := draw.Point{X: w + edgeArrow + edgeGap, Y: up + down}
	for d := 0.0; d <= edgeIn+edgeReach; d += edgeStep {
		for in := 0.0; in <= min(d, edgeIn); in += edgeStep {
			for _, way := range [2]float64{1, -1} {
				box, ok := b.edgeBox(e, size, in, way*(d-in))
				if !ok || b.cover(box.Grow(notePad), 1) > 0 {
					continue
				}
				h := home{name: e.name, cut: cut, edge: true, right: e.target.X > box.Mid().X}
				h.off = draw.Point{X: box.Min.X, Y: box.Min.Y + down}
				if !h.right {
					h.off.X += edgeArrow + edgeGap
				}
				b.addBar(bar{box.Min, box.Max, true, coverText})
				b.boxes = append(b.boxes, box)
				b.drawEdge(e, text, h, w)
				return true
			}
		}
	}
	return false
}

// edgeAtHome writes an edge label where it stays. What has just left the view
// leaves its label at the edge.
func (b *builder) edgeAtHome(e *edge, h home) {
	text := e.textOf(b.text, h.cut)
	w, up, down := houseStyles.TextSize(e.text, b.in.Medium, text)
	if !h.edge {
		at := e.target.Add(h.off)
		if h.right {
			at.X -= w
		}
		h.edge, h.right, h.off = true, e.target.X > at.X+w/2, at
	}
	wide := draw.Box{Min: draw.Point{X: h.off.X, Y: h.off.Y - down}, Max: draw.Point{X: h.off.X + w, Y: h.off.Y + up}}
	if h.right {
		wide.Max.X += edgeArrow + edgeGap
	} else {
		wide.Min.X -= edgeArrow + edgeGap
	}
	in := b.stay(wide)
	h.off = h.off.Add(in.Min.Sub(wide.Min))
	b.out.Homes.put(h)
	if b.claim(in) {
		b.drawEdge(e, text, h, w)
	}
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

// drawEdge draws arrow and text at its home; the arrow points straight at the
// target.
func (b *builder) drawEdge(e *edge, text []byte, h home, w float64) {
	b.out.Homes.put(h)
	_, up, down := houseStyles.TextSize(e.text, b.in.Medium, text)
	c := draw.Point{X: h.off.X - edgeGap - edgeArrow/2, Y: h.off.Y + (up-down)/2}
	if h.right {
		c.X = h.off.X + w + edgeGap + edgeArrow/2
	}
	dir := e.target.Sub(c)
	n := dir.Len()
	if n == 0 {
		return
	}
	b.l.On(draw.LayerNotes)
	b.l.Arrowhead(e.arrow, b.onSheet(c.Add(dir.Mul(edgeArrow/2/n))), dir)
	b.l.TextBytes(e.text, b.onSheet(h.off), draw.Left|draw.Baseline, text)
}

func clampTo(b draw.Box, p draw.Point) draw.Point {
	return draw.Point{X: max(b.Min.X, min(p.X, b.Max.X)), Y: max(b.Min.Y, min(p.Y, b.Max.Y))}
}

func mid(p, q draw.Point) draw.Point { return p.Add(q).Mul(0.5) }
