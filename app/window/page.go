package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
)

// page is a dialog that stays while the job changes under it: it follows every
// edit and undo. There is one at a time.
type page struct {
	dialog  *dialog.CustomDialog
	refresh func()
	closed  func() // may be nil
}

// pageMargin is how far a page that fills the window stays off its edges.
const pageMargin = 24

// openPage shows content of at most the given size, with a button to close it;
// Esc does the same where the button or nothing on it has the keyboard. refresh fills the content
// from the document, now and after each change.
func (w *Window) openPage(title string, content fyne.CanvasObject, most fyne.Size, refresh func()) {
	w.closePage()
	w.cancelHand()
	p := &page{dialog: dialog.NewCustomWithoutButtons(title, container.NewStack(content), w.win), refresh: refresh}
	p.dialog.SetButtons([]fyne.CanvasObject{newKeyButton("Close", w.closePage, w.closePage)})
	done := w.onEsc(w.closePage)
	p.dialog.SetOnClosed(func() {
		done()
		if p.closed != nil {
			p.closed()
		}
		if w.page == p {
			w.page = nil
			w.doc.EndRun()
			w.refresh()
		}
	})
	w.page = p
	size := w.win.Canvas().Size()
	p.dialog.Resize(fyne.NewSize(min(most.Width, size.Width-pageMargin), min(most.Height, size.Height-pageMargin)))
	refresh()
	p.dialog.Show()
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
