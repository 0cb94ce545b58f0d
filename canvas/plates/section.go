package plates

import (
	"math"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Section shows a wheel above its spin axis with what carries it and what stands
// around it, in its own axes: out along the spin axis from the hub face, up square to
// it. Lengths are mm; the texts are those of the dimensions, with their values.
type Section struct {
	Offset, Spacer     float64
	Width, Rim, Tread  float64 // of the section, the rim between its flanges and the tread
	Outer, Seat        float64 // radii
	Barrel             float64
	WidthText, RimText string
	OffsetText         string
	Backspacing        string
	Corner             *kinematics.Corner // with Pose; nil for the wheel alone
	Pose               *kinematics.Pose
	Parts              []Part
	Note               Note
	Foot               string

	scale float64
	zero  draw.Point // the hub's middle
}

// Part is something around the wheel.
type Part struct {
	At           kinematics.Vec
	Thick        float64 // radius
	Words, Brief string  // Brief stands where Words have no room
	Short        bool    // too near
	out, up      float64
}

// Room about the wheel, mm, within which parts and arms are shown.
const (
	nearOut    = 160.0
	nearUp     = 90.0
	besideArms = 90.0
)

// leastSection is the least height, points, at which a section can be read.
const leastSection = 60.0

func (s *Section) plane() float64 { return s.Spacer - s.Offset }

// span is how far the wheel reaches from the hub face.
func (s *Section) span() (inner, outer float64) {
	half := max(s.Width, s.Rim+2*scene.Flange) / 2
	return s.plane() - half, s.plane() + half
}

func (s *Section) at(out, up float64) draw.Point {
	return s.zero.Add(draw.Point{X: out, Y: up}.Mul(s.scale))
}

// of is a place of the car in the wheel's axes.
func (s *Section) of(p kinematics.Vec) (out, up float64) {
	spin, hub := s.Pose.Spin, s.Pose.Hub
	n := math.Hypot(spin.Y, spin.Z)
	dy, dz := p.Y-hub.Y, p.Z-hub.Z
	return (dy*spin.Y + dz*spin.Z) / n, (dz*spin.Y - dy*spin.Z) / n
}

// Draw draws the section.
func (s *Section) Draw(l *draw.List, w, h float64) {
	b := draw.Box{Max: draw.Point{X: w, Y: h}}
	first, last := s.span()
	parts, inner, outer, top := s.near(first, last)
	foot(l, &b, draw.TextSmall, s.Foot, &s.Note)
	words(l, draw.TextBold, &b, "Section above the spin axis, from the front")
	const over, under, side, name = 56, 50, 26.0, 16
	room := draw.Box{Min: b.Min.Add(draw.Point{X: side, Y: under}), Max: b.Max.Sub(draw.Point{X: side, Y: over})}
	if top > s.Outer {
		room.Max.Y -= name
	}
	s.scale = min(room.W()/(outer-inner), room.H()/top)
	if s.scale*top < leastSection {
		l.Reset()
		Words(tooLittle).Draw(l, w, h)
		return
	}
	s.zero = draw.Point{X: room.Mid().X - s.scale*(inner+outer)/2, Y: room.Mid().Y - s.scale*top/2}
	s.axes(l, w)
	if s.Pose != nil {
		s.links(l, inner)
	}
	l.On(draw.LayerOutlines)
	s.tyre(l)
	s.wheel(l)
	s.dimensions(l, w)
	s.words(l, w, h, parts)
}

// near are the parts around the wheel that are shown, and how far what is drawn
// reaches.
func (s *Section) near(first, last float64) (list []Part, inner, outer, top float64) {
	inner, outer, top = min(first, -scene.HubFlange/2)-besideArms, max(last, scene.HubFlange/2), s.Outer
	if s.Pose == nil {
		return nil, inner, outer, top
	}
	for _, p := range s.Parts {
		p.out, p.up = s.of(p.At)
		if p.up > 0 && p.up < s.Outer+nearUp && p.out > first-nearOut && p.out < last+nearOut {
			list = append(list, p)
			inner, outer, top = min(inner, p.out-p.Thick), max(outer, p.out+p.Thick), max(top, p.up+p.Thick)
		}
	}
	return list, inner, outer, top
}

// tyre draws the tyre's outline, a sketch between the sizes that are known.
func (s *Section) tyre(l *draw.List) {
	const steps = 10
	wide := (s.Outer + s.Seat) / 2
	var half []draw.Point // bead to the widest place and on to the tread, from the plane
	for i := range 2*steps + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
		if i <= steps {
			half = append(half, draw.Point{X: (s.Rim + (s.Width-s.Rim)*sin) / 2, Y: wide - (wide-s.Seat)*cos})
			continue
		}
		half = append(half, draw.Point{X: (s.Tread + (s.Width-s.Tread)*sin) / 2, Y: wide - (s.Outer-wide)*cos})
	}
	for _, p := range half {
		l.Add(draw.On(s.at(s.plane()-p.X, p.Y)))
	}
	for i := len(half) - 1; i >= 0; i-- {
		l.Add(draw.On(s.at(s.plane()+half[i].X, half[i].Y)))
	}
	l.End(draw.Outline, false)
}

// wheel draws rim, disc, spacer and hub.
func (s *Section) wheel(l *draw.List) {
	plane, rim, high := s.plane(), s.Rim/2, s.Seat+scene.FlangeHigh
	l.Polyline(draw.Outline, s.at(plane-rim-scene.Flange, high), s.at(plane-rim, high), s.at(plane-rim, s.Seat),
		s.at(plane-rim+2*scene.Flange, s.Seat), s.at(plane-rim+3*scene.Flange, s.Barrel), s.at(plane+rim-3*scene.Flange, s.Barrel), s.at(plane+rim-2*scene.Flange, s.Seat),
		s.at(plane+rim, s.Seat), s.at(plane+rim, high), s.at(plane+rim+scene.Flange, high))
	top := s.Barrel
	if math.Abs(s.Spacer+scene.WheelDisc/2-plane) > rim-2*scene.Flange {
		top = s.Seat
	}
	s.box(l, draw.Outline, s.Spacer, s.Spacer+scene.WheelDisc, top)
	if s.Spacer*s.scale < 1 {
		return
	}
	s.box(l, draw.Outline, 0, s.Spacer, scene.HubFlange/2)
	hatch(l, 5, func(across, along float64) draw.Point { return s.at(across*s.Spacer, along*scene.HubFlange/2) })
}

func (s *Section) box(l *draw.List, role draw.Role, from, to, high float64) {
	l.Polygon(role, s.at(from, 0), s.at(to, 0), s.at(to, high), s.at(from, high))
}

// axes draws spin axis, centre plane and hub.
func (s *Section) axes(l *draw.List, w float64) {
	l.On(draw.LayerConstruction)
	l.Line(draw.CentrePlane, draw.Point{X: edge, Y: s.zero.Y}, draw.Point{X: w - edge, Y: s.zero.Y})
	l.Line(draw.CentrePlane, s.at(s.plane(), 0), s.at(s.plane(), s.Outer).Add(draw.Point{Y: 4}))
	l.On(draw.LayerLinks)
	s.box(l, draw.OutlineInner, -scene.HubThickness, 0, scene.HubFlange/2)
	l.Line(draw.Upright, s.at(0, 0), s.at(0, scene.HubFlange/2))
}

// links draws upright, arms and tie rod as far as the section shows them.
func (s *Section) links(l *draw.List, left float64) {
	line := func(role draw.Role, from, to kinematics.Vec) {
		x0, y0 := s.of(from)
		x1, y1 := s.of(to)
		t := 1.0 // how much of it is shown, from its outer end
		if y1 < 0 && y0 > y1 {
			t = min(t, max(0, y0/(y0-y1)))
		}
		if x1 < left && x0 > x1 {
			t = min(t, max(0, (x0-left)/(x0-x1)))
		}
		if y0 > 0 && t > 0 {
			l.Line(role, s.at(x0, y0), s.at(x0+t*(x1-x0), y0+t*(y1-y0)))
		}
	}
	c, p := s.Corner, s.Pose
	l.On(draw.LayerLinks)
	pivot := func(a *kinematics.Arm) kinematics.Vec {
		at := scene.Pivot(c, p, a)
		return kinematics.Vec{Y: at.X, Z: at.Y}
	}
	line(draw.Arm, p.UpperBall, pivot(&c.Upper))
	line(draw.Arm, p.LowerBall, pivot(&c.Lower))
	line(draw.TieRod, p.OuterEnd, p.RackEnd)
	line(draw.Upright, p.UpperBall, p.LowerBall)
	x0, y0 := s.of(p.UpperBall)
	x1, y1 := s.of(p.LowerBall)
	if y1 < 0 && y0 > 0 { // and the stub that carries the hub
		l.Line(draw.Upright, s.at(x0+y0/(y0-y1)*(x1-x0), 0), s.at(-scene.HubThickness, 0))
	}
	l.On(draw.LayerHandles)
	if y0 > 0 {
		l.Circle(draw.HandleMoving, draw.On(s.at(x0, y0)), 0, 3.5)
	}
}

// words draws what stands around the wheel, each with its name and gap, and names the
// rest.
func (s *Section) words(l *draw.List, w, h float64, parts []Part) {
	const least, air = 3.0, 3.0 // of the radius of a part, and round it, points
	radius := func(p *Part) float64 { return max(least, s.scale*p.Thick) }
	l.On(draw.LayerOutlines)
	for i := range parts {
		p, role := &parts[i], draw.Obstacle
		if p.Short {
			role = draw.ObstacleShort
		}
		l.Circle(role, draw.On(s.at(p.out, p.up)), 0, radius(p))
	}
	n := newNames(l, w, h)
	for i := range parts {
		p, role := &parts[i], draw.TextSmall
		if p.Short {
			role = draw.TextNow
		}
		for _, words := range [...]string{p.Words, p.Brief} {
			if n.put(role, s.at(p.out, p.up), radius(p)+air, words, draw.North, draw.West, draw.NorthWest) {
				break
			}
		}
	}
	n.put(draw.TextSmall, s.at(0, 0.4*scene.HubFlange), air, "hub face", draw.West, draw.NorthWest)
	n.put(draw.TextQuiet, draw.Point{X: w - edge, Y: s.zero.Y}, air, "spin axis", draw.NorthWest)
}

// dimensions are widths over the tyre, offset and backspacing under the axis.
func (s *Section) dimensions(l *draw.List, w float64) {
	x := func(out float64) float64 { return s.at(out, 0).X }
	plane, rim := s.plane(), s.Rim/2+scene.Flange
	over, under := s.at(0, s.Outer).Y+2, s.zero.Y-2
	dimension(l, w, draw.Dimension, draw.Arrow, draw.TextSmall, x(plane-s.Width/2), x(plane+s.Width/2), over, -12, s.WidthText)
	dimension(l, w, draw.Dimension, draw.Arrow, draw.TextSmall, x(plane-rim), x(plane+rim), over, -32, s.RimText)
	dimension(l, w, draw.DimensionNow, draw.ArrowNow, draw.TextNow, x(plane), x(s.Spacer), under, 20, s.OffsetText)
	dimension(l, w, draw.DimensionNow, draw.ArrowNow, draw.TextNow, x(plane-rim), x(s.Spacer), under, 42, s.Backspacing)
}
