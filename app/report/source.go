package report

import (
	"errors"
	"fmt"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/units"
)

// Source is one variant of a job as the reports read it.
type Source struct{ car.Car }

// SourceOf reads one variant of a job without problems.
func SourceOf(j *job.Job, variant int) Source { return Source{car.Of(j, &j.Variants[variant])} }

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

// within is how well the points are known, in words.
func (s *Source) within() string { return s.Known().Text(s.Unit) }

// namedEach names the variant in each of joined errors; nil for none.
func (s *Source) namedEach(err error) error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return err
	}
	var errs []error
	for _, e := range joined.Unwrap() {
		errs = append(errs, s.Named(e))
	}
	return errors.Join(errs...)
}
