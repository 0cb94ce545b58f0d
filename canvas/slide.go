package canvas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"armscribe/canvas/draw"
)

// SlideEvents is what Bar and Strips tell, and what they ask. Any may be nil.
type SlideEvents struct {
	// OnValue is told each new value, OnEnded the last one when the hand lets go;
	// in mm or radians.
	OnValue, OnEnded func(v float64)
	// Modifiers tells which modifier keys are down; nil asks the desktop.
	Modifiers func() fyne.KeyModifier
}

// slide is what Bar and Strips have in common: a picture with a value that a
// hand sets along a track.
type slide struct {
	widget.BaseWidget
	SlideEvents

	pane
	barHand
	focused bool
}

// setUp makes a slide ready to be the widget self.
func (s *slide) setUp(self fyne.Widget, back draw.Token, compose func(l *draw.List, w, h float64)) {
	s.pane.init(back, compose)
	s.moved = func(v float64) { s.tell(s.OnValue, v) }
	s.ended = func(v float64) { s.tell(s.OnEnded, v) }
	s.ExtendBaseWidget(self)
}

func (s *slide) tell(to func(float64), v float64) {
	s.Refresh()
	if to != nil {
		to(v)
	}
}

// Value returns the value in mm or radians.
func (s *slide) Value() float64 { return s.value }

// Held tells whether a hand has hold of the grip.
func (s *slide) Held() bool { return s.held }

// SetValue moves the grip, within the limits of the axis. A value that is no
// number panics.
func (s *slide) SetValue(v float64) {
	s.put(v)
	s.Refresh()
}

// SetPalette changes the colours.
func (s *slide) SetPalette(p *draw.Palette) {
	s.palette = p
	s.Refresh()
}

// CreateRenderer is for the toolkit.
func (s *slide) CreateRenderer() fyne.WidgetRenderer { return s.pane.renderer() }

func (s *slide) modifiers() fyne.KeyModifier {
	if s.Modifiers != nil {
		return s.Modifiers()
	}
	return heldModifiers()
}

// MouseUp opens the hand.
func (s *slide) MouseUp(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		s.release()
	}
}

// DragEnd opens the hand.
func (s *slide) DragEnd() { s.release() }

// TypedKey acts on the keyboard.
func (s *slide) TypedKey(e *fyne.KeyEvent) {
	if MenuKey(s, e) {
		return
	}
	s.key(e.Name, s.modifiers())
	if e.Name == fyne.KeyEscape {
		PassKey(s, e)
	}
}

// TypedShortcut acts on arrows with Ctrl.
func (s *slide) TypedShortcut(c fyne.Shortcut) { s.shortcut(c) }

// TypedRune does nothing.
func (s *slide) TypedRune(rune) {}

// FocusGained shows the ring of the keyboard.
func (s *slide) FocusGained() { s.setFocus(true) }

// FocusLost hides it.
func (s *slide) FocusLost() { s.setFocus(false) }

func (s *slide) setFocus(on bool) {
	if s.focused != on {
		s.focused = on
		s.Refresh()
	}
}
