package keyed_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/look/looktest"
	"armscribe/canvas/draw"
)

// Whatever can be pressed is large enough to be hit, and shows in one way that it
// has the keyboard: by a line along its edge, in the colour of what can be done,
// that is seen against what it was before.
func TestTargetsAndTheRing(t *testing.T) {
	for _, mode := range []look.Mode{look.Light, look.Dark} {
		a := test.NewTempApp(t)
		a.Settings().SetTheme(look.Theme{Mode: mode})
		for name, o := range map[string]fyne.CanvasObject{
			"button": keyed.NewButton("−", func() {}), "no word": keyed.NewButton("", func() {}),
			"box": keyed.NewCheck("", func(bool) {}), "choice": keyed.NewSelect([]string{"one"}, nil), "slider": keyed.NewSlider(0, 9),
		} {
			w := test.NewTempWindow(t, container.NewHBox(o))
			w.Resize(fyne.NewSize(200, 60))
			if s := o.Size(); s.Width < keyed.TargetLeast || s.Height < keyed.TargetLeast {
				t.Errorf("%s is %v", name, s)
			}
			ringed := func() bool { // the colour of what can be done in the middle column, against what was there
				img := w.Canvas().Capture()
				for y := range img.Bounds().Dy() {
					c := img.At(int(o.Size().Width/2)+6, y)
					if looktest.Contrast(c, look.Current()[draw.Before]) < 1.05 && looktest.Contrast(c, look.Current()[draw.Window]) > 3 {
						return true
					}
				}
				return false
			}
			before := ringed()
			w.Canvas().Focus(o.(fyne.Focusable))
			focused := ringed()
			w.Canvas().Unfocus()
			if before || !focused || ringed() {
				t.Errorf("mode %d, %s: ring before %v, focused %v, after %v", mode, name, before, focused, ringed())
			}
		}
	}
}
