package panels

import (
	"image"

	fynecanvas "fyne.io/fyne/v2/canvas"

	"armscribe/app/look"
	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

// pane is the one raster of a drawn panel: a list in points, y up from the
// bottom left corner, in the colours of the theme.
type pane struct {
	styles  *draw.Styles
	back    draw.Token
	compose func(l *draw.List, w, h float64)

	list    draw.List
	painter raster.Painter
	image   *fynecanvas.Raster
}

func (p *pane) init(back draw.Token, compose func(l *draw.List, w, h float64)) {
	p.styles, p.back, p.compose = draw.HouseStyles(), back, compose
	p.image = fynecanvas.NewRaster(p.paint)
}

func (p *pane) paint(w, h int) image.Image {
	size := p.image.Size()
	if w <= 0 || h <= 0 || size.Width < 1 || size.Height < 1 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	pw, ph := float64(size.Width), float64(size.Height)
	p.list.Reset()
	p.compose(&p.list, pw, ph)
	return p.painter.Paint(&p.list, raster.Frame{
		View:   draw.View{Centre: draw.Point{X: pw / 2, Y: ph / 2}, Zoom: 1, W: pw, H: ph},
		Styles: p.styles, Palette: look.Current(), Back: p.back,
		Scale: float64(w) / pw, W: w, H: h,
	})
}

// width is the width of a text of the role, in points.
func (p *pane) width(role draw.Role, text string) float64 {
	st := &p.styles[role]
	return st.Face.Width(text) * st.SizeOn(draw.OnScreen)
}

// wrap breaks a text between words into lines of at most w points. A word wider
// than that stands alone on its line.
func wrap(width func(string) float64, text string, w float64) []string {
	var lines []string
	line, last := "", 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != ' ' {
			continue
		}
		word := text[last:i]
		last = i + 1
		switch {
		case line == "":
			line = word
		case width(line+" "+word) <= w:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}
