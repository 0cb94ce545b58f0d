package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// Nominal sizes of parts a job does not measure, mm.
const (
	HubFlange    = 140.0 // diameter
	HubThickness = 12.0
	stubAxle     = 62.0 // diameter
	stubLongest  = 160.0
	WheelDisc    = 9.0 // thickness
	Flange       = 25.4 / 2
	FlangeHigh   = 17.0 // of a J flange over the bead seat; about so, from memory
)

// treadShare is how much of its section width a tyre is wide at the tread:
// a look, not a measure.
const treadShare = 0.86

// cornerSteps are the chords of one rounded shoulder.
const cornerSteps = 7

// wheelFrame places points of the wheel's plane section: out along the spin
// axis, up in the wheel's plane.
type wheelFrame struct{ centre, out, up draw.Point }

func (s *side) wheelFrame() wheelFrame {
	out, up := s.wheelAxes()
	return wheelFrame{s.at(s.pose.WheelCentre), out, up}
}

func (f *wheelFrame) at(out, up float64) draw.Point {
	return f.centre.Add(f.out.Mul(out)).Add(f.up.Mul(up))
}

// rect returns the corners of a rectangle in the wheel's section.
func (f *wheelFrame) rect(in, out, down, up float64) [4]draw.Point {
	return [4]draw.Point{f.at(in, down), f.at(out, down), f.at(out, up), f.at(in, up)}
}

// tyreShape are the radii and half-widths of a tyre's section, mm.
type tyreShape struct {
	tread, half  float64 // half-widths at the tread and at the widest place
	outer        float64 // radius of the free tread
	rim, rimHalf float64 // radius of the bead seats and half the width over the flanges
	seat         float64 // half the width between the flanges
	wide, wideAt float64 // radius of the widest place above and under the hub
	loaded       float64
}

func (s *side) tyreShape() (t tyreShape, ok bool) {
	sec := s.section
	t.loaded = s.c.Wheel.LoadedRadius
	t.outer, t.half = sec.OverallDiameter/2, sec.SectionWidth/2
	if !(t.outer > 0 && t.half > 0) {
		return t, false
	}
	t.tread = treadShare * t.half
	t.rim, t.rimHalf = min(sec.RimDiameter/2, t.outer), sec.RimOverallWidth/2
	t.seat = max(t.rimHalf-Flange, t.rimHalf/2)
	t.wide = (t.outer + t.rim) / 2
	t.wideAt = (min(t.loaded, t.outer) + t.rim) / 2
	return t, true
}

// tyreOutline appends the outline of the loaded tyre: free on top, flat where
// the ground cuts it. Without a section it is the wheel's plane, a thin strip.
func (b *builder) tyreOutline(dst []draw.Point, s *side) []draw.Point {
	f := s.wheelFrame()
	t, ok := s.tyreShape()
	if !ok {
		const strip = 2.0 // mm
		r := s.c.Wheel.LoadedRadius
		c := f.rect(-strip, strip, -r, r)
		return append(dst, c[:]...)
	}
	b.cut = b.cut[:0]
	shoulder := func(sx, sy, wide float64, up bool) {
		for i := 0; i <= cornerSteps; i++ {
			a := math.Pi / 2 * float64(i) / cornerSteps
			if !up {
				a = math.Pi/2 - a
			}
			sin, cos := math.Sincos(a)
			b.cut = append(b.cut, f.at(sx*(t.tread+(t.half-t.tread)*cos), sy*(wide+(t.outer-wide)*sin)))
		}
	}
	shoulder(1, 1, t.wide, true)
	shoulder(-1, 1, t.wide, false)
	shoulder(-1, -1, t.wideAt, true)
	shoulder(1, -1, t.wideAt, false)
	return clipAbove(dst, b.cut, s.pose.Contact.Z)
}

// clipAbove appends the part of a convex closed shape above the height z.
func clipAbove(dst, shape []draw.Point, z float64) []draw.Point {
	p := shape[len(shape)-1]
	for _, q := range shape {
		if (p.Y < z) != (q.Y < z) {
			k := (z - p.Y) / (q.Y - p.Y)
			dst = append(dst, draw.Point{X: p.X + k*(q.X-p.X), Y: z})
		}
		if q.Y >= z {
			dst = append(dst, q)
		}
		p = q
	}
	return dst
}

// wheel draws tyre, rim, spacer and hub of a corner.
func (b *builder) wheel(s *side) {
	l := b.l
	l.On(draw.LayerOutlines)
	b.hub(s)
	b.pts = b.tyreOutline(b.pts[:0], s)
	if s == &b.left {
		b.out.Tyre = append(b.out.Tyre[:0], b.pts...)
		h := b.in
		if h.Hover == WheelOutline || h.Selected == WheelOutline {
			b.pts = append(b.pts, b.pts[0])
			b.glow(true, b.pts...)
			b.pts = b.pts[:len(b.pts)-1]
			l.On(draw.LayerOutlines)
		}
	}
	l.Polygon(draw.Outline, b.pts...)
	f := s.wheelFrame()
	t, ok := s.tyreShape()
	if !ok {
		return
	}
	rim := f.rect(-t.seat, t.seat, -t.rim, t.rim)
	l.Polygon(draw.OutlineInner, rim[:]...)
	high := min(t.rim+FlangeHigh, (t.rim+t.wideAt)/2)
	for _, sx := range [2]float64{-1, 1} {
		for _, sy := range [2]float64{-1, 1} {
			l.Polyline(draw.OutlineInner, f.at(sx*t.seat, sy*t.rim), f.at(sx*t.seat, sy*high), f.at(sx*t.rimHalf, sy*high))
		}
		b.sidewall(&f, &t, sx, 1, t.wide)
		b.sidewall(&f, &t, sx, -1, t.wideAt)
	}
	// The disc of the wheel, its mounting face at the offset.
	face := s.c.Wheel.Offset
	disc := f.rect(face, face+WheelDisc, -t.rim, t.rim)
	l.Line(draw.OutlineInner, disc[0], disc[3])
	l.Line(draw.OutlineInner, disc[1], disc[2])
}

// sidewall draws the section of a sidewall from its widest place to the bead.
func (b *builder) sidewall(f *wheelFrame, t *tyreShape, sx, sy, wide float64) {
	for i := 0; i <= cornerSteps; i++ {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / cornerSteps)
		b.l.Add(draw.On(f.at(sx*(t.seat+(t.half-t.seat)*cos), sy*(wide-(wide-t.rim)*sin))))
	}
	b.l.End(draw.OutlineInner, false)
}

// hub draws the hub, nominal, with its mounting face where it was measured, and
// the spacer on it.
func (b *builder) hub(s *side) {
	l, f := b.l, s.wheelFrame()
	w := s.c.Wheel
	face := w.Offset - w.Spacer // from the wheel's centre plane, outboard
	hub := f.rect(face-HubThickness, face, -HubFlange/2, HubFlange/2)
	l.Polygon(draw.OutlineInner, hub[:]...)
	inner := face - HubThickness - s.stub()
	for _, y := range [2]float64{-stubAxle / 2, stubAxle / 2} {
		l.Line(draw.OutlineInner, f.at(inner, y), f.at(face-HubThickness, y))
	}
	if w.Spacer <= 0 {
		return
	}
	spacer := f.rect(face, face+w.Spacer, -HubFlange/2, HubFlange/2)
	l.Polygon(draw.Outline, spacer[:]...)
	const strokes = 7
	for i := range strokes {
		y := -HubFlange/2 + HubFlange*float64(i)/strokes
		l.Line(draw.OutlineInner, f.at(face, y), f.at(face+w.Spacer, y+HubFlange/strokes))
	}
	if s == &b.left {
		at := len(b.text)
		b.text = append(b.text, "spacer "...)
		b.text = b.format(b.text, w.Spacer, 0)
		b.say(label{name: nameOfSpacer, role: draw.TextQuiet, anchor: draw.On(spacer[3]), clear: 2, prefer: northFirst, rank: rankPlain}, at)
	}
}

// stub is the length of the stub axle from the flange in to the steering axis,
// as far as that stands inboard of the hub.
func (s *side) stub() float64 {
	f := s.wheelFrame()
	lower, upper := s.at(s.pose.LowerBall), s.at(s.pose.UpperBall)
	axis, hub := upper.Sub(lower), s.at(s.pose.Hub)
	cross := axis.X*f.out.Y - axis.Y*f.out.X
	if math.Abs(cross) < 1e-3*axis.Len() {
		return 0
	}
	// lower + t axis = hub - n out
	d := hub.Sub(lower)
	n := (axis.X*d.Y - axis.Y*d.X) / cross
	return min(max(n-HubThickness, 0), stubLongest)
}
