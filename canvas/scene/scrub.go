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
		in, out := draw.At(foot.X-half, foot.Y), draw.At(foot.X+half, foot.Y)
		l.On(draw.LayerBands)
		l.Path(draw.BandNow, true, in.Off(0, -up), out.Off(0, -up), out.Off(0, up), in.Off(0, up))
		b.pointIn(draw.ArrowNow, foot, draw.Point{X: 1}, half)
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
	if s.mirror < 0 {
		return // one figure is enough
	}
	at := len(b.text)
	b.text = append(b.text, "scrub "...)
	b.figure(kinematics.ScrubRadius, scrub, half)
	b.scrubText = scrubText{at, len(b.text), a, z, foot}
}

// scrubText is the figure of the scrub radius, between the ends of its
// dimension from left to right.
type scrubText struct {
	from, to          int // in builder.text
	left, right, foot draw.Point
}

// nameScrub writes the figure in line with its dimension, inboard if there is
// room, or leaves it to the labels.
func (b *builder) nameScrub() {
	t := &b.scrubText
	if t.to == 0 {
		return
	}
	text := b.text[t.from:t.to]
	out := arrowsOut
	if (t.right.X-t.left.X)*b.v.Zoom >= dimensionTight {
		out = 0
	}
	w, up, down := houseStyles.TextSize(draw.TextNow, b.in.Medium, text)
	rise := houseStyles.TextOrigin(draw.TextNow, b.in.Medium, draw.Middle, text).Y
	for i, end := range [2]draw.Point{t.left, t.right} {
		sign, align := -1.0, draw.Right
		if i == 1 {
			sign, align = 1, draw.Left
		}
		edge := draw.On(end).Off(sign*(out+textGap), -scrubDrop)
		p := b.v.Sheet(edge)
		box := draw.Box{Min: draw.Point{X: p.X, Y: p.Y + rise - down}, Max: draw.Point{X: p.X + w, Y: p.Y + rise + up}}
		if i == 0 {
			box.Min.X, box.Max.X = p.X-w, p.X
		}
		if inside(b.v.Window().Grow(-labelEdge), box) && b.cover(box.Grow(2), 1) == 0 {
			b.l.On(draw.LayerDimensions)
			b.l.TextBytes(draw.TextNow, edge, align|draw.Middle, text)
			b.addBar(bar{box.Min, box.Max, true, coverText})
			return
		}
	}
	lab := label{role: draw.TextNow, anchor: draw.On(t.foot), clear: 4, prefer: westFirst, rank: rankFirst}
	if b.v.Window().Has(b.v.Sheet(lab.anchor)) {
		lab.from, lab.to = t.from, t.to
		b.labels = append(b.labels, lab)
	}
}

func inside(outer, box draw.Box) bool { return outer.Has(box.Min) && outer.Has(box.Max) }
