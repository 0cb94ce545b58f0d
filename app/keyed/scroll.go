package keyed

import (
	"image/color"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Scroll shows a content as far as it has room. With the keyboard the arrows, Page
// Up, Page Down, Home and End scroll the rest.
type Scroll struct {
	widget.BaseWidget
	inside *container.Scroll
	ring   *fynecanvas.Rectangle // while it has the keyboard
}

var _ fyne.Focusable = (*Scroll)(nil)

// NewScroll scrolls a content both ways.
func NewScroll(content fyne.CanvasObject) *Scroll {
	s := &Scroll{inside: container.NewScroll(content), ring: fynecanvas.NewRectangle(color.Transparent)}
	s.ring.StrokeWidth = 1
	s.ring.Hide()
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer is for the toolkit.
func (s *Scroll) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(s.inside, s.ring))
}

// FocusGained shows that keys scroll here.
func (s *Scroll) FocusGained() {
	s.ring.StrokeColor = theme.Color(theme.ColorNamePrimary)
	s.ring.Show()
}

// FocusLost takes that away.
func (s *Scroll) FocusLost() { s.ring.Hide() }

// TypedRune takes no letters.
func (s *Scroll) TypedRune(rune) {}

// TypedKey scrolls.
func (s *Scroll) TypedKey(e *fyne.KeyEvent) {
	if Pass(s, e) {
		return
	}
	const step = 40
	size, all, at := s.inside.Size(), s.inside.Content.MinSize(), s.inside.Offset
	switch e.Name {
	case fyne.KeyDown:
		at.Y += step
	case fyne.KeyUp:
		at.Y -= step
	case fyne.KeyRight:
		at.X += step
	case fyne.KeyLeft:
		at.X -= step
	case fyne.KeyPageDown:
		at.Y += size.Height - step
	case fyne.KeyPageUp:
		at.Y -= size.Height - step
	case fyne.KeyHome:
		at = fyne.Position{}
	case fyne.KeyEnd:
		at.Y = all.Height
	default:
		return
	}
	s.inside.ScrollToOffset(fyne.NewPos(max(0, min(at.X, all.Width-size.Width)), max(0, min(at.Y, all.Height-size.Height))))
}
