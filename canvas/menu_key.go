package canvas

import "fyne.io/fyne/v2"

// MenuKey is F10, which goes to the window that an object is in; false for other
// keys. The toolkit gives keys without Ctrl or Alt to what has the keyboard alone, so
// each widget must hand this one on.
func MenuKey(o fyne.CanvasObject, e *fyne.KeyEvent) bool {
	if e.Name != fyne.KeyF10 {
		return false
	}
	PassKey(o, e)
	return true
}

// PassKey hands a key on to the window that an object is in.
func PassKey(o fyne.CanvasObject, e *fyne.KeyEvent) {
	app := fyne.CurrentApp()
	if app == nil {
		return
	}
	if c := app.Driver().CanvasForObject(o); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(e)
	}
}
