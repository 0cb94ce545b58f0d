package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
)

// notices are what must not pass unread: they stand above the status line, whole,
// until they are closed or no longer true.
type notices struct {
	win   fyne.Window
	box   *fyne.Container
	shown map[string]*notice
}

type notice struct {
	text string
	row  fyne.CanvasObject // nil once it is closed
}

func (n *notices) make(win fyne.Window) *fyne.Container {
	n.win, n.box, n.shown = win, container.NewVBox(), map[string]*notice{}
	return n.box
}

// put shows a notice in place of the one about the same thing. One that has been
// closed does not come back with the same words.
func (n *notices) put(about, text string) {
	if is, ok := n.shown[about]; ok && is.text == text {
		return
	}
	n.drop(about)
	is := &notice{text: text}
	n.shown[about] = is
	label := widget.NewLabel("▲ " + text)
	label.Wrapping = fyne.TextWrapWord
	button := keyed.NewButton("Close", func() { n.close(is) })
	is.row = container.NewBorder(nil, nil, nil, container.NewCenter(button), label)
	label.Resize(fyne.NewSize(n.win.Canvas().Size().Width-button.MinSize().Width-keyed.TextFrame, 1)) // wraps it, for its height
	n.box.Add(is.row)
	n.layOut()
}

// layOut lets the rest of the window make room.
func (n *notices) layOut() {
	if c, ok := n.win.Content().(*fyne.Container); ok {
		c.Refresh()
	}
}

func (n *notices) has(about string) bool { return n.shown[about] != nil }

func (n *notices) close(is *notice) {
	if is.row != nil {
		n.box.Remove(is.row)
		is.row = nil
		n.layOut()
	}
}

// drop takes a notice away that is no longer true; false when there was none.
func (n *notices) drop(about string) bool {
	is, ok := n.shown[about]
	if ok {
		n.close(is)
		delete(n.shown, about)
	}
	return ok
}
