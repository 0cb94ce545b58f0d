package window

import (
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
)

// hintButton is a button that says in the status line what it does while the
// pointer is over it.
type hintButton struct {
	keyed.Button
	hint  string
	say   func(string)
	under string // what the status line said before
	read  func() string
}

// button makes a button with a hint.
func (w *Window) button(text, hint string, tapped func()) *hintButton {
	b := &hintButton{hint: hint, say: w.say, read: func() string { return w.status.Text }}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// quiet gives a button the lesser rank.
func (b *hintButton) quiet() *hintButton {
	b.Importance = widget.LowImportance
	return b
}

// MouseIn shows the hint.
func (b *hintButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.under = b.read()
	b.say(b.hint)
}

// MouseOut gives the status line back, unless something new was said.
func (b *hintButton) MouseOut() {
	b.Button.MouseOut()
	if b.read() == b.hint {
		b.say(b.under)
	}
}
