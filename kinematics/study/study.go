// Package study solves a corner over its whole travel and keeps the answers
// side by side: what a view, a set of curves and a table of readings need at
// one moment. It is rebuilt whole for every change and keeps its memory, so a
// drag allocates nothing.
package study

import (
	"fmt"
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
	Within    float64 // mm, half-width of the measuring error of each coordinate
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

func (s *Study) sweep() error {
	for i := range s.Travel {
		s.Travel[i] = s.at(i, Poses)
		p, err := s.Mechanism.At(s.Travel[i], s.Rack)
		if err != nil {
			return fmt.Errorf("inside the range just found: %w", err)
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
	if s.To <= s.From {
		return s.Bands[0].Of(q)
	}
	x := (travel - s.From) / (s.To - s.From) * (BandPoses - 1)
	i := int(max(0, min(math.Floor(x), BandPoses-2)))
	f := max(0, min(x-float64(i), 1))
	a, okA := s.Bands[i].Of(q)
	b, okB := s.Bands[i+1].Of(q)
	return a*(1-f) + b*f, okA && okB
}
