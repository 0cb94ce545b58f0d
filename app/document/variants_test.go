package document

import (
	"errors"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/kinematics"
)

func comparedName(d *Document) string {
	if v, ok := d.Compared(); ok {
		return v.Name
	}
	return ""
}

func names(d *Document) string { return strings.Join(d.Job().Names(), "|") }

// wantView checks the list, and which variant is shown and which compared.
func wantView(t *testing.T, d *Document, list, shown, compared string) {
	t.Helper()
	if names(d) != list || d.Variant().Name != shown || comparedName(d) != compared {
		t.Errorf("%s, %q shown, %q compared; want %s, %q, %q", names(d), d.Variant().Name, comparedName(d), list, shown, compared)
	}
}

const demoList = "as measured|spacers only|longer arms"

func TestRenameAndNotes(t *testing.T) {
	d := New(demo(t), "", true)
	d.Compare(1)
	if err := d.RenameVariant(1, "  50 mm spacers "); err != nil {
		t.Fatal(err)
	}
	wantView(t, d, "as measured|50 mm spacers|longer arms", "longer arms", "50 mm spacers")
	if d.UndoName() != "rename spacers only to 50 mm spacers" {
		t.Errorf("undo %q", d.UndoName())
	}
	for _, name := range []string{"", " ", "longer arms", strings.Repeat("x", 101), "a\tb"} {
		if err := d.RenameVariant(1, name); err == nil {
			t.Errorf("the name %q is taken", name)
		}
	}
	d.Undo()
	wantView(t, d, demoList, "longer arms", "spacers only")
	for _, text := range []string{"T", "Ta", "Taped twice."} {
		if err := d.SetNotes(0, "notes 0", text); err != nil {
			t.Fatal(err)
		}
	}
	if name, _ := d.Undo(); name != "write notes on as measured" || d.Job().Variants[0].Notes != demo(t).Variants[0].Notes {
		t.Errorf("undid %q, notes %q", name, d.Job().Variants[0].Notes)
	}
	d.Redo()
	if d.Job().Variants[0].Notes != "Taped twice." || d.Current() != 2 {
		t.Errorf("notes %q, shown %d", d.Job().Variants[0].Notes, d.Current())
	}
}

func TestReorder(t *testing.T) {
	d := New(demo(t), "", true)
	if err := d.AddVariant("short arms", raise(5)); err != nil {
		t.Fatal(err)
	}
	d.Compare(1)
	d.Show(2)
	if err := d.MoveVariant(3, 1); err != nil {
		t.Fatal(err)
	}
	wantView(t, d, "as measured|short arms|spacers only|longer arms", "longer arms", "spacers only")
	d.Undo()
	wantView(t, d, demoList+"|short arms", "longer arms", "spacers only")
	for _, c := range [][2]int{{0, 2}, {2, 0}} {
		if err := d.MoveVariant(c[0], c[1]); !errors.Is(err, ErrMeasured) {
			t.Errorf("moving %d to %d: %v", c[0], c[1], err)
		}
	}
	if err := errors.Join(d.MoveVariant(0, 0), d.MoveVariant(2, 2)); err != nil || d.UndoName() != "add short arms" {
		t.Errorf("moving nowhere: %v, undo %q", err, d.UndoName())
	}
	d.Show(3)
	if err := d.MakeMeasured(2); err != nil {
		t.Fatal(err)
	}
	wantView(t, d, "longer arms|as measured|spacers only|short arms", "short arms", "spacers only")
	d.Undo()
	if names(d) != demoList+"|short arms" {
		t.Error(names(d))
	}
}

func TestDeleteIsUndone(t *testing.T) {
	d := New(demo(t), "", true)
	first := d.Job()
	d.Compare(1)
	if err := d.DeleteVariant(1); err != nil {
		t.Fatal(err)
	}
	wantView(t, d, "as measured|longer arms", "longer arms", "as measured")
	d.Undo()
	if d.Job() != first || d.Variant().Name != "longer arms" {
		t.Errorf("undone: %s, %q shown", names(d), d.Variant().Name)
	}
	d.Redo()
	wantView(t, d, "as measured|longer arms", "longer arms", "as measured")
	if err := d.DeleteVariant(1); err != nil {
		t.Fatal(err)
	}
	wantView(t, d, "as measured", "as measured", "")
	if err := d.DeleteVariant(0); !errors.Is(err, ErrLast) {
		t.Errorf("deleting the only one: %v", err)
	}
	d.Undo()
	d.Undo()
	if err := d.DeleteVariant(0); !errors.Is(err, ErrMeasured) || names(d) != demoList {
		t.Errorf("deleting the measured one: %v", err)
	}
}

func TestSwap(t *testing.T) {
	d := New(demo(t), "", true)
	d.Compare(1)
	if !d.Swap() || d.Changed() {
		t.Error("no swap, or an edit")
	}
	wantView(t, d, demoList, "spacers only", "longer arms")
	d.Compare(-1)
	if d.Swap() {
		t.Error("swapped with none")
	}
}

// The measured corner is not dragged by accident; typing reaches it, and so
// does a hand once it is unlocked.
func TestMeasuredIsLockedAgainstDragging(t *testing.T) {
	d := New(demo(t), "", true)
	d.Show(0)
	c := d.Variant().Corner()
	c.TieRod.OuterEnd.Z += 4
	if err := d.SetCorner("move outer end", "", c); !errors.Is(err, ErrLocked) || d.Changed() || !d.Locked() {
		t.Errorf("dragged: %v", err)
	}
	if err := d.Edit("type outer end", "", raise(2)); err != nil || !d.Changed() {
		t.Errorf("typed: %v", err)
	}
	d.SetLocked(false)
	if err := d.SetCorner("move outer end", "", c); err != nil || d.Locked() {
		t.Errorf("unlocked: %v", err)
	}
	d.SetLocked(true)
	d.Show(1)
	if d.Locked() {
		t.Error("a proposal is locked")
	}
	alone := demo(t)
	alone.Variants = alone.Variants[:1]
	if New(alone, "", true).Locked() {
		t.Error("the only variant is locked")
	}
}

// A value is assumed until it is typed over.
func TestAssumedUntilTypedOver(t *testing.T) {
	j := demo(t)
	outer := job.Coordinate(kinematics.Coordinate{Point: kinematics.OuterEnd, Axis: 2})
	hub := job.Coordinate(kinematics.Coordinate{Point: kinematics.HubFace, Axis: 1})
	j.Variants[2].Assumed = job.Assumed(0).With(outer, true).With(hub, true).With(job.CamberValue, true)
	d := New(j, "", true)
	if err := d.Edit("raise", "", raise(1)); err != nil || d.Variant().Assumed.Has(outer) || d.Variant().Assumed.Count() != 2 {
		t.Errorf("typed over: %v, %b", err, d.Variant().Assumed)
	}
	if err := d.AddVariant("more camber", func(v *job.Variant) { v.Camber = -2 }); err != nil || d.Variant().Assumed.Count() != 1 {
		t.Errorf("a proposal: %v, %b", err, d.Variant().Assumed)
	}
	d.Undo()
	d.Undo()
	if d.Job() != j {
		t.Error("undone, it is not as it was")
	}
}

// A variant that is added again stands beside the one that it came from, as when
// it was made, and not beside nothing.
func TestAVariantAddedAgainIsCompared(t *testing.T) {
	d := New(demo(t), "", true)
	d.Show(0)
	d.Compare(-1)
	if err := d.AddVariant("arms 30 longer", func(v *job.Variant) { v.Notes = "invented" }); err != nil {
		t.Fatal(err)
	}
	wantView(t, d, demoList+"|arms 30 longer", "arms 30 longer", "as measured")
	d.Undo()
	wantView(t, d, demoList, "as measured", "")
	d.Redo()
	wantView(t, d, demoList+"|arms 30 longer", "arms 30 longer", "as measured")
}
