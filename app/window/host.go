package window

import (
	"fyne.io/fyne/v2"

	"armscribe/app/document"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// besideMain runs something beside the toolkit's goroutine, onMain something on it.
var (
	besideMain = func(f func()) { go f() }
	onMain     = fyne.Do
)

// pageHost lets an answer work on the document.
func (w *Window) pageHost() pages.Host {
	return pages.Host{
		Job:     w.jobInView,
		Variant: func() int { return w.doc.Current() },
		Unit:    func() units.Unit { return w.unit },
		Edit: func(name string, change func(j *job.Job)) error {
			w.cancelHand()
			err := w.doc.EditJob(name, "", change)
			if err == nil {
				w.refresh()
			}
			return err
		},
		Advice: func() (string, string) {
			return w.inWords(w.adviceText()), w.inWords(whyText[w.advice.Fault])
		},
		Keep:    w.keepCorner,
		GoTo:    w.jumpTo,
		Do:      onMain,
		Go:      besideMain,
		Dialogs: &w.dialogs, Folder: w.folder,
	}
}

// jumpTo shows the corner elsewhere.
func (w *Window) jumpTo(travel, rack, roll float64) {
	w.stopPlay()
	w.position = frame.Position{Travel: travel, Rack: rack, Roll: roll}
	w.move()
}

// keepCorner adds a corner as a variant, beside the one that it came from.
func (w *Window) keepCorner(name, notes string, c kinematics.Corner, also func(v *job.Variant)) error {
	w.cancelHand()
	from := w.doc.Current()
	err := w.doc.AddVariant(name, func(v *job.Variant) {
		document.SetCorner(v, c)
		v.Notes = notes
		if also != nil {
			also(v)
		}
	})
	if err == nil {
		w.doc.Compare(from)
		w.refresh()
	}
	return err
}

// addVariants appends variants in one edit, beside the one that they came from;
// a single one is shown.
func (w *Window) addVariants(name string, from int, list []job.Variant) error {
	w.cancelHand()
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
