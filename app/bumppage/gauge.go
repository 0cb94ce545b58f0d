package bumppage

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// The ways in which a gauge is read.
const (
	inDegrees = "degrees"
	asLength  = "a length across the gauge"
	onDials   = "two dials, front and rear"
)

// gaugeSheet predicts what the gauge reads at each travel and takes what it did
// read, left and right.
type gaugeSheet struct {
	p              *Page
	width, spacing *pages.JobLength
	within         *pages.Field
	way            *keyed.Select
	note           *pages.Notice
	words          *widget.Label
	list           *pages.Grid
	content        fyne.CanvasObject

	lines []bumpsteer.GaugeLine
	rows  []sheetRow
	// typed is what stands in the table and was not handed in, by variant, way,
	// row and column: it outlives every redrawing of the table.
	typed map[string]string
}

func newGaugeSheet(p *Page) *gaugeSheet {
	g := &gaugeSheet{p: p, note: pages.NewNotice(), words: pages.Prose(), within: pages.NewField(82), typed: map[string]string{}}
	g.width = pages.NewJobLength(&p.host, "gauge width", g.note, func(j *job.Job) *job.Optional { return &j.ToeGauge.Width })
	g.spacing = pages.NewJobLength(&p.host, "dial spacing", g.note, func(j *job.Job) *job.Optional { return &j.ToeGauge.DialSpacing })
	g.within.Done = g.takeWithin
	g.way = keyed.NewSelect([]string{inDegrees, asLength, onDials}, func(string) { p.Show() })
	g.way.Selected = inDegrees
	first := pages.Flow(pages.Asked("gauge width", g.width.Field), pages.Asked("dial spacing", g.spacing.Field), pages.Asked("reads within ±", g.within, "deg"))
	use := keyed.NewButton("Write readings down", g.take)
	use.Importance = widget.HighImportance
	second := pages.Flow(pages.Asked("in", pages.Wide(g.way, 215)), use, keyed.NewButton("Paste", g.paste), keyed.NewButton("Read CSV…", g.askFile))
	g.list = pages.NewGrid("rrrllll")
	g.list.Tight = true
	g.content = container.NewVBox(first, second, g.note.Label, g.list.Content, g.words)
	return g
}

func (g *gaugeSheet) Name() string              { return "Toe gauge" }
func (g *gaugeSheet) Object() fyne.CanvasObject { return g.content }

// takeWithin keeps the error of one reading in the job.
func (g *gaugeSheet) takeWithin(text string) {
	if !g.within.Owing() {
		return
	}
	var next job.OptionalDegrees
	if strings.TrimSpace(text) != "" {
		rad, err := units.ParseAngle(text)
		if err != nil {
			g.note.Wrong("reads within: ", err)
			return
		}
		next = job.OptionalDegrees{Degrees: degreesOf(rad), Given: true}
	}
	held := g.within.Held
	g.within.Taken()
	if err := g.p.host.Edit("type gauge error", func(j *job.Job) { j.ToeGauge.ReadsWithin = next }); err != nil {
		g.within.Held = held
		g.note.Wrong("", g.p.said(err))
		return
	}
	g.note.Say("")
}

// degreesOf is an angle as the job keeps it, without the dust of radians.
func degreesOf(rad float64) job.Degrees {
	const parts = 1e9
	return job.Degrees(math.Round(float64(job.DegreesOf(rad))*parts) / parts)
}

// stepOf is the step of the sheet's travel, mm.
func stepOf(u units.Unit) float64 {
	if u == units.Inch {
		return 25.4 / 2
	}
	return 10
}

func (g *gaugeSheet) Show() {
	s := &g.p.setup
	g.width.SetPlaceHolder("rim")
	g.width.Show()
	g.spacing.Show()
	g.within.SetPlaceHolder(units.Trimmed(float64(job.DefaultReadsWithin), 3))
	held := ""
	if w := g.p.host.Job().ToeGauge.ReadsWithin; w.Given {
		held = units.Trimmed(float64(w.Degrees), 4)
	}
	g.within.Hold(held)
	var err error
	g.lines, err = bumpsteer.GaugeSheet(s.Corner, s.Within, sheetTravels(s.Droop, s.Bump, stepOf(s.Unit)), s.Gauge)
	if err != nil {
		g.lines, g.rows = nil, nil
		g.list.Clear()
		g.list.Done()
		g.words.SetText("No sheet over the job's travel: " + g.p.said(err).Error() + ".")
		return
	}
	g.fill()
	g.words.SetText(g.explanation())
}

// sheetTravels are round travels with both ends, from bump down to droop.
func sheetTravels(droop, bump, step float64) []float64 {
	list := tune.Stations(-droop, bump, step)
	slices.Reverse(list)
	return list
}

func (g *gaugeSheet) explanation() string {
	p, s := g.p, &g.p.setup
	text := "Predicted: toe change of one wheel from rest, toe-in positive, with the band of points measured within ±" + s.WithinText() +
		". Set the resting toe first, rack in the middle, and hold the steering wheel. Readings may be from rest or from straight ahead: each side's zero is found by the fit. A blank is no reading; Enter goes to the next line."
	switch {
	case g.way.Selected == asLength && s.Gauge.Width > 0:
		text += fmt.Sprintf(" Length: front edge less rear edge, nearer together, %s.", p.across())
	case g.way.Selected == onDials && s.Gauge.Spacing > 0:
		text += fmt.Sprintf(" Dials: %s apart along the car, both counting up as the plate moves outboard; predicted is what the rear one gains on the front one.", units.ShortLength(s.Gauge.Spacing, s.Unit))
	case g.way.Selected == onDials:
		text += " State how far apart the dials stand."
	}
	if g.way.Selected != inDegrees {
		text += " " + tune.LengthConvention
	}
	return text
}

// predictedText is what a line predicts, in the way the gauge is read.
func (g *gaugeSheet) predictedText(l *bumpsteer.GaugeLine) string {
	s := &g.p.setup
	switch {
	case g.way.Selected == asLength && s.Gauge.Width > 0:
		return units.Signed(banded(l.Change, units.In(s.Gauge.Width, s.Unit)))
	case g.way.Selected == onDials && s.Gauge.Spacing > 0:
		half := s.Gauge.Dials(l.Change.Half)
		return units.Signed(g.p.lengthBand(bumpsteer.Banded{Value: l.Dials, Half: half}))
	case g.way.Selected == onDials || g.way.Selected == asLength:
		return ""
	}
	return units.Signed(banded(l.Change, pages.Degree))
}

// alsoText is the prediction in the other unit: across the gauge, or as an angle.
func (g *gaugeSheet) alsoText(l *bumpsteer.GaugeLine) string {
	switch {
	case g.way.Selected != inDegrees:
		return toeText(l.Change.Value)
	case g.p.setup.Gauge.Width > 0:
		return units.Signed(g.p.rimText(l.Change.Value))
	}
	return ""
}

func (g *gaugeSheet) alsoHead() string {
	switch {
	case g.way.Selected != inDegrees:
		return "deg"
	case g.p.setup.Gauge.Width > 0:
		return g.p.setup.Unit.String() + " across"
	}
	return ""
}

func (g *gaugeSheet) unitText() string {
	if g.way.Selected == inDegrees {
		return "deg"
	}
	return g.p.setup.Unit.String()
}

func (g *gaugeSheet) picture() plates.Toe {
	pic := g.p.travelPicture()
	if len(g.lines) == 0 {
		pic.Caption = "no curve: the linkage does not reach"
		return pic
	}
	pic.Curves, pic.Band = []plates.ToeCurve{plates.NowCurve(g.p.present(), "predicted")}, bandOf(g.lines)
	pic.Ends = true
	g.p.addReadings(&pic)
	return pic
}

// addReadings puts the variant's readings onto a chart, each side less its own
// reading at rest where there is one.
func (p *Page) addReadings(pic *plates.Toe) {
	zero := map[bumpsteer.Side]float64{}
	for i := range p.setup.Readings {
		if r := &p.setup.Readings[i]; math.Abs(r.Travel) < kinematics.MinSpan {
			zero[r.Side] = r.Toe
			pic.Caption = "readings less the one at rest"
		}
	}
	for i := range p.setup.Readings {
		r := &p.setup.Readings[i]
		pic.Points = append(pic.Points, plates.ToePoint{At: r.Travel, Toe: r.Toe - zero[r.Side], Right: r.Side == bumpsteer.RightSide})
	}
}
