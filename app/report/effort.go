package report

import (
	"errors"
	"math"
	"strings"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/effort"
)

// Efforts are the forces in the steering of one variant in three cases, or two
// where the axle is not steered.
type Efforts struct {
	Source  Source
	Cases   []EffortCase
	loading loading
	linear  kinematics.Linear // of the sizes of all lines, case by case
}

// EffortCase is one case and its answer.
type EffortCase struct {
	Key, Name string
	Answer    effort.Answer
	Lines     []EffortLine // without values where there is no answer
	Missing   string       // why there is no answer; empty when there is one
}

// EffortLine is one value of a case, in N or N mm, with the 95 % band of the
// measured points; load and grip are taken as they are assumed.
type EffortLine struct {
	Key, Name, Positive string
	Value, Band         float64
	HasBand             bool
	kind                sheet.Kind
}

// caseMaker makes a case for a corner.
type caseMaker struct {
	key, name string
	of        func(m *kinematics.Mechanism, c effort.Conditions) (effort.Case, error)
}

var (
	parkingCase = caseMaker{"parking", "Parking, turning left at a standstill", effort.Parking}
	brakingCase = caseMaker{"braking", "Braking, less grip on the right",
		func(_ *kinematics.Mechanism, c effort.Conditions) (effort.Case, error) { return effort.SplitBraking(c) }}
	bumpCase = caseMaker{"bump", "Bump under the left wheel",
		func(_ *kinematics.Mechanism, c effort.Conditions) (effort.Case, error) { return effort.OneWheelBump(c) }}
)

// makers are the cases of the axle: a rear one is not parked by its driver.
func (e *Efforts) makers() []caseMaker {
	braking := brakingCase
	if c := e.loading.conditions(); c.BrakeLeft == c.BrakeRight {
		braking.name = "Braking, the same grip on both sides"
	} else if c.BrakeLeft < c.BrakeRight {
		braking.name = "Braking, less grip on the left"
	}
	if e.loading.rear {
		return []caseMaker{braking, bumpCase}
	}
	return []caseMaker{parkingCase, braking, bumpCase}
}

// EffortsOf works out the cases for one variant of a job without problems:
// parking only where the axle is steered. Errors match effort.ErrInput, or name
// the variant and are those of its geometry. A case whose pose is out of reach,
// or in which the tie rod has no lever, says so in its place.
func EffortsOf(j *job.Job, variant int, l Loading) (*Efforts, error) {
	e := &Efforts{Source: SourceOf(j, variant), loading: l.filled(j, &j.Variants[variant])}
	m, err := e.Source.Mechanism()
	if err != nil {
		return nil, err
	}
	for _, k := range e.makers() {
		c := EffortCase{Key: k.key, Name: k.name}
		_, c.Answer, err = e.solve(m, k)
		switch {
		case errors.Is(err, effort.ErrLever), errors.Is(err, effort.ErrNoSpring), errors.Is(err, kinematics.ErrUnreachable):
			c.Missing = strings.ReplaceAll(err.Error(), "\n", "; ")
		case err != nil:
			return nil, e.Source.Named(err)
		}
		c.Lines = e.lines(&c.Answer)
		e.Cases = append(e.Cases, c)
	}
	e.setBands()
	return e, nil
}

func (e *Efforts) solve(m *kinematics.Mechanism, k caseMaker) (c effort.Case, a effort.Answer, err error) {
	if c, err = k.of(m, e.loading.conditions()); err == nil {
		a, err = effort.Solve(m, e.loading.gear(), c)
	}
	return c, a, err
}

// setBands finds the band of every line.
func (e *Efforts) setBands() {
	values := func(m *kinematics.Mechanism) []kinematics.Value {
		var list []kinematics.Value
		for _, k := range e.makers() {
			c, a, err := e.solve(m, k)
			per, err2 := effort.PerScrub(m, e.loading.gear(), c)
			gains := e.lines(&per)
			for i, l := range e.lines(&a) {
				v := kinematics.Number(l.Value, err == nil && err2 == nil)
				v.Root = c.Scrub.Times(gains[i].Value)
				list = append(list, v)
			}
		}
		return list
	}
	e.linear = e.Source.slopes(values)
	k := 0
	for i := range e.Cases {
		for n := range e.Cases[i].Lines {
			l := &e.Cases[i].Lines[n]
			b := bandAbove(l.kind.Rounding())(e.linear.Half(k))
			l.Band, l.HasBand = b.half, b.ok
			k++
		}
	}
}

// lines are the values of an answer.
func (e *Efforts) lines(a *effort.Answer) []EffortLine {
	rod := "tie rod"
	if e.loading.rear {
		rod = "toe link"
	}
	var list []EffortLine
	add := func(key, name, positive string, of sheet.Kind, v float64) {
		list = append(list, EffortLine{Key: key, Name: name, Positive: positive, Value: v, kind: of})
	}
	for _, s := range []struct {
		name string
		part *effort.Part
	}{{"left", &a.Left}, {"right", &a.Right}} {
		add(s.name+"_moment", "about the steering axis, "+s.name, "turns the wheel's front outboard", sheet.Moment, s.part.Moment)
		add(s.name+"_rod", rod+", "+s.name, "is pressed", sheet.Force, s.part.Rod)
	}
	if e.loading.rear {
		return list
	}
	add("rack", "rack, from both sides", "pushes it to the car's left", sheet.Force, a.Rack)
	add("wheel_torque", "torque at the steering wheel", "turns it to the left", sheet.Moment, a.WheelTorque)
	add("rim_pull", "pull at its rim", "turns it to the left", sheet.Force, a.RimPull)
	return list
}

// Text is the value with its unit, in the digits that the band leaves.
func (l *EffortLine) Text(unit units.Unit) string { return l.cell().Value(unit) }

// size is the value without its sign.
func (l *EffortLine) size() sheet.Cell {
	return sheet.BandedIf(l.kind, math.Abs(l.Value), l.Band, l.HasBand)
}
