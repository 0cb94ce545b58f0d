package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Readings is the table of readings, one line to each: name, value, measuring
// band and change against the compared variant; in roll the values of both
// wheels. The line under the pointer or, with the keyboard, under the cursor is
// lit: its overlay in the view and its sentence go with it. Up and Down, Home
// and End, Page Up and Page Down move the cursor; wheel and cursor scroll what a
// short panel cannot hold.
//
// All methods belong to the toolkit's goroutine.
type Readings struct {
	widget.BaseWidget

	// OnLit is told what the lit line lights in the view.
	OnLit func(lights scene.Overlays)
	// OnSentence is told what the lit line means and how far to trust it, empty
	// when none is lit.
	OnSentence func(text string)

	pane
	shown   snapshot
	changes changes
	targets []Target

	table
	scroll  float64
	focused bool
	cursor  item // under the keyboard
	hover   item // under the pointer; nil for none
	lit     item // likewise
	said    string
}

var (
	_ fyne.Focusable    = (*Readings)(nil)
	_ fyne.Scrollable   = (*Readings)(nil)
	_ desktop.Hoverable = (*Readings)(nil)
	_ desktop.Mouseable = (*Readings)(nil)
)

// NewReadings returns a table that shows nothing yet.
func NewReadings() *Readings {
	r := &Readings{cursor: items[0]}
	r.pane.init(draw.Panel, r.draw)
	r.setStyles()
	r.ExtendBaseWidget(r)
	return r
}

// SetInput shows an input. Where all is as before it does nothing.
func (r *Readings) SetInput(in Input) {
	s := take(&in)
	r.changes.fill(&s, &in)
	if s == r.shown && sameTargets(r.targets, in.Targets) {
		return
	}
	r.shown = s
	r.targets = append(r.targets[:0], in.Targets...)
	r.table.stale = true
	r.light()
	r.Refresh()
}

func sameTargets(a, b []Target) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// MinSize returns the smallest size: a few lines, the others by scrolling; of some
// readings alone all of them.
func (r *Readings) MinSize() fyne.Size {
	if r.table.brief() {
		r.arrange()
		return fyne.NewSize(leastWidth, float32(r.table.top+r.table.total))
	}
	return fyne.NewSize(leastWidth, headHeight+4*lineLeast)
}

// Only shows some readings alone, without heading and legend.
func (r *Readings) Only(of ...kinematics.Quantity) {
	r.table.only, r.table.stale, r.scroll = append([]kinematics.Quantity{}, of...), true, 0
	r.Refresh()
}

// CreateRenderer is for the toolkit.
func (r *Readings) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.Raster()) }

// Refresh paints anew, in the colours of the theme.
func (r *Readings) Refresh() { r.Raster().Refresh() }

// arrange lays the table out for the present size.
func (r *Readings) arrange() {
	size := r.Size()
	r.table.arrange(&r.pane, &r.shown, r.targets, float64(size.Width), float64(size.Height))
	r.scroll = max(0, min(r.scroll, r.table.overflow()))
}

// light tells the owner which line is lit, when that or its sentence changed.
func (r *Readings) light() {
	var now item
	switch {
	case r.hover != nil && r.has(r.hover):
		now = r.hover
	case r.focused && r.has(r.cursor):
		now = r.cursor
	}
	was := r.lit
	r.lit = now
	if was != now && r.OnLit != nil {
		var lights scene.Overlays
		if now != nil {
			lights = now.Lights
		}
		r.OnLit(lights)
	}
	text := ""
	if r.lit != nil {
		text = r.shown.sentence(r.lit)
		for i := range r.targets {
			if t := &r.targets[i]; r.lit.Is(t.Of) {
				text = joined([]string{t.Sentence, text})
			}
		}
	}
	if text != r.said {
		r.said = text
		if r.OnSentence != nil {
			r.OnSentence(text)
		}
	}
}

// has tells whether the table has the line now.
func (r *Readings) has(it item) bool { return r.shown.solved && r.shown.shows(it) }

// MouseIn lights the line under the pointer.
func (r *Readings) MouseIn(e *desktop.MouseEvent) { r.point(e.Position) }

// MouseMoved lights the line under the pointer.
func (r *Readings) MouseMoved(e *desktop.MouseEvent) { r.point(e.Position) }

// MouseOut lets go of it.
func (r *Readings) MouseOut() {
	if r.hover != nil {
		r.hover = nil
		r.light()
		r.Refresh()
	}
}

func (r *Readings) point(p fyne.Position) {
	r.arrange()
	var now item
	if i, ok := r.table.at(float64(p.Y), r.scroll); ok {
		now = r.table.lines[i].item
	}
	if now == r.hover {
		return
	}
	r.hover = now
	r.light()
	r.Refresh()
}

// MouseDown takes the keyboard to the line clicked.
func (r *Readings) MouseDown(e *desktop.MouseEvent) {
	r.arrange()
	if i, ok := r.table.at(float64(e.Position.Y), r.scroll); ok {
		r.cursor = r.table.lines[i].item
	}
	if c := canvasOf(r); c != nil && c.Focused() != fyne.Focusable(r) {
		c.Focus(r)
		return
	}
	r.light()
	r.Refresh()
}

// MouseUp does nothing.
func (r *Readings) MouseUp(*desktop.MouseEvent) {}

// canvasOf returns the canvas that shows o, nil for none.
func canvasOf(o fyne.CanvasObject) fyne.Canvas {
	a := fyne.CurrentApp()
	if a == nil {
		return nil
	}
	return a.Driver().CanvasForObject(o)
}

// FocusGained lights the line under the cursor.
func (r *Readings) FocusGained() { r.setFocus(true) }

// FocusLost lets go of it.
func (r *Readings) FocusLost() { r.setFocus(false) }

func (r *Readings) setFocus(on bool) {
	if r.focused = on; on {
		r.arrange()
		r.reveal()
	}
	r.light()
	r.Refresh()
}

// TypedRune does nothing.
func (r *Readings) TypedRune(rune) {}

// TypedKey moves the cursor.
func (r *Readings) TypedKey(e *fyne.KeyEvent) {
	if keyed.Pass(r, e) {
		return
	}
	r.arrange()
	n := len(r.table.lines)
	if n == 0 {
		return
	}
	i := r.table.find(r.cursor)
	switch e.Name {
	case fyne.KeyDown:
		i++
	case fyne.KeyUp:
		i--
	case fyne.KeyPageDown:
		i += r.table.page()
	case fyne.KeyPageUp:
		i -= r.table.page()
	case fyne.KeyHome:
		i = 0
	case fyne.KeyEnd:
		i = n - 1
	default:
		return
	}
	r.cursor = r.table.lines[max(0, min(i, n-1))].item
	r.hover = nil // the hand is on the keyboard now
	r.reveal()
	r.light()
	r.Refresh()
}

// reveal scrolls the line under the cursor into view.
func (r *Readings) reveal() {
	if i := r.table.find(r.cursor); i >= 0 {
		r.scroll = r.table.reveal(i, r.scroll)
	}
}

// Scrolled scrolls by the wheel.
func (r *Readings) Scrolled(e *fyne.ScrollEvent) {
	r.arrange()
	was := r.scroll
	r.scroll = max(0, min(r.scroll-float64(e.Scrolled.DY), r.table.overflow()))
	if r.scroll != was {
		r.point(e.Position)
		r.Refresh()
	}
}
