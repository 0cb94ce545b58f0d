package window

import (
	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/trackpage"
)

// trackSize is the most that the page on track and wheel takes.
var trackSize = fyne.NewSize(1700, 1200)

// openTrack opens the page on track and wheel.
func (w *Window) openTrack() {
	w.stopPlay()
	p := trackpage.New(trackpage.Host{Host: w.pageHost(), Add: w.addVariants})
	w.openPage("Track and wheel", p.Object(), trackSize, p.Show)
}

// addVariants appends variants in one edit, beside the one that they came from;
// a single one is shown.
func (w *Window) addVariants(name string, from int, list []job.Variant) error {
	shown, base := w.doc.Current(), &w.doc.Job().Variants[from]
	var err error
	if len(list) == 1 {
		w.doc.Show(from)
		if err = w.doc.AddVariant(list[0].Name, func(v *job.Variant) { *v = list[0] }); err != nil {
			w.doc.Show(shown)
		}
	} else {
		err = w.doc.EditJob(name, "", func(j *job.Job) {
			for i := range list {
				v := list[i]
				v.Measured(base)
				j.Variants = append(j.Variants, v)
			}
		})
	}
	if err != nil {
		return err
	}
	if from != w.doc.Current() {
		w.doc.Compare(from)
	}
	w.refresh()
	return nil
}
