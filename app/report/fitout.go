package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// InUnit has screens show lengths in another unit than the job's.
func (f *Fitted) InUnit(u units.Unit) { f.Source.Unit, f.Setup.Unit = u, u }

// coordinateName names a coordinate in words.
func (f *Fitted) coordinateName(at kinematics.Coordinate) string {
	return f.Source.Corner.NameOf(at.Point) + ", " + [...]string{"fore-aft", "to the side", "height"}[at.Axis]
}

// Sheet is the answer.
func (f *Fitted) Sheet() *sheet.Sheet {
	s := &f.Source
	within := sheet.Number(sheet.Toe, f.Setup.ReadsWithin)
	items := []sheet.Item{sheet.Field{Key: "reads_within_deg", Cell: within}, sheet.Field{Key: "readings_used", Cell: sheet.Number(sheet.Plain, float64(f.used()))},
		f.file(), f.residuals(), f.suspects(), f.moreSuspects(), f.corrections(), f.hidden(), f.zeros()}
	a := &f.Result.Advice
	items = append(items, sheet.PairOf("spacer_change_mm", sheet.Banded(sheet.Length, a.Raise.Value, a.Raise.Half).If(a.CanRaise)))
	if f.HasBefore {
		items = append(items, toeParts("Toe curve by the points as measured", "diagnosis_as_measured", &f.Setup, &f.Before, tune.ByTape)...)
	} else {
		items = append(items, sheet.Field{Key: "diagnosis_as_measured", Cell: sheet.Missing(sheet.Plain, "")})
	}
	items = append(items, toeParts("Toe curve by the fitted points", "diagnosis_fitted", &f.Setup, &f.Result.Advice, tune.ByGauge)...)
	out := s.sheet(car.OnTravel, fmt.Sprintf("fitted to %d toe readings", f.used()), f.notes, items...)
	out.Head[len(out.Head)-1] += ", readings within ±" + units.SmallAngles.Short(degrees(f.Setup.ReadsWithin)) + " deg"
	return out
}

// residuals are the readings beside what the points say of them.
func (f *Fitted) residuals() *sheet.Table {
	t := &sheet.Table{Title: "Readings", Key: "residuals", UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name, Key: "place"}, {Title: "side", Role: sheet.Text, Key: "side"}, {Title: "travel", Key: "travel_mm"}, {Title: "read", Key: "read_deg"},
		{Title: "as measured", Key: "as_measured_deg"}, {Title: "fitted", Key: "fitted_deg"}, {Title: "left over", Key: "residual_deg"},
		{Key: "studentised", On: sheet.InFile}, {Key: "bad", On: sheet.InFile}, {Key: "left_out", On: sheet.InFile}, {Role: sheet.Text, On: sheet.OnScreens}}}
	toe := func(rad float64) sheet.Cell { return sheet.Number(sheet.Toe, rad).Signed() }
	for i := range f.Result.Residuals {
		r := &f.Result.Residuals[i]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(f.Taken[i].Place), sheet.Words(tune.SideWord(r.Reading.Side)), sheet.Number(sheet.Travel, r.Reading.Travel),
			toe(r.Reading.Toe), toe(f.Predicted[i]), toe(r.Fitted), toe(r.Miss), sheet.Number(sheet.Plain, r.Studentised), sheet.Flag(r.Bad), sheet.Flag(r.LeftOut), sheet.Words(flagOf(r)).Marked(markOfReading(r))})
	}
	return t
}

func markOfReading(r *bumpsteer.Residual) sheet.Mark {
	switch {
	case r.LeftOut:
		return sheet.Bad
	case r.Bad:
		return sheet.Warning
	}
	return sheet.NoMark
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

// corrections are those that are worth a line.
func (f *Fitted) corrections() *sheet.Table {
	t := &sheet.Table{Title: "Corrections", On: sheet.OnScreens, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name}, {Title: "by", Band: "95 % band", UnitTitle: "unit"}, {Title: "before the readings", Role: sheet.Text}}}
	for i := range f.Result.Corrections {
		if c := &f.Result.Corrections[i]; shown(c) {
			t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(f.coordinateName(c.At)), sheet.Banded(sheet.Length, c.MM, kinematics.Normal95*c.Sigma).Signed(),
				sheet.Words(sheet.Banded(sheet.Length, 0, kinematics.Normal95*c.Prior).Half(f.Source.Unit))})
		}
	}
	return t
}

// hidden says how many are not.
func (f *Fitted) hidden() sheet.Prose {
	n := 0
	for i := range f.Result.Corrections {
		if !shown(&f.Result.Corrections[i]) {
			n++
		}
	}
	return some(n, "other coordinates stay as measured, nearly")
}

// some is a sentence about a number of things; nothing of none.
func some(n int, what string) sheet.Prose {
	if n == 0 {
		return sheet.Prose{On: sheet.OnScreens}
	}
	return sheet.Prose{On: sheet.OnScreens, Lines: []sheet.Line{{Text: fmt.Sprintf("%d %s", n, what)}}}
}

// bySize are the coordinates of which one alone, measured wrong, explains the readings
// about equally well: the smallest slip first. There are none where no point stands out.
func (f *Fitted) bySize() []int {
	r := &f.Result
	if !r.Mismeasured {
		return nil
	}
	size := func(k int) float64 { return math.Abs(r.Corrections[k].Size.Value) }
	list := append([]int{r.Suspect}, r.Rivals...)
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(size(a), size(b)) })
	return list
}

// suspects are the first of them.
func (f *Fitted) suspects() *sheet.Table {
	t := &sheet.Table{Title: "Suspects: one of these alone", On: sheet.OnScreens, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name}, {Title: "by", Band: "95 % band", UnitTitle: "unit"}, {Title: "was measured", Role: sheet.Text}}}
	list := f.bySize()
	for _, k := range list[:min(len(list), suspectsShown)] {
		c := &f.Result.Corrections[k]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(f.coordinateName(c.At)), sheet.Banded(sheet.Length, math.Abs(c.Size.Value), c.Size.Half), sheet.Words(wayWords(c.At, c.Size.Value))})
	}
	if len(list) == 0 {
		t.On = sheet.InFile // which has them all elsewhere
	}
	return t
}

func (f *Fitted) moreSuspects() sheet.Prose {
	return some(max(0, len(f.bySize())-suspectsShown), "more, by larger slips")
}

// file are the corrections of every coordinate.
func (f *Fitted) file() *sheet.Table {
	r := &f.Result
	t := &sheet.Table{Key: "corrections", On: sheet.InFile, Groups: sheet.Rows(), Columns: []sheet.Column{{Key: "point"}, {Key: "axis"}, {Key: "mm"}, {Key: "sigma_mm"}, {Key: "prior_sigma_mm"}, {Key: "statistic"},
		{Key: "alone_mm.value", BandKey: "alone_mm.band_95", Pair: "alone_mm"}, {Key: "mismeasured"}, {Key: "rival"}}}
	for i := range r.Corrections {
		c := &r.Corrections[i]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(pointKey(&f.Source.Corner, c.At.Point)), sheet.Words(axisKeys[c.At.Axis : c.At.Axis+1]), sheet.Number(sheet.Length, c.MM),
			sheet.Number(sheet.Length, c.Sigma), sheet.Number(sheet.Length, c.Prior), sheet.Number(sheet.Plain, c.Statistic), sheet.Banded(sheet.Length, c.Size.Value, c.Size.Half).If(c.Statistic != 0),
			sheet.Flag(r.Mismeasured && i == r.Suspect), sheet.Flag(r.Mismeasured && slices.Contains(r.Rivals, i))})
	}
	return t
}

// zeros are those of the gauge, on each side that was read.
func (f *Fitted) zeros() *sheet.Table {
	t := &sheet.Table{Key: "gauge_zeros", On: sheet.InFile, Groups: sheet.Rows(), Columns: []sheet.Column{{Key: "side"}, {Key: "deg", BandKey: "band_95_deg"}}}
	for side, zero := range f.Result.Zero {
		if zero != (bumpsteer.Banded{}) {
			t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(tune.SideWord(bumpsteer.Side(side))), sheet.Banded(sheet.Toe, zero.Value, zero.Half)})
		}
	}
	return t
}

// suspectsShown in a table; JSON has them all.
const suspectsShown = 6

// notes say what the fit means.
func (f *Fitted) notes(u units.Unit) []sheet.Note {
	r := &f.Result
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
		what := fmt.Sprintf("Spacer: the fitted points ask for the outer end %s by %s", pickWord(d.Raise.Value < 0, "lowered", "raised"), sheet.Banded(sheet.Length, math.Abs(d.Raise.Value), d.Raise.Half).Phrase(u))
		if !d.Raise.Decided() {
			what += ", which is not decided by these readings"
		}
		list = append(list, what+"; "+tune.SpacerHint)
	}
	var zeros []string
	for side, zero := range r.Zero {
		if zero != (bumpsteer.Banded{}) {
			text := sheet.Banded(sheet.Toe, zero.Value, zero.Half).Phrase(u)
			if word := tune.SideWord(bumpsteer.Side(side)); word != "" {
				text = word + " " + text
			}
			zeros = append(zeros, text)
		}
	}
	if zeros != nil {
		list = append(list, "Gauge zero, taken out: "+strings.Join(zeros, ", ")+".")
	}
	in := f.Setup
	in.Unit = u
	return sheet.Notes(append(list, in.Remarks(f.Taken)...)...)
}
