package trackpage

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/plates"
)

// effort shows forces in the steering in three cases, beside those of the
// measured corner, under conditions that can be typed.
type effort struct {
	pages.Part
	lastGood[effortAnswer]
	p           *Page
	weight      *pages.Field
	turn, wheel *pages.JobLength
	bump        *pages.Number
	shares      [shareCount]*share
	fields      *fyne.Container
	usual       *keyed.Button
	view        *pages.View
	picture     *pages.Picture
	filling     bool
}

// effortAnswer is one variant beside the measured one.
type effortAnswer struct {
	*report.EffortsBeside
	compares bool // it is another than the measured one
}

// The numbers without a unit among the conditions.
const (
	parkingGrip = iota
	leftGrip
	rightGrip
	bumpLoad
	bumpPush
	shareCount
)

func newEffort(p *Page) *effort {
	e := &effort{lastGood: newLastGood[effortAnswer](), p: p, view: pages.NewView(), fields: pages.Flow()}
	const width = 64
	e.weight = pages.NewField(width)
	e.weight.Done = e.takeWeight
	e.turn = pages.NewJobLength(&p.host.Host, "the rack's way for a turn of the steering wheel", e.note, func(j *job.Job) *job.Optional { return &j.Steering.RackPerTurn })
	e.wheel = pages.NewJobLength(&p.host.Host, "the diameter of the steering wheel", e.note, func(j *job.Job) *job.Optional { return &j.Steering.WheelDiameter })
	e.bump = pages.NewLength("travel of the bump", width)
	e.bump.Live = true
	for i, s := range [shareCount]struct {
		what string
		most float64
	}{{"grip for parking", mostGrip}, {"grip on the left", mostGrip}, {"grip on the right", mostGrip}, {"more load of the bump", mostShare}, {"push of the bump", mostShare}} {
		e.shares[i] = newShare(s.what, s.most, width)
		e.shares[i].OnChanged = e.changed
	}
	e.bump.OnChanged = e.changed
	e.usual = keyed.NewButton("Back to the usual grips and bump", e.putUsual)
	e.fillUsual()
	e.picture = pages.NewPicture()
	indicative := pages.Prose()
	indicative.TextStyle.Bold = true
	indicative.SetText("INDICATIVE ONLY: to compare one layout with another. It judges no part's strength.")
	content := container.NewVBox(indicative, e.fields, container.NewHBox(e.usual), e.note.Label, e.whose.Label, e.view.Object())
	e.Part = pages.NewPart("Effort", content, e.picture)
	return e
}

// Limits of the conditions.
const (
	mostGrip  = 3.0
	mostShare = 10.0
)

// Show follows the job.
func (e *effort) Show() {
	e.filling = true
	e.weight.Hold(e.p.host.Job().CornerWeight.Text())
	e.turn.Show()
	e.wheel.Show()
	follow(e.bump, e.p.unit())
	e.filling = false
	e.placeholders()
	e.writeFields()
	e.work()
}

// placeholders say in empty fields what is assumed.
func (e *effort) placeholders() {
	unit := e.p.unit()
	assumed, weight := report.AssumedLoading(e.p.host.Job().Units)
	e.weight.SetPlaceHolder(weight.Text())
	e.turn.SetPlaceHolder(pages.ShortLength(assumed.RackPerTurn, unit))
	e.wheel.SetPlaceHolder(pages.ShortLength(assumed.RimDiameter, unit))
}

func (e *effort) rear() bool { return e.p.host.Job().Axle == job.Rear }

// writeFields lays out the fields that the axle needs.
func (e *effort) writeFields() {
	unit := e.p.unit().String()
	list := []fyne.CanvasObject{pages.Asked("corner weight", e.weight)}
	if !e.rear() {
		list = append(list, pages.Asked("rack per turn, "+unit, e.turn.Field), pages.Asked("steering wheel, "+unit, e.wheel.Field),
			pages.Asked("grip for parking", e.shares[parkingGrip].Field))
	}
	e.fields.Objects = append(list, pages.Asked("for braking, left", e.shares[leftGrip].Field, "right", e.shares[rightGrip].Field),
		pages.Asked("bump: up by, "+unit, e.bump.Field), pages.Asked("more load, x weight", e.shares[bumpLoad].Field), pages.Asked("push, x weight", e.shares[bumpPush].Field))
	e.fields.Refresh()
}

// takeWeight holds a typed corner weight in the job.
func (e *effort) takeWeight(text string) {
	if !e.weight.Owing() {
		return
	}
	var next job.Weight
	if strings.TrimSpace(text) != "" {
		var err error
		if next, err = job.ParseWeight(text, e.p.unit()); err != nil {
			e.note.Wrong("corner weight: ", err)
			return
		}
	}
	held := e.weight.Held
	e.weight.Taken()
	if err := e.p.host.Edit("type the corner weight", func(j *job.Job) { j.CornerWeight = next }); err != nil {
		e.weight.Held = held
		e.note.Wrong("", err)
	}
}

// fillUsual puts the usual grips and bump into their fields.
func (e *effort) fillUsual() {
	u := report.UsualUnder(e.p.host.Job().Units)
	e.filling = true
	for i, v := range [shareCount]float64{u.Parking, u.Left, u.Right, u.BumpLoad, u.BumpKick} {
		e.shares[i].SetText(units.Trimmed(v, 3))
	}
	e.bump.Set(u.BumpTravel, e.p.unit())
	e.filling = false
}

func (e *effort) putUsual() {
	e.fillUsual()
	e.work()
}

// changed takes a keystroke in a field of the page's own.
func (e *effort) changed(string) {
	if !e.filling {
		e.work()
	}
}

// under reads the grips and the bump; the error joins all that is wrong with them.
func (e *effort) under() (report.Under, error) {
	var v [shareCount]float64
	var errs []error
	for i, s := range e.shares {
		if i == parkingGrip && e.rear() {
			continue
		}
		var err error
		v[i], err = s.value()
		mark(s.Field, err)
		errs = append(errs, err)
	}
	travel, err := e.bump.Value()
	mark(e.bump.Field, err)
	return report.Under{Parking: v[parkingGrip], Left: v[leftGrip], Right: v[rightGrip], BumpTravel: travel, BumpLoad: v[bumpLoad], BumpKick: v[bumpPush]}, errors.Join(append(errs, err)...)
}

// work computes anew.
func (e *effort) work() {
	e.next(e.ask())
	e.write()
}

func (e *effort) ask() (*effortAnswer, error) {
	under, err := e.under()
	if err != nil {
		return nil, err
	}
	variant := e.p.host.Variant()
	beside, err := report.EffortsBesideOf(e.p.host.Job(), variant, 0, report.Loading{Under: under})
	if err != nil {
		return nil, err
	}
	return &effortAnswer{beside, variant != 0}, nil
}

// write shows the answer.
func (e *effort) write() {
	a := e.answer
	if a == nil {
		e.view.Show(nil)
		e.picture.Put(plates.Words("no answer under these conditions"))
		return
	}
	e.tell("“" + a.Now.Source.Variant + "” under the last conditions that could be read")
	now := *a.Now
	now.Source.Unit = e.p.unit()
	beside := a.EffortsBeside
	if !a.compares {
		beside = nil
	}
	e.view.Show(now.Sheet(beside))
	plate := a.Plate(a.compares, e.p.unit())
	plate.Stale = e.stale
	e.picture.Put(plate)
}
