package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/units"
)

// topBar names the job and its variants: the one shown, and the one compared
// with; beside them unit, undo and redo.
type topBar struct {
	widget.BaseWidget
	w *Window

	name       *widget.Label
	variants   *fyne.Container
	against    *widget.Select
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
	t.against = widget.NewSelect(nil, func(string) {
		if !t.setting {
			t.w.compareWith(t.against.SelectedIndex() - 1)
		}
	})
	t.unit = w.button("", "Show lengths in millimetres or inches", t.switchUnit).quiet()
	t.undo = w.button("Undo", "Take the last change back. Ctrl+Z", w.undo).quiet()
	t.redo = w.button("Redo", "Make it again. Ctrl+Y", w.redo).quiet()
	add := w.button("+", "New variant from the one shown. Ctrl+N", w.askVariant)
	right := container.NewHBox(widget.NewLabel("against"), t.against, t.unit, t.undo, t.redo)
	scroll := container.NewHScroll(container.NewHBox(t.variants, add))
	t.content = container.New(&topLayout{}, t.name, scroll, right)
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
	t.name.SetText(d.Job().Name)
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
		b := t.w.variantButton(i, name)
		if i == d.Current() {
			b.Importance = widget.HighImportance
		}
		t.variants.Add(b)
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

// topLayout gives the name and the right side what they need, and the variants
// the rest.
type topLayout struct{}

const nameWidth = 256

// MinSize is one row.
func (*topLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(500, o[2].MinSize().Height)
}

// Layout places name, variants and right side.
func (*topLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	right := o[2].MinSize().Width
	name := min(nameWidth, size.Width-right-120)
	place(o[0], 0, 0, name, size.Height)
	place(o[1], name, 0, max(0, size.Width-name-right-theme.Padding()), size.Height)
	place(o[2], size.Width-right, 0, right, size.Height)
}
