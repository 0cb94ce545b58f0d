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
	role     draw.Role
	from, to int // in builder.text
	anchor   draw.Pos
	clear    float64
	prefer   []draw.Direction
	rank     uint8
	near     bool // left out rather than led out
	short    int  // bytes of the text that say enough where the whole finds no room; 0 is none
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

// placeLabels finds a place for every label; one that finds none is left out.
func (b *builder) placeLabels() {
	p := &b.placer
	p.Reset(b.v, houseStyles, b.in.Medium)
	p.Within(b.v.Window().Grow(-labelEdge))
	p.Avoid(b.l)
	if !b.out.Loupe.IsEmpty() {
		p.AvoidBox(draw.Box{Min: b.loupe.centre, Max: b.loupe.centre}.Grow(b.loupe.radius))
		p.AvoidBox(b.loupe.legend)
	}
	if !b.noteBox.IsEmpty() {
		p.AvoidBox(b.noteBox)
	}
	b.l.On(draw.LayerNotes)
	for rank := range uint8(ranks) {
		for i := range b.labels {
			if b.labels[i].rank == rank {
				b.placeLabel(&b.labels[i])
			}
		}
	}
}

// nearby is how far, in points, a label that has a short form may stand from
// what it names before the short form is tried.
const nearby = 150.0

func (b *builder) placeLabel(lab *label) {
	want := draw.Label{
		Role: lab.role, Text: b.text[lab.from:lab.to], Anchor: lab.anchor, Clear: lab.clear, Prefer: lab.prefer,
	}
	all := b.v.Window().Grow(-labelEdge)
	if lab.short > 0 {
		w, _, _ := houseStyles.TextSize(lab.role, b.in.Medium, want.Text)
		a := b.v.Sheet(lab.anchor)
		reach := draw.Point{X: w + nearby, Y: nearby}
		b.placer.Within(meet(all, draw.Box{Min: a.Sub(reach), Max: a.Add(reach)}))
	}
	pl, ok := b.placer.Place(&want)
	b.placer.Within(all)
	if !ok && lab.short > 0 {
		want.Text = want.Text[:lab.short]
		pl, ok = b.placer.Place(&want)
	}
	if !ok || pl.Leader && lab.near {
		return
	}
	if pl.Leader {
		b.l.LineBy(draw.Leader, pl.From, pl.To)
	}
	b.l.TextBytes(want.Role, pl.Pos, draw.Left|draw.Baseline, want.Text)
}

// meet returns what two boxes have in common.
func meet(p, q draw.Box) draw.Box {
	return draw.Box{
		Min: draw.Point{X: max(p.Min.X, q.Min.X), Y: max(p.Min.Y, q.Min.Y)},
		Max: draw.Point{X: min(p.Max.X, q.Max.X), Y: min(p.Max.Y, q.Max.Y)},
	}
}
