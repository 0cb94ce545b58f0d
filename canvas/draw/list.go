package draw

import (
	"fmt"
	"math"
)

// Kind is the shape of an Item.
type Kind uint8

// The kinds.
const (
	KindPath Kind = iota
	KindCircle
	KindArc
	KindText
)

// Item is one thing of a List. Which fields count depends on Kind.
type Item struct {
	Kind  Kind
	Role  Role
	Layer Layer

	Closed bool  // path: the last corner joins the first
	Align  Align // text
	first  int32 // path: corners; text: bytes
	n      int32

	Centre      Pos     // circle, arc; text: the anchor
	R           float64 // circle, arc: mm of the radius
	RBy         float64 // circle, arc: points added to the radius
	From, Sweep float64 // arc: radians from +x, anticlockwise positive
}

// Align tells which spot of a text stands on its anchor: the sum of one
// horizontal and one vertical choice. The zero Align is left, on the baseline.
type Align uint8

// The choices of Align.
const (
	Left   Align = 0
	Centre Align = 1
	Right  Align = 2

	Baseline Align = 0
	Middle   Align = 4 // middle of a capital letter
	Top      Align = 8
	Bottom   Align = 12
)

// Horizontal returns Left, Centre or Right.
func (a Align) Horizontal() Align { return a & 3 }

// Vertical returns Baseline, Middle, Top or Bottom.
func (a Align) Vertical() Align { return a & 12 }

// List is a drawing. The zero List is empty and ready. It keeps its memory over
// Reset: a list rebuilt for each frame stops allocating after the first ones.
// A coordinate that is not finite, or a negative radius, is a caller's fault
// and panics.
type List struct {
	items []Item
	pos   []Pos
	text  []byte
	layer Layer
	open  int // first corner of the path being built
}

// Reset empties the list and sets the lowest layer.
func (l *List) Reset() {
	l.items, l.pos, l.text = l.items[:0], l.pos[:0], l.text[:0]
	l.layer, l.open = 0, 0
}

// On makes layer the one of everything added from now on.
func (l *List) On(layer Layer) { l.layer = layer }

// Items returns the things in the order they were added; they belong to the list.
func (l *List) Items() []Item { return l.items }

// Corners returns the corners of a path; they belong to the list.
func (l *List) Corners(it *Item) []Pos { return l.pos[it.first : it.first+it.n] }

// TextOf returns the UTF-8 bytes of a text; they belong to the list.
func (l *List) TextOf(it *Item) []byte { return l.text[it.first : it.first+it.n] }

// Line adds the straight line from a to b.
func (l *List) Line(role Role, a, b Point) {
	l.Add(On(a))
	l.Add(On(b))
	l.End(role, false)
}

// LineBy is Line between places that may have offsets.
func (l *List) LineBy(role Role, a, b Pos) {
	l.Add(a)
	l.Add(b)
	l.End(role, false)
}

// Polyline adds the open line through pts. Fewer than two points add nothing.
func (l *List) Polyline(role Role, pts ...Point) {
	for _, p := range pts {
		l.Add(On(p))
	}
	l.End(role, false)
}

// Polygon adds the closed line through pts, filled if the role is. Fewer than
// two points add nothing.
func (l *List) Polygon(role Role, pts ...Point) {
	for _, p := range pts {
		l.Add(On(p))
	}
	l.End(role, true)
}

// Path is Polyline, or Polygon if closed, through places with offsets.
func (l *List) Path(role Role, closed bool, pts ...Pos) {
	for _, p := range pts {
		l.Add(p)
	}
	l.End(role, closed)
}

// Rect adds the rectangle b; an empty box adds nothing.
func (l *List) Rect(role Role, b Box) {
	if b.IsEmpty() {
		return
	}
	l.Polygon(role, b.Min, Point{b.Max.X, b.Min.Y}, b.Max, Point{b.Min.X, b.Max.Y})
}

// Add appends a corner to the path that the next End finishes.
func (l *List) Add(p Pos) {
	if !p.finite() {
		panic(fmt.Sprintf("draw: corner %v is not finite", p))
	}
	l.pos = append(l.pos, p)
}

// End finishes the path of the corners added since the last one. Fewer than two
// corners make no path and are dropped.
func (l *List) End(role Role, closed bool) {
	n := len(l.pos) - l.open
	if n < 2 {
		l.pos = l.pos[:l.open]
		return
	}
	l.items = append(l.items, Item{
		Kind: KindPath, Role: role, Layer: l.layer, Closed: closed,
		first: int32(l.open), n: int32(n),
	})
	l.open = len(l.pos)
}

// Circle adds the circle about c; its radius is r mm plus by points.
func (l *List) Circle(role Role, c Pos, r, by float64) {
	l.round(Item{Kind: KindCircle, Role: role, Centre: c, R: r, RBy: by, Sweep: 2 * math.Pi})
}

// Arc adds the arc about c of radius r mm, from the angle from over sweep, both
// in radians, anticlockwise positive.
func (l *List) Arc(role Role, c Point, r, from, sweep float64) {
	l.round(Item{Kind: KindArc, Role: role, Centre: On(c), R: r, From: from, Sweep: sweep})
}

func (l *List) round(it Item) {
	sum := it.R + it.RBy + it.From + it.Sweep
	if !it.Centre.finite() || sum-sum != 0 || it.R < 0 || it.RBy < 0 {
		panic(fmt.Sprintf("draw: round shape at %v with radius %g mm + %g points, from %g over %g",
			it.Centre, it.R, it.RBy, it.From, it.Sweep))
	}
	it.Layer = l.layer
	l.items = append(l.items, it)
}

// Text adds one line of text. An empty text adds nothing.
func (l *List) Text(role Role, p Pos, a Align, text string) {
	at := len(l.text)
	l.text = append(l.text, text...)
	l.endText(role, p, a, at)
}

// TextBytes is Text for UTF-8 bytes, which are copied.
func (l *List) TextBytes(role Role, p Pos, a Align, text []byte) {
	at := len(l.text)
	l.text = append(l.text, text...)
	l.endText(role, p, a, at)
}

func (l *List) endText(role Role, p Pos, a Align, at int) {
	if !p.finite() {
		panic(fmt.Sprintf("draw: text %q at %v is not finite", l.text[at:], p))
	}
	if len(l.text) == at {
		return
	}
	l.items = append(l.items, Item{
		Kind: KindText, Role: role, Layer: l.layer, Align: a, Centre: p,
		first: int32(at), n: int32(len(l.text) - at),
	})
}

// Bounds returns the box of the world points of the list: corners, circles and
// anchors, an arc by its full circle. Offsets in points and the extent of texts
// do not count. An empty list has an empty box.
func (l *List) Bounds() Box {
	b := EmptyBox()
	for i := range l.items {
		it := &l.items[i]
		if it.Kind == KindPath {
			for _, p := range l.Corners(it) {
				b = b.With(p.At)
			}
			continue
		}
		c := it.Centre.At
		b = b.With(Point{c.X - it.R, c.Y - it.R}).With(Point{c.X + it.R, c.Y + it.R})
	}
	return b
}
