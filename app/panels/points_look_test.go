package panels

import (
	"testing"

	"armscribe/app/job"
	"armscribe/app/look"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/units"
	"armscribe/kinematics"
)

func TestPointsPictures(t *testing.T) {
	for name, mode := range modes {
		b := newBench(t, "gravel-estate")
		p := NewPoints()
		p.OnEdit = b.edit
		w := show(t, p, mode, 248, 560)
		p.SetInput(b.input())
		picture(t, "points-"+name, w)
		if !p.Focus(kinematics.UpperBall) {
			t.Fatal("no upper ball joint")
		}
		test.Type(w.Canvas().Focused(), "57mm+1/8in")
		picture(t, "points-typing-"+name, w)
		test.Type(w.Canvas().Focused(), "x")
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		picture(t, "points-wrong-"+name, w)
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		w.Canvas().Focus(p.lengths[1].field)
		test.Type(w.Canvas().Focused(), "415")
		picture(t, "points-length-"+name, w)
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		p.scroll.ScrollToBottom()
		b.unit = units.Inch
		p.SetInput(b.input())
		picture(t, "points-end-"+name, w)
	}
}

// A drag shows a new variant in every frame.
func BenchmarkPointsDrag(b *testing.B) {
	bench := newBench(b, "gravel-estate")
	p := NewPoints()
	show(b, p, look.Light, 248, 560)
	inputs := make([]Input, 2)
	for i := range inputs {
		if err := bench.doc.Edit("move", "", func(v *job.Variant) { v.TieRod.OuterEnd.Z.MM += 1.3 }); err != nil {
			b.Fatal(err)
		}
		inputs[i] = bench.input()
	}
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		p.SetInput(inputs[n%2])
	}
}

// A length typed in the unit on display stands in its field as it was typed, the
// unit left to the field; in another unit it says its own.
func TestAFractionStaysAFractionAtRest(t *testing.T) {
	for _, c := range []struct {
		typed       string
		unit        units.Unit
		short, full string
	}{
		{"14 15/16 in", units.Inch, "14 15/16", "14 15/16 in"},
		{"-4 3/4 in", units.Inch, "−4 3/4", "−4 3/4 in"},
		{"1/4 in", units.Millimetre, "1/4 in", "1/4 in"},
		{"25 mm", units.Inch, "25 mm", "25 mm"},
		{"57 mm + 1/8 in", units.Inch, "2.369", "57 mm + 1/8 in"},
		{"31.75", units.Millimetre, "31.75", "31.75"},
	} {
		l, err := units.ParseLength(c.typed, units.Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		if short, full := lengthTexts(l, c.unit); short != c.short || full != c.full {
			t.Errorf("%q: %q at rest, %q while edited", c.typed, short, full)
		}
	}
}
