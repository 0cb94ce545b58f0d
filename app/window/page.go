package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"armscribe/app/keyed"
)

// page is a dialog that stays while the job changes under it: it follows every
// edit and undo. There is one at a time.
type page struct {
	dialog  *dialog.CustomDialog
	refresh func()
	closed  func() // may be nil
}

// openPage shows content of at most the given size, with a button to close it;
// Esc does the same where the button or nothing on it has the keyboard. refresh fills the content
// from the document, now and after each change.
func (w *Window) openPage(title string, content fyne.CanvasObject, most fyne.Size, refresh func()) {
	w.closePage()
	w.cancelHand()
	p := &page{refresh: refresh}
	closed := func() {
		if p.closed != nil {
			p.closed()
		}
		if w.page == p {
			w.page = nil
			w.doc.EndRun()
			w.refresh()
		}
	}
	w.page = p
	refresh()
	p.dialog = w.dialogs.Open(keyed.Dialog{Title: title, Content: container.NewStack(content), Size: most, Buttons: []*keyed.Button{keyed.NewButton("Close", w.closePage)},
		Leave: w.closePage, Closed: closed})
}

// closePage closes the page that is open, if any. What a field still holds is
// handed in by its losing the keyboard.
func (w *Window) closePage() {
	if w.page != nil {
		w.win.Canvas().Unfocus()
		w.page.dialog.Hide()
	}
}

// inView is an action on what a page covers: none while one is open, for nobody
// would see it.
func (w *Window) inView(action func()) func() {
	return func() {
		if w.page == nil {
			action()
		}
	}
}

// showPage fills the open page anew.
func (w *Window) showPage() {
	if w.page != nil {
		w.page.refresh()
	}
}
