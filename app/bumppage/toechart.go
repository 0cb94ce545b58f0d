package bumppage

import (
	"cmp"
	"slices"

	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
	"armscribe/kinematics/bumpsteer"
)

// picture is what the chart shows: toe changes over travel or roll, in rad over
// mm or rad.
type picture struct {
	over    bumpsteer.Over
	unit    units.Unit
	from    span
	curves  []curve
	band    *band
	points  []point
	caption string
	ends    bool // curves are named at their upper ends
}

// span is a stretch of travel or roll.
type span struct{ min, max float64 }

// curve is one toe curve.
type curve struct {
	bumpsteer.Curve
	role, text draw.Role
	label      string
}

// band is what the measuring error allows.
type band struct{ at, low, high []float64 }

// point is a reading of the gauge.
type point struct {
	at, toe float64
	hollow  bool
}

func nowCurve(c bumpsteer.Curve, label string) curve {
	return curve{c, draw.CurveNow, draw.TextNow, label}
}

func beforeCurve(c bumpsteer.Curve, label string) curve {
	return curve{c, draw.CurveBefore, draw.TextBefore, label}
}

// toeChart draws a picture with travel running up.
type toeChart struct {
	*pages.Picture
	in    picture
	chart chart.Chart
	list  *draw.List // being drawn
}

func newToeChart() *toeChart {
	t := &toeChart{}
	t.Picture = pages.NewPicture(t.compose)
	return t
}

func (t *toeChart) set(in picture) {
	t.in = in
	t.chart = chart.Chart{} // no label stays where another picture had one
	t.Redraw()
}

// Sizes of the chart in points.
const (
	dotRadius   = 4
	captionDown = 36
	legendStep  = 54
	// leastSpan is the least width of toe worth showing, deg.
	leastSpan = 0.1
)

func (t *toeChart) compose(l *draw.List, w, h float64) {
	t.list = l
	in := &t.in
	if len(in.curves) == 0 || !(in.from.max > in.from.min) {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(w/2, h/2), draw.Centre, in.caption)
		return
	}
	c := &t.chart
	c.Box = draw.Box{Max: draw.Point{X: w, Y: h}}
	c.Zoom, c.Styles = 1, t.Styles
	c.Title, c.Unit = "toe change", "deg, toe-in right, over travel in "+pages.Pick(in.unit == units.Inch, "inches", "mm")
	if in.over == bumpsteer.OverRoll {
		c.Unit = "deg, toe-in right, over roll in deg, left side up +"
	}
	c.Var = chart.Range{Min: in.along(in.from.min), Max: in.along(in.from.max)}
	c.VarLabels, c.VarInches = true, in.unit == units.Inch && in.over != bumpsteer.OverRoll
	if in.ends {
		c.Insets = draw.Margins{Left: 40, Right: 16, Top: 70, Bottom: 26}
	}
	c.Curves, c.Bands = c.Curves[:0], c.Bands[:0]
	lo, hi := 0.0, 0.0
	see := func(list []float64) []float64 {
		out := make([]float64, len(list))
		for i, v := range list {
			out[i] = v * pages.Degree
			lo, hi = min(lo, out[i]), max(hi, out[i])
		}
		return out
	}
	if b := in.band; b != nil {
		c.Bands = append(c.Bands, chart.Band{Var: in.alongAll(b.at), Lo: see(b.low), Hi: see(b.high), Role: draw.BandNow})
	}
	for i := range in.curves {
		k := &in.curves[i]
		label := k.label
		if in.ends {
			label = ""
		}
		c.Curves = append(c.Curves, chart.Curve{Var: in.alongAll(k.At), Val: see(k.Toe), Role: k.role, Label: label, Text: k.text})
	}
	for _, p := range in.points {
		lo, hi = min(lo, p.toe*pages.Degree), max(hi, p.toe*pages.Degree)
	}
	air := 0.06 * (hi - lo)
	c.Val = chart.NiceRange(lo-air, hi+air, leastSpan)
	c.Draw(l)
	l.On(draw.LayerGrid)
	l.Line(draw.Axis, c.At(0, c.Val.Min), c.At(0, c.Val.Max)) // rest
	if in.ends {
		t.drawEnds()
	}
	t.drawPoints()
	t.drawHead(w, h)
}

// endName is a curve's name over its upper end.
type endName struct {
	curve    int
	x, half  float64 // of the name
	from, up float64 // of the curve's end
}

// drawEnds writes the curves' names over their upper ends, spread where they
// would touch, each led to its end.
func (t *toeChart) drawEnds() {
	l := t.list
	var names []endName
	for i := range t.in.curves {
		k, c := &t.in.curves[i], &t.chart.Curves[i]
		if n := len(c.Var); n > 0 && k.label != "" {
			at := t.chart.At(c.Var[n-1], c.Val[n-1])
			half := t.Styles[k.text].Face.Width(k.label)*t.Styles[k.text].SizeOn(draw.OnScreen)/2 + endAir
			names = append(names, endName{i, at.X, half, at.X, at.Y})
		}
	}
	spread(names, t.chart.Box.Min.X, t.chart.Box.Max.X)
	for _, n := range names {
		k := &t.in.curves[n.curve]
		l.On(draw.LayerConstruction)
		l.Line(draw.Leader, draw.Point{X: n.x, Y: n.up + endUp - 2}, draw.Point{X: n.from, Y: n.up + 1})
		l.On(draw.LayerNotes)
		l.Text(k.text, draw.At(n.x, n.up+endUp+1), draw.Centre, k.label)
	}
}

// spread moves names apart, no farther than they need: halfway between pushing
// them all to the right and all to the left, both of which keep them apart.
func spread(names []endName, left, right float64) {
	slices.SortStableFunc(names, func(a, b endName) int { return cmp.Compare(a.x, b.x) })
	n := len(names)
	rightward, leftward := make([]float64, n), make([]float64, n)
	edge := left
	for i := range n {
		rightward[i] = max(names[i].x, edge+names[i].half)
		edge = rightward[i] + names[i].half
	}
	edge = right
	for i := n - 1; i >= 0; i-- {
		leftward[i] = min(names[i].x, edge-names[i].half)
		edge = leftward[i] - names[i].half
	}
	for i := range names {
		names[i].x = (rightward[i] + leftward[i]) / 2
	}
	edge = right
	for i := n - 1; i >= 0; i-- { // near the edges only one way is left
		names[i].x = min(names[i].x, edge-names[i].half)
		edge = names[i].x - names[i].half
	}
	edge = left
	for i := range names {
		names[i].x = max(names[i].x, edge+names[i].half)
		edge = names[i].x + names[i].half
	}
}

// Sizes of the names at the ends, points.
const (
	endAir = 5  // on both sides
	endUp  = 11 // over the end of the curve
)

// drawPoints marks the readings.
func (t *toeChart) drawPoints() {
	l, in := t.list, &t.in
	l.On(draw.LayerHandles)
	for _, p := range in.points {
		at := in.along(p.at)
		if t.chart.Var.Has(at) {
			l.Circle(pointRole(p.hollow), draw.On(t.chart.At(at, p.toe*pages.Degree)), 0, dotRadius)
		}
	}
}

func pointRole(hollow bool) draw.Role {
	if hollow {
		return draw.HandleFixed
	}
	return draw.HandleMoving
}

// drawHead writes what the chart is of, and which reading is which.
func (t *toeChart) drawHead(w, h float64) {
	l, in := t.list, &t.in
	l.On(draw.LayerNotes)
	if in.caption != "" {
		l.Text(draw.TextQuiet, draw.At(w-8, h-20), draw.Right, in.caption)
	}
	if len(in.points) == 0 {
		return
	}
	x := w - 8.0
	for _, k := range []struct {
		word   string
		hollow bool
	}{{"right", true}, {"left", false}} {
		x -= legendStep
		l.Circle(pointRole(k.hollow), draw.At(x, h-captionDown+4), 0, dotRadius)
		l.Text(draw.TextQuiet, draw.At(x+8, h-captionDown), draw.Left, k.word)
	}
}

// along turns travel or roll into the unit of its axis.
func (in *picture) along(v float64) float64 {
	if in.over == bumpsteer.OverRoll {
		return v * pages.Degree
	}
	return units.In(v, in.unit)
}

func (in *picture) alongAll(list []float64) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = in.along(v)
	}
	return out
}

// stations are n+1 even places of a range, with rest among them.
func stations(from, end float64, n int) []float64 {
	list := make([]float64, 0, n+2)
	for i := range n + 1 {
		v := from + (end-from)*float64(i)/float64(n)
		if k := len(list); k > 0 && list[k-1] < 0 && v > 0 {
			list = append(list, 0)
		}
		list = append(list, v)
	}
	return list
}

// curvePlaces is how many stretches a curve is drawn with.
const curvePlaces = 60

// travelPicture is an empty chart over the job's travel.
func (p *Page) travelPicture() picture {
	return picture{unit: p.setup.Unit, from: span{-p.setup.Droop, p.setup.Bump}}
}

// present is the toe curve of the corner shown; empty where it does not reach.
func (p *Page) present() bumpsteer.Curve {
	c, err := bumpsteer.ToeCurve(p.setup.Corner, bumpsteer.OverTravel, stations(-p.setup.Droop, p.setup.Bump, curvePlaces))
	if err != nil {
		return bumpsteer.Curve{} // the section says why
	}
	return c
}
