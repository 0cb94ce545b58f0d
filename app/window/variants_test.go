package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// chooseItem does what the menu of variant i offers under a name.
func (w *Window) chooseItem(t *testing.T, i int, name string) {
	t.Helper()
	for _, m := range w.variantItems(i) {
		if strings.HasPrefix(m.Label, name) {
			if m.Disabled {
				t.Fatalf("%q is not offered for variant %d", m.Label, i)
			}
			m.Action()
			return
		}
	}
	t.Fatalf("variant %d has no %q in its menu", i, name)
}

func (w *Window) offers(i int, name string) bool {
	return slices.ContainsFunc(w.variantItems(i), func(m *fyne.MenuItem) bool {
		return strings.HasPrefix(m.Label, name) && !m.Disabled
	})
}

func TestTheMeasuredVariantIsLockedUntilItIsUnlocked(t *testing.T) {
	w := open(t, "gravel-estate")
	w.showVariant(0)
	first := w.bytes(t)
	h := scene.OfPoint(kinematics.OuterEnd)
	w.drag(t, h, 5, -9)
	w.view.Select(h)
	w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if w.bytes(t) != first || !strings.Contains(w.status.Text, "locked") || !strings.Contains(w.status.Text, "make a variant") {
		t.Fatalf("a locked variant: status %q", w.status.Text)
	}
	change := func(v *job.Variant) { v.TieRod.OuterEnd.Z.MM += 3 }
	if err := w.points.OnEdit("type outer end z", change); err == nil || !strings.Contains(err.Error(), "unlock it") || w.bytes(t) != first {
		t.Errorf("typed into a locked variant: %v", err)
	}
	w.chooseItem(t, 0, "Locked against changes")
	w.drag(t, h, 5, -9)
	if w.bytes(t) == first || w.doc.UndoName() != "move outer tie-rod end" {
		t.Fatalf("unlocked, undo %q", w.doc.UndoName())
	}
	w.undo()
	if err := w.points.OnEdit("type outer end z", change); err != nil || w.bytes(t) == first {
		t.Errorf("typed into the unlocked variant: %v", err)
	}
	w.undo()
	w.chooseItem(t, 0, "Locked against changes")
	w.drag(t, h, 5, -9)
	if w.bytes(t) != first {
		t.Error("locked again, and yet it moved")
	}
	w.showVariant(1)
	w.drag(t, h, 5, -9)
	if w.bytes(t) == first {
		t.Error("a proposal does not move")
	}
}

func TestVariantsMoveAreDeletedAndComeBack(t *testing.T) {
	w := open(t, "gravel-estate")
	first, names := w.bytes(t), w.doc.Job().Names()
	for _, refused := range []struct {
		i    int
		what string
	}{{0, "Delete"}, {0, "Move left"}, {1, "Move left"}, {2, "Move right"}, {0, "It is what"}} {
		if w.offers(refused.i, refused.what) {
			t.Errorf("variant %d offers %q", refused.i, refused.what)
		}
	}
	w.chooseItem(t, 2, "Move left")
	if got := w.doc.Job().Names(); !slices.Equal(got, []string{names[0], names[2], names[1]}) || w.doc.Variant().Name != names[2] {
		t.Fatalf("moved left: %q, shown %s", got, w.doc.Variant().Name)
	}
	w.undo()
	w.chooseItem(t, 1, "Delete")
	if got := w.doc.Job().Names(); !slices.Equal(got, []string{names[0], names[2]}) || !strings.Contains(w.status.Text, "Ctrl+Z") {
		t.Fatalf("deleted: %q, status %q", got, w.status.Text)
	}
	if w.doc.UndoName() != "delete "+names[1] || len(w.top.variants.Objects) != 2 {
		t.Errorf("undo %q, %d buttons", w.doc.UndoName(), len(w.top.variants.Objects))
	}
	w.undo()
	if w.bytes(t) != first {
		t.Error("undo does not bring the variant back")
	}
}

func TestSwapAndCompare(t *testing.T) {
	w := open(t, "gravel-estate")
	w.chooseItem(t, 1, "Compare with it")
	shown, compared := w.doc.Current(), w.doc.ComparedIndex()
	w.swapVariants()
	if w.doc.Current() != compared || w.doc.ComparedIndex() != shown || w.doc.UndoName() != "" {
		t.Errorf("swapped: shown %d, compared %d", w.doc.Current(), w.doc.ComparedIndex())
	}
	w.compareWith(-1)
	w.swapVariants()
	if w.doc.Current() != compared || !strings.Contains(w.status.Text, "Nothing to swap") {
		t.Errorf("nothing compared: shown %d, status %q", w.doc.Current(), w.status.Text)
	}
}

func TestRenameAsksAndRefusesATakenName(t *testing.T) {
	w := open(t, "gravel-estate")
	w.chooseItem(t, 2, "Rename")
	entry, ok := w.win.Canvas().Focused().(*keyed.Entry)
	if !ok || entry.Text != w.doc.Job().Variants[2].Name {
		t.Fatalf("the name is not asked for: %v", w.win.Canvas().Focused())
	}
	if err := entry.Validator(w.doc.Job().Variants[1].Name); err == nil {
		t.Error("a taken name is not marked")
	}
	w.win.Canvas().Overlays().Top().Hide()
	w.did(w.doc.RenameVariant(2, "arms 40 longer"), "Renamed.")
	if w.top.variants.Objects[2].(*variantTab).Text != "arms 40 longer" {
		t.Error("the button has the old name")
	}
}

func TestNotesAreKeptAsTheyAreTyped(t *testing.T) {
	w := open(t, "gravel-estate")
	first := w.bytes(t)
	w.chooseItem(t, 1, "Notes")
	entry, ok := w.win.Canvas().Focused().(*keyed.Entry)
	if !ok {
		t.Fatal("no field for the notes")
	}
	was := entry.Text
	entry.SetText("")
	test.Type(entry, "tack, measure, weld")
	if got := w.doc.Job().Variants[1].Notes; got != "tack, measure, weld" {
		t.Fatalf("notes %q", got)
	}
	w.undo()
	if w.bytes(t) != first || entry.Text != was {
		t.Errorf("one undo leaves %q in the field", entry.Text)
	}
}

func TestAVariantButtonHasItsMenu(t *testing.T) {
	w := open(t, "gravel-estate")
	b := w.top.variants.Objects[1].(*variantTab)
	test.TapSecondary(b)
	if w.win.Canvas().Overlays().Top() == nil {
		t.Fatal("the right button opens no menu")
	}
	w.win.Canvas().Overlays().Remove(w.win.Canvas().Overlays().Top())
	test.Tap(b)
	if w.doc.Current() != 1 {
		t.Errorf("the left button shows %d", w.doc.Current())
	}
}

// However small the window and however many the variants, the one shown is seen
// and a new one can be made.
func TestTheVariantShownIsSeen(t *testing.T) {
	w := open(t, "gravel-estate")
	for _, name := range []string{"arms 20 longer", "arms 30 longer, upright as it is", "wide", "arms 40 longer, 5 mm spacer"} {
		if err := w.doc.AddVariant(name, func(*job.Variant) {}); err != nil {
			t.Fatal(err)
		}
	}
	for _, wide := range []float32{1280, 800} {
		w.win.Resize(fyne.NewSize(wide, 600))
		for i := range w.doc.Job().Variants {
			w.showVariant(i)
			b, s := w.top.variants.Objects[i], w.top.scroll
			from := b.Position().X - s.Offset.X
			if from < 0 || from+b.Size().Width > s.Size().Width {
				t.Errorf("%g wide, variant %d from %g to %g of %g", wide, i, from, from+b.Size().Width, s.Size().Width)
			}
			if add := w.top.content.Objects[2]; add.Position().X+add.Size().Width > w.top.content.Objects[3].Position().X {
				t.Errorf("%g wide, the button for a new variant lies under what is beside it", wide)
			}
		}
	}
}
