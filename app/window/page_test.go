package window

import (
	"testing"

	"armscribe/app/keyed"

	"fyne.io/fyne/v2"
)

// pressed does what a shortcut of the menus does.
func (w *Window) pressed(t *testing.T, menu, name string) {
	t.Helper()
	for _, m := range w.win.MainMenu().Items {
		for _, i := range m.Items {
			if m.Label == menu && i.Label == name {
				i.Action()
				return
			}
		}
	}
	t.Fatalf("no %q in the menu %s", name, menu)
}

// What a page covers does not change behind it, and Esc leaves the page.
func TestAPageKeepsShortcutsOffWhatItCovers(t *testing.T) {
	w := open(t, "gravel-estate")
	w.setTravel(23)
	shown := w.overlays
	w.openTrack()
	w.pressed(t, "View", "Clearance: swept tyre and obstacles")
	w.pressed(t, "Corner", "Back to rest")
	w.pressed(t, "Corner", "Play through the travel")
	if w.overlays != shown || w.position.Travel != 23 || w.playing != nil {
		t.Errorf("behind the page: overlays %b, was %b; travel %g; playing %v", w.overlays, shown, w.position.Travel, w.playing != nil)
	}
	if f := w.win.Canvas().Focused(); f != nil {
		t.Fatalf("%T takes Esc from the page", f)
	}
	w.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.page != nil {
		t.Fatal("Esc does not close the page")
	}
	w.pressed(t, "Corner", "Back to rest")
	w.pressed(t, "View", "Clearance: swept tyre and obstacles")
	if w.overlays == shown || w.position.Travel != 0 {
		t.Error("after the page the shortcuts do nothing")
	}
}

// Tab comes to the button of every page, and from there Esc and Enter leave it.
func TestThePagesButtonHearsEscAndEnter(t *testing.T) {
	w := open(t, "gravel-estate")
	for i, open := range []func(){w.showTargets, w.openTrack, w.openBump} {
		for _, key := range []fyne.KeyName{fyne.KeyEscape, fyne.KeyReturn} {
			open()
			var at fyne.Focusable
			for range 200 {
				w.win.Canvas().FocusNext()
				if b, ok := w.win.Canvas().Focused().(*keyed.Button); ok && b.Text == "Close" {
					at = b
					break
				}
			}
			if at == nil {
				t.Fatalf("page %d: Tab does not come to its button", i)
			}
			at.TypedKey(&fyne.KeyEvent{Name: key})
			if w.page != nil {
				t.Errorf("page %d: %s on its button does not close it", i, key)
			}
		}
	}
}
