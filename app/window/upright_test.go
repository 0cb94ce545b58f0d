package window

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/keyed"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// noteText is what stands at the pointer.
func (w *Window) noteText() string { return strings.Join(w.view.Note(), "|") }

// An inch job is nudged by 1/32 in from the first key on.
func TestAnInchJobIsNudgedInInchesFromTheFirstKey(t *testing.T) {
	w := open(t, "rear-toe-link")
	if w.doc.Locked() {
		w.toggleLock()
	}
	z := func() float64 { return w.doc.Variant().Corner().TieRod.RackEnd.Z }
	was := z()
	w.view.Select(scene.OfPoint(kinematics.RackEnd))
	w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if by := z() - was; math.Abs(by-25.4/32) > 1e-9 {
		t.Errorf("the first key moves by %g mm", by)
	}
}

// Enter on the upright asks how far it goes, and both arms grow with it.
func TestTheUprightIsMovedByTyping(t *testing.T) {
	w := open(t, "gravel-estate")
	before := w.doc.Variant().Corner()
	w.view.Select(scene.UprightBody)
	w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	out, ok := w.win.Canvas().Focused().(*keyed.Entry)
	if !ok {
		t.Fatalf("nothing asks how far: %v", w.win.Canvas().Focused())
	}
	test.Type(out, "7.5")
	out.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	after := w.doc.Variant().Corner()
	for _, p := range []kinematics.Point{kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd, kinematics.HubFace} {
		if by := after.At(p).Y - before.At(p).Y; math.Abs(by-7.5) > 1e-9 || after.At(p).Z != before.At(p).Z {
			t.Errorf("%s goes out by %g", p, by)
		}
	}
	if w.doc.UndoName() != "move upright" || w.win.Canvas().Overlays().Top() != nil {
		t.Errorf("undo %q", w.doc.UndoName())
	}
	w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	w.win.Canvas().Focused().(*keyed.Entry).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.win.Canvas().Overlays().Top() != nil || w.doc.Variant().Corner() != after {
		t.Error("Esc does not leave it")
	}
}

// What is said of a change counts from where the variant began: presses add up,
// and undo takes them off again.
func TestChangesCountFromWhereTheVariantBegan(t *testing.T) {
	w := open(t, "gravel-estate")
	h := scene.OfPoint(kinematics.OuterEnd)
	w.view.Select(h)
	up := &fyne.KeyEvent{Name: fyne.KeyUp}
	w.view.TypedKey(up)
	w.view.TypedKey(up)
	w.view.TypedKey(up)
	if !strings.Contains(w.noteText(), "up +3.0") {
		t.Fatalf("after three presses %q", w.noteText())
	}
	w.drag(t, h, 0, -10)
	if note := w.noteText(); !strings.Contains(note, "up +") || strings.Contains(note, "up +3.0") {
		t.Errorf("dragged on: %q", note)
	}
	w.undo()
	if !strings.Contains(w.noteText(), "up +3.0") {
		t.Errorf("one undone: %q", w.noteText())
	}
	w.undo()
	if slices.ContainsFunc(w.view.Note(), func(s string) bool { return strings.Contains(s, "up ") }) {
		t.Errorf("all undone: %q", w.noteText())
	}
	w.view.TypedKey(up)
	w.addVariant("from here", nil)
	w.view.TypedKey(up)
	if !strings.Contains(w.noteText(), "up +1.0") {
		t.Errorf("a new variant: %q", w.noteText())
	}
}

// An undo leaves the variant in hand that the move was made in, and the next
// edit goes there.
func TestTheNextEditGoesWhereTheUndoneOneWas(t *testing.T) {
	w := open(t, "gravel-estate")
	w.showVariant(2)
	w.compareWith(1)
	w.drag(t, scene.OfPoint(kinematics.OuterEnd), 5, -9)
	w.chooseItem(t, 1, "Move right")
	if w.doc.Variant().Name != "longer arms" {
		t.Fatal(w.doc.Variant().Name)
	}
	w.undo()
	w.undo()
	if v, ok := w.doc.Compared(); w.doc.Variant().Name != "longer arms" || !ok || v.Name != "spacers only" {
		t.Errorf("%q in hand, beside %v", w.doc.Variant().Name, v)
	}
}
