package pages

import (
	"image"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
	"armscribe/canvas/draw"
	"armscribe/canvas/plates"
	"armscribe/canvas/raster"
)

// Picture shows a plate.
type Picture struct {
	widget.BaseWidget
	Plate plates.Plate // shown; see Put

	styles  *draw.Styles
	list    draw.List
	painter raster.Painter
	image   *fynecanvas.Raster
}

// NewPicture makes a picture with nothing on it.
func NewPicture() *Picture {
	p := &Picture{Plate: plates.Words(""), styles: draw.HouseStyles()}
	p.image = fynecanvas.NewRaster(p.Paint)
	p.ExtendBaseWidget(p)
	return p
}

// CreateRenderer is for the toolkit.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.image) }

// MinSize leaves room for axes.
func (p *Picture) MinSize() fyne.Size { return fyne.NewSize(200, 200) }

// Put shows a plate from now on.
func (p *Picture) Put(plate plates.Plate) {
	p.Plate = plate
	p.image.Refresh()
}

// leastPicture is the least side worth a drawing, points.
const leastPicture = 120

// Paint paints the picture as large as it stands on the screen, in w by h pixels;
// one pixel where there is no room for it.
func (p *Picture) Paint(w, h int) image.Image {
	size := p.image.Size()
	if w <= 0 || h <= 0 || size.Width < leastPicture || size.Height < leastPicture {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	pw, ph := float64(size.Width), float64(size.Height)
	p.list.Reset()
	p.Plate.Draw(&p.list, pw, ph)
	return p.painter.Paint(&p.list, raster.Frame{
		View:   draw.View{Centre: draw.Point{X: pw / 2, Y: ph / 2}, Zoom: 1, W: pw, H: ph},
		Styles: p.styles, Palette: look.Current(), Back: draw.Paper,
		Scale: float64(w) / pw, W: w, H: h,
	})
}
