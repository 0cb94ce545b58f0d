package draw

import (
	"fmt"
	"math"
)

// Direction is where a label would like to stand, seen from what it names.
type Direction uint8

// The directions. Odd numbers stand between them and have no name.
const (
	East Direction = 2 * iota
	NorthEast
	North
	NorthWest
	West
	SouthWest
	South
	SouthEast
	directionCount
)

var compass = [directionCount]Point{
	{1, 0}, {1, 0.5}, {1, 1}, {0.5, 1}, {0, 1}, {-0.5, 1}, {-1, 1}, {-1, 0.5},
	{-1, 0}, {-1, -0.5}, {-1, -1}, {-0.5, -1}, {0, -1}, {0.5, -1}, {1, -1}, {1, -0.5},
}

// Distances of labels in points.
const (
	// labelPad is the air around a label.
	labelPad = 2.0
	// leaderFrom is the distance from which a label needs a leader.
	leaderFrom = 22.0
)

// rings are the distances tried, from the anchor's own clearance on.
var rings = [...]float64{0, 6, 12, 20, 30, 42, 56, 74, 96, 122, 152, 186, 224}

// Far places lie on a lattice of farStep points that reaches farReach steps from
// the anchor; they are searched when no ring has room. Their slots follow those
// of the rings.
const (
	farStep  = 16.0
	farReach = 28
	farSide  = 2*farReach + 1
	firstFar = 1 + len(rings)*int(directionCount)
)

// Label is a text that looks for a place.
type Label struct {
	Role   Role
	Text   []byte // UTF-8; used during Place only
	Anchor Pos    // what it names

	// Clear is the distance in points kept from the anchor, for instance the
	// radius of a handle.
	Clear float64
	// Prefer lists the directions tried first, in order; the others follow.
	Prefer []Direction
	// Near forbids leaders: no place is found rather than a distant one. Reach is
	// how far beyond Clear, points, it may stand; 0 sets no limit.
	Near  bool
	Reach float64
	// Keep is the Slot this label got in the last frame: it is tried first, so
	// that labels stand still while the drawing moves. 0 is no wish.
	Keep int
	// Stay has Keep taken whether it is free or not.
	Stay bool
}

// Placement is the place found for a label.
type Placement struct {
	Pos    Pos // start of the baseline: Left and Baseline align there
	Box    Box // the label on the sheet, in points from the middle, y up
	Slot   int // for Label.Keep in the next frame; 0 if no place was found
	Leader bool
	From   Pos // ends of the leader, if there is one
	To     Pos
}

// Placer finds free places for labels. Tell it of every line and box that must
// stay uncovered, then place the labels, most important first: each keeps off
// everything told and off the labels placed before. The same calls give the
// same places. It keeps its memory from frame to frame.
type Placer struct {
	view   View
	styles *Styles
	medium Medium
	window Box     // labels stay in here
	taken  bitGrid // lines, boxes and labels
	labels bitGrid // labels only: a leader may cross lines but no label
}

// Reset forgets everything and begins a frame in the whole window of v.
func (p *Placer) Reset(v View, s *Styles, m Medium) {
	p.view, p.styles, p.medium = v, s, m
	p.window = v.Window()
	p.taken.reset(p.window)
	p.labels.reset(p.window)
}

// Within keeps the labels placed from now on inside box, in points from the
// middle of the window, y up.
func (p *Placer) Within(box Box) { p.window = box }

// AvoidBox keeps labels and their leaders off box, in points from the middle, y up.
func (p *Placer) AvoidBox(box Box) {
	p.taken.markBox(box)
	p.labels.markBox(box)
}

// AvoidSegment keeps labels r points off the segment a-b, in points from the
// middle, y up.
func (p *Placer) AvoidSegment(a, b Point, r float64) { p.taken.markSegment(a, b, r) }

// Avoid keeps labels off everything that l draws except fills without a line,
// and off its texts.
func (p *Placer) Avoid(l *List) {
	for i := range l.items {
		it := &l.items[i]
		st := &p.styles[it.Role]
		r := st.PenOn(p.medium)/2 + 1
		switch {
		case it.Kind == KindText:
			p.avoidText(l, it)
		case st.Stroke == None && st.FillAlpha < 1:
		case it.Kind == KindPath:
			p.avoidPath(l.Corners(it), it.Closed, r)
		default:
			p.avoidRound(it, r)
		}
	}
}

func (p *Placer) avoidText(l *List, it *Item) {
	text := l.TextOf(it)
	w, up, down := p.styles.TextSize(it.Role, p.medium, text)
	o := p.view.Sheet(it.Centre).Add(p.styles.TextOrigin(it.Role, p.medium, it.Align, text))
	b := Box{Point{o.X, o.Y - down}, Point{o.X + w, o.Y + up}}
	p.taken.markBox(b)
	p.labels.markBox(b)
}

func (p *Placer) avoidPath(c []Pos, closed bool, r float64) {
	a := p.view.Sheet(c[0])
	start := a
	for _, q := range c[1:] {
		b := p.view.Sheet(q)
		p.taken.markSegment(a, b, r)
		a = b
	}
	if closed {
		p.taken.markSegment(a, start, r)
	}
}

func (p *Placer) avoidRound(it *Item, r float64) {
	c := p.view.Sheet(it.Centre)
	rad := it.R*p.view.Zoom + it.RBy
	if rad <= 2*HitRadius {
		p.taken.markBox(Box{c, c}.Grow(rad + r))
		return
	}
	n := ArcSteps(rad, it.Sweep, cell/2)
	at := func(i int) Point {
		s, k := math.Sincos(it.From + it.Sweep*float64(i)/float64(n))
		return Point{c.X + rad*k, c.Y + rad*s}
	}
	a := at(0)
	for i := 1; i <= n; i++ {
		b := at(i)
		p.taken.markSegment(a, b, r+cell/2)
		a = b
	}
}

// Place finds a place for lab: first where it stood in the last frame, then
// close by in the directions wished for and in the others, then farther out at
// the end of a leader, at last in the nearest gap anywhere. ok is false if there
// is no free place within reach.
func (p *Placer) Place(lab *Label) (Placement, bool) {
	if len(lab.Text) == 0 {
		panic("draw: a label without text")
	}
	w, up, down := p.styles.TextSize(lab.Role, p.medium, lab.Text)
	size := Point{w, up + down}
	a := p.view.Sheet(lab.Anchor)
	if lab.Keep > 0 {
		b, clear := slotBox(lab, a, size, lab.Keep)
		if lab.Stay || p.free(a, b, clear, lab.Clear) {
			return p.take(lab, a, b, lab.Keep, clear, down), true
		}
	}
	order := directions(lab.Prefer)
	for ring := range rings {
		if lab.Near && lab.Clear+rings[ring] > leaderFrom || lab.Reach > 0 && rings[ring] > lab.Reach {
			return Placement{}, false
		}
		for _, dir := range order {
			slot := 1 + ring*int(directionCount) + int(dir)
			b, clear := slotBox(lab, a, size, slot)
			if p.free(a, b, clear, lab.Clear) {
				return p.take(lab, a, b, slot, clear, down), true
			}
		}
	}
	if slot := p.search(lab, a, size); slot > 0 {
		b, clear := slotBox(lab, a, size, slot)
		return p.take(lab, a, b, slot, clear, down), true
	}
	return Placement{}, false
}

// search returns the slot of a free far place, by square rings about a from the
// nearest on; 0 if there is none.
func (p *Placer) search(lab *Label, a, size Point) int {
	try := func(ix, iy int) int {
		// Most places are taken; the distance is worked out for the others only.
		if !p.bare(farBox(a, size, ix, iy)) {
			return 0
		}
		s := firstFar + (iy+farReach)*farSide + ix + farReach
		if b, dist := slotBox(lab, a, size, s); p.free(a, b, dist, lab.Clear) {
			return s
		}
		return 0
	}
	for k := 1; k <= farReach; k++ {
		for i := -k; i <= k; i++ {
			if s := max(try(i, -k), try(i, k), try(-k, i), try(k, i)); s > 0 {
				return s
			}
		}
	}
	return 0
}

// slotBox returns the box of a label in a slot and its distance from the anchor
// a. Slots count from 1: the rings, each with its directions, then the far
// places. A slot that Place never gave panics.
func slotBox(lab *Label, a, size Point, slot int) (b Box, dist float64) {
	if slot < firstFar {
		ring, dir := (slot-1)/int(directionCount), Direction((slot-1)%int(directionCount))
		dist = lab.Clear + rings[ring]
		return labelBox(a, size, dir, dist+labelPad), dist
	}
	i := slot - firstFar
	if i >= farSide*farSide {
		panic(fmt.Sprintf("draw: label slot %d is none that Place gave", slot))
	}
	b = farBox(a, size, i%farSide-farReach, i/farSide-farReach)
	d := b.nearest(a).Sub(a)
	return b, max(lab.Clear, math.Sqrt(d.X*d.X+d.Y*d.Y)-labelPad)
}

// PlaceAndDraw places lab and adds text and leader to l on its present layer.
func (p *Placer) PlaceAndDraw(l *List, lab *Label) (Placement, bool) {
	pl, ok := p.Place(lab)
	if !ok {
		return pl, false
	}
	if pl.Leader {
		l.LineBy(Leader, pl.From, pl.To)
	}
	l.TextBytes(lab.Role, pl.Pos, Left|Baseline, lab.Text)
	return pl, true
}

// directions returns all directions, those of prefer first.
func directions(prefer []Direction) (order [directionCount]Direction) {
	n, seen := 0, 0
	add := func(d Direction) {
		if seen&(1<<d) == 0 {
			order[n], seen = d, seen|1<<d
			n++
		}
	}
	for _, d := range prefer {
		add(d)
	}
	for d := East; d < directionCount; d += 2 {
		add(d)
	}
	for d := East + 1; d < directionCount; d += 2 {
		add(d)
	}
	return order
}

// farBox returns the box of a label ix, iy steps of the lattice from a.
func farBox(a, size Point, ix, iy int) Box {
	x, y := a.X+float64(ix)*farStep-size.X/2, a.Y+float64(iy)*farStep-size.Y/2
	return Box{Point{x, y}, Point{x + size.X, y + size.Y}}
}

// bare tells whether b lies in the window and covers nothing.
func (p *Placer) bare(b Box) bool {
	w := &p.window
	return b.Min.X >= w.Min.X && b.Max.X <= w.Max.X && b.Min.Y >= w.Min.Y && b.Max.Y <= w.Max.Y &&
		p.taken.count(b.Grow(labelPad), true) == 0
}

// free tells whether a label may stand in b, dist from its anchor a.
func (p *Placer) free(a Point, b Box, dist, clear float64) bool {
	if !p.bare(b) {
		return false
	}
	if dist > leaderFrom {
		if from, to := leader(a, b, clear); p.labels.crosses(from, to) {
			return false
		}
	}
	return true
}

// labelBox puts a box so that its nearest edge or corner is dist from a.
func labelBox(a, size Point, dir Direction, dist float64) Box {
	u := compass[dir]
	if u.X != 0 && u.Y != 0 {
		dist /= math.Sqrt(u.X*u.X + u.Y*u.Y)
	}
	m := Point{
		a.X + u.X*(dist+size.X/2),
		a.Y + u.Y*(dist+size.Y/2),
	}
	h := size.Mul(0.5)
	return Box{m.Sub(h), m.Add(h)}
}

// take marks the box as used and returns the placement.
func (p *Placer) take(lab *Label, a Point, b Box, slot int, dist, down float64) Placement {
	p.taken.markBox(b)
	p.labels.markBox(b)
	base := Point{b.Min.X, b.Min.Y + down}
	pl := Placement{Pos: lab.Anchor.Off(base.X-a.X, base.Y-a.Y), Box: b, Slot: slot}
	if dist > leaderFrom {
		from, to := leader(a, b, lab.Clear)
		pl.Leader = true
		pl.From = lab.Anchor.Off(from.X-a.X, from.Y-a.Y)
		pl.To = lab.Anchor.Off(to.X-a.X, to.Y-a.Y)
		p.taken.markSegment(from, to, 1)
	}
	return pl
}

// leader returns the ends of the line from a, clear of it, to the nearest spot
// of b.
func leader(a Point, b Box, clear float64) (from, to Point) {
	to = b.nearest(a)
	d := to.Sub(a)
	n := d.Len()
	if n <= clear+labelPad {
		return a, to
	}
	return a.Add(d.Mul(clear / n)), to.Sub(d.Mul(labelPad / n))
}
