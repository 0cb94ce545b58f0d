package canvas

import (
	"image"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

// pane is the one raster of a widget: a list in points, y up from the bottom
// left corner, painted at whatever scale the screen has.
type pane struct {
	styles  *draw.Styles
	palette *draw.Palette
	back    draw.Token
	compose func(l *draw.List, w, h float64) // draws the widget of w by h points

	list    draw.List
	painter raster.Painter
	image   *fynecanvas.Raster
}

func (p *pane) init(back draw.Token, compose func(l *draw.List, w, h float64)) {
	p.styles, p.palette, p.back, p.compose = draw.HouseStyles(), draw.Light(), back, compose
	p.image = fynecanvas.NewRaster(p.paint)
}

// paint fills the raster of w by h pixels.
func (p *pane) paint(w, h int) image.Image {
	size := p.image.Size()
	if w <= 0 || h <= 0 || size.Width < 1 || size.Height < 1 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	return p.paintAt(float64(size.Width), float64(size.Height), w, h)
}

func (p *pane) paintAt(pw, ph float64, w, h int) *image.RGBA {
	p.list.Reset()
	p.compose(&p.list, pw, ph)
	return p.painter.Paint(&p.list, raster.Frame{
		View: pointView(pw, ph), Styles: p.styles, Palette: p.palette, Back: p.back,
		Scale: float64(w) / pw, W: w, H: h,
	})
}

// pointView shows a list whose mm are points: the corner (0, 0) bottom left.
func pointView(w, h float64) draw.View {
	return draw.View{Centre: draw.Point{X: w / 2, Y: h / 2}, Zoom: 1, W: w, H: h}
}

// Pane is the raster of a widget outside this package, drawn like those within
// it: a list in points, y up from the bottom left corner.
type Pane struct{ pane }

// Init readies the pane. compose draws the widget of w by h points over back;
// palette is asked at every painting, so that a change of theme shows.
func (p *Pane) Init(back draw.Token, palette func() *draw.Palette, compose func(l *draw.List, w, h float64)) {
	p.init(back, func(l *draw.List, w, h float64) {
		p.palette = palette()
		compose(l, w, h)
	})
}

// Raster is what a renderer shows.
func (p *Pane) Raster() *fynecanvas.Raster { return p.image }

// Styles are the pane's own: a change shows in this pane alone.
func (p *Pane) Styles() *draw.Styles { return p.styles }

// TextWidth is the width on screen of a text of the role, in points.
func (p *Pane) TextWidth(role draw.Role, text string) float64 {
	return textWidth(p.styles, draw.OnScreen, role, text)
}

func (p *pane) renderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.image) }

// focusOn gives w the keyboard; the toolkit does not do so by itself.
func focusOn(w interface {
	fyne.Focusable
	fyne.CanvasObject
}) {
	if a := fyne.CurrentApp(); a != nil {
		if c := a.Driver().CanvasForObject(w); c != nil && c.Focused() != fyne.Focusable(w) {
			c.Focus(w)
		}
	}
}

// Sizes of a bar in points.
const (
	gripRadius  = 9
	focusRadius = 13
	trackHalf   = 3
	tickHalf    = 7 // of the strokes across a track
	hatchStep   = 6 // between the strokes of a stretch out of reach
	hatchHalf   = 4
)

// addTrack adds a track with round ends from a to b, level or upright.
func addTrack(l *draw.List, a, b draw.Point) {
	d := b.Sub(a)
	n := d.Len()
	if n == 0 {
		return
	}
	const steps = 8 // of each round end
	turn := math.Atan2(d.Y, d.X)
	for k, c := range [...]draw.Point{b, a} {
		for i := range steps + 1 {
			s, o := math.Sincos(turn + math.Pi*(float64(i)/steps-0.5+float64(k)))
			l.Add(draw.At(c.X+trackHalf*o, c.Y+trackHalf*s))
		}
	}
	l.End(draw.BandQuiet, true)
	l.Line(draw.Axis, a, b)
}

// addHatch adds slanting strokes across the line from a to b, level or upright.
func addHatch(l *draw.List, a, b draw.Point) {
	d := b.Sub(a)
	n := d.Len()
	for s := float64(hatchStep) / 2; s < n; s += hatchStep {
		m := a.Add(d.Mul(s / n))
		l.Line(draw.Construction, m.Sub(draw.Point{X: hatchHalf, Y: hatchHalf}), m.Add(draw.Point{X: hatchHalf, Y: hatchHalf}))
	}
}

// addGrip adds the round grip at c, with the ring of the keyboard if focused.
func addGrip(l *draw.List, c draw.Point, focused, lively bool) {
	r := float64(gripRadius)
	if lively {
		r++
	}
	l.On(draw.LayerHandles)
	if focused {
		l.Circle(draw.Focus, draw.On(c), focusRadius, 0)
	}
	l.Circle(draw.HandleFixed, draw.On(c), r, 0)
}

// fitText returns text cut with an ellipsis to w points.
func fitText(st *draw.Styles, m draw.Medium, role draw.Role, text string, w float64) string {
	em, face := st[role].SizeOn(m), st[role].Face
	if face.Width(text)*em <= w {
		return text
	}
	r := []rune(text)
	for n := len(r) - 1; n > 0; n-- {
		if cut := string(r[:n]) + "\u2026"; face.Width(cut)*em <= w {
			return cut
		}
	}
	return ""
}

// textWidth is the width of a text in points.
func textWidth(st *draw.Styles, m draw.Medium, role draw.Role, text string) float64 {
	return st[role].Face.Width(text) * st[role].SizeOn(m)
}

// wholeWords returns as many of the first words of text as w points hold: no
// word is cut.
func wholeWords(st *draw.Styles, m draw.Medium, role draw.Role, text string, w float64) string {
	for text != "" && textWidth(st, m, role, text) > w {
		text = text[:max(0, strings.LastIndexByte(text, ' '))]
	}
	return text
}
