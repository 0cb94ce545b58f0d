package report

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics/effort"
	"armscribe/kinematics/tyre"
)

// Loading is what forces are computed under and no geometry tells. A zero value
// is taken from the job where it says it, and assumed where it does not; the
// answer says which.
type Loading struct {
	Load        float64 // N on each wheel
	RackPerTurn float64 // mm of rack for one turn of the steering wheel
	RimDiameter float64 // mm, of the steering wheel
	Under       Under   // zero: what is usual
}

// Under is what the cases assume of ground and bump.
type Under struct {
	Parking, Left, Right float64 // grips
	BumpTravel           float64 // mm
	BumpLoad, BumpKick   float64 // more load, and push rearward, as shares of the wheel load
}

// UsualUnder is what is assumed in a job of the unit unless another is asked for;
// see effort.Usual.
func UsualUnder(unit units.Unit) Under {
	c := effort.Usual(1, 0)
	return Under{c.Parking, c.BrakeLeft, c.BrakeRight, units.Suggested(c.BumpTravel, unit), c.BumpLoad, c.BumpKick}
}

// What is assumed where neither the caller nor the job says it: a light car with
// a manual rack. Common practice, no source.
const (
	assumedMass        = 350.0 // kg on each wheel
	assumedPounds      = 770.0 // lb, likewise
	assumedRackPerTurn = 45.0  // mm
	assumedRimDiameter = 360.0 // mm
	// Gravity is the standard acceleration of free fall, m/s^2 (ISO 80000-3).
	Gravity = 9.80665
)

// loading is a Loading without gaps.
type loading struct {
	Loading
	ofJob, assumed []string // what came from the job, and what was assumed, in words
	flags          []string // of armcalc, which would say what is assumed; empty where none does
	tread          float64  // mm
	bump           float64  // mm, the job's travel up
	rear           bool
	unit           units.Unit // of the job
}

// assume notes what was assumed.
func (l *loading) assume(words, flag string) {
	l.assumed, l.flags = append(l.assumed, words), append(l.flags, flag)
}

// bare is the loading for words that name no flags.
func (l loading) bare() loading {
	l.flags = make([]string, len(l.assumed))
	return l
}

// assumedWords are what was assumed, each with the flag of armcalc that says it.
func (l *loading) assumedWords() []string {
	list := make([]string, len(l.assumed))
	for i, words := range l.assumed {
		if list[i] = words; l.flags[i] != "" {
			list[i] += " (" + l.flags[i] + ")"
		}
	}
	return list
}

func (l Loading) filled(j *job.Job, v *job.Variant) loading {
	out := loading{Loading: l, unit: j.Units, rear: j.Axle == job.Rear, bump: j.Travel.Bump.MM}
	usual, weight := AssumedLoading(j.Units)
	out.fillLoad(j.CornerWeight, weight)
	if !out.rear {
		out.fill(&out.RackPerTurn, j.Steering.RackPerTurn, usual.RackPerTurn, j.Units, "%s of rack for a turn of the steering wheel", "--turn")
		out.fill(&out.RimDiameter, j.Steering.WheelDiameter, usual.RimDiameter, j.Units, "a steering wheel of %s", "--steering-wheel")
	}
	t, err := tyre.Parse(v.Wheel.Tyre)
	if err == nil {
		out.tread = t.TreadFace().Value
		return out
	}
	const treadOfRim = 0.9 // common practice, no source
	out.tread = treadOfRim * v.Wheel.RimWidth.MM
	out.assume("a tread of "+lengthText(out.tread, j.Units)+", for the tyre has no size code", "")
	return out
}

// fillLoad takes the load from the scales where it was not asked for.
func (l *loading) fillLoad(scales, usual job.Weight) {
	switch {
	case l.Load != 0:
	case scales.Given:
		l.Load = scales.Kg * Gravity
		l.ofJob = append(l.ofJob, scales.Text()+" on each wheel")
	default:
		l.Load = usual.Kg * Gravity
		l.assume(usual.Text()+" on each wheel", "--load")
	}
}

// fill takes a length from the job where it was not asked for.
func (l *loading) fill(to *float64, held job.Optional, otherwise float64, u units.Unit, words, flag string) {
	switch {
	case *to != 0:
	case held.Given:
		*to = held.MM
		l.ofJob = append(l.ofJob, fmt.Sprintf(words, lengthText(held.MM, u)))
	default:
		*to = otherwise
		l.assume(fmt.Sprintf(words, lengthText(otherwise, u)), flag)
	}
}

func (l *loading) conditions() effort.Conditions {
	u := l.Under
	if u == (Under{}) {
		u = UsualUnder(l.unit)
	}
	return effort.Conditions{Load: l.Load, Tread: l.tread, Parking: u.Parking, BrakeLeft: u.Left, BrakeRight: u.Right,
		BumpTravel: u.BumpTravel, BumpLoad: u.BumpLoad * l.Load, BumpKick: u.BumpKick * l.Load}
}

// gear leaves the steering wheel out where the axle is not steered.
func (l *loading) gear() effort.Gear {
	if l.rear {
		return effort.Gear{}
	}
	return effort.Gear{RackPerTurn: l.RackPerTurn, RimRadius: l.RimDiameter / 2}
}

// forceText prints a force to a whole one, with its unit.
func forceText(n float64, length units.Unit) string {
	v, unit := units.Force(n, length)
	return units.FormatNumber(v, 0) + " " + unit
}

// words say under what the forces were computed.
func (l *loading) words(u units.Unit) []string {
	c := l.conditions()
	list := []string{fmt.Sprintf("Forces: %s on each wheel. Braking, the brakes on the uprights: grip of %g left and %g right. Bump under the left wheel: %s up, load %s more, push rearward %s at the height of its centre, for it rolls.",
		forceText(c.Load, u), c.BrakeLeft, c.BrakeRight, lengthText(c.BumpTravel, u), forceText(c.BumpLoad, u), forceText(c.BumpKick, u))}
	if !l.rear {
		list[0] += fmt.Sprintf(" Parking: grip of %g.", c.Parking)
	}
	if c.BumpTravel > l.bump {
		list = append(list, fmt.Sprintf("The bump of %s is more than the job's travel up, %s: the wheel does not get there.", lengthText(c.BumpTravel, u), lengthText(l.bump, u)))
	}
	for _, o := range l.ofJob {
		list = append(list, "From the job: "+o+".")
	}
	for _, a := range l.assumedWords() {
		list = append(list, "Assumed, not of this car: "+a+".")
	}
	return append(list, "Indicative only: statics without friction or power assistance, to compare one layout with another; it judges no part's strength.")
}

// file are the conditions as files hold them.
func (l *loading) file() sheet.Object {
	c := l.conditions()
	force := func(key string, n float64) sheet.Field {
		return sheet.Field{Key: key, Cell: sheet.Number(sheet.Force, n)}
	}
	length := func(key string, mm float64) sheet.Field {
		return sheet.Field{Key: key, Cell: sheet.Number(sheet.Length, mm)}
	}
	grip := func(key string, v float64) sheet.Field {
		return sheet.Field{Key: key, Cell: sheet.Number(sheet.Plain, v)}
	}
	steered := func(f sheet.Field) sheet.Field { return sheet.Field{Key: f.Key, Cell: f.Cell.If(!l.rear)} }
	return sheet.Object{Key: "conditions", Fields: []sheet.Field{
		force("wheel_load_n", c.Load), steered(length("rack_per_turn_mm", l.RackPerTurn)), steered(length("steering_wheel_mm", l.RimDiameter)), length("tread_mm", l.tread),
		steered(grip("parking_grip", c.Parking)), grip("braking_grip_left", c.BrakeLeft), grip("braking_grip_right", c.BrakeRight),
		length("bump_travel_mm", c.BumpTravel), force("bump_load_more_n", c.BumpLoad), force("bump_push_n", c.BumpKick),
		{Key: "from_the_job", Cell: sheet.Texts(l.ofJob)}, {Key: "assumed", Cell: sheet.Texts(l.assumedWords())},
	}}
}
