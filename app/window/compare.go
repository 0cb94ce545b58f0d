package window

import (
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/panels"
	"armscribe/app/targets"
	"armscribe/kinematics/study"
)

// compareSize is that of the page of all variants: as large as the window has
// room for.
var compareSize = fyne.NewSize(1600, 1000)

// showCompare opens the page with all variants side by side.
func (w *Window) showCompare() {
	table := panels.NewCompare()
	w.openPage("All variants side by side", table, compareSize, func() {
		table.Set(w.compareColumns(), w.compareTargets())
	})
	w.win.Canvas().Focus(table.Lines())
}

// referenceIndex is the variant that all are set against: the one compared
// with, else the measured one.
func (w *Window) referenceIndex() int { return max(w.doc.ComparedIndex(), 0) }

// compareColumns solves every variant at the present position.
func (w *Window) compareColumns() []panels.CompareColumn {
	j := w.doc.Job()
	columns := make([]panels.CompareColumn, len(j.Variants))
	reference := frame.CaseOf(j, &j.Variants[w.referenceIndex()])
	for i := range j.Variants {
		columns[i] = panels.CompareColumn{
			Input: panels.Input{Job: j, Variant: &j.Variants[i], Frame: solved(j, i, reference, w.position), Unit: w.unit},
			Shown: i == w.doc.Current(), Reference: i == w.referenceIndex(),
			Go: func() {
				w.closePage()
				w.showVariant(i)
			},
		}
	}
	return columns
}

// solved is the frame of a variant; nil if it is no mechanism.
func solved(j *job.Job, i int, reference study.Case, at frame.Position) *frame.Frame {
	var f frame.Frame
	if err := f.Update(frame.CaseOf(j, &j.Variants[i]), &reference, at); err != nil {
		return nil
	}
	return &f
}

// compareTargets sets every variant against the targets.
func (w *Window) compareTargets() []panels.CompareTarget {
	j := w.doc.Job()
	sources := make([]targets.Source, len(j.Variants))
	for i := range j.Variants {
		sources[i] = targets.SourceOf(j, &j.Variants[i])
	}
	table := targets.TableOf(sources, &j.Targets)
	if len(table.Results) == 0 {
		return nil
	}
	lines := make([]panels.CompareTarget, len(table.Results[0]))
	for k := range lines {
		first := &table.Results[0][k]
		lines[k] = panels.CompareTarget{Name: first.Kind.About().Name, Asked: first.Asked.Text(first.Kind, w.unit)}
		lines[k].Asked = strings.Replace(lines[k].Asked, ", from ", ", ", 1)
		for i := range j.Variants {
			r := &table.Results[i][k]
			lines[k].Cells = append(lines[k].Cells, panels.CompareCell{
				Verdict: verdictOf(r.Verdict), Value: r.ValueText(w.unit), Words: r.Brief(), Best: table.Best[i][k],
			})
		}
	}
	return lines
}
