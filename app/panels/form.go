package panels

import (
	"image/color"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
)

// Sizes of a form in points.
const (
	fieldHeight = 30
	fieldGap    = look.Step
	nameHeight  = 17 // of the line with a name over its fields
	hintHeight  = 15 // of a line of hint, echo or error
	factHeight  = 20
	headSpace   = 16 // above a heading
	rowGap      = look.Step
	formLeast   = 200
)

// row is a part of a form. Its height follows from the width.
type row interface {
	objects() []fyne.CanvasObject
	height(w float32) float32
	place(x, y, w float32)
}

// form is a column of rows that scrolls.
type form struct {
	widget.BaseWidget
	top     row // stays above what scrolls; may be nil
	rows    []row
	least   float32 // width
	width   float32
	heights []float32 // of the rows as they were placed
	content *fyne.Container
	fixed   *fyne.Container
	scroll  *container.Scroll
	back    *fynecanvas.Rectangle
	wheel   *wheelCatcher

	words func(text string) string // puts reasons into the words of the axle; may be nil
}

func (f *form) init(self fyne.Widget) {
	f.least = formLeast
	f.content = container.New((*formLayout)(f))
	f.fixed = container.NewWithoutLayout()
	f.scroll = container.NewVScroll(f.content)
	f.back = fynecanvas.NewRectangle(color.Transparent) // coloured with the theme
	f.wheel = &wheelCatcher{to: f.scroll}
	f.wheel.ExtendBaseWidget(f.wheel)
	f.ExtendBaseWidget(self)
}

// setRows replaces the rows.
func (f *form) setRows(rows []row) {
	f.rows = rows
	f.fixed.Objects = nil
	if f.top != nil {
		f.fixed.Objects = f.top.objects()
	}
	f.content.Objects = f.content.Objects[:0]
	for _, r := range rows {
		f.content.Objects = append(f.content.Objects, r.objects()...)
	}
	f.arrange()
}

// Inside is what the form holds.
func (f *form) Inside() []fyne.CanvasObject {
	return append(f.fixed.Objects[:len(f.fixed.Objects):len(f.fixed.Objects)], f.content.Objects...)
}

// topHeight is that of what stays above.
func (f *form) topHeight() float32 {
	if f.top == nil {
		return 0
	}
	return margin + f.top.height(f.width-2*margin)
}

// arrange lays the rows out anew, as when a reason appears under a field.
func (f *form) arrange() {
	if f.top != nil {
		f.top.place(margin, margin, f.width-2*margin)
		f.fixed.Refresh()
	}
	top := f.topHeight()
	f.scroll.Move(fyne.NewPos(0, top))
	f.scroll.Resize(fyne.NewSize(f.width, max(0, f.back.Size().Height-top)))
	f.content.Refresh()
	f.scroll.Refresh()
}

// follow lays the rows out anew where one of them takes more or less room than
// when it was placed. The sum alone would not tell: one may grow by what another
// gives up.
func (f *form) follow() {
	for i, r := range f.rows {
		if i >= len(f.heights) || r.height(f.width-2*margin) != f.heights[i] {
			f.arrange()
			return
		}
	}
}

// reveal scrolls an object of the form into view.
func (f *form) reveal(o fyne.CanvasObject) {
	top := o.Position().Y - nameHeight - rowGap
	bottom := o.Position().Y + o.Size().Height + 2*hintHeight
	offset := f.scroll.Offset.Y
	offset = max(offset, bottom-f.scroll.Size().Height)
	offset = max(0, min(offset, top))
	if offset != f.scroll.Offset.Y {
		f.scroll.ScrollToOffset(fyne.NewPos(0, offset))
	}
}

// MinSize returns the smallest size: some rows, the others by scrolling.
func (f *form) MinSize() fyne.Size { return fyne.NewSize(f.least, 160) }

// CreateRenderer is for the toolkit.
func (f *form) CreateRenderer() fyne.WidgetRenderer {
	f.back.FillColor = theme.Color(look.ColorPanel)
	return &formRenderer{f, []fyne.CanvasObject{f.back, f.fixed, f.scroll, f.wheel}}
}

type formRenderer struct {
	f    *form
	list []fyne.CanvasObject
}

func (r *formRenderer) Layout(size fyne.Size) {
	r.f.width = size.Width
	for _, o := range []fyne.CanvasObject{r.f.back, r.f.fixed, r.f.wheel} {
		o.Resize(size)
	}
	r.f.arrange()
}

func (r *formRenderer) MinSize() fyne.Size           { return r.f.MinSize() }
func (r *formRenderer) Objects() []fyne.CanvasObject { return r.list }
func (r *formRenderer) Destroy()                     {}

func (r *formRenderer) Refresh() {
	r.f.back.FillColor = theme.Color(look.ColorPanel)
	r.f.back.Refresh()
	r.f.arrange()
}

// formLayout places the rows under each other.
type formLayout form

func (l *formLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	y := float32(margin)
	for _, r := range l.rows {
		y += r.height(l.width - 2*margin)
	}
	return fyne.NewSize(l.least, y+margin)
}

func (l *formLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	y := float32(margin)
	l.heights = l.heights[:0]
	for _, r := range l.rows {
		r.place(margin, y, size.Width-2*margin)
		h := r.height(size.Width - 2*margin)
		l.heights = append(l.heights, h)
		y += h
	}
}

// wheelCatcher lies over a form and takes nothing but the wheel, which an entry
// would keep to itself.
type wheelCatcher struct {
	widget.BaseWidget
	to *container.Scroll
}

var _ fyne.Scrollable = (*wheelCatcher)(nil)

// Scrolled hands the wheel on.
func (c *wheelCatcher) Scrolled(e *fyne.ScrollEvent) { c.to.Scrolled(e) }

// CreateRenderer is for the toolkit.
func (c *wheelCatcher) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}
