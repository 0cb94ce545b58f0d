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
	"armscribe/kinematics"
)

// Page is the page. All its methods belong to the toolkit's goroutine.
type Page struct {
	*pages.Book
	host     pages.Host
	chart    *toeChart
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
	picture() picture
}

// New makes the page; Show fills it.
func New(h pages.Host) *Page {
	p := &Page{host: h, chart: newToeChart(), setup: setupOf(&h)}
	p.cure, p.gauge = newCure(p), newGaugeSheet(p)
	p.sections = []section{newDiagnosis(p), p.cure, newSpacers(p), newFan(p), p.gauge, newFit(p), newAdjusters(p)}
	shown := make([]pages.Section, len(p.sections))
	for i, s := range p.sections {
		shown[i] = sectionOf{s, p}
	}
	p.Book = pages.NewBook("Geometry only: strength, fasteners and road legality are for qualified people.", shown...)
	p.Before = func() {
		p.setup = setupOf(&p.host)
		p.SetTitle(p.host.ShownWords())
	}
	return p
}

// sectionOf is a section with the page's chart, which is drawn whenever it shows.
type sectionOf struct {
	section
	p *Page
}

// Beside is the chart.
func (s sectionOf) Beside() fyne.CanvasObject { return s.p.chart.Picture }

// Show brings section and chart up to date.
func (s sectionOf) Show() {
	s.section.Show()
	s.p.chart.set(s.picture())
}

func setupOf(h *pages.Host) tune.Setup {
	s := tune.SetupOf(h.Job(), h.Variant())
	s.Unit = h.Unit()
	return s
}

// draw shows the open section's chart.
func (p *Page) draw() { p.chart.set(p.Section().(sectionOf).picture()) }

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
