package plates

import (
	"math"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// Lock shows how both wheels steer over the rack, how far they are from Ackermann,
// and the turning circle in plan.
type Lock struct {
	Inch                      bool      // lengths are shown in inches
	Rack                      []float64 // mm, left positive, rising
	Left, Right, Ideal, Error Series    // ideal is that of the outer wheel
	ErrorBand                 []float64 // 95 %, rad
	ErrorMissing              string    // why Error has no value
	Was                       Series    // the error of the measured corner; empty for none
	Gaps                      []float64 // mm of rack: where an obstacle ends the lock before the stop

	Title       string
	Turn, Past  *Turn  // Past is the measured corner's
	TurnMissing string // why Turn is nil
	Tyre        clearance.Tyre
}

// Series is an angle, rad, at every place of the rack; where OK is false it has none.
type Series struct {
	Val []float64
	OK  []bool
}

// Add appends a value.
func (s *Series) Add(v float64, ok bool) {
	if !ok {
		v = 0
	}
	s.Val, s.OK = append(s.Val, v*degree), append(s.OK, ok)
}

func (s *Series) any() bool {
	for _, ok := range s.OK {
		if ok {
			return true
		}
	}
	return false
}

// Turn is a car going round its turning circle. Wall and Kerb say how large
// the circles are.
type Turn struct {
	Circle     clearance.TurningCircle
	Contact    [2]kinematics.Vec // of the left and the right tyre
	Steer      [2]float64        // rad
	Wall, Kerb string
}

// Draw draws both charts and the plan.
func (k *Lock) Draw(l *draw.List, w, h float64) {
	const charts = 0.38                        // of the height, where they stand over the plan
	const leastPlan, leastChart = 220.0, 129.0 // points of width and of height
	all := draw.Box{Max: draw.Point{X: w, Y: h}}
	if k.Rack[len(k.Rack)-1]-k.Rack[0] < leastRack {
		k.plan(l, all)
		return
	}
	plan, side := split(all)
	one, other := side, side
	if plan.Max.X < w { // the plan at the left, the charts over each other
		plan.Max.X = max(0.5*w, min(leastPlan, 0.55*w))
		one.Min.X, other.Min.X = plan.Max.X, plan.Max.X
		one.Min.Y, other.Max.Y = h/2, h/2
	} else {
		plan, side = all, all
		plan.Max.Y, side.Min.Y = h*(1-charts), h*(1-charts)
		one, other = side, side
		one.Max.X, other.Min.X = w/2, w/2
	}
	if one.H() < leastChart { // one of them can be read
		one.Min.Y = other.Min.Y
	} else {
		k.errorChart(l, other)
	}
	k.angleChart(l, one)
	k.plan(l, plan)
}

// The least heights of the charts worth showing, deg, and the least width, mm.
const (
	leastAngles = 2
	leastError  = 0.5
	leastRack   = 0.1
)

// begin makes a chart over the rack; false where there is no room.
func (k *Lock) begin(l *draw.List, box draw.Box, title, unit string) (*chart.Chart, bool) {
	from, to := k.Rack[0], k.Rack[len(k.Rack)-1]
	rack, over := " over rack in mm", 0.0
	if k.Inch {
		rack = " over rack in inches"
	}
	if len(k.Gaps) > 0 { // named over the plot
		over = row - 2
	}
	c := &chart.Chart{Box: box, Zoom: 1, Styles: styles, Title: title,
		Unit:   first(draw.TextQuiet, box.W()-2*edge, unit+rack+", left +", unit+rack, unit),
		Across: true, VarLabels: true, VarInches: k.Inch,
		Insets: draw.Margins{Left: 40, Right: 8 + edge, Top: 48 + over, Bottom: 26},
		Var:    chart.Range{Min: k.shown(from), Max: k.shown(to)}}
	return c, roomy(l, c)
}

// shown is a length in the unit on display.
func (k *Lock) shown(mm float64) float64 {
	if k.Inch {
		return mm / inch
	}
	return mm
}

func (k *Lock) along() []float64 {
	list := make([]float64, len(k.Rack))
	for i, mm := range k.Rack {
		list[i] = k.shown(mm)
	}
	return list
}

func (r *reach) with(s *Series, half []float64) {
	for i, v := range s.Val {
		if !s.OK[i] {
			continue
		}
		r.see(v)
		if half != nil {
			r.see(v - half[i]*degree)
			r.see(v + half[i]*degree)
		}
	}
}

func (k *Lock) angleChart(l *draw.List, box draw.Box) {
	c, ok := k.begin(l, box, "steer", "deg")
	if !ok {
		return
	}
	var r reach
	for _, s := range []struct {
		of         *Series
		role, text draw.Role
		label      string
	}{{&k.Ideal, draw.LowerArmArc, draw.TextQuiet, "outer, ideal"}, {&k.Right, draw.FreePath, draw.TextSmall, "right"}, {&k.Left, draw.CurveNow, draw.TextNow, "left"}} {
		r.with(s.of, nil)
		c.Curves = append(c.Curves, chart.Curve{Var: k.along(), Val: s.of.Val, OK: s.of.OK, Role: s.role, Text: s.text, Label: s.label})
	}
	k.finish(l, c, r, leastAngles)
}

func (k *Lock) errorChart(l *draw.List, box draw.Box) {
	c, ok := k.begin(l, box, first(draw.TextBold, box.W()-2*edge, "Ackermann error", "Ackermann"), "deg, + outer too far")
	if !ok {
		return
	}
	if !k.Error.any() {
		centred(l, box, k.ErrorMissing)
		return
	}
	var r reach
	band := chart.Band{Var: k.along(), OK: k.Error.OK, Role: draw.BandNow}
	for i, v := range k.Error.Val {
		half := k.ErrorBand[i] * degree
		band.Lo, band.Hi = append(band.Lo, v-half), append(band.Hi, v+half)
	}
	c.Bands = []chart.Band{band}
	r.with(&k.Error, k.ErrorBand)
	if k.Was.any() {
		r.with(&k.Was, nil)
		c.Curves = append(c.Curves, chart.Curve{Var: k.along(), Val: k.Was.Val, OK: k.Was.OK, Role: draw.CurveBefore, Text: draw.TextBefore, Label: "measured"})
	}
	c.Curves = append(c.Curves, chart.Curve{Var: k.along(), Val: k.Error.Val, OK: k.Error.OK, Role: draw.CurveNow, Text: draw.TextNow, Label: "now"})
	k.finish(l, c, r, leastError)
}

// finish draws a chart, the axes through nought, and where an obstacle ends the lock.
func (k *Lock) finish(l *draw.List, c *chart.Chart, r reach, least float64) {
	c.Val = chart.NiceRange(r.lo, r.hi, least)
	for _, mm := range k.Gaps { // as a curve, so that names keep off it
		at := k.shown(mm)
		c.Curves = append(c.Curves, chart.Curve{Var: []float64{at, at}, Val: []float64{c.Val.Min, c.Val.Max}, Role: draw.ObstacleHatch})
	}
	c.Draw(l)
	l.On(draw.LayerGrid)
	l.Line(draw.Axis, c.At(c.Var.Min, 0), c.At(c.Var.Max, 0))
	if c.Var.Has(0) {
		l.Line(draw.Axis, c.At(0, c.Val.Min), c.At(0, c.Val.Max))
	}
	for _, mm := range k.Gaps {
		if at := k.shown(mm); c.Var.Has(at) {
			l.On(draw.LayerNotes)
			l.Text(draw.TextQuiet, draw.On(c.At(at, c.Val.Max)).Off(0, 4), draw.Centre, "gap")
		}
	}
}

// planView places a plan on the picture: seen from above, the car's left to the
// right and its nose down, as under a front view.
type planView struct{ x, y, scale float64 }

func (v *planView) at(p kinematics.Vec) draw.Point {
	return draw.Point{X: v.x + v.scale*p.Y, Y: v.y - v.scale*p.X}
}

// plan draws the turning circle to scale.
func (k *Lock) plan(l *draw.List, b draw.Box) {
	words(l, draw.TextBold, &b, k.Title)
	if k.Turn == nil {
		centred(l, b, k.TurnMissing)
		return
	}
	k.legend(l, &b)
	under := b
	b.Min.Y += row
	v := fitPlan(b, k.Turn, k.Past)
	under.Min.X = scaleBar(l, under, v.scale, k.Inch)
	foot(l, &under, draw.TextQuiet, "", &Note{Words: first(draw.TextQuiet, under.W()-2*edge, "seen from above, nose down", "from above, nose down", "from above")})
	if k.Past != nil {
		l.On(draw.LayerCompared)
		l.Circle(draw.Compared, draw.On(v.at(k.Past.Circle.Centre)), v.scale*k.Past.Circle.WallToWall/2, 0)
	}
	k.car(l, &v)
	l.On(draw.LayerOutlines)
	centre := draw.On(v.at(k.Turn.Circle.Centre))
	l.Circle(draw.CurveNow, centre, v.scale*k.Turn.Circle.WallToWall/2, 0)
	l.Circle(draw.TieRodArc, centre, v.scale*k.Turn.Circle.KerbToKerb/2, 0)
}

// fitPlan holds the circles in a box.
func fitPlan(box draw.Box, turns ...*Turn) planView {
	all := draw.EmptyBox()
	plain := planView{scale: 1}
	for _, t := range turns {
		if t != nil {
			c, r := plain.at(t.Circle.Centre), t.Circle.WallToWall/2
			all = all.With(c.Add(draw.Point{X: r, Y: r})).With(c.Sub(draw.Point{X: r, Y: r}))
		}
	}
	room := box.Grow(-edge)
	scale := max(0, min(room.W()/all.W(), room.H()/all.H()))
	mid := all.Mid()
	return planView{x: room.Mid().X - scale*mid.X, y: room.Mid().Y - scale*mid.Y, scale: scale}
}

// car draws the wheels, the car's middle, and each front wheel's own line to the
// other axle's.
func (k *Lock) car(l *draw.List, v *planView) {
	t := k.Turn
	rear := t.Circle.Centre.X
	const overhang = 700 // mm of centre line past both axles
	l.On(draw.LayerConstruction)
	l.Line(draw.CentrePlane, v.at(kinematics.Vec{X: overhang}), v.at(kinematics.Vec{X: rear - overhang}))
	far := t.Circle.Centre.Y
	for i, c := range t.Contact {
		meets := kinematics.Vec{X: rear, Y: c.Y + (c.X-rear)/math.Tan(t.Steer[i])}
		l.Line(draw.Construction, v.at(c), v.at(meets))
		if math.Abs(meets.Y) > math.Abs(far) {
			far = meets.Y
		}
	}
	opposite := t.Contact[0].Y
	if far > 0 {
		opposite = t.Contact[1].Y
	}
	l.Line(draw.Construction, v.at(kinematics.Vec{X: rear, Y: opposite}), v.at(kinematics.Vec{X: rear, Y: far}))
	l.On(draw.LayerOutlines)
	for i, c := range t.Contact {
		k.tyre(l, v, draw.Outline, c, t.Steer[i])
		k.tyre(l, v, draw.OutlineInner, kinematics.Vec{X: rear, Y: c.Y}, 0)
	}
	l.On(draw.LayerHandles)
	l.Circle(draw.HandleFixed, draw.On(v.at(t.Circle.Centre)), 0, 4)
}

// tyre draws a tyre from above, steered to the left by so much.
func (k *Lock) tyre(l *draw.List, v *planView, role draw.Role, at kinematics.Vec, steer float64) {
	sin, cos := math.Sincos(steer)
	corner := func(ahead, left float64) draw.Point {
		return v.at(kinematics.Vec{X: at.X + ahead*cos - left*sin, Y: at.Y + ahead*sin + left*cos})
	}
	r, half := k.Tyre.Radius, k.Tyre.Section/2
	l.Polygon(role, corner(r, half), corner(r, -half), corner(-r, -half), corner(-r, half))
}

// legend says which circle is which, in as many columns as the box holds.
func (k *Lock) legend(l *draw.List, b *draw.Box) {
	type line struct {
		role, text draw.Role
		words      string
	}
	room := b.W() - 2*edge - keyWidth(draw.TextNow, "")
	rows := []line{{draw.CurveNow, draw.TextNow, first(draw.TextNow, room, "wall to wall "+k.Turn.Wall, "wall "+k.Turn.Wall)},
		{draw.TieRodArc, draw.TextNow, first(draw.TextNow, room, "kerb to kerb "+k.Turn.Kerb, "kerb "+k.Turn.Kerb)}}
	if k.Past != nil {
		rows = append(rows, line{draw.Compared, draw.TextBefore, first(draw.TextBefore, room, "measured, wall to wall "+k.Past.Wall, "measured "+k.Past.Wall, k.Past.Wall)})
	}
	wide := 0.0
	for _, r := range rows {
		wide = max(wide, keyWidth(r.text, r.words)+gap)
	}
	columns := max(1, min(2, int((b.W()-2*edge)/wide)))
	l.On(draw.LayerNotes)
	for i, r := range rows {
		x := b.Min.X + edge + float64(i%columns)*wide
		key(l, r.role, r.text, x, b.Max.Y-row*float64(1+i/columns), r.words)
	}
	b.Max.Y -= row * float64((len(rows)+columns-1)/columns)
}

// scaleBar draws a round length in the lower left corner of a box, and returns where it
// ends.
func scaleBar(l *draw.List, box draw.Box, scale float64, inches bool) (end float64) {
	mm, text := 2000.0, "2 m"
	if inches {
		mm, text = 5*12*inch, "5 ft"
	}
	a := box.Min.Add(draw.Point{X: edge, Y: rise + 4})
	b := a.Add(draw.Point{X: scale * mm})
	l.On(draw.LayerDimensions)
	l.Line(draw.Dimension, a, b)
	for _, p := range [...]draw.Point{a, b} {
		const tick = 3
		l.Line(draw.Dimension, p.Add(draw.Point{Y: tick}), p.Sub(draw.Point{Y: tick}))
	}
	l.On(draw.LayerNotes)
	l.Text(draw.TextQuiet, draw.On(b).Off(6, -4), draw.Left, text)
	return b.X + 6 + width(draw.TextQuiet, text)
}
