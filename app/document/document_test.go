package document

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/assets"
	"armscribe/kinematics"
)

func demo(t *testing.T) *job.Job {
	t.Helper()
	data, ok := assets.Demo("gravel-estate")
	if !ok {
		t.Fatal("no demo job")
	}
	j, err := job.Read("demo", data)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func raise(mm float64) func(*job.Variant) {
	return func(v *job.Variant) {
		p := v.Point(kinematics.OuterEnd)
		p.Z += mm
		v.SetPoint(kinematics.OuterEnd, p)
	}
}

func TestEditUndoRedo(t *testing.T) {
	d := New(demo(t), "", true)
	d.Show(2)
	first, z := d.Job(), d.Variant().Point(kinematics.OuterEnd).Z
	if d.Changed() {
		t.Fatal("a job just read counts as changed")
	}
	if err := d.Edit("raise outer end", "", raise(6.5)); err != nil {
		t.Fatal(err)
	}
	if got := d.Variant().Point(kinematics.OuterEnd).Z; got != z+6.5 || !d.Changed() || d.UndoName() != "raise outer end" {
		t.Fatalf("outer end at %g, changed %v, undo %q", got, d.Changed(), d.UndoName())
	}
	d.Show(0)
	if name, ok := d.Undo(); !ok || name != "raise outer end" || d.Current() != 2 {
		t.Fatalf("undid %q (%v), now at variant %d", name, ok, d.Current())
	}
	if d.Job() != first || d.Changed() {
		t.Fatal("undoing all does not give the first job back")
	}
	d.Show(1)
	if _, ok := d.Redo(); !ok || d.Current() != 2 || d.Variant().Point(kinematics.OuterEnd).Z != z+6.5 {
		t.Fatalf("redo (%v) leads to variant %d, %g", ok, d.Current(), d.Variant().Point(kinematics.OuterEnd).Z)
	}
}

func TestARefusedEditChangesNothing(t *testing.T) {
	d := New(demo(t), "", true)
	before := d.Job()
	err := d.Edit("join ball joints", "", func(v *job.Variant) {
		v.SetPoint(kinematics.UpperBall, v.Point(kinematics.LowerBall))
	})
	var problems job.Problems
	if !errors.As(err, &problems) || !strings.Contains(err.Error(), "ball joint") {
		t.Fatalf("error %v", err)
	}
	if d.Job() != before || d.UndoName() != "" {
		t.Fatal("a refused edit left something behind")
	}
	if err := d.Edit("nothing", "", func(*job.Variant) {}); err != nil || d.UndoName() != "" {
		t.Fatalf("an edit that changes nothing: %v, undo %q", err, d.UndoName())
	}
}

func TestAddVariant(t *testing.T) {
	d := New(demo(t), "", true)
	d.Show(0)
	if err := d.AddVariant("8 mm spacer", raise(8)); err != nil {
		t.Fatal(err)
	}
	if err := d.AddVariant("8 mm spacer", raise(0.5)); err != nil {
		t.Fatal(err)
	}
	if d.Variant().Name != "8 mm spacer 2" || d.Current() != 4 {
		t.Fatalf("variant %d is %q", d.Current(), d.Variant().Name)
	}
	d.Undo()
	d.Undo()
	if len(d.Job().Variants) != 3 || d.Current() != 0 {
		t.Fatalf("%d variants after undo, at %d", len(d.Job().Variants), d.Current())
	}
	d.Redo()
	if d.Current() != 3 || len(d.Job().Variants) != 4 {
		t.Fatalf("redo: %d variants, at %d", len(d.Job().Variants), d.Current())
	}
}

func TestUndoOfAnAddedVariantDoesNotCompareTheOldOneWithItself(t *testing.T) {
	d := New(demo(t), "", true)
	d.Show(2)
	if err := d.AddVariant("8 mm spacer", raise(8)); err != nil {
		t.Fatal(err)
	}
	d.Compare(2) // the new one beside the one it came from
	d.Undo()
	if d.Current() != 2 || d.ComparedIndex() != 0 {
		t.Fatalf("undo shows %d against %d", d.Current(), d.ComparedIndex())
	}
}

func TestSetCornerKeepsWhatWasTyped(t *testing.T) {
	data, _ := assets.Demo("rear-toe-link")
	j, err := job.Read("rear", data)
	if err != nil {
		t.Fatal(err)
	}
	d := New(j, "", true)
	c := d.Variant().Corner()
	if err := d.SetCorner("nothing", "", c); err != nil || d.Changed() {
		t.Fatalf("setting the same corner: %v, changed %v", err, d.Changed())
	}
	c.TieRod.OuterEnd.Z += 25.4 / 32
	if err := d.SetCorner("nudge outer end", "", c); err != nil {
		t.Fatal(err)
	}
	was, is := &j.Variants[d.Current()], d.Variant()
	if is.TieRod.OuterEnd.Z == was.TieRod.OuterEnd.Z || is.TieRod.OuterEnd.Y != was.TieRod.OuterEnd.Y {
		t.Fatalf("outer end was %+v, is %+v", was.TieRod.OuterEnd, is.TieRod.OuterEnd)
	}
	is2 := *is
	is2.TieRod.OuterEnd.Z = was.TieRod.OuterEnd.Z
	if !reflect.DeepEqual(is2, *was) {
		t.Fatal("more changed than was moved")
	}
}

func TestSaveMarksSavedAndFailureKeepsChanged(t *testing.T) {
	dir := t.TempDir()
	d := New(demo(t), "", false)
	if !d.Changed() {
		t.Fatal("a job without a file counts as saved")
	}
	if err := d.Save(filepath.Join(dir, "missing", "a.armscribe.yaml")); err == nil || d.Path() != "" || !d.Changed() {
		t.Fatalf("saving into a missing folder: %v, path %q", err, d.Path())
	}
	path := filepath.Join(dir, "a.armscribe.yaml")
	if err := d.Edit("raise", "", raise(3)); err != nil {
		t.Fatal(err)
	}
	if err := d.Save(path); err != nil || d.Changed() || d.Path() != path {
		t.Fatalf("save: %v, changed %v, path %q", err, d.Changed(), d.Path())
	}
	again, err := Open(path)
	if err != nil || !again.Job().Equal(d.Job()) {
		t.Fatalf("read back: %v", err)
	}
	d.Undo()
	if !d.Changed() {
		t.Fatal("undo behind the save counts as saved")
	}
	if _, err := os.Stat(path); err != nil {
		t.Fatal(err)
	}
}

func TestIndicesOutsideTheJobPanic(t *testing.T) {
	d := New(demo(t), "", true)
	defer func() {
		if recover() == nil {
			t.Error("Show(7) of three variants did not panic")
		}
	}()
	d.Show(7)
}
