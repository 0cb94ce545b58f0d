package trackpage

import (
	"math"

	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// planView places a plan on the picture: seen from above, the car's left to the
// right and its nose down, as under a front view.
type planView struct{ x, y, scale float64 }

func (v *planView) at(p kinematics.Vec) draw.Point {
	return draw.Point{X: v.x + v.scale*p.Y, Y: v.y - v.scale*p.X}
}

// Sizes of the plan in points.
const (
	planMargin = 14
	planFoot   = 28 // room for the scale
	legendRow  = 17
	legendLine = 26
	legendWide = 215 // of one of its columns
)

// legendColumns is how many columns a box holds.
func legendColumns(box draw.Box) int {
	return min(2, max(1, int((box.W()-planMargin)/legendWide)))
}

// legendHigh is the height of three rows of it under the title.
func legendHigh(box draw.Box) float64 {
	const rows, air = 3, 8
	return float64(legendRow*(1+(rows+legendColumns(box)-1)/legendColumns(box)) + air)
}

// plan draws the turning circle of the way chosen, to scale.
func (k *lock) plan(l *draw.List, box draw.Box) {
	way := k.chosen()
	e := &k.now.Ways[way].Touch
	title := pages.UpperFirst(wayWords[way]) + pages.Pick(e.By == report.ByObstacle, ", until it touches", ", at the end of the rack")
	l.On(draw.LayerNotes)
	l.Text(draw.TextBold, draw.At(box.Min.X+planMargin, box.Max.Y-legendRow), draw.Left, title)
	l.Text(draw.TextQuiet, draw.At(box.Max.X-planMargin, box.Min.Y+planMargin-4), draw.Right, "seen from above, nose down")
	if !e.HasWall {
		l.Text(draw.TextQuiet, draw.On(box.Mid()), draw.Centre, k.noCircle())
		return
	}
	var was *report.LockEnd
	if k.before != nil && k.before.Ways[way].Touch.HasWall {
		was = &k.before.Ways[way].Touch
	}
	v := fitPlan(box, e, was)
	if was != nil {
		l.On(draw.LayerCompared)
		l.Circle(draw.Compared, draw.On(v.at(was.Circle.Centre)), v.scale*was.Circle.WallToWall/2, 0)
	}
	k.drawCar(l, &v, e)
	l.On(draw.LayerOutlines)
	centre := draw.On(v.at(e.Circle.Centre))
	l.Circle(draw.CurveNow, centre, v.scale*e.Circle.WallToWall/2, 0)
	l.Circle(draw.TieRodArc, centre, v.scale*e.Circle.KerbToKerb/2, 0)
	k.legend(l, box, e, was)
	k.scaleBar(l, box, &v)
}

func (k *lock) noCircle() string {
	switch {
	case k.now.NoTyre:
		return "no circle: the tyre's size is not known"
	case k.now.Source.Wheelbase <= 0:
		return "the circle needs the wheelbase"
	}
	return "no circle: the wheels do not turn one way"
}

// fitPlan holds both circles in the box under the legend.
func fitPlan(box draw.Box, ends ...*report.LockEnd) planView {
	all := draw.EmptyBox()
	plain := planView{scale: 1}
	for _, e := range ends {
		if e != nil {
			c, r := plain.at(e.Circle.Centre), e.Circle.WallToWall/2
			all = all.With(c.Add(draw.Point{X: r, Y: r})).With(c.Sub(draw.Point{X: r, Y: r}))
		}
	}
	room := draw.Box{Min: box.Min.Add(draw.Point{X: planMargin, Y: planFoot}), Max: box.Max.Sub(draw.Point{X: planMargin, Y: legendHigh(box)})}
	scale := max(0, min(room.W()/all.W(), room.H()/all.H()))
	mid := all.Mid()
	return planView{x: room.Mid().X - scale*mid.X, y: room.Mid().Y - scale*mid.Y, scale: scale}
}

// drawCar draws the wheels, the car's middle, and each front wheel's own line to
// the other axle's.
func (k *lock) drawCar(l *draw.List, v *planView, e *report.LockEnd) {
	rear := e.Circle.Centre.X
	const overhang = 700 // mm of centre line past both axles
	l.On(draw.LayerConstruction)
	l.Line(draw.CentrePlane, v.at(kinematics.Vec{X: overhang}), v.at(kinematics.Vec{X: rear - overhang}))
	far := e.Circle.Centre.Y
	for i, steer := range [...]float64{e.Left, e.Right} {
		c := e.Contact[i]
		meets := kinematics.Vec{X: rear, Y: c.Y + (c.X-rear)/math.Tan(steer)}
		l.Line(draw.Construction, v.at(c), v.at(meets))
		if math.Abs(meets.Y) > math.Abs(far) {
			far = meets.Y
		}
	}
	opposite := e.Contact[0].Y
	if far > 0 {
		opposite = e.Contact[1].Y
	}
	l.Line(draw.Construction, v.at(kinematics.Vec{X: rear, Y: opposite}), v.at(kinematics.Vec{X: rear, Y: far}))
	l.On(draw.LayerOutlines)
	for i, steer := range [...]float64{e.Left, e.Right} {
		k.drawTyre(l, v, draw.Outline, e.Contact[i], steer)
		k.drawTyre(l, v, draw.OutlineInner, kinematics.Vec{X: rear, Y: e.Contact[i].Y}, 0)
	}
	l.On(draw.LayerHandles)
	const mark = 4
	l.Circle(draw.HandleFixed, draw.On(v.at(e.Circle.Centre)), 0, mark)
}

// drawTyre draws a tyre from above, steered to the left by so much.
func (k *lock) drawTyre(l *draw.List, v *planView, role draw.Role, at kinematics.Vec, steer float64) {
	sin, cos := math.Sincos(steer)
	corner := func(ahead, left float64) draw.Point {
		return v.at(kinematics.Vec{X: at.X + ahead*cos - left*sin, Y: at.Y + ahead*sin + left*cos})
	}
	r, half := k.tyre.Radius, k.tyre.Section/2
	l.Polygon(role, corner(r, half), corner(r, -half), corner(-r, -half), corner(-r, half))
}

// legend says which circle is which.
func (k *lock) legend(l *draw.List, box draw.Box, e, was *report.LockEnd) {
	size := func(mm float64, e *report.LockEnd) string {
		return sheet.BandedIf(sheet.Far, mm, e.CircleBand, e.HasCircleBand).Phrase(k.p.unit())
	}
	rows := []struct {
		role, text draw.Role
		words      string
	}{{draw.CurveNow, draw.TextNow, "wall to wall " + size(e.Circle.WallToWall, e)}, {draw.TieRodArc, draw.TextNow, "kerb to kerb " + size(e.Circle.KerbToKerb, e)}}
	if was != nil {
		rows = append(rows, struct {
			role, text draw.Role
			words      string
		}{draw.Compared, draw.TextBefore, "measured, wall to wall " + size(was.Circle.WallToWall, was)})
	}
	l.On(draw.LayerNotes)
	columns := legendColumns(box)
	for i, r := range rows {
		x, y := box.Min.X+planMargin+float64(i%columns)*legendWide, box.Max.Y-legendRow*float64(2+i/columns)
		const lift = 4
		l.Line(r.role, draw.Point{X: x, Y: y + lift}, draw.Point{X: x + legendLine, Y: y + lift})
		l.Text(r.text, draw.At(x+legendLine+6, y), draw.Left, r.words)
	}
}

// scaleBar draws a round length in the lower left corner.
func (k *lock) scaleBar(l *draw.List, box draw.Box, v *planView) {
	mm, text := 2000.0, "2 m"
	if k.p.unit() == units.Inch {
		mm, text = 5*304.8, "5 ft"
	}
	a := draw.Point{X: box.Min.X + planMargin, Y: box.Min.Y + planMargin}
	b := a.Add(draw.Point{X: v.scale * mm})
	l.On(draw.LayerDimensions)
	l.Line(draw.Dimension, a, b)
	for _, p := range [...]draw.Point{a, b} {
		const tick = 3
		l.Line(draw.Dimension, p.Add(draw.Point{Y: tick}), p.Sub(draw.Point{Y: tick}))
	}
	l.On(draw.LayerNotes)
	l.Text(draw.TextQuiet, draw.On(b).Off(8, -4), draw.Left, text)
}
