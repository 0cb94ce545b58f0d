package report

import (
	"math"

	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/targets"
)

// LockMeasure is one measure of the lock one way beside another variant's: sizes
// in mm or rad, without signs.
type LockMeasure struct {
	Name             string
	Now, Before      sheet.Cell
	Change           sheet.Cell
	Verdict          targets.Trend
	kind             sheet.Kind
	rounding         float64
	now, was         float64
	hasNow, hasWas   bool
	sense            figures.Sense
	bandNow, bandWas band
}

// Beside sets the lock one way, 0 to the right and 1 to the left, beside that of
// another variant of the same job, as far as nothing touches. More rack is better,
// and a smaller circle; a smaller Ackermann error is where both use the same rack.
func (l *Lock) Beside(before *Lock, way int) []LockMeasure {
	now, was := &l.Ways[way].Touch, &before.Ways[way].Touch
	rack := func(name string, a, b *LockEnd) LockMeasure {
		m := LockMeasure{Name: name, kind: sheet.Taped, rounding: sheet.Length.Rounding(), now: a.Rack, was: b.Rack, hasNow: true, hasWas: true, sense: figures.More}
		m.bandNow.ok, m.bandWas.ok = a.By == ByStop, b.By == ByStop
		m.set(band{ok: m.bandNow.ok && m.bandWas.ok})
		return m
	}
	list := []LockMeasure{rack("rack until it touches or ends", now, was), rack("rack with wished gaps kept", &l.Ways[way].Kept, &before.Ways[way].Kept)}
	pair := besides(&was.linear, &now.linear)
	add := func(fact int, name string, kind sheet.Kind, sense figures.Sense, of func(e *LockEnd) (v float64, b band, has bool)) {
		m := LockMeasure{Name: name, kind: kind, rounding: sheet.Angle.Rounding(), sense: sense}
		if kind == sheet.Far {
			m.rounding = sheet.Length.Rounding()
		}
		m.now, m.bandNow, m.hasNow = of(now)
		m.was, m.bandWas, m.hasWas = of(was)
		var change band
		if m.hasNow && m.hasWas {
			change = pair.change(fact, fact, m.rounding)
		}
		m.set(change)
		list = append(list, m)
	}
	ackermann := figures.Wished // no verdict
	if math.Abs(now.Rack-was.Rack) < lockSame {
		ackermann = figures.Less
	}
	add(leftFact, "angle of the left wheel", sheet.Angle, figures.Wished, func(e *LockEnd) (float64, band, bool) {
		return e.Left, band{half: e.LeftBand, ok: e.HasBands}, e.Missing == ""
	})
	add(rightFact, "angle of the right wheel", sheet.Angle, figures.Wished, func(e *LockEnd) (float64, band, bool) {
		return e.Right, band{half: e.RightBand, ok: e.HasBands}, e.Missing == ""
	})
	add(errorFact, "Ackermann error", sheet.Angle, ackermann, func(e *LockEnd) (float64, band, bool) {
		return e.AckermannError, band{half: e.ErrorBand, ok: e.HasBands}, e.HasError
	})
	add(circleFact, "wall to wall", sheet.Far, figures.Less, func(e *LockEnd) (float64, band, bool) {
		return e.Circle.WallToWall, band{half: e.CircleBand, ok: e.HasCircleBand}, e.HasWall
	})
	add(circleFact, "kerb to kerb", sheet.Far, figures.Less, func(e *LockEnd) (float64, band, bool) {
		return e.Circle.KerbToKerb, band{half: e.CircleBand, ok: e.HasCircleBand}, e.HasCircle
	})
	return list
}

// lockSame is the difference in rack, mm, below which two locks are the same.
const lockSame = 1e-3

// set fills in the cells. A change whose band is not known gets no verdict.
func (m *LockMeasure) set(change band) {
	m.now, m.was = math.Abs(m.now), math.Abs(m.was)
	cell := func(v float64, b band) sheet.Cell {
		if b.half == 0 {
			return sheet.Number(m.kind, v) // no digits to be had from a band
		}
		return sheet.BandedIf(m.kind, v, b.half, b.ok)
	}
	m.Now, m.Before = cell(m.now, m.bandNow).If(m.hasNow), cell(m.was, m.bandWas).If(m.hasWas).Marked(sheet.Aside)
	if !m.hasNow || !m.hasWas {
		return
	}
	d := m.now - m.was
	switch {
	case math.Abs(d) <= m.rounding:
		m.Change = sheet.Number(sheet.Plain, 0)
	case change.ok:
		m.Change = cell(d, change).Signed()
	default:
		m.Change = sheet.BandedIf(m.kind, d, 0, false).Signed()
	}
	m.Verdict = targets.Judge(targets.Change{Before: m.was, After: m.now, Band: change.half, HasBand: change.ok, Sense: m.sense, Rounding: m.rounding})
}

// besideTable is the lock one way beside another variant's.
func (l *Lock) besideTable(before *Lock, way int) *sheet.Table {
	t := &sheet.Table{Title: "Beside the measured corner, turning " + wayNames[way], Above: true, On: sheet.OnWindow, Columns: []sheet.Column{
		{Role: sheet.Text}, {Title: "this variant"}, {Title: oneLine(before.Source.Variant), UnitTitle: " "}, {Title: "change", Band: " "}, {Role: sheet.Text}}, Groups: sheet.Rows()}
	list := l.Beside(before, way)
	for i := range list {
		m := &list[i]
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(m.Name), m.Now, m.Before, m.Change, trendCell(m.Verdict)})
	}
	return t
}
