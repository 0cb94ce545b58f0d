package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// Sizes of a note, points.
const (
	noteLine = 17.0 // from line to line
	notePad  = 3.0
)

// note writes the lines of the gesture in progress beside its handle, where
// they cover least. The first line is that of the thing in hand.
func (b *builder) note() {
	if len(b.in.Note) == 0 {
		return
	}
	spot, ok := b.out.Spot(b.noted())
	if !ok {
		return
	}
	w := 0.0
	for i, text := range b.in.Note {
		at := len(b.text)
		b.text = append(b.text, text...)
		n, _, _ := houseStyles.TextSize(noteRole(i), b.in.Medium, b.text[at:])
		w = max(w, n)
	}
	size := draw.Point{X: w, Y: noteLine * float64(len(b.in.Note))}
	a := b.v.Sheet(draw.On(spot.At))
	b.collectLate()
	box, found := b.freeBox(a, size)
	if !found {
		return
	}
	b.noteBox = box
	l := b.l
	l.On(draw.LayerNotes)
	if to := clampTo(box, a); to.Sub(a).Len() > 3*handleGap {
		u := to.Sub(a)
		u = u.Mul(1 / u.Len())
		l.LineBy(draw.Leader, draw.On(spot.At).Off(u.X*handleGap, u.Y*handleGap), draw.Pos{At: b.v.Centre, By: to.Sub(u.Mul(notePad))})
	}
	for i, text := range b.in.Note {
		p := draw.Pos{At: b.v.Centre, By: draw.Point{X: box.Min.X, Y: box.Max.Y - noteLine*(float64(i)+0.5)}}
		l.Text(noteRole(i), p, draw.Left|draw.Middle, text)
	}
}

func noteRole(line int) draw.Role {
	if line == 0 {
		return draw.TextNow
	}
	return draw.TextQuiet
}

// noted is the handle the note belongs to.
func (b *builder) noted() Handle {
	for _, h := range [3]Handle{b.in.Selected, b.in.Hover, b.in.Focus} {
		if h != NoHandle {
			return h
		}
	}
	return NoHandle
}

// collectLate adds what was drawn after the bars were collected: the loupe and
// the handles.
func (b *builder) collectLate() {
	if lp := b.out.Loupe; !lp.IsEmpty() {
		b.addBar(bar{b.v.Sheet(draw.On(lp.Min)), b.v.Sheet(draw.On(lp.Max)), true, coverPart})
	}
	for _, s := range b.out.Spots {
		c := b.v.Sheet(draw.On(s.At))
		box := draw.Box{Min: c, Max: c}.Grow(draw.HeldRadius)
		b.addBar(bar{box.Min, box.Max, true, coverPart})
	}
}

// noteWays are the directions tried for a note: under the hand it would be hidden
// by the pointer, so above and beside come first.
var noteWays = [...]draw.Point{{X: -1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1}, {X: 1}, {Y: -1}, {Y: 1}}

// freeBox returns the place for a box beside a that covers least, near ones
// first; false if none fits into the window.
func (b *builder) freeBox(a, size draw.Point) (draw.Box, bool) {
	win := b.v.Window().Grow(-labelEdge)
	best, found := math.MaxInt, false
	var place draw.Box
	for _, out := range [...]float64{handleGap, 18, 30, 46, 66, 90, 120, 160, 210, 270} {
		for _, way := range noteWays {
			m := a.Add(draw.Point{X: way.X * (out + size.X/2), Y: way.Y * (out + size.Y/2)})
			box := draw.Box{Min: m.Sub(size.Mul(0.5)), Max: m.Add(size.Mul(0.5))}
			if !inside(win, box) {
				continue
			}
			if cost := b.cover(box.Grow(notePad), best); cost < best {
				best, found, place = cost, true, box
			}
			if best == 0 {
				return place, true
			}
		}
	}
	return place, found
}
