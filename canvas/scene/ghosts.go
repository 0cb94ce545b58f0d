package scene

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// otherSide draws the mirrored corner, faint: the same travel, and the rack
// moved the other way as that corner sees it. In roll both corners are drawn
// in full.
func (b *builder) otherSide() {
	if b.show&OtherSide == 0 || b.out.Rolled || b.world.Min.X >= 0 {
		return
	}
	m := &b.in.Now.Study.Mechanism
	var err error
	if b.other, err = m.At(b.out.Travel, -b.out.Rack); err != nil {
		return // the other side binds there: the travel shown is this side's
	}
	var s side
	s.set(-1, &b.other, &b.in.Now.Study.Case.Corner, b.in.Now.Section, 0, 0)
	b.l.On(draw.LayerTravel)
	b.skeleton(&s, draw.Mirrored)
	b.pts = b.tyreOutline(b.pts[:0], &s)
	b.l.Polygon(draw.Mirrored, b.pts...)
}

// skeleton draws the links of a corner as plain lines.
func (b *builder) skeleton(s *side, role draw.Role) {
	p := s.pose
	upper, lower := s.at(p.UpperBall), s.at(p.LowerBall)
	b.l.Polyline(role, s.pivot(&s.c.Upper), upper, lower, s.pivot(&s.c.Lower))
	b.l.Line(role, s.at(p.RackEnd), s.at(p.OuterEnd))
}

// ghosts draws the links at the ends of the travel. In roll there is no one
// travel to end.
func (b *builder) ghosts() {
	if b.show&TravelGhosts == 0 || b.out.Rolled {
		return
	}
	st := b.in.Now.Study
	for i, end := range [2]int{0, study.Poses - 1} {
		var s side
		s.set(1, &st.Poses[end], &st.Case.Corner, b.in.Now.Section, 0, 0)
		b.l.On(draw.LayerTravel)
		b.skeleton(&s, draw.TravelGhost)
		at := len(b.text)
		anchor, prefer := s.at(s.pose.UpperBall), northFirst
		word, called := "bump ", nameOfBump
		if i == 0 {
			anchor, prefer, word, called = s.at(s.pose.LowerBall), southFirst, "droop ", nameOfDroop
		}
		travel := st.Travel[end]
		if i == 0 {
			travel = -travel
		}
		b.text = append(b.text, word...)
		b.text = b.format(b.text, travel, 0)
		b.say(label{name: called, role: draw.TextQuiet, anchor: draw.On(anchor), clear: 3, prefer: prefer, rank: rankLast, near: true}, at)
	}
}

// compared draws the other variant as it was, at the travel and rack shown or
// the nearest it reaches.
func (b *builder) compared() {
	before := b.in.Before
	if b.show&BeforeOutline == 0 || before == nil {
		return
	}
	st := before.Study
	if st.Case.Corner == b.in.Now.Study.Case.Corner && before.Section == b.in.Now.Section {
		return // the same lines twice say nothing
	}
	if b.out.Rolled {
		ax, err := st.Mechanism.Roll(b.out.Roll, b.out.Rack)
		if err != nil {
			return // it cannot stand there: nothing true to draw
		}
		b.ghost = ax.Right
		b.before(-1, -b.out.Roll, -b.out.Rack)
		b.ghost = ax.Left
		b.before(1, b.out.Roll, b.out.Rack)
		return
	}
	b.solveGhost(st)
	b.before(1, 0, 0)
}

// solveGhost poses the compared variant at the travel and rack shown, or the
// nearest it reaches.
func (b *builder) solveGhost(st *study.Study) {
	var err error
	if b.ghost, err = st.Mechanism.At(b.out.Travel, b.out.Rack); err != nil {
		travel := min(max(b.out.Travel, st.From), st.To)
		if b.ghost, err = st.Mechanism.At(travel, st.Rack); err != nil {
			b.ghost = restPose(&st.Mechanism)
		}
	}
}

// planCompared draws links and tyre of the other variant from above, as
// compared does. In roll it is left out: the front view has it.
func (b *builder) planCompared() {
	before := b.in.Before
	if b.show&BeforeOutline == 0 || before == nil || b.out.Rolled {
		return
	}
	st := before.Study
	if st.Case.Corner == b.in.Now.Study.Case.Corner && before.Section == b.in.Now.Section {
		return // the same lines twice say nothing
	}
	b.solveGhost(st)
	s := side{plan: true}
	s.set(1, &b.ghost, &st.Case.Corner, before.Section, 0, 0)
	l, p := b.l, s.pose
	l.On(draw.LayerCompared)
	for _, arm := range [2]struct {
		a     *kinematics.Arm
		front kinematics.Point
		ball  kinematics.Vec
	}{{&s.c.Lower, kinematics.LowerFront, p.LowerBall}, {&s.c.Upper, kinematics.UpperFront, p.UpperBall}} {
		if !arm.a.Flat {
			l.Polyline(draw.Compared, s.place(arm.front), s.at(arm.ball), s.place(arm.front+1))
		}
	}
	l.Line(draw.Compared, s.at(p.RackEnd), s.at(p.OuterEnd))
	t := s.tyreBody()
	b.pts = tyreAbove(b.pts[:0], &s, &t)
	l.Polygon(draw.Compared, b.pts...)
	inner := b.pts[0]
	for _, q := range b.pts {
		if q.Y-q.X > inner.Y-inner.X {
			inner = q
		}
	}
	b.sayText(label{name: nameOfBefore, role: draw.TextBefore, anchor: draw.On(inner), clear: 3, prefer: westFirst, rank: rankPlain}, b.in.beforeName())
}

func (b *builder) before(mirror, roll, rack float64) {
	var s side
	s.set(mirror, &b.ghost, &b.in.Before.Study.Case.Corner, b.in.Before.Section, roll, rack)
	b.l.On(draw.LayerCompared)
	b.skeleton(&s, draw.Compared)
	b.pts = b.tyreOutline(b.pts[:0], &s)
	b.l.Polygon(draw.Compared, b.pts...)
	if mirror < 0 {
		return
	}
	// The word stands at the inboard shoulder, where most compared wheels show.
	corner := b.pts[0]
	for _, p := range b.pts {
		if p.Y-p.X > corner.Y-corner.X {
			corner = p
		}
	}
	b.sayText(label{name: nameOfBefore, role: draw.TextBefore, anchor: draw.On(corner), clear: 3, prefer: westFirst, rank: rankPlain}, b.in.beforeName())
}

// litOnly draws what belongs to no overlay but shows the reading pointed at.
func (b *builder) litOnly() {
	s := &b.left
	f := s.wheelFrame()
	if b.lit&CamberLine != 0 {
		// The wheel's own plane against the plumb line through the contact.
		c := s.at(s.pose.Contact)
		up := 2.25 * s.c.Wheel.LoadedRadius
		top := f.centre.Add(f.up.Mul(up - s.c.Wheel.LoadedRadius))
		b.glow(true, c, top)
		b.l.On(draw.LayerDimensions)
		b.l.Line(draw.DimensionNow, c, top)
		b.l.Line(draw.Construction, c, draw.Point{X: c.X, Y: top.Y})
		b.loupe.open = true
	}
	if b.lit&HalfTrackLine != 0 {
		c := s.at(s.pose.Contact)
		plane := draw.Point{Y: c.Y}
		if c.X > kinematics.MinSpan {
			b.l.On(draw.LayerDimensions)
			b.loupe.open = true
			mid := b.l.DimensionLine(draw.Dimension, draw.Arrow, plane, c, trackDrop, dimensionTight/b.v.Zoom)
			at := len(b.text)
			b.text = append(b.text, "half track "...)
			b.figure(kinematics.HalfTrack, c.X, b.half(kinematics.HalfTrack))
			b.say(label{name: nameOfTrack, role: draw.TextBody, anchor: mid, clear: 3, prefer: southFirst, rank: rankFirst}, at)
		}
	}
}
