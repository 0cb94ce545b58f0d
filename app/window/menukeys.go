package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// menuLetters are the letters that open the menus together with Alt, in the
// order of the menus.
var menuLetters = [...]fyne.KeyName{fyne.KeyF, fyne.KeyE, fyne.KeyV, fyne.KeyA, fyne.KeyH}

// menuBar is what a window's canvas has where the menus stand in the window.
type menuBar interface{ ToggleMenu() }

// menusByKey lists the menus with the keys that open them, and second keys. As
// parts of a menu the keys are heard whatever has the keyboard.
func (w *Window) menusByKey(menus []*fyne.Menu) *fyne.MenuItem {
	top := fyne.NewMenuItem("More keys", nil)
	top.ChildMenu = fyne.NewMenu("")
	for n, m := range menus {
		top.ChildMenu.Items = append(top.ChildMenu.Items, item(m.Label, func() { w.openMenu(n) },
			&desktop.CustomShortcut{KeyName: menuLetters[n], Modifier: fyne.KeyModifierAlt}))
	}
	// The toolkit has one shortcut an item; this is the other one of Redo.
	top.ChildMenu.Items = append(top.ChildMenu.Items, item("Redo", w.redo, ctrlShift(fyne.KeyZ)))
	return top
}

// openMenu opens the n-th menu, as the arrow keys do.
func (w *Window) openMenu(n int) {
	c := w.win.Canvas()
	bar, ok := c.(menuBar)
	if !ok {
		return // the system has the menus, and keys of its own for them
	}
	bar.ToggleMenu()
	for range n {
		if f := c.Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
		}
	}
}
