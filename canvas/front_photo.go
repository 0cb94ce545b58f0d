package canvas

import (
	"image"
	"image/color"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"armscribe/canvas/draw"
)

// Underlay is a picture under the drawing. A place in it, in pixels from its
// top left corner, x to the right and y down, stands in the world at
// (XX x + XY y + X, YX x + YY y + Y), mm. The zero Underlay is none. The image
// must be opaque and is not changed while it is shown.
type Underlay struct {
	Image                *image.RGBA
	XX, XY, X, YX, YY, Y float64
	Opacity              float64 // 0 not seen, 1 solid
}

// backdrop is what an underlay comes to in a view, kept as long as neither
// changes: to turn and scale a photo takes many times what painting does.
type backdrop struct {
	of    Underlay
	view  draw.View
	paper color.NRGBA
	image *image.RGBA
}

// SetUnderlay shows a picture under the drawing.
func (v *FrontView) SetUnderlay(u Underlay) {
	v.event(func() {
		if u != v.underlay {
			v.underlay = u
			v.touch()
		}
	})
}

// Underlay returns the picture under the drawing.
func (v *FrontView) Underlay() Underlay { return v.underlay }

// ground returns the ground of w by h pixels to paint on, or nil for plain paper.
func (v *FrontView) ground(w, h int) *image.RGBA {
	b := &v.backdrop
	if v.underlay.Image == nil || !(v.underlay.Opacity > 0) {
		*b = backdrop{}
		return nil
	}
	paper := v.palette[draw.Paper]
	fits := b.image != nil && b.image.Rect.Dx() == w && b.image.Rect.Dy() == h
	if fits && b.of == v.underlay && b.view == v.view && b.paper == paper {
		return b.image
	}
	if !fits {
		b.image = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	b.of, b.view, b.paper = v.underlay, v.view, paper
	b.paint(float64(w) / v.view.W)
	return b.image
}

// paint lays the picture on paper, scale pixels to a point.
func (b *backdrop) paint(scale float64) {
	xdraw.Draw(b.image, b.image.Rect, image.NewUniform(b.paper), image.Point{}, xdraw.Src)
	u, k := &b.of, b.view.Zoom*scale
	x0, y0 := b.view.Place(draw.At(u.X, u.Y))
	to := f64.Aff3{u.XX * k, u.XY * k, x0 * scale, -u.YX * k, -u.YY * k, y0 * scale}
	xdraw.ApproxBiLinear.Transform(b.image, to, u.Image, u.Image.Rect, xdraw.Src, nil)
	if u.Opacity < 1 {
		fade(b.image, b.paper, u.Opacity)
	}
}

// fade mixes what is not paper with paper.
func fade(img *image.RGBA, paper color.NRGBA, opacity float64) {
	var mixed [3][256]uint8
	for c, p := range [3]uint8{paper.R, paper.G, paper.B} {
		for i := range 256 {
			mixed[c][i] = uint8(float64(p) + (float64(i)-float64(p))*opacity + 0.5)
		}
	}
	for i := 0; i+3 < len(img.Pix); i += 4 {
		p := img.Pix[i : i+3 : i+3]
		p[0], p[1], p[2] = mixed[0][p[0]], mixed[1][p[1]], mixed[2][p[2]]
	}
}
