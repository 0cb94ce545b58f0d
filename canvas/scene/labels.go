package scene

import "armscribe/canvas/draw"

// Ranks of labels: lower ones choose their places first.
const (
	rankFirst = iota
	rankCentre
	rankRack
	rankPlain
	rankLast
	ranks
)

// Preferences of labels.
var (
	eastWest   = []draw.Direction{draw.East, draw.West}
	eastNorth  = []draw.Direction{draw.NorthEast, draw.East, draw.SouthEast}
	northFirst = []draw.Direction{draw.North, draw.NorthWest, draw.NorthEast}
	southFirst = []draw.Direction{draw.South, draw.SouthEast, draw.SouthWest}
	westFirst  = []draw.Direction{draw.West, draw.NorthWest, draw.North}
)

// label is a text waiting for its place.
type label struct {
	name     name
	role     draw.Role
	from, to int // in builder.text
	anchor   draw.Pos
	clear    float64
	prefer   []draw.Direction
	rank     uint8
	near     bool    // left out rather than led out
	reach    float64 // left out rather than led farther out, points; 0 sets no limit
	spare    bool    // it stands elsewhere too: no word is lost on its being left out
	told     bool    // a warning: its words are given where they have no room
	end      uint8   // what it hangs on, of several ends
	// mid and short are bytes of the text that say enough where the whole finds no
	// room, tried in this order; 0 is none.
	mid, short int
}

// say queues the text written since at, unless what it names is out of view.
func (b *builder) say(lab label, at int) {
	if !b.v.Window().Has(b.v.Sheet(lab.anchor)) {
		return
	}
	lab.from, lab.to = at, len(b.text)
	b.labels = append(b.labels, lab)
}

func (b *builder) sayText(lab label, text string) {
	at := len(b.text)
	b.text = append(b.text, text...)
	b.say(lab, at)
}

func (b *builder) quietOr(lit bool) draw.Role {
	if lit {
		return draw.TextBody
	}
	return draw.TextQuiet
}

// labelEdge is kept free between labels and the edge of the window, points.
const labelEdge = 6.0

// placeLabels finds a place for every label; what has a home goes there first.
func (b *builder) placeLabels() {
	p := &b.placer
	p.Reset(b.v, houseStyles, b.in.Medium)
	p.Within(b.v.Window().Grow(-labelEdge))
	p.Avoid(b.l)
	for _, box := range b.boxes {
		p.AvoidBox(box)
	}
	if !b.out.Loupe.IsEmpty() {
		p.AvoidBox(b.loupe.disc())
	}
	b.l.On(draw.LayerNotes)
	for _, settled := range [2]bool{true, false} {
		for rank := range uint8(ranks) {
			for i := range b.labels {
				lab := &b.labels[i]
				if lab.rank != rank {
					continue
				}
				if h, ok := b.homeOf(lab.name); ok != settled {
					continue
				} else if ok {
					b.atHome(lab, h)
				} else {
					b.placeLabel(lab)
				}
			}
		}
	}
}

// placeLabel finds a place for a label, whole or shortened; one that finds none
// is left out.
func (b *builder) placeLabel(lab *label) {
	want := draw.Label{Role: lab.role, Anchor: lab.anchor, Clear: lab.clear, Prefer: lab.prefer, Near: lab.near, Reach: lab.reach}
	whole := b.text[lab.from:lab.to]
	for cut := range uint8(3) {
		if want.Text = lab.textOf(whole, cut); cut > 0 && len(want.Text) == len(whole) {
			continue
		}
		if pl, ok := b.placer.Place(&want); ok {
			b.write(lab, &want, &pl, cut)
			if lab.told && cut == 2 {
				b.out.LeftOut = append(b.out.LeftOut, string(lab.textOf(whole, 1)))
			}
			return
		}
	}
	if lab.told {
		b.out.LeftOut = append(b.out.LeftOut, string(lab.textOf(whole, 1)))
	} else if !lab.spare {
		b.leftOut(lab.name)
	}
}

// write draws a label where it was placed and remembers that as its home.
func (b *builder) write(lab *label, want *draw.Label, pl *draw.Placement, cut uint8) {
	b.boxes = append(b.boxes, pl.Box)
	if pl.Leader {
		b.l.LineBy(draw.Leader, pl.From, pl.To)
	}
	h := home{name: lab.name, end: lab.end, cut: cut, leader: pl.Leader}
	at, align := pl.Pos, draw.Left
	if h.right = pl.Box.Max.X <= b.v.Sheet(lab.anchor).X; h.right {
		at, align = at.Off(pl.Box.W(), 0), draw.Right
	}
	h.off = b.v.Sheet(at).Sub(b.v.Sheet(lab.anchor))
	b.l.TextBytes(want.Role, at, align|draw.Baseline, want.Text)
	if lab.name != noName {
		b.out.Homes.put(h)
	}
}
