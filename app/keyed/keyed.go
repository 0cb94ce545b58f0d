// Package keyed has the toolkit's buttons, boxes and choices with the keys that a
// desktop program owes: Enter presses a button, and Esc and F10, which the toolkit
// gives to what has the keyboard alone, go on to the window. Everything in the window
// that can be pressed or chosen is made here; only fields have keys of their own.
package keyed

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/canvas"
)

// Pass hands a key on to the window that an object is in, if it is one that the object
// has no use for: Esc and F10. It tells whether it was.
func Pass(o fyne.CanvasObject, e *fyne.KeyEvent) bool {
	if e.Name != fyne.KeyEscape && e.Name != fyne.KeyF10 {
		return false
	}
	canvas.PassKey(o, e)
	return true
}

// self is the widget that the toolkit knows, where a type holds one of these.
type self struct{ outer fyne.Widget }

// Button is a button that Enter presses as Space does.
type Button struct {
	widget.Button
	self
	ring Ring
}

// CreateRenderer is for the toolkit.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	return b.ring.Around(b.Button.CreateRenderer())
}

// FocusGained shows the ring.
func (b *Button) FocusGained() {
	b.ring.Set(!b.Disabled())
	b.Button.FocusGained()
}

// FocusLost hides it.
func (b *Button) FocusLost() {
	b.ring.Set(false)
	b.Button.FocusLost()
}

// ExtendBaseWidget is for types that hold this one.
func (b *Button) ExtendBaseWidget(w fyne.Widget) {
	b.outer = w
	b.Button.ExtendBaseWidget(w)
}

// NewButton makes a button.
func NewButton(text string, tapped func()) *Button { return NewButtonWithIcon(text, nil, tapped) }

// NewButtonWithIcon makes a button with a picture.
func NewButtonWithIcon(text string, icon fyne.Resource, tapped func()) *Button {
	b := &Button{}
	b.Text, b.Icon, b.OnTapped = text, icon, tapped
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey adds Enter, Esc and F10.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	switch {
	case Pass(b.outer, e):
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter:
		b.Tapped(nil)
	default:
		b.Button.TypedKey(e)
	}
}

// Check is a box to tick.
type Check struct {
	widget.Check
	self
	ring Ring
}

// CreateRenderer is for the toolkit.
func (c *Check) CreateRenderer() fyne.WidgetRenderer {
	return c.ring.Around(c.Check.CreateRenderer())
}

// FocusGained shows the ring.
func (c *Check) FocusGained() {
	c.ring.Set(!c.Disabled())
	c.Check.FocusGained()
}

// FocusLost hides it.
func (c *Check) FocusLost() {
	c.ring.Set(false)
	c.Check.FocusLost()
}

// ExtendBaseWidget is for types that hold this one.
func (c *Check) ExtendBaseWidget(w fyne.Widget) {
	c.outer = w
	c.Check.ExtendBaseWidget(w)
}

// NewCheck makes a box.
func NewCheck(text string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

// TypedKey adds Esc and F10.
func (c *Check) TypedKey(e *fyne.KeyEvent) {
	if !Pass(c.outer, e) {
		c.Check.TypedKey(e)
	}
}

// Select is a choice among several.
type Select struct {
	widget.Select
	self
	ring Ring
}

// CreateRenderer is for the toolkit.
func (s *Select) CreateRenderer() fyne.WidgetRenderer {
	s.ring.Edge = true // as a field has
	return s.ring.Around(s.Select.CreateRenderer())
}

// FocusGained shows the ring.
func (s *Select) FocusGained() {
	s.ring.Set(!s.Disabled())
	s.Select.FocusGained()
}

// FocusLost hides it.
func (s *Select) FocusLost() {
	s.ring.Set(false)
	s.Select.FocusLost()
}

// ExtendBaseWidget is for types that hold this one.
func (s *Select) ExtendBaseWidget(w fyne.Widget) {
	s.outer = w
	s.Select.ExtendBaseWidget(w)
}

// NewSelect makes a choice.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged, s.PlaceHolder = options, changed, "(Select one)"
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey adds Enter, which opens the list, Esc and F10.
func (s *Select) TypedKey(e *fyne.KeyEvent) {
	switch {
	case Pass(s.outer, e):
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter:
		s.Select.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		s.Select.TypedKey(e)
	}
}

// Slider is a value between two ends.
type Slider struct {
	widget.Slider
	self
	ring Ring
}

// CreateRenderer is for the toolkit.
func (s *Slider) CreateRenderer() fyne.WidgetRenderer {
	return s.ring.Around(s.Slider.CreateRenderer())
}

// FocusGained shows the ring.
func (s *Slider) FocusGained() {
	s.ring.Set(!s.Disabled())
	s.Slider.FocusGained()
}

// FocusLost hides it.
func (s *Slider) FocusLost() {
	s.ring.Set(false)
	s.Slider.FocusLost()
}

// ExtendBaseWidget is for types that hold this one.
func (s *Slider) ExtendBaseWidget(w fyne.Widget) {
	s.outer = w
	s.Slider.ExtendBaseWidget(w)
}

// NewSlider makes a slider.
func NewSlider(least, most float64) *Slider {
	s := &Slider{}
	s.Min, s.Max, s.Step, s.Orientation = least, most, 1, widget.Horizontal
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey adds Esc and F10.
func (s *Slider) TypedKey(e *fyne.KeyEvent) {
	if !Pass(s.outer, e) {
		s.Slider.TypedKey(e)
	}
}
