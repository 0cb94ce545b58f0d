package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// Sizes of a note, points.
const (
	noteLine = 17.0 // from line to line
	notePad  = 3.0
	leadFrom = 28.0 // from here on a line leads from note to handle
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
	h, box, ok := b.noteHome(a, size)
	if !ok {
		b.leftOut(nameOfNote)
		return
	}
	b.out.Homes.put(h)
	b.boxes = append(b.boxes, box)
	b.addBar(bar{box.Min, box.Max, true, coverText})
	b.l.On(draw.LayerNotes)
	if to := clampTo(box, a); to.Sub(a).Len() > leadFrom {
		b.leadTo(draw.On(spot.At), box, handleGap)
	}
	x, align := box.Min.X, draw.Left
	if h.right {
		x, align = box.Max.X, draw.Right
	}
	for i, text := range b.in.Note {
		p := draw.On(spot.At).Off(x-a.X, box.Max.Y-noteLine*(float64(i)+0.5)-a.Y)
		b.l.Text(noteRole(i), p, align|draw.Middle, text)
	}
}

// noteSpare is room kept under a note, points: in a gesture a line comes and goes,
// and the others stay.
const noteSpare = noteLine

// noteHome returns where a note of a size stands beside a: where it stays, or
// where it covers nothing, led out if need be.
func (b *builder) noteHome(a, size draw.Point) (h home, box draw.Box, ok bool) {
	if h, ok = b.homeOf(nameOfNote); ok {
		at := a.Add(h.off)
		if h.right {
			at.X -= size.X
		}
		at.Y -= size.Y
		return h, b.stay(draw.Box{Min: at, Max: at.Add(size)}), true
	}
	if box, ok = b.freeBox(a, draw.Point{X: size.X, Y: size.Y + noteSpare}); !ok {
		return h, box, false
	}
	box.Min.Y += noteSpare
	h = home{name: nameOfNote, right: box.Max.X <= a.X, off: draw.Point{X: box.Min.X, Y: box.Max.Y}.Sub(a)}
	if h.right {
		h.off.X = box.Max.X - a.X
	}
	return h, box, true
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

// noteAlien is what another handle nearer to a note than its own counts, points.
const noteAlien = 19.0

// freeBox returns the nearest place beside a for a box that covers nothing, else
// the nearest anywhere in the window; false if there is none.
func (b *builder) freeBox(a, size draw.Point) (place draw.Box, ok bool) {
	win := b.v.Window().Grow(-labelEdge)
	best := math.Inf(1)
	for _, out := range noteRings {
		if out >= best {
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
			cost := out
			if b.alien(a, box) {
				cost += noteAlien
			}
			if cost < best && b.cover(box.Grow(notePad), 1) == 0 && !b.textsCrossed(a, clampTo(box, a)) {
				place, best = box, cost
			}
		}
	}
	if math.IsInf(best, 1) {
		return b.gapFor(a, size, win)
	}
	return place, true
}

// gapStep is the lattice on which gaps far from a handle are looked for, points.
const gapStep = 16.0

// gapFor returns the free place for a box in the window that is nearest to a.
func (b *builder) gapFor(a, size draw.Point, win draw.Box) (place draw.Box, ok bool) {
	best := math.Inf(1)
	for y := win.Min.Y; y+size.Y <= win.Max.Y; y += gapStep {
		for x := win.Min.X; x+size.X <= win.Max.X; x += gapStep {
			box := draw.Box{Min: draw.Point{X: x, Y: y}, Max: draw.Point{X: x + size.X, Y: y + size.Y}}
			if far := clampTo(box, a).Sub(a).Len(); far < best && b.cover(box.Grow(notePad), 1) == 0 && !b.textsCrossed(a, clampTo(box, a)) {
				place, best, ok = box, far, true
			}
		}
	}
	return place, ok
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
