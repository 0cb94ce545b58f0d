package scene

import (
	"math"

	"armscribe/canvas/draw"
)

// bar is something drawn that a block of text or the loupe would cover: a
// segment on the sheet, or an upright box if it is one.
type bar struct {
	a, b   draw.Point
	box    bool
	weight int
}

// Costs of covering things, so that the loupe covers helping lines before parts.
const (
	coverFaint  = 1
	coverPlain  = 3
	coverPart   = 12
	coverHandle = 36
	coverText   = 300
)

// collectBars gathers everything drawn since the first so many items.
func (b *builder) collectBars(since int) {
	items := b.l.Items()
	for i := since; i < len(items); i++ {
		it := &items[i]
		if it.Role == draw.Highlight || it.Role == draw.ObstacleHatch {
			continue // it lies under or across a line that counts
		}
		weight := coverPlain
		switch it.Layer {
		case draw.LayerBands, draw.LayerGround, draw.LayerTravel:
			weight = coverFaint
		case draw.LayerOutlines, draw.LayerLinks, draw.LayerCurves, draw.LayerDimensions:
			weight = coverPart
		}
		switch it.Kind {
		case draw.KindPath:
			b.pathBars(b.l.Corners(it), it.Closed, weight, strideOf(it.Role))
		case draw.KindText:
			text := b.l.TextOf(it)
			w, up, down := houseStyles.TextSize(it.Role, b.in.Medium, text)
			o := b.v.Sheet(it.Centre).Add(houseStyles.TextOrigin(it.Role, b.in.Medium, it.Align, text))
			b.addBar(bar{draw.Point{X: o.X, Y: o.Y - down}, draw.Point{X: o.X + w, Y: o.Y + up}, true, coverText})
		default:
			c, r := b.v.Sheet(it.Centre), it.R*b.v.Zoom+it.RBy
			box := draw.Box{Min: c, Max: c}.Grow(r)
			b.addBar(bar{box.Min, box.Max, true, weight})
		}
	}
}

// strideOf is how many chords of a smooth line count as one bar: there are many,
// and all of them are asked for every place that is tried.
func strideOf(role draw.Role) int {
	switch role {
	case draw.Swept:
		return 8
	case draw.Obstacle, draw.ObstacleShort:
		return 3
	}
	return 1
}

func (b *builder) pathBars(c []draw.Pos, closed bool, weight, stride int) {
	p := b.v.Sheet(c[0])
	for i := stride; i < len(c)-1+stride; i += stride {
		q := b.v.Sheet(c[min(i, len(c)-1)])
		b.addBar(bar{p, q, false, weight})
		p = q
	}
	if closed {
		b.addBar(bar{p, b.v.Sheet(c[0]), false, weight})
	}
}

// addBar keeps a bar that reaches into the window.
func (b *builder) addBar(x bar) {
	w := b.v.Window()
	if max(x.a.X, x.b.X) < w.Min.X || min(x.a.X, x.b.X) > w.Max.X ||
		max(x.a.Y, x.b.Y) < w.Min.Y || min(x.a.Y, x.b.Y) > w.Max.Y {
		return
	}
	b.bars = append(b.bars, x)
}

// cover returns the cost of laying box over the drawing; it may stop counting
// at enough.
func (b *builder) cover(box draw.Box, enough int) int {
	cost := 0
	for i := range b.bars {
		x := &b.bars[i]
		if max(x.a.X, x.b.X) < box.Min.X || min(x.a.X, x.b.X) > box.Max.X ||
			max(x.a.Y, x.b.Y) < box.Min.Y || min(x.a.Y, x.b.Y) > box.Max.Y {
			continue
		}
		if !x.box {
			if _, _, hit := draw.SegmentInBox(x.a, x.b, box); !hit {
				continue
			}
		}
		if cost += x.weight; cost >= enough {
			break
		}
	}
	return cost
}

// coverRound is cover for a disc.
func (b *builder) coverRound(c draw.Point, r float64, enough int) int {
	cost := 0
	for i := range b.bars {
		x := &b.bars[i]
		if cost >= enough {
			break
		}
		if max(x.a.X, x.b.X) < c.X-r || min(x.a.X, x.b.X) > c.X+r ||
			max(x.a.Y, x.b.Y) < c.Y-r || min(x.a.Y, x.b.Y) > c.Y+r {
			continue
		}
		if x.box {
			if clampTo(draw.Box{Min: x.a, Max: x.b}, c).Sub(c).Len() <= r {
				cost += x.weight
			}
		} else if distance(c, x.a, x.b) <= r {
			cost += x.weight
		}
	}
	return cost
}

// distance from p to the segment a-b.
func distance(p, a, b draw.Point) float64 {
	d, f := b.Sub(a), p.Sub(a)
	n := d.X*d.X + d.Y*d.Y
	t := 0.0
	if n > 0 {
		t = max(0, min((d.X*f.X+d.Y*f.Y)/n, 1))
	}
	return math.Hypot(f.X-t*d.X, f.Y-t*d.Y)
}
