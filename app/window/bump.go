package window

import (
	"fyne.io/fyne/v2"

	"armscribe/app/bumppage"
	"armscribe/app/document"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// bumpSize is the most that the page on bump steer takes.
var bumpSize = fyne.NewSize(1700, 1200)

// openBump opens the page on bump steer.
func (w *Window) openBump() {
	w.stopPlay()
	p := bumppage.New(w.pageHost())
	w.openPage("Bump steer", p.Object(), bumpSize, p.Show)
	w.page.closed = p.Stop
}

// pageHost lets a page work on the document.
func (w *Window) pageHost() pages.Host {
	return pages.Host{
		Job:     func() *job.Job { return w.doc.Job() },
		Variant: func() int { return w.doc.Current() },
		Unit:    func() units.Unit { return w.unit },
		Edit: func(name string, change func(j *job.Job)) error {
			err := w.doc.EditJob(name, "", change)
			if err == nil {
				w.refresh()
			}
			return err
		},
		Keep:    w.keepCorner,
		GoTo:    w.jumpTo,
		Do:      fyne.Do,
		Dialogs: &w.dialogs, Folder: w.folder,
	}
}

// jumpTo closes the page and shows the corner elsewhere.
func (w *Window) jumpTo(travel, rack, roll float64) {
	w.closePage()
	w.stopPlay()
	w.position = frame.Position{Travel: travel, Rack: rack, Roll: roll}
	w.move()
}

// keepCorner adds a corner as a variant, beside the one that it came from.
func (w *Window) keepCorner(name, notes string, c kinematics.Corner, also func(v *job.Variant)) error {
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
