package scene

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Sizes of dimensions under the ground, points.
const (
	scrubDrop      = 25.0
	trackDrop      = 48.0
	dimensionTight = 46.0 // narrower dimensions have their arrows outside
	arrowsOut      = 22.5 // reach of arrows that stand outside
	textGap        = 6.0
	axisBeyond     = 0.22 // the axis above the upper ball joint, in lengths of the upright
)

// scrub draws the steering axis down to the ground and dimensions the scrub
// radius there.
func (b *builder) scrub() {
	if b.show&ScrubAxis == 0 {
		return
	}
	b.scrubOf(&b.left, &b.out.Readings, true)
	if b.out.Rolled {
		b.scrubOf(&b.right, &b.rightR, false)
	}
}

func (b *builder) scrubOf(s *side, r *kinematics.Readings, worded bool) {
	p := s.pose
	scrub, ok := r.Of(kinematics.ScrubRadius)
	if !ok {
		return // the axis lies flat and never meets the ground
	}
	lower, upper := s.at(p.LowerBall), s.at(p.UpperBall)
	top := upper.Add(upper.Sub(lower).Mul(axisBeyond))
	foot := draw.Point{X: s.mirror * p.AxisAtGround.Y, Y: p.AxisAtGround.Z}
	b.glow(b.lit&ScrubAxis != 0, top, foot)
	l := b.l
	l.On(draw.LayerDimensions)
	l.PolylineInBox(draw.SteeringAxis, b.world, []draw.Point{top, foot})
	half := 0.0
	if worded {
		half = b.half(kinematics.ScrubRadius)
	}
	if b.show&ErrorMarks != 0 && half > 0 {
		const up = 5.0 // points
		l.On(draw.LayerBands)
		l.Path(draw.BandNow, true,
			draw.At(foot.X-half, foot.Y).Off(0, -up), draw.At(foot.X+half, foot.Y).Off(0, -up),
			draw.At(foot.X+half, foot.Y).Off(0, up), draw.At(foot.X-half, foot.Y).Off(0, up))
	}
	b.scrubDimension(s, foot, scrub, half)
}

// scrubDimension dimensions from the axis to the contact centre and writes the
// figure beside the arrows, inboard if there is room.
func (b *builder) scrubDimension(s *side, foot draw.Point, scrub, half float64) {
	l := b.l
	c := s.at(s.pose.Contact)
	a, z := foot, c
	if a.X > z.X {
		a, z = z, a
	}
	l.On(draw.LayerDimensions)
	wide := z.X - a.X
	if wide > 0 {
		l.DimensionLine(draw.DimensionNow, draw.ArrowNow, a, z, scrubDrop, dimensionTight/b.v.Zoom)
	}
	if s.mirror < 0 && b.in.Lit == nil {
		return // one figure is enough until it is asked for
	}
	at := len(b.text)
	b.text = append(b.text, "scrub "...)
	b.text = b.format(b.text, scrub, half)
	text := b.text[at:]
	out := arrowsOut
	if wide*b.v.Zoom >= dimensionTight {
		out = 0
	}
	w, up, down := houseStyles.TextSize(draw.TextNow, b.in.Medium, text)
	// Inboard first: there the ground is free.
	for _, left := range [2]bool{s.mirror > 0, s.mirror < 0} {
		from, to, sign := a, z, -1.0
		if !left {
			from, sign = z, 1
		}
		_ = to
		edge := draw.On(from).Off(sign*(out+textGap), -scrubDrop)
		p := b.v.Sheet(edge)
		box := draw.Box{Min: draw.Point{X: p.X, Y: p.Y - down}, Max: draw.Point{X: p.X + w, Y: p.Y + up}}
		align := draw.Left
		if left {
			box.Min.X, box.Max.X, align = p.X-w, p.X, draw.Right
		}
		if !inside(b.v.Window().Grow(-4), box) {
			continue
		}
		if out == 0 {
			l.LineBy(draw.DimensionNow, draw.On(from).Off(0, -scrubDrop), draw.On(from).Off(sign*textGap*0.5, -scrubDrop))
		}
		l.TextBytes(draw.TextNow, edge, align|draw.Middle, text)
		return
	}
	if b.world.Has(foot) {
		b.say(label{role: draw.TextNow, anchor: draw.On(foot), clear: 4, prefer: westFirst, rank: rankFirst}, at)
	}
}

func inside(outer, box draw.Box) bool { return outer.Has(box.Min) && outer.Has(box.Max) }
