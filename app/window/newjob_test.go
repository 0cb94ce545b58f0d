package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/newjob"
	"armscribe/app/units"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// press taps the button of that text in the topmost dialog.
func (w *Window) press(t testing.TB, text string) {
	t.Helper()
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		t.Fatalf("no dialog with a button %q", text)
	}
	var found fyne.Tappable
	for _, o := range test.LaidOutObjects(top) {
		switch b := o.(type) {
		case *keyed.Button:
			if b.Text == text {
				found = b
			}
		}
	}
	if found == nil {
		t.Fatalf("no button %q", text)
	}
	test.Tap(found)
}

func TestCancellingANewJobLosesNothing(t *testing.T) {
	w := open(t, "gravel-estate")
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	was, undo := w.bytes(t), w.doc.UndoName()
	w.askNewJob()
	w.press(t, "Keep the open job")
	if w.bytes(t) != was || w.doc.UndoName() != undo || w.win.Canvas().Overlays().Top() != nil {
		t.Error("the open job is not as it was")
	}
}

func TestANewJobOpensUnsaved(t *testing.T) {
	w := open(t, "gravel-estate")
	f := newjob.Form{Name: "Forest estate", Axle: job.Front, Units: units.Millimetre}
	f.Typed[newjob.Track] = "1612"
	w.askNewJobOf(f)
	w.press(t, "Make the job")
	if w.doc.Job().Name != "Forest estate" || !w.doc.Changed() || w.doc.Path() != "" || !strings.Contains(w.win.Title(), "not saved yet") {
		t.Fatalf("open is %q, changed %v, path %q", w.doc.Job().Name, w.doc.Changed(), w.doc.Path())
	}
	if half := w.reading(t, kinematics.HalfTrack); half < 805.9 || half > 806.1 {
		t.Errorf("half the track is %g", half)
	}
	went := false
	w.keepOrLose("close", func() { went = true })
	if went || w.win.Canvas().Overlays().Top() == nil {
		t.Error("a job that was never saved goes without a question")
	}
}

// The form stays open behind the question about the open job.
func TestANewJobAsksAboutTheOpenOne(t *testing.T) {
	w := open(t, "gravel-estate")
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	was := w.bytes(t)
	f := newjob.Form{Axle: job.Front, Units: units.Millimetre}
	f.Typed[newjob.Track] = "1500"
	form := w.askNewJobOf(f)
	w.press(t, "Make the job")
	w.press(t, "Keep editing")
	if w.bytes(t) != was || w.win.Canvas().Overlays().Top() == nil {
		t.Fatal("the open job went, or the form did")
	}
	if form.Form().Typed[newjob.Track] != "1500" {
		t.Error("the form has forgotten what was typed")
	}
	w.press(t, "Make the job")
	w.press(t, "Discard changes")
	if w.doc.UndoName() != "" || w.win.Canvas().Overlays().Top() != nil {
		t.Error("the new job did not open")
	}
}

// A wrong number makes no job, whatever the size of the window.
func TestAWrongNumberMakesNoJob(t *testing.T) {
	w := open(t, "gravel-estate")
	w.win.Resize(fyne.NewSize(760, 500))
	was := w.bytes(t)
	f := newjob.Form{Axle: job.Rear, Units: units.Inch}
	f.Typed[newjob.LowerBallHeight] = "eight"
	w.askNewJobOf(f)
	w.press(t, "Make the job")
	if w.bytes(t) != was || w.win.Canvas().Overlays().Top() == nil {
		t.Error("made of a wrong number")
	}
}
