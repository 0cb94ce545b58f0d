package report

import (
	"errors"
	"fmt"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Comparison sets variants side by side, at rest, against the first.
type Comparison struct {
	Sources []Source
	Rows    []CompareRow
	Aims    *Aims // the targets of the job; may be nil
}

// CompareRow is one reading in every variant.
type CompareRow struct {
	Quantity
	Lines   []Line   // one a variant, in the order of the sources
	Changes []Change // against the first; the first has none
}

// Change is a difference from the first variant; only if Known.
type Change struct {
	Value float64 // in the unit of the reading: mm, rad, rad/mm or plain
	Known bool
	// Band is the 95 % half-width, only if HasBand: a coordinate that both
	// variants share to the last digit was measured once and carries one error,
	// the others are independent. See kinematics.ChangeBands.
	Band    float64
	HasBand bool
}

// Compare computes the readings of all variants at rest. Errors join those of
// the variants that cannot be solved.
func Compare(sources []Source) (*Comparison, error) {
	var errs []error
	list := make([]*solved, len(sources))
	for i := range sources {
		var err error
		if list[i], err = sources[i].solve(Position{}); err != nil {
			errs = append(errs, err)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	c := &Comparison{Sources: sources}
	pairs := make([]beside, len(list))
	for i := range list {
		pairs[i] = besides(&list[0].linear, &list[i].linear)
	}
	for _, q := range union(list) {
		c.Rows = append(c.Rows, compareRow(q, list, pairs))
	}
	return c, nil
}

// union lists the quantities of all variants in the order of the readings: a
// variant without a spring, say, has fewer than one with.
func union(list []*solved) []Quantity {
	var all []Quantity
	at := func(key string) int {
		for i := range all {
			if all[i].Key == key {
				return i
			}
		}
		return -1
	}
	for _, v := range list {
		next, lines := 0, v.lines
		for i := range lines {
			if j := at(lines[i].Key); j >= 0 {
				next = j + 1
				continue
			}
			all = append(all[:next], append([]Quantity{lines[i].Quantity}, all[next:]...)...)
			next++
		}
	}
	return all
}

// notGiven is said of a reading that a variant does not have.
const notGiven = "not given"

func compareRow(q Quantity, list []*solved, pairs []beside) CompareRow {
	row := CompareRow{Quantity: q}
	first := list[0].find(q.Key)
	for i, v := range list {
		k := v.find(q.Key)
		if k < 0 {
			row.Lines = append(row.Lines, Line{Quantity: q, Missing: notGiven})
			row.Changes = append(row.Changes, Change{})
			continue
		}
		row.Lines = append(row.Lines, v.lines[k])
		change := Change{}
		if i > 0 && first >= 0 {
			change = changeOf(&list[0].lines[first], &v.lines[k], pairs[i].change(first, k, rounding(q.Kind)))
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

// variantsAside is how many variants stand beside the first in one table: more
// would not fit a terminal.
const variantsAside = 2

// Table prints the comparison for a person; many variants take several tables,
// each with the first.
func (c *Comparison) Table() string {
	s := &c.Sources[0]
	text := fmt.Sprintf("%s: variants at rest, changes against %s\n\n", oneLine(s.Job), oneLine(s.Variant))
	if len(c.Sources) == 1 {
		text += c.block(nil) + "\n"
	}
	for from := 1; from < len(c.Sources); from += variantsAside {
		var aside []int
		for i := from; i < min(from+variantsAside, len(c.Sources)); i++ {
			aside = append(aside, i)
		}
		text += c.block(aside) + "\n"
	}
	if c.Aims != nil {
		text += c.Aims.Table(true) + "\n"
	}
	return text + foot(c.notes())
}

// block prints the first variant and those aside.
func (c *Comparison) block(aside []int) string {
	marked := c.anyEstimate()
	g := grid{columns: []align{left, left}, titles: []span{{2, oneLine(c.Sources[0].Variant)}}}
	heads := []string{"", "unit"}
	column := func(head string, as align) {
		g.columns, heads = append(g.columns, as), append(heads, head)
	}
	value := func() {
		column("value", point)
		if marked {
			column("", left)
		}
	}
	value()
	column("95 % band", left)
	for _, i := range aside {
		g.titles = append(g.titles, span{len(g.columns), oneLine(c.Sources[i].Variant)})
		value()
		column("change", point)
		column("95 % band", left)
	}
	g.row(heads...)
	last := noGroup
	for i := range c.Rows {
		r := &c.Rows[i]
		if r.group == hereGroup || r.Key == kinematics.RollCentreY.String() {
			continue
		}
		if r.group != last {
			g.row(r.group.String())
			last = r.group
		}
		g.row(c.cells(r, aside, marked)...)
		if r.group == rangeGroup {
			g.row(c.links(r, aside, marked)...)
		}
	}
	return g.String()
}

func (c *Comparison) anyEstimate() bool {
	for i := range c.Sources {
		if c.Sources[i].RadiusFrom != "" {
			return true
		}
	}
	return false
}

func (c *Comparison) cells(r *CompareRow, aside []int, marked bool) []string {
	unit := c.Sources[0].Unit
	_, name := r.inUnit(0, unit)
	cells := []string{"  " + r.Name, name}
	value := func(i int) (half string) {
		number, half := r.Lines[i].print(&c.Sources[0])
		cells = append(cells, number)
		if marked {
			mark := ""
			if r.Lines[i].Estimate {
				mark = "est."
			}
			cells = append(cells, mark)
		}
		return half
	}
	half := value(0)
	cells = append(cells, half)
	for _, i := range aside {
		value(i)
		change, half := r.Changes[i].print(&r.Quantity, unit)
		cells = append(cells, change, half)
	}
	return cells
}

// links is the row that names the member which ends the travel.
func (c *Comparison) links(r *CompareRow, aside []int, marked bool) []string {
	cells := []string{"    where binds", ""}
	for _, i := range append([]int{0}, aside...) {
		link := ""
		if r.Lines[i].Known {
			link = r.Lines[i].Binds.String()
		}
		cells = append(cells, link)
		if marked {
			cells = append(cells, "")
		}
		if i > 0 {
			cells = append(cells, "")
		}
		cells = append(cells, "")
	}
	return cells
}

func (d Change) print(q *Quantity, unit units.Unit) (number, half string) {
	if !d.Known {
		return "-", ""
	}
	if q.noBand {
		return units.Signed(units.Taped.Number(d.Value, unit)), ""
	}
	if !d.HasBand {
		number, _ = splitBand(q.Kind, d.Value, 0, unit)
		return units.Signed(number), "not known"
	}
	number, half = splitBand(q.Kind, d.Value, d.Band, unit)
	return units.Signed(number), half
}

func (c *Comparison) notes() []string {
	list := []string{"Signs are those of armcalc readings. A coordinate that both variants share to the last digit was measured once: its error moves",
		"both alike. A change smaller than its band is not decidable by tape. ± 0: as typed, or the same whatever the error."}
	for i := range c.Sources {
		s := &c.Sources[i]
		if text := job.RestsWords(&s.Within, &s.Corner); text != "" {
			list = append(list, "assumed: "+oneLine(s.Variant)+": "+text)
		}
		if s.RadiusFrom != "" {
			list = append(list, fmt.Sprintf("est.: %s: rests on %s.", oneLine(s.Variant), s.radiusNote()))
		}
	}
	return list
}

type compareJSON struct {
	Job      string           `json:"job"`
	Against  string           `json:"against"`
	Variants []string         `json:"variants"`
	Readings []compareRowJSON `json:"readings"`
	Targets  []aimJSON        `json:"targets,omitempty"`
	Caution  string           `json:"caution"`
}

type compareRowJSON struct {
	Key      string            `json:"key"`
	Name     string            `json:"name"`
	Unit     string            `json:"unit"`
	Positive string            `json:"positive_when"`
	Variants []compareCellJSON `json:"variants"`
}

type compareCellJSON struct {
	Variant    string   `json:"variant"`
	Value      *float64 `json:"value"`
	Band       *float64 `json:"band_95"`
	Estimate   bool     `json:"estimate"`
	Note       string   `json:"note,omitempty"`
	Change     *float64 `json:"change"`
	ChangeBand *float64 `json:"change_band_95"`
}

// JSON prints the comparison for a program: mm and degrees, null where there
// is no value.
func (c *Comparison) JSON() string {
	out := compareJSON{Job: c.Sources[0].Job, Against: c.Sources[0].Variant, Caution: Caution}
	for i := range c.Sources {
		out.Variants = append(out.Variants, c.Sources[i].Variant)
	}
	for i := range c.Rows {
		r := &c.Rows[i]
		_, unit := r.inUnit(0, units.Millimetre)
		row := compareRowJSON{Key: r.Key, Name: r.Name, Unit: unit, Positive: r.Positive}
		for j := range r.Lines {
			l, d := r.Lines[j].json(), r.Changes[j]
			change, _ := r.inUnit(d.Value, units.Millimetre)
			half, _ := r.inUnit(d.Band, units.Millimetre)
			row.Variants = append(row.Variants, compareCellJSON{Variant: out.Variants[j], Value: l.Value, Band: l.Band,
				Estimate: l.Estimate, Note: l.Note, Change: orNull(change, d.Known), ChangeBand: bandOrNull(half, d.HasBand)})
		}
		out.Readings = append(out.Readings, row)
	}
	if c.Aims != nil {
		out.Targets = c.Aims.json()
	}
	return encode(out)
}
