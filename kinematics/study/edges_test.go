package study

import (
	"math"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

func solved(t *testing.T, span Span) *Study {
	t.Helper()
	var s Study
	if err := s.Update(Case{Corner: checkcorner.Inclined(), Within: kinematics.Evenly(1.2), Span: span}, 0); err != nil {
		t.Fatal(err)
	}
	return &s
}

// Each end of the span is cut for itself, just off the end of the assembled travel,
// and the study says so.
func TestEachEndIsCutForItself(t *testing.T) {
	for _, c := range []struct {
		span        Span
		droop, bump bool // are cut
	}{{Span{Bump: 900, Droop: 41}, false, true}, {Span{Bump: 37, Droop: 800}, true, false}, {Span{Bump: 37, Droop: 41}, false, false}} {
		s := solved(t, c.span)
		from, to := -c.span.Droop, c.span.Bump
		if c.droop {
			from = s.Range.Droop.Travel + edge
		}
		if c.bump {
			to = s.Range.Bump.Travel - edge
		}
		if s.From != from || s.To != to || s.Clipped != (c.droop || c.bump) {
			t.Errorf("%+v: from %v to %v, clipped %v; want %v to %v", c.span, s.From, s.To, s.Clipped, from, to)
		}
	}
}

// Between two poses a band goes straight, and outside the travel it is that of the end.
func TestBandsBetweenPoses(t *testing.T) {
	s := solved(t, Span{Bump: 71, Droop: 63})
	of := func(i int) float64 {
		half, ok := s.Bands[i].Of(kinematics.Camber)
		if !ok {
			t.Fatal("no band of camber")
		}
		return half
	}
	for i := range BandPoses - 1 {
		for _, f := range []float64{0, 0.25, 0.6} {
			at := s.BandTravel[i]*(1-f) + s.BandTravel[i+1]*f
			want := of(i)*(1-f) + of(i+1)*f
			if got, ok := s.BandAt(kinematics.Camber, at); !ok || math.Abs(got-want) > 1e-12*want {
				t.Errorf("at %g: %g, want %g", at, got, want)
			}
		}
	}
	for travel, i := range map[float64]int{s.From - 30: 0, s.To + 30: BandPoses - 1} {
		if got, _ := s.BandAt(kinematics.Camber, travel); math.Abs(got-of(i)) > 1e-12*got {
			t.Errorf("beyond at %g: %g, want %g", travel, got, of(i))
		}
	}
	if want, err := s.Mechanism.Bands(kinematics.Evenly(1.2), 0, 0); err != nil || want != s.RestBands {
		t.Error("the bands at rest are others")
	}
}

// A sweep whose end the linkage does not reach draws in that end, to just within
// reach, and says so; the other end stays.
func TestASweepOutOfReachIsNarrowed(t *testing.T) {
	for _, by := range [][2]float64{{2, 0}, {0, 2}, {5, 7}} {
		s := solved(t, Span{Bump: 900, Droop: 800})
		from, to := s.From, s.To
		s.From, s.To, s.Clipped = from-by[0], to+by[1], false
		if err := s.sweep(); err != nil {
			t.Fatal(err)
		}
		const near = 3 * edge
		if s.From < from || s.From > from+near || s.To > to || s.To < to-near || !s.Clipped {
			t.Errorf("wider by %v: %v to %v, clipped %v; reach is %v to %v", by, s.From, s.To, s.Clipped, from, to)
		}
		if s.Travel[0] != s.From || s.Travel[Poses-1] != s.To {
			t.Errorf("wider by %v: poses from %v to %v, the sweep is %v to %v", by, s.Travel[0], s.Travel[Poses-1], s.From, s.To)
		}
	}
}

// At rest a study reads as the mechanism does, whatever the rack is at; and a car that
// uses no travel has one place, with the bands of rest.
func TestRestAndNoTravel(t *testing.T) {
	s := solved(t, Span{})
	if err := s.Update(s.Case, 23); err != nil {
		t.Fatal(err)
	}
	p := checkcorner.At(t, &s.Mechanism, 0, 0)
	if s.Rest != p.Readings() {
		t.Error("the readings at rest are others")
	}
	if err := s.Update(s.Case, 0); err != nil {
		t.Fatal(err)
	}
	want, _ := s.RestBands.Of(kinematics.Camber)
	if got, ok := s.BandAt(kinematics.Camber, 0); !ok || math.Abs(got-want) > 1e-9*want {
		t.Errorf("band of camber %g, at rest %g", got, want)
	}
}
