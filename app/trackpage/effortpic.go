package trackpage

import (
	"math"

	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/canvas/draw"
)

// barKeys are the values drawn as bars, with those that share a scale: moments,
// forces in rods or rack, pulls at the hand.
var barKeys = []struct {
	key, name string
	scale     int
}{
	{"left_moment", "axis, left", 0}, {"right_moment", "axis, right", 0}, {"rack", "rack", 1}, {"rim_pull", "hand", 2},
}

var rearBarKeys = []struct {
	key, name string
	scale     int
}{
	{"left_moment", "axis, left", 0}, {"right_moment", "axis, right", 0}, {"left_rod", "link, left", 1}, {"right_rod", "link, right", 1},
}

// Sizes of the bars in points.
const (
	barMargin  = 14
	barNames   = 84 // room for names, left of the bars
	barFigures = 96 // room for figures, right of them
	barHead    = 26 // a case's heading
	barTop     = 27 // title
	barFoot    = 20
	barMost    = 46 // the most that one value takes
)

// compose draws the sizes of moments and forces as bars, each kind on one scale.
func (e *effort) compose(l *draw.List, w, h float64) {
	l.On(draw.LayerNotes)
	if e.answer == nil {
		l.Text(draw.TextQuiet, draw.At(w/2, h/2), draw.Centre, "no answer under these conditions")
		return
	}
	keys := barKeys
	if e.answer.rear() {
		keys = rearBarKeys
	}
	scales := e.scales()
	l.Text(draw.TextBold, draw.At(barMargin, h-18), draw.Left, "Sizes of moments and forces, indicative")
	top := barTop + e.barLegend(l, w, h-36)
	e.aside(l, draw.At(w-barMargin, 7), draw.Right, pages.Pick(w < 440, "one scale each; | : 95 %", "one scale each for moments, forces and hand; | : 95 % of the measured points"))
	rows := float64(len(keys) * len(e.answer.Cases))
	high := min(barMost, (h-top-barFoot-barHead*float64(len(e.answer.Cases)))/rows)
	y := h - top
	room := w - barNames - barFigures - 2*barMargin
	for i := range e.answer.Cases {
		c := &e.answer.Cases[i]
		y -= barHead
		l.On(draw.LayerNotes)
		l.Text(draw.TextSmall, draw.At(barMargin, y+7), draw.Left, c.Name)
		for _, k := range keys {
			y -= high
			if b := e.answer.Find(c.Key, k.key); b != nil && high > 0 {
				e.bar(l, b, k.name, draw.Box{Min: draw.Point{X: barMargin + barNames, Y: y}, Max: draw.Point{X: barMargin + barNames + room, Y: y + high}}, scales[k.scale])
			}
		}
	}
}

// scales are the largest sizes of each kind, N mm and N.
func (e *effort) scales() (most [3]float64) {
	keys := barKeys
	if e.answer.rear() {
		keys = rearBarKeys
	}
	for i := range e.answer.Cases {
		for _, k := range keys {
			if b := e.answer.Find(e.answer.Cases[i].Key, k.key); b != nil {
				most[k.scale] = max(most[k.scale], math.Abs(b.Now.Value)+b.Now.Band, math.Abs(b.Before.Value))
			}
		}
	}
	return most
}

// barLegend names both variants, side by side where there is room, and returns
// how high it is; a name too long for a row of its own is cut.
func (e *effort) barLegend(l *draw.List, w, y float64) (high float64) {
	const boxWide, boxHigh, gap = 26, 9, 6
	room := w - 2*barMargin
	long := func(text draw.Role, words string) float64 {
		style := &e.picture.Styles[text]
		return boxWide + gap + style.Face.Width(words)*style.SizeOn(draw.OnScreen)
	}
	words := func(text draw.Role, what, name string) string {
		if long(text, what+name) > room {
			name = cut(name)
		}
		return what + name
	}
	sample := func(x float64, fill, edge, text draw.Role, words string) {
		box := draw.Box{Min: draw.Point{X: x, Y: y}, Max: draw.Point{X: x + boxWide, Y: y + boxHigh}}
		l.Rect(fill, box)
		l.Rect(edge, box)
		l.Text(text, draw.At(x+boxWide+gap, y), draw.Left, words)
	}
	now := words(draw.TextNow, "now: ", e.answer.Now.Source.Variant)
	sample(barMargin, draw.BandNow, draw.DimensionNow, draw.TextNow, now)
	if !e.answer.compares {
		return legendRow
	}
	before := words(draw.TextBefore, "before: ", e.answer.Before.Source.Variant)
	x, high := barMargin+long(draw.TextNow, now)+3*gap, float64(legendRow)
	if x+long(draw.TextBefore, before) > barMargin+room {
		x, y, high = barMargin, y-legendRow, 2*legendRow
	}
	sample(x, draw.BandBefore, draw.Compared, draw.TextBefore, before)
	return high
}

// cut shortens a name to what a legend holds.
func cut(name string) string {
	const most = 20
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return name
}

// bar draws one value of both variants in its box.
func (e *effort) bar(l *draw.List, b *report.BesideLine, name string, box draw.Box, most float64) {
	if most == 0 {
		return
	}
	mid := box.Mid().Y
	l.On(draw.LayerNotes)
	l.Text(draw.TextQuiet, draw.At(box.Min.X-8, mid), draw.Right+draw.Middle, name)
	l.On(draw.LayerGrid)
	l.Line(draw.Axis, box.Min, draw.Point{X: box.Min.X, Y: box.Max.Y})
	x := func(v float64) float64 { return box.Min.X + box.W()*math.Abs(v)/most }
	air := box.H() * 0.12
	low := box.Min.Y + air
	if e.answer.compares {
		low = mid
		was := draw.Box{Min: draw.Point{X: box.Min.X, Y: box.Min.Y + air}, Max: draw.Point{X: x(b.Before.Value), Y: mid - 1}}
		l.On(draw.LayerCompared)
		l.Rect(draw.BandBefore, was)
		l.Rect(draw.Compared, was)
	}
	now := draw.Box{Min: draw.Point{X: box.Min.X, Y: low}, Max: draw.Point{X: x(b.Now.Value), Y: box.Max.Y - air}}
	l.On(draw.LayerCurves)
	l.Rect(draw.BandNow, now)
	l.Rect(draw.DimensionNow, now)
	if b.Now.Band > 0 {
		for _, end := range [...]float64{max(0, math.Abs(b.Now.Value)-b.Now.Band), math.Abs(b.Now.Value) + b.Now.Band} {
			l.Line(draw.Dimension, draw.Point{X: x(end), Y: now.Min.Y}, draw.Point{X: x(end), Y: now.Max.Y})
		}
	}
	right := max(now.Max.X, x(math.Abs(b.Now.Value)+b.Now.Band), x(b.Before.Value)) + 8
	l.On(draw.LayerNotes)
	if e.answer.compares {
		l.Text(draw.TextBefore, draw.At(right, (box.Min.Y+air+mid)/2), draw.Left+draw.Middle, b.Before.Text(e.p.unit()))
	}
	l.Text(draw.TextNow, draw.At(right, now.Mid().Y), draw.Left+draw.Middle, b.Now.Text(e.p.unit()))
}
