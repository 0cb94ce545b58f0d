package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
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
