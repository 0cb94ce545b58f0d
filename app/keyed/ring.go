package keyed

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// Sizes of what can be pressed, points.
const (
	// TargetLeast is the smallest side of what a pointer has to hit (WCAG 2.2,
	// success criterion 2.5.8, from memory).
	TargetLeast = 24
	ringWidth   = 2
)

// Ring is how everything shows that it has the keyboard: a line about it. Its
// owner tells it so.
type Ring struct {
	Edge bool // a thin line is there without the keyboard too
	line *canvas.Rectangle
	on   bool
}

// Around returns a renderer with the ring about it, no smaller than a target.
func (r *Ring) Around(inner fyne.WidgetRenderer) fyne.WidgetRenderer {
	r.line = canvas.NewRectangle(nil)
	r.show()
	return &ringed{inner, r}
}

// Set shows the ring or hides it.
func (r *Ring) Set(on bool) {
	if r.on = on; r.line != nil {
		r.show()
		r.line.Refresh()
	}
}

func (r *Ring) show() {
	r.line.Hidden = !r.on && !r.Edge
	r.line.StrokeColor, r.line.StrokeWidth = theme.Color(theme.ColorNameInputBorder), 1
	if r.on {
		r.line.StrokeColor, r.line.StrokeWidth = theme.Color(theme.ColorNamePrimary), ringWidth
	}
	r.line.CornerRadius = theme.Size(theme.SizeNameInputRadius)
}

// ringed is a renderer with a ring.
type ringed struct {
	fyne.WidgetRenderer
	ring *Ring
}

// Layout puts the ring along the edge.
func (r *ringed) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.ring.line.Resize(size)
}

// MinSize is large enough to be hit.
func (r *ringed) MinSize() fyne.Size {
	return r.WidgetRenderer.MinSize().Max(fyne.NewSquareSize(TargetLeast))
}

// Objects has the ring on top.
func (r *ringed) Objects() []fyne.CanvasObject {
	inner := r.WidgetRenderer.Objects()
	return append(inner[:len(inner):len(inner)], r.ring.line)
}

// Refresh takes the colours anew.
func (r *ringed) Refresh() {
	r.ring.show()
	r.WidgetRenderer.Refresh()
}
