package window

import (
	"slices"
	"testing"

	"armscribe/app/keyed"
)

func TestBothWaysAreKeptFromThePageOnTrack(t *testing.T) {
	w := open(t, "gravel-estate")
	first, shown := w.bytes(t), w.doc.Current()
	names := slices.Clone(w.doc.Job().Names())
	w.openTrack()
	w.win.Canvas().FocusNext() // by Tab
	if b, ok := w.win.Canvas().Focused().(*keyed.Button); !ok || b.Text != "Wheel and tyre" {
		t.Fatalf("the keyboard is on %T", w.win.Canvas().Focused())
	}
	w.pressOn(t, "Two ways")
	w.pressOn(t, "Keep both")
	if got := w.doc.Job().Names()[len(names):]; !slices.Equal(got, []string{"spacers +50 mm", "arms +50 mm"}) {
		t.Fatalf("kept %q", got)
	}
	if name := w.doc.UndoName(); name != "add spacers +50 mm and arms +50 mm" {
		t.Errorf("undo %q", name)
	}
	w.undo()
	if w.bytes(t) != first || w.doc.Current() != shown || w.page == nil {
		t.Fatal("one undo does not give the first job back under the open page")
	}
	w.pressOn(t, "Keep spacers as a variant")
	if v := w.doc.Variant(); v.Name != "spacers +50 mm" || v.Wheel.Spacer.MM != 50 || w.doc.ComparedIndex() != 0 {
		t.Fatalf("shown %q, spacer %g, against variant %d", v.Name, v.Wheel.Spacer.MM, w.doc.ComparedIndex())
	}
	w.undo()
	if w.bytes(t) != first {
		t.Fatal("undo does not give the first job back")
	}
	w.closePage()
	if w.page != nil || w.win.Canvas().Overlays().Top() != nil {
		t.Fatal("the page does not close")
	}
}

// A wheel typed on the page stands on the variant in the window behind it.
func TestAWheelIsUsedFromThePageOnTrack(t *testing.T) {
	w := open(t, "rear-toe-link")
	w.openTrack()
	w.pressOn(t, "Find a way")
	w.pressOn(t, "Wheel and tyre")
	w.pressOn(t, "Use on the variant")
	if w.doc.UndoName() != "" {
		t.Errorf("the same wheel is a change: %q", w.doc.UndoName())
	}
	w.closePage()
}
