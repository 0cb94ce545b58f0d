package window

import (
	"slices"
	"strings"
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
		if i.Label == "More keys" {
			keys = i
		}
	}
	if keys == nil || len(keys.ChildMenu.Items) <= len(menus) {
		t.Fatalf("keys %v of %d menus", keys, len(menus))
	}
	seen := map[string]bool{}
	for n, i := range keys.ChildMenu.Items[:len(menus)] {
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

// Every shortcut of a menu is on the page of keys, and Redo has two.
func TestThePageOfKeysHasAll(t *testing.T) {
	w := open(t, "gravel-estate")
	var listed []string
	for _, g := range allKeys {
		for _, row := range g.rows {
			listed = append(listed, strings.Split(row[0], ", ")...)
		}
	}
	names := map[fyne.KeyName]string{fyne.KeyEqual: "plus", fyne.KeyMinus: "minus", fyne.KeyPageDown: "Page Down", fyne.KeyPageUp: "Page Up"}
	redos, heard := 0, 0
	var walk func(items []*fyne.MenuItem)
	walk = func(items []*fyne.MenuItem) {
		for _, i := range items {
			if i.ChildMenu != nil {
				walk(i.ChildMenu.Items)
			}
			if strings.HasPrefix(i.Label, "Redo") {
				redos++
			}
			s, ok := i.Shortcut.(*desktop.CustomShortcut)
			if !ok || s.Modifier == fyne.KeyModifierAlt {
				continue
			}
			key := "Ctrl+"
			if s.Modifier&fyne.KeyModifierShift != 0 {
				key += "Shift+"
			}
			if name, ok := names[s.KeyName]; ok {
				key += name
			} else {
				key += string(s.KeyName)
			}
			heard++
			if !slices.Contains(listed, key) {
				t.Errorf("%s (%s) is not on the page of keys", key, i.Label)
			}
		}
	}
	for _, m := range w.win.MainMenu().Items {
		walk(m.Items)
	}
	if redos != 2 || heard < 15 {
		t.Errorf("%d shortcuts, %d of redo", heard, redos)
	}
}

// The search finds what has all words of what is sought, in keys or meaning.
func TestTheSearchOfKeys(t *testing.T) {
	all := 0
	for _, g := range allKeys {
		all += len(g.rows)
	}
	for sought, want := range map[string]int{"": all, "  ": all, "redo": 1, "CTRL+shift+z": 1, "view zoom": 1, "variant all": 1, "no such key": 0} {
		got := 0
		for _, g := range keysFor(sought) {
			got += len(g.rows)
		}
		if got != want {
			t.Errorf("%q finds %d, wanted %d", sought, got, want)
		}
	}
	if columns := keyColumns(keysFor("")); len(columns) != 2 {
		t.Errorf("%d columns", len(columns))
	}
}
