package report

import (
	"fmt"
	"strings"

	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// toeText prints a toe change, deg.
func toeText(rad float64) string { return units.Signed(units.SmallAngles.Number(degrees(rad))) }

// moveCell prints a move with its sign, in the unit of a table.
func moveCell(mm float64, unit units.Unit) string {
	return units.Signed(lengthCell(mm, unit))
}

// lengthCell prints a place or length in the unit of a table.
func lengthCell(mm float64, unit units.Unit) string { return units.Gauged.Number(mm, unit) }

// Table prints the cure for a person.
func (t *Tuned) Table() (string, error) {
	curves, err := t.curves()
	if err != nil {
		return "", err
	}
	parts := []string{t.head()}
	if t.HasBefore {
		parts = append(parts, diagnosisTable("Present toe curve", &t.Setup, &t.Before, tune.ByTape))
	}
	parts = append(parts, t.movesTable(), t.gainTable(), "Wheel with the moves: "+t.Clear.Words(t.Source.Unit)+"\n")
	if t.Result.HasLeft {
		parts = append(parts, diagnosisTable("What is left", &t.Setup, &t.Result.Left, tune.ByTape))
	}
	if len(t.Plan) > 0 {
		parts = append(parts, t.planTable())
	}
	parts = append(parts, curves, foot(t.remarks()))
	return strings.Join(parts, "\n"), nil
}

func (t *Tuned) head() string {
	s, g := &t.Source, t.Spec.Goal
	return s.first() + fmt.Sprintf("%s: %s, toe curve over %s from %s to %s\npoints measured within ±%s; wanted: %s\n", oneLine(s.Job), oneLine(s.Variant),
		overWord(g.Over), t.at(g.From), t.at(g.To), s.within(), t.wanted())
}

func overWord(o bumpsteer.Over) string {
	if o == bumpsteer.OverRoll {
		return "roll"
	}
	return "travel"
}

// at prints a place on the goal's range.
func (t *Tuned) at(x float64) string {
	if t.Spec.Goal.Over == bumpsteer.OverRoll {
		return toPlain(x) + " deg"
	}
	return signedLength(x, t.Source.Unit)
}

// found is at for a place that was found and not chosen.
func (t *Tuned) found(x float64) string {
	if t.Spec.Goal.Over == bumpsteer.OverRoll {
		return units.Signed(units.Trimmed(degrees(x), 2)) + " deg"
	}
	return units.Place(x, t.Source.Unit)
}

// toPlain prints an angle with its sign and no more decimals than it needs.
func toPlain(rad float64) string {
	return units.Signed(units.SmallAngles.Short(degrees(rad)))
}

// wanted says which line is aimed at.
func (t *Tuned) wanted() string {
	g := t.Spec.Goal
	if g.Slope == 0 {
		return "no change of toe"
	}
	unit, slope := "deg/deg", g.Slope
	if g.Over == bumpsteer.OverTravel {
		q := Quantity{Kind: kinematics.Slope}
		slope, unit = q.inUnit(g.Slope, t.Source.Unit)
	}
	way := "toe-in"
	if g.Slope < 0 {
		way = "toe-out"
	}
	where := "as the wheel rises"
	if g.Over == bumpsteer.OverRoll {
		where = "as this side lifts"
	}
	return fmt.Sprintf("%s %s, %s %s", units.Signed(units.AsTyped(slope)), unit, way, where)
}

// diagnosisTable prints a diagnosis: the parts in degrees for each length, in
// degrees at the farther end of the travel and as a length at the rim, then
// what causes each.
func diagnosisTable(title string, s *tune.Setup, d *bumpsteer.Diagnosis, by tune.Basis) string {
	g := grid{columns: []align{left, point, left, left, point, left, point, left}}
	head := []string{title, "", "", "", "at " + endText(tune.FarEnd(d), s.Unit), "deg", "", ""}
	if s.Gauge.Width > 0 {
		head[6], head[7] = "across "+lengthText(s.Gauge.Width, s.Unit), s.Unit.String()
	}
	g.row(head...)
	parts := s.Parts(d, by)
	for i := range parts {
		p := &parts[i]
		cells := []string{"  " + p.Name, "", "", "", "", "", "", ""}
		switch p.Name {
		case "slope":
			cells[1], cells[2] = splitBand(kinematics.Slope, p.Per.Value, p.Per.Half, s.Unit)
			cells[3] = "deg/" + s.Unit.String()
		case "bow":
			cell := sheet.Banded(sheet.Bow, p.Per.Value, p.Per.Half)
			cells[1], cells[2] = strings.TrimSuffix(cell.Text(s.Unit), " "+cell.Half(s.Unit)), cell.Half(s.Unit)
			cells[3] = "deg/" + s.Unit.String() + "²"
		}
		at := p.AtEnd
		cells[4], cells[5] = splitBand(kinematics.Angle, at.Value, at.Half, s.Unit)
		if s.Gauge.Width > 0 {
			cells[6], cells[7] = splitBand(kinematics.Length, s.Gauge.Length(at.Value), s.Gauge.Length(at.Half), s.Unit)
		}
		if !p.HasBand {
			cells[4], cells[5], cells[7] = units.SmallAngles.Number(degrees(at.Value)), "at most", ""
			if s.Gauge.Width > 0 {
				cells[6] = lengthCell(s.Gauge.Length(at.Value), s.Unit)
			}
		}
		g.row(cells...)
	}
	text := g.String()
	for i := range parts {
		text += "  " + parts[i].Name + ": " + parts[i].Words + "\n"
	}
	return text
}

// endText prints an end of travel, which may be what rolling gives.
func endText(mm float64, unit units.Unit) string {
	return units.Signed(units.Taped.Short(mm, unit)) + " " + unit.String()
}

var limitWords = map[bumpsteer.AtLimit]string{bumpsteer.AtMin: "at its lower limit", bumpsteer.AtMax: "at its upper limit"}

// movesTable prints what is to be moved.
func (t *Tuned) movesTable() string {
	s := &t.Source
	g := grid{columns: []align{left, point, point, point, left, left, point, point, left}}
	g.row("Moves", "from", "to", "by", "95 % band", "unit", t.Setup.OffText()+" more", t.Setup.OffText()+" less", "")
	extra := func(rad float64, ok bool) string {
		if !ok {
			return outOfReach
		}
		return toeText(rad) + " deg"
	}
	for i := range t.Result.Moves {
		m := &t.Result.Moves[i]
		at := m.Free.Freedom
		_, half := splitBand(kinematics.Length, m.By(), m.Band, s.Unit)
		if m.Band == 0 {
			half = ""
		}
		g.row("  "+at.Key()+"  "+t.Setup.FreedomName(at), lengthCell(m.From, s.Unit), lengthCell(m.To, s.Unit), moveCell(m.By(), s.Unit), half, s.Unit.String(),
			extra(m.ExtraPlus, m.HasExtraPlus), extra(m.ExtraMinus, m.HasExtraMinus), t.Setup.MoveMarks(m, &t.Result))
	}
	rod := "  length of the tie rod, end to end"
	if s.Rear {
		rod = "  length of the toe link, end to end"
	}
	r := &t.Result
	g.row(rod, lengthCell(r.RodFrom, s.Unit), lengthCell(r.RodTo, s.Unit), moveCell(r.RodTo-r.RodFrom, s.Unit), "", s.Unit.String(), "", "", "")
	return g.String()
}

// gainTable prints what is gained.
func (t *Tuned) gainTable() string {
	g := grid{columns: []align{left, point, left, point, left, left}}
	b, a := &t.Result.Before, &t.Result.After
	g.row("", "before", "", "after", "", "unit")
	g.row("Largest change of toe from rest", units.SmallAngles.Number(degrees(b.Change)), "at "+t.found(b.ChangeAt),
		units.SmallAngles.Number(degrees(a.Change)), "at "+t.found(a.ChangeAt), "deg")
	if t.Spec.Goal.Slope != 0 {
		g.row("Largest distance from the wanted line", units.SmallAngles.Number(degrees(b.Largest)), "at "+t.found(b.At),
			units.SmallAngles.Number(degrees(a.Largest)), "at "+t.found(a.At), "deg")
	}
	return g.String()
}

// planTable prints the stacks.
func (t *Tuned) planTable() string {
	s := &t.Source
	g := grid{columns: []align{left, left, point, point, point, left, left}}
	head, bolt := "largest change", ""
	if t.Spec.Goal.Slope != 0 {
		head = "from the line"
	}
	if t.Setup.Grip > 0 {
		bolt = "grip and stack"
	}
	g.row("Stacks", "of "+s.Unit.String(), "height", head+", deg", pickWord(s.Rear, "toe link", "tie rod"), bolt, "")
	for i := range t.Plan {
		k := &t.Plan[i]
		mark, length := t.PlanClear[i].Row(s.Unit), ""
		if k.Tall {
			mark = strings.TrimSuffix("tall; "+mark, "; ")
		}
		if t.Setup.StandsAlready(k) {
			mark = strings.TrimSuffix("stands there now; "+mark, "; ")
		}
		if t.Setup.Grip > 0 {
			length = lengthText(k.Bolt, s.Unit)
		}
		g.row(fmt.Sprintf("  %d", i+1), tune.PiecesText(k.Pieces, s.Unit), moveCell(k.Raise, s.Unit), units.SmallAngles.Number(degrees(k.Measure.Largest)), lengthCell(k.Rod, s.Unit), length, mark)
	}
	return g.String()
}

// curves prints the toe curves side by side.
func (t *Tuned) curves() (string, error) {
	gl := t.Spec.Goal
	scale, name := units.In(1, t.Source.Unit), t.Source.Unit.String()
	if gl.Over == bumpsteer.OverRoll {
		scale, name = degrees(1), "deg"
	}
	step := tableSteps((gl.To - gl.From) * scale)
	at := stations(gl.From, gl.To, step/scale)
	g := grid{columns: []align{point}}
	heads, unit := []string{overWord(gl.Over)}, []string{name}
	var lists [][]float64
	add := func(head string, toe []float64) {
		heads, unit, lists = append(heads, head), append(unit, "deg"), append(lists, toe)
		g.columns = append(g.columns, point)
	}
	solved := func(head string, c kinematics.Corner) error {
		curve, err := bumpsteer.ToeCurve(c, gl.Over, at)
		if err == nil {
			add(head, curve.Toe)
		}
		return err
	}
	if gl.Slope != 0 {
		line := make([]float64, len(at))
		for i, h := range at {
			line[i] = gl.Slope * h
		}
		add("wanted", line)
	}
	if err := solved("before", t.Source.Corner); err != nil {
		return "", t.Source.named(err)
	}
	if err := solved("after", t.Result.Corner); err != nil {
		return "", t.Source.named(err)
	}
	for i := range t.Plan {
		if err := solved(fmt.Sprintf("stack %d", i+1), t.stacked(&t.Plan[i])); err != nil {
			return "", t.Source.named(err)
		}
	}
	g.row(heads...)
	g.row(unit...)
	for i, h := range at {
		cells := []string{placeCell(h, t.Source.Unit)}
		if gl.Over == bumpsteer.OverRoll {
			cells[0] = units.Signed(units.SmallAngles.Short(degrees(h)))
		}
		for _, toe := range lists {
			cells = append(cells, toeText(toe[i]))
		}
		g.row(cells...)
	}
	return "Change of toe from rest, toe-in positive\n" + g.String(), nil
}

// placeCell prints a round place of travel or rack in a table.
func placeCell(mm float64, u units.Unit) string { return units.Signed(units.ShortNumber(mm, u)) }

// remarks explain the answer.
func (t *Tuned) remarks() []string {
	list := []string{t.Setup.CureWords(&t.Result), "Moves: x forward, y outboard, z up, from where the points were measured; the rod is cut to keep the resting toe.",
		t.Setup.OffText() + " more or less: what such a building error adds to the largest distance from what is wanted."}
	if t.Spec.Goal.Over == bumpsteer.OverRoll {
		list = append(list, "Roll: the left wheel, its toe to the ground; it is the inner wheel where roll is positive.")
	}
	if there := t.Setup.StandingText(); there != "" && len(t.Plan) > 0 {
		list = append(list, "Stacks: each in place of "+there+" that stands there now, which may be part of it; heights are whole.")
	}
	if len(t.Plan) > 0 {
		tall := false
		for i := range t.Plan {
			tall = tall || t.Plan[i].Tall
		}
		if tall {
			list = append(list, fmt.Sprintf("tall: over %s; %s", lengthText(bumpsteer.TallStack, t.Source.Unit), tune.TallWarning))
		} else {
			list = append(list, "Spacers: "+tune.SpacerHint)
		}
	}
	if t.NoPlan != "" {
		list = append(list, "Spacers: "+t.NoPlan)
	}
	return list
}
