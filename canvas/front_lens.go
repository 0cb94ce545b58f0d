package canvas

import (
	"image"
	"image/color"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"armscribe/canvas/draw"
)

// Of the lens, in points, and how many times larger it shows.
const (
	lensSide  = 150.0
	lensAir   = 12.0
	lensPower = 4.0
	lensGap   = 10.0 // of its cross, where the place itself is
)

// magnify paints the lens into a corner of the picture where the pointer is not:
// the underlay, unfaded, as it is about the pointer, with a cross on the place.
func (v *FrontView) magnify(on *image.RGBA) {
	u := &v.underlay
	if u.Image == nil {
		return
	}
	scale := float64(on.Rect.Dx()) / v.view.W
	px := func(points float64) int { return int(points*scale + 0.5) }
	side := px(lensSide)
	left := on.Rect.Dx() - px(lensAir) - side
	if float64(v.pointer.X) > v.view.W/2 {
		left = px(lensAir)
	}
	frame := image.Rect(left, px(lensAir), left+side, px(lensAir)+side)
	glass := image.NewRGBA(image.Rect(0, 0, side, side))
	xdraw.Draw(glass, glass.Rect, image.NewUniform(v.palette[draw.Paper]), image.Point{}, xdraw.Src)
	at, k, middle := v.view.ToWorld(v.pointer), v.view.Zoom*scale*lensPower, float64(side)/2
	xdraw.ApproxBiLinear.Transform(glass, f64.Aff3{
		u.XX * k, u.XY * k, (u.X-at.X)*k + middle,
		-u.YX * k, -u.YY * k, (at.Y-u.Y)*k + middle,
	}, u.Image, u.Image.Rect, xdraw.Src, nil)
	pen, half, gap := max(1, px(1)), side/2, px(lensGap)
	bar := func(r image.Rectangle) { // dark on light, seen on any photo
		xdraw.Draw(glass, r.Inset(-pen), image.NewUniform(color.White), image.Point{}, xdraw.Src)
		xdraw.Draw(glass, r, image.NewUniform(color.Black), image.Point{}, xdraw.Src)
	}
	for _, r := range [...]image.Rectangle{
		image.Rect(0, half, half-gap, half+pen), image.Rect(half+gap, half, side, half+pen),
		image.Rect(half, 0, half+pen, half-gap), image.Rect(half, half+gap, half+pen, side),
	} {
		bar(r)
	}
	xdraw.Draw(on, frame.Inset(-pen), image.NewUniform(color.Black), image.Point{}, xdraw.Src)
	xdraw.Draw(on, frame, glass, image.Point{}, xdraw.Src)
}
