package peak_test

import (
	"math"
	"testing"

	"armscribe/kinematics/internal/peak"
)

// A parabola's top at 2.7, wherever the stretch around it ends; beyond the top
// the end itself is the most, exactly.
func TestBetween(t *testing.T) {
	f := func(x float64) float64 { return 5 - (x-2.7)*(x-2.7) }
	for _, row := range []struct{ a, b, at float64 }{{-3, 4, 2.7}, {2.69, 9, 2.7}, {3.1, 7, 3.1}, {-4, 1.3, 1.3}} {
		at, most := peak.Between(f, row.a, row.b, 1e-6)
		if math.Abs(at-row.at) > 1e-6 || math.Abs(most-f(row.at)) > 1e-11 {
			t.Errorf("from %g to %g: %g at %g, want %g", row.a, row.b, most, at, row.at)
		}
	}
}

// About looks no farther than it must: at an end from which the function falls
// once, and where there is but one place not at all.
func TestAbout(t *testing.T) {
	looks := 0
	f := func(x float64) float64 { looks++; return 5 - (x-2.7)*(x-2.7) }
	for _, row := range []struct {
		low, place, high, at float64
		most                 int
	}{{2, 3, 4, 2.7, 60}, {3.1, 3.1, 4, 3.1, 1}, {1, 2, 2, 2, 1}, {2.6, 2.6, 4, 2.7, 60}, {9, 9, 9, 9, 0},
		{2.699, 2.699, 2.7005, 2.7, 60}, {2.6995, 2.701, 2.701, 2.7, 60}} {
		looks = 0
		at, _ := peak.About(f, row.low, row.place, row.high, 5-(row.place-2.7)*(row.place-2.7), 1e-6)
		if math.Abs(at-row.at) > 1e-6 || looks > row.most {
			t.Errorf("about %g between %g and %g: at %g with %d looks, want %g", row.place, row.low, row.high, at, looks, row.at)
		}
	}
}

// Where nothing is larger the first place stays, and an end that is level with what
// lies inside is not left.
func TestLevel(t *testing.T) {
	looks := 0
	f := func(float64) float64 { looks++; return 5 }
	if at, most := peak.Between(f, 2, 4, 1e-6); at != 2 || most != 5 {
		t.Errorf("%g at %g", most, at)
	}
	for _, row := range []struct {
		low, place, high float64
		most             int
	}{{2, 2, 4, 1}, {2, 4, 4, 1}, {2, 3, 4, 60}} {
		looks = 0
		if at, most := peak.About(f, row.low, row.place, row.high, 5, 1e-6); at != row.place || most != 5 || looks > row.most {
			t.Errorf("%+v: %g at %g with %d looks", row, most, at, looks)
		}
	}
}
