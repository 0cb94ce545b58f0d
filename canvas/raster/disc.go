package raster

import (
	"image/color"
	"math"

	"armscribe/canvas/draw"
)

// maxDisc is the largest radius in pixels of a circle painted by distance from
// its centre; the work grows with the area, so larger ones are flattened.
const maxDisc = 48

// disc paints a small circle, exact without chords.
func (p *Painter) disc(c draw.Point, r float64, st *draw.Style) {
	if st.Fill != draw.None {
		p.ring(c, r/2, r, p.frame.Palette[st.Fill], uint32(math.Round(st.FillAlpha*255)))
	}
	if pen := p.pen(st); pen > 0 {
		p.ring(c, r, pen, p.frame.Palette[st.Stroke], 255)
	}
}

// ring paints the ring about c of mid radius r and the given width. A ring of
// half its outer radius and as wide as that is a disc.
func (p *Painter) ring(c draw.Point, r, width float64, col color.NRGBA, alpha uint32) {
	half := width / 2
	out := r + half + 1
	peak := min(1, width)
	y0, y1 := max(0, int(math.Floor(c.Y-out))), min(p.img.Rect.Dy()-1, int(math.Ceil(c.Y+out)))
	x0, x1 := max(0, int(math.Floor(c.X-out))), min(p.img.Rect.Dx()-1, int(math.Ceil(c.X+out)))
	filled := half >= r
	for y := y0; y <= y1; y++ {
		dy := float64(y) + 0.5 - c.Y
		for x := x0; x <= x1; x++ {
			dx := float64(x) + 0.5 - c.X
			d := math.Sqrt(dx*dx + dy*dy)
			k := r + half + 0.5 - d
			if !filled {
				k = half + 0.5 - math.Abs(d-r)
			}
			if k <= 0 {
				continue
			}
			a := uint32(min(k, peak)*255+0.5) * alpha / 255
			i := y*p.img.Stride + 4*x
			px := p.img.Pix[i : i+3 : i+3]
			px[0], px[1], px[2] = mix(px[0], col.R, a), mix(px[1], col.G, a), mix(px[2], col.B, a)
		}
	}
}
