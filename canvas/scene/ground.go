package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// Sizes of the ground, points.
const (
	hatchPitch = 30.0
	hatchDepth = 8.0
	planeBelow = 30.0 // of the centre plane under the ground
	edgeRoom   = 20.0 // kept free at the edges of the window
)

// ground draws the ground line, its hatch and the centre plane of the body.
func (b *builder) ground() {
	z, w := b.out.Ground, b.world
	l := b.l
	l.On(draw.LayerGround)
	if z >= w.Min.Y && z <= w.Max.Y {
		l.Line(draw.Ground, draw.Point{X: w.Min.X, Y: z}, draw.Point{X: w.Max.X, Y: z})
		first := math.Ceil(w.Min.X * b.v.Zoom / hatchPitch)
		last := math.Floor(w.Max.X*b.v.Zoom/hatchPitch) + 1
		for i := first; i <= last; i++ {
			p := draw.At(i*hatchPitch/b.v.Zoom, z).Off(0, -1.5)
			l.LineBy(draw.GroundHatch, p, p.Off(-hatchDepth, -hatchDepth))
		}
	}
	if b.in.Hover == GroundLine || b.in.Selected == GroundLine {
		b.glow(true, draw.Point{X: w.Min.X, Y: z}, draw.Point{X: w.Max.X, Y: z})
	}
	b.centrePlane()
}

// centrePlane draws the plane y = 0 of the body from the top of the window to
// below the ground. In roll it leans with the body.
func (b *builder) centrePlane() {
	z := b.out.Ground
	bottom := draw.Point{Y: z - planeBelow/b.v.Zoom}
	top := draw.Point{Y: max(b.world.Max.Y-edgeRoom/b.v.Zoom, z+1)}
	if b.out.Rolled {
		s := &b.left
		foot := s.body(vec(0, s.about))
		up := draw.Point{X: -s.sin, Y: s.cos}
		bottom = foot.Add(up.Mul((bottom.Y - foot.Y) / up.Y))
		top = foot.Add(up.Mul((top.Y - foot.Y) / up.Y))
	}
	t0, t1, ok := draw.SegmentInBox(bottom, top, b.world)
	if !ok {
		return
	}
	way := top.Sub(bottom)
	from, to := bottom.Add(way.Mul(t0)), bottom.Add(way.Mul(t1))
	b.l.On(draw.LayerGround)
	b.l.Line(draw.CentrePlane, from, to)
	b.planeTop = draw.On(to)
}

// namePlane writes the name beside the top of the centre plane, or leaves it to
// the labels when something lies there.
func (b *builder) namePlane() {
	if b.planeTop == (draw.Pos{}) {
		return
	}
	at := len(b.text)
	b.text = append(b.text, "centre plane"...)
	lab := label{name: nameOfPlane, role: draw.TextQuiet, anchor: b.planeTop.Off(0, -9), clear: 3, prefer: eastWest, rank: rankPlain}
	w, up, down := houseStyles.TextSize(lab.role, b.in.Medium, b.text[at:])
	off := draw.Point{X: 6, Y: -3}
	o := b.v.Sheet(lab.anchor).Add(off)
	box := draw.Box{Min: draw.Point{X: o.X, Y: o.Y - down}, Max: draw.Point{X: o.X + w, Y: o.Y + up}}
	_, stays := b.homeOf(lab.name)
	if stays || !inside(b.v.Window().Grow(-labelEdge), box) || b.cover(box.Grow(2), 1) > 0 {
		b.say(lab, at)
		return
	}
	b.l.On(draw.LayerNotes)
	b.l.TextBytes(lab.role, lab.anchor.Off(off.X, off.Y), draw.Left|draw.Baseline, b.text[at:])
	b.boxes = append(b.boxes, box)
	b.addBar(bar{box.Min, box.Max, true, coverText})
	b.out.Homes.put(home{name: lab.name, off: off})
}

// guides draws the snap lines of a gesture across the window, open where a text
// stands.
func (b *builder) guides() {
	w := b.world
	b.l.On(draw.LayerDimensions)
	for _, g := range b.in.Guides {
		from, to := draw.Point{X: g.Y, Y: w.Min.Y}, draw.Point{X: g.Y, Y: w.Max.Y}
		if g.Level {
			from, to = draw.Point{X: w.Min.X, Y: g.Z}, draw.Point{X: w.Max.X, Y: g.Z}
		}
		b.guide(from, to)
		b.addBar(bar{b.v.Sheet(draw.On(from)), b.v.Sheet(draw.On(to)), false, coverPlain})
	}
}

func (b *builder) guide(from, to draw.Point) {
	p, q := b.v.Sheet(draw.On(from)), b.v.Sheet(draw.On(to))
	way := to.Sub(from)
	for t := 0.0; t < 1; {
		open, shut := b.nextText(p, q, t)
		if open > t {
			b.l.Line(draw.Guide, from.Add(way.Mul(t)), from.Add(way.Mul(open)))
		}
		t = shut
	}
}

// nextText is the first stretch of p-q from t on that runs through a text, as
// fractions; 1, 1 if there is none.
func (b *builder) nextText(p, q draw.Point, t float64) (open, shut float64) {
	open, shut = 1, 1
	for _, x := range b.bars {
		if x.weight < coverText {
			continue
		}
		t0, t1, ok := draw.SegmentInBox(p, q, draw.Box{Min: x.a, Max: x.b}.Grow(2))
		if ok && t1 > t && max(t0, t) < open {
			open, shut = max(t0, t), t1
		}
	}
	return open, shut
}
