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
		b := newBench(t, "widened-front")
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
	bench := newBench(b, "widened-front")
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
