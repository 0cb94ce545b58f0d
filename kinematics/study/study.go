// Package study solves a corner over its whole travel and keeps the answers
// side by side: what a view, a set of curves and a table of readings need at
// one moment. It is rebuilt whole for every change and keeps its memory, so a
// drag allocates nothing.
package study

import (
	"errors"
	"math"

	"armscribe/kinematics"
)

// Sizes of a study.
const (
	// Poses over the travel, both ends and (nearly always) rest included: at
	// 70 mm of bump and 60 of droop one each 0.8 mm, finer than a curve shows.
	Poses = 161
	// BandPoses at which measuring-error bands are taken; they change slowly.
	BandPoses = 9
	// edge keeps the sweep off the very end of the assembled travel, mm, where
	// slopes are not finite.
	edge = 1e-3
)

// Span is what the car uses of travel and rack, mm; all values are magnitudes.
type Span struct {
	Bump, Droop float64
	Left, Right float64 // rack
}

// Case is what a study is made of.
type Case struct {
	Corner    kinematics.Corner
	Within    kinematics.Within // measuring error of each coordinate
	Span      Span
	Wheelbase float64 // mm, 0 if not given
}

// Study holds a corner solved over its travel at one rack position.
type Study struct {
	Case      Case
	Mechanism kinematics.Mechanism
	Rack      float64

	// Range is where the linkage assembles; From..To is the part of the span
	// inside it, and Clipped tells that the span is wider.
	Range    kinematics.TravelRange
	From, To float64
	Clipped  bool

	Travel   [Poses]float64
	Poses    [Poses]kinematics.Pose
	Readings [Poses]kinematics.Readings

	BandTravel [BandPoses]float64
	Bands      [BandPoses]kinematics.Bands

	Rest      kinematics.Readings // at travel 0 and rack 0
	RestBands kinematics.Bands
}

// Update solves a case at a rack position. On an error (New's, or Range's at a
// rack position where nothing assembles) the study keeps what it held before.
func (s *Study) Update(c Case, rack float64) error {
	m, err := kinematics.New(&c.Corner)
	if err != nil {
		return err
	}
	r, err := m.Range(rack)
	if err != nil {
		return err
	}
	s.Case, s.Mechanism, s.Range, s.Rack = c, m, r, rack
	s.From, s.To = max(-c.Span.Droop, r.Droop.Travel+edge), min(c.Span.Bump, r.Bump.Travel-edge)
	s.Clipped = s.From > -c.Span.Droop || s.To < c.Span.Bump
	if s.From > s.To { // the assembled stretch is shorter than its edges
		s.From, s.To = 0, 0
	}
	if err := s.sweep(); err != nil {
		return err
	}
	return s.bands()
}

// narrowings is how often the sweep may find an end nearer than Range did.
const narrowings = 8

// sweep solves every travel. Near the ends of an odd linkage a single pose may
// bind a little before the end that the walk of Range found: then the pose is
// right, for it is what would be shown, and the sweep is made narrower.
func (s *Study) sweep() error {
	for range narrowings {
		err := s.solve()
		var reach *kinematics.ReachError
		if !errors.As(err, &reach) || !reach.HasLimit {
			return err
		}
		s.Clipped = true
		if reach.Travel > 0 {
			s.To = max(0, min(reach.Limit, s.To-edge)-edge)
		} else {
			s.From = min(0, max(reach.Limit, s.From+edge)+edge)
		}
	}
	s.From, s.To = 0, 0
	return s.solve()
}

func (s *Study) solve() error {
	for i := range s.Travel {
		s.Travel[i] = s.at(i, Poses)
		p, err := s.Mechanism.At(s.Travel[i], s.Rack)
		if err != nil {
			return err
		}
		s.Poses[i], s.Readings[i] = p, p.Readings()
	}
	p, err := s.Mechanism.At(0, 0)
	if err != nil {
		return err
	}
	s.Rest = p.Readings()
	return nil
}

func (s *Study) bands() error {
	for i := range s.BandTravel {
		s.BandTravel[i] = s.at(i, BandPoses)
	}
	if err := s.Mechanism.SweepBands(s.Bands[:], s.Case.Within, s.BandTravel[:], s.Rack); err != nil {
		return err
	}
	var err error
	s.RestBands, err = s.Mechanism.Bands(s.Case.Within, 0, 0)
	return err
}

// at is the i-th of n travels, exact at both ends.
func (s *Study) at(i, n int) float64 {
	f := float64(i) / float64(n-1)
	return s.From*(1-f) + s.To*f
}

// BandAt returns the 95 % half-width of a quantity at a travel, straight
// between the poses where bands were taken; false where it does not exist.
func (s *Study) BandAt(q kinematics.Quantity, travel float64) (float64, bool) {
	lower, upper, f := s.bandsAbout(travel)
	a, okA := lower.Of(q)
	b, okB := upper.Of(q)
	return a*(1-f) + b*f, okA && okB
}

// FarAt tells whether an instant centre at a travel is at infinity; arm is the
// swing arm there, where known.
func (s *Study) FarAt(arm float64, known bool, travel float64) kinematics.Far {
	lower, upper, f := s.bandsAbout(travel)
	a, okA := lower.Interval(kinematics.SwingArm)
	b, okB := upper.Interval(kinematics.SwingArm)
	return kinematics.FarOf(arm, known, a.Between(b, f), okA && okB)
}

// bandsAbout returns the bands on both sides of a travel and how far it is from
// the lower to the upper ones.
func (s *Study) bandsAbout(travel float64) (lower, upper *kinematics.Bands, f float64) {
	if s.To <= s.From {
		return &s.Bands[0], &s.Bands[0], 0
	}
	x := (travel - s.From) / (s.To - s.From) * (BandPoses - 1)
	i := int(max(0, min(math.Floor(x), BandPoses-2)))
	return &s.Bands[i], &s.Bands[i+1], max(0, min(x-float64(i), 1))
}
