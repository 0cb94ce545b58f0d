package report

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
)

// Aims sets every variant of a job against the job's targets.
type Aims struct {
	Sources []Source
	Results [][]targets.Result // of each variant, in the order of the job file
	Trends  [][]targets.Trend  // against the first variant, whose own are none
	Best    [][]bool           // comes nearest to the target, or within it
}

// AimsOf evaluates the targets of a job without problems; nil when it has none.
func AimsOf(j *job.Job) *Aims {
	if !j.Targets.Any() {
		return nil
	}
	sources := make([]targets.Source, len(j.Variants))
	for i := range j.Variants {
		sources[i] = targets.SourceOf(j, &j.Variants[i])
	}
	t := targets.TableOf(sources, &j.Targets)
	return &Aims{Sources: SourcesOf(j), Results: t.Results, Trends: t.Trends, Best: t.Best}
}

// ErrMissed: a target is surely not met.
var ErrMissed = errors.New("target not met")

// Missed joins an error for each target that one variant surely misses; nil
// when there is none. It matches ErrMissed.
func (a *Aims) Missed(variant int) error {
	var errs []error
	s := &a.Sources[variant]
	for i := range a.Results[variant] {
		r := &a.Results[variant][i]
		if r.Verdict == targets.Missed {
			errs = append(errs, s.named(fmt.Errorf("%w: %s is to be %s; it is: %s",
				ErrMissed, lowerFirst(r.Kind.About().Name), r.Asked.Text(r.Kind, s.Unit), r.Stands(s.Unit))))
		}
	}
	return errors.Join(errs...)
}

func lowerFirst(s string) string { return string(s[0]|0x20) + s[1:] }

// Table prints every target with every variant under it. With trends it says
// too whether a variant comes nearer to the target than the first.
func (a *Aims) Table(trends bool) string {
	g := grid{columns: []align{left, left, left}}
	head := []string{"Targets", "value, 95 %", "stands"}
	if trends {
		g.columns, head = append(g.columns, left), append(head, "against "+oneLine(a.Sources[0].Variant))
	}
	g.row(head...)
	for t := range a.Results[0] {
		about := a.Results[0][t].Kind.About()
		g.row(fmt.Sprintf("%s: %s", about.Name, a.Results[0][t].Asked.Text(a.Results[0][t].Kind, a.Sources[0].Unit)))
		for v := range a.Results {
			s, r := &a.Sources[v], &a.Results[v][t]
			cells := []string{"  " + oneLine(s.Variant), r.ValueText(s.Unit), r.Words(s.Within.Common(), s.Unit)}
			if trends {
				word := ""
				if v > 0 {
					word = a.Trends[v][t].String()
				}
				if a.Best[v][t] {
					word = strings.TrimPrefix(word+", best", ", ")
				}
				cells = append(cells, word)
			}
			g.row(cells...)
		}
	}
	return g.String()
}

type aimJSON struct {
	Key      string        `json:"key"`
	Name     string        `json:"name"`
	Unit     string        `json:"unit"`
	Min      *float64      `json:"min"`
	Max      *float64      `json:"max"`
	Bump     float64       `json:"over_bump_mm"`
	Droop    float64       `json:"over_droop_mm"`
	Variants []aimCellJSON `json:"variants"`
}

type aimCellJSON struct {
	Variant string   `json:"variant"`
	Value   *float64 `json:"value"`
	Low     *float64 `json:"low_95"`
	High    *float64 `json:"high_95"`
	Stands  string   `json:"stands"`
	Trend   string   `json:"trend,omitempty"`
	Best    bool     `json:"best"`
}

func (a *Aims) json() []aimJSON {
	var list []aimJSON
	for t := range a.Results[0] {
		about, asked := a.Results[0][t].Kind.About(), a.Results[0][t].Asked
		q := Quantity{Kind: about.Kind}
		in := func(v float64, ok bool) *float64 {
			v, _ = q.inUnit(v, units.Millimetre)
			return orNull(v, ok)
		}
		_, unit := q.inUnit(0, units.Millimetre)
		aim := aimJSON{Key: about.Key, Name: about.Name, Unit: unit, Min: in(asked.Min, asked.HasMin), Max: in(asked.Max, asked.HasMax),
			Bump: asked.Bump, Droop: asked.Droop}
		for v := range a.Results {
			r := &a.Results[v][t]
			cell := aimCellJSON{Variant: a.Sources[v].Variant, Value: in(r.Value, r.Known),
				Low: in(r.Low, r.HasLow), High: in(r.High, r.HasHigh), Stands: r.Verdict.String(), Best: a.Best[v][t]}
			if v > 0 {
				cell.Trend = a.Trends[v][t].String()
			}
			aim.Variants = append(aim.Variants, cell)
		}
		list = append(list, aim)
	}
	return list
}
