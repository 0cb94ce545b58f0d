package trackpage

import (
	"math"

	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/draw"
)

// Parts that no code tells, mm: drawn so that the eye knows the wheel.
const (
	flange     = 25.4 / 2
	flangeHigh = 17.0 // of a J flange over the bead seat; about so, from memory
	hubRadius  = 70.0
	discThick  = 9.0
)

// sketch places the section of a wheel on the picture: out from the hub face,
// up from the spin axis, both in mm.
type sketch struct{ x, y, scale float64 }

func (s *sketch) at(out, up float64) draw.Point {
	return draw.Point{X: s.x + s.scale*out, Y: s.y + s.scale*up}
}

// outline is one wheel's section above the spin axis.
type outline struct {
	plane, face, spacer float64 // out from the hub face
	section, rim        float64 // half widths
	tread               float64 // half the flat
	outer, seat, barrel float64 // radii
}

func outlineOf(w *report.Wheel) outline {
	t := w.Fitted.Tyre
	o := outline{spacer: w.Spec.Spacer, face: w.Spec.Spacer, plane: w.Spec.Spacer - w.Spec.Offset, section: w.Fitted.SectionWidth / 2,
		rim: w.Fitted.Wheel.RimWidth() / 2, outer: t.Diameter() / 2, seat: t.RimDiameter() / 2, barrel: t.RimInside().Value / 2}
	const treadOfSection = 0.92
	o.tread = min(t.TreadFace().Value, treadOfSection*w.Fitted.SectionWidth) / 2
	return o
}

// span is how far the wheel reaches from the hub face.
func (o *outline) span() (inner, outer float64) {
	half := max(o.section, o.rim+flange)
	return o.plane - half, o.plane + half
}

// tyre draws the tyre's outline, a sketch between the sizes that are known.
func (o *outline) tyre(l *draw.List, s *sketch, role draw.Role) {
	wide := (o.outer + o.seat) / 2
	var pts []draw.Point
	side := func(sign float64) []draw.Point {
		var half []draw.Point
		const steps = 10
		for i := range steps + 1 { // bead to the widest place
			sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
			half = append(half, s.at(o.plane+sign*(o.rim+(o.section-o.rim)*sin), wide-(wide-o.seat)*cos))
		}
		for i := range steps + 1 { // and on to the tread
			sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
			half = append(half, s.at(o.plane+sign*(o.tread+(o.section-o.tread)*cos), wide+(o.outer-wide)*sin))
		}
		return half
	}
	pts = side(-1)
	other := side(1)
	for i := len(other) - 1; i >= 0; i-- {
		pts = append(pts, other[i])
	}
	l.Polyline(role, pts...)
}

// wheel draws rim and disc.
func (o *outline) wheel(l *draw.List, s *sketch, role draw.Role) {
	high := o.seat + flangeHigh
	l.Polyline(role, s.at(o.plane-o.rim-flange, high), s.at(o.plane-o.rim, high), s.at(o.plane-o.rim, o.seat), s.at(o.plane-o.rim+2*flange, o.seat),
		s.at(o.plane-o.rim+3*flange, o.barrel), s.at(o.plane+o.rim-3*flange, o.barrel), s.at(o.plane+o.rim-2*flange, o.seat),
		s.at(o.plane+o.rim, o.seat), s.at(o.plane+o.rim, high), s.at(o.plane+o.rim+flange, high))
	top := o.barrel
	if at := o.face + discThick/2 - o.plane; math.Abs(at) > o.rim-2*flange {
		top = o.seat
	}
	l.Polygon(role, s.at(o.face, 0), s.at(o.face+discThick, 0), s.at(o.face+discThick, top), s.at(o.face, top))
}

// Room about the drawing, points.
const (
	sketchSide  = 26.0
	sketchTop   = 94.0
	sketchUnder = 88.0
	dimensionUp = 15.0
	tightArrows = 26.0
)

// leastSection is the least height, points, at which a section can be read.
const leastSection = 90.0

// compose draws the wheel with what carries it and what stands around it.
func (f *facts) compose(l *draw.List, w, h float64) {
	if f.answer == nil {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(w/2, h/2), draw.Centre, "no wheel to draw")
		return
	}
	now := outlineOf(f.answer.now)
	inner, outer := now.span()
	top := now.outer
	inner, outer = min(inner, -hubRadius)-besideArms, max(outer, hubRadius)
	var around []near
	if f.answer.hasCorner {
		around = f.answer.nearby(&now)
		for i := range around {
			n := &around[i]
			inner, outer, top = min(inner, n.out-n.thick), max(outer, n.out+n.thick), max(top, n.up+n.thick)
		}
	}
	s := &sketch{scale: min((w-2*sketchSide)/(outer-inner), (h-sketchTop-sketchUnder)/top)}
	if s.scale*top < leastSection {
		l.On(draw.LayerNotes)
		l.Text(draw.TextQuiet, draw.At(w/2, h/2), draw.Centre, "too little room for the section; make the window larger")
		return
	}
	s.x = w/2 - s.scale*(inner+outer)/2
	s.y = sketchUnder + max(0, (h-sketchTop-sketchUnder-s.scale*top)/2)
	drawAxes(l, s, w, now.plane)
	if f.answer.hasCorner {
		f.answer.links(l, s, inner)
		f.parts(l, s, around, w)
	}
	l.On(draw.LayerOutlines)
	now.tyre(l, s, draw.Outline)
	now.wheel(l, s, draw.Outline)
	if now.spacer*s.scale >= 1 {
		drawSpacer(l, s, now.spacer)
	}
	f.dimensions(l, s, &now)
	f.legend(l, w, h)
}

// besideArms is how much of arms and rod is shown inboard of the wheel, mm.
const besideArms = 90.0

// drawAxes draws spin axis and hub; plane is where the wheel's centre plane stands.
func drawAxes(l *draw.List, s *sketch, w, plane float64) {
	l.On(draw.LayerConstruction)
	l.Line(draw.CentrePlane, draw.Point{X: sketchSide / 2, Y: s.y}, draw.Point{X: w - sketchSide/2, Y: s.y})
	l.On(draw.LayerLinks)
	l.Polygon(draw.OutlineInner, s.at(-hubThick, 0), s.at(0, 0), s.at(0, hubRadius), s.at(-hubThick, hubRadius))
	l.Line(draw.Upright, s.at(0, 0), s.at(0, hubRadius))
	l.On(draw.LayerNotes)
	name := draw.On(s.at(min(-hubThick, plane), hubRadius/2)).Off(-14, 12)
	l.Text(draw.TextSmall, name, draw.Right|draw.Middle, "hub face")
	l.LineBy(draw.Leader, name.Off(3, 0), draw.On(s.at(0, hubRadius/2)))
	l.Text(draw.TextQuiet, draw.At(w-sketchSide/2, s.y+5), draw.Right, "spin axis")
}

func drawSpacer(l *draw.List, s *sketch, spacer float64) {
	l.Polygon(draw.Outline, s.at(0, 0), s.at(spacer, 0), s.at(spacer, hubRadius), s.at(0, hubRadius))
	const strokes = 5
	for i := range strokes {
		y := hubRadius * float64(i) / strokes
		l.Line(draw.OutlineInner, s.at(0, y), s.at(spacer, y+hubRadius/strokes))
	}
}

// dimensions are offset, backspacing and widths.
func (f *facts) dimensions(l *draw.List, s *sketch, o *outline) {
	unit := f.p.unit()
	say := func(name string, mm float64) string { return name + " " + units.Taped.Length(mm, unit) }
	l.On(draw.LayerConstruction)
	l.Line(draw.CentrePlane, s.at(o.plane, 0), s.at(o.plane, o.outer+4))
	l.On(draw.LayerDimensions)
	over := s.at(0, o.outer).Y + 2
	put := func(line, arrow, text draw.Role, from, to, y, drop float64, words string) {
		a, b := s.at(from, 0), s.at(to, 0)
		a.Y, b.Y = y, y
		if a.X > b.X {
			a, b = b, a
		}
		if b.X-a.X < 1 {
			l.Text(text, draw.At(a.X, y-drop+3), draw.Centre, words)
			return
		}
		at := l.DimensionLine(line, arrow, a, b, drop, tightArrows)
		const air, besideArrow = 12.0, 26.0
		if wide, _, _ := f.picture.Styles.TextSize(text, draw.OnScreen, []byte(words)); wide+air > b.X-a.X {
			l.Text(text, draw.At(b.X+besideArrow, y-drop), draw.Left|draw.Middle, words)
			return
		}
		l.Text(text, at.Off(0, 3), draw.Centre, words)
	}
	fitted := f.answer.now.Fitted
	put(draw.Dimension, draw.Arrow, draw.TextSmall, o.plane-o.section, o.plane+o.section, over, -dimensionUp, say("section", fitted.SectionWidth))
	put(draw.Dimension, draw.Arrow, draw.TextSmall, o.plane-o.rim-flange, o.plane+o.rim+flange, over, -dimensionUp-22, say("rim overall", fitted.Wheel.OverallWidth()))
	under := s.y - 2
	put(draw.DimensionNow, draw.ArrowNow, draw.TextNow, o.plane, o.face, under, dimensionUp+8, say("offset", f.answer.now.Spec.Offset))
	put(draw.DimensionNow, draw.ArrowNow, draw.TextNow, o.plane-o.rim-flange, o.face, under, dimensionUp+34, say("backspacing", fitted.Wheel.Backspacing()))
}

// legend says what is seen.
func (f *facts) legend(l *draw.List, w, h float64) {
	l.On(draw.LayerNotes)
	l.Text(draw.TextBold, draw.At(8, h-18), draw.Left, "Section above the spin axis")
	f.aside(l, draw.At(8, h-34), draw.Left, "from the front; outboard is to the right")
	l.Text(draw.TextSmall, draw.At(8, 10), draw.Left, "gaps: the least over travel and rack")
}
