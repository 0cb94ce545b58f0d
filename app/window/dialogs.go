package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// showText opens a page of text with one button, which has the keyboard.
func (w *Window) showText(title, text, done string, closed func()) {
	label := widget.NewLabel(text)
	label.Wrapping = fyne.TextWrapWord
	var open *dialog.CustomDialog
	button := keyed.NewButton(done, func() { open.Hide() })
	width := min(620, w.win.Canvas().Size().Width-40)
	label.Resize(fyne.NewSize(width-keyed.TextFrame, 1)) // wraps it, for its height
	open = w.dialogs.Open(keyed.Dialog{Title: title, Content: container.NewVScroll(label), Size: fyne.NewSize(width, label.MinSize().Height+keyed.TextAround),
		Buttons: []*keyed.Button{button}, Focus: button, Closed: closed})
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
	var left func()
	leave := func() {
		page.Hide()
		left()
		closed()
	}
	left = w.dialogs.OnEsc(leave)
	button := keyed.NewButton("Close", leave)
	inside := container.New(layout.NewCustomPaddedLayout(look.Step, look.Step, look.Step, look.Step),
		container.NewBorder(heading, container.NewCenter(button), nil, nil, label))
	page = widget.NewPopUp(inside, w.win.Canvas())
	w.aside = page
	label.Resize(fyne.NewSize(asideWidth-2*look.Step, 1))
	height := label.MinSize().Height + heading.MinSize().Height + button.MinSize().Height + 8*look.Step
	page.ShowAtPosition(fyne.NewPos(w.win.Canvas().Size().Width-asideWidth-2*look.Step, 70))
	for range 2 { // the text is lower once it is as wide as it may be
		page.Resize(fyne.NewSize(asideWidth, height))
	}
	w.win.Canvas().Focus(button)
}
