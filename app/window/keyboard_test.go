package window

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/canvas/scene"
)

// mostStops of Tab in one window is more than any has.
const mostStops = 400

// Whatever Tab comes to in the window, its pages and dialogs, F10 goes to the menus
// and Esc to what is open; a field may put back what was typed, or give the keyboard
// away, first.
func TestEveryStopOfTabHandsKeysOn(t *testing.T) {
	w := open(t, "gravel-estate")
	menu, left := 0, 0
	w.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) {
		switch e.Name {
		case fyne.KeyF10:
			menu++
		case fyne.KeyEscape:
			left++
		}
	})
	places := map[string]func(){
		"window": func() {}, "targets": w.showTargets, "compare": w.showCompare,
		"about": w.showAbout, "keys": w.showShortcuts, "move": w.askMove, "variant": w.askVariant, "open": w.askOpen,
		"new job": w.askNewJob, "photo": w.askPhoto, "from photo": w.askNewFromPhoto,
		"notes": func() { w.showNotes(0) }, "rename": func() { w.askRename(0) },
		"save as": func() { w.saveAs(func() {}) },
		"replace": func() { w.askReplace("/tmp/kim.armscribe.yaml", func() {}) },
		"changed": func() { w.askSaveOver("/tmp/kim.armscribe.yaml", func() {}) },
	}
	for s := range stepCount {
		w.choose(s)
		for _, section := range w.sectionNames() {
			places[s.String()+", "+section] = func() { w.open(s, section) }
		}
	}
	for name, open := range places {
		w.win.Canvas().Unfocus()
		open()
		c := w.win.Canvas()
		seen := map[fyne.Focusable]bool{}
		for range mostStops {
			c.FocusNext()
			f := c.Focused()
			if f == nil || seen[f] {
				break
			}
			seen[f] = true
			menu, left = 0, 0
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF10})
			if menu != 1 {
				t.Errorf("%s: %s keeps F10", name, nameOf(f))
			}
			for range 2 { // a field puts back first
				if c.Focused() == f && left == 0 {
					f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
				}
			}
			if left == 0 && c.Focused() == f && f != fyne.Focusable(w.view) {
				t.Errorf("%s: %s keeps Esc", name, nameOf(f))
			}
			if c.Focused() != f {
				c.Focus(f)
			}
		}
		if len(seen) == 0 {
			t.Errorf("%s: Tab comes to nothing", name)
		}
		for _, o := range c.Overlays().List() {
			c.Overlays().Remove(o)
		}
	}
}

func nameOf(f fyne.Focusable) string {
	if b, ok := f.(*keyed.Button); ok {
		return fmt.Sprintf("button %q", b.Text)
	}
	return fmt.Sprintf("%T", f)
}

// What is said of an act goes with the next one: after it, it is not true any more.
func TestAStaleStatusClears(t *testing.T) {
	w := open(t, "gravel-estate")
	said := func(text string) bool { return strings.Contains(w.status.Text, text) }
	w.setRoll(0.02)
	w.setTravel(10)
	if !said("Out of roll again") {
		t.Fatalf("the status is %q", w.status.Text)
	}
	if w.setTravel(11); said("Out of roll") || w.status.Text == "" {
		t.Errorf("after another move: %q", w.status.Text)
	}
	for range 40 { // until the linkage binds
		if w.setRack(w.position.Rack + 12); w.frame.Now.Err != nil {
			break
		}
	}
	if w.frame.Now.Err == nil {
		t.Fatal("nothing binds")
	}
	bound := w.status.Text
	if w.setRack(0); w.status.Text == bound || w.status.Text != w.view.Status() {
		t.Errorf("back in reach: %q", w.status.Text)
	}
	w.toggleLock()
	if !said("locked") {
		t.Fatalf("the status is %q", w.status.Text)
	}
	if w.setTravel(0); said("is locked against") {
		t.Errorf("after a move: %q", w.status.Text)
	}
}

// A click on the loupe answers which end of the rod to move, in the words of the
// advice, and says why.
func TestAClickOnTheLoupeSaysWhichEndToMove(t *testing.T) {
	w := open(t, "gravel-estate")
	w.win.Resize(fyne.NewSize(1280, 800))
	w.view.OnLoupe()
	if w.advice.What == "" || !w.isOpen(steering, diagnosisSection) {
		t.Fatalf("advice %q, step %v", w.advice.What, w.answer.step)
	}
	text := ""
	for _, o := range test.LaidOutObjects(w.book().Object()) {
		switch l := o.(type) {
		case *widget.Label:
			text += l.Text + " "
		case *widget.RichText:
			text += l.String() + " "
		}
	}
	if !strings.Contains(text, w.advice.What) || !strings.Contains(text, "loupe") {
		t.Errorf("the answer says %q", text)
	}
}

// With nothing to say the status line says what the hand can do.
func TestTheStatusIsNeverEmpty(t *testing.T) {
	w := open(t, "gravel-estate")
	w.toggleOverlay(scene.Clearance)
	if w.status.Text == "" || w.status.Text != w.view.Status() {
		t.Errorf("%q", w.status.Text)
	}
}
