// Package bumppage is the page on bump steer: what is wrong with the toe curve,
// which moves or spacers cure it, what it costs to move the rack, the toe gauge's
// sheet and readings, the fit of the points to them, and the adjusters. It holds
// no job: it asks its host for one and hands changes back.
package bumppage

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Host is the window that the page stands in. All of it belongs to the toolkit's
// goroutine, but for Do.
type Host struct {
	Job     func() *job.Job
	Variant func() int // index of the variant shown
	Unit    func() units.Unit
	// Edit changes the job under a name for Undo, Keep adds a variant. Both show
	// the changed job before they return; what is refused changes nothing.
	Edit func(name string, change func(j *job.Job)) error
	Keep func(name, notes string, c kinematics.Corner) error
	// Do runs f on the toolkit's goroutine; it may be called from any other.
	Do  func(f func())
	Win fyne.Window // for questions
}

// Page is the page. All its methods belong to the toolkit's goroutine.
type Page struct {
	host     Host
	title    *widget.Label
	buttons  []*widget.Button
	body     *fyne.Container
	chart    *toeChart
	content  fyne.CanvasObject
	sections []section
	current  int

	setup tune.Setup // of the variant shown, in the unit on display

	cure  *cure
	gauge *gaugeSheet
}

// section is one part of the page. show brings it up to date with the page's
// setup, picture is its chart.
type section interface {
	name() string
	object() fyne.CanvasObject
	show()
	picture() picture
}

// New makes the page; Show fills it.
func New(h Host) *Page {
	p := &Page{host: h, chart: newToeChart(), title: boldLabel(""), setup: setupOf(&h)}
	p.cure, p.gauge = newCure(p), newGaugeSheet(p)
	p.sections = []section{newDiagnosis(p), p.cure, newSpacers(p), newFan(p), p.gauge, newFit(p), newAdjusters(p)}
	bar := container.NewHBox()
	for i, s := range p.sections {
		b := widget.NewButton(s.name(), func() { p.Select(i) })
		p.buttons = append(p.buttons, b)
		bar.Add(b)
	}
	p.body = container.New(&halves{}, container.NewStack(), p.chart)
	p.title.Alignment = fyne.TextAlignTrailing
	head := container.NewBorder(nil, nil, bar, nil, p.title)
	p.content = container.NewBorder(head, caution(), nil, nil, p.body)
	p.Select(0)
	return p
}

func caution() fyne.CanvasObject {
	return hint("Geometry only: strength, fasteners and road legality are for qualified people.")
}

func setupOf(h *Host) tune.Setup {
	s := tune.SetupOf(h.Job(), h.Variant())
	s.Unit = h.Unit()
	return s
}

// Object is what the window shows.
func (p *Page) Object() fyne.CanvasObject { return p.content }

// Focusable is what gets the keyboard when the page opens.
func (p *Page) Focusable() fyne.Focusable { return p.buttons[p.current] }

// Select shows a section by its place.
func (p *Page) Select(i int) {
	p.current = i
	for k, b := range p.buttons {
		b.Importance = widget.LowImportance
		if k == i {
			b.Importance = widget.HighImportance
		}
		b.Refresh()
	}
	scroll := container.NewScroll(container.NewPadded(p.sections[i].object()))
	p.body.Objects[0] = scroll
	p.body.Refresh()
	p.Show()
}

// Show reads the job again and shows the section.
func (p *Page) Show() {
	p.setup = setupOf(&p.host)
	p.title.SetText(p.variant().Name)
	p.sections[p.current].show()
	p.draw()
}

// draw shows the section's chart.
func (p *Page) draw() { p.chart.set(p.sections[p.current].picture()) }

// Stop ends what runs beside the page.
func (p *Page) Stop() { p.cure.stop() }

func (p *Page) variant() *job.Variant { return &p.host.Job().Variants[p.host.Variant()] }

// keep adds a variant and says so, or why not.
func (p *Page) keep(to *notice, name, notes string, c kinematics.Corner) {
	from := p.variant().Name
	if err := p.host.Keep(from+", "+name, notes, c); err != nil {
		to.wrong("This cannot be kept: ", err)
		return
	}
	to.say("Kept as “" + p.variant().Name + "”, which is now shown.")
}

// halves stands words beside the chart.
type halves struct{}

// Widths of the two halves.
const (
	chartShare = 0.43
	chartLeast = 300
	chartMost  = 760
)

// MinSize is small: words scroll.
func (*halves) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(660, 300) }

// Layout places both.
func (*halves) Layout(o []fyne.CanvasObject, size fyne.Size) {
	w := min(chartMost, max(chartLeast, size.Width*chartShare))
	o[0].Resize(fyne.NewSize(size.Width-w-2*look.Step, size.Height))
	o[0].Move(fyne.NewPos(0, 0))
	o[1].Resize(fyne.NewSize(w-look.Step, size.Height))
	o[1].Move(fyne.NewPos(size.Width-w, 0))
}
