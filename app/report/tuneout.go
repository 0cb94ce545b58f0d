package report

import (
	"fmt"
	"strings"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Sheet is the answer.
func (t *Tuned) Sheet() *sheet.Sheet {
	r := &t.Result
	items := append(t.asked(), t.moves(true), t.gain(),
		sheet.Prose{On: sheet.OnScreens, Lines: []sheet.Line{{Mark: wheelMark(t.Clear), Text: "Wheel with the moves: " + t.Clear.Words(t.Source.Unit)}}})
	if t.HasBefore {
		items = append(items, toeParts("Present toe curve", "diagnosis", &t.Setup, &t.Before, tune.ByTape)...)
	} else {
		items = append(items, sheet.Field{Key: "diagnosis", Cell: sheet.Missing(sheet.Plain, "")})
	}
	items = append(items, t.moves(false), sheet.Field{Key: "tie_rod_from_mm", Cell: sheet.Number(sheet.LaidOut, r.RodFrom)},
		sheet.Field{Key: "tie_rod_to_mm", Cell: sheet.Number(sheet.LaidOut, r.RodTo)}, sheet.Object{Key: "clearance", Fields: wheelFile(t.Clear)})
	if r.HasLeft {
		items = append(items, toeParts("What is left", "what_is_left", &t.Setup, &r.Left, tune.ByTape)...)
	} else {
		items = append(items, sheet.Field{Key: "what_is_left", Cell: sheet.Missing(sheet.Plain, "")})
	}
	items = append(items, t.stacks(), t.curves(), sheet.Object{Key: "toe_curves", Fields: []sheet.Field{{Key: "at", Cell: sheet.Numbers(t.placeKind(), r.Before.ToeChange.At)},
		{Key: "before_toe_change_deg", Cell: sheet.Numbers(sheet.Toe, r.Before.ToeChange.Toe)}, {Key: "after_toe_change_deg", Cell: sheet.Numbers(sheet.Toe, r.After.ToeChange.Toe)}}})
	g := t.Spec.Goal
	out := t.Source.sheet(car.OnRoom, fmt.Sprintf("toe curve over %s from %s to %s", overWord(g.Over), t.at(g.From), t.at(g.To)), t.remarks, items...)
	out.Says = t.says()
	out.Head[len(out.Head)-1] += "; wanted: " + t.wanted()
	return out
}

// wheelMark is how the wheel stands with what is offered.
func wheelMark(v *clearance.Judgement) sheet.Mark {
	switch {
	case v.InTheWay():
		return sheet.Bad
	case v.Fine():
		return sheet.Good
	}
	return sheet.Unsure
}

// wheelFile is how the wheel stands with what is offered: null where it is not known.
func wheelFile(v *clearance.Judgement) []sheet.Field {
	return []sheet.Field{{Key: "touches", Cell: sheet.Flag(v.InTheWay()).If(v.InTheWay() || v.Known())}, {Key: "words", Cell: sheet.Words(v.Words(units.Millimetre))}}
}

// placeKind is that of a place on the goal's range.
func (t *Tuned) placeKind() sheet.Kind {
	if t.Spec.Goal.Over == bumpsteer.OverRoll {
		return sheet.Stated
	}
	return sheet.Travel
}

// asked is what was asked for, and by how much toe moves before and after.
func (t *Tuned) asked() []sheet.Item {
	g, r := t.Spec.Goal, &t.Result
	place, slope, unit, slopeUnit := t.placeKind(), sheet.Slope, "mm", "deg/mm"
	if g.Over == bumpsteer.OverRoll {
		slope, unit, slopeUnit = sheet.PerAngle, "deg", "deg/deg"
	}
	var list []sheet.Item
	add := func(key string, c sheet.Cell) { list = append(list, sheet.Field{Key: key, Cell: c}) }
	add("over", sheet.Words(overWord(g.Over)))
	add("from", sheet.Number(place, g.From))
	add("to", sheet.Number(place, g.To))
	add("from_to_unit", sheet.Words(unit))
	add("wanted_slope", sheet.Number(slope, g.Slope))
	add("wanted_slope_unit", sheet.Words(slopeUnit))
	add("gauge_width_mm", sheet.Number(sheet.Chosen, t.Setup.Gauge.Width))
	add("before_max_toe_change_deg", sheet.Number(sheet.Toe, r.Before.Change))
	add("before_max_toe_change_at", sheet.Number(place, r.Before.ChangeAt))
	add("after_max_toe_change_deg", sheet.Number(sheet.Toe, r.After.Change))
	add("after_max_toe_change_at", sheet.Number(place, r.After.ChangeAt))
	add("before_max_distance_deg", sheet.Number(sheet.Toe, r.Before.Largest))
	add("after_max_distance_deg", sheet.Number(sheet.Toe, r.After.Largest))
	add("least_max_distance_deg", sheet.Number(sheet.Toe, r.Least))
	return list
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
		slope, unit = sheet.Slope.In(g.Slope, t.Source.Unit)
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

var limitWords = map[bumpsteer.AtLimit]string{bumpsteer.AtMin: "at its lower limit", bumpsteer.AtMax: "at its upper limit"}

var limitKeys = map[bumpsteer.AtLimit]string{bumpsteer.Inside: "inside", bumpsteer.AtMin: "min", bumpsteer.AtMax: "max"}

// moves are what is to be moved; screens have the rod's length with them.
func (t *Tuned) moves(screen bool) *sheet.Table {
	s, r, off := &t.Source, &t.Result, t.Setup.OffText()
	faces := sheet.OnScreens
	if !screen {
		faces = sheet.InFile
	}
	m := &sheet.Table{Title: "Moves", Key: "moves", On: faces, UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name, On: sheet.OnText}, {Role: sheet.Name, On: sheet.OnWindow}, {Key: "name", On: sheet.InFile}, {Key: "words", On: sheet.InFile},
		{Title: "from", Key: "from_mm"}, {Title: "to", Key: "to_mm"}, {Title: "by", Band: "95 % band", Key: "by_mm", BandKey: "band_95_mm"},
		{Key: "min_mm", On: sheet.InFile}, {Key: "max_mm", On: sheet.InFile}, {Key: "stands_at", On: sheet.InFile}, {Key: "by_exactly_mm", On: sheet.InFile}, {Key: "off_mm", On: sheet.InFile},
		{Key: "max_distance_with_more_room_deg", On: sheet.InFile},
		{Title: off + " more", Key: "extra_for_more_deg"}, {Title: off + " less", Key: "extra_for_less_deg"}, {Role: sheet.Text, Under: true, On: sheet.OnScreens}}}
	extra := func(rad float64, ok bool) sheet.Cell {
		if !ok {
			return sheet.Missing(sheet.Toe, figures.OutOfReach)
		}
		return sheet.Number(sheet.Toe, rad).Signed()
	}
	for i := range r.Moves {
		v := &r.Moves[i]
		at, length := v.Free.Freedom, func(mm float64) sheet.Cell { return sheet.Number(sheet.LaidOut, mm) }
		by := length(v.By()).Signed()
		if v.Limit == bumpsteer.Inside && v.Band > 0 {
			by = sheet.Banded(sheet.LaidOut, v.By(), v.Band).Signed()
		}
		m.Groups[0].Rows = append(m.Groups[0].Rows, sheet.Row{sheet.Words(at.Key() + "  " + t.Setup.FreedomName(at)), sheet.Words(t.Setup.FreedomName(at)), sheet.Words(at.Key()), sheet.Words(t.Setup.FreedomName(at)),
			length(v.From), length(v.To), by, length(v.Free.Min), length(v.Free.Max), sheet.Words(limitKeys[v.Limit]), length(v.Exact), length(tune.BuildOff(s.Unit)),
			sheet.Number(sheet.Toe, v.OneMore).If(v.HasOneMore), extra(v.ExtraPlus, v.HasExtraPlus), extra(v.ExtraMinus, v.HasExtraMinus), sheet.Words(t.Setup.MoveMarks(v, r))})
	}
	if screen {
		rod := sheet.Words("length of the " + t.Setup.Rod() + ", end to end")
		m.Groups[0].Rows = append(m.Groups[0].Rows, sheet.Row{rod, rod, {}, {}, sheet.Number(sheet.LaidOut, r.RodFrom),
			sheet.Number(sheet.LaidOut, r.RodTo), sheet.Number(sheet.LaidOut, r.RodTo-r.RodFrom).Signed()})
	}
	return m
}

// gain is what is gained.
func (t *Tuned) gain() *sheet.Table {
	g := &sheet.Table{On: sheet.OnScreens, Groups: sheet.Rows(), Columns: []sheet.Column{{Role: sheet.Name}, {Title: "before", UnitIn: true}, {Role: sheet.Text}, {Title: "after", UnitIn: true}, {Role: sheet.Text}}}
	b, a := &t.Result.Before, &t.Result.After
	row := func(name string, was, is, wasAt, isAt float64) {
		g.Groups[0].Rows = append(g.Groups[0].Rows, sheet.Row{sheet.Words(name), sheet.Number(sheet.Toe, was), sheet.Words("at " + t.found(wasAt)), sheet.Number(sheet.Toe, is), sheet.Words("at " + t.found(isAt))})
	}
	row("Largest change of toe from rest", b.Change, a.Change, b.ChangeAt, a.ChangeAt)
	if t.Spec.Goal.Slope != 0 {
		row("Largest distance from the wanted line", b.Largest, a.Largest, b.At, a.At)
	}
	return g
}

// stacks are those that come nearest.
func (t *Tuned) stacks() *sheet.Table {
	s, any := &t.Source, onTextIf(len(t.Plan) > 0)
	head := "largest change"
	if t.Spec.Goal.Slope != 0 {
		head = "from the line"
	}
	m := &sheet.Table{Title: "Stacks", Key: "stacks", On: any, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name, On: sheet.OnScreens}, {Title: "of " + s.Unit.String(), Role: sheet.Text, On: sheet.OnScreens}, {Key: "pieces_mm", On: sheet.InFile}, {Key: "height_mm", On: sheet.InFile},
		{Title: "height", UnitIn: true, Key: "raise_mm"}, {Key: "tall", On: sheet.InFile}, {Title: head, UnitIn: true, Key: "max_distance_deg"}, {Title: t.Setup.Rod(), UnitIn: true, Key: "tie_rod_mm"},
		{Title: "grip and stack", UnitIn: true, Key: "grip_and_stack_mm", On: onTextIf(t.Setup.Grip > 0)}, {Key: "max_toe_change_deg", On: sheet.InFile}, {Key: "toe_change_deg", On: sheet.InFile},
		{Key: "clearance.touches", On: sheet.InFile}, {Key: "clearance.words", On: sheet.InFile}, {Role: sheet.Text, On: sheet.OnScreens}}}
	for i := range t.Plan {
		k := &t.Plan[i]
		mark := t.PlanClear[i].Row(s.Unit)
		if k.Tall {
			mark = strings.TrimSuffix("tall; "+mark, "; ")
		}
		if t.Setup.StandsAlready(k) {
			mark = strings.TrimSuffix("stands there now; "+mark, "; ")
		}
		room := wheelFile(t.PlanClear[i])
		m.Groups[0].Rows = append(m.Groups[0].Rows, sheet.Row{sheet.Words(fmt.Sprint(i + 1)), sheet.Words(tune.PiecesText(k.Pieces, s.Unit)), sheet.Numbers(sheet.LaidOut, k.Pieces), sheet.Number(sheet.LaidOut, k.Height),
			sheet.Number(sheet.LaidOut, k.Raise).Signed(), sheet.Flag(k.Tall), sheet.Number(sheet.Toe, k.Measure.Largest), sheet.Number(sheet.LaidOut, k.Rod),
			sheet.Number(sheet.Chosen, k.Bolt).If(k.Bolt > 0), sheet.Number(sheet.Toe, k.Measure.Change), sheet.Numbers(sheet.Toe, k.Measure.ToeChange.Toe), room[0].Cell, room[1].Cell, sheet.Words(mark)})
	}
	return m
}

// curves sets the toe curves side by side.
func (t *Tuned) curves() *sheet.Table {
	g, place := t.Spec.Goal, t.placeKind()
	scale, _ := place.In(1, t.Source.Unit)
	at := stations(g.From, g.To, tableSteps((g.To-g.From)*scale)/scale)
	m := &sheet.Table{Title: "Change of toe from rest, toe-in positive", Above: true, On: sheet.OnScreens, UnitRow: true, Groups: sheet.Rows(), Columns: []sheet.Column{{Title: overWord(g.Over)}}}
	for _, h := range at {
		m.Groups[0].Rows = append(m.Groups[0].Rows, sheet.Row{sheet.Number(place, h).Signed()})
	}
	on := sheet.OnScreens
	add := func(head string, toe func(i int) sheet.Cell) {
		m.Columns = append(m.Columns, sheet.Column{Title: head, On: on})
		for i := range at {
			m.Groups[0].Rows[i] = append(m.Groups[0].Rows[i], toe(i))
		}
	}
	solved := func(head string, c kinematics.Corner) {
		curve, err := bumpsteer.ToeCurve(c, g.Over, at)
		add(head, func(i int) sheet.Cell {
			if err != nil {
				return sheet.Missing(sheet.Toe, figures.OutOfReach)
			}
			return sheet.Number(sheet.Toe, curve.Toe[i]).Signed()
		})
	}
	if g.Slope != 0 {
		add("wanted", func(i int) sheet.Cell { return sheet.Number(sheet.Toe, g.Slope*at[i]).Signed() })
	}
	solved("before", t.Source.Corner)
	solved("after", t.Result.Corner)
	on = sheet.OnText // as the stacks are
	for i := range t.Plan {
		solved(fmt.Sprintf("stack %d", i+1), t.stacked(&t.Plan[i]))
	}
	return m
}

// remarks explain the answer.
func (t *Tuned) remarks(u units.Unit) []sheet.Note {
	setup := t.Setup
	setup.Unit = u
	list := []string{setup.CureWords(&t.Result), "Moves: x forward, y outboard, z up, from where the points were measured; the rod is cut to keep the resting toe.",
		setup.OffText() + " more or less: what such a building error adds to the largest distance from what is wanted."}
	if t.Spec.Goal.Over == bumpsteer.OverRoll {
		list = append(list, "Roll: the left wheel, its toe to the ground; it is the inner wheel where roll is positive.")
	}
	if there := setup.StandingText(); there != "" && len(t.Plan) > 0 {
		list = append(list, "Stacks: each in place of "+there+" that stands there now, which may be part of it; heights are whole.")
	}
	if len(t.Plan) > 0 {
		tall := false
		for i := range t.Plan {
			tall = tall || t.Plan[i].Tall
		}
		if tall {
			list = append(list, fmt.Sprintf("tall: over %s; %s", lengthText(bumpsteer.TallStack, u), tune.TallWarning))
		} else {
			list = append(list, "Spacers: "+tune.SpacerHint)
		}
	}
	if t.NoPlan != "" {
		list = append(list, "Spacers: "+t.NoPlan)
	}
	return sheet.Notes(list...)
}
