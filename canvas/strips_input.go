package canvas

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// stripPointer is where the mouse is over the widget.
type stripPointer struct {
	in   bool
	x, y float64
}

// takes tells whether a press at the place closes the hand: on the grip or its
// tag, on the track, or on the level line of a strip.
func (s *Strips) takes(x, y float64) bool {
	onLine := s.onGrip(y) && s.onPlot(s.track.at(s.value))
	if x >= s.bar {
		return onLine && s.stripAt(x) >= 0
	}
	if onLine && x >= 0 {
		return true
	}
	return math.Abs(x-s.gripX) <= barHit && y >= s.top-barHit && y <= s.bottom+barHit
}

// MouseDown closes the hand on grip or level line, makes the grip jump, or asks
// for the menu.
func (s *Strips) MouseDown(e *desktop.MouseEvent) {
	s.place()
	x, y := float64(e.Position.X), float64(e.Position.Y)
	if e.Button == desktop.MouseButtonSecondary && s.OnMenu != nil {
		s.OnMenu(e.AbsolutePosition, s.stripAt(x))
		return
	}
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	focusOn(s)
	if s.takes(x, y) {
		s.press(y, e.Modifier&fyne.KeyModifierAlt != 0)
		s.Refresh()
	}
}

// Dragged follows the pointer.
func (s *Strips) Dragged(e *fyne.DragEvent) {
	s.place()
	s.drag(float64(e.Position.Y), s.modifiers()&fyne.KeyModifierAlt != 0)
}

// MouseIn notes the pointer.
func (s *Strips) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved notes the pointer: over a strip the value there is shown.
func (s *Strips) MouseMoved(e *desktop.MouseEvent) {
	s.point(stripPointer{in: true, x: float64(e.Position.X), y: float64(e.Position.Y)})
}

// MouseOut forgets it.
func (s *Strips) MouseOut() { s.point(stripPointer{}) }

func (s *Strips) point(p stripPointer) {
	if s.pointer == p {
		return
	}
	was := s.hovers()
	s.pointer = p
	s.place()
	if now := s.hovers(); now != was || now == hoverStrip {
		s.Refresh()
	}
}

// stripHover is what the pointer is over.
type stripHover uint8

const (
	hoverNothing stripHover = iota
	hoverGrip               // anything the hand can take
	hoverStrip              // a place in a plot
)

func (s *Strips) hovers() stripHover {
	p := s.pointer
	switch {
	case !p.in:
		return hoverNothing
	case s.takes(p.x, p.y):
		return hoverGrip
	case s.stripAt(p.x) >= 0 && s.onPlot(p.y):
		return hoverStrip
	}
	return hoverNothing
}

// Cursor shows that grip and level line move up and down.
func (s *Strips) Cursor() desktop.Cursor {
	if s.held || s.hovers() == hoverGrip {
		return desktop.VResizeCursor
	}
	return desktop.DefaultCursor
}

// HoverText returns what is read at the pointer in words, such as
// "at +35.0: −0.31° ± 0.05"; empty off the curves.
func (s *Strips) HoverText() string {
	s.place()
	if s.held || s.hovers() != hoverStrip {
		return ""
	}
	return string(s.hoverNow(nil))
}
