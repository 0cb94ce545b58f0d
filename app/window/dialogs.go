package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
)

// keyButton is a button of a dialog: Enter presses it as Space does, and Esc
// leaves the dialog.
type keyButton struct {
	widget.Button
	leave func()
}

func newKeyButton(text string, tapped, leave func()) *keyButton {
	b := &keyButton{leave: leave}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey adds Enter and Esc.
func (b *keyButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		b.OnTapped()
	case fyne.KeyEscape:
		b.leave()
	default:
		b.Button.TypedKey(e)
	}
}

// keyEntry is a field of a dialog: Enter goes on, Esc leaves.
type keyEntry struct {
	widget.Entry
	leave func()
}

func newKeyEntry(text string) *keyEntry {
	e := &keyEntry{}
	e.ExtendBaseWidget(e)
	e.SetText(text)
	return e
}

// TypedKey adds Esc.
func (e *keyEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape && e.leave != nil {
		e.leave()
		return
	}
	e.Entry.TypedKey(k)
}

// askText shows a form whose first field has the keyboard; Enter goes on.
func (w *Window) askText(title, yes, no string, form []*widget.FormItem, width float32, then func()) {
	d := dialog.NewForm(title, yes, no, form, func(ok bool) {
		if ok {
			then()
		}
	}, w.win)
	var first *keyEntry
	for _, item := range form {
		e, ok := item.Widget.(*keyEntry)
		if !ok {
			continue
		}
		e.leave, e.OnSubmitted = d.Hide, func(string) { d.Submit() }
		if first == nil {
			first = e
		}
	}
	d.SetOnClosed(w.onEsc(d.Hide))
	d.Resize(fyne.NewSize(min(width, w.win.Canvas().Size().Width-40), 90+60*float32(len(form))))
	d.Show()
	if first != nil {
		w.win.Canvas().Focus(first)
		first.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// choice is a button of a question.
type choice struct {
	text string
	do   func() // may be nil
}

// ask asks a question. Esc is the first choice, which leaves all as it is;
// the last has the keyboard if it is safe, else the first has.
func (w *Window) ask(title, text string, width float32, safe bool, choices ...choice) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, label, w.win)
	take := func(c choice) func() {
		return func() {
			d.Hide()
			if c.do != nil {
				c.do()
			}
		}
	}
	leave := take(choices[0])
	buttons := make([]fyne.CanvasObject, len(choices))
	for i, c := range choices {
		buttons[i] = newKeyButton(c.text, take(c), leave)
	}
	has := buttons[0].(*keyButton)
	if last := buttons[len(buttons)-1].(*keyButton); safe {
		last.Importance = widget.HighImportance
		has = last
	}
	d.SetButtons(buttons)
	d.SetOnClosed(w.onEsc(leave))
	width = min(width, w.win.Canvas().Size().Width-40)
	label.Resize(fyne.NewSize(width-textFrame, 1)) // wraps it, for its height
	d.Resize(fyne.NewSize(width, label.MinSize().Height+textAround))
	d.Show()
	w.win.Canvas().Focus(has)
}

// usualQuestion is how wide a question is.
const usualQuestion = 520

// onEsc has Esc leave what is open, where nothing in it has the keyboard, until
// done is called; of several things the last opened.
func (w *Window) onEsc(leave func()) (done func()) {
	w.leaves = append(w.leaves, &leave)
	return func() {
		w.leaves = slices.DeleteFunc(w.leaves, func(l *func()) bool { return l == &leave })
	}
}

// typedKey hears the keys that nothing in the window has.
func (w *Window) typedKey(e *fyne.KeyEvent) {
	if n := len(w.leaves); e.Name == fyne.KeyEscape && n > 0 {
		(*w.leaves[n-1])()
	}
}

// What a page of text needs beside and around the text.
const (
	textFrame  = 60
	textAround = 130
)

// showText opens a page of text with one button, which has the keyboard.
func (w *Window) showText(title, text, done string, closed func()) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, container.NewVScroll(label), w.win)
	button := newKeyButton(done, d.Hide, d.Hide)
	d.SetButtons([]fyne.CanvasObject{button})
	left := w.onEsc(d.Hide)
	d.SetOnClosed(func() {
		left()
		if closed != nil {
			closed()
		}
	})
	size := w.win.Canvas().Size()
	width := min(620, size.Width-40)
	label.Resize(fyne.NewSize(width-textFrame, 1)) // wraps it, for its height
	d.Resize(fyne.NewSize(width, min(label.MinSize().Height+textAround, size.Height-40)))
	d.Show()
	w.win.Canvas().Focus(button)
}

// asideWidth of a page beside the view.
const asideWidth = 380

// showAside opens a page of text over the right columns, so that the view can be
// seen beside it.
func (w *Window) showAside(title, text string, closed func()) {
	heading := widget.NewLabel(title)
	heading.TextStyle.Bold = true
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	var page *widget.PopUp
	leave := func() {
		page.Hide()
		closed()
	}
	button := newKeyButton("Close", leave, leave)
	inside := container.New(layout.NewCustomPaddedLayout(look.Step, look.Step, look.Step, look.Step),
		container.NewBorder(heading, container.NewCenter(button), nil, nil, label))
	page = widget.NewPopUp(inside, w.win.Canvas())
	w.aside = page
	label.Resize(fyne.NewSize(asideWidth-2*look.Step, 1))
	height := label.MinSize().Height + heading.MinSize().Height + button.MinSize().Height + 8*look.Step
	page.ShowAtPosition(fyne.NewPos(w.win.Canvas().Size().Width-asideWidth-2*look.Step, 70))
	page.Resize(fyne.NewSize(asideWidth, height))
	w.win.Canvas().Focus(button)
}
