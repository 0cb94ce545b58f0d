// Package bumppage is the page on bump steer: what is wrong with the toe curve,
// which moves or spacers cure it, what it costs to move the rack, the toe gauge's
// sheet and readings, the fit of the points to them, and the adjusters. It holds
// no job: it asks its host for one and hands changes back.
package bumppage

import (
	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/tune"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
)

// Page is the book of these sections. All its methods belong to the toolkit's
// goroutine.
type Page struct {
	*pages.Book
	host  pages.Host
	chart *pages.Picture

	sections []section

	setup tune.Setup // of the variant shown, in the unit on display

	cure  *cure
	gauge *gaugeSheet
}

// section is one part of the page, with what its chart shows.
type section interface {
	Name() string
	Object() fyne.CanvasObject
	Show()
	picture() plates.Toe
}

// New makes the page; Show fills it.
func New(h pages.Host) *Page {
	p := &Page{host: h, chart: pages.NewPicture(), setup: setupOf(&h)}
	p.cure, p.gauge = newCure(p), newGaugeSheet(p)
	var shown []pages.Section
	p.sections = []section{newDiagnosis(p), p.cure, newSpacers(p), newFan(p), p.gauge, newFit(p), newAdjusters(p)}
	for _, s := range p.sections {
		shown = append(shown, &charted{pages.NewPart(s.Name(), s.Object(), p.chart), s, p})
	}
	p.Book = pages.NewBook("Steering", shown...)
	return p
}

// charted is a section with the page's chart, which is drawn whenever it shows.
type charted struct {
	pages.Part
	of section
	p  *Page
}

// Show brings section and chart up to date.
func (s *charted) Show() {
	s.p.setup = setupOf(&s.p.host)
	s.of.Show()
	s.draw()
}

func (s *charted) draw() {
	pic := s.of.picture()
	s.p.chart.Put(&pic)
	s.Settle()
}

func setupOf(h *pages.Host) tune.Setup {
	s := tune.SetupOf(h.Job(), h.Variant())
	s.Unit = h.Unit()
	return s
}

// draw shows the open section's chart.
func (p *Page) draw() { p.Section().(*charted).draw() }

// Stop ends what runs beside the page.
func (p *Page) Stop() { p.cure.stop() }

func (p *Page) variant() *job.Variant { return p.host.Shown() }

// keep adds a variant, also with what is no point, and says so, or why not.
func (p *Page) keep(to *pages.Notice, name, notes string, c kinematics.Corner, also func(v *job.Variant)) {
	from := p.variant().Name
	if err := p.host.Keep(from+", "+name, notes, c, also); err != nil {
		to.Wrong("This cannot be kept: ", err)
		return
	}
	to.Say("Kept as “" + p.variant().Name + "”, which is now shown.")
}
