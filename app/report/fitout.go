package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Table prints the fit for a person.
func (f *Fitted) Table() string {
	s := &f.Source
	parts := []string{s.first() + fmt.Sprintf("%s: %s, fitted to %d toe readings\npoints measured within ±%s, readings within ±%s deg\n", oneLine(s.Job), oneLine(s.Variant), f.used(),
		s.within(), units.SmallAngles.Short(degrees(f.Setup.ReadsWithin))),
		f.residualTable(), f.suspectsTable() + f.correctionTable()}
	if f.HasBefore {
		parts = append(parts, diagnosisTable("Toe curve by the points as measured", &f.Setup, &f.Before, tune.ByTape))
	}
	parts = append(parts, diagnosisTable("Toe curve by the fitted points", &f.Setup, &f.Result.Advice, tune.ByGauge), foot(f.notes()))
	return strings.Join(parts, "\n")
}

func (f *Fitted) residualTable() string {
	t := grid{columns: []align{left, left, point, point, point, point, point, left}}
	t.row("Readings", "side", "travel", "read", "as measured", "fitted", "left over", "")
	t.row("", "", f.Source.Unit.String(), "deg", "deg", "deg", "deg", "")
	for i := range f.Result.Residuals {
		r := &f.Result.Residuals[i]
		t.row("  "+f.Taken[i].Place, tune.SideWord(r.Reading.Side), placeCell(r.Reading.Travel, f.Source.Unit), toeText(r.Reading.Toe),
			toeText(f.Predicted[i]), toeText(r.Fitted), toeText(r.Miss), flagOf(r))
	}
	return t.String()
}

func flagOf(r *bumpsteer.Residual) string {
	switch {
	case r.LeftOut:
		return "bad reading, left out"
	case r.Bad:
		return "bad reading?"
	}
	return ""
}

func (f *Fitted) correctionTable() string {
	u := f.Source.Unit
	t := grid{columns: []align{left, point, left, left, left}}
	t.row("Corrections", "by", "95 % band", "unit", "before the readings")
	hidden := 0
	for i := range f.Result.Corrections {
		c := &f.Result.Corrections[i]
		if !shown(c) {
			hidden++
			continue
		}
		number, half := splitBand(kinematics.Length, c.MM, kinematics.Normal95*c.Sigma, u)
		_, before := splitBand(kinematics.Length, 0, kinematics.Normal95*c.Prior, u)
		t.row("  "+f.coordinateKey(c.At), units.Signed(number), half, u.String(), before)
	}
	text := t.String()
	if hidden > 0 {
		text += fmt.Sprintf("  %d other coordinates stay as measured, nearly\n", hidden)
	}
	return text
}

// suspectsTable lists the coordinates of which one alone, measured wrong,
// explains the readings about equally well: the smallest slip first.
func (f *Fitted) suspectsTable() string {
	r, u := &f.Result, f.Source.Unit
	if !r.Mismeasured {
		return ""
	}
	list := append([]int{r.Suspect}, r.Rivals...)
	size := func(k int) float64 { return math.Abs(r.Corrections[k].Size.Value) }
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(size(a), size(b)) })
	t := grid{columns: []align{left, point, left, left, left}}
	t.row("Suspects: one of these alone", "by", "95 % band", "unit", "was measured")
	for _, k := range list[:min(len(list), suspectsShown)] {
		c := &r.Corrections[k]
		number, half := splitBand(kinematics.Length, size(k), c.Size.Half, u)
		t.row("  "+f.coordinateKey(c.At), number, half, u.String(), wayWords(c.At, c.Size.Value))
	}
	text := t.String()
	if more := len(list) - suspectsShown; more > 0 {
		text += fmt.Sprintf("  %d more, by larger slips\n", more)
	}
	return text + "\n"
}

// suspectsShown in a table; JSON has them all.
const suspectsShown = 6

// notes say what the fit means.
func (f *Fitted) notes() []string {
	r, u := &f.Result, f.Source.Unit
	var list []string
	if r.Mismeasured {
		list = append(list, "Some point was probably measured farther off than stated: see the suspects above; the readings alone do not tell them apart, so measure all of them again.")
	} else {
		list = append(list, "No point stands out: measuring errors as stated explain the readings.")
	}
	bad := 0
	for i := range r.Residuals {
		if r.Residuals[i].Bad {
			bad++
		}
	}
	if bad > 0 {
		list = append(list, fmt.Sprintf("Bad readings: %d; one so far off comes by chance once in a thousand. Read again, or fit without them with --leave-out-bad.", bad))
	}
	if d := &r.Advice; d.CanRaise {
		what := fmt.Sprintf("Spacer: the fitted points ask for the outer end %s by %s", pickWord(d.Raise.Value < 0, "lowered", "raised"), lengthOf(d.Raise, u))
		if !d.Raise.Decided() {
			what += ", which is not decided by these readings"
		}
		list = append(list, what+"; "+tune.SpacerHint)
	}
	var zeros []string
	for side, zero := range r.Zero {
		if zero != (bumpsteer.Banded{}) {
			text := units.WithBand(kinematics.Angle, zero.Value, zero.Half, f.Source.Unit) + " deg"
			if word := tune.SideWord(bumpsteer.Side(side)); word != "" {
				text = word + " " + text
			}
			zeros = append(zeros, text)
		}
	}
	if zeros != nil {
		list = append(list, "Gauge zero, taken out: "+strings.Join(zeros, ", ")+".")
	}
	list = append(list, f.Setup.Remarks(f.Taken)...)
	return list
}

func lengthOf(b bumpsteer.Banded, u units.Unit) string {
	return units.WithBand(kinematics.Length, max(b.Value, -b.Value), b.Half, u) + " " + u.String()
}

func pickWord(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

type correctionJSON struct {
	Point       string      `json:"point"`
	Axis        string      `json:"axis"`
	MM          float64     `json:"mm"`
	Sigma       float64     `json:"sigma_mm"`
	Prior       float64     `json:"prior_sigma_mm"`
	Statistic   float64     `json:"statistic"`
	Alone       *bandedJSON `json:"alone_mm"`
	Mismeasured bool        `json:"mismeasured"`
	Rival       bool        `json:"rival"`
}

type residualJSON struct {
	Place       string  `json:"place"`
	Side        string  `json:"side"`
	Travel      float64 `json:"travel_mm"`
	Read        float64 `json:"read_deg"`
	AsMeasured  float64 `json:"as_measured_deg"`
	Fitted      float64 `json:"fitted_deg"`
	Residual    float64 `json:"residual_deg"`
	Studentised float64 `json:"studentised"`
	Bad         bool    `json:"bad"`
	LeftOut     bool    `json:"left_out"`
}

type zeroJSON struct {
	Side string   `json:"side"`
	Deg  float64  `json:"deg"`
	Band *float64 `json:"band_95_deg"`
}

type fitJSON struct {
	Job         string           `json:"job"`
	Variant     string           `json:"variant"`
	Within      float64          `json:"measured_within_mm"`
	ReadsWithin float64          `json:"reads_within_deg"`
	Used        int              `json:"readings_used"`
	Corrections []correctionJSON `json:"corrections"`
	Residuals   []residualJSON   `json:"residuals"`
	Zeros       []zeroJSON       `json:"gauge_zeros"`
	Raise       *bandedJSON      `json:"spacer_change_mm"`
	Before      *diagnosisJSON   `json:"diagnosis_as_measured"`
	After       *diagnosisJSON   `json:"diagnosis_fitted"`
	Notes       []string         `json:"notes"`
	Caution     string           `json:"caution"`
}

// JSON prints the fit for a program: mm and degrees, every coordinate.
func (f *Fitted) JSON() string {
	mm := *f
	mm.Source.Unit, mm.Setup.Unit = units.Millimetre, units.Millimetre
	r := &mm.Result
	out := fitJSON{Job: f.Source.Job, Variant: f.Source.Variant, Within: f.Source.Within.Common(), ReadsWithin: number12(degrees(f.Setup.ReadsWithin)), Used: f.used(),
		Zeros: []zeroJSON{}, After: diagnosisOf(mm.Setup, &r.Advice, tune.ByGauge), Notes: mm.notes(), Caution: Caution}
	rival := map[int]bool{}
	for _, k := range r.Rivals {
		rival[k] = r.Mismeasured
	}
	for i := range r.Corrections {
		c := &r.Corrections[i]
		j := correctionJSON{Point: pointKey(&f.Source.Corner, c.At.Point), Axis: axisKeys[c.At.Axis : c.At.Axis+1], MM: number12(c.MM), Sigma: number12(c.Sigma),
			Prior: number12(c.Prior), Statistic: number12(c.Statistic), Mismeasured: r.Mismeasured && i == r.Suspect, Rival: rival[i]}
		if c.Statistic != 0 {
			alone := bandedOf(c.Size, 1)
			j.Alone = &alone
		}
		out.Corrections = append(out.Corrections, j)
	}
	for i := range r.Residuals {
		d := &r.Residuals[i]
		out.Residuals = append(out.Residuals, residualJSON{Place: f.Taken[i].Place, Side: tune.SideWord(d.Reading.Side), Travel: number12(d.Reading.Travel),
			Read: number12(degrees(d.Reading.Toe)), AsMeasured: number12(degrees(f.Predicted[i])), Fitted: number12(degrees(d.Fitted)),
			Residual: number12(degrees(d.Miss)), Studentised: number12(d.Studentised), Bad: d.Bad, LeftOut: d.LeftOut})
	}
	for side, zero := range r.Zero {
		if zero != (bumpsteer.Banded{}) {
			out.Zeros = append(out.Zeros, zeroJSON{tune.SideWord(bumpsteer.Side(side)), number12(degrees(zero.Value)), bandOrNull(degrees(zero.Half), true)})
		}
	}
	if f.HasBefore {
		out.Before = diagnosisOf(mm.Setup, &f.Before, tune.ByTape)
	}
	if r.Advice.CanRaise {
		raise := bandedOf(r.Advice.Raise, 1)
		out.Raise = &raise
	}
	return encode(out)
}
