package window

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/keyed"
)

// Whatever can be pressed, in the window and on its pages, is large enough to be
// hit, in the smallest window too.
func TestTargetsAreLargeEnough(t *testing.T) {
	w := open(t, "gravel-estate")
	seen := 0
	var walk func(where string, o fyne.CanvasObject)
	walk = func(where string, o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		_, focus := o.(fyne.Focusable)
		if _, tap := o.(fyne.Tappable); focus && tap {
			seen++
			if s := o.Size(); s.Width < keyed.TargetLeast || s.Height < keyed.TargetLeast {
				t.Errorf("%s: %T %s is %v", where, o, wordOn(o), s)
			}
		}
		switch k := o.(type) {
		case *fyne.Container:
			for _, c := range k.Objects {
				walk(where, c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(k).Objects() {
				walk(where, c)
			}
		}
	}
	for _, size := range []fyne.Size{fyne.NewSize(1024, 700), fyne.NewSize(1280, 800)} {
		w.win.Resize(size)
		for name, show := range map[string]func(){
			"glance": func() { w.choose(atAGlance) }, "steering": func() { w.choose(steering) }, "cure": func() { w.open(steering, "Cure") }, "gauge": func() { w.open(steering, "Toe gauge") },
			"fit": func() { w.choose(fit) }, "another wheel": func() { w.open(fit, "Wheel and tyre") }, "points": func() { w.open(measure, pointsSection) }, "variants": w.showCompare, "targets": w.showTargets, "new job": w.askNewJob,
		} {
			show()
			where := fmt.Sprintf("%s at %v", name, size.Width)
			top := w.win.Canvas().Overlays().Top()
			if top == nil {
				top = w.win.Content()
			}
			walk(where, top)
			w.strike(fyne.KeyEscape)
		}
	}
	if seen < 200 {
		t.Errorf("%d targets seen", seen)
	}
}
