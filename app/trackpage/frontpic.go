package trackpage

import (
	"math"

	"armscribe/app/clearance"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// corner is a corner at rest as a small front view needs it.
type corner struct {
	c    kinematics.Corner
	pose kinematics.Pose
	body swept.Tyre
	has  bool // body is known
}

// cornerOf solves a corner at rest; false where it does not assemble.
func cornerOf(c kinematics.Corner, body swept.Tyre, has bool) (corner, bool) {
	m, err := kinematics.New(&c)
	if err != nil {
		return corner{}, false
	}
	p, err := m.At(0, 0)
	return corner{c, p, body, has}, err == nil
}

// frontView is a small front view: y to the right, z up, of a part of the
// picture.
type frontView struct {
	l           *draw.List
	box         draw.Box // of the part, points
	x, y, scale float64
	unit        units.Unit
}

func (v *frontView) at(p kinematics.Vec) draw.Point {
	return draw.Point{X: v.x + v.scale*p.Y, Y: v.y + v.scale*p.Z}
}

// wheelPoints is the outline of the tyre in the front view; without a size a
// strip in the wheel's plane.
func (c *corner) wheelPoints() []kinematics.Vec {
	half, radius := 3.0, c.c.Wheel.LoadedRadius
	tread, wide := half, radius
	if c.has {
		half, radius, tread, wide = c.body.Section/2, c.body.Radius, c.body.Tread/2, c.body.Widest
	}
	out := c.pose.Spin
	// Up in the wheel's plane and in the front view.
	up := kinematics.Vec{Y: -out.Z, Z: out.Y}
	if n := math.Hypot(up.Y, up.Z); n > 0 {
		up.Y, up.Z = up.Y/n, up.Z/n
	}
	put := func(along, high float64) kinematics.Vec {
		o := c.pose.WheelCentre
		return kinematics.Vec{X: o.X, Y: o.Y + along*out.Y + high*up.Y, Z: o.Z + along*out.Z + high*up.Z}
	}
	var list []kinematics.Vec
	const steps = 6
	shoulder := func(sx, sy float64, rising bool) {
		for i := range steps + 1 {
			a := math.Pi / 2 * float64(i) / steps
			if !rising {
				a = math.Pi/2 - a
			}
			sin, cos := math.Sincos(a)
			list = append(list, put(sx*(tread+(half-tread)*cos), sy*(wide+(radius-wide)*sin)))
		}
	}
	shoulder(1, 1, true)
	shoulder(-1, 1, false)
	shoulder(-1, -1, true)
	shoulder(1, -1, false)
	ground := c.pose.Contact.Z // the loaded tyre is flat there
	for i := range list {
		list[i].Z = max(list[i].Z, ground)
	}
	return list
}

// fitFront shows the corners in a box.
func fitFront(l *draw.List, box draw.Box, unit units.Unit, list ...*corner) *frontView {
	b := draw.EmptyBox()
	see := func(p kinematics.Vec) { b = b.With(draw.Point{X: p.Y, Y: p.Z}) }
	v := &frontView{l: l, box: box, unit: unit}
	for _, c := range list {
		for _, p := range c.wheelPoints() {
			see(p)
		}
		for _, p := range []kinematics.Vec{c.c.Upper.Front, c.c.Lower.Front, c.pose.RackEnd, c.pose.UpperBall} {
			see(p)
		}
	}
	in := draw.Box{Min: box.Min.Add(draw.Point{X: partSide, Y: partUnder}), Max: box.Max.Sub(draw.Point{X: partSide, Y: partTop})}
	v.scale = max(0, min(in.W()/b.W(), in.H()/b.H()))
	v.x = in.Mid().X - v.scale*b.Mid().X
	v.y = in.Mid().Y - v.scale*b.Mid().Y
	return v
}

// links draws arms, upright and tie rod in one role, or in those of the parts.
func (v *frontView) links(c *corner, before bool) {
	role := func(r draw.Role) draw.Role {
		if before {
			return draw.Compared
		}
		return r
	}
	l := v.l
	l.On(draw.LayerLinks)
	if before {
		l.On(draw.LayerCompared)
	}
	p := &c.pose
	l.Line(role(draw.Arm), v.at(pivot(&c.c.Lower)), v.at(p.LowerBall))
	l.Line(role(draw.Arm), v.at(pivot(&c.c.Upper)), v.at(p.UpperBall))
	l.Line(role(draw.TieRod), v.at(p.RackEnd), v.at(p.OuterEnd))
	l.Line(role(draw.Upright), v.at(p.LowerBall), v.at(p.UpperBall))
	if !before {
		l.On(draw.LayerHandles)
		for _, q := range []kinematics.Vec{pivot(&c.c.Lower), pivot(&c.c.Upper)} {
			l.Circle(draw.HandleFixed, draw.On(v.at(q)), 0, 3.5)
		}
		for _, q := range []kinematics.Vec{p.LowerBall, p.UpperBall} {
			l.Circle(draw.HandleMoving, draw.On(v.at(q)), 0, 3.5)
		}
		l.Circle(draw.HandleFixedNow, draw.On(v.at(p.RackEnd)), 0, 3)
		l.Circle(draw.HandleMovingNow, draw.On(v.at(p.OuterEnd)), 0, 3)
	}
}

// pivot is an arm's pivot as the front view has it: where its axis passes the
// axle line, or the middle of its two ends.
func pivot(a *kinematics.Arm) kinematics.Vec {
	if a.Flat {
		return a.Front
	}
	return kinematics.Vec{X: (a.Front.X + a.Rear.X) / 2, Y: (a.Front.Y + a.Rear.Y) / 2, Z: (a.Front.Z + a.Rear.Z) / 2}
}

func (v *frontView) wheel(c *corner, before bool) {
	role := draw.Outline
	v.l.On(draw.LayerOutlines)
	if before {
		role = draw.Compared
		v.l.On(draw.LayerCompared)
	}
	var pts []draw.Point
	for _, p := range c.wheelPoints() {
		pts = append(pts, v.at(p))
	}
	v.l.Polygon(role, pts...)
	if !before {
		v.hub(c)
	}
}

// leastDrawn is the least length worth a dimension, points.
const leastDrawn = 1.0

// axis draws the steering axis to the ground and the scrub radius. Words stand
// under the ground.
func (v *frontView) axis(c *corner, before bool) {
	if !c.pose.HasAxisAtGround {
		return
	}
	l := v.l
	g, k := v.at(c.pose.AxisAtGround), v.at(c.pose.Contact)
	if before {
		l.On(draw.LayerCompared)
		l.Line(draw.Compared, v.at(c.pose.UpperBall), g)
		return
	}
	l.On(draw.LayerConstruction)
	l.Line(draw.SteeringAxis, v.at(c.pose.UpperBall), g)
	v.centre(c)
	r := c.pose.Readings()
	scrub, ok := r.Of(kinematics.ScrubRadius)
	if !ok {
		return
	}
	words := "scrub radius " + units.Taped.Length(scrub, v.unit)
	l.On(draw.LayerDimensions)
	a, b := g, k
	if a.X > b.X {
		a, b = b, a
	}
	b.Y = a.Y
	if b.X-a.X < leastDrawn {
		l.Text(draw.TextNow, draw.At(k.X, k.Y-24), draw.Centre, words)
		return
	}
	at := l.DimensionLine(draw.DimensionNow, draw.ArrowNow, a, b, 12, tightArrows)
	l.Text(draw.TextNow, at.Off(0, -15), draw.Centre, words)
}

// groundLine runs under the whole view.
func (v *frontView) groundLine(z float64) {
	v.l.On(draw.LayerGround)
	y := v.y + v.scale*z
	v.l.Line(draw.Ground, draw.Point{X: v.box.Min.X + partSide, Y: y}, draw.Point{X: v.box.Max.X - partSide, Y: y})
}

// flat is how much wider than high a picture is in which things stand side by side.
const flat = 1.4

// Room in a part of the picture, points.
const (
	partTop   = 44.0
	partUnder = 34.0
	partSide  = 20.0
)

// pose solves the corners of the answer for the picture.
func (a *waysAnswer) pose() {
	body, has := clearance.TyreOf(&a.job.Variants[a.from])
	if c, ok := cornerOf(a.Source.Corner, body, has); ok {
		a.before = &c
	}
	for _, way := range a.Ways() {
		if c, ok := cornerOf(a.Corner(way), body, has); ok {
			a.made[way] = &c
		}
	}
}

// compose draws the ways over the corner as it is, one above the other or side
// by side.
func (w *ways) compose(l *draw.List, width, height float64) {
	var drawn []report.Way
	var seen []*corner
	a := w.answer
	if a != nil {
		for i, c := range a.made {
			if c != nil {
				drawn, seen = append(drawn, report.Way(i)), append(seen, c)
			}
		}
	}
	if a == nil || a.before == nil || len(drawn) == 0 {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(width/2, height/2), draw.Centre, "no ways to draw")
		return
	}
	parts := [2]draw.Box{{Min: draw.Point{Y: height / 2}, Max: draw.Point{X: width, Y: height}}, {Max: draw.Point{X: width, Y: height / 2}}}
	if width > flat*height {
		parts = [2]draw.Box{{Max: draw.Point{X: width / 2, Y: height}}, {Min: draw.Point{X: width / 2}, Max: draw.Point{X: width, Y: height}}}
	}
	if len(drawn) == 1 {
		parts[0] = draw.Box{Max: draw.Point{X: width, Y: height}}
	}
	by := w.p.short(math.Abs(a.Spec.By))
	for i, way := range drawn {
		b := parts[i]
		v := fitFront(l, b, w.p.unit(), append(seen, a.before)...)
		v.both(a.before, a.made[way])
		l.On(draw.LayerNotes)
		l.Text(draw.TextBold, draw.At(b.Min.X+8, b.Max.Y-18), draw.Left, a.WayName(way)+", "+by+" a side")
		l.Text(draw.TextBefore, draw.At(b.Min.X+8, b.Max.Y-34), draw.Left, "before: "+a.Source.Variant)
	}
	at, side := draw.At(width-8, height-18), draw.Right
	if width <= flat*height { // one over the other: the title needs the width, and the scrub radius the right
		at, side = draw.At(8, 6), draw.Left
	}
	w.aside(l, at, side, "from the front, at rest")
}

// both draws a corner over the one before.
func (v *frontView) both(before, now *corner) {
	v.groundLine(now.pose.Contact.Z)
	if before != nil {
		v.wheel(before, true)
		v.links(before, true)
		v.axis(before, true)
	}
	v.wheel(now, false)
	v.links(now, false)
	v.axis(now, false)
}
