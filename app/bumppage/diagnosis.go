package bumppage

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// diagnosis says what is wrong with the toe curve, how sure that is, and how far
// the rack end is from where it would have to be.
type diagnosis struct {
	p       *Page
	what    *pages.Sentence
	why     *widget.RichText
	note    *pages.Notice
	view    *pages.View
	content fyne.CanvasObject
	band    *plates.ToeBand
}

func newDiagnosis(p *Page) *diagnosis {
	d := &diagnosis{p: p, what: pages.NewSentence(), why: pages.Hint(""), note: pages.NewNotice(), view: pages.NewView()}
	d.content = container.NewVBox(d.what.RichText, d.note.Label, d.view.Object(), d.why)
	return d
}

func (d *diagnosis) Name() string              { return "Diagnosis" }
func (d *diagnosis) Object() fyne.CanvasObject { return d.content }

func (d *diagnosis) Show() {
	p, s := d.p, &d.p.setup
	d.band = nil
	d.advise()
	found, err := report.DiagnoseOf(p.host.Job(), p.host.Variant(), report.RackMoveStep(s.Unit), -s.Droop, s.Bump)
	if err != nil {
		d.note.Wrong("No diagnosis over the job's travel: ", p.said(err))
		d.view.Show(nil)
		return
	}
	d.note.Say("")
	found.InUnit(s.Unit)
	d.view.Show(found.Sheet())
	d.makeBand()
}

// advise begins with what to do, and ends with why it is so.
func (d *diagnosis) advise() {
	what, why := "", ""
	if d.p.host.Advice != nil {
		what, why = d.p.host.Advice()
	}
	d.what.Say(what)
	d.why.Segments[0].(*widget.TextSegment).Text = why
	d.why.Refresh()
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

func bandOf(lines []bumpsteer.GaugeLine) *plates.ToeBand {
	b := &plates.ToeBand{}
	for _, l := range lines {
		b.At = append(b.At, l.Travel)
		b.Low = append(b.Low, l.Change.Value-l.Change.Half)
		b.High = append(b.High, l.Change.Value+l.Change.Half)
	}
	return b
}

func (d *diagnosis) picture() plates.Toe {
	pic := d.p.travelPicture()
	if d.band == nil {
		pic.Caption = "no curve: the linkage does not reach"
		return pic
	}
	pic.Curves, pic.Band = []plates.ToeCurve{plates.NowCurve(d.p.present(), "now")}, d.band
	return pic
}

// sameCorner tells whether a result still belongs to the corner shown.
func (p *Page) sameCorner(c *kinematics.Corner) bool { return *c == p.setup.Corner }
