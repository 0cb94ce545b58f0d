package trackpage

import (
	"fyne.io/fyne/v2/container"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// facts is everything that follows from a tyre and a wheel, beside the measured
// variant's.
type facts struct {
	lastGood[factsAnswer]
	pages.Part
	p                        *Page
	tyre                     *pages.Field
	rim, offset, back, space *pages.Number
	filling                  bool // the fields are filled, not typed
	typed                    bool // something else than the variant's wheel stands in the fields
	byBack                   bool // the backspacing was typed last, and the offset follows it
	unit                     units.Unit
	after                    *pages.Notice
	view                     *pages.View
	use, keep, list, reset   *keyed.Button
	plain                    footnote
	picture                  *pages.Picture
}

// factsAnswer is what follows from one wheel.
type factsAnswer struct {
	now *report.Wheel
	report.WheelBeside
	corner kinematics.Corner // of the variant on that wheel
}

func newFacts(p *Page) *facts {
	f := &facts{lastGood: newLastGood[factsAnswer](), p: p, after: pages.NewNotice(), view: pages.NewView()}
	f.tyre = pages.NewField(130)
	f.rim, f.offset = pages.NewLength("rim width", 100), pages.NewLength("offset", 100)
	f.back, f.space = pages.NewLength("backspacing", 100), pages.NewLength("spacer", 100)
	for _, k := range []*pages.Field{f.tyre, f.rim.Field, f.offset.Field, f.back.Field, f.space.Field} {
		k.Live = true
	}
	f.tyre.OnChanged = func(string) { f.changed(false) }
	f.rim.OnChanged = func(string) { f.changed(f.byBack) }
	f.offset.OnChanged = func(string) { f.changed(false) }
	f.back.OnChanged = func(string) { f.changed(true) }
	f.space.OnChanged = func(string) { f.changed(f.byBack) }
	fields := pages.NewGrid("llll")
	fields.Tight = true
	fields.Row(pages.Plain("tyre"), f.tyre, pages.Plain("offset"), f.offset.Field)
	fields.Row(pages.Plain("rim width"), f.rim.Field, pages.Plain("or backspacing"), f.back.Field)
	fields.Row(pages.Plain("spacer"), f.space.Field)
	f.use = keyed.NewButton("Use on the variant", f.useIt)
	f.keep = keyed.NewButton("Keep as a variant", f.keepIt)
	f.list = keyed.NewButton("Add to the wheels available", f.listIt)
	f.reset = keyed.NewButton("Back to its own wheel", f.putBack)
	f.picture = pages.NewPicture()
	f.plain = newFootnote()
	words := container.NewVBox(fields.Content, f.plain.RichText, f.note.Label, f.whose.Label,
		pages.Flow(f.use, f.keep, f.list, f.reset), f.after.Label, f.view.Object())
	f.Part = pages.NewPart("Wheel and tyre", words, f.picture)
	return f
}

// Show follows the job.
func (f *facts) Show() {
	unit := f.p.unit()
	f.filling = true
	if !f.typed {
		f.fill()
	} else if f.unit != unit {
		for _, n := range f.numbers() {
			follow(n, unit)
		}
	}
	f.unit, f.filling = unit, false
	f.plain.say(plainNumbers(unit))
	f.work()
}

// work computes what follows from the fields.
func (f *facts) work() {
	defer f.Settle()
	f.next(f.ask())
	for _, b := range []*keyed.Button{f.use, f.keep, f.list} {
		f.allow(b, true)
	}
	if f.typed {
		f.reset.Enable()
	} else {
		f.reset.Disable()
	}
	f.write()
}

// ask works out the fields' wheel, beside the measured one.
func (f *facts) ask() (*factsAnswer, error) {
	spec, err := f.spec()
	if err != nil {
		return nil, err
	}
	now, err := report.WheelOf(spec)
	if err != nil {
		return nil, err
	}
	j := f.p.host.Job()
	a := &factsAnswer{now: now, WheelBeside: report.WheelBeside{First: j.Variants[0].Name}}
	if measured, err := report.WheelOf(report.WheelSpecOf(j, 0)); err == nil {
		a.Measured = measured
	}
	on := *f.p.host.Shown()
	on.Wheel = f.wheel(&spec)
	a.Gaps = report.WheelGaps(j, f.p.host.Variant(), on.Wheel)
	a.corner = on.Corner()
	a.Kept, a.KeptErr = report.KeepScrub(j, f.p.host.Variant(), spec)
	return a, nil
}

// useIt puts the wheel on the variant shown.
func (f *facts) useIt() {
	defer f.Settle()
	spec, err := f.spec()
	if err != nil {
		return // the notice says so
	}
	wheel, scaled, variant := f.wheel(&spec), f.scaledWords(&spec), f.p.host.Variant()
	f.typed = false
	err = f.p.host.Edit("use wheel "+f.name(&spec), func(j *job.Job) { j.Variants[variant].Wheel = wheel })
	if err != nil {
		f.typed = true
		f.after.Wrong("Not used: ", err)
		return
	}
	f.after.Say("“" + f.p.host.Shown().Name + "” stands on this wheel now." + scaled)
}

// keepIt keeps the wheel as a variant of its own.
func (f *facts) keepIt() {
	defer f.Settle()
	spec, err := f.spec()
	if err != nil {
		return
	}
	from, v := f.p.host.Variant(), f.p.host.Shown()
	kept := v.Proposal(v.Name + ", " + f.name(&spec))
	kept.Wheel, kept.Notes = f.wheel(&spec), "Another wheel on "+v.Name+"."
	scaled := f.scaledWords(&spec)
	f.typed = false
	if f.p.add(f.after, from, kept) {
		f.after.Say("Kept as “" + f.p.host.Shown().Name + "”, which is now shown." + scaled)
	} else {
		f.typed = true
	}
}

// listIt adds the wheel to those available.
func (f *facts) listIt() {
	defer f.Settle()
	spec, err := f.spec()
	if err != nil {
		return
	}
	w := f.wheel(&spec)
	k := job.WheelChoice{Name: f.p.reach.wheels.freeName(f.name(&spec)), Tyre: w.Tyre, RimWidth: w.RimWidth, Offset: w.Offset}
	if !w.Loaded().Estimate {
		k.LoadedRadius = w.LoadedRadius
	}
	if err := f.p.host.Edit("add wheel "+k.Name, func(j *job.Job) { j.Wheels = append(j.Wheels, k) }); err != nil {
		f.after.Wrong("Not added: ", err)
		return
	}
	f.after.Say("“" + k.Name + "” is one of the wheels available now: Find a way looks at it.")
}

func (f *facts) putBack() {
	f.typed = false
	f.after.Say("")
	f.Show()
}
