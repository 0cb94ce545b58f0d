package report

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/targets"
)

// Targets sets every variant of a job against the job's targets.
type Targets struct {
	Sources []Source
	Results [][]targets.Result // of each variant, in the order of the job file
	Trends  [][]targets.Trend  // against the first variant, whose own are none
	Best    [][]bool           // comes nearest to the target, or within it
}

// TargetsOf evaluates the targets of a job without problems; nil when it has none.
func TargetsOf(j *job.Job) *Targets {
	if !j.Targets.Any() {
		return nil
	}
	t := targets.TableOf(car.All(j), &j.Targets)
	return &Targets{Sources: SourcesOf(j), Results: t.Results, Trends: t.Trends, Best: t.Best}
}

// ErrMissed: a target is surely not met.
var ErrMissed = errors.New("target not met")

// Missed joins an error for each target that one variant surely misses; nil
// when there is none. It matches ErrMissed.
func (a *Targets) Missed(variant int) error {
	var errs []error
	s := &a.Sources[variant]
	for i := range a.Results[variant] {
		r := &a.Results[variant][i]
		if r.Verdict == targets.Missed {
			errs = append(errs, s.Named(fmt.Errorf("%w: %s is to be %s; it is: %s",
				ErrMissed, lowerFirst(r.Kind.About().Name), r.Asked.Text(r.Kind, s.Unit), r.Stands(s.Unit))))
		}
	}
	return errors.Join(errs...)
}

func lowerFirst(s string) string { return string(s[0]|0x20) + s[1:] }

// Tables are every target with every variant under it, for screens and for files.
// With trends they say too whether a variant comes nearer to the target than the
// first.
func (a *Targets) Tables(trends bool) [2]*sheet.Table {
	screen := &sheet.Table{On: sheet.OnScreens, Title: "Targets", Columns: []sheet.Column{
		{Role: sheet.Name}, {Role: sheet.Text, Title: "value, 95 %"}, {Role: sheet.Text, Title: "stands"}}}
	if trends {
		screen.Columns = append(screen.Columns, sheet.Column{Role: sheet.Text, Title: "against " + oneLine(a.Sources[0].Variant)})
	}
	file := &sheet.Table{On: sheet.InFile, Key: "variants", GroupKey: "targets", Columns: []sheet.Column{
		{Key: "variant"}, {Key: "value"}, {Key: "low_95"}, {Key: "high_95"}, {Key: "stands"}, {Key: "trend", Whole: true}, {Key: "best"}, {Key: "assumed", Whole: true}}}
	for t := range a.Results[0] {
		about, asked := a.Results[0][t].Kind.About(), a.Results[0][t].Asked
		number := func(v float64, ok bool) sheet.Cell { return sheet.Number(about.Kind, v).If(ok) }
		onScreen := sheet.Group{Name: about.Name + ": " + asked.Text(a.Results[0][t].Kind, a.Sources[0].Unit)}
		inFile := sheet.Group{Fields: []sheet.Field{{Key: "key", Cell: sheet.Words(about.Key)}, {Key: "name", Cell: sheet.Words(about.Name)},
			{Key: "unit", Cell: sheet.UnitOf(about.Kind)}, {Key: "min", Cell: number(asked.Min, asked.HasMin)}, {Key: "max", Cell: number(asked.Max, asked.HasMax)},
			{Key: "over_bump_mm", Cell: sheet.Number(sheet.Length, asked.Bump)}, {Key: "over_droop_mm", Cell: sheet.Number(sheet.Length, asked.Droop)}}}
		for v := range a.Results {
			s, r := &a.Sources[v], &a.Results[v][t]
			trend, words := a.Trends[v][t].String(), r.Words(s.Unit)
			best := trend
			if a.Best[v][t] {
				best = strings.TrimPrefix(trend+", best", ", ")
			}
			onScreen.Rows = append(onScreen.Rows, sheet.Row{sheet.Words(s.Variant), sheet.Words(r.ValueText(s.Unit)), sheet.Words(words).Marked(r.Verdict.Mark()), sheet.Words(best)}[:len(screen.Columns)])
			inFile.Rows = append(inFile.Rows, sheet.Row{sheet.Words(s.Variant), number(r.Value, r.Known), number(r.Low, r.HasLow), number(r.High, r.HasHigh),
				sheet.Words(r.Verdict.String()), sheet.Words(trend).If(trend != ""), sheet.Flag(a.Best[v][t]), assumedCell(s.keysOf(r.Assumed))})
		}
		screen.Groups, file.Groups = append(screen.Groups, onScreen), append(file.Groups, inFile)
	}
	return [2]*sheet.Table{screen, file}
}
