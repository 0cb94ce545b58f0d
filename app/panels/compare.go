package panels

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"

	"armscribe/canvas/draw"
)

// Compare sets variants side by side, a column to each: how each meets the
// targets, and every reading with its band and its change against the one
// compared with. Over a column stands a button that leads to its variant. The
// wheel and, with the keyboard, the arrows, Page Up, Page Down, Home and End
// scroll what has no room.
//
// All methods belong to the toolkit's goroutine.
type Compare struct {
	widget.BaseWidget

	head   *fyne.Container
	clip   *container.Scroll
	body   *compareBody
	titles []string
}

// CompareColumn is one variant.
type CompareColumn struct {
	Input     Input // with a frame that compares with the reference
	Shown     bool  // in the window
	Reference bool  // the others are compared with it
	Go        func()
}

// CompareTarget is a line of targets, with a cell to each column.
type CompareTarget struct {
	Name, Asked string
	Cells       []CompareCell
}

// CompareCell is how a variant meets a target.
type CompareCell struct {
	Verdict      Verdict
	Value, Words string
	Best         bool
}

// Sizes of the comparison in points.
const (
	compareNames  = 284
	compareColumn = 214
	compareHead   = 40
	compareLine   = 24
	compareAim    = 42
	compareTitle  = 30
)

// NewCompare returns a comparison of nothing yet.
func NewCompare() *Compare {
	c := &Compare{}
	c.head = container.New(compareHeadLayout{})
	c.clip = container.NewHScroll(c.head)
	c.body = newCompareBody()
	c.clip.OnScrolled = func(p fyne.Position) { c.body.slide(float64(p.X)) }
	c.body.onSlide = func(x float64) { c.clip.ScrollToOffset(fyne.NewPos(float32(x), 0)) }
	c.ExtendBaseWidget(c)
	return c
}

// Set shows columns and lines of targets.
func (c *Compare) Set(columns []CompareColumn, targets []CompareTarget) {
	c.body.set(columns, targets)
	titles := make([]string, len(columns))
	for i := range columns {
		titles[i] = columns[i].Input.Variant.Name
	}
	c.head.RemoveAll()
	for i, column := range columns {
		b := keyed.NewButton(titles[i], column.Go)
		if column.Shown {
			b.Importance = widget.HighImportance
		}
		c.head.Add(b)
	}
	c.titles = titles
	c.Refresh()
}

// Lines are what takes the keyboard, so that keys scroll.
func (c *Compare) Lines() fyne.Focusable { return c.body }

// compareHeadLayout places a button over each column.
type compareHeadLayout struct{}

func (compareHeadLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(compareColumn*float32(len(o)), compareHead)
}

func (compareHeadLayout) Layout(o []fyne.CanvasObject, _ fyne.Size) {
	for i, b := range o {
		b.Move(fyne.NewPos(compareColumn*float32(i)+4, 4))
		b.Resize(fyne.NewSize(compareColumn-8, compareHead-8))
	}
}

// MinSize is that of one column.
func (c *Compare) MinSize() fyne.Size {
	return fyne.NewSize(compareNames+compareColumn, compareHead+6*compareLine)
}

// CreateRenderer is for the toolkit.
func (c *Compare) CreateRenderer() fyne.WidgetRenderer {
	c.ExtendBaseWidget(c)
	return &compareRenderer{c}
}

type compareRenderer struct{ c *Compare }

func (r *compareRenderer) Layout(size fyne.Size) {
	r.c.clip.Move(fyne.NewPos(compareNames, 0))
	r.c.clip.Resize(fyne.NewSize(size.Width-compareNames, compareHead))
	r.c.body.Move(fyne.NewPos(0, compareHead))
	r.c.body.Resize(fyne.NewSize(size.Width, size.Height-compareHead))
}

func (r *compareRenderer) MinSize() fyne.Size { return r.c.MinSize() }
func (r *compareRenderer) Destroy()           {}
func (r *compareRenderer) Refresh()           { r.c.clip.Refresh(); r.c.body.Refresh() }

func (r *compareRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.c.clip, r.c.body}
}

// compareBody is the drawn table under the buttons.
type compareBody struct {
	widget.BaseWidget
	pane
	onSlide func(x float64)

	columns []compareOf
	lines   []item
	targets []CompareTarget
	best    []int // column that is clearly best on each of lines, -1 for none
	x, y    float64
	focused bool
}

// compareOf is a column as it was when it was set.
type compareOf struct {
	snapshot
	name             string
	shown, reference bool
}

var (
	_ fyne.Focusable  = (*compareBody)(nil)
	_ fyne.Scrollable = (*compareBody)(nil)
	_ fyne.Tappable   = (*compareBody)(nil)
)

func newCompareBody() *compareBody {
	b := &compareBody{}
	b.pane.init(draw.Panel, b.draw)
	setTableStyles(b.Styles())
	b.ExtendBaseWidget(b)
	return b
}

func (b *compareBody) set(columns []CompareColumn, targets []CompareTarget) {
	b.columns = b.columns[:0]
	for i := range columns {
		b.columns = append(b.columns, compareOf{take(&columns[i].Input), columns[i].Input.Variant.Name, columns[i].Shown, columns[i].Reference})
	}
	b.targets = targets
	b.lines, b.best = b.lines[:0], b.best[:0]
	for _, it := range items {
		for i := range b.columns {
			if b.columns[i].solved && b.columns[i].shows(it) {
				b.lines, b.best = append(b.lines, it), append(b.best, b.bestOf(it))
				break
			}
		}
	}
	b.move(0, 0)
}

// slide goes sideways with the buttons.
func (b *compareBody) slide(x float64) {
	if x != b.x {
		b.move(x-b.x, 0)
	}
}

// width and height of all that there is to see, in points.
func (b *compareBody) width() float64 { return compareNames + compareColumn*float64(len(b.columns)) }

func (b *compareBody) height() float64 {
	h := compareTitle + compareLine*float64(len(b.lines)) + margin
	if len(b.targets) > 0 {
		h += compareTitle + compareAim*float64(len(b.targets))
	}
	return h
}

// move scrolls by a way, as far as there is anything.
func (b *compareBody) move(dx, dy float64) {
	size := b.Size()
	x := max(0, min(b.x+dx, b.width()-float64(size.Width)))
	y := max(0, min(b.y+dy, b.height()-float64(size.Height)))
	slid := x != b.x
	b.x, b.y = x, y
	if slid && b.onSlide != nil {
		b.onSlide(x)
	}
	b.Refresh()
}

// Resize keeps the scroll within what there is.
func (b *compareBody) Resize(size fyne.Size) {
	b.BaseWidget.Resize(size)
	b.move(0, 0)
}

// Scrolled scrolls.
func (b *compareBody) Scrolled(e *fyne.ScrollEvent) {
	b.move(-float64(e.Scrolled.DX), -float64(e.Scrolled.DY))
}

// Tapped takes the keyboard.
func (b *compareBody) Tapped(*fyne.PointEvent) {
	if c := canvasOf(b); c != nil {
		c.Focus(b)
	}
}

// FocusGained shows that keys scroll here.
func (b *compareBody) FocusGained() { b.focused = true; b.Refresh() }

// FocusLost takes that away.
func (b *compareBody) FocusLost() { b.focused = false; b.Refresh() }

// TypedRune takes no letters.
func (b *compareBody) TypedRune(rune) {}

// TypedKey scrolls.
func (b *compareBody) TypedKey(e *fyne.KeyEvent) {
	if keyed.Pass(b, e) {
		return
	}
	page := float64(b.Size().Height) - compareLine
	switch e.Name {
	case fyne.KeyDown:
		b.move(0, compareLine)
	case fyne.KeyUp:
		b.move(0, -compareLine)
	case fyne.KeyRight:
		b.move(compareColumn, 0)
	case fyne.KeyLeft:
		b.move(-compareColumn, 0)
	case fyne.KeyPageDown:
		b.move(0, page)
	case fyne.KeyPageUp:
		b.move(0, -page)
	case fyne.KeyHome:
		b.move(-b.x, -b.y)
	case fyne.KeyEnd:
		b.move(0, b.height())
	}
}

// MinSize is that of some lines.
func (b *compareBody) MinSize() fyne.Size {
	return fyne.NewSize(compareNames+compareColumn, 6*compareLine)
}

// CreateRenderer is for the toolkit.
func (b *compareBody) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(b.Raster())
}

// Refresh paints anew, in the colours of the theme.
func (b *compareBody) Refresh() { b.Raster().Refresh() }
