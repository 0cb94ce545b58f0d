package trackpage

import (
	"math"

	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
)

// lockChart keeps a chart and its numbers between drawings.
type lockChart struct{ chart.Chart }

// chartShare of the picture's height is for the charts, the rest for the plan.
const chartShare = 0.38

// compose draws both charts side by side over the plan.
func (k *lock) compose(l *draw.List, w, h float64) {
	if k.now == nil {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(w/2, h/2), draw.Centre, "no steering here")
		return
	}
	floor := h * (1 - chartShare)
	k.angleChart(l, draw.Box{Min: draw.Point{X: 0, Y: floor}, Max: draw.Point{X: w / 2, Y: h}})
	k.errorChart(l, draw.Box{Min: draw.Point{X: w / 2, Y: floor}, Max: draw.Point{X: w, Y: h}})
	k.plan(l, draw.Box{Max: draw.Point{X: w, Y: floor}})
}

// leastAngles and leastError are the least heights of the charts worth showing,
// deg; leastRack is the least width, mm.
const (
	leastAngles = 2
	leastError  = 0.5
	leastRack   = 0.1
)

// chartFair is the least width of a chart, points, that holds the whole titles.
const chartFair = 190

// begin fills in what both charts have; false where the rack has no way.
func (k *lock) begin(c *lockChart, box draw.Box, title, unit string) bool {
	first, last := k.curve[0].Rack, k.curve[len(k.curve)-1].Rack
	if last-first < leastRack {
		return false
	}
	u := k.p.unit()
	c.Chart = chart.Chart{Box: box, Zoom: 1, Styles: k.picture.Styles, Title: title, Unit: unit, Across: true, VarLabels: true, VarInches: u == units.Inch,
		Var: chart.Range{Min: units.In(first, u), Max: units.In(last, u)}}
	return true
}

// values are one curve over the rack, deg, with gaps where of says so.
func (k *lock) values(rows []report.LockRow, of func(r *report.LockRow) (rad float64, ok bool)) (at, val []float64, ok []bool) {
	for i := range rows {
		v, known := of(&rows[i])
		if !known {
			v = 0
		}
		at, val, ok = append(at, units.In(rows[i].Rack, k.p.unit())), append(val, v*pages.Degree), append(ok, known)
	}
	return at, val, ok
}

func (k *lock) angleChart(l *draw.List, box draw.Box) {
	c := &k.charts[0]
	if !k.begin(c, box, "steer", pages.Pick(box.W() < chartFair, "deg over ", "deg, left +, over rack, ")+k.p.unit().String()+", left +") {
		return
	}
	lo, hi := 0.0, 0.0
	add := func(role, text draw.Role, label string, of func(r *report.LockRow) (float64, bool)) {
		at, val, ok := k.values(k.curve, of)
		for i, v := range val {
			if ok[i] {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
		c.Curves = append(c.Curves, chart.Curve{Var: at, Val: val, OK: ok, Role: role, Text: text, Label: label})
	}
	add(draw.LowerArmArc, draw.TextQuiet, "outer, ideal", func(r *report.LockRow) (float64, bool) { v, _, ok := r.Ideal(); return v, ok })
	add(draw.FreePath, draw.TextSmall, "right", func(r *report.LockRow) (float64, bool) { return r.Right, r.Missing == "" })
	add(draw.CurveNow, draw.TextNow, "left", func(r *report.LockRow) (float64, bool) { return r.Left, r.Missing == "" })
	c.Val = chart.NiceRange(lo, hi, leastAngles)
	c.Draw(l)
	k.zero(l, c)
	k.drawLocks(l, c)
}

func (k *lock) errorChart(l *draw.List, box draw.Box) {
	c := &k.charts[1]
	if !k.begin(c, box, pages.Pick(box.W() < chartFair, "Ackermann", "Ackermann error"), pages.Pick(box.W() < chartFair, "deg, + outer too far", "deg, + outer wheel too far")) {
		return
	}
	of := func(r *report.LockRow) (float64, bool) { return r.AckermannError, r.Missing == "" && r.HasError }
	at, val, ok := k.values(k.curve, of)
	if !anyTrue(ok) {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.On(box.Mid()), draw.Centre, pages.Pick(k.now.Source.Wheelbase > 0, "wheels not turned one way", "needs the wheelbase"))
		return
	}
	lo, hi := 0.0, 0.0
	band := chart.Band{Var: at, OK: ok, Role: draw.BandNow}
	for i := range k.curve {
		half := k.curve[i].ErrorBand * pages.Degree
		band.Lo, band.Hi = append(band.Lo, val[i]-half), append(band.Hi, val[i]+half)
		if ok[i] {
			lo, hi = min(lo, val[i]-half), max(hi, val[i]+half)
		}
	}
	c.Bands = []chart.Band{band}
	if k.before != nil {
		at, val, ok := k.values(k.was, of)
		for i, v := range val {
			if ok[i] {
				lo, hi = min(lo, v), max(hi, v)
			}
		}
		c.Curves = append(c.Curves, chart.Curve{Var: at, Val: val, OK: ok, Role: draw.CurveBefore, Text: draw.TextBefore, Label: "measured"})
	}
	c.Curves = append(c.Curves, chart.Curve{Var: at, Val: val, OK: ok, Role: draw.CurveNow, Text: draw.TextNow, Label: "now"})
	c.Val = chart.NiceRange(lo, hi, leastError)
	c.Draw(l)
	k.zero(l, c)
	k.drawLocks(l, c)
}

func anyTrue(list []bool) bool {
	for _, b := range list {
		if b {
			return true
		}
	}
	return false
}

// zero draws the axes through nought.
func (k *lock) zero(l *draw.List, c *lockChart) {
	l.On(draw.LayerGrid)
	l.Line(draw.Axis, c.At(c.Var.Min, 0), c.At(c.Var.Max, 0))
	if c.Var.Has(0) {
		l.Line(draw.Axis, c.At(0, c.Val.Min), c.At(0, c.Val.Max))
	}
}

// drawLocks marks where an obstacle ends the lock before the stop.
func (k *lock) drawLocks(l *draw.List, c *lockChart) {
	for i := range k.now.Ways {
		e := &k.now.Ways[i].Kept
		at := units.In(e.Rack, k.p.unit())
		if e.By != report.ByObstacle || !c.Var.Has(at) {
			continue
		}
		l.On(draw.LayerCurves)
		l.Line(draw.ObstacleHatch, c.At(at, c.Val.Min), c.At(at, c.Val.Max))
		l.On(draw.LayerNotes)
		const aside, down = 4, -12
		side, shift := draw.Right, -aside
		if edge := 0.75 * max(-c.Var.Min, c.Var.Max); (at > 0) == (math.Abs(at) < edge) { // near an edge of the chart it stands inside
			side, shift = draw.Left, aside
		}
		l.Text(draw.TextQuiet, draw.On(c.At(at, c.Val.Max)).Off(float64(shift), down), side, "gap")
	}
}
