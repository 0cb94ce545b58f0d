package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// splitter is the edge between strips and answer: dragged, or with the keyboard moved
// by Left and Right, it makes the answer wider or narrower; Home gives it its own
// width again. The width is remembered.
type splitter struct {
	widget.BaseWidget
	w    *Window
	line *fynecanvas.Rectangle
	on   bool // hovered or focused
}

var (
	_ fyne.Draggable     = (*splitter)(nil)
	_ fyne.Focusable     = (*splitter)(nil)
	_ desktop.Hoverable  = (*splitter)(nil)
	_ desktop.Cursorable = (*splitter)(nil)
)

func newSplitter(w *Window) *splitter {
	s := &splitter{w: w, line: fynecanvas.NewRectangle(color.Transparent)}
	s.ExtendBaseWidget(s)
	return s
}

// Dragged moves the edge.
func (s *splitter) Dragged(e *fyne.DragEvent) { s.by(-e.Dragged.DX) }

// DragEnd ends it.
func (s *splitter) DragEnd() {}

// splitStep is how far a key moves the edge, points.
const splitStep = 4 * look.Step

// TypedKey moves the edge.
func (s *splitter) TypedKey(e *fyne.KeyEvent) {
	if keyed.Pass(s, e) {
		return
	}
	switch e.Name {
	case fyne.KeyLeft:
		s.by(splitStep)
	case fyne.KeyRight:
		s.by(-splitStep)
	case fyne.KeyHome:
		s.w.prefs.setAnswerMore(0)
		s.w.body.Refresh()
	}
}

// mostMore is how much wider or narrower than its own the answer can be, points.
const mostMore = 600

// by makes the answer wider, as far as the view keeps its least.
func (s *splitter) by(more float32) {
	c, width := &columns{s.w}, s.w.body.Size().Width
	was, before := s.w.prefs.answerMore(), c.of(width)
	s.w.prefs.setAnswerMore(max(-mostMore, min(was+more, mostMore)))
	if now := c.of(width); now.view == before.view {
		s.w.prefs.setAnswerMore(was) // it stands at its end
		return
	}
	s.w.body.Refresh()
}

// TypedRune takes no letters.
func (s *splitter) TypedRune(rune) {}

// FocusGained shows the edge.
func (s *splitter) FocusGained() { s.light(true) }

// FocusLost hides it.
func (s *splitter) FocusLost() { s.light(false) }

// MouseIn shows the edge.
func (s *splitter) MouseIn(*desktop.MouseEvent) { s.light(true) }

// MouseMoved changes nothing.
func (s *splitter) MouseMoved(*desktop.MouseEvent) {}

// MouseOut hides it.
func (s *splitter) MouseOut() { s.light(false) }

func (s *splitter) light(on bool) {
	s.on = on
	s.Refresh()
}

// Cursor is that of an edge.
func (s *splitter) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// Refresh takes the theme's colour.
func (s *splitter) Refresh() {
	s.line.FillColor = color.Transparent
	if s.on {
		s.line.FillColor = theme.Color(theme.ColorNamePrimary)
	}
	s.line.Refresh()
}

// CreateRenderer is for the toolkit.
func (s *splitter) CreateRenderer() fyne.WidgetRenderer { return &splitterRenderer{s} }

type splitterRenderer struct{ s *splitter }

// Layout stands the line in the middle.
func (r *splitterRenderer) Layout(size fyne.Size) {
	place(r.s.line, (size.Width-3)/2, 0, 3, size.Height)
}

func (r *splitterRenderer) MinSize() fyne.Size           { return fyne.NewSize(2*look.Step, 40) }
func (r *splitterRenderer) Refresh()                     { r.s.Refresh() }
func (r *splitterRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.s.line} }
func (r *splitterRenderer) Destroy()                     {}
