package plates

import (
	"cmp"
	"slices"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
	"armscribe/kinematics/bumpsteer"
)

// Toe shows toe changes over travel or roll, with travel running up: rad over mm or
// rad.
type Toe struct {
	Over     bumpsteer.Over
	Inch     bool    // travel is shown in inches
	From, To float64 // what is shown of travel or roll
	Curves   []ToeCurve
	Band     *ToeBand
	Points   []ToePoint
	Caption  string
	Ends     bool // curves are named at their upper ends

	chart chart.Chart
}

// ToeCurve is one toe curve with its name.
type ToeCurve struct {
	bumpsteer.Curve
	Role, Text draw.Role
	Label      string
}

// NowCurve is a curve of what is there now, or would be.
func NowCurve(c bumpsteer.Curve, label string) ToeCurve {
	return ToeCurve{c, draw.CurveNow, draw.TextNow, label}
}

// BeforeCurve is a curve of what it is compared with.
func BeforeCurve(c bumpsteer.Curve, label string) ToeCurve {
	return ToeCurve{c, draw.CurveBefore, draw.TextBefore, label}
}

// ToeBand is what the measuring error allows.
type ToeBand struct{ At, Low, High []float64 }

// ToePoint is a reading of the gauge.
type ToePoint struct {
	At, Toe float64
	Right   bool // of the right wheel: hollow
}

// leastToe is the least width of toe worth showing, deg.
const leastToe = 0.1

// Draw draws the curves.
func (t *Toe) Draw(l *draw.List, w, h float64) {
	box := draw.Box{Max: draw.Point{X: w, Y: h}}
	if len(t.Curves) == 0 || !(t.To > t.From) {
		centred(l, box, t.Caption)
		return
	}
	const title = "toe change"
	unit := first(draw.TextQuiet, w-2*edge, t.units()...)
	head := t.head(l, w, h, title, unit)
	c := &t.chart
	*c = chart.Chart{Box: box, Zoom: 1, Styles: styles, Title: title, Unit: unit,
		Var: chart.Range{Min: t.along(t.From), Max: t.along(t.To)}, VarLabels: true, VarInches: t.Inch && t.Over != bumpsteer.OverRoll,
		Insets: draw.Margins{Left: 40, Right: 8, Top: 48 + head, Bottom: 26}}
	if t.Ends {
		c.Insets.Right, c.Insets.Top = 16, 70+head
	}
	if !roomy(l, c) {
		return
	}
	r := t.fill(c)
	air := 0.06 * (r.hi - r.lo)
	c.Val = chart.NiceRange(r.lo-air, r.hi+air, leastToe)
	c.Draw(l)
	l.On(draw.LayerGrid)
	l.Line(draw.Axis, c.At(0, c.Val.Min), c.At(0, c.Val.Max)) // rest
	if t.Ends {
		t.ends(l)
	}
	l.On(draw.LayerHandles)
	for _, p := range t.Points {
		if at := t.along(p.At); c.Var.Has(at) {
			mark(l, draw.On(c.At(at, p.Toe*degree)), p.Right)
		}
	}
}

// units say what the axes are, the longest first.
func (t *Toe) units() []string {
	const short = "deg, toe-in right"
	switch {
	case t.Over == bumpsteer.OverRoll:
		return []string{short + ", over roll in deg, left side up +", short + ", over roll in deg", short}
	case t.Inch:
		return []string{short + ", over travel in inches", short}
	}
	return []string{short + ", over travel in mm", short}
}

// fill puts band and curves into a chart, and returns how far all of them go.
func (t *Toe) fill(c *chart.Chart) (r reach) {
	see := func(list []float64) []float64 {
		out := make([]float64, len(list))
		for i, v := range list {
			out[i] = v * degree
			r.see(out[i])
		}
		return out
	}
	if b := t.Band; b != nil {
		c.Bands = append(c.Bands, chart.Band{Var: t.alongAll(b.At), Lo: see(b.Low), Hi: see(b.High), Role: draw.BandNow})
	}
	for i := range t.Curves {
		k := &t.Curves[i]
		label := k.Label
		if t.Ends {
			label = ""
		}
		c.Curves = append(c.Curves, chart.Curve{Var: t.alongAll(k.At), Val: see(k.Toe), Role: k.Role, Label: label, Text: k.Text})
	}
	for _, p := range t.Points {
		r.see(p.Toe * degree)
	}
	return r
}

func mark(l *draw.List, at draw.Pos, hollow bool) {
	role := draw.HandleMoving
	if hollow {
		role = draw.HandleFixed
	}
	l.Circle(role, at, 0, 4)
}

// head writes at the right what the chart is of, beside its title, and which reading is
// which, beside the unit; what has no room there stands under them. It returns how much
// higher the head is for that.
func (t *Toe) head(l *draw.List, w, h float64, title, unit string) (more float64) {
	const line, step = 20.0, 54.0
	l.On(draw.LayerNotes)
	under := h - line - 2*row
	if room := w - 2*edge; width(draw.TextBold, title)+gap+width(draw.TextQuiet, t.Caption) <= room {
		l.Text(draw.TextQuiet, draw.At(w-edge, h-line), draw.Right, t.Caption)
	} else {
		for _, text := range wrap(draw.TextQuiet, t.Caption, room) {
			l.Text(draw.TextQuiet, draw.At(w-edge, under), draw.Right, text)
			under -= row
		}
	}
	if len(t.Points) > 0 {
		x, y := w-edge, h-line-row
		if width(draw.TextQuiet, unit)+gap+2*step > w-2*edge {
			y = under
			under -= row
		}
		for _, k := range []struct {
			word  string
			right bool
		}{{"right", true}, {"left", false}} {
			x -= step
			mark(l, draw.At(x, y+4), k.right)
			l.Text(draw.TextQuiet, draw.At(x+8, y), draw.Left, k.word)
		}
	}
	return h - line - 2*row - under
}

// endName is a curve's name over its upper end.
type endName struct {
	curve    int
	x, half  float64 // of the name
	from, up float64 // of the curve's end
}

// ends writes the curves' names over their upper ends, spread where they would touch,
// each led to its end.
func (t *Toe) ends(l *draw.List) {
	const air, over = 5, 11 // on both sides, and over the end
	var names []endName
	for i := range t.Curves {
		k, c := &t.Curves[i], &t.chart.Curves[i]
		if n := len(c.Var); n > 0 && k.Label != "" {
			at := t.chart.At(c.Var[n-1], c.Val[n-1])
			names = append(names, endName{i, at.X, width(k.Text, k.Label)/2 + air, at.X, at.Y})
		}
	}
	names = thinned(names, t.chart.Box.W())
	spread(names, t.chart.Box.Min.X, t.chart.Box.Max.X)
	for _, n := range names {
		k := &t.Curves[n.curve]
		l.On(draw.LayerConstruction)
		l.Line(draw.Leader, draw.Point{X: n.x, Y: n.up + over - 2}, draw.Point{X: n.from, Y: n.up + 1})
		l.On(draw.LayerNotes)
		l.Text(k.Text, draw.At(n.x, n.up+over+1), draw.Centre, k.Label)
	}
}

// thinned leaves out every second name until the rest has room.
func thinned(names []endName, room float64) []endName {
	for len(names) > 1 {
		wide := 0.0
		for _, n := range names {
			wide += 2 * n.half
		}
		if wide <= room {
			break
		}
		for i := 1; i < len(names); i++ {
			names = slices.Delete(names, i, i+1)
		}
	}
	return names
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

// along turns travel or roll into the unit of its axis.
func (t *Toe) along(v float64) float64 {
	switch {
	case t.Over == bumpsteer.OverRoll:
		return v * degree
	case t.Inch:
		return v / inch
	}
	return v
}

func (t *Toe) alongAll(list []float64) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = t.along(v)
	}
	return out
}
