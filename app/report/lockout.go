package report

import (
	"fmt"
	"math"

	"armscribe/app/car"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// wayNames name the ways that the wheels turn, as Lock.Ways has them.
var wayNames = [2]string{"right", "left"}

// Sheet is the answer: the angles over the rack, and what ends the lock each way;
// a window sets the lock one way beside that of another variant, if there is one.
func (l *Lock) Sheet(before *Lock, way int) *sheet.Sheet {
	s := &l.Source
	wheelbase := sheet.Field{Key: "wheelbase_mm", Cell: sheet.Number(sheet.Length, s.Wheelbase).If(s.Wheelbase > 0)}
	items := []sheet.Item{wheelbase, l.sentences()}
	if before != nil {
		items = append(items, l.besideTable(before, way))
	}
	return s.sheet(l.rests(), "steering from stop to stop at rest height", l.notes, append(items, l.angles(), l.ends())...)
}

// rests is what the answer rests on besides the points.
func (l *Lock) rests() car.Rest {
	switch {
	case l.NoTyre:
		return car.OnRack
	case l.Obstacles == 0:
		return car.OnRack | car.OnRim
	}
	return car.OnRoom
}

// angles are the steering angles over the rack.
func (l *Lock) angles() *sheet.Table {
	t := &sheet.Table{Key: "angles", Bare: true, Columns: []sheet.Column{
		{Title: "rack", UnitIn: true, Key: "rack_mm"},
		{Title: "left wheel", UnitIn: true, Band: " ", Key: "left_deg", BandKey: "left_band_95"},
		{Title: "right wheel", UnitIn: true, Band: " ", Key: "right_deg", BandKey: "right_band_95"},
		{Title: "outer, ideal", On: sheet.OnWindow},
		{Title: "Ackermann error, deg", Band: " ", Key: "ackermann_error_deg", BandKey: "ackermann_error_band_95"},
		{MissingKey: "missing", On: sheet.InFile},
		{Role: sheet.Text, On: sheet.OnScreens},
	}, Over: []sheet.Over{{Column: 0}, {Column: 1}, {Column: 2}, {Column: 3}, {Column: 4}}, Groups: sheet.Rows()}
	for i := range l.Rows {
		t.Groups[0].Rows = append(t.Groups[0].Rows, l.Rows[i].row(l.Source.Wheelbase > 0))
	}
	return t
}

func (r *LockRow) row(hasWheelbase bool) sheet.Row {
	rack := sheet.Number(sheet.Travel, r.Rack)
	if r.Missing != "" {
		none := sheet.Cell{}.If(false)
		return sheet.Row{rack, none, none, {}, none, sheet.Missing(sheet.Plain, r.Missing), sheet.Words("out of reach: " + r.Missing)}
	}
	ideal, _, hasIdeal := r.Ideal()
	row := sheet.Row{rack, r.angle(r.Left, r.LeftBand), r.angle(r.Right, r.RightBand), sheet.Number(sheet.Angle, ideal).Signed().If(hasIdeal).Marked(sheet.Aside)}
	switch {
	case r.HasError:
		return append(row, r.angle(r.AckermannError, r.ErrorBand), sheet.Cell{}, sheet.Words(ackermannWord(r.AckermannError, r.ErrorBand)))
	case hasWheelbase:
		return append(row, sheet.Missing(sheet.Angle, "none"), sheet.Cell{}, sheet.Words("straight ahead, or wheels not both turned one way"))
	}
	return append(row, sheet.Missing(sheet.Angle, notKnown), sheet.Cell{}, sheet.Cell{})
}

// angle is one of the row's, with its band.
func (r *LockRow) angle(rad, band float64) sheet.Cell {
	return sheet.BandedIf(sheet.Angle, rad, band, r.HasBands).Signed()
}

// ackermannWord says what an Ackermann error means; both in rad.
func ackermannWord(err, band float64) string {
	switch {
	case err > band:
		return "outer wheel turned too far"
	case err < -band:
		return "outer wheel turned too little"
	}
	return "open: within its band"
}

// ends are what ends the lock each way.
func (l *Lock) ends() *sheet.Table {
	t := &sheet.Table{Key: "ends", GroupKey: "locks", Bare: true, Columns: []sheet.Column{
		{Key: "key", On: sheet.InFile},
		{Role: sheet.Name},
		{Title: "rack", UnitIn: true, Key: "rack_mm"},
		{Title: "left", UnitIn: true, Band: " ", Key: "left_deg"},
		{Title: "right", UnitIn: true, Band: " ", Key: "right_deg"},
		{Key: "ends_at", On: sheet.InFile}, // stop, obstacle or linkage
		{Key: "obstacle", On: sheet.InFile},
		{Key: "wheel", On: sheet.InFile},
		{Key: "travel_mm", On: sheet.InFile},
		{Title: "wall to wall", UnitIn: true, Band: " ", Key: "wall_to_wall_mm", BandKey: "wall_to_wall_band_95"},
		{Title: "kerb to kerb", UnitIn: true, Band: " ", Key: "kerb_to_kerb_mm", BandKey: "kerb_to_kerb_band_95"},
		{Key: "turn_centres_apart_mm", On: sheet.InFile},
		{Title: "ends at", Role: sheet.Text, On: sheet.OnText},
	}, Over: []sheet.Over{{Column: 2}, {Column: 3}, {Column: 4}, {Column: 9}, {Column: 10}, {Column: 12}}}
	for i := range l.Ways {
		w := &l.Ways[i]
		g := sheet.Group{Name: "Turning " + wayNames[i], Fields: []sheet.Field{{Key: "way", Cell: sheet.Words(wayNames[i])}, {Key: "stop_mm", Cell: sheet.Number(sheet.Travel, w.Stop)}}}
		for _, e := range w.ends() {
			g.Rows = append(g.Rows, e.row(l.Source.Unit))
		}
		t.Groups = append(t.Groups, g)
	}
	return t
}

// namedEnd is an end of a way with what it is an end of.
type namedEnd struct {
	*LockEnd
	key, name string
}

// ends are the ends of a way that differ.
func (w *LockWay) ends() []namedEnd {
	list := []namedEnd{{&w.AtEnd, "rack", "as far as the rack goes"}}
	if w.Kept.By == ByObstacle {
		list = append(list, namedEnd{&w.Kept, "gaps_kept", "wished gaps kept"})
	}
	if w.Touch.By == ByObstacle {
		list = append(list, namedEnd{&w.Touch, "touch", "before it touches"})
	}
	return list
}

var endKeys = map[EndedBy]string{ByStop: "stop", ByObstacle: "obstacle", ByLinkage: "linkage"}

func (e namedEnd) row(unit units.Unit) sheet.Row {
	ok, met := e.Missing == "", e.By == ByObstacle
	circle := func(mm float64, has bool) sheet.Cell {
		return sheet.BandedIf(sheet.Far, mm, e.CircleBand, e.HasCircleBand).If(has)
	}
	return sheet.Row{sheet.Words(e.key), sheet.Words(e.name), sheet.Number(sheet.Taped, e.Rack).Signed(), e.angle(e.Left, e.LeftBand).If(ok), e.angle(e.Right, e.RightBand).If(ok),
		sheet.Words(endKeys[e.By]), sheet.Words(e.Obstacle).If(met), sheet.Words(e.Wheel).If(met), sheet.Number(sheet.Travel, e.Travel).If(met),
		circle(e.Circle.WallToWall, e.HasWall), circle(e.Circle.KerbToKerb, e.HasCircle), sheet.Number(sheet.Length, e.Circle.Spread).If(e.HasCircle), sheet.Words(e.Words(unit))}
}

// sentences say what ends the lock each way.
func (l *Lock) sentences() sheet.Prose {
	p := sheet.Prose{On: sheet.OnWindow}
	rack := func(mm float64) string { return sheet.Number(sheet.Taped, math.Abs(mm)).Phrase(l.Source.Unit) }
	for i := range l.Ways {
		w := &l.Ways[i]
		line := sheet.Line{Text: "Turning " + wayNames[i] + ": "}
		switch {
		case w.Kept.By == ByObstacle:
			line.Mark, line.At = sheet.Bad, w.Kept.place()
			line.Text += fmt.Sprintf("the wished gaps are kept up to %s of rack only, of %s. In the way: %s.", rack(w.Kept.Rack), rack(w.AtEnd.Rack), w.Kept.Words(l.Source.Unit))
			if w.Touch.By == ByObstacle {
				line.Text += fmt.Sprintf(" It touches at %s.", rack(w.Touch.Rack))
			} else {
				line.Text += " It does not touch before the end."
			}
		case w.AtEnd.By == ByLinkage:
			line.Mark = sheet.Bad
			line.Text += fmt.Sprintf("the linkage ends it at %s of rack, before the stop at %s: %s.", rack(w.AtEnd.Rack), rack(w.Stop), w.AtEnd.Cause)
		case l.Obstacles > 0 && !l.NoTyre:
			line.Mark = sheet.Good
			line.Text += fmt.Sprintf("all %s of rack, every wished gap kept.", rack(w.AtEnd.Rack))
		default:
			line.Text += fmt.Sprintf("all %s of rack; no obstacle is looked at.", rack(w.AtEnd.Rack))
		}
		p.Lines = append(p.Lines, line)
	}
	return p
}

// place is where the obstacle is in the way; the right wheel's pose is the left
// one's at the rack the other way round.
func (e *LockEnd) place() *sheet.Place {
	p := &sheet.Place{Travel: e.Travel, Rack: e.Rack}
	if e.Wheel == "right" {
		p.Rack = -p.Rack
	}
	return p
}

// notes say what the numbers rest on; the window's shorter ones what its words do not.
func (l *Lock) notes(unit units.Unit) []sheet.Note {
	s := &l.Source
	const file = sheet.OnText | sheet.InFile
	list := sheet.Notes("Angles: left turn positive, toe included. Rack: to the car's left positive. Bands are 95 %.")
	add := func(on sheet.Faces, text string) { list = append(list, sheet.Note{On: on, Text: text}) }
	if s.Wheelbase > 0 {
		const wall = "Wall to wall: the farthest point of the tyres; bodywork ahead of the wheel sweeps more and is not in it."
		add(file, fmt.Sprintf("Ackermann error: how much farther the outer wheel is turned than it would be if both rolled about one point of the other axle's line, wheelbase %s; positive is toward parallel steering.", lengthText(s.Wheelbase, unit)))
		add(file, "Circles are diameters at low speed, the other axle's wheels straight. "+l.slip(unit)+wall+" Kerb to kerb: the outer tyre's contact.")
		add(sheet.OnWindow, l.slip(unit)+wall)
	} else {
		add(0, "Ackermann error and turning circle need the wheelbase: add wheelbase to the job.")
	}
	switch {
	case l.NoTyre:
		add(0, "The tyre's size is not known, so neither the circle from wall to wall nor obstacles are looked at: give a size code and a rim that belong together, as 205/65R15 on 6 in.")
	case l.Obstacles == 0:
		add(0, "The job states no obstacles on body or damper: whether the tyre touches before the stop is not looked at.")
	default:
		add(file, fmt.Sprintf("Obstacles: the tyre over travel %s to %s at every lock, without roll. They are those of the left side; the right side is taken as its mirror image.",
			signedLength(-s.Droop, unit), signedLength(s.Bump, unit)))
	}
	return list
}

// slip says how far the circles are from a turn without slip.
func (l *Lock) slip(unit units.Unit) string {
	apart := 0.0
	for i := range l.Ways {
		for _, e := range l.Ways[i].ends() {
			apart = max(apart, e.Circle.Spread)
		}
	}
	if apart < leastApart {
		return ""
	}
	far, name := sheet.Far.In(apart, unit)
	return fmt.Sprintf("At these locks the two wheels' own turn centres lie up to %s %s apart, so that neither rolls without slip: the circle is taken about the middle between them, and which one the car drives depends on the wheel that carries more. ",
		units.FormatNumber(far, apartDecimals), name)
}

// leastApart is how far apart, mm, turn centres may lie and count as one.
const (
	leastApart    = 10.0
	apartDecimals = 2
)
