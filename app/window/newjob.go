package window

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/newjob"
	"armscribe/app/panels"
)

// askNewJob opens the form of a new job. The open job stays as it is until the
// new one is made.
func (w *Window) askNewJob() { w.askNewJobOf(newjob.Form{Axle: job.Front, Units: w.unit}) }

// askNewJobOf opens the form with what is known already.
func (w *Window) askNewJobOf(f newjob.Form) *panels.NewJob {
	form := panels.NewNewJob(f)
	var d *dialog.CustomDialog
	hide := func() { d.Hide() }
	form.OnMade = func(r *newjob.Result) {
		w.keepOrLose("make another job", func() {
			d.Hide()
			w.useNew(r)
		})
	}
	yes := keyed.NewButton("Make the job", form.Make)
	yes.Importance = widget.HighImportance
	const width, height = 1120, 760
	d = w.dialogs.Open(keyed.Dialog{Title: "New job", Content: form, Size: fyne.NewSize(width, height), Focus: form.First(),
		Buttons: []*keyed.Button{keyed.NewButton("Keep the open job", hide), yes}})
	return form
}

// useNew opens a job that has just been made; it has no file yet.
func (w *Window) useNew(r *newjob.Result) {
	w.use(document.New(r.Job, "", false))
	text := fmt.Sprintf("Made from what was typed; %d values are defaults until you measure them. Ctrl+S saves it.", r.Job.Variants[0].Assumed.Count())
	w.say(strings.TrimSpace(r.Shortened + " " + text))
}
