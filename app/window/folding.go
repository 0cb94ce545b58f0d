package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
)

// folding lays out a side column, or the button that opens it. In a narrow
// window the open column has a button to fold it again; in a wide one the View
// menu does that. Its objects are column, button to open and button to fold.
type folding struct {
	w        *Window
	narrow   float32
	isFolded func(width float32) bool
}

func newFolding(w *Window, column fyne.CanvasObject, narrow float32, isFolded func(float32) bool, toggle func()) fyne.CanvasObject {
	open := keyed.NewButtonWithIcon("", theme.MenuIcon(), toggle)
	shut := keyed.NewButtonWithIcon("Fold away", theme.MenuIcon(), toggle)
	for _, b := range []*keyed.Button{open, shut} {
		b.Importance = widget.LowImportance
	}
	return container.New(&folding{w, narrow, isFolded}, column, open, shut)
}

// MinSize never holds the window open.
func (*folding) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(foldedWidth, 100) }

// Layout places what is shown.
func (f *folding) Layout(o []fyne.CanvasObject, size fyne.Size) {
	width := f.w.win.Canvas().Size().Width
	column, open, shut := o[0], o[1], o[2]
	show(column, !f.isFolded(width))
	show(open, f.isFolded(width))
	show(shut, !f.isFolded(width) && width < f.narrow)
	place(open, 0, 0, size.Width, foldedWidth)
	top := float32(0)
	if shut.Visible() {
		top = foldedWidth
		place(shut, 0, 0, size.Width, top)
	}
	place(column, 0, top, size.Width, size.Height-top)
}

func show(o fyne.CanvasObject, visible bool) {
	if visible {
		o.Show()
	} else {
		o.Hide()
	}
}
