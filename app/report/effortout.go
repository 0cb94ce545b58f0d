package report

import (
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Sheet is the answer: the forces of every case.
func (e *Efforts) Sheet() *sheet.Sheet {
	t := &sheet.Table{Key: "values", GroupKey: "cases", Columns: []sheet.Column{
		{Key: "key", On: sheet.InFile},
		{Role: sheet.Name, Key: "name"},
		{Title: "value", Band: "95 % band", UnitTitle: "unit", Key: "value", UnitKey: "unit", BandKey: "band_95"},
		{Title: "positive when it", Role: sheet.Text, Key: "positive_when_it"},
	}}
	for i := range e.Cases {
		c := &e.Cases[i]
		g := sheet.Group{Key: c.Key, Name: c.Name, Missing: c.Missing}
		for n := range c.Lines {
			if l := &c.Lines[n]; c.Missing == "" {
				g.Rows = append(g.Rows, sheet.Row{sheet.Words(l.Key), sheet.Words(l.Name), l.cell(), sheet.Words(l.Positive)})
			}
		}
		t.Groups = append(t.Groups, g)
	}
	what := "steering"
	if e.loading.rear {
		what = "toe links"
	}
	return e.Source.sheet("forces in the "+what+"; INDICATIVE ONLY", e.notes, sheet.Field{Key: "indicative_only", Cell: sheet.Flag(true)}, t, e.loading.file())
}

// cell is the value with its band.
func (l *EffortLine) cell() sheet.Cell {
	return sheet.BandedIf(l.amount.kind(), l.Value, l.Band, l.HasBand).Signed()
}

// Notes say under what the forces were reckoned, and by what formula, to one
// who has a window and no flags.
func (e *Efforts) Notes() []string {
	bare := *e
	bare.loading = e.loading.bare()
	return bare.notes(e.Source.Unit)
}

// springNote says what a spring on the upright does to the moments; none for a
// spring elsewhere.
func (s *Source) springNote() []string {
	if s.Corner.Spring.Carrier != kinematics.OnUpright {
		return nil
	}
	return []string{"The spring stands on the upright and turns it about the steering axis too: its share is in the moments and forces."}
}

func (e *Efforts) notes(unit units.Unit) []string {
	list := e.loading.words(unit)
	list = append(list, e.Source.springNote()...)
	if !e.loading.rear {
		list = append(list, "Parking torque: J. J. Taborek, Mechanics of Vehicles (1957), from memory: grip x load x root(tread² / 8 + arm²), arm from where the axis meets the ground to the tyre's contact; the tread is "+
			lengthText(e.loading.tread, unit)+" wide. Its mean arm is a root mean square: some 6 % more than friction summed over an evenly loaded round patch.")
	}
	if s := e.Source.radiusNote(); s != "" {
		list = append(list, "They rest on "+s+".")
	}
	return append(list, "Bands are those of the measured points alone.")
}
