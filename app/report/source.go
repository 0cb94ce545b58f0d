package report

import (
	"errors"
	"fmt"

	"armscribe/app/job"
	"armscribe/app/room"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
)

// Source is one variant of a job as the reports read it.
type Source struct {
	Job, Variant string
	Rear         bool // the tie rod is a fixed toe link: no rack moves it
	Corner       kinematics.Corner
	Within       kinematics.Within // how well every coordinate is known
	Unit         units.Unit        // of lengths in tables

	Bump, Droop         float64 // mm of travel that the job asks for, both counted from rest
	RackLeft, RackRight float64 // mm, likewise
	// TravelAssumed and RackAssumed: nobody has measured all of it.
	TravelAssumed, RackAssumed bool
	RimDiameter                float64 // mm, for toe as a length; 0 when no tyre code gives it
	Wheelbase                  float64 // mm; 0 when the job does not give it
	// RadiusFrom is what the loaded radius was estimated from,
	// with the span within which it likely lies, mm; empty when the radius was
	// measured.
	RadiusFrom            string
	RadiusLow, RadiusHigh float64
}

// SourceOf reads one variant of a job without problems.
func SourceOf(j *job.Job, variant int) Source {
	v := &j.Variants[variant]
	s := Source{
		Job: j.Title(), Variant: v.Name, Rear: j.Axle == job.Rear,
		Corner: v.Corner(), Within: j.Known(v), Unit: j.Units,
		Bump: j.Travel.Bump.MM, Droop: j.Travel.Droop.MM,
		RackLeft: j.Rack.Left.MM, RackRight: j.Rack.Right.MM,
		TravelAssumed: j.Travel.Assumed.Any(), RackAssumed: j.Rack.Assumed.Any(),
		Wheelbase: j.Wheelbase.MM,
	}
	t, err := tyre.Parse(v.Wheel.Tyre)
	if err != nil {
		return s // the loaded radius was measured, or the job has a problem
	}
	s.RimDiameter = t.RimDiameter()
	if e := v.Wheel.Loaded(); e.Estimate {
		s.RadiusFrom, s.RadiusLow, s.RadiusHigh = v.Wheel.LoadedFrom(j.Units), e.Low, e.High
	}
	return s
}

// SourcesOf reads every variant of a job without problems.
func SourcesOf(j *job.Job) []Source {
	list := make([]Source, len(j.Variants))
	for i := range list {
		list[i] = SourceOf(j, i)
	}
	return list
}

// radiusNote says how the loaded radius was estimated; empty when it was not.
func (s *Source) radiusNote() string {
	if s.RadiusFrom == "" {
		return ""
	}
	return fmt.Sprintf("the loaded radius, %s, estimated from %s (likely %s to %s)",
		units.Taped.OnTape(s.Corner.Wheel.LoadedRadius, s.Unit), oneLine(s.RadiusFrom),
		units.Taped.Number(s.RadiusLow, s.Unit),
		units.Taped.Number(s.RadiusHigh, s.Unit))
}

// first is what is said before an answer: that it rests on what is assumed, a line
// of its own; else empty.
func (s *Source) first() string {
	if text := job.RestsWords(&s.Within, &s.Corner); text != "" {
		return text + "\n"
	}
	return ""
}

// within is how well the points are known, in words.
func (s *Source) within() string { return tune.WithinText(&s.Within, s.Unit) }

// stops are those of the rack.
func (s *Source) stops() room.Stops { return room.Stops{Left: s.RackLeft, Right: s.RackRight} }

// mechanism prepares the corner; the error names the variant.
func (s *Source) mechanism() (*kinematics.Mechanism, error) {
	m, err := kinematics.New(&s.Corner)
	if err != nil {
		return nil, s.named(err)
	}
	return &m, nil
}

// named puts the variant's name before each of the errors that err joins.
func (s *Source) named(err error) error {
	return fmt.Errorf("variant %q: %w", s.Variant, units.Said(err, s.Unit))
}

// namedEach names the variant in each of joined errors; nil for none.
func (s *Source) namedEach(err error) error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return err
	}
	var errs []error
	for _, e := range joined.Unwrap() {
		errs = append(errs, s.named(e))
	}
	return errors.Join(errs...)
}
