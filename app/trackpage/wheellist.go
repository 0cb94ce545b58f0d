package trackpage

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
)

// wheelList is the job's list of wheels available.
type wheelList struct {
	p       *Page
	grid    *pages.Grid
	fields  [5]*pages.Field // name, tyre, rim width, offset, loaded radius
	add     *keyed.Button
	note    *pages.Notice
	offsets *pages.View // that keep the measured scrub radius
	content fyne.CanvasObject
}

// The fields in their order.
const (
	wheelName = iota
	wheelTyre
	wheelRim
	wheelOffset
	wheelRadius
)

func newWheelList(p *Page) *wheelList {
	w := &wheelList{p: p, grid: pages.NewGrid("ll"), note: pages.NewNotice(), offsets: pages.NewView()}
	w.grid.Tight = true
	for i, f := range []struct {
		width float32
		hint  string
	}{{150, ""}, {110, "205/65R15"}, {90, "6 in"}, {80, ""}, {80, "estimate"}} {
		w.fields[i] = pages.NewField(f.width)
		w.fields[i].SetPlaceHolder(f.hint)
		w.fields[i].Entered = w.addIt
	}
	w.add = keyed.NewButton("Add", w.addIt)
	asked := pages.Flow(pages.Asked("name", w.fields[wheelName]), pages.Asked("tyre", w.fields[wheelTyre]), pages.Asked("rim width", w.fields[wheelRim]),
		pages.Asked("offset", w.fields[wheelOffset]), pages.Asked("loaded radius", w.fields[wheelRadius]), w.add)
	w.content = container.NewVBox(pages.Heading("Wheels available"), w.grid.Content, asked, w.note.Label,
		pages.Hint("The variant's own wheel is always looked at. These stand in the job, and every section and armcalc reach see the same."),
		pages.Heading("Offsets that keep the measured scrub radius"), w.offsets.Object())
	return w
}

// show lists the job's wheels.
func (w *wheelList) show() {
	g, unit := w.grid, w.p.unit()
	w.fields[wheelOffset].SetPlaceHolder(pages.Pick(unit == units.Inch, "20 mm", "20"))
	g.Clear()
	for i := range w.p.host.Job().Wheels {
		k := &w.p.host.Job().Wheels[i]
		radius := "estimate"
		if k.LoadedRadius.Given {
			radius = units.ShortLength(k.LoadedRadius.MM, unit)
		}
		g.Across(0, pages.Bold(k.Name))
		g.Row(pages.Plain(k.Tyre+" on "+inches(k.RimWidth.MM)+", offset "+units.ShortLength(k.Offset.MM, unit)+", radius "+radius), keyed.NewButton("Take out", func() { w.remove(i) }))
	}
	g.Done()
	o := report.OffsetsOf(w.p.host.Job(), w.p.host.Variant())
	o.Source.Unit = unit
	w.offsets.Show(o.Sheet())
}

// choice reads the fields; the error joins all that is wrong with them.
func (w *wheelList) choice() (k job.WheelChoice, err error) {
	var errs []error
	length := func(at int, what string) units.Length {
		text := w.fields[at].Text
		if strings.TrimSpace(text) == "" {
			errs = append(errs, fmt.Errorf("%s: %w", what, pages.ErrBlank))
			return units.Length{}
		}
		l, err := units.ParseLength(text, w.p.unit())
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", what, err))
		}
		return l
	}
	k.Name, k.Tyre = strings.TrimSpace(w.fields[wheelName].Text), strings.TrimSpace(w.fields[wheelTyre].Text)
	if k.Tyre == "" {
		errs = append(errs, fmt.Errorf("tyre: %w", pages.ErrBlank))
	}
	k.RimWidth, k.Offset = length(wheelRim, "rim width"), length(wheelOffset, "offset")
	if strings.TrimSpace(w.fields[wheelRadius].Text) != "" {
		k.LoadedRadius = job.Given(length(wheelRadius, "loaded radius"))
	}
	if k.Name == "" {
		k.Name = w.freeName(k.Tyre + " offset " + strings.TrimSpace(w.fields[wheelOffset].Text))
	}
	return k, errors.Join(errs...)
}

// freeName is a name that no wheel of the job has.
func (w *wheelList) freeName(name string) string {
	return job.FreeName(name, func(name string) bool {
		return slices.ContainsFunc(w.p.host.Job().Wheels, func(k job.WheelChoice) bool { return k.Name == name })
	})
}

// addIt adds the wheel in the fields to the job.
func (w *wheelList) addIt() {
	defer w.p.reach.Settle()
	k, err := w.choice()
	if err == nil {
		err = w.p.host.Edit("add wheel "+k.Name, func(j *job.Job) { j.Wheels = append(j.Wheels, k) })
	}
	if err != nil {
		w.note.Wrong("Not added. ", err)
		return
	}
	for _, f := range w.fields {
		f.SetText("")
	}
	w.note.Say("“" + k.Name + "” is one of the wheels available now.")
}

// remove takes a wheel out of the job.
func (w *wheelList) remove(i int) {
	defer w.p.reach.Settle()
	name := w.p.host.Job().Wheels[i].Name
	if err := w.p.host.Edit("take wheel "+name+" out", func(j *job.Job) { j.Wheels = slices.Delete(j.Wheels, i, i+1) }); err != nil {
		w.note.Wrong("", err)
		return
	}
	w.note.Say("“" + name + "” is out of the list.")
}
