package panels

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
)

// tops are where the fields of a form begin.
func tops(objects []fyne.CanvasObject) map[fyne.CanvasObject]float32 {
	list := map[fyne.CanvasObject]float32{}
	for _, o := range objects {
		if _, ok := o.(fyne.Focusable); ok {
			list[o] = o.Position().Y
		}
	}
	return list
}

// While a text is typed, refused, taken back and left, no field at or above the
// one in hand moves, and once a row has taken room it keeps it: a field that a
// hand goes to does not move from under it.
func TestFormsStandStillWhileTyping(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	var fields []*field
	for _, o := range d.points.content.Objects {
		if f, ok := o.(*field); ok {
			fields = append(fields, f)
		}
	}
	for _, r := range d.points.lengths {
		fields = append(fields, r.field)
	}
	for _, f := range fields {
		d.window.Canvas().Focus(f)
		before := tops(d.points.content.Objects)
		still := func(what string, below bool) {
			t.Helper()
			for o, y := range tops(d.points.content.Objects) {
				if was := before[o]; y != was && (y < was || !below || was <= before[f]) {
					t.Fatalf("%s, %s: a field goes from %g to %g, its own is at %g", f.name, what, was, y, before[f])
				}
			}
			before = tops(d.points.content.Objects)
		}
		for range 8 {
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
			still("emptied", true)
		}
		for _, c := range "123 1/8 in + 4.5 mm nonsense" {
			test.Type(f, string(c))
			still("typing", true)
		}
		press(f, fyne.KeyReturn)
		still("refused", true)
		press(f, fyne.KeyEscape)
		still("taken back", false)
		d.window.Canvas().Unfocus()
		still("left", false)
	}
}

// Going from target to target, up or down, moves no field at or above the one
// gone to, though what a text means appears under it and goes under the other.
func TestTargetsStandStillUnderAHand(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	a := NewTargets()
	a.OnEdit = func(name string, change func(*job.Job)) error { return d.doc.EditJob(name, "", change) }
	a.SetInput(TargetsInput{Job: d.doc.Job(), Unit: units.Inch})
	win := test.NewTempWindow(t, a)
	win.Resize(fyne.NewSize(720, 620))
	kinds := []targets.Kind{targets.Track, targets.Camber, targets.SwingArm, targets.RideToe, targets.SwingArm, targets.Camber, targets.Track, targets.Caster}
	for _, k := range kinds {
		f := a.Field(k).(*field)
		before := tops(a.content.Objects)
		win.Canvas().Focus(f)
		for o, y := range tops(a.content.Objects) {
			if was := before[o]; was <= before[f] && y != was {
				t.Fatalf("going to %s, a field goes from %g to %g; its own stood at %g", k, was, y, before[f])
			}
		}
	}
}
