package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/units"
)

// topBar names the job and its variants: the one shown, and the one compared
// with; beside them unit, undo and redo.
type topBar struct {
	widget.BaseWidget
	w *Window

	name       *widget.Label
	variants   *fyne.Container
	scroll     *container.Scroll // of the variants
	against    *keyed.Select
	unit       *hintButton
	undo, redo *hintButton
	content    *fyne.Container

	shown   []string // what the variant buttons were made for
	current int
	setting bool // the choice is being set by show, not by hand
}

const againstNothing = "nothing"

func newTopBar(w *Window) *topBar {
	t := &topBar{w: w, current: -1}
	t.name = widget.NewLabel("")
	t.name.TextStyle.Bold = true
	t.name.Truncation = fyne.TextTruncateEllipsis
	t.variants = container.NewHBox()
	t.against = keyed.NewSelect(nil, func(string) {
		if !t.setting {
			t.w.compareWith(t.against.SelectedIndex() - 1)
		}
	})
	t.unit = w.button("", "Show lengths in millimetres or inches", t.switchUnit).quiet()
	t.undo = w.button("Undo", "Take the last change back. Ctrl+Z", w.undo).quiet()
	t.redo = w.button("Redo", "Make it again. Ctrl+Y", w.redo).quiet()
	add := w.button("+", "New variant from the one shown. Ctrl+N", w.askVariant)
	right := container.NewHBox(widget.NewLabel("against"), t.against, t.unit, t.undo, t.redo)
	t.scroll = container.NewHScroll(t.variants)
	t.content = container.New(topLayout{t}, t.name, t.scroll, add, right)
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer shows the content.
func (t *topBar) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.content) }

func (t *topBar) switchUnit() {
	if t.w.unit == units.Inch {
		t.w.setUnit(units.Millimetre)
	} else {
		t.w.setUnit(units.Inch)
	}
}

func (t *topBar) show() {
	d := t.w.doc
	t.name.SetText(d.Job().Title())
	t.unit.SetText(t.w.unit.String())
	t.undo.hint, t.redo.hint = named("Undo", d.UndoName())+". Ctrl+Z", named("Redo", d.RedoName())+". Ctrl+Y"
	enable(t.undo, d.UndoName() != "")
	enable(t.redo, d.RedoName() != "")
	names := d.Job().Names()
	if slices.Equal(names, t.shown) && t.current == d.Current() {
		t.choose(names)
		return
	}
	t.shown, t.current = names, d.Current()
	t.variants.RemoveAll()
	for i, name := range names {
		t.variants.Add(t.w.variantTab(i, name))
	}
	t.choose(names)
	t.content.Refresh()
}

// choose sets the compared variant without calling back.
func (t *topBar) choose(names []string) {
	t.setting = true
	defer func() { t.setting = false }()
	options := append([]string{againstNothing}, names...)
	if !slices.Equal(options, t.against.Options) {
		t.against.SetOptions(options)
	}
	if i := t.w.doc.ComparedIndex() + 1; t.against.SelectedIndex() != i {
		t.against.SetSelectedIndex(i)
	}
}

func enable(b fyne.Disableable, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}

// reveal scrolls the variants so far that the one shown is seen.
func (t *topBar) reveal() {
	if t.current < 0 || t.current >= len(t.variants.Objects) {
		return
	}
	b, wide := t.variants.Objects[t.current], t.scroll.Size().Width
	from, to := b.Position().X, b.Position().X+b.MinSize().Width
	x := min(from, max(t.scroll.Offset.X, to-wide))
	if x != t.scroll.Offset.X {
		t.scroll.ScrollToOffset(fyne.NewPos(x, 0))
	}
}

// topLayout gives the right side what it needs, and the name the width of the
// panel under it, or less where the variants need the room; they scroll.
type topLayout struct{ t *topBar }

const (
	nameWidth = 256
	nameLeast = 90
)

// MinSize is one row.
func (topLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(500, o[3].MinSize().Height)
}

// Layout places name, variants, the button for a new one, and the right side.
func (l topLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	add, right, gap := o[2].MinSize().Width, o[3].MinSize().Width, theme.Padding()
	all := l.t.variants.MinSize().Width
	room := size.Width - right - add - 2*gap // of name and variants
	name := min(nameWidth, max(nameLeast, room-all))
	all = min(all, max(0, room-name))
	place(o[0], 0, 0, name, size.Height)
	place(o[1], name, 0, all, size.Height)
	place(o[2], name+all+gap, 0, add, size.Height)
	place(o[3], size.Width-right, 0, right, size.Height)
	l.t.reveal()
}
