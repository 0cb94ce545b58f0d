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
	near     bool    // left out rather than led out
	reach    float64 // left out rather than led farther out, points; 0 sets no limit
	must     bool    // written on paper over what lies there, rather than cut to short
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

func (b *builder) placeLabel(lab *label) {
	want := draw.Label{
		Role: lab.role, Text: b.text[lab.from:lab.to], Anchor: lab.anchor, Clear: lab.clear, Prefer: lab.prefer, Reach: lab.reach,
	}
	pl, ok := b.placer.Place(&want)
	for i, n := range [2]int{lab.mid, lab.short} {
		if i == 1 && !ok && lab.must && b.plate(&want) {
			return
		}
		if !ok && n > 0 && n < len(want.Text) {
			want.Text = want.Text[:n]
			pl, ok = b.placer.Place(&want)
		}
	}
	if !ok || pl.Leader && lab.near {
		return
	}
	b.addBar(bar{pl.Box.Min, pl.Box.Max, true, coverText})
	if pl.Leader {
		b.l.LineBy(draw.Leader, pl.From, pl.To)
	}
	b.l.TextBytes(want.Role, pl.Pos, draw.Left|draw.Baseline, want.Text)
}

// plate writes a label that found no free place on paper, where it covers least;
// false if it fits nowhere.
func (b *builder) plate(lab *draw.Label) bool {
	w, up, down := houseStyles.TextSize(lab.Role, b.in.Medium, lab.Text)
	a := b.v.Sheet(lab.Anchor)
	box, cost := b.freeBox(a, draw.Point{X: w, Y: up + down})
	if cost >= coverText {
		return false
	}
	plate := box.Grow(notePad)
	b.addBar(bar{plate.Min, plate.Max, true, coverText})
	b.placer.AvoidBox(plate)
	on := func(x, y float64) draw.Pos { return draw.Pos{At: b.v.Centre, By: draw.Point{X: x, Y: y}} }
	if to := clampTo(plate, a); to.Sub(a).Len() > leadFrom {
		b.l.LineBy(draw.Leader, lab.Anchor, on(to.X, to.Y))
	}
	b.l.Path(draw.Knockout, true, on(plate.Min.X, plate.Min.Y), on(plate.Max.X, plate.Min.Y), on(plate.Max.X, plate.Max.Y), on(plate.Min.X, plate.Max.Y))
	b.l.TextBytes(lab.Role, on(box.Min.X, box.Min.Y+down), draw.Left|draw.Baseline, lab.Text)
	return true
}
