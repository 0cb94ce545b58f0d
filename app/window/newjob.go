package window

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/newjob"
	"armscribe/app/panels"
)

// askNewJob opens the form of a new job. The open job stays as it is until the
// new one is made.
func (w *Window) askNewJob() { w.askNewJobOf(newjob.Form{Axle: job.Front, Units: w.unit}) }

// askNewJobOf opens the form with what is known already.
func (w *Window) askNewJobOf(f newjob.Form) *panels.NewJob {
	form := panels.NewNewJob(f)
	d := dialog.NewCustomWithoutButtons("New job", form, w.win)
	form.OnMade = func(r *newjob.Result) {
		w.keepOrLose("make another job", func() {
			d.Hide()
			w.useNew(r)
		})
	}
	form.OnEscape = d.Hide
	yes := newKeyButton("Make the job", form.Make, d.Hide)
	yes.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{newKeyButton("Keep the open job", d.Hide, d.Hide), yes})
	d.SetOnClosed(w.onEsc(d.Hide))
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(1120, size.Width-40), min(760, size.Height-40)))
	d.Show()
	w.win.Canvas().Focus(form.First())
	return form
}

// useNew opens a job that has just been made; it has no file yet.
func (w *Window) useNew(r *newjob.Result) {
	w.use(document.New(r.Job, "", false))
	text := fmt.Sprintf("Made from what was typed; %d values are defaults until you measure them. Ctrl+S saves it.", r.Job.Variants[0].Assumed.Count())
	w.say(strings.TrimSpace(r.Shortened + " " + text))
}
