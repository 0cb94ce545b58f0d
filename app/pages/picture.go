package pages

import (
	"image"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

// Picture shows a drawing in points: the origin is the lower left corner.
type Picture struct {
	widget.BaseWidget
	// Compose draws into a list that is empty, for a picture of w by h points.
	// The list keeps sizes by Styles.
	Compose func(l *draw.List, w, h float64)
	Styles  *draw.Styles

	list    draw.List
	painter raster.Painter
	image   *fynecanvas.Raster
}

// NewPicture makes a picture.
func NewPicture(compose func(l *draw.List, w, h float64)) *Picture {
	p := &Picture{Compose: compose, Styles: draw.HouseStyles()}
	p.image = fynecanvas.NewRaster(p.Paint)
	p.ExtendBaseWidget(p)
	return p
}

// CreateRenderer is for the toolkit.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.image) }

// MinSize leaves room for axes.
func (p *Picture) MinSize() fyne.Size { return fyne.NewSize(200, 200) }

// Redraw composes and paints anew.
func (p *Picture) Redraw() { p.image.Refresh() }

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
	p.Compose(&p.list, pw, ph)
	return p.painter.Paint(&p.list, raster.Frame{
		View:   draw.View{Centre: draw.Point{X: pw / 2, Y: ph / 2}, Zoom: 1, W: pw, H: ph},
		Styles: p.Styles, Palette: look.Current(), Back: draw.Paper,
		Scale: float64(w) / pw, W: w, H: h,
	})
}
