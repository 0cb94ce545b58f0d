package report

import (
	"math"

	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// LockLine is one measure of the lock one way beside another variant's, as it is
// printed, in the unit of the source. What is not known is empty.
type LockLine struct {
	Name, Unit   string
	Now, Before  string
	Change, Band string
	Verdict      targets.Trend
}

// Beside sets the lock one way, 0 to the right and 1 to the left, beside that of
// another variant of the same job, as far as nothing touches. More rack is better,
// and a smaller circle; a smaller Ackermann error is where both use the same rack.
func (l *Lock) Beside(before *Lock, way int) []LockLine {
	now, was := &l.Ways[way].Touch, &before.Ways[way].Touch
	u := l.Source.Unit
	farther, far := farUnit(u)
	length := func(mm float64) float64 { return units.In(mm, u) }
	circle := func(mm float64) float64 { return units.In(mm, farther) }
	rack := func(name string, a, b *LockEnd) LockLine {
		v := lockValue{now: math.Abs(a.Rack), was: math.Abs(b.Rack), hasNow: true, hasWas: true, hasBand: a.By == ByStop && b.By == ByStop, more: true, plain: func(mm float64) string { return units.Taped.Number(mm, u) }}
		return v.line(name, u.String(), length)
	}
	list := []LockLine{rack("rack until it touches or ends", now, was), rack("rack with wished gaps kept", &l.Ways[way].Kept, &before.Ways[way].Kept)}
	pair := besides(&was.linear, &now.linear)
	circles := [2]float64{now.CircleBand, was.CircleBand}
	sameRack := math.Abs(now.Rack-was.Rack) < lockSame
	for _, m := range [...]struct {
		fact       int
		name, unit string
		in         func(float64) float64
		now, was   float64
		bands      [2]float64
		has        [2]bool
		wished     bool // no verdict
	}{
		{leftFact, "angle of the left wheel", "deg", degrees, now.Left, was.Left, [2]float64{now.LeftBand, was.LeftBand}, [2]bool{now.Missing == "", was.Missing == ""}, true},
		{rightFact, "angle of the right wheel", "deg", degrees, now.Right, was.Right, [2]float64{now.RightBand, was.RightBand}, [2]bool{now.Missing == "", was.Missing == ""}, true},
		{errorFact, "Ackermann error", "deg", degrees, now.AckermannError, was.AckermannError, [2]float64{now.ErrorBand, was.ErrorBand}, [2]bool{now.HasError, was.HasError}, false},
		{circleFact, "wall to wall", far, circle, now.Circle.WallToWall, was.Circle.WallToWall, circles, [2]bool{now.HasWall, was.HasWall}, false},
		{circleFact, "kerb to kerb", far, circle, now.Circle.KerbToKerb, was.Circle.KerbToKerb, circles, [2]bool{now.HasCircle, was.HasCircle}, false},
	} {
		v := lockValue{now: math.Abs(m.now), was: math.Abs(m.was), bands: m.bands, plain: func(v float64) string { return units.FormatNumber(m.in(v), lockDecimals) }, hasNow: m.has[0], hasWas: m.has[1]}
		if v.hasNow && v.hasWas {
			b := pair.change(m.fact, m.fact, rounding(kinematics.Angle))
			v.band, v.hasBand = b.half, b.ok
		}
		line := v.line(m.name, m.unit, m.in)
		if m.wished || m.fact == errorFact && !sameRack {
			line.Verdict = targets.NoTrend
		}
		list = append(list, line)
	}
	return list
}

// lockSame is the difference in rack, mm, below which two locks are the same.
const lockSame = 1e-3

// lockValue is a measure of both variants; less is better unless more is. A
// change whose band is not known gets no verdict.
type lockValue struct {
	now, was       float64
	bands          [2]float64 // of both, for their digits
	hasNow, hasWas bool
	band           float64 // of the change
	hasBand        bool
	more           bool
	plain          func(float64) string // where there is no band
}

func (v *lockValue) line(name, unit string, in func(float64) float64) LockLine {
	l := LockLine{Name: name, Unit: unit}
	text := func(x, band float64) (number, half string) {
		if band > 0 {
			return splitBand(in(x), in(band))
		}
		return v.plain(x), ""
	}
	if v.hasNow {
		l.Now, _ = text(v.now, v.bands[0])
	}
	if v.hasWas {
		l.Before, _ = text(v.was, v.bands[1])
	}
	if !v.hasNow || !v.hasWas {
		return l
	}
	d := v.now - v.was
	l.Change, l.Band = text(d, v.band)
	l.Change = units.Signed(l.Change)
	if !v.hasBand {
		l.Band = "band not known"
	}
	sense := targets.Less
	if v.more {
		sense = targets.More
	}
	l.Verdict = targets.Judge(targets.Change{Before: v.was, After: v.now, Band: v.band, HasBand: v.hasBand, Sense: sense, Rounding: rounding(kinematics.Angle)})
	if math.Abs(d) <= rounding(kinematics.Angle) {
		l.Change, l.Band = "0", ""
	}
	return l
}
