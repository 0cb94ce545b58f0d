package canvas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/chart"
	"armscribe/canvas/draw"
)

// Bar is a level bar that sets a variable such as rack or roll: name, track with
// a round grip, figure. A drag or a click on the track sets the value; near rest
// it snaps there unless Alt is held; Esc gives back the value the hand found.
// With the keyboard: arrows by the axis's step, Shift ten times, Ctrl a tenth,
// Home to rest, Page Up and Page Down to the ends.
//
// Callbacks, SlideEvents, come for what a hand does, never for SetValue. All
// methods belong to the toolkit's goroutine.
type Bar struct {
	slide
	label, figureWidth float64 // columns asked for
	hover              bool
	ticks              barTicks
	text               []byte
}

var (
	_ fyne.Draggable     = (*Bar)(nil)
	_ fyne.Focusable     = (*Bar)(nil)
	_ fyne.Shortcutable  = (*Bar)(nil)
	_ desktop.Mouseable  = (*Bar)(nil)
	_ desktop.Hoverable  = (*Bar)(nil)
	_ desktop.Cursorable = (*Bar)(nil)
)

// barTicks keeps the ticks of an axis, in units on display.
type barTicks struct {
	r      chart.Range
	inches bool
	ticks  []chart.Tick
}

func (t *barTicks) of(r chart.Range, inches bool) []chart.Tick {
	if t.ticks == nil || t.r != r || t.inches != inches {
		t.r, t.inches = r, inches
		if t.ticks = chart.Ticks(r); inches {
			t.ticks = chart.InchTicks(r)
		}
	}
	return t.ticks
}

// Sizes of a Bar in points.
const (
	barHeight      = 40
	barTrackDown   = 15 // middle of the track under the top edge
	barWordsDown   = 36 // baseline of the words at the ends
	barLabelWidth  = 44
	barFigureWidth = 66
	barMargin      = 12 // from the columns to the track's ends
	barTrackLeast  = 96
	barFigureIn    = 4 // figure in its column
	barEdge        = 2 // from name and figure to the edges
)

// NewBar returns a bar at rest. An axis that is none panics.
func NewBar(a Axis) *Bar {
	b := &Bar{label: barLabelWidth, figureWidth: barFigureWidth}
	b.axis = a.check()
	b.put(0)
	b.setUp(b, draw.Window, b.draw)
	return b
}

// SetAxis changes the axis and keeps the value within it. An axis that is none
// panics.
func (b *Bar) SetAxis(a Axis) {
	b.axis = a.check()
	b.put(b.value)
	b.Refresh()
}

// SetColumns sets the widths of the name and of the figure, so that bars above
// each other are as long.
func (b *Bar) SetColumns(name, figure float32) {
	b.label, b.figureWidth = float64(name), float64(figure)
	b.Refresh()
}

// MinSize returns the smallest size with all of the bar.
func (b *Bar) MinSize() fyne.Size {
	return fyne.NewSize(float32(b.label+b.figures()+2*barMargin+barTrackLeast), barHeight)
}

// figures returns the width of the figure's column: what was asked for, or what
// the figures at the ends need.
func (b *Bar) figures() float64 {
	width := b.figureWidth
	for _, v := range [...]float64{b.axis.Min, b.axis.Max} {
		b.text = b.axis.figureUnit(b.text[:0], v)
		w, _, _ := b.styles.TextSize(draw.TextBody, draw.OnScreen, b.text)
		width = max(width, w+barFigureIn+barEdge)
	}
	return width
}

// layout places the track for a width and returns its ends.
func (b *Bar) layout(w float64) (x0, x1 float64) {
	x0 = b.label + barMargin
	x1 = max(x0+1, w-b.figures()-barMargin)
	b.track.per = (x1 - x0) / (b.axis.Max - b.axis.Min)
	b.track.zero = x0 - b.track.per*b.axis.Min
	return x0, x1
}

func (b *Bar) free() bool { return b.modifiers()&(fyne.KeyModifierAlt|fyne.KeyModifierControl) != 0 }

// onTrack tells whether the pointer meets track or grip.
func (b *Bar) onTrack(p fyne.Position) bool {
	x0, x1 := b.layout(float64(b.Size().Width))
	x, y := float64(p.X), float64(p.Y)-barTrackDown
	return y >= -barTrackDown && y <= barHit && x >= x0-barHit && x <= x1+barHit
}

// MouseDown closes the hand on the grip, or makes the grip jump.
func (b *Bar) MouseDown(e *desktop.MouseEvent) {
	if e.Button != desktop.MouseButtonPrimary || !b.onTrack(e.Position) {
		return
	}
	focusOn(b)
	b.press(float64(e.Position.X), e.Modifier&fyne.KeyModifierAlt != 0)
	b.Refresh()
}

// Dragged follows the pointer.
func (b *Bar) Dragged(e *fyne.DragEvent) {
	b.layout(float64(b.Size().Width))
	b.drag(float64(e.Position.X), b.free())
}

// MouseIn notes the pointer.
func (b *Bar) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved notes the pointer.
func (b *Bar) MouseMoved(e *desktop.MouseEvent) { b.setHover(b.onTrack(e.Position)) }

// MouseOut forgets it.
func (b *Bar) MouseOut() { b.setHover(false) }

func (b *Bar) setHover(on bool) {
	if b.hover != on {
		b.hover = on
		b.Refresh()
	}
}

// Cursor shows that the grip moves sideways.
func (b *Bar) Cursor() desktop.Cursor {
	if b.hover || b.held {
		return desktop.HResizeCursor
	}
	return desktop.DefaultCursor
}

// draw draws the bar of w by h points.
func (b *Bar) draw(l *draw.List, w, h float64) {
	x0, x1 := b.layout(w)
	y := h - barTrackDown
	lo, hi := b.axis.Limits()
	at := func(v float64) draw.Point { return draw.Point{X: b.track.at(v), Y: y} }
	l.On(draw.LayerGrid)
	for _, t := range b.ticks.of(chart.Range{Min: b.axis.Min / b.axis.PerUnit, Max: b.axis.Max / b.axis.PerUnit}, inches(b.axis.PerUnit)) {
		p := draw.On(at(t.Value * b.axis.PerUnit))
		switch {
		case t.Value == 0:
			l.LineBy(draw.Axis, p.Off(0, -gripRadius-3), p.Off(0, gripRadius+3))
		case t.Label != "":
			l.LineBy(draw.Axis, p.Off(0, -tickHalf), p.Off(0, tickHalf))
		default:
			l.LineBy(draw.Grid, p.Off(0, -tickHalf), p.Off(0, tickHalf))
		}
	}
	l.On(draw.LayerLinks)
	addTrack(l, at(lo), at(hi))
	addHatch(l, at(b.axis.Min), at(lo))
	addHatch(l, at(hi), at(b.axis.Max))
	addGrip(l, at(b.value), b.focused, b.hover || b.held)
	l.On(draw.LayerNotes)
	l.Text(draw.TextBody, draw.At(barEdge, y), draw.Left|draw.Middle,
		fitText(b.styles, draw.OnScreen, draw.TextBody, b.axis.Name, b.label-barEdge))
	figureAt := draw.At(w-b.figures()+barFigureIn, y)
	b.text = b.axis.figureUnit(b.text[:0], b.value)
	l.TextBytes(draw.TextBody, figureAt, draw.Left|draw.Middle, b.text)
	b.words(l, x0, x1, h-barWordsDown)
}

// words writes what the ends are, or what binds there.
func (b *Bar) words(l *draw.List, x0, x1, y float64) {
	left, right := b.axis.MinName, b.axis.MaxName
	if lo, hi := b.axis.Limits(); b.axis.bounded() {
		if lo > b.axis.Min && b.axis.FromWhy != "" {
			left = b.axis.FromWhy
		}
		if hi < b.axis.Max && b.axis.ToWhy != "" {
			right = b.axis.ToWhy
		}
	}
	const between = 8.0 // points
	width := func(s string) float64 { return textWidth(b.styles, draw.OnScreen, draw.TextQuiet, s) }
	if room := x1 - x0 + 2*trackHalf - between; width(left)+width(right) > room {
		left = wholeWords(b.styles, draw.OnScreen, draw.TextQuiet, left, room/2)
		right = wholeWords(b.styles, draw.OnScreen, draw.TextQuiet, right, room/2)
	}
	l.Text(draw.TextQuiet, draw.At(x0-trackHalf, y), draw.Left, left)
	l.Text(draw.TextQuiet, draw.At(x1+trackHalf, y), draw.Right, right)
}
