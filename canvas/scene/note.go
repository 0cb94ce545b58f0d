package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// Sizes of a note, points.
const (
	noteLine = 17.0 // from line to line
	notePad  = 3.0
	leadFrom = 16.0 // from here on a line leads from note to handle
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
	box, cost := b.freeBox(a, size)
	if cost == math.MaxInt {
		return // it does not fit into the window
	}
	b.noteBox = box
	b.addBar(bar{box.Min, box.Max, true, coverText})
	l := b.l
	l.On(draw.LayerNotes)
	if to := clampTo(box, a); to.Sub(a).Len() > leadFrom {
		u := to.Sub(a)
		u = u.Mul(1 / u.Len())
		l.LineBy(draw.Leader, draw.On(spot.At).Off(u.X*handleGap, u.Y*handleGap), draw.Pos{At: b.v.Centre, By: to.Sub(u.Mul(notePad))})
	}
	if cost > 0 {
		// Paper under the note, so that it can be read over what it must cover.
		plate := box.Grow(notePad)
		on := func(x, y float64) draw.Pos { return draw.Pos{At: b.v.Centre, By: draw.Point{X: x, Y: y}} }
		l.Path(draw.Knockout, true, on(plate.Min.X, plate.Min.Y), on(plate.Max.X, plate.Min.Y),
			on(plate.Max.X, plate.Max.Y), on(plate.Min.X, plate.Max.Y))
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

// noteRings are the distances of a note from its handle, points. A note farther
// off would be taken for that of another.
var noteRings = [...]float64{handleGap, 13, 18, 24, 31, 39, 48, 58, 70, 84, 100, 120, 145, 175, 210}

// noteTurns are the directions tried on each ring, in twenty-fourths of a turn
// from above left on, alternating: on the picture's left there is room.
const noteTurns = 24

// Costs of a place for a note: each point away from its handle, and another
// handle nearer to it than its own.
const (
	noteAway  = 0.8
	noteAlien = 15.0
)

// freeBox returns the place for a box beside a that costs least, by what it
// covers and how far it is, and the cost of what it covers; MaxInt if no place is
// in the window.
func (b *builder) freeBox(a, size draw.Point) (place draw.Box, covers int) {
	win := b.v.Window().Grow(-labelEdge)
	best, covers := math.Inf(1), math.MaxInt
	for _, out := range noteRings {
		if noteAway*out >= best {
			break
		}
		for i := range noteTurns {
			turn := float64((i+1)/2) * math.Copysign(2*math.Pi/noteTurns, float64(i%2)-0.5)
			sin, cos := math.Sincos(math.Pi*3/4 + turn)
			// The box whose edge a ray in this direction leaves at the distance out.
			reach := min(size.X/2/max(math.Abs(cos), 1e-9), size.Y/2/max(math.Abs(sin), 1e-9))
			m := a.Add(draw.Point{X: cos, Y: sin}.Mul(out + reach))
			box := draw.Box{Min: m.Sub(size.Mul(0.5)), Max: m.Add(size.Mul(0.5))}
			if !inside(win, box) {
				continue
			}
			cost := noteAway * out
			if b.alien(a, box) {
				cost += noteAlien
			}
			if cost >= best {
				continue
			}
			enough := math.MaxInt
			if !math.IsInf(best, 1) {
				enough = int(best-cost) + 1
			}
			if c := b.cover(box.Grow(notePad), enough); cost+float64(c) < best {
				place, covers, best = box, c, cost+float64(c)
			}
		}
	}
	return place, covers
}

// alien tells whether a note in box stands nearer to another handle than to its
// own at a. Handles seen in one place with it do not count.
func (b *builder) alien(a draw.Point, box draw.Box) bool {
	own := clampTo(box, a).Sub(a).Len()
	for i := range b.out.Spots {
		p := b.v.Sheet(draw.On(b.out.Spots[i].At))
		if p.Sub(a).Len() > draw.HandleRadius && clampTo(box, p).Sub(p).Len() < own {
			return true
		}
	}
	return false
}
