package raster

import (
	"image"
	"image/color"
	stddraw "image/draw"
	"math"

	"golang.org/x/image/vector"

	"armscribe/canvas/draw"
)

// polygon fills chains.
type polygon struct {
	raster vector.Rasterizer
	alpha  image.Alpha
	a, b   []draw.Point  // stages of the clipping
	looked [3][256]uint8 // what blend makes of each channel's value under whole cover
}

// lookFrom, px, is the area from which looking up mixed colours is worth it.
const lookFrom = 4096

// fill fills the chain, closed, by the non-zero rule.
func (p *Painter) fill(c color.NRGBA, alpha float64) {
	g := &p.poly
	pts := g.clip(p.chain, p.bounds)
	if len(pts) < 3 {
		return
	}
	box := draw.EmptyBox()
	for _, q := range pts {
		box = box.With(q)
	}
	x0, y0 := int(math.Floor(box.Min.X)), int(math.Floor(box.Min.Y))
	w, h := int(math.Ceil(box.Max.X))-x0, int(math.Ceil(box.Max.Y))-y0
	if w <= 0 || h <= 0 {
		return
	}
	g.begin(w, h)
	for i, q := range pts {
		x, y := float32(q.X-float64(x0)), float32(q.Y-float64(y0))
		if i == 0 {
			g.raster.MoveTo(x, y)
		} else {
			g.raster.LineTo(x, y)
		}
	}
	g.raster.ClosePath()
	g.raster.Draw(&g.alpha, g.alpha.Rect, image.Opaque, image.Point{})
	p.blend(&g.alpha, x0, y0, c, uint32(math.Round(alpha*255)))
}

// begin makes an empty raster of w by h.
func (g *polygon) begin(w, h int) {
	g.raster.Reset(w, h)
	// Src writes every pixel, so the old content need not be cleared.
	g.raster.DrawOp = stddraw.Src
	if cap(g.alpha.Pix) < w*h {
		g.alpha.Pix = make([]uint8, w*h)
	}
	g.alpha.Pix = g.alpha.Pix[:w*h]
	g.alpha.Stride, g.alpha.Rect = w, image.Rect(0, 0, w, h)
}

// blend lays colour c through the mask m, thinned to alpha of 255, onto the
// image with the mask's corner at x0, y0.
func (p *Painter) blend(m *image.Alpha, x0, y0 int, c color.NRGBA, alpha uint32) {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	img := p.img
	i0, i1 := max(0, -x0), min(w, img.Rect.Dx()-x0)
	if i0 >= i1 {
		return
	}
	// A large area is whole pixels for the most part, and each of them is mixed
	// alike: looked up, that takes a third of the time.
	var looked *[3][256]uint8
	if alpha != 255 && w*h >= lookFrom {
		looked = &p.poly.looked
		for k, to := range [3]uint8{c.R, c.G, c.B} {
			for from := range looked[k] {
				looked[k][from] = mix(uint8(from), to, alpha)
			}
		}
	}
	for y := max(0, -y0); y < min(h, img.Rect.Dy()-y0); y++ {
		src := m.Pix[y*m.Stride+i0 : y*m.Stride+i1]
		dst := img.Pix[(y+y0)*img.Stride+(x0+i0)*4:]
		dst = dst[:4*len(src)]
		for i, a := range src {
			if a == 0 {
				continue
			}
			if a == 255 && looked != nil {
				d := dst[4*i : 4*i+3 : 4*i+3]
				d[0], d[1], d[2] = looked[0][d[0]], looked[1][d[1]], looked[2][d[2]]
				continue
			}
			k := uint32(a)
			if alpha != 255 {
				k = (k*alpha + 127) / 255
			}
			d := dst[4*i : 4*i+3 : 4*i+3]
			d[0], d[1], d[2] = mix(d[0], c.R, k), mix(d[1], c.G, k), mix(d[2], c.B, k)
		}
	}
}

// clip returns the part of the polygon in box. Sutherland and Hodgman,
// Communications of the ACM 17 (1), 1974; seams along the border of the box
// enclose no area.
func (g *polygon) clip(pts []draw.Point, box draw.Box) []draw.Point {
	inside := true
	for _, q := range pts {
		inside = inside && box.Has(q)
	}
	if inside {
		return pts
	}
	g.a = append(g.a[:0], pts...)
	for side := range 4 {
		if len(g.a) == 0 {
			break
		}
		g.b = g.b[:0]
		q := g.a[len(g.a)-1]
		dq := beyond(q, box, side)
		for _, r := range g.a {
			dr := beyond(r, box, side)
			if (dq > 0) != (dr > 0) {
				g.b = append(g.b, along(q, r, dq/(dq-dr)))
			}
			if dr <= 0 {
				g.b = append(g.b, r)
			}
			q, dq = r, dr
		}
		g.a, g.b = g.b, g.a
	}
	return g.a
}

// beyond returns how far q lies outside one side of the box; negative is inside.
func beyond(q draw.Point, box draw.Box, side int) float64 {
	switch side {
	case 0:
		return box.Min.X - q.X
	case 1:
		return q.X - box.Max.X
	case 2:
		return box.Min.Y - q.Y
	}
	return q.Y - box.Max.Y
}
