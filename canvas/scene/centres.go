package scene

import (
	"math"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// centres draws the arm lines to the instant centre, and the line from the
// contact that finds the roll centre.
func (b *builder) centres() {
	if b.show&ArmLines != 0 {
		if b.out.Rolled {
			b.armLines(&b.right, &b.rightR, false)
		}
		b.armLines(&b.left, &b.out.Readings, true)
	}
	if b.show&RollCentre != 0 {
		if b.out.Rolled {
			b.rollLine(&b.right, &b.rightR)
		}
		b.rollLine(&b.left, &b.out.Readings)
		b.rollMark()
	}
}

// instantCentre returns where a corner's instant centre is drawn; false when
// the arms are parallel.
func (s *side) instantCentre(r *kinematics.Readings) (draw.Point, bool) {
	y, okY := r.Of(kinematics.InstantCentreY)
	z, okZ := r.Of(kinematics.InstantCentreZ)
	return draw.Point{X: s.mirror * y, Y: z}, okY && okZ
}

// armStart is where an arm's line in the transverse plane through the contact
// starts: at its pivot axis, or at the ball joint if that axis runs across.
func (s *side) armStart(a *kinematics.Arm, ball draw.Point) draw.Point {
	if t, ok := s.axisShare(a); ok {
		return s.axisPoint(a, t)
	}
	return ball
}

func (b *builder) armLines(s *side, r *kinematics.Readings, worded bool) {
	upper, lower := s.at(s.pose.UpperBall), s.at(s.pose.LowerBall)
	u, w := s.armStart(&s.c.Upper, upper), s.armStart(&s.c.Lower, lower)
	lit := b.lit&ArmLines != 0
	ic, ok := s.instantCentre(r)
	if !ok {
		b.parallel(u, upper, w, lower, worded)
		return
	}
	b.glow(lit, u, ic)
	b.glow(lit, w, ic)
	b.l.On(draw.LayerConstruction)
	b.l.PolylineInBox(draw.ArmLine, b.world, []draw.Point{u, ic})
	b.l.PolylineInBox(draw.ArmLine, b.world, []draw.Point{w, ic})
	inView := b.inView(ic)
	if inView {
		b.centreMark(ic, r, worded)
	}
	if !worded {
		return
	}
	at := len(b.text)
	y, _ := r.Of(kinematics.InstantCentreY)
	if far := b.far(r); far != kinematics.Near {
		b.text = append(append(b.text, "instant centre "...), far.String()...)
	} else {
		b.text = append(b.text, "instant centre "...)
		b.figure(kinematics.InstantCentreY, math.Abs(y), b.half(kinematics.InstantCentreY))
		b.text = append(b.text, pick(y < 0, " beyond the centre plane", " out from the centre plane")...)
	}
	if inView {
		b.say(label{name: nameOfInstant, role: b.quietOr(lit), anchor: draw.On(ic), clear: 7, prefer: northFirst, rank: rankCentre, short: len("instant centre")}, at)
		return
	}
	// Between the arms, so that the arrow stands free of both.
	b.pointOut(nameOfInstant, b.quietOr(lit), draw.ArrowQuiet, mid(u, w), ic, at)
	b.edges[len(b.edges)-1].short = len("instant centre")
}

// Sizes of what leads the eye to an error mark, points.
const (
	leastMark = 11.0 // half-size from which a mark is seen by itself
	markGap   = 8.0  // from a smaller one to the arrows that point at it
)

// pointIn draws two arrows that point at a mark of half mm in a picture of the
// whole corner, where it would vanish: before and behind it along the unit
// vector u. A mark that is large enough is left alone.
func (b *builder) pointIn(arrow draw.Role, c, u draw.Point, half float64) {
	if half*b.v.Zoom >= leastMark {
		return
	}
	b.l.On(draw.LayerDimensions)
	for _, way := range [2]draw.Point{u, u.Mul(-1)} {
		tip := draw.On(c.Add(way.Mul(half)))
		b.l.Arrowhead(arrow, tip.Off(way.X*markGap, way.Y*markGap), way.Mul(-1))
	}
}

// centreMark draws the instant centre and what measuring error makes of it.
func (b *builder) centreMark(ic draw.Point, r *kinematics.Readings, worded bool) {
	if b.show&ErrorMarks != 0 && worded {
		hy, hz := b.half(kinematics.InstantCentreY), b.half(kinematics.InstantCentreZ)
		if hy > 0 && hz > 0 {
			b.l.On(draw.LayerBands)
			b.ellipse(draw.BandQuiet, ic, hy, hz)
			b.pointIn(draw.ArrowQuiet, ic, draw.Point{X: 1}, hy)
			b.pointIn(draw.ArrowQuiet, ic, draw.Point{Y: 1}, hz)
		}
	}
	b.l.On(draw.LayerDimensions)
	b.l.Circle(draw.Construction, draw.On(ic), 0, 3)
	const cross = 6.0
	o := draw.On(ic)
	b.l.LineBy(draw.Construction, o.Off(-cross, 0), o.Off(cross, 0))
	b.l.LineBy(draw.Construction, o.Off(0, -cross), o.Off(0, cross))
}

func (b *builder) ellipse(role draw.Role, c draw.Point, a, d float64) {
	const steps = 32
	for i := range steps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
		b.l.Add(draw.At(c.X+a*cos, c.Y+d*sin))
	}
	b.l.End(role, true)
}

// parallel draws arm lines that never meet.
func (b *builder) parallel(u, upper, w, lower draw.Point, worded bool) {
	const far = 1e5 // mm; the lines are cut at the window
	d := u.Sub(upper)
	if d.Len() == 0 {
		d = w.Sub(lower)
	}
	if d.Len() == 0 {
		return // both arms seen from their ends
	}
	d = d.Mul(far / d.Len())
	lit := b.lit&ArmLines != 0
	for _, from := range [2]draw.Point{u, w} {
		b.glow(lit, from, from.Add(d))
		b.l.On(draw.LayerConstruction)
		b.l.PolylineInBox(draw.ArmLine, b.world, []draw.Point{from, from.Add(d)})
	}
	if !worded {
		return
	}
	at := len(b.text)
	b.text = append(b.text, "arms parallel: instant centre at infinity"...)
	m := mid(u, w)
	b.pointOut(nameOfInstant, b.quietOr(lit), draw.ArrowQuiet, m, m.Add(d), at)
}

// rollLine draws the line from the contact through instant and roll centre.
func (b *builder) rollLine(s *side, r *kinematics.Readings) {
	c := s.at(s.pose.Contact)
	// Both centres lie on one line with the contact; draw from the outermost
	// on one side to the outermost on the other.
	lo, hi := c, c
	extend := func(p draw.Point) {
		if p.X < lo.X {
			lo = p
		}
		if p.X > hi.X {
			hi = p
		}
	}
	ic, ok := s.instantCentre(r)
	if ok {
		extend(ic)
	}
	if rc, found := b.rollCentre(); found {
		extend(rc)
	}
	b.glow(b.lit&RollCentre != 0, lo, hi)
	b.l.On(draw.LayerConstruction)
	b.l.PolylineInBox(draw.RollCentreLine, b.world, []draw.Point{lo, hi})
}

// rollCentre returns where the roll centre is drawn; false if there is none.
func (b *builder) rollCentre() (draw.Point, bool) {
	y, okY := b.out.Readings.Of(kinematics.RollCentreY)
	h, okZ := b.out.Readings.Of(kinematics.RollCentreHeight)
	return draw.Point{X: y, Y: b.out.Ground + h}, okY && okZ
}

// leastAside is how far, mm, a roll centre lies beside the middle to be said so.
const leastAside = 0.5

func (b *builder) rollMark() {
	rc, ok := b.rollCentre()
	if !ok {
		return
	}
	height, half := rc.Y-b.out.Ground, b.half(kinematics.RollCentreHeight)
	inView := b.inView(rc)
	if inView {
		if b.show&ErrorMarks != 0 && half > 0 {
			const wide = 6.0 // points
			lo, hi := draw.At(rc.X, rc.Y-half), draw.At(rc.X, rc.Y+half)
			b.l.On(draw.LayerBands)
			b.l.Path(draw.BandGood, true, lo.Off(-wide, 0), lo.Off(wide, 0), hi.Off(wide, 0), hi.Off(-wide, 0))
			b.pointIn(draw.ArrowGood, rc, draw.Point{Y: 1}, half)
		}
		b.l.On(draw.LayerDimensions)
		b.l.Diamond(draw.RollCentre, rc)
	}
	at := len(b.text)
	b.text = append(b.text, "roll centre "...)
	b.figure(kinematics.RollCentreHeight, math.Abs(height), half)
	if height < 0 {
		b.text = append(b.text, " below ground"...)
	} else {
		b.text = append(b.text, " above ground"...)
	}
	tall := len(b.text) - at
	if math.Abs(rc.X) >= leastAside {
		b.text = append(b.text, ", "...)
		b.text = b.format(b.text, math.Abs(rc.X), b.half(kinematics.RollCentreY))
		b.text = append(b.text, pick(rc.X > 0, " to the left", " to the right")...)
	}
	if inView {
		b.say(label{name: nameOfRoll, role: draw.TextGood, anchor: draw.On(rc), clear: 9, prefer: eastNorth, rank: rankFirst, mid: tall, short: len("roll centre")}, at)
		return
	}
	b.pointOut(nameOfRoll, draw.TextGood, draw.ArrowGood, b.left.at(b.left.pose.Contact), rc, at)
}
