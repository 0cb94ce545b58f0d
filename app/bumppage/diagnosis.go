package bumppage

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/pages"
	"armscribe/app/tune"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// diagnosis says what is wrong with the toe curve, how sure that is, and how far
// the rack end is from where it would have to be.
type diagnosis struct {
	p           *Page
	what, words *widget.Label
	parts, ends *pages.Grid
	endWords    *widget.Label
	content     fyne.CanvasObject
	band        *band
}

func newDiagnosis(p *Page) *diagnosis {
	d := &diagnosis{p: p, what: pages.Prose(), words: pages.Prose(), endWords: pages.Prose(), parts: pages.NewGrid("lrrr"), ends: pages.NewGrid("lrrr")}
	d.content = container.NewVBox(d.what, d.parts.Content, d.words, pages.Heading("Ideal inner end of the rod"), d.ends.Content, d.endWords)
	return d
}

func (d *diagnosis) Name() string              { return "Diagnosis" }
func (d *diagnosis) Object() fyne.CanvasObject { return d.content }

func (d *diagnosis) Show() {
	p, s := d.p, &d.p.setup
	found, err := bumpsteer.Diagnose(s.Corner, s.Within, -s.Droop, s.Bump)
	if err != nil {
		d.parts.Clear()
		d.ends.Clear()
		d.what.SetText("No diagnosis over the job's travel: " + p.said(err).Error() + ".")
		d.words.SetText("")
		d.endWords.SetText("")
		d.band = nil
		return
	}
	d.what.SetText(p.changeSentence(&found))
	parts := s.Parts(&found, tune.ByTape)
	p.partsGrid(d.parts, parts)
	d.words.SetText(partsWords(parts))
	d.showEnds()
	d.makeBand()
}

// changeSentence says by how much toe changes.
func (p *Page) changeSentence(d *bumpsteer.Diagnosis) string {
	text := fmt.Sprintf("The toe of each wheel changes by up to %s over the travel from %s to %s", sizeText(d.Change), p.place(d.From), p.place(d.To))
	if w := p.across(); w != "" {
		text += fmt.Sprintf(": %s %s %s", p.rimText(d.Change), p.setup.Unit, w)
	}
	return text + fmt.Sprintf(". It is largest at %s. Points measured within ±%s; bands are 95 %%.", p.place(d.ChangeAt), tune.WithinText(&p.setup.Within, p.setup.Unit))
}

func (d *diagnosis) showEnds() {
	p, s := d.p, &d.p.setup
	d.ends.Clear()
	ideal, err := bumpsteer.FindRackEnd(s.Corner, s.Within, -s.Droop, s.Bump)
	if err != nil {
		d.endWords.SetText("There is none over this travel: " + p.said(err).Error() + ".")
		return
	}
	end := s.InnerEnd()
	unit := s.Unit.String()
	d.ends.Head("from", s.Rod()+" too long by, "+unit, "too high by, "+unit, "too far ahead by, "+unit)
	if ideal.HasFlat {
		d.ends.Texts("front view at rest", p.lengthBand(ideal.Flat.Along), p.lengthBand(ideal.Flat.Across))
	}
	if ideal.HasSpace {
		d.ends.Texts("the whole travel", p.lengthBand(ideal.Space.Along), p.lengthBand(ideal.Space.Across), p.lengthBand(ideal.ForeAft))
	}
	d.ends.Done()
	words := fmt.Sprintf("How far the %s is from the ideal place. Too long bows the curve; too high slopes it.", end)
	switch {
	case ideal.HasSpace:
		words += fmt.Sprintf(" The ideal one over the whole travel stands %s out and %s up; the path of the outer end leaves its sphere by %s, which no rod follows.",
			p.length(ideal.Centre.Y), p.length(ideal.Centre.Z), fine(ideal.LeftOver, s.Unit)+" "+unit)
	case !ideal.HasFlat:
		words = "The ideal " + end + " stands at infinity here, so no distance to it can be given."
	}
	d.endWords.SetText(words)
}

// makeBand computes what the measuring error allows at a dozen places.
func (d *diagnosis) makeBand() {
	s := &d.p.setup
	const places = 14
	d.band = nil
	lines, err := bumpsteer.GaugeSheet(s.Corner, s.Within, stations(-s.Droop, s.Bump, places), bumpsteer.Gauge{})
	if err != nil {
		return // the diagnosis has said why
	}
	d.band = bandOf(lines)
}

func bandOf(lines []bumpsteer.GaugeLine) *band {
	b := &band{}
	for _, l := range lines {
		b.at = append(b.at, l.Travel)
		b.low = append(b.low, l.Change.Value-l.Change.Half)
		b.high = append(b.high, l.Change.Value+l.Change.Half)
	}
	return b
}

func (d *diagnosis) picture() picture {
	pic := d.p.travelPicture()
	if d.band == nil {
		pic.caption = "no curve: the linkage does not reach"
		return pic
	}
	pic.curves, pic.band = []curve{nowCurve(d.p.present(), "now")}, d.band
	return pic
}

// sameCorner tells whether a result still belongs to the corner shown.
func (p *Page) sameCorner(c *kinematics.Corner) bool { return *c == p.setup.Corner }
