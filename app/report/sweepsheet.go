package report

import (
	"fmt"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// sweptFigures are the readings that a sweep prints, in the order of its columns. Their
// names are promised to those who read the files.
func sweptFigures() []*figures.Figure {
	var list []*figures.Figure
	for _, f := range figures.ByQuantity() {
		if f.Head != "" {
			list = append(list, f)
		}
	}
	return list
}

// Sheet is the answer. Files have the side and what moves, the readings, the
// variant, and the 95 % band of each reading.
func (w *Sweep) Sheet() *sheet.Sheet {
	s := &w.Source
	t := &sheet.Table{Key: "rows", UnitRow: true, Groups: sheet.Rows()}
	rows := make([]sheet.Row, len(w.Rows))
	add := func(c sheet.Column, cell func(row *Row) sheet.Cell) {
		t.Columns = append(t.Columns, c)
		for i := range rows {
			rows[i] = append(rows[i], cell(&w.Rows[i]))
		}
	}
	add(sheet.Column{Role: sheet.Text, Title: "side", Key: "side"}, func(r *Row) sheet.Cell { return sheet.Words(r.Side) })
	add(sheet.Column{Title: "travel", Key: "travel_mm", On: w.unless(OverRack)}, func(r *Row) sheet.Cell {
		return sheet.Number(sheet.Chosen, r.Readings.Travel).Signed()
	})
	add(sheet.Column{Title: "rack", Key: "rack_mm", On: w.only(OverRack)}, func(r *Row) sheet.Cell {
		return sheet.Number(sheet.Chosen, r.Readings.Rack).Signed()
	})
	add(sheet.Column{Title: "roll", Key: "roll_deg", On: w.only(OverRoll)}, func(r *Row) sheet.Cell {
		return sheet.Number(sheet.Rolled, r.Readings.Roll)
	})
	for _, f := range sweptFigures() {
		on := sheet.Faces(0)
		switch {
		case f.Of == kinematics.RollCentreY:
			on = w.only(OverRoll)
		case f.Of == kinematics.TieRodError && w.Spec.Over == OverRack && w.Spec.Travel == 0:
			on = sheet.InFile // nought by its meaning, at every place of the rack
		}
		add(sheet.Column{Title: f.Head, Key: f.FileKey(), On: on}, func(r *Row) sheet.Cell { return r.cell(f) })
	}
	add(sheet.Column{Key: "variant", On: sheet.InFile}, func(*Row) sheet.Cell { return sheet.Words(s.Variant) })
	for _, f := range sweptFigures() {
		add(sheet.Column{Key: f.FileKey() + "_band_95", On: sheet.InFile}, func(r *Row) sheet.Cell {
			_, exists := r.Readings.Of(f.Of)
			half, ok := r.bands.Of(f.Of)
			return sheet.Half(f.Kind, half).If(ok && exists)
		})
	}
	t.Groups[0].Rows = rows
	return &sheet.Sheet{Job: s.Job, Variant: s.Variant, Rests: s.Rests(car.OnSpring), Head: []string{w.held() + ", points measured within ±" + s.within()}, Unit: s.Unit,
		Items: []sheet.Item{t}, Notes: func(units.Unit) []sheet.Note { return sheet.Notes(w.notes()...) }, Caution: Caution, Bare: true}
}

// only are the faces of what says something over this alone; unless, over the others.
func (w *Sweep) only(over Over) sheet.Faces {
	if w.Spec.Over == over {
		return 0
	}
	return sheet.InFile
}

func (w *Sweep) unless(over Over) sheet.Faces {
	if w.Spec.Over != over {
		return 0
	}
	return sheet.InFile
}

func (w *Sweep) held() string {
	switch w.Spec.Over {
	case OverRack:
		return "over rack, travel " + signedLength(w.Spec.Travel, w.Source.Unit)
	case OverRoll:
		return "over roll, left side up positive, mean travel nought, rack " + signedLength(w.Spec.Rack, w.Source.Unit)
	}
	return "over travel, bump positive, rack " + signedLength(w.Spec.Rack, w.Source.Unit)
}

// cell is a reading with the digits that its own band leaves.
func (r *Row) cell(f *figures.Figure) sheet.Cell {
	v, ok := r.Readings.Of(f.Of)
	if !ok {
		return sheet.Missing(f.Kind, "∞")
	}
	half, _ := r.bands.Of(f.Of)
	c := sheet.Banded(f.Kind, v, half)
	if f.Of == kinematics.RollCentreY {
		c = sheet.Number(sheet.Taped, v) // by symmetry it has no band at rest
	}
	if far := r.bands.Far(&r.Readings); f.Of.OfCentre() && far != kinematics.Near {
		c = c.Said(far.Sign())
	}
	return c
}

// notes explain what the table leaves out.
func (w *Sweep) notes() []string {
	list := []string{fmt.Sprintf("Digits follow the 95 %% band of points measured within ±%s; armcalc readings prints the bands. ∞: at infinity.",
		w.Source.within())}
	if w.Spec.Over == OverRack || w.Spec.Over == OverTravel && w.Spec.Rack != 0 {
		list = append(list, "RC height: where this corner's own line from tyre to instant centre crosses the centre plane.")
	}
	if w.Source.RadiusFrom != "" {
		list = append(list, "estimate: scrub, trail, half track, swing arm and RC rest on "+w.Source.radiusNote()+".")
	}
	return list
}
