package raster

import (
	"image"
	"math"
	"unicode/utf8"

	"armscribe/canvas/draw"
	"armscribe/canvas/draw/font"
)

// Positions of a glyph are kept to a quarter pixel across; a baseline lies on a
// whole pixel, so that the feet of a line of text are sharp.
const subpixels = 4

// maxGlyphs bounds the store of painted glyphs. A zoom by steps asks for no new
// ones, since text keeps its size; a store overrun is emptied.
const maxGlyphs = 4096

type glyphKey struct {
	face font.Face
	sub  uint8
	r    rune
	size float32 // em in px
}

// glyph is a painted letter: its mask and the place of the mask's corner from
// the pen, px.
type glyph struct {
	mask image.Alpha
	x, y int
}

type textPainter struct {
	glyphs map[glyphKey]*glyph
	segs   []font.Seg
	poly   polygon
}

func (p *Painter) paintText(text []byte, it *draw.Item, st *draw.Style) {
	em := st.SizeOn(p.frame.Medium) * p.scale
	o := p.frame.Styles.TextOrigin(it.Role, p.frame.Medium, it.Align, text)
	at := p.px(it.Centre.Off(o.X, o.Y))
	base := int(math.Round(at.Y))
	x := at.X
	if float64(base)+em < 0 || float64(base)-2*em > p.bounds.Max.Y || x > p.bounds.Max.X {
		return
	}
	c := p.frame.Palette[st.Stroke]
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		i += n
		w := st.Face.Advance(r) * em
		if x+2*w+em > 0 && x < p.bounds.Max.X {
			q := math.Floor(x*subpixels + 0.5)
			px := math.Floor(q / subpixels)
			g := p.text.glyph(glyphKey{st.Face, uint8(q - px*subpixels), r, float32(em)})
			p.blend(&g.mask, int(px)+g.x, base+g.y, c, 255)
		}
		x += w
	}
}

// glyph returns a letter from the store, painting it on first use.
func (t *textPainter) glyph(k glyphKey) *glyph {
	if g := t.glyphs[k]; g != nil {
		return g
	}
	if t.glyphs == nil || len(t.glyphs) >= maxGlyphs {
		t.glyphs = make(map[glyphKey]*glyph)
	}
	g := t.render(k)
	t.glyphs[k] = g
	return g
}

func (t *textPainter) render(k glyphKey) *glyph {
	g := &glyph{}
	t.segs = k.face.Outline(t.segs[:0], k.r)
	if len(t.segs) == 0 {
		return g
	}
	em, shift := float64(k.size), float64(k.sub)/subpixels
	box := draw.EmptyBox()
	for i := range t.segs {
		s := &t.segs[i]
		for j := range pointsOf(s.Op) {
			s.P[j] = [2]float64{s.P[j][0]*em + shift, -s.P[j][1] * em}
			box = box.With(draw.Point{X: s.P[j][0], Y: s.P[j][1]})
		}
	}
	g.x, g.y = int(math.Floor(box.Min.X)), int(math.Floor(box.Min.Y))
	w, h := int(math.Ceil(box.Max.X))-g.x, int(math.Ceil(box.Max.Y))-g.y
	if w <= 0 || h <= 0 {
		return g
	}
	t.poly.begin(w, h)
	at := func(q [2]float64) (float32, float32) {
		return float32(q[0] - float64(g.x)), float32(q[1] - float64(g.y))
	}
	z := &t.poly.raster
	for i := range t.segs {
		s := &t.segs[i]
		ax, ay := at(s.P[0])
		bx, by := at(s.P[1])
		cx, cy := at(s.P[2])
		switch s.Op {
		case font.MoveTo:
			z.ClosePath()
			z.MoveTo(ax, ay)
		case font.LineTo:
			z.LineTo(ax, ay)
		case font.QuadTo:
			z.QuadTo(ax, ay, bx, by)
		case font.CubicTo:
			z.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	z.ClosePath()
	z.Draw(&t.poly.alpha, t.poly.alpha.Rect, image.Opaque, image.Point{})
	g.mask = t.poly.alpha
	g.mask.Pix = append([]uint8(nil), t.poly.alpha.Pix...)
	return g
}

func pointsOf(op font.Op) int {
	switch op {
	case font.QuadTo:
		return 2
	case font.CubicTo:
		return 3
	}
	return 1
}
