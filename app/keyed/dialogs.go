package keyed

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// Dialogs opens the questions of a window. Whatever in one has the keyboard, Esc
// leaves it, and Enter presses or goes on.
type Dialogs struct {
	Win    fyne.Window
	leaves []*func() // of what is open, the last opened last
}

// Key hears the keys that nothing in the window has a use for: it must be the
// canvas' OnTypedKey.
func (d *Dialogs) Key(e *fyne.KeyEvent) {
	n := len(d.leaves)
	switch {
	case e.Name == fyne.KeyEscape && n > 0:
		(*d.leaves[n-1])()
	case e.Name == fyne.KeyF10:
		if c, ok := d.Win.Canvas().(interface{ ToggleMenu() }); ok {
			c.ToggleMenu()
		}
	}
}

// OnEsc has Esc leave what is open until done is called.
func (d *Dialogs) OnEsc(leave func()) (done func()) {
	d.leaves = append(d.leaves, &leave)
	return func() {
		d.leaves = slices.DeleteFunc(d.leaves, func(l *func()) bool { return l == &leave })
	}
}

// margin of a dialog to the window's edges.
const margin = 24

// within is a size that fits the window.
func (d *Dialogs) within(size fyne.Size) fyne.Size {
	most := d.Win.Canvas().Size().SubtractWidthHeight(margin, margin)
	return fyne.NewSize(min(size.Width, most.Width), min(size.Height, most.Height))
}

// Dialog is what is opened.
type Dialog struct {
	Title   string
	Content fyne.CanvasObject
	Size    fyne.Size // at most; it fits the window
	Buttons []*Button
	Focus   fyne.Focusable // gets the keyboard; may be nil
	Leave   func()         // by Esc; nil to close it
	Closed  func()         // in any way; may be nil
}

// Open shows a dialog, which Hide closes.
func (d *Dialogs) Open(of Dialog) *dialog.CustomDialog {
	c := dialog.NewCustomWithoutButtons(of.Title, of.Content, d.Win)
	leave := of.Leave
	if leave == nil {
		leave = c.Hide
	}
	row := make([]fyne.CanvasObject, len(of.Buttons))
	for i, b := range of.Buttons {
		row[i] = b
	}
	c.SetButtons(row)
	left := d.OnEsc(leave)
	c.SetOnClosed(func() {
		left()
		if of.Closed != nil {
			of.Closed()
		}
	})
	c.Resize(d.within(of.Size))
	c.Show()
	if of.Focus != nil {
		d.Win.Canvas().Focus(of.Focus)
	}
	return c
}

// Choice is a button of a question.
type Choice struct {
	Text string
	Do   func() // may be nil
}

// What a page of text needs beside and around the text.
const (
	TextFrame  = 60
	TextAround = 130
)

// Usual is how wide a question is.
const Usual = 520

// Ask asks a question. Esc is the first choice, which leaves all as it is; the last
// has the keyboard if it is safe, else the first has.
func (d *Dialogs) Ask(title, text string, width float32, safe bool, choices ...Choice) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	var open *dialog.CustomDialog
	take := func(c Choice) func() {
		return func() {
			open.Hide()
			if c.Do != nil {
				c.Do()
			}
		}
	}
	buttons := make([]*Button, len(choices))
	for i, c := range choices {
		buttons[i] = NewButton(c.Text, take(c))
	}
	has := buttons[0]
	if last := buttons[len(buttons)-1]; safe {
		last.Importance = widget.HighImportance
		has = last
	}
	width = d.within(fyne.NewSize(width, 1)).Width
	label.Resize(fyne.NewSize(width-TextFrame, 1)) // wraps it, for its height
	open = d.Open(Dialog{Title: title, Content: label, Size: fyne.NewSize(width, label.MinSize().Height+TextAround), Buttons: buttons, Focus: has, Leave: take(choices[0])})
}

// Entry is a field of a dialog: Enter goes on.
type Entry struct {
	widget.Entry
	self
}

// ExtendBaseWidget is for types that hold this one.
func (e *Entry) ExtendBaseWidget(w fyne.Widget) {
	e.outer = w
	e.Entry.ExtendBaseWidget(w)
}

// NewEntry makes a field that holds a text.
func NewEntry(text string) *Entry {
	e := &Entry{}
	e.ExtendBaseWidget(e)
	e.SetText(text)
	return e
}

// TypedKey adds Esc and F10.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	if !Pass(e.outer, k) {
		e.Entry.TypedKey(k)
	}
}

// Form asks for what is typed into the fields of a form; the first has the
// keyboard, and Enter goes on from each. What a field's Validator refuses is not
// taken.
func (d *Dialogs) Form(title, yes, no string, items []*widget.FormItem, width float32, then func()) {
	rows := container.New(layout.NewFormLayout())
	var first *Entry
	var entries []*Entry
	for _, item := range items {
		rows.Add(widget.NewLabel(item.Text))
		rows.Add(item.Widget)
		for _, e := range entriesIn(item.Widget) {
			entries = append(entries, e)
			if first == nil {
				first = e
			}
		}
	}
	var open *dialog.CustomDialog
	submit := NewButton(yes, nil)
	submit.Importance = widget.HighImportance
	refusal := widget.NewLabel("")
	refusal.Wrapping = fyne.TextWrapWord
	refusal.Importance = widget.DangerImportance
	submit.OnTapped = func() {
		for _, e := range entries {
			if err := e.Validate(); err != nil {
				refusal.SetText("✕ " + err.Error() + ".")
				d.Win.Canvas().Focus(e)
				return
			}
		}
		open.Hide()
		then()
	}
	for _, e := range entries {
		e.OnSubmitted = func(string) { submit.OnTapped() }
	}
	var focus fyne.Focusable
	if first != nil {
		focus = first
	}
	cancel := NewButton(no, func() { open.Hide() })
	open = d.Open(Dialog{Title: title, Content: container.NewBorder(nil, refusal, nil, nil, rows), Size: fyne.NewSize(width, rows.MinSize().Height+refusal.MinSize().Height+TextAround), Buttons: []*Button{cancel, submit}, Focus: focus})
	if first != nil {
		first.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// entriesIn are the fields in a part of a form.
func entriesIn(o fyne.CanvasObject) []*Entry {
	switch o := o.(type) {
	case *Entry:
		return []*Entry{o}
	case *fyne.Container:
		var list []*Entry
		for _, c := range o.Objects {
			list = append(list, entriesIn(c)...)
		}
		return list
	}
	return nil
}
