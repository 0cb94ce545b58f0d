package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Every menu has a letter of its own that opens it together with Alt.
func TestEveryMenuHasAKey(t *testing.T) {
	w := open(t, "gravel-estate")
	menus := w.win.MainMenu().Items
	var keys *fyne.MenuItem
	for _, i := range menus[len(menus)-1].Items {
		if i.Label == "Menus by keyboard" {
			keys = i
		}
	}
	if keys == nil || len(keys.ChildMenu.Items) != len(menus) {
		t.Fatalf("keys %v of %d menus", keys, len(menus))
	}
	seen := map[string]bool{}
	for n, i := range keys.ChildMenu.Items {
		s, ok := i.Shortcut.(*desktop.CustomShortcut)
		if !ok || i.Label != menus[n].Label || s.Modifier != fyne.KeyModifierAlt || seen[s.ShortcutName()] {
			t.Errorf("%q by %v", i.Label, i.Shortcut)
			continue
		}
		seen[s.ShortcutName()] = true
		i.Action() // the test's canvas has no menus in the window: nothing happens
	}
}

// Esc leaves the form of a new job from its fields, its buttons and from nowhere.
func TestEscLeavesANewJob(t *testing.T) {
	w := open(t, "gravel-estate")
	for _, from := range []string{"name", "field", "nowhere"} {
		w.askNewJob()
		switch from {
		case "field":
			w.win.Canvas().FocusNext()
			for range 6 { // past the choices
				if _, ok := w.win.Canvas().Focused().(interface{ SetPlaceHolder(string) }); ok {
					break
				}
				w.win.Canvas().FocusNext()
			}
		case "nowhere":
			w.win.Canvas().Unfocus()
		}
		w.strike(fyne.KeyEscape)
		if w.asks() {
			t.Fatalf("from %s Esc does not leave", from)
		}
	}
}
