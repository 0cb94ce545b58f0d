package scene

import "armscribe/canvas/draw"

// name tells which label of a picture one is, to know it again in the next.
type name uint16

const (
	noName name = iota
	nameOfPlane
	nameOfScrub
	nameOfInstant
	nameOfRoll
	nameOfIdeal
	nameOfBefore
	nameOfBump
	nameOfDroop
	nameOfSpacer
	nameOfTrack
	nameOfFoot
	nameOfContact
	nameOfRack
	nameOfSwing
	nameOfLowerArc
	nameOfNose
	nameOfNote
	nameOfObstacle // and its number
)

// home is where a label stands: off from what it names to where its text starts,
// points, or, if right, ends. At the edge of the window off counts from the
// middle of the window, and right tells on which side of the text its arrow
// stands. Of a note, off leads to an upper corner of its box.
type home struct {
	name         name
	end          uint8 // what it hangs on, of several ends
	cut          uint8 // which of its shorter texts it shows
	off          draw.Point
	right        bool
	leader, edge bool
}

// Homes is where the labels and the loupe of a picture stand.
type Homes struct {
	list  []home
	loupe *loupeHome
	at    loupeHome // what loupe points at
}

// Set makes h a copy of from.
func (h *Homes) Set(from *Homes) {
	h.list, h.at, h.loupe = append(h.list[:0], from.list...), from.at, nil
	if from.loupe != nil {
		h.loupe = &h.at
	}
}

func (h *Homes) reset() { h.list, h.loupe = h.list[:0], nil }

func (h *Homes) find(n name) (home, bool) {
	for _, x := range h.list {
		if x.name == n {
			return x, true
		}
	}
	return home{}, false
}

func (h *Homes) put(x home) {
	for i := range h.list {
		if h.list[i].name == x.name {
			h.list[i] = x
			return
		}
	}
	h.list = append(h.list, x)
}

// settle begins the homes of this picture: those it was given, or none.
func (b *builder) settle() {
	b.out.Homes.reset()
	if b.in.Homes != nil {
		b.out.Homes.Set(b.in.Homes)
	}
	b.boxes = b.boxes[:0]
}

// homeOf returns where a label is to stay, if a gesture is going on.
func (b *builder) homeOf(n name) (home, bool) {
	if b.in.Homes == nil || n == noName {
		return home{}, false
	}
	return b.in.Homes.find(n)
}

// onSheet is a place in points from the middle of the window.
func (b *builder) onSheet(p draw.Point) draw.Pos { return draw.Pos{At: b.v.Centre, By: p} }

// stay moves a box into the window; a box larger than it stays where it is.
func (b *builder) stay(box draw.Box) draw.Box {
	win := b.v.Window().Grow(-labelEdge)
	shift := func(lo, hi, from, to float64) float64 {
		switch {
		case hi-lo > to-from:
			return 0
		case lo < from:
			return from - lo
		}
		return min(0, to-hi)
	}
	by := draw.Point{X: shift(box.Min.X, box.Max.X, win.Min.X, win.Max.X), Y: shift(box.Min.Y, box.Max.Y, win.Min.Y, win.Max.Y)}
	return draw.Box{Min: box.Min.Add(by), Max: box.Max.Add(by)}
}

// claim takes a box for a text; false if another stands there already.
func (b *builder) claim(box draw.Box) bool {
	for i := range b.boxes {
		if b.boxes[i].Overlaps(box) {
			return false
		}
	}
	b.boxes = append(b.boxes, box)
	return true
}

// claimDisc is claim for a disc; texts may stand in the corners of its box.
func (b *builder) claimDisc(c draw.Point, r float64) bool {
	for i := range b.boxes {
		if clampTo(b.boxes[i], c).Sub(c).Len() < r {
			return false
		}
	}
	const inner = 0.75 // of the radius: a box nearly within
	b.boxes = append(b.boxes, draw.Box{Min: c, Max: c}.Grow(inner*r))
	return true
}

// textOf returns as much of a label's text as its cut leaves.
func (lab *label) textOf(text []byte, cut uint8) []byte {
	switch n := [...]int{0, lab.mid, lab.short}[cut]; {
	case n > 0 && n < len(text):
		return text[:n]
	}
	return text
}

// atHome writes a label where it stays, as far as the window and the labels
// before it leave it room. What has come into view from beyond the edge is
// joined to its label by a leader.
func (b *builder) atHome(lab *label, h home) {
	text := lab.textOf(b.text[lab.from:lab.to], h.cut)
	w, up, down := houseStyles.TextSize(lab.role, b.in.Medium, text)
	a := b.v.Sheet(lab.anchor)
	at := h.off
	if !h.edge {
		at = a.Add(h.off)
	}
	if h.right && !h.edge {
		at.X -= w
	}
	box := b.stay(draw.Box{Min: draw.Point{X: at.X, Y: at.Y - down}, Max: draw.Point{X: at.X + w, Y: at.Y + up}})
	if !b.claim(box) {
		return
	}
	b.placer.AvoidBox(box)
	b.l.On(draw.LayerNotes)
	if h.leader || h.edge {
		b.leadTo(lab.anchor, box, lab.clear)
	}
	p, align := box.Min, draw.Left
	if h.right && !h.edge {
		p.X, align = box.Max.X, draw.Right
	}
	p.Y += down
	// Told from what it names, so that it goes with it to the last bit.
	b.l.TextBytes(lab.role, lab.anchor.Off(p.X-a.X, p.Y-a.Y), align|draw.Baseline, text)
}

// leadTo draws the leader from a mark, clear of it, to a box.
func (b *builder) leadTo(anchor draw.Pos, box draw.Box, clear float64) {
	a := b.v.Sheet(anchor)
	to := clampTo(box, a)
	d := to.Sub(a)
	n := d.Len()
	if n <= clear+notePad {
		return
	}
	from, end := d.Mul(clear/n), d.Mul((n-notePad)/n)
	b.l.LineBy(draw.Leader, anchor.Off(from.X, from.Y), anchor.Off(end.X, end.Y))
}

// leftOut notes that a label has no room.
func (b *builder) leftOut(n name) {
	if word := b.wordFor(n); word != "" {
		b.out.LeftOut = append(b.out.LeftOut, word)
	}
}

// wordFor is what a label is called in the status line.
func (b *builder) wordFor(n name) string {
	if n >= nameOfObstacle {
		return b.in.Obstacles[n-nameOfObstacle].Name
	}
	if n == nameOfIdeal && b.in.Rear {
		return "ideal body end"
	}
	return nameWords[n]
}

var nameWords = [nameOfObstacle]string{
	nameOfPlane: "centre plane", nameOfScrub: "scrub radius", nameOfInstant: "instant centre",
	nameOfRoll: "roll centre", nameOfIdeal: "ideal rack end", nameOfBefore: "before",
	nameOfBump: "bump", nameOfDroop: "droop", nameOfSpacer: "spacer", nameOfTrack: "half track",
	nameOfFoot: "axis at ground", nameOfContact: "tyre contact", nameOfRack: "rack",
	nameOfSwing: "swing", nameOfLowerArc: "lower-arm arc", nameOfNote: "coordinates",
}
