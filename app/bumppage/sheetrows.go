package bumppage

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// sheetRow is one travel of the table, with what was read there on each side.
type sheetRow struct {
	travel float64
	typed  *pages.Number // the travel, in a row of the person's own; else nil
	sides  []sheetCell
}

// sheetCell is what was read on one side: one field, or one for each dial.
type sheetCell struct {
	side   job.Side
	fields []*pages.Field
	keys   []string // of typed
	was    int      // index of the job's reading, -1 for none
	hidden bool     // it cannot be shown in the way chosen, and stays as it is
}

// spareRows are for travels that the sheet has not.
const spareRows = 2

// sidesShown are left and right, and 'not said' if a reading does not say.
func (g *gaugeSheet) sidesShown() []job.Side {
	list := []job.Side{job.LeftSide, job.RightSide}
	for _, r := range g.p.variant().ToeReadings {
		if r.Side == job.NoSide {
			return append(list, job.NoSide)
		}
	}
	return list
}

// fill makes the table anew.
func (g *gaugeSheet) fill() {
	g.rows = nil
	for i := range g.lines {
		g.rows = append(g.rows, g.newRow(g.lines[i].Travel, len(g.rows)))
	}
	for i, r := range g.p.variant().ToeReadings {
		g.place(i, r.Travel.MM, r.Side)
	}
	for i := range spareRows {
		row := g.newRow(0, len(g.rows))
		row.typed = pages.NewLength(fmt.Sprintf("travel of spare row %d", i+1), 70)
		row.typed.Show(g.p.setup.Unit)
		g.remember(row.typed.Field, g.key(fmt.Sprintf("travel %d", i), 0, job.NoSide))
		g.rows = append(g.rows, row)
	}
	g.list.Clear()
	heads := []string{"travel, " + g.p.setup.Unit.String(), "predicted, " + g.unitText(), g.alsoHead()}
	for _, side := range g.sidesShown() {
		name := side.String()
		if side == job.NoSide {
			name = "side not said"
		}
		heads = append(heads, name)
	}
	g.list.SetColumns("rrr" + strings.Repeat("l", len(heads)-3))
	g.list.Head(heads...)
	for i := range g.rows {
		g.addRow(i)
	}
	g.list.Done()
}

func (g *gaugeSheet) newRow(travel float64, at int) sheetRow {
	row := sheetRow{travel: travel}
	for _, side := range g.sidesShown() {
		c := sheetCell{side: side, was: -1}
		dials := 1
		if g.way.Selected == onDials {
			dials = 2
		}
		for d := range dials {
			f := pages.NewField(70)
			key := g.key(fmt.Sprintf("%d %.4f", at, travel), d, side)
			g.remember(f, key)
			f.Entered = func() { g.focusOn(at+1, side, d) }
			c.fields, c.keys = append(c.fields, f), append(c.keys, key)
		}
		row.sides = append(row.sides, c)
	}
	return row
}

// focusOn gives the keyboard to a field of a row; below the last one it stays.
func (g *gaugeSheet) focusOn(row int, side job.Side, dial int) {
	if row >= len(g.rows) {
		return
	}
	f := g.cellOf(row, side).fields[dial]
	if c := fyne.CurrentApp().Driver().CanvasForObject(f); c != nil {
		c.Focus(f)
	}
}

// key names a field of the table for what was typed into it.
func (g *gaugeSheet) key(row string, dial int, side job.Side) string {
	return fmt.Sprintf("%s|%s|%s|%s|%d|%d", g.p.variant().Name, g.way.Selected, g.p.setup.Unit, row, dial, side)
}

// remember keeps what is typed into a field, and puts back what was.
func (g *gaugeSheet) remember(f *pages.Field, key string) {
	if text, ok := g.typed[key]; ok {
		f.SetText(text)
	}
	f.OnChanged = func(text string) {
		if text == f.Held {
			delete(g.typed, key)
			return
		}
		g.typed[key] = text
	}
}

// place shows a reading of the job in its row, or in a row of its own.
func (g *gaugeSheet) place(i int, travel float64, side job.Side) {
	const same = 1e-6 // mm
	for r := range g.rows {
		c := g.cellOf(r, side)
		if math.Abs(g.rows[r].travel-travel) < same && c.was < 0 {
			g.put(c, i)
			return
		}
	}
	g.rows = append(g.rows, g.newRow(travel, len(g.rows)))
	g.put(g.cellOf(len(g.rows)-1, side), i)
}

func (g *gaugeSheet) cellOf(row int, side job.Side) *sheetCell {
	k := slices.IndexFunc(g.rows[row].sides, func(c sheetCell) bool { return c.side == side })
	return &g.rows[row].sides[k]
}

// put shows reading i in a cell, unless something else is being typed there.
func (g *gaugeSheet) put(c *sheetCell, i int) {
	c.was = i
	s := &g.p.setup
	r, toe := &g.p.variant().ToeReadings[i], s.Readings[i].Toe
	texts := []string{units.Trimmed(toe*pages.Degree, 4)}
	switch {
	case g.way.Selected == asLength:
		texts[0] = pages.ShortLength(s.Gauge.Length(toe), s.Unit)
	case g.way.Selected == onDials && r.FrontDial.Given:
		texts = []string{pages.ShortLength(r.FrontDial.MM, s.Unit), pages.ShortLength(r.RearDial.MM, s.Unit)}
	case g.way.Selected == onDials && s.Gauge.Spacing == 0:
		texts, c.hidden = []string{"", ""}, true
	case g.way.Selected == onDials:
		texts = []string{"0", pages.ShortLength(s.Gauge.Dials(toe), s.Unit)}
	}
	for d, f := range c.fields {
		f.Held = texts[d]
		if text, ok := g.typed[c.keys[d]]; ok {
			f.SetText(text)
			continue
		}
		f.SetText(texts[d])
	}
}

// addRow adds a row to the table.
func (g *gaugeSheet) addRow(i int) {
	row := &g.rows[i]
	travel, predicted, also := pages.Bold(units.Signed(g.p.short(row.travel))), pages.Plain(""), pages.Plain("")
	switch {
	case row.typed != nil:
		row.typed.SetPlaceHolder("other")
		travel = row.typed.Field
	case i < len(g.lines):
		predicted, also = pages.Plain(g.predictedText(&g.lines[i])), pages.Plain(g.alsoText(&g.lines[i]))
	}
	cells := []fyne.CanvasObject{travel, predicted, also}
	for _, c := range row.sides {
		cells = append(cells, pair(c.fields))
	}
	g.list.Row(cells...)
}

// pair is one field, or two beside each other.
func pair(fields []*pages.Field) fyne.CanvasObject {
	if len(fields) == 1 {
		return fields[0]
	}
	g := pages.NewGrid("ll")
	g.Row(fields[0], fields[1])
	return g.Content
}

// collect reads the table. The error joins all that is wrong with it.
func (g *gaugeSheet) collect() ([]job.ToeReading, error) {
	old := g.p.variant().ToeReadings
	kept := make([]*job.ToeReading, len(old))
	var added []job.ToeReading
	var errs []error
	for i := range g.rows {
		row := &g.rows[i]
		travel, where := units.Length{MM: row.travel}, "travel "+g.p.way(row.travel)
		if row.typed != nil {
			mm, err := row.typed.Value()
			where = row.typed.What
			if err != nil && (row.filled() || !errors.Is(err, pages.ErrBlank)) {
				errs = append(errs, err)
				continue
			}
			if err == nil && !row.filled() {
				errs = append(errs, fmt.Errorf("%s: no reading stands beside it", where))
			}
			travel.MM = mm
		}
		for k := range row.sides {
			c := &row.sides[k]
			r, ok, err := g.readCell(c, travel)
			switch {
			case err != nil:
				errs = append(errs, fmt.Errorf("%s, %s: %w", where, pages.Pick(c.side == job.NoSide, "side not said", c.side.String()), err))
			case ok && c.was >= 0:
				kept[c.was] = &r
			case ok:
				added = append(added, r)
			}
		}
	}
	var list []job.ToeReading
	for _, r := range kept {
		if r != nil {
			list = append(list, *r)
		}
	}
	return append(list, added...), errors.Join(errs...)
}

func (r *sheetRow) filled() bool {
	for _, c := range r.sides {
		for _, f := range c.fields {
			if strings.TrimSpace(f.Text) != "" {
				return true
			}
		}
	}
	return false
}

var (
	errNoWidth   = errors.New("a length says nothing without the gauge's width: type it above")
	errNoSpacing = errors.New("dials say nothing without the distance between them: type it above")
	errOneDial   = errors.New("one dial of two: type the other one too")
)

// readCell reads one cell; ok is false for a blank one.
func (g *gaugeSheet) readCell(c *sheetCell, travel units.Length) (r job.ToeReading, ok bool, err error) {
	changed, blank := c.was < 0, 0
	for _, f := range c.fields {
		changed = changed || f.Owing()
		if strings.TrimSpace(f.Text) == "" {
			blank++
		}
	}
	switch {
	case blank == len(c.fields) && c.hidden:
		return g.p.variant().ToeReadings[c.was], true, nil
	case blank == len(c.fields):
		return r, false, nil
	case !changed:
		return g.p.variant().ToeReadings[c.was], true, nil
	case blank > 0:
		return r, false, errOneDial
	}
	r = job.ToeReading{Travel: travel, Side: c.side}
	if c.was >= 0 {
		r.Travel = g.p.variant().ToeReadings[c.was].Travel
	}
	if g.way.Selected == inDegrees {
		rad, err := units.ParseAngle(c.fields[0].Text)
		r.Toe = job.OptionalDegrees{Degrees: degreesOf(rad), Given: true}
		return r, true, err
	}
	var mm [2]float64
	for d, f := range c.fields {
		if mm[d], err = units.Parse(f.Text, g.p.setup.Unit); err != nil {
			return r, false, err
		}
	}
	given := &g.p.host.Job().ToeGauge
	switch {
	case g.way.Selected == asLength && !given.Width.Given:
		return r, false, errNoWidth
	case g.way.Selected == asLength:
		r.ToeLength = job.Given(units.Length{MM: mm[0]})
	case !given.DialSpacing.Given:
		return r, false, errNoSpacing
	default:
		r.FrontDial, r.RearDial = job.Given(units.Length{MM: mm[0]}), job.Given(units.Length{MM: mm[1]})
	}
	return r, true, nil
}

// readingOf is a reading from a file as the job keeps it.
func readingOf(r bumpsteer.Reading) job.ToeReading {
	sides := map[bumpsteer.Side]job.Side{bumpsteer.SideNotGiven: job.NoSide, bumpsteer.LeftSide: job.LeftSide, bumpsteer.RightSide: job.RightSide}
	return job.ToeReading{Travel: units.Length{MM: r.Travel}, Side: sides[r.Side], Toe: job.OptionalDegrees{Degrees: degreesOf(r.Toe), Given: true}}
}
