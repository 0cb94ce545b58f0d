// Package raster paints a draw.List into an image, anti-aliased, for the screen
// and for PNG.
//
// A stroke is the set of points nearer to its line than half the pen; the
// coverage of a pixel follows from its distance. So joints are round, lines of
// any zoom are whole, and a path covers each pixel once: where its segments or
// dashes meet nothing is painted twice.
package raster

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"armscribe/canvas/draw"
)

// Frame says how a list is painted. Styles and Palette must be set.
type Frame struct {
	View    draw.View
	Styles  *draw.Styles
	Palette *draw.Palette
	Medium  draw.Medium
	Back    draw.Token  // ground of the picture; None stands for draw.Paper
	Under   *image.RGBA // ground instead of Back, opaque, of the picture's size; may be nil
	Scale   float64     // pixels per point; 0 stands for 1
	W, H    int         // size of the image in pixels; 0 stands for the view's window
}

// size returns the size of the image in pixels and the pixels per point.
func (f *Frame) size() (w, h int, scale float64) {
	scale = f.Scale
	if scale == 0 {
		scale = 1
	}
	w, h = f.W, f.H
	if w == 0 {
		w = int(math.Ceil(f.View.W*scale - sliver))
	}
	if h == 0 {
		h = int(math.Ceil(f.View.H*scale - sliver))
	}
	return w, h, scale
}

// sliver is the part of a pixel that rounding errors of a size may amount to;
// less of the drawing than this gets no pixel of its own.
const sliver = 1e-6

// Painter paints lists. It keeps its image, masks and glyphs from one Paint to
// the next and serves one goroutine.
type Painter struct {
	img *image.RGBA

	frame  Frame
	scale  float64
	bounds draw.Box // of the image, px, y down

	mask  mask
	chain []draw.Point // corners of the path being painted, px, y down
	piece []draw.Point // of the dash being painted
	poly  polygon
	text  textPainter
}

// New returns a painter.
func New() *Painter { return &Painter{} }

// Paint paints l and returns the image: opaque, whole, at the origin. The next
// Paint of the same size overwrites it. A Frame that is not filled in panics.
func (p *Painter) Paint(l *draw.List, f Frame) *image.RGBA {
	w, h, scale := f.size()
	if f.Styles == nil || f.Palette == nil || w <= 0 || h <= 0 || !(scale > 0) || !(f.View.Zoom > 0) {
		panic(fmt.Sprintf("raster: incomplete frame: %d x %d px, %g px a point, zoom %g", w, h, scale, f.View.Zoom))
	}
	p.frame, p.scale = f, scale
	if p.img == nil || p.img.Rect.Dx() != w || p.img.Rect.Dy() != h {
		p.img = image.NewRGBA(image.Rect(0, 0, w, h))
		p.mask.resize(w, h)
	}
	p.bounds = draw.Box{Max: draw.Point{X: float64(w), Y: float64(h)}}
	back := f.Back
	if back == draw.None {
		back = draw.Paper
	}
	if f.Under != nil && f.Under.Rect == p.img.Rect {
		copy(p.img.Pix, f.Under.Pix)
	} else {
		p.clear(f.Palette[back])
	}
	items := l.Items()
	for layer := range draw.Layers {
		for i := range items {
			if it := &items[i]; int(it.Layer) == layer {
				p.item(l, it)
			}
		}
	}
	return p.img
}

func (p *Painter) clear(c color.NRGBA) {
	row := p.img.Pix[:p.img.Stride]
	for i := 0; i < len(row); i += 4 {
		row[i], row[i+1], row[i+2], row[i+3] = c.R, c.G, c.B, 0xFF
	}
	for n := len(row); n < len(p.img.Pix); n *= 2 {
		copy(p.img.Pix[n:], p.img.Pix[:n])
	}
}

func (p *Painter) item(l *draw.List, it *draw.Item) {
	st := &p.frame.Styles[it.Role]
	switch it.Kind {
	case draw.KindText:
		p.paintText(l.TextOf(it), it, st)
		return
	case draw.KindPath:
		p.chain = p.chain[:0]
		for _, c := range l.Corners(it) {
			p.chain = append(p.chain, p.px(c))
		}
		if st.Crisp {
			p.snap(p.pen(st), it.Closed)
		}
	default:
		r := (it.R*p.frame.View.Zoom + it.RBy) * p.scale
		c := p.px(it.Centre)
		if it.Kind == draw.KindCircle && r <= maxDisc && st.Dash == draw.Solid {
			p.disc(c, r, st)
			return
		}
		p.flatten(c, r, it)
	}
	shut := it.Closed || it.Kind == draw.KindCircle
	if shut && st.Fill != draw.None { // an open line has no inside
		p.fill(p.frame.Palette[st.Fill], st.FillAlpha)
	}
	if pen := p.pen(st); pen > 0 {
		p.stroke(shut, pen, st)
	}
}

// px returns p in pixels, y down.
func (p *Painter) px(pos draw.Pos) draw.Point {
	x, y := p.frame.View.Place(pos)
	return draw.Point{X: x * p.scale, Y: y * p.scale}
}

// pen returns the width of the pen in pixels, 0 for none. Crisp pens are whole
// pixels wide.
func (p *Painter) pen(st *draw.Style) float64 {
	if st.Stroke == draw.None {
		return 0
	}
	w := st.PenOn(p.frame.Medium) * p.scale
	if st.Crisp {
		w = max(1, math.Round(w))
	}
	return w
}

// arcTolerance is how far a chord may leave its arc, px: an error of a tenth of
// a pixel is not seen even on a thin line.
const arcTolerance = 0.1

// flatten makes the chain follow a circle or arc. On the screen y runs down, so
// an angle that turns anticlockwise in the world is negative here.
func (p *Painter) flatten(c draw.Point, r float64, it *draw.Item) {
	p.chain = p.chain[:0]
	n := draw.ArcSteps(r, it.Sweep, arcTolerance)
	last := n
	if it.Kind == draw.KindCircle {
		last-- // the closed chain returns by itself
	}
	for i := 0; i <= last; i++ {
		s, k := math.Sincos(it.From + it.Sweep*float64(i)/float64(n))
		p.chain = append(p.chain, draw.Point{X: c.X + r*k, Y: c.Y - r*s})
	}
}

// level is how many pixels a line may rise over its length and still count as
// level or upright.
const level = 0.02

// snap moves a chain of level and upright lines so that a pen of whole pixels
// covers whole pixels. A chain with any other line stays as it is.
func (p *Painter) snap(pen float64, closed bool) {
	c := p.chain
	for i := 1; i < len(c); i++ {
		if math.Abs(c[i].X-c[i-1].X) > level && math.Abs(c[i].Y-c[i-1].Y) > level {
			return
		}
	}
	half := math.Mod(pen, 2) / 2
	across := func(v float64) float64 { return math.Round(v-half) + half }
	for i := range c {
		x, y := c[i].X, c[i].Y
		c[i].X, c[i].Y = across(x), across(y)
		if !closed && (i == 0 || i == len(c)-1) {
			// The end of an open line lies on a pixel's edge.
			near := c[max(0, i-1)]
			if i == 0 {
				near = c[1]
			}
			if math.Abs(near.X-x) < math.Abs(near.Y-y) {
				c[i].Y = math.Round(y)
			} else {
				c[i].X = math.Round(x)
			}
		}
	}
}
