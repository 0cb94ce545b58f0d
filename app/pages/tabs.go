package pages

import (
	"strings"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// tab is the name of a section over the column: quiet, or bold with a bar under it
// while the section is open.
type tab struct {
	keyed.Area
	name   string
	chosen bool
	text   *fynecanvas.Text
	bar    *fynecanvas.Rectangle
}

// Sizes of tabs, points.
const (
	tabHeight = 28
	tabGap    = 2 * look.Step // from one tab's text to the next
	tabBar    = 3
)

func newTab(name string, tapped func()) *tab {
	t := &tab{name: name, text: fynecanvas.NewText(name, nil), bar: fynecanvas.NewRectangle(nil)}
	t.OnTapped = tapped
	t.ExtendBaseWidget(t)
	return t
}

// Word is the section's name.
func (t *tab) Word() string { return t.name }

func (t *tab) choose(on bool) {
	if t.chosen != on {
		t.chosen = on
		t.Refresh()
	}
}

// CreateRenderer is for the toolkit.
func (t *tab) CreateRenderer() fyne.WidgetRenderer {
	r := &tabRenderer{t}
	r.dress()
	return t.Ring.Around(r)
}

type tabRenderer struct{ t *tab }

// MinSize is as wide as the bold name, so that nothing moves when it is chosen.
func (r *tabRenderer) MinSize() fyne.Size {
	w := fyne.MeasureText(r.t.name, theme.TextSize(), fyne.TextStyle{Bold: true}).Width
	return fyne.NewSize(w+tabGap, tabHeight)
}

func (r *tabRenderer) Layout(size fyne.Size) {
	text := r.t.text.MinSize()
	r.t.text.Move(fyne.NewPos((size.Width-text.Width)/2, (size.Height-tabBar-text.Height)/2))
	r.t.text.Resize(text)
	r.t.bar.Move(fyne.NewPos(tabGap/2, size.Height-tabBar))
	r.t.bar.Resize(fyne.NewSize(size.Width-tabGap, tabBar))
}

func (r *tabRenderer) dress() {
	t := r.t
	t.text.TextSize, t.text.TextStyle = theme.TextSize(), fyne.TextStyle{Bold: t.chosen}
	t.text.Color = theme.Color(look.ColorQuiet)
	if t.chosen || t.Hovered {
		t.text.Color = theme.Color(theme.ColorNameForeground)
	}
	t.bar.FillColor = theme.Color(theme.ColorNamePrimary)
	t.bar.Hidden = !t.chosen
}

func (r *tabRenderer) Refresh() {
	r.dress()
	r.Layout(r.t.Size())
	r.t.text.Refresh()
	r.t.bar.Refresh()
}

func (r *tabRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.t.bar, r.t.text} }
func (r *tabRenderer) Destroy()                     {}

// rows lays objects out from left to right, and in as many rows as they need.
type rows struct {
	from  float32 // where the first stands
	gap   float32 // between objects and between rows
	width float32 // of last time
}

// Flow stands objects beside each other, and in as many rows as they need.
func Flow(o ...fyne.CanvasObject) *fyne.Container {
	return container.New(&rows{from: look.Step, gap: look.Step}, o...)
}

// Asked is a field with the words about it, which stay together.
func Asked(parts ...any) fyne.CanvasObject {
	g := NewGrid(strings.Repeat("l", len(parts)))
	g.Tight, g.flush = true, true
	cells := make([]fyne.CanvasObject, len(parts))
	for i, p := range parts {
		if text, ok := p.(string); ok {
			p = Plain(text)
		}
		cells[i] = p.(fyne.CanvasObject)
	}
	g.Row(cells...)
	return g.Content
}

// MinSize is that of the rows at the last width.
func (l *rows) MinSize(o []fyne.CanvasObject) fyne.Size { return l.place(o, l.width, false) }

// Layout places the objects.
func (l *rows) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(o, size.Width, true)
}

// place returns the least width, that of the widest object, and the height at a width.
func (l *rows) place(o []fyne.CanvasObject, width float32, move bool) fyne.Size {
	x, y, least, high := l.from, float32(0), float32(0), float32(0)
	for _, t := range o {
		if !t.Visible() {
			continue
		}
		size := t.MinSize()
		if x > l.from && x+size.Width > width-max(0, l.from) {
			x, y, high = l.from, y+high+l.gap, 0
		}
		if move {
			t.Move(fyne.NewPos(x, y))
			t.Resize(size)
		}
		x += size.Width + l.gap
		least, high = max(least, size.Width), max(high, size.Height)
	}
	return fyne.NewSize(least, y+high)
}

func newTabs(sections []Section, open func(i int)) (*fyne.Container, []*tab) {
	row, list := container.New(&rows{from: -tabGap / 2}), make([]*tab, len(sections))
	for i, s := range sections {
		list[i] = newTab(s.Name(), func() { open(i) })
		row.Add(list[i])
	}
	return row, list
}

// rule is a thin line across the column.
type rule struct {
	widget.BaseWidget
	line *fynecanvas.Rectangle
}

func newRule() *rule {
	r := &rule{line: fynecanvas.NewRectangle(theme.Color(theme.ColorNameSeparator))}
	r.ExtendBaseWidget(r)
	return r
}

// MinSize is thin.
func (r *rule) MinSize() fyne.Size { return fyne.NewSize(1, 1) }

// Refresh takes the theme's colour.
func (r *rule) Refresh() {
	r.line.FillColor = theme.Color(theme.ColorNameSeparator)
	r.line.Refresh()
}

// CreateRenderer is for the toolkit.
func (r *rule) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.line) }
