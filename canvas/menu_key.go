package canvas

import "fyne.io/fyne/v2"

// MenuKey is F10, which goes to the menus of the window that an object is in;
// false for other keys. The toolkit gives keys without Ctrl or Alt to what has
// the keyboard alone, so each widget must hand this one on.
func MenuKey(o fyne.CanvasObject, e *fyne.KeyEvent) bool {
	if e.Name != fyne.KeyF10 {
		return false
	}
	if app := fyne.CurrentApp(); app != nil {
		if c, ok := app.Driver().CanvasForObject(o).(interface{ ToggleMenu() }); ok {
			c.ToggleMenu()
		}
	}
	return true
}
