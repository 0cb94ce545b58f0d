package trackpage

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// compose draws the picked way over the corner as it is, and what is wished.
func (r *reach) compose(l *draw.List, width, height float64) {
	a := r.answer
	if a == nil || a.made == nil {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(width/2, height/2), draw.Centre, "no way to draw")
		return
	}
	unit := r.p.unit()
	list := []*corner{a.made}
	if a.before != nil {
		list = append(list, a.before)
	}
	box := draw.Box{Max: draw.Point{X: width, Y: height - wordsHigh}}
	if width < flat*height { // words stand over each other
		box.Min.Y, box.Max.Y = wordsHigh, height-2*wordsHigh
	}
	v := fitFront(l, box, unit, list...)
	v.both(a.before, a.made)
	r.wished(v)
	l.On(draw.LayerNotes)
	l.Text(draw.TextBold, draw.At(8, height-18), draw.Left, a.WheelWords(a.picked))
	l.Text(draw.TextSmall, draw.At(8, height-34), draw.Left, a.DoneWords(a.picked))
	l.Text(draw.TextBefore, draw.At(8, 8), draw.Left, "before: "+a.Source.Variant)
	r.aside(l, draw.At(width-8, 8), draw.Right, "from the front, at rest")
}

// wordsHigh is a line of words, points: over the view stand what is done and what
// is wished, under it what came before.
const wordsHigh = 18.0

// wished draws the place that is wished.
func (r *reach) wished(v *frontView) {
	s := &r.answer.Spec
	at := v.at(kinematics.Vec{Y: s.To})
	if at.X < v.box.Min.X || at.X > v.box.Max.X {
		return // off the picture; the table says how far
	}
	top, foot := v.box.Max.Y-partTop+v.box.Min.Y, v.at(kinematics.Vec{Z: r.answer.made.pose.Contact.Z}).Y
	v.l.On(draw.LayerConstruction)
	v.l.Line(draw.RollCentreLine, draw.Point{X: at.X, Y: foot - 4}, draw.Point{X: at.X, Y: top + 4})
	words := "half track wished "
	if s.ByFace {
		words = "wing's edge "
	}
	v.l.On(draw.LayerNotes)
	words += r.p.short(s.To)
	wide, _, _ := r.picture.Styles.TextSize(draw.TextGood, draw.OnScreen, []byte(words))
	x := min(max(at.X, v.box.Min.X+wide/2+8), v.box.Max.X-wide/2-8)
	v.l.Text(draw.TextGood, draw.At(x, top+8), draw.Centre, words)
}
