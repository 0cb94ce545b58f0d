package targets

import (
	"fmt"
	"math"

	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Text says what is asked for: "5 to 30 mm", "at most 0.1 deg, from 40 mm bump
// to 35 mm droop".
func (r Range) Text(k Kind, length units.Unit) string {
	kind := k.About().Kind
	low, unit := kind.In(r.Min, length)
	high, _ := kind.In(r.Max, length)
	asked := func(v, inside float64) string {
		if kind == sheet.Length {
			return units.TypedNumber(inside, length)
		}
		return units.AsTyped(v)
	}
	text := ""
	switch {
	case r.HasMin && r.HasMax:
		text = asked(low, r.Min) + " to " + asked(high, r.Max)
	case r.HasMin:
		text = "at least " + asked(low, r.Min)
	default:
		text = "at most " + asked(high, r.Max)
	}
	text = named(text, unit)
	side := func(mm float64) string { return units.TypedNumber(mm, length) + " " + length.String() }
	switch {
	case r.Bump > 0 && r.Droop > 0:
		text += fmt.Sprintf(", from %s droop to %s bump", side(r.Droop), side(r.Bump))
	case r.Bump > 0:
		text += ", to " + side(r.Bump) + " bump"
	case r.Droop > 0:
		text += ", to " + side(r.Droop) + " droop"
	}
	return text
}

// named puts a unit behind a number, if there is one.
func named(text, unit string) string {
	if unit == "" {
		return text
	}
	return text + " " + unit
}

// ValueText shows the value with its interval, in digits that follow it:
// "26.0 ± 2.3 mm", "0.07 (−0.03/+0.05) deg", or says why there is none. What
// is exact, as a camber that was typed, is shown as short as it is: "−1.5 deg". What
// rests on assumptions says so.
func (res *Result) ValueText(length units.Unit) string {
	text := res.valueText(length)
	if len(res.Assumed) > 0 {
		text += ", assumed"
	}
	return text
}

func (res *Result) valueText(length units.Unit) string {
	kind := res.Kind.About().Kind
	if !res.Known {
		if res.Why != "" {
			return res.Why
		}
		return kinematics.FarEither.String()
	}
	if far := res.Far(); far != kinematics.Near {
		return far.String()
	}
	if res.OtherSide() {
		mirrored := *res
		mirrored.Value, mirrored.Low, mirrored.High = -res.Value, -res.High, -res.Low
		return mirrored.valueText(length) + " outboard"
	}
	if !res.HasLow || !res.HasHigh {
		return sheet.BandedIf(kind, res.Value, 0, false).Phrase(length)
	}
	v, unit := kind.In(res.Value, length)
	if res.High == res.Low {
		return named(units.AsTyped(v), unit)
	}
	low, _ := kind.In(res.Low, length)
	high, _ := kind.In(res.High, length)
	below, above := max(0, v-low), max(0, high-v)
	if math.Abs(above-below) <= evenShare*max(above, below) {
		return sheet.Banded(kind, res.Value, max(res.High-res.Value, res.Value-res.Low)).Phrase(length)
	}
	return named(units.FormatWithLimits(v, below, above), unit)
}

// noCentre is said of a swing arm whose instant centre lies outboard: there it
// counts as longer than any, not as shorter.
const noCentre = "no instant centre on this side"

// OtherSide tells of a swing arm that its instant centre lies outboard for sure.
func (res *Result) OtherSide() bool {
	return res.Kind == SwingArm && res.Known && res.HasHigh && res.High < 0
}

// Far tells of a swing arm whether its instant centre is at infinity, as far as
// anyone can tell.
func (res *Result) Far() kinematics.Far {
	switch {
	case res.Kind != SwingArm || !res.Known:
		return kinematics.Near
	case res.Why == "" && !(res.HasLow && res.HasHigh):
		return kinematics.FarEither
	}
	return kinematics.FarOf(res.Value, true, kinematics.Interval{}, false)
}

// Stands is ValueText for a place without Words: it says too why a length misses
// what it seems to meet.
func (res *Result) Stands(length units.Unit) string {
	if res.OtherSide() {
		return res.ValueText(length) + ", " + noCentre
	}
	return res.ValueText(length)
}

// Brief is the verdict for a narrow place.
func (res *Result) Brief() string {
	if res.OtherSide() {
		return noCentre
	}
	return res.Verdict.String()
}

// evenShare by which both sides of an interval may differ and still be shown
// as one.
const evenShare = 0.05

// Words says how the target stands and, where the tape cannot tell, what would.
func (res *Result) Words(length units.Unit) string {
	if res.Verdict != Undecided {
		if res.OtherSide() {
			return res.Verdict.String() + ": " + noCentre
		}
		if res.Why != "" {
			return res.Verdict.String() + ": " + res.Why
		}
		return res.Verdict.String()
	}
	if len(res.Assumed) > 0 && res.Why == "" {
		return "not decidable while it rests on assumed values: measure them"
	}
	text := "not decidable at ±" + res.Points.Text(length)
	switch {
	case res.Why != "":
		return text + ": " + res.Why
	case res.Estimate:
		return text + ": measure the loaded radius and the points closer"
	case res.Tight:
		return text + ": the range is narrower than the measuring error"
	case res.Kind == RideToe:
		return text + ": use a toe gauge"
	}
	return text + ": measure closer"
}
