package panels

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// tableOf is a points table on a window, with its owner, who shows every edit.
func tableOf(t *testing.T) (*bench, *Points, fyne.Window) {
	t.Helper()
	b, p := newBench(t, "flat-teaching"), NewPoints()
	p.OnEdit = func(name string, change func(v *job.Variant)) error {
		err := b.edit(name, change)
		p.SetInput(b.input())
		return err
	}
	win := show(t, p, look.Light, 260, 900)
	p.SetInput(b.input())
	return b, p, win
}

// Every assumed value is marked at its field; the same number typed over it takes
// the mark off, and an arm goes to two pivots and back with what is new marked.
func TestAssumedIsMarkedAtItsField(t *testing.T) {
	b, p, win := tableOf(t)
	mark := func(at kinematics.Point) string { return p.points[at].echo.text + p.points[at].under.text }
	p.pivots[1].list.SetSelectedIndex(1)
	if got, want := mark(kinematics.LowerFront), "x assumed ±60 mm"; got != want || b.doc.Variant().LowerArm.Flat {
		t.Fatalf("two pivots: %q, want %q", got, want)
	}
	if got, want := mark(kinematics.LowerRear), "x assumed ±60 mm, y assumed ±80 mm, z assumed ±50 mm"; got != want {
		t.Errorf("rear pivot: %q, want %q", got, want)
	}
	f := p.points[kinematics.LowerFront].fields[0]
	text := f.Text
	win.Canvas().Focus(f)
	test.Type(f, "120")
	press(f, fyne.KeyReturn)
	if text != "120" || mark(kinematics.LowerFront) != "" && !strings.HasPrefix(mark(kinematics.LowerFront), "120") || b.doc.Variant().Assumed.Has(valueAt(kinematics.LowerFront, 0)) {
		t.Errorf("120 typed over %q: %q", text, mark(kinematics.LowerFront))
	}
	picture(t, "points-assumed", win)
	p.pivots[1].list.SetSelectedIndex(0)
	if !b.doc.Variant().LowerArm.Flat || b.doc.Variant().Assumed != 0 {
		t.Errorf("one pivot again: assumed %v", b.doc.Variant().Assumptions())
	}
	// An axis across the car has no one pivot: the table says so, and keeps both.
	if err := b.edit("across", func(v *job.Variant) {
		v.TwoPivots(false)
		v.LowerArm.Rear.X, v.LowerArm.Rear.Y = v.LowerArm.Front.X, units.Length{MM: v.LowerArm.Front.Y.MM - 90}
	}); err != nil {
		t.Fatal(err)
	}
	p.SetInput(b.input())
	p.pivots[1].list.SetSelectedIndex(0)
	if got := p.pivots[1].under.text; b.doc.Variant().LowerArm.Flat || !strings.Contains(got, "runs across the car") || p.pivots[1].list.SelectedIndex() != 1 {
		t.Errorf("one pivot of an axis across: %q", got)
	}
	if err := b.edit("assume", func(v *job.Variant) { v.Assumed = v.Assumed.With(job.CamberValue, true) }); err != nil {
		t.Fatal(err)
	}
	p.SetInput(b.input())
	if got := p.camber.under.text; !strings.HasPrefix(got, "assumed ±2°; ") {
		t.Errorf("camber: %q", got)
	}
	for _, x := range b.doc.Variant().Assumptions() {
		if p.ValueField(x) == nil {
			t.Errorf("no field for %s", b.doc.Variant().KeyOf(x))
		}
	}
}

// A reading that rests on what is assumed says so and has the band of that, not
// 'as typed'.
func TestReadingsSayAssumed(t *testing.T) {
	b := newBench(t, "flat-teaching")
	if err := b.edit("assume", func(v *job.Variant) {
		v.Assumed = v.Assumed.With(job.CamberValue, true).With(valueAt(kinematics.UpperBall, 0), true)
	}); err != nil {
		t.Fatal(err)
	}
	r := NewReadings()
	win := show(t, r, look.Light, 300, 760)
	in := b.input()
	r.SetInput(in)
	picture(t, "readings-assumed", win)
	s := take(&in)
	all := func(string) bool { return true }
	for _, it := range items {
		line := s.line(it, all)
		want := it.Of == kinematics.Camber || it.Of == kinematics.Caster || it.Of == kinematics.Trail
		if got := line.mark == assumedMark; want && !got || it.Of == kinematics.Toe && got {
			t.Errorf("%s: mark %q", it.Short, line.mark)
		}
		if it.Of == kinematics.Camber && line.band != "needs camber" || it.Of == kinematics.Toe && line.band != asTyped {
			t.Errorf("%s: band %q", it.Short, line.band)
		}
	}
}
