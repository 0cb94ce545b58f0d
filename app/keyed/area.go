package keyed

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Area is for things that can be pressed, by a click or by Enter and Space, and that
// draw themselves: a type holds one, and shows the ring.
type Area struct {
	widget.BaseWidget
	self
	Ring
	// OnTapped is what pressing does.
	OnTapped func()
	// OnLook is told that the pointer or the keyboard came or went; it may be nil.
	OnLook func()

	Hovered, Focused bool
}

var (
	_ fyne.Tappable      = (*Area)(nil)
	_ fyne.Focusable     = (*Area)(nil)
	_ desktop.Hoverable  = (*Area)(nil)
	_ desktop.Cursorable = (*Area)(nil)
)

// ExtendBaseWidget is for types that hold this one.
func (a *Area) ExtendBaseWidget(w fyne.Widget) {
	a.outer = w
	a.BaseWidget.ExtendBaseWidget(w)
}

// Tapped presses it.
func (a *Area) Tapped(*fyne.PointEvent) { a.OnTapped() }

// TypedKey presses it by Enter and Space; Esc and F10 go on to the window.
func (a *Area) TypedKey(e *fyne.KeyEvent) {
	switch {
	case Pass(a.outer, e):
	case e.Name == fyne.KeySpace, e.Name == fyne.KeyReturn, e.Name == fyne.KeyEnter:
		a.OnTapped()
	}
}

// TypedRune takes no letters.
func (a *Area) TypedRune(rune) {}

// FocusGained shows the ring.
func (a *Area) FocusGained() { a.focus(true) }

// FocusLost hides it.
func (a *Area) FocusLost() { a.focus(false) }

func (a *Area) focus(on bool) {
	a.Focused = on
	a.Ring.Set(on)
	a.look()
}

// MouseIn lights it.
func (a *Area) MouseIn(*desktop.MouseEvent) { a.Hovered = true; a.look() }

// MouseMoved changes nothing.
func (a *Area) MouseMoved(*desktop.MouseEvent) {}

// MouseOut puts it out.
func (a *Area) MouseOut() { a.Hovered = false; a.look() }

// Cursor shows that it can be pressed.
func (a *Area) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (a *Area) look() {
	a.outer.Refresh()
	if a.OnLook != nil {
		a.OnLook()
	}
}
