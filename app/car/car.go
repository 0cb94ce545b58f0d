// Package car is one variant of a job, resolved once for whoever computes
// something of it: the corner and how well it is known, the loaded radius and
// whether it is an estimate, travel, stops, wheelbase, rim and unit. What a hand
// holds is the same car [Car.With] another corner. Anyone in app may ask.
package car

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
	"armscribe/kinematics/tyre"
)

// Car is a plain value: two that are equal give the same answers.
type Car struct {
	Job, Variant string
	Rear         bool // the tie rod is a fixed toe link: no rack moves it
	Corner       kinematics.Corner
	Within       kinematics.Within // how well every coordinate is known
	Unit         units.Unit        // of lengths in tables

	Bump, Droop         float64 // mm of travel that the job asks for, both counted from rest
	RackLeft, RackRight float64 // mm, likewise
	// TravelAssumed and RackAssumed: which of them nobody has measured.
	TravelAssumed, RackAssumed job.Sides
	rimAssumed, damper         bool    // see Rests
	RimDiameter                float64 // mm, for toe as a length; 0 when no tyre code gives it
	Wheelbase                  float64 // mm; 0 when the job does not give it
	// RadiusFrom is what the loaded radius was estimated from, with the span within
	// which it likely lies, mm; empty when the radius was measured.
	RadiusFrom            string
	RadiusLow, RadiusHigh float64
}

// Of reads a variant of a job without problems.
func Of(j *job.Job, v *job.Variant) Car {
	c := Car{
		Job: j.Title(), Variant: v.Name, Rear: j.Axle == job.Rear,
		Corner: v.Corner(), Within: j.Known(v), Unit: j.Units,
		Bump: j.Travel.Bump.MM, Droop: j.Travel.Droop.MM,
		RackLeft: j.Rack.Left.MM, RackRight: j.Rack.Right.MM,
		TravelAssumed: j.Travel.Assumed, RackAssumed: j.Rack.Assumed, rimAssumed: v.Assumed.Has(job.RimWidthValue),
		Wheelbase: j.Wheelbase.MM,
	}
	for i := range j.Obstacles {
		c.damper = c.damper || j.Obstacles[i].On == job.OnDamper
	}
	t, err := tyre.Parse(v.Wheel.Tyre)
	if err != nil {
		return c // the loaded radius was measured, or the job has a problem
	}
	c.RimDiameter = t.RimDiameter()
	if e := v.Wheel.Loaded(); e.Estimate {
		c.RadiusFrom, c.RadiusLow, c.RadiusHigh = v.Wheel.LoadedFrom(j.Units), e.Low, e.High
	}
	return c
}

// All reads every variant of a job without problems.
func All(j *job.Job) []Car {
	list := make([]Car, len(j.Variants))
	for i := range list {
		list[i] = Of(j, &j.Variants[i])
	}
	return list
}

// With is the car with the corner in a hand. One that has the ground has set the
// loaded radius: it is no estimate any more.
func (c Car) With(corner *kinematics.Corner) Car {
	if corner.Wheel.LoadedRadius != c.Corner.Wheel.LoadedRadius {
		c.RadiusFrom, c.RadiusLow, c.RadiusHigh = "", 0, 0
	}
	c.Corner = *corner
	return c
}

// Study is what a study of the car is made of.
func (c *Car) Study() study.Case {
	return study.Case{Corner: c.Corner, Within: c.Within, Wheelbase: c.Wheelbase,
		Span: study.Span{Bump: c.Bump, Droop: c.Droop, Left: c.RackLeft, Right: c.RackRight}}
}

// StudyOf is what a study of a variant is made of.
func StudyOf(j *job.Job, v *job.Variant) study.Case {
	c := Of(j, v)
	return c.Study()
}

// Mechanism prepares the corner; the error names the variant.
func (c *Car) Mechanism() (*kinematics.Mechanism, error) {
	m, err := kinematics.New(&c.Corner)
	if err != nil {
		return nil, c.Named(err)
	}
	return &m, nil
}

// Named puts the variant's name before an error, whose lengths it says in the car's
// unit.
func (c *Car) Named(err error) error {
	return fmt.Errorf("variant %q: %w", c.Variant, units.Said(err, c.Unit))
}
