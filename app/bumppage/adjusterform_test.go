package bumppage

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
)

// fieldOf is the field of a part, by its group and label.
func (f *adjusterForm) fieldOf(t *testing.T, group int, label string) *pages.Field {
	t.Helper()
	for _, p := range f.parts {
		if p.group == group && p.label == label {
			return p.field
		}
	}
	t.Fatalf("no part %q", label)
	return nil
}

func (f *adjusterForm) typeIn(t *testing.T, group int, texts map[string]string) {
	t.Helper()
	for label, text := range texts {
		f.fieldOf(t, group, label).SetText(text)
	}
}

func formOn(t *testing.T, demo string) (*bench, *adjusterForm) {
	t.Helper()
	b := open(t, demo)
	b.Select(adjustersAt)
	return b, b.sections[adjustersAt].(*adjusters).form
}

// TestAdjustersOfEveryKindAreAdded to a job that has none, and looked at at once.
func TestAdjustersOfEveryKindAreAdded(t *testing.T) {
	b, f := formOn(t, "gravel-estate")
	if err := b.Doc.EditJob("none", "", func(j *job.Job) { j.Adjusters = nil }); err != nil {
		t.Fatal(err)
	}
	b.Show()
	if f.list.Selected != newAdjuster || f.keep.Text != "Add it" || f.drop.Visible() {
		t.Fatalf("%q, %q", f.list.Selected, f.keep.Text)
	}
	fresh := func(kind string, where, sets string) {
		f.list.SetSelected(newAdjuster)
		f.kind.SetSelected(kind)
		f.at.SetSelected(where)
		f.sets.SetSelected(sets)
		f.name.SetText("my " + kind)
	}
	fresh("rod end", "upper arm, rear leg", "camber")
	f.typeIn(t, threadGroup, map[string]string{"diameter": "5/8 in", "pitch": "1.5", "engaged": "28.5"})
	f.typeIn(t, roomGroup, map[string]string{"out": "7", "in": "12.5"})
	test.Tap(f.keep)
	fresh("right and left thread", "tie rod or toe link", "toe")
	f.typeIn(t, threadGroup, map[string]string{"diameter": "14", "pitch": "1.75", "engaged": "26"})
	f.typeIn(t, leftGroup, map[string]string{"diameter": "14", "pitch": "1.25", "engaged": "24"})
	f.typeIn(t, roomGroup, map[string]string{"out": "9", "in": "11"})
	test.Tap(f.keep)
	fresh("eccentric bolt", "lower arm, front pivot", "caster")
	f.typeIn(t, wayGroup, map[string]string{"y, outboard": "1", "z, up": "−0.2"})
	f.typeIn(t, throwGroup, map[string]string{"throw": "6", "stands at": "-1.5"})
	test.Tap(f.keep)
	fresh("shims", "upper arm, both pivots", "nothing alone")
	f.typeIn(t, wayGroup, map[string]string{"y, outboard": "1"})
	f.typeIn(t, roomGroup, map[string]string{"out": "4", "in": "0"})
	test.Tap(f.keep)

	list := b.Doc.Job().Adjusters
	if len(list) != 4 {
		t.Fatalf("%d adjusters; it says %q", len(list), f.note.Text)
	}
	mm := func(v float64) units.Length { return units.Length{MM: v} }
	for i, want := range []job.Adjuster{
		{Name: "my rod end", Kind: job.RodEnd, Leg: job.UpperRearPlace, Sets: job.SetsCamber, Thread: job.Thread{Diameter: units.Length{MM: 15.875, Typed: "5/8 in"}, Pitch: mm(1.5), Engaged: mm(28.5)}, Out: mm(7), In: mm(12.5)},
		{Name: "my right and left thread", Kind: job.RightLeft, Leg: job.TieRodPlace, Sets: job.SetsToe, Thread: job.Thread{Diameter: mm(14), Pitch: mm(1.75), Engaged: mm(26)},
			LeftThread: job.Thread{Diameter: mm(14), Pitch: mm(1.25), Engaged: mm(24)}, Out: mm(9), In: mm(11)},
		{Name: "my eccentric bolt", Kind: job.Eccentric, Pivot: job.LowerFrontPlace, Sets: job.SetsCaster, Direction: job.Direction{Y: 1, Z: -0.2}, Throw: mm(6), Now: mm(-1.5)},
		{Name: "my shims", Kind: job.ShimPack, Pivot: job.UpperArmPlace, Direction: job.Direction{Y: 1}, Out: mm(4), In: mm(0)},
	} {
		if list[i] != want {
			t.Errorf("kept  %+v\nwanted %+v", list[i], want)
		}
	}
	if b.Doc.UndoName() != "add adjuster my shims" || f.list.Selected != "my shims" || f.keep.Text != "Keep the change" {
		t.Errorf("undo %q, chosen %q", b.Doc.UndoName(), f.list.Selected)
	}
	a := b.sections[adjustersAt].(*adjusters)
	if a.found == nil || len(a.found.Effects) != 4 || !a.rest.Visible() {
		t.Error("their effects are not shown")
	}
	if _, err := b.Doc.Job().Encode(); err != nil {
		t.Error(err)
	}
}

// TestAnAdjusterIsChangedRenamedAndTakenOut, each an undo of its own; what
// nobody typed over stays as it was typed.
func TestAnAdjusterIsChangedRenamedAndTakenOut(t *testing.T) {
	b, f := formOn(t, "gravel-estate")
	if err := b.Doc.EditJob("inches", "", func(j *job.Job) { j.Adjusters[1].Out = units.Length{MM: 7.9375, Typed: "5/16 in"} }); err != nil {
		t.Fatal(err)
	}
	b.Show()
	first := b.File(t)
	f.list.SetSelected("upper rear rod end")
	if got := f.fieldOf(t, roomGroup, "out").Text; got != "5/16 in" || f.kind.Selected != "rod end" || f.at.Selected != "upper arm, rear leg" || f.sets.Selected != "camber" {
		t.Fatalf("out %q, %q on %q sets %q", got, f.kind.Selected, f.at.Selected, f.sets.Selected)
	}
	if f.touched() {
		t.Error("just chosen, something is typed")
	}
	f.name.SetText("rear heim")
	f.typeIn(t, roomGroup, map[string]string{"in": "13.5"})
	test.Tap(f.keep)
	a := b.Doc.Job().Adjusters[1]
	if a.Name != "rear heim" || a.In.MM != 13.5 || a.Out.Typed != "5/16 in" || a.Thread.Pitch.MM != 1.5 || b.Doc.UndoName() != "change adjuster rear heim" || f.list.Selected != "rear heim" {
		t.Errorf("%+v, undo %q, chosen %q", a, b.Doc.UndoName(), f.list.Selected)
	}
	test.Tap(f.drop)
	if len(b.Doc.Job().Adjusters) != 2 || b.Doc.UndoName() != "take adjuster rear heim out" || f.list.Selected != newAdjuster || f.name.Text != "" {
		t.Errorf("%d left, undo %q, chosen %q", len(b.Doc.Job().Adjusters), b.Doc.UndoName(), f.list.Selected)
	}
	for range 2 {
		b.Doc.Undo()
		b.Show()
	}
	if b.File(t) != first || len(f.list.Options) != 4 {
		t.Errorf("undone, the list has %q", f.list.Options)
	}
}

// TestWhatIsWrongWithAnAdjusterIsSaid, all of it, and nothing is lost.
func TestWhatIsWrongWithAnAdjusterIsSaid(t *testing.T) {
	b, f := formOn(t, "gravel-estate")
	first := b.File(t)
	refused := func(wants ...string) {
		t.Helper()
		test.Tap(f.keep)
		for _, want := range append(wants, "✕ Not kept: ") {
			if !strings.Contains(f.note.Text, want) {
				t.Errorf("no %q in %q", want, f.note.Text)
			}
		}
		if b.File(t) != first {
			t.Fatal("it was taken")
		}
	}
	refused("name: is blank", "thread, pitch: is blank", "can still go, out: is blank")
	f.name.SetText("tie rod sleeve")
	f.typeIn(t, threadGroup, map[string]string{"diameter": "12", "pitch": "1,75", "engaged": "20"})
	f.typeIn(t, roomGroup, map[string]string{"out": "6", "in": "5"})
	refused("thread, pitch: ", "comma")
	f.typeIn(t, threadGroup, map[string]string{"pitch": "13"})
	refused("is the name of", "is more than the diameter")
	if f.name.Text != "tie rod sleeve" || f.fieldOf(t, threadGroup, "pitch").Text != "13" {
		t.Error("what was typed is gone")
	}
	f.kind.SetSelected("eccentric bolt")
	f.typeIn(t, wayGroup, map[string]string{"x, forward": "inboard"})
	refused(`"inboard" is no plain number`, "bolt, throw: is blank")

	// Another one is not chosen over what is typed, nor another unit.
	f.list.SetSelected("upper rear rod end")
	if f.list.Selected != newAdjuster || !strings.Contains(f.note.Text, "put back what was") || f.name.Text != "tie rod sleeve" {
		t.Errorf("%q is chosen, it says %q", f.list.Selected, f.note.Text)
	}
	f.kind.SetSelected("rod end")
	b.Unit = units.Inch
	b.Show()
	if got := f.fieldOf(t, threadGroup, "diameter").Text; got != "0.472" || f.name.Text != "tie rod sleeve" { // 12 / 25.4
		t.Errorf("12 mm turn into %q in", got)
	}
	f.putBack()
	if f.touched() || f.name.Text != "" || f.note.Text != "" {
		t.Errorf("put back, %q is left", f.name.Text)
	}
	f.list.SetSelected("upper rear rod end")
	if f.list.Selected != "upper rear rod end" || f.fieldOf(t, threadGroup, "diameter").Text != "0.551" {
		t.Errorf("%q, diameter %q", f.list.Selected, f.fieldOf(t, threadGroup, "diameter").Text)
	}
	if f.touched() || b.File(t) != first {
		t.Error("a look changes the job")
	}
}
