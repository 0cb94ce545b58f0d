package panels

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/units"
)

func TestWheelPictures(t *testing.T) {
	for name, mode := range modes {
		b := newBench(t, "gravel-estate")
		p := NewWheel()
		p.OnEdit = b.edit
		w := show(t, p, mode, 248, 560)
		p.SetInput(b.input())
		picture(t, "wheel-"+name, w)
		if err := b.doc.Edit("odd rim", "", func(v *job.Variant) { v.Wheel.Tyre = "205/55R16" }); err != nil {
			t.Fatal(err)
		}
		p.SetInput(b.input())
		picture(t, "wheel-odd-rim-"+name, w)
		if err := b.doc.Edit("estimate", "", func(v *job.Variant) {
			v.Wheel.LoadedRadius = job.Optional{}
			v.Wheel.Spacer.MM = 25
		}); err != nil {
			t.Fatal(err)
		}
		b.unit = units.Inch
		p.SetInput(b.input())
		picture(t, "wheel-estimate-"+name, w)
		w.Canvas().Focus(p.backspacing.field)
		test.Type(w.Canvas().Focused(), "60 in")
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		picture(t, "wheel-wrong-"+name, w)
	}
}
