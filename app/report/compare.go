package report

import (
	"errors"

	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/kinematics"
)

// Comparison sets variants side by side, in one position, against one of them.
type Comparison struct {
	Sources   []Source
	Position  figures.Position
	Reference int     // the others are set against it
	Errs      []error // why a variant has no readings; nil for most
	Rows      []CompareRow
	Targets   *Targets // the targets of the job; may be nil
	Shown     int      // the variant that a window shows
}

// CompareRow is one reading in every variant.
type CompareRow struct {
	*figures.Figure
	Lines   []Line   // one a variant, in the order of the sources
	Changes []Change // against the reference, which has none itself
}

// Change is a difference from the reference; only if Known.
type Change struct {
	Value float64 // in the unit of the reading: mm, rad, rad/mm or plain
	Known bool
	// Band is the 95 % half-width, only if HasBand: a coordinate that both
	// variants share to the last digit was measured once and carries one error,
	// the others are independent. See kinematics.ChangeBands.
	Band    float64
	HasBand bool
}

// Compare computes the readings of all variants at rest, against the first. Errors
// join those of the variants that cannot be solved.
func Compare(sources []Source) (*Comparison, error) {
	c := CompareAt(sources, 0, figures.Position{})
	if err := errors.Join(c.Errs...); err != nil {
		return nil, err
	}
	return c, nil
}

// CompareAt computes the readings of all variants in one position, as far as they
// reach it.
func CompareAt(sources []Source, reference int, at figures.Position) *Comparison {
	c := &Comparison{Sources: sources, Position: at, Reference: reference, Errs: make([]error, len(sources))}
	list := make([]*solved, len(sources))
	for i := range sources {
		if list[i], c.Errs[i] = sources[i].solve(at); c.Errs[i] != nil {
			list[i] = &solved{missing: figures.OutOfReach}
		}
	}
	pairs := make([]beside, len(list))
	for i := range list {
		pairs[i] = besides(&list[reference].linear, &list[i].linear)
	}
	for _, f := range union(list) {
		c.Rows = append(c.Rows, compareRow(f, list, pairs, reference))
	}
	return c
}

// union lists the figures of all variants: a variant without a spring, say, has
// fewer than one with.
func union(list []*solved) []*figures.Figure {
	var all []*figures.Figure
	table := figures.All()
	for i := range table {
		for _, v := range list {
			if v.find(table[i].Key) >= 0 {
				all = append(all, &table[i])
				break
			}
		}
	}
	return all
}

// notGiven is said of a reading that a variant does not have.
const notGiven = "not given"

func compareRow(f *figures.Figure, list []*solved, pairs []beside, reference int) CompareRow {
	row := CompareRow{Figure: f}
	first := list[reference].find(f.Key)
	for i, v := range list {
		k := v.find(f.Key)
		if k < 0 {
			missing := notGiven
			if v.missing != "" {
				missing = v.missing
			}
			row.Lines = append(row.Lines, Line{Figure: f, Missing: missing})
			row.Changes = append(row.Changes, Change{})
			continue
		}
		row.Lines = append(row.Lines, v.lines[k])
		change := Change{}
		if i != reference && first >= 0 {
			change = changeOf(&list[reference].lines[first], &v.lines[k], pairs[i].change(first, k, f.Kind.Rounding()))
		}
		row.Changes = append(row.Changes, change)
	}
	return row
}

func changeOf(from, to *Line, half band) Change {
	if !from.Known || !to.Known || from.Far != kinematics.Near || to.Far != kinematics.Near {
		return Change{}
	}
	return Change{Value: to.Value - from.Value, Known: true, Band: half.half, HasBand: half.ok}
}

// Cell is the change with its band.
func (d *Change) Cell(f *figures.Figure) sheet.Cell {
	switch {
	case !d.Known:
		return sheet.Missing(f.Kind, "-")
	case f.NoBand:
		return sheet.Number(f.Kind, d.Value).Signed()
	}
	return sheet.BandedIf(f.Kind, d.Value, d.Band, d.HasBand).Signed()
}
