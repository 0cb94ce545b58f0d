package report

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
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

// angleCells prints an angle and its band, deg; a band of rounding alone is none.
func angleCells(b bumpsteer.Banded) (number, half string) {
	if b.Half < rounding(kinematics.Angle) {
		b.Half = 0
	}
	return splitBand(kinematics.Angle, b.Value, b.Half, units.Millimetre)
}

// angleBand is the band of an angle in a file, deg; that of rounding is nought.
func angleBand(b bumpsteer.Banded) *float64 {
	if b.Half < rounding(kinematics.Angle) {
		b.Half = 0
	}
	return bandOrNull(degrees(b.Half), true)
}

// lengthCells is angleCells for a length.
func lengthCells(mm, half float64, unit units.Unit) (number, band string) {
	if half < rounding(kinematics.Length) {
		half = 0
	}
	return splitBand(kinematics.Length, mm, half, unit)
}

// blank is room to write on.
const blank = "______"

// Table prints the sheet for a person, with room to write.
func (g *GaugeSheet) Table() string {
	s, k := &g.Source, g.Setup.Gauge
	t := grid{columns: []align{point, point, left, point, left}}
	heads, unit := []string{"travel", "toe change", "95 % band", "toe"}, []string{s.Unit.String(), "deg", "", "deg"}
	if k.Width > 0 {
		heads, unit, t.columns = append(heads, "across", "95 % band"), append(unit, s.Unit.String(), ""), append(t.columns[:4:4], point, left)
	}
	if k.Spacing > 0 {
		heads, unit, t.columns = append(heads, "dials"), append(unit, s.Unit.String()), append(t.columns, point)
	}
	heads, unit, t.columns = append(heads, "left", "right"), append(unit, "", ""), append(t.columns, left, left)
	t.row(heads...)
	t.row(unit...)
	for _, l := range g.Lines {
		change, half := angleCells(l.Change)
		toe, _ := angleCells(bumpsteer.Banded{Value: l.Toe, Half: l.Change.Half})
		cells := []string{placeCell(l.Travel, s.Unit), units.Signed(change), half, units.Signed(toe)}
		if k.Width > 0 {
			number, band := lengthCells(l.Length, k.Length(l.Change.Half), s.Unit)
			cells = append(cells, units.Signed(number), band)
		}
		if k.Spacing > 0 {
			number, _ := lengthCells(l.Dials, k.Dials(l.Change.Half), s.Unit)
			cells = append(cells, units.Signed(number))
		}
		t.row(append(cells, blank, blank)...)
	}
	first := "set the resting toe first, rack in the middle, and hold the steering wheel"
	if s.Rear {
		first = "set the resting toe first"
	}
	text := fmt.Sprintf("%s: %s, toe gauge sheet\npoints measured within ±%s; %s\n\n%s",
		oneLine(s.Job), oneLine(s.Variant), s.within(), first, t.String())
	if len(g.Taken) > 0 {
		text += "\n" + g.takenTable()
	}
	return text + "\n" + foot(g.notes())
}

// takenTable prints what was read on the car against the prediction.
func (g *GaugeSheet) takenTable() string {
	s := &g.Source
	t := grid{columns: []align{left, left, point, point, point, left, point}}
	t.row("Read on the car", "side", "travel", "toe read", "predicted", "95 % band", "read less predicted")
	t.row("", "", s.Unit.String(), "deg", "deg", "", "deg")
	for i := range g.Taken {
		c := &g.Taken[i]
		number, half := angleCells(c.Predicted)
		t.row("  "+c.Place, tune.SideWord(c.Side), placeCell(c.Travel, s.Unit), toeText(c.Toe), units.Signed(number), half, toeText(c.Toe-c.Predicted.Value))
	}
	return t.String()
}

func (g *GaugeSheet) notes() []string {
	k, u := g.Setup.Gauge, g.Source.Unit
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
	return list
}

type gaugeLineJSON struct {
	Travel float64  `json:"travel_mm"`
	Change float64  `json:"toe_change_deg"`
	Band   *float64 `json:"band_95_deg"`
	Toe    float64  `json:"toe_deg"`
	Length *float64 `json:"toe_change_across_width_mm"`
	Dials  *float64 `json:"dials_mm"`
}

type takenJSON struct {
	Place     string   `json:"place"`
	Side      string   `json:"side"`
	Travel    float64  `json:"travel_mm"`
	Toe       float64  `json:"toe_deg"`
	Predicted float64  `json:"predicted_deg"`
	Band      *float64 `json:"band_95_deg"`
}

type gaugeJSON struct {
	Job     string          `json:"job"`
	Variant string          `json:"variant"`
	Within  float64         `json:"measured_within_mm"`
	Width   *float64        `json:"gauge_width_mm"`
	FromRim bool            `json:"gauge_width_is_rim_diameter"`
	Spacing *float64        `json:"dial_spacing_mm"`
	Lines   []gaugeLineJSON `json:"lines"`
	Taken   []takenJSON     `json:"readings"`
	Notes   []string        `json:"notes"`
	Caution string          `json:"caution"`
}

// JSON prints the sheet for a program.
func (g *GaugeSheet) JSON() string {
	mm := *g
	mm.Source.Unit = units.Millimetre
	k := g.Setup.Gauge
	out := gaugeJSON{Job: g.Source.Job, Variant: g.Source.Variant, Within: g.Source.Within.Common(), Width: orNull(k.Width, k.Width > 0), FromRim: g.Setup.FromRim,
		Spacing: orNull(k.Spacing, k.Spacing > 0), Taken: []takenJSON{}, Notes: mm.notes(), Caution: Caution}
	for _, l := range g.Lines {
		out.Lines = append(out.Lines, gaugeLineJSON{number12(l.Travel), number12(degrees(l.Change.Value)), angleBand(l.Change), number12(degrees(l.Toe)),
			orNull(l.Length, k.Width > 0), orNull(l.Dials, k.Spacing > 0)})
	}
	for i := range g.Taken {
		c := &g.Taken[i]
		out.Taken = append(out.Taken, takenJSON{c.Place, tune.SideWord(c.Side), number12(c.Travel), number12(degrees(c.Toe)),
			number12(degrees(c.Predicted.Value)), angleBand(c.Predicted)})
	}
	return encode(out)
}
