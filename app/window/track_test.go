package window

import (
	"slices"
	"testing"
)

func TestBothWaysAreKeptFromThePageOnTrack(t *testing.T) {
	w := open(t, "gravel-estate")
	first, shown := w.bytes(t), w.doc.Current()
	names := slices.Clone(w.doc.Job().Names())
	w.choose(fit)
	w.open(fit, "Two ways")
	w.pressOn(t, "Keep both")
	if got := w.doc.Job().Names()[len(names):]; !slices.Equal(got, []string{"spacers +50 mm", "arms +50 mm"}) {
		t.Fatalf("kept %q", got)
	}
	if name := w.doc.UndoName(); name != "add spacers +50 mm and arms +50 mm" {
		t.Errorf("undo %q", name)
	}
	w.undo()
	if w.bytes(t) != first || w.doc.Current() != shown || !w.isOpen(fit, "Two ways") {
		t.Fatal("one undo does not give the first job back beside the open answer")
	}
	w.pressOn(t, "Keep spacers as a variant")
	if v := w.doc.Variant(); v.Name != "spacers +50 mm" || v.Wheel.Spacer.MM != 50 || w.doc.ComparedIndex() != 0 {
		t.Fatalf("shown %q, spacer %g, against variant %d", v.Name, v.Wheel.Spacer.MM, w.doc.ComparedIndex())
	}
	w.undo()
	if w.bytes(t) != first {
		t.Fatal("undo does not give the first job back")
	}
}

// A wheel typed on the page stands on the variant in the window behind it.
func TestAWheelIsUsedFromThePageOnTrack(t *testing.T) {
	w := open(t, "rear-toe-link")
	w.choose(fit)
	w.open(fit, "Find a way")
	w.open(fit, "Wheel and tyre")
	w.pressOn(t, "Use on the variant")
	if w.doc.UndoName() != "" {
		t.Errorf("the same wheel is a change: %q", w.doc.UndoName())
	}
}
