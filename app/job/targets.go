package job

import (
	"fmt"
	"math"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Targets is what the builder aims at; each may be left out. They hold for
// every variant. Signs are those of package kinematics.
type Targets struct {
	ScrubRadius        LengthRange
	CamberGain         SlopeRange // at rest
	RideToe            AngleOver  // largest change of toe from rest, either way
	RollCentreHeight   LengthRange
	RollCentreMovement LengthOver // largest change of that height from rest, either way
	SwingArm           LengthRange
	Track              LengthRange // both sides together
	Camber, Caster     AngleRange  // at rest
	MotionRatio        RatioRange  // spring over wheel, at rest
}

// LengthRange, AngleRange and SlopeRange ask for a value from Min to Max. One
// of the two may be left out, which leaves that side open.
type LengthRange struct{ Min, Max Optional }

// AngleRange: see LengthRange.
type AngleRange struct{ Min, Max OptionalDegrees }

// SlopeRange: see LengthRange.
type SlopeRange struct{ Min, Max OptionalSlope }

// RatioRange: see LengthRange.
type RatioRange struct{ Min, Max OptionalRatio }

// OptionalRatio is a plain number that a job may leave out.
type OptionalRatio struct {
	Value float64
	Given bool
}

// AngleOver asks that an angle change by no more than Max over a travel.
type AngleOver struct {
	Max  OptionalDegrees
	Over Travel
}

// LengthOver asks that a length change by no more than Max over a travel.
type LengthOver struct {
	Max  Optional
	Over Travel
}

// OptionalDegrees is an angle that a job may leave out.
type OptionalDegrees struct {
	Degrees
	Given bool
}

// OptionalSlope is a slope that a job may leave out.
type OptionalSlope struct {
	Slope
	Given bool
}

// Slope is an angle for a length of travel, kept as it was typed: so many
// degrees for each millimetre or each inch.
type Slope struct {
	Degrees Degrees
	Per     units.Unit
}

// PerMM is the slope as the mechanism has it, rad/mm.
func (s Slope) PerMM() float64 {
	if s.Per == units.Inch {
		return s.Degrees.Radians() / mmPerInch
	}
	return s.Degrees.Radians()
}

const mmPerInch = 25.4

// Given tells whether there is such a target.
func (r LengthRange) Given() bool { return r.Min.Given || r.Max.Given }

// Given tells whether there is such a target.
func (r AngleRange) Given() bool { return r.Min.Given || r.Max.Given }

// Given tells whether there is such a target.
func (r SlopeRange) Given() bool { return r.Min.Given || r.Max.Given }

// Given tells whether there is such a target.
func (r RatioRange) Given() bool { return r.Min.Given || r.Max.Given }

// Given tells whether there is such a target.
func (a AngleOver) Given() bool { return a.Max.Given }

// Given tells whether there is such a target.
func (a LengthOver) Given() bool { return a.Max.Given }

// Any tells whether there is any target.
func (t *Targets) Any() bool { return *t != Targets{} }

// Limits of targets, besides those of a job's other values.
const (
	// MaxTargetSlope is the steepest camber gain that can be meant, deg/mm: a
	// swing arm shorter than 60 mm.
	MaxTargetSlope = 1.0
	// MaxTargetAngle is the largest angle that can be meant, deg.
	MaxTargetAngle = kinematics.MaxStaticAngle / radPerDegree
	// MaxTargetRatio is the largest motion ratio that can be meant.
	MaxTargetRatio = 5.0
)

func (t *Targets) fields() []field {
	unless := func(given func() bool) func() bool { return func() bool { return !given() } }
	return []field{
		{"scrub_radius", "{min: 5, max: 30}", "", false, sectionCodec{sec: &t.ScrubRadius, flow: true, lacks: unless(func() bool { return t.ScrubRadius.Given() })}},
		{"camber_gain", "{min: -0.03, max: -0.015}", "", false, sectionCodec{sec: &t.CamberGain, flow: true, lacks: unless(func() bool { return t.CamberGain.Given() })}},
		{"ride_toe", "{max: 0.1, over: {bump: 40, droop: 40}}", "", false, sectionCodec{sec: &t.RideToe, flow: true, lacks: unless(func() bool { return t.RideToe.Given() })}},
		{"roll_centre_height", "{min: 20, max: 60}", "", false, sectionCodec{sec: &t.RollCentreHeight, flow: true, lacks: unless(func() bool { return t.RollCentreHeight.Given() })}},
		{"roll_centre_movement", "{max: 50, over: {bump: 40, droop: 40}}", "", false, sectionCodec{sec: &t.RollCentreMovement, flow: true, lacks: unless(func() bool { return t.RollCentreMovement.Given() })}},
		{"swing_arm", "{min: 1500}", "", false, sectionCodec{sec: &t.SwingArm, flow: true, lacks: unless(func() bool { return t.SwingArm.Given() })}},
		{"track", "{min: 1550, max: 1560}", "", false, sectionCodec{sec: &t.Track, flow: true, lacks: unless(func() bool { return t.Track.Given() })}},
		{"camber", "{min: -2, max: -1}", "", false, sectionCodec{sec: &t.Camber, flow: true, lacks: unless(func() bool { return t.Camber.Given() })}},
		{"caster", "{min: 4, max: 6}", "", false, sectionCodec{sec: &t.Caster, flow: true, lacks: unless(func() bool { return t.Caster.Given() })}},
		{"motion_ratio", "{min: 0.6}", "", false, sectionCodec{sec: &t.MotionRatio, flow: true, lacks: unless(func() bool { return t.MotionRatio.Given() })}},
	}
}

func (r *LengthRange) fields() []field {
	return []field{{"min", "5", "", false, optionalCodec{&r.Min}}, {"max", "30", "", false, optionalCodec{&r.Max}}}
}

func (r *AngleRange) fields() []field {
	return []field{{"min", "-2", "", false, optionalDegreesCodec{&r.Min}}, {"max", "-1", "", false, optionalDegreesCodec{&r.Max}}}
}

func (r *SlopeRange) fields() []field {
	return []field{{"min", "-0.03", "", false, slopeCodec{&r.Min}}, {"max", "-0.015", "", false, slopeCodec{&r.Max}}}
}

func (r *RatioRange) fields() []field {
	return []field{{"min", "0.6", "", false, ratioCodec{&r.Min}}, {"max", "0.7", "", false, ratioCodec{&r.Max}}}
}

func (a *AngleOver) fields() []field {
	return []field{{"max", "0.1", "", true, optionalDegreesCodec{&a.Max}},
		{"over", "{bump: 40, droop: 40}", "", true, sectionCodec{sec: &a.Over, flow: true}}}
}

func (a *LengthOver) fields() []field {
	return []field{{"max", "50", "", true, optionalCodec{&a.Max}},
		{"over", "{bump: 40, droop: 40}", "", true, sectionCodec{sec: &a.Over, flow: true}}}
}

func (r *LengthRange) check(rd *reader, at string, line int, has func(string) bool) {
	rd.oneSide(at, line, has)
}

func (r *AngleRange) check(rd *reader, at string, line int, has func(string) bool) {
	rd.oneSide(at, line, has)
}

func (r *SlopeRange) check(rd *reader, at string, line int, has func(string) bool) {
	rd.oneSide(at, line, has)
}

func (r *RatioRange) check(rd *reader, at string, line int, has func(string) bool) {
	rd.oneSide(at, line, has)
}

// oneSide asks a range for one end at least.
func (r *reader) oneSide(at string, line int, has func(string) bool) {
	if !has("min") && !has("max") {
		r.add(line, at, "", "has neither min nor max", "add one of them, or both")
	}
}

// targets checks the values of every target that is given.
func (c *checker) targets(t *Targets) {
	const at = "targets."
	c.lengthRange(at+"scrub_radius", t.ScrubRadius, -units.MaxLength)
	c.lengthRange(at+"roll_centre_height", t.RollCentreHeight, -units.MaxLength)
	c.lengthRange(at+"swing_arm", t.SwingArm, kinematics.MinSpan)
	c.lengthRange(at+"track", t.Track, kinematics.MinSpan)
	c.angleRange(at+"camber", t.Camber)
	c.angleRange(at+"caster", t.Caster)
	c.slopeRange(at+"camber_gain", t.CamberGain)
	c.ratioRange(at+"motion_ratio", t.MotionRatio)
	if key := at + "ride_toe"; t.RideToe.Given() {
		d := float64(t.RideToe.Max.Degrees)
		if !c.skips(key+".max") && !(d > 0 && d <= MaxTargetAngle) {
			c.add(key+".max", fmt.Sprintf("%v deg", d), "is not above zero and up to 45 degrees", "write the largest change of toe you accept", nil)
		}
		c.over(key+".over", t.RideToe.Over)
	}
	if key := at + "roll_centre_movement"; t.RollCentreMovement.Given() {
		c.length(key+".max", t.RollCentreMovement.Max.Length, kinematics.MinSpan, units.MaxLength)
		c.over(key+".over", t.RollCentreMovement.Over)
	}
}

func (c *checker) lengthRange(key string, r LengthRange, low float64) {
	if r.Min.Given {
		c.length(key+".min", r.Min.Length, low, units.MaxLength)
	}
	if r.Max.Given {
		c.length(key+".max", r.Max.Length, low, units.MaxLength)
	}
	if r.Min.Given && r.Max.Given && r.Min.MM > r.Max.MM {
		c.upsideDown(key, valueOf(r.Min.Length, c.units), valueOf(r.Max.Length, c.units))
	}
}

func (c *checker) angleRange(key string, r AngleRange) {
	if r.Min.Given {
		c.degrees(key+".min", r.Min.Degrees)
	}
	if r.Max.Given {
		c.degrees(key+".max", r.Max.Degrees)
	}
	if r.Min.Given && r.Max.Given && r.Min.Degrees > r.Max.Degrees {
		c.upsideDown(key, fmt.Sprintf("%v deg", float64(r.Min.Degrees)), fmt.Sprintf("%v deg", float64(r.Max.Degrees)))
	}
}

func (c *checker) slopeRange(key string, r SlopeRange) {
	for _, end := range []struct {
		name string
		s    OptionalSlope
	}{{".min", r.Min}, {".max", r.Max}} {
		if !end.s.Given || c.skips(key+end.name) {
			continue
		}
		if !(math.Abs(end.s.PerMM()) <= MaxTargetSlope*radPerDegree) {
			c.add(key+end.name, slopeText(end.s.Slope), "is not within ±1 deg/mm", "check the number and its unit", nil)
		}
	}
	if r.Min.Given && r.Max.Given && r.Min.PerMM() > r.Max.PerMM() {
		c.upsideDown(key, slopeText(r.Min.Slope), slopeText(r.Max.Slope))
	}
}

func (c *checker) ratioRange(key string, r RatioRange) {
	for _, end := range []struct {
		name string
		OptionalRatio
	}{{".min", r.Min}, {".max", r.Max}} {
		if end.Given && !c.skips(key+end.name) && !(end.Value > 0 && end.Value <= MaxTargetRatio) {
			c.add(key+end.name, fmt.Sprint(end.Value), "is not above zero and up to 5", "write how far the spring moves for 1 of wheel travel", nil)
		}
	}
	if r.Min.Given && r.Max.Given && r.Min.Value > r.Max.Value {
		c.upsideDown(key, fmt.Sprint(r.Min.Value), fmt.Sprint(r.Max.Value))
	}
}

func (c *checker) upsideDown(key, low, high string) {
	if !c.skips(key) {
		c.add(key, "", fmt.Sprintf("min, %s, is above max, %s", low, high), "swap them", nil)
	}
}

// over checks the travel that a target is stated over.
func (c *checker) over(key string, t Travel) {
	c.length(key+".bump", t.Bump, 0, units.MaxLength)
	c.length(key+".droop", t.Droop, 0, units.MaxLength)
	if t.Bump.MM == 0 && t.Droop.MM == 0 && !c.skips(key) {
		c.add(key, "", "is no travel", "write how far up and down it is to hold, as {bump: 40, droop: 40}", nil)
	}
}
