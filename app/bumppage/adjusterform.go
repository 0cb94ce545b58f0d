package bumppage

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/units"
)

// adjusterForm adds an adjuster to the job, changes one or takes one out. What
// is typed stays until it is kept or another adjuster is chosen.
type adjusterForm struct {
	p                    *Page
	list, kind, at, sets *keyed.Select
	name                 *pages.Field
	parts                []*part
	grid                 *fyne.Container
	hint                 *widget.Label
	note                 *pages.Notice
	keep, drop           *keyed.Button
	kindCell, atCell     fyne.CanvasObject
	listCell, setsCell   fyne.CanvasObject
	body, content        *fyne.Container
	chosen               string       // name of the one in the fields; empty for a new one
	held                 job.Adjuster // what the job holds of it
	unit                 units.Unit   // in which the fields' bare numbers are
	ready, filling       bool
}

const newAdjuster = "a new one"

func newAdjusterForm(p *Page) *adjusterForm {
	f := &adjusterForm{p: p, name: pages.NewField(190), parts: newParts(), grid: container.NewVBox(), hint: pages.Prose(), body: container.NewVBox(), note: pages.NewNotice()}
	f.list = keyed.NewSelect(nil, func(string) { f.user(f.choose) })
	f.kind = keyed.NewSelect(wordsOf(kindChoices), func(string) { f.user(f.changeKind) })
	f.at = keyed.NewSelect(nil, nil)
	f.sets = keyed.NewSelect(wordsOf(setsChoices), nil)
	f.listCell, f.kindCell, f.atCell, f.setsCell = pages.Wide(f.list, 240), pages.Wide(f.kind, 190), pages.Wide(f.at, 210), pages.Wide(f.sets, 150)
	f.keep = keyed.NewButton("", f.keepIt)
	f.keep.Importance = widget.HighImportance
	for _, p := range f.parts {
		p.field.Entered = f.keepIt
	}
	f.name.Entered = f.keepIt
	back := keyed.NewButton("Put back what was", f.putBack)
	f.drop = keyed.NewButton("Take it out", f.remove)
	first := pages.Flow(pages.Asked("in the fields:", f.listCell), f.drop)
	f.content = container.NewVBox(pages.Heading("The job's adjusters"), first, f.body, f.hint, container.NewHBox(f.keep, back), f.note.Label)
	return f
}

// user acts on a choice of a hand, not on one of the program.
func (f *adjusterForm) user(do func()) {
	if !f.filling {
		do()
	}
}

// show follows the job. What is being typed stays, unless its adjuster is gone.
func (f *adjusterForm) show() {
	i := f.index()
	if f.chosen != "" && i < 0 {
		f.chosen, f.ready = "", false
	}
	var a job.Adjuster
	if i >= 0 {
		a = f.job().Adjusters[i]
	}
	unit := f.p.host.Unit()
	switch {
	case !f.ready || !f.touched() && (a != f.held || unit != f.unit):
		f.load(a)
	case a != f.held || unit != f.unit:
		f.follow(&a, unit)
	}
	f.held = a
	f.showList()
}

func (f *adjusterForm) job() *job.Job { return f.p.host.Job() }

// index is the place of the chosen adjuster, -1 for a new one or one that is gone.
func (f *adjusterForm) index() int {
	return slices.IndexFunc(f.job().Adjusters, func(a job.Adjuster) bool { return a.Name == f.chosen })
}

func (f *adjusterForm) showList() {
	names := make([]string, 0, len(f.job().Adjusters)+1)
	for i := range f.job().Adjusters {
		names = append(names, f.job().Adjusters[i].Name)
	}
	f.filling = true
	f.list.Options = append(names, newAdjuster)
	if f.chosen == "" {
		f.list.SetSelectedIndex(len(names))
		f.keep.SetText("Add it")
		f.drop.Hide()
	} else {
		f.list.SetSelectedIndex(f.index())
		f.keep.SetText("Keep the change")
		f.drop.Show()
	}
	f.filling = false
}

// choose puts another adjuster into the fields, unless something would be lost.
func (f *adjusterForm) choose() {
	if f.touched() {
		f.note.Say("What is typed is not in the job yet: keep it, or put back what was, before another is chosen.")
		f.showList()
		return
	}
	f.chosen = ""
	if i := f.list.SelectedIndex(); i < len(f.job().Adjusters) {
		f.chosen = f.job().Adjusters[i].Name
	}
	f.ready = false
	f.note.Say("")
	f.show()
}

// load fills every field from an adjuster; a new one starts as a rod end.
func (f *adjusterForm) load(a job.Adjuster) {
	f.unit, f.ready = f.p.host.Unit(), true
	if a.Kind == 0 {
		a.Kind = job.RodEnd
	}
	f.filling = true
	f.name.Held = a.Name
	f.name.SetText(a.Name)
	f.kind.SetSelected(wordOf(kindChoices, a.Kind))
	f.places(*placeOfAdjuster(&a))
	f.sets.SetSelected(wordOf(setsChoices, a.Sets))
	for _, p := range f.parts {
		p.field.Held = p.text(&a, f.unit)
		p.field.SetText(p.field.Held)
	}
	f.filling = false
	f.build()
}

// follow shows what the job holds now, and in which unit, where nothing has been
// typed over it; bare numbers in the making turn into that unit.
func (f *adjusterForm) follow(a *job.Adjuster, unit units.Unit) {
	f.name.Hold(a.Name)
	for _, p := range f.parts {
		l, err := units.ParseLength(p.field.Text, f.unit)
		if p.length != nil && p.field.Owing() && err == nil && l.Typed == "" {
			p.field.SetText(pages.ShortLength(l.MM, unit))
		}
		p.field.Hold(p.text(a, unit))
	}
	f.unit = unit
	f.build()
}

// places lists those of the present kind and chooses one.
func (f *adjusterForm) places(at job.Place) {
	list := placesOf(f.chosenKind())
	f.at.Options = wordsOf(list)
	f.at.SetSelected(wordOf(list, at))
}

func (f *adjusterForm) chosenKind() job.AdjusterKind { return valueOf(kindChoices, f.kind.Selected) }

// changeKind shows the fields of another kind; what they held stays in them.
func (f *adjusterForm) changeKind() {
	f.places(valueOf(slices.Concat(legChoices, shimChoices), f.at.Selected))
	f.build()
}

var kindHints = map[job.AdjusterKind]string{
	job.RodEnd:    "Out: by how much the leg can still grow, in: by how much it can shrink. Engaged: thread in engagement as it stands.",
	job.RightLeft: "Both threads turn together: one turn makes the leg longer by both pitches. Engaged: as it stands.",
	job.Eccentric: "The way in which the pivot moves, as a direction, such as y 1. Throw: most that it moves from the middle, either way; stands at: where it is now.",
	job.ShimPack:  "The way in which the pivot moves as shims are added. Out: thickness that can still be added, in: that can be taken out.",
}

// build lays out the fields of the present kind.
func (f *adjusterForm) build() {
	kind := f.chosenKind()
	f.grid.Objects = nil
	where := pages.Pick(kind == job.Eccentric || kind == job.ShimPack, "moves", "on")
	head := pages.Flow(pages.Asked("name", f.name), pages.Asked("is", f.kindCell), pages.Asked(where, f.atCell), pages.Asked("sets", f.setsCell))
	for _, group := range groupsOf(kind) {
		row := pages.Flow(pages.Asked(groupTitles[group]))
		for _, p := range f.parts {
			if p.group == group {
				row.Add(pages.Asked(pages.Quiet(p.label), p.field))
			}
		}
		f.grid.Add(row)
	}
	f.hint.SetText("Lengths in " + unitName(f.unit) + ". " + kindHints[kind])
	f.body.Objects = []fyne.CanvasObject{head, f.grid}
	f.content.Refresh()
}

// read is the adjuster in the fields; the error joins all that is wrong.
func (f *adjusterForm) read() (job.Adjuster, error) {
	was := f.held
	a := job.Adjuster{Name: strings.TrimSpace(f.name.Text), Kind: f.chosenKind(), Sets: valueOf(setsChoices, f.sets.Selected)}
	*placeOfAdjuster(&a) = valueOf(placesOf(a.Kind), f.at.Selected)
	var errs []error
	if a.Name == "" {
		errs = append(errs, fmt.Errorf("name: %w", pages.ErrBlank))
	}
	for _, p := range f.parts {
		if !slices.Contains(groupsOf(a.Kind), p.group) {
			continue
		}
		if p.length != nil {
			*p.length(&a) = *p.length(&was)
		} else {
			*p.plain(&a) = *p.plain(&was)
		}
		if err := p.take(&a, f.unit); err != nil {
			errs = append(errs, err)
		}
	}
	return a, errors.Join(errs...)
}

// touched tells whether the fields say something else than the job.
func (f *adjusterForm) touched() bool {
	if f.name.Owing() || slices.ContainsFunc(f.parts, func(p *part) bool { return p.field.Owing() }) {
		return true
	}
	was := f.held
	if was.Kind == 0 {
		was.Kind = job.RodEnd
	}
	return f.chosenKind() != was.Kind || valueOf(setsChoices, f.sets.Selected) != was.Sets ||
		f.at.Selected != wordOf(placesOf(was.Kind), *placeOfAdjuster(&was))
}

// keepIt puts the adjuster in the fields into the job.
func (f *adjusterForm) keepIt() {
	a, err := f.read()
	if err != nil {
		f.note.Wrong("Not kept: ", err)
		return
	}
	i, before, held := f.index(), f.chosen, f.held
	name := pages.Pick(i < 0, "add adjuster ", "change adjuster ") + a.Name
	f.chosen, f.ready = a.Name, false // its new name, for what is shown meanwhile
	err = f.p.host.Edit(name, func(j *job.Job) {
		if i < 0 {
			j.Adjusters = append(j.Adjusters, a)
		} else {
			j.Adjusters[i] = a
		}
	})
	if err != nil {
		f.chosen, f.held, f.ready = before, held, true
		f.note.Wrong("Not kept: ", err)
		return
	}
	f.note.Say("“" + a.Name + "” is kept. Ctrl+Z takes it back.")
}

// putBack drops what is typed.
func (f *adjusterForm) putBack() {
	f.ready = false
	f.note.Say("")
	f.show()
}

// remove takes the chosen adjuster out of the job.
func (f *adjusterForm) remove() {
	i := f.index()
	if i < 0 {
		return
	}
	name := f.chosen
	if err := f.p.host.Edit("take adjuster "+name+" out", func(j *job.Job) { j.Adjusters = slices.Delete(j.Adjusters, i, i+1) }); err != nil {
		f.note.Wrong("", f.p.said(err))
		return
	}
	f.note.Say("“" + name + "” is out of the list. Ctrl+Z takes it back.")
}

// unitName is the unit in a sentence.
func unitName(u units.Unit) string { return pages.Pick(u == units.Inch, "inches", u.String()) }
