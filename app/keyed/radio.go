package keyed

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Radio is a choice of which all options are seen, side by side; one is always chosen.
type Radio struct {
	widget.BaseWidget
	Options   []string
	Selected  string
	OnChanged func(string) // may be nil
	items     []*radioItem
	row       *fyne.Container
}

// NewRadio makes a choice whose first option is chosen.
func NewRadio(options []string, changed func(string)) *Radio {
	r := &Radio{Options: options, Selected: options[0], OnChanged: changed, row: container.NewHBox()}
	for i := range options {
		item := &radioItem{of: r, index: i}
		item.ExtendBaseWidget(item)
		r.items = append(r.items, item)
		r.row.Add(item)
	}
	r.ExtendBaseWidget(r)
	return r
}

// SetSelected chooses an option; another text is a bug.
func (r *Radio) SetSelected(option string) {
	for i, o := range r.Options {
		if o == option {
			r.choose(i)
			return
		}
	}
	panic("keyed: no option " + option)
}

func (r *Radio) choose(i int) {
	if r.Selected == r.Options[i] {
		return
	}
	r.Selected = r.Options[i]
	r.Refresh()
	if r.OnChanged != nil {
		r.OnChanged(r.Selected)
	}
}

// Refresh paints all options.
func (r *Radio) Refresh() {
	for _, i := range r.items {
		i.Refresh()
	}
	r.BaseWidget.Refresh()
}

// CreateRenderer is for the toolkit.
func (r *Radio) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.row) }

// radioItem is one option.
type radioItem struct {
	widget.BaseWidget
	of      *Radio
	index   int
	focused bool
}

// Tapped chooses it.
func (i *radioItem) Tapped(*fyne.PointEvent) { i.of.choose(i.index) }

// FocusGained shows that it has the keyboard.
func (i *radioItem) FocusGained() { i.focused = true; i.Refresh() }

// FocusLost hides that.
func (i *radioItem) FocusLost() { i.focused = false; i.Refresh() }

// TypedRune chooses it by Space.
func (i *radioItem) TypedRune(r rune) {
	if r == ' ' {
		i.of.choose(i.index)
	}
}

// TypedKey goes to the neighbours by the arrows.
func (i *radioItem) TypedKey(e *fyne.KeyEvent) {
	to := i.index
	switch {
	case Pass(i, e):
		return
	case e.Name == fyne.KeyReturn, e.Name == fyne.KeyEnter:
	case e.Name == fyne.KeyRight, e.Name == fyne.KeyDown:
		to = (i.index + 1) % len(i.of.items)
	case e.Name == fyne.KeyLeft, e.Name == fyne.KeyUp:
		to = (i.index + len(i.of.items) - 1) % len(i.of.items)
	default:
		return
	}
	i.of.choose(to)
	if c := fyne.CurrentApp().Driver().CanvasForObject(i); c != nil {
		c.Focus(i.of.items[to])
	}
}

// CreateRenderer is for the toolkit.
func (i *radioItem) CreateRenderer() fyne.WidgetRenderer {
	r := &radioRenderer{item: i, ring: canvas.NewCircle(nil), dot: canvas.NewCircle(nil), focus: canvas.NewRectangle(nil),
		text: canvas.NewText(i.of.Options[i.index], nil)}
	r.Refresh()
	return r
}

type radioRenderer struct {
	item      *radioItem
	focus     *canvas.Rectangle
	ring, dot *canvas.Circle
	text      *canvas.Text
}

// Sizes, in points: of the ring with its room, and of both circles.
const (
	ringRoom     = 24
	ringDiameter = 16
	dotDiameter  = 8
)

// Destroy has nothing to do.
func (r *radioRenderer) Destroy() {}

// Objects are painted in this order.
func (r *radioRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.focus, r.ring, r.dot, r.text}
}

// MinSize holds ring and text.
func (r *radioRenderer) MinSize() fyne.Size {
	text := r.text.MinSize()
	return fyne.NewSize(ringRoom+text.Width+2*theme.Padding(), max(ringRoom, text.Height)+theme.Padding())
}

// Layout places them.
func (r *radioRenderer) Layout(size fyne.Size) {
	r.focus.Resize(size)
	at := func(c *canvas.Circle, d float32) {
		c.Resize(fyne.NewSize(d, d))
		c.Move(fyne.NewPos((ringRoom-d)/2, (size.Height-d)/2))
	}
	at(r.ring, ringDiameter)
	at(r.dot, dotDiameter)
	r.text.Move(fyne.NewPos(ringRoom+theme.Padding(), (size.Height-r.text.MinSize().Height)/2))
}

// Refresh takes colours and text anew.
func (r *radioRenderer) Refresh() {
	chosen := r.item.of.Selected == r.item.of.Options[r.item.index]
	r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(theme.ColorNameForeground), 1.5
	r.dot.FillColor = theme.Color(theme.ColorNamePrimary)
	r.dot.Hidden = !chosen
	r.text.Text, r.text.TextSize, r.text.Color = r.item.of.Options[r.item.index], theme.TextSize(), theme.Color(theme.ColorNameForeground)
	r.focus.FillColor, r.focus.StrokeWidth = nil, 0
	if r.item.focused {
		r.focus.StrokeColor, r.focus.StrokeWidth = theme.Color(theme.ColorNamePrimary), ringWidth
	}
	r.focus.CornerRadius = theme.Size(theme.SizeNameInputRadius)
	r.Layout(r.item.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
