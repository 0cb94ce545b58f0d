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
	lab := label{name: nameOfScrub, role: draw.TextNow, from: t.from, to: t.to, rank: rankFirst, clear: 4, prefer: westFirst, end: uint8(len(t.ends()))}
	if h, ok := b.homeOf(lab.name); ok {
		lab.end, lab.anchor = h.end, t.anchor(h.end)
		b.labels = append(b.labels, lab)
		return
	}
	out := arrowsOut
	if (t.right.X-t.left.X)*b.v.Zoom >= dimensionTight {
		out = 0
	}
	w, up, down := houseStyles.TextSize(lab.role, b.in.Medium, text)
	rise := houseStyles.TextOrigin(lab.role, b.in.Medium, draw.Middle, text).Y
	for i := range t.ends() {
		h := home{name: lab.name, end: uint8(i), right: i == 0, off: draw.Point{X: out + textGap, Y: rise}}
		align := draw.Left
		if h.right {
			h.off.X, align = -h.off.X, draw.Right
		}
		at := t.anchor(h.end).Off(h.off.X, h.off.Y)
		p := b.v.Sheet(at)
		box := draw.Box{Min: draw.Point{X: p.X, Y: p.Y - down}, Max: draw.Point{X: p.X + w, Y: p.Y + up}}
		if h.right {
			box.Min.X, box.Max.X = p.X-w, p.X
		}
		if inside(b.v.Window().Grow(-labelEdge), box) && b.cover(box.Grow(2), 1) == 0 {
			b.l.On(draw.LayerDimensions)
			b.l.TextBytes(lab.role, at, align|draw.Baseline, text)
			b.boxes = append(b.boxes, box)
			b.addBar(bar{box.Min, box.Max, true, coverText})
			b.out.Homes.put(h)
			return
		}
	}
	if lab.anchor = t.anchor(lab.end); b.v.Window().Has(b.v.Sheet(lab.anchor)) {
		b.labels = append(b.labels, lab)
	}
}

// ends are those of the dimension line.
func (t *scrubText) ends() [2]draw.Point { return [2]draw.Point{t.left, t.right} }

// anchor is what the figure hangs on: an end of the dimension line, or the foot
// of the axis.
func (t *scrubText) anchor(end uint8) draw.Pos {
	if ends := t.ends(); int(end) < len(ends) {
		return draw.On(ends[end]).Off(0, -scrubDrop)
	}
	return draw.On(t.foot)
}

func inside(outer, box draw.Box) bool { return outer.Has(box.Min) && outer.Has(box.Max) }
