package report

import (
	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Sheet is the answer: the forces of every case; a window sets them beside those
// of another variant, if there is one.
func (e *Efforts) Sheet(beside *EffortsBeside) *sheet.Sheet {
	t := &sheet.Table{Key: "values", GroupKey: "cases", Columns: []sheet.Column{
		{Key: "key", On: sheet.InFile},
		{Role: sheet.Name, Key: "name"},
		{Title: "value", Band: "95 % band", UnitTitle: "unit", Key: "value", UnitKey: "unit", BandKey: "band_95"},
		{Title: "positive when it", Role: sheet.Text, Key: "positive_when_it", On: sheet.OnText | sheet.InFile},
	}}
	if beside != nil {
		t.Columns = append(t.Columns, sheet.Column{Title: oneLine(beside.Before.Source.Variant), On: sheet.OnWindow},
			sheet.Column{Title: "size grows by", Band: "95 % band", On: sheet.OnWindow}, sheet.Column{Role: sheet.Text, On: sheet.OnWindow})
	}
	for i := range e.Cases {
		c := &e.Cases[i]
		g := sheet.Group{Key: c.Key, Name: c.Name, Missing: c.Missing}
		if beside != nil {
			g.Missing = beside.Cases[i].Missing
		}
		for n := range c.Lines {
			l := &c.Lines[n]
			if g.Missing != "" {
				break
			}
			row := sheet.Row{sheet.Words(l.Key), sheet.Words(l.Name), l.cell(), sheet.Words(l.Positive)}
			if beside != nil {
				row = append(row, beside.Cases[i].Lines[n].cells()...)
			}
			g.Rows = append(g.Rows, row)
		}
		t.Groups = append(t.Groups, g)
	}
	what := "steering"
	if e.loading.rear {
		what = "toe links"
	}
	return e.Source.sheet(e.rests(), "forces in the "+what+"; INDICATIVE ONLY", e.notes, sheet.Field{Key: "indicative_only", Cell: sheet.Flag(true)}, beside.sentences(e.loading.rear), t, e.loading.file())
}

// rests is what the answer rests on besides the points.
func (e *Efforts) rests() car.Rest {
	var on car.Rest
	if e.Source.Corner.Spring.Carrier == kinematics.OnUpright {
		on |= car.OnSpring
	}
	if e.loading.conditions().BumpTravel > e.loading.bump {
		on |= car.OnBump // it is said that the bump is more
	}
	return on
}

// cell is the value with its band.
func (l *EffortLine) cell() sheet.Cell {
	return sheet.BandedIf(l.kind, l.Value, l.Band, l.HasBand).Signed()
}

// notes say under what the forces were computed; a window has no flags to name.
func (e *Efforts) notes(unit units.Unit) []sheet.Note {
	bare := *e
	bare.loading = e.loading.bare()
	signs := "Moments are positive when they turn the wheel's front outboard, rods when they are pressed"
	if !e.loading.rear {
		signs += ", rack and steering wheel when to the left"
	}
	list := []sheet.Note{{On: sheet.OnWindow, Text: signs + ". Grips and bump are this page's own: they are not kept in the job."}}
	return append(list, sheet.Either(e.words(unit), bare.words(unit))...)
}

// springNote says what a spring on the upright does to the moments; none for a
// spring elsewhere.
func (s *Source) springNote() []string {
	if s.Corner.Spring.Carrier != kinematics.OnUpright {
		return nil
	}
	return []string{"The spring stands on the upright and turns it about the steering axis too: its share is in the moments and forces."}
}

func (e *Efforts) words(unit units.Unit) []string {
	list := e.loading.words(unit)
	list = append(list, e.Source.springNote()...)
	if !e.loading.rear {
		list = append(list, "Parking torque: J. J. Taborek, Mechanics of Vehicles (1957), from memory: grip x load x root(tread² / 8 + arm²), arm from where the axis meets the ground to the tyre's contact; the tread is "+
			lengthText(e.loading.tread, unit)+" wide. Its mean arm is a root mean square: some 6 % more than friction summed over an evenly loaded round patch.")
	}
	if s := e.Source.radiusNote(); s != "" {
		list = append(list, "They rest on "+s+".")
	}
	if len(e.Source.Rests(e.rests())) > 0 {
		return append(list, "Bands are those of the points, which are measured or assumed, alone.")
	}
	return append(list, "Bands are those of the measured points alone.")
}
