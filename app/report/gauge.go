package report

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// GaugeSheet is what a toe gauge should read on the car, and what it did.
type GaugeSheet struct {
	Source Source
	Setup  tune.Setup
	Lines  []bumpsteer.GaugeLine
	Taken  []Compared // the variant's readings, as written down
}

// Compared is a reading beside what the points predict for it. Both are
// changes of toe, rad; the zero of the gauge is not taken out.
type Compared struct {
	tune.Taken
	Predicted bumpsteer.Banded
}

// GaugeOf predicts the sheet of one variant from From to To of the spec. Errors
// match ErrSpec or name the variant and match kinematics.ErrUnreachable.
func GaugeOf(j *job.Job, variant int, sp Spec) (*GaugeSheet, error) {
	if err := sp.Check(); err != nil {
		return nil, err
	}
	g := &GaugeSheet{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant)}
	from, to := min(sp.From, sp.To), max(sp.From, sp.To)
	at := stations(from, to, sp.Step)
	var err error
	if g.Lines, err = bumpsteer.GaugeSheet(g.Source.Corner, g.Source.Within, at, g.Setup.Gauge); err != nil {
		return nil, g.Source.explain(err, 0)
	}
	g.Taken, err = g.compare(g.Setup.Readings)
	return g, err
}

func (g *GaugeSheet) compare(list []tune.Taken) ([]Compared, error) {
	if len(list) == 0 {
		return nil, nil
	}
	travel := make([]float64, len(list))
	for i := range list {
		travel[i] = list[i].Travel
	}
	lines, err := bumpsteer.GaugeSheet(g.Source.Corner, g.Source.Within, travel, bumpsteer.Gauge{})
	if err != nil {
		return nil, g.Source.explain(fmt.Errorf("at the readings' travel: %w", err), 0)
	}
	out := make([]Compared, len(list))
	for i := range list {
		out[i] = Compared{list[i], lines[i].Change}
	}
	return out, nil
}

// blank is room to write on.
const blank = "______"

// onTextIf is a column that every file has, and a terminal where it says something.
func onTextIf(yes bool) sheet.Faces {
	if yes {
		return sheet.OnText | sheet.InFile
	}
	return sheet.InFile
}

// Sheet is the answer, with room to write.
func (g *GaugeSheet) Sheet() *sheet.Sheet {
	s, k := &g.Source, g.Setup.Gauge
	t := &sheet.Table{Key: "lines", UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Title: "travel", Key: "travel_mm"},
		{Title: "toe change", Band: "95 % band", Key: "toe_change_deg", BandKey: "band_95_deg"},
		{Title: "toe", Key: "toe_deg"},
		{Title: "across", Band: "95 % band", Key: "toe_change_across_width_mm", On: onTextIf(k.Width > 0)},
		{Title: "dials", Key: "dials_mm", On: onTextIf(k.Spacing > 0)},
		{Title: "left", Role: sheet.Text, On: sheet.OnText}, {Title: "right", Role: sheet.Text, On: sheet.OnText},
	}}
	for _, l := range g.Lines {
		half := l.Change.Half
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Number(sheet.Travel, l.Travel), sheet.Banded(sheet.Toe, l.Change.Value, half).Signed(),
			sheet.Banded(sheet.Toe, l.Toe, half).Signed(), sheet.Banded(sheet.Length, l.Length, k.Length(half)).Signed().If(k.Width > 0),
			sheet.Banded(sheet.Length, l.Dials, k.Dials(half)).Signed().If(k.Spacing > 0), sheet.Words(blank), sheet.Words(blank)})
	}
	out := s.sheet(0, "toe gauge sheet", g.notes, sheet.Field{Key: "gauge_width_mm", Cell: sheet.Number(sheet.Chosen, k.Width).If(k.Width > 0)},
		sheet.Field{Key: "gauge_width_is_rim_diameter", Cell: sheet.Flag(g.Setup.FromRim)},
		sheet.Field{Key: "dial_spacing_mm", Cell: sheet.Number(sheet.Chosen, k.Spacing).If(k.Spacing > 0)}, t, g.takenTable())
	first := "; set the resting toe first, rack in the middle, and hold the steering wheel"
	if s.Rear {
		first = "; set the resting toe first"
	}
	out.Head[len(out.Head)-1] += first
	return out
}

// takenTable is what was read on the car against the prediction.
func (g *GaugeSheet) takenTable() *sheet.Table {
	t := &sheet.Table{Title: "Read on the car", Key: "readings", On: onTextIf(len(g.Taken) > 0), UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name, Key: "place"}, {Title: "side", Role: sheet.Text, Key: "side"}, {Title: "travel", Key: "travel_mm"},
		{Title: "toe read", Key: "toe_deg"}, {Title: "predicted", Band: "95 % band", Key: "predicted_deg", BandKey: "band_95_deg"},
		{Title: "read less predicted", On: sheet.OnScreens},
	}}
	for i := range g.Taken {
		c := &g.Taken[i]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(c.Place), sheet.Words(tune.SideWord(c.Side)), sheet.Number(sheet.Travel, c.Travel),
			sheet.Number(sheet.Toe, c.Toe).Signed(), sheet.Banded(sheet.Toe, c.Predicted.Value, c.Predicted.Half).Signed(), sheet.Number(sheet.Toe, c.Toe-c.Predicted.Value).Signed()})
	}
	return t
}

func (g *GaugeSheet) notes(u units.Unit) []sheet.Note {
	k := g.Setup.Gauge
	list := []string{"toe change: of one wheel, from rest, toe-in positive; toe: with the resting toe. Travel: bump positive, droop negative."}
	if k.Width > 0 {
		from := "the gauge's width"
		if g.Setup.FromRim {
			from = "the rim's diameter, as the job states no gauge width"
		}
		list = append(list, fmt.Sprintf("across: the toe change as a length over %s, %s: by how much nearer to the car's middle its front stands than its rear.", lengthText(k.Width, u), from))
	}
	if k.Spacing > 0 {
		list = append(list, fmt.Sprintf("dials: by how much the rear dial gains on the front one, %s apart along the car, both counting up as the plate moves outboard.", lengthText(k.Spacing, u)))
	}
	if k.Width > 0 || k.Spacing > 0 {
		list = append(list, tune.LengthConvention)
	}
	if len(g.Taken) > 0 {
		list = append(list, "The gauge's own zero is not taken out; armcalc fit does that.")
	}
	return sheet.Notes(list...)
}
