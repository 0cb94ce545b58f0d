package trackpage

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/canvas/plates"
	swept "armscribe/kinematics/clearance"
)

// lock shows how the wheels steer from stop to stop, what ends the lock, and
// the turning circle in plan.
type lock struct {
	pages.Part
	p         *Page
	note      *pages.Notice
	wheelbase *pages.JobLength
	way       *keyed.Radio
	unit      *widget.Label
	view      *pages.View
	rest      *fyne.Container
	picture   *pages.Picture

	now, before *report.Lock // nil for none; before also where the measured variant is shown
	curve, was  []report.LockRow
	tyre        swept.Tyre
}

// curveStretches is how many stretches a curve over the rack is drawn with.
const curveStretches = 48

func newLock(p *Page) *lock {
	k := &lock{p: p, note: pages.NewNotice(), unit: widget.NewLabel(""), view: pages.NewView()}
	k.view.GoTo = p.host.GoTo
	k.wheelbase = pages.NewJobLength(&p.host.Host, "the wheelbase", k.note, func(j *job.Job) *job.Optional { return &j.Wheelbase })
	k.way = keyed.NewRadio(report.LockWays, func(string) { k.write() })
	k.way.Selected = report.LockWays[1]
	k.picture = pages.NewPicture()
	fields := pages.Flow(pages.Asked("wheelbase", k.wheelbase.Field), k.unit)
	k.rest = container.NewVBox(fields, k.way, k.view.Object())
	content := container.NewVBox(k.note.Label, k.rest)
	k.Part = pages.NewPart("Lock and circle", content, k.picture)
	return k
}

// Show follows the job.
func (k *lock) Show() {
	j, variant := k.p.host.Job(), k.p.host.Variant()
	k.now, k.before, k.curve, k.was = nil, nil, nil, nil
	k.rest.Hide()
	step := report.RackStep(j, k.p.unit())
	now, err := report.LockOf(j, variant, step)
	if err == nil {
		k.curve, err = report.LockCurve(j, variant, curveStretches)
	}
	switch {
	case errors.Is(err, report.ErrNoSteering):
		k.note.Say("This axle does not steer: its toe links end on the body. There is neither lock nor turning circle here.")
	case err != nil:
		k.note.Wrong("", err)
	default:
		k.now = now
		k.now.Source.Unit = k.p.unit()
		k.note.Say("")
		k.rest.Show()
	}
	if err == nil && variant != 0 {
		if k.before, err = report.LockOf(j, 0, step); err == nil {
			k.was, err = report.LockCurve(j, 0, curveStretches)
		}
		if err != nil {
			k.before, k.was = nil, nil
			k.note.Wrong("Nothing to set beside this variant: ", err)
		}
	}
	k.tyre, _ = clearance.TyreOf(k.p.host.Shown())
	k.write()
}

// write shows the answer.
func (k *lock) write() {
	if k.now == nil {
		k.picture.Put(plates.Words("no steering here"))
		return
	}
	k.wheelbase.Show()
	k.unit.SetText(k.p.unit().String() + ", for Ackermann error and circle")
	k.view.Show(k.now.Sheet(k.before, k.chosen()))
	k.Settle()
	k.picture.Put(k.now.Plate(k.curve, k.before, k.was, k.chosen(), k.tyre))
}

// chosen is the way that is looked at.
func (k *lock) chosen() int {
	if k.way.Selected == report.LockWays[0] {
		return 0
	}
	return 1
}
