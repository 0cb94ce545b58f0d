package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/bumppage"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/jobcard"
	"armscribe/app/pages"
	"armscribe/app/panels"
	"armscribe/app/trackpage"
	"armscribe/kinematics"
)

// step is a part of the work, as the card lists them. The one that is chosen says what
// strips and answer are about; the corner stays.
type step uint8

// The steps, as they stand on the card; after the first those of the job card.
const (
	atAGlance step = iota
	measure
	fit
	arms
	steering
	ride
	check
	handOver
	stepCount
)

func (s step) String() string {
	if s == atAGlance {
		return "At a glance"
	}
	return jobcard.Step(s - measure).String()
}

// The sections that something leads to, by their names.
const (
	diagnosisSection = "Diagnosis"
	pointsSection    = "Points"
	carSection       = "Car"
	photoSection     = "Photo"
	wheelSection     = "Wheel"
	springSection    = "Spring"
	targetsSection   = "Targets"
	clearanceSection = "Clearance"
	besideSection    = "Side by side"
	notesSection     = "Notes"
	papersSection    = "Papers"
)

// firstStrips are the curves that a step begins with.
var firstStrips = [stepCount][]frame.Curve{
	atAGlance: {curveFor(kinematics.Toe), curveFor(kinematics.Camber), curveFor(kinematics.TieRodError)},
	measure:   {curveFor(kinematics.Toe), curveFor(kinematics.Camber)},
	fit:       {curveFor(kinematics.Camber)},
	arms:      {curveFor(kinematics.Camber), curveFor(kinematics.RollCentreHeight)},
	steering:  {curveFor(kinematics.Toe)},
	ride:      {curveFor(kinematics.MotionRatio), curveFor(kinematics.SpringLength)},
	check:     {curveFor(kinematics.Toe)},
	handOver:  {curveFor(kinematics.Toe), curveFor(kinematics.Camber)},
}

// beside are the readings that stay under the answer of a step, and follow the hand.
var beside = [stepCount][]kinematics.Quantity{
	measure:  {kinematics.Camber, kinematics.Toe, kinematics.HalfTrack},
	fit:      {kinematics.HalfTrack, kinematics.ScrubRadius, kinematics.RollCentreHeight},
	arms:     {kinematics.Camber, kinematics.CamberGain, kinematics.RollCentreHeight, kinematics.ScrubRadius},
	steering: {kinematics.Toe, kinematics.RideToe, kinematics.TieRodError},
	ride:     {kinematics.MotionRatio, kinematics.SpringLength},
}

func curveFor(q kinematics.Quantity) frame.Curve { return frame.CurveOf(q) }

// answers is the answer column: a book for each step, of the job that is open.
type answers struct {
	step  step
	books [stepCount]*pages.Book
	shown *fyne.Container // holds the book of the step
	brief *panels.Readings
	bump  *bumppage.Page
	host  pages.Host
	following
	// proposal is the corner that the answer would keep, seen in the view in the
	// compared one's stead; nil for none.
	proposal *job.Variant

	targets *panels.Targets
	beside  *pages.View
	notes   *notesSheet
}

// makeAnswers makes the books of a job anew: what was typed into the answers of
// another job is forgotten, and what they work at ends.
func (w *Window) makeAnswers() {
	a := &w.answer
	a.proposal = nil
	if a.bump != nil {
		a.bump.Stop()
	}
	a.host = w.pageHost()
	a.bump = bumppage.New(a.host)
	track := trackpage.New(trackpage.Host{Host: a.host, Add: w.addVariants})
	whole := func(name string, o fyne.CanvasObject, fill func()) pages.Section {
		return &pages.Whole{Title: name, Content: o, Fill: fill}
	}
	panel := func(show func(in panels.Input)) func() { return func() { show(w.panelInput()) } }
	targets := whole(targetsSection, a.targets, w.fillTargets)
	beside := pages.NewPart(besideSection, a.beside.Object(), nil)
	beside.Wide()
	papers := pages.NewPart(papersSection, w.papers(), nil)
	nothing := func() {}
	book := func(s step, sections ...pages.Section) {
		title := s.String()
		if s == atAGlance {
			title = "" // the readings have a heading of their own
		}
		a.books[s] = pages.NewBook(title, sections...)
	}
	book(atAGlance, whole("Readings", w.readings, nothing))
	book(measure, whole(pointsSection, w.points, panel(w.points.SetInput)), whole(carSection, w.car, panel(w.car.SetInput)),
		whole(photoSection, w.photo.panel.content, w.photo.panel.show))
	book(fit, append([]pages.Section{whole(wheelSection, w.wheel, panel(w.wheel.SetInput))}, track.Fit()...)...)
	book(arms, append(track.Arms(), targets)...)
	a.books[steering] = a.bump.Book
	book(ride, whole(springSection, w.spring, panel(w.spring.SetInput)))
	book(check, append([]pages.Section{targets, whole(clearanceSection, w.room.panel, w.room.fill)}, track.Check()...)...)
	book(handOver, &filled{beside, func() { a.beside.Show(w.comparison().Sheet()) }}, whole(notesSection, a.notes.content, a.notes.fill), &filled{papers, nothing})
	for _, b := range a.books {
		b.Opened = w.opened
		for _, s := range b.Sections() {
			if part, ok := s.(interface{ OnSettled(f func()) }); ok {
				part.OnSettled(w.propose)
			}
		}
	}
	a.shown.Objects = []fyne.CanvasObject{w.book().Object()}
}

// filled is a part that the window fills.
type filled struct {
	pages.Part
	fill func()
}

// Show fills it.
func (f *filled) Show() { f.fill(); f.Settle() }

// makeAnswerParts makes what all jobs share of the answers.
func (w *Window) makeAnswerParts() {
	w.answer.shown = container.NewStack()
	w.answer.brief = w.newReadings()
	w.answer.brief.Hide()
	w.answer.targets = w.newTargets()
	w.answer.beside = w.compareView()
	w.answer.notes = w.newNotes()
}

// book is the answer of the step that is chosen.
func (w *Window) book() *pages.Book { return w.answer.books[w.answer.step] }

// choose opens a step: its strips and its answer.
func (w *Window) choose(s step) {
	a := &w.answer
	if s != a.step {
		w.win.Canvas().Unfocus() // what a field still holds is handed in
		a.step = s
		a.shown.Objects = []fyne.CanvasObject{w.book().Object()}
		a.shown.Refresh()
		w.curves = w.prefs.curves(s)
		w.keepWithin()
		a.brief.Only(beside[s]...)
		show(a.brief, len(beside[s]) > 0)
	}
	w.opened()
}

// open opens a section of a step.
func (w *Window) open(s step, section string) {
	w.choose(s)
	w.book().Open(section)
}

// opened follows a step or a section that has been opened.
func (w *Window) opened() {
	w.refresh()
	w.body.Refresh()
	w.writeState() // with the places where all now stands
}

// isOpen tells whether a section is seen.
func (w *Window) isOpen(s step, section string) bool {
	return w.doc != nil && w.answer.step == s && w.book().Section().Name() == section
}

// showAnswer brings the open section up to date with the document.
func (w *Window) showAnswer() {
	a := &w.answer
	a.late = false
	wanted := w.book().Wants()
	w.book().SetOf(a.host.ShownWords())
	w.book().Show()
	w.propose()
	if w.book().Wants() != wanted {
		w.body.Refresh() // a table may need the strips' room now, or give it back
	}
}

// propose shows in the view what the open answer would keep, before it is kept.
func (w *Window) propose() {
	a := &w.answer
	var next *job.Variant
	if p, ok := w.book().Section().(pages.Proposer); ok {
		next = w.possible(p.Proposal())
	}
	if sameProposal(a.proposal, next) || w.view.Busy() {
		return
	}
	a.proposal = next
	w.solve(w.documentCase())
	w.show()
}

// possible is a proposal that the job could hold, else nil: the section says why not.
func (w *Window) possible(v *job.Variant) *job.Variant {
	if v == nil {
		return nil
	}
	with, named := *w.doc.Job(), *v
	named.Name = with.FreeName(v.Name)
	with.Variants = append(with.Variants[:len(with.Variants):len(with.Variants)], named)
	if len(with.Problems()) > 0 {
		return nil
	}
	return v
}

func sameProposal(a, b *job.Variant) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Name == b.Name && a.Wheel == b.Wheel && a.Corner() == b.Corner()
}

// proposed is the proposal, while no hand works at the corner that it belongs to.
func (w *Window) proposed() *job.Variant {
	if w.view.Busy() {
		return nil
	}
	return w.answer.proposal
}

// panelInput is what the panels of points, wheel and car show.
func (w *Window) panelInput() panels.Input {
	return panels.Input{Job: w.doc.Job(), Variant: w.doc.Variant(), Frame: &w.frame, Unit: w.unit, Targets: w.targetLines(), Proposed: w.proposed() != nil}
}

// focusIn opens a section and takes the keyboard to one of its fields.
func (w *Window) focusIn(s step, section string, field func() fyne.Focusable) {
	w.open(s, section)
	if f := field(); f != nil {
		w.win.Canvas().Focus(f)
	}
}
