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
	}{{2, 3, 4, 2.7, 60}, {3.1, 3.1, 4, 3.1, 1}, {1, 2, 2, 2, 1}, {2.6, 2.6, 4, 2.7, 60}, {9, 9, 9, 9, 0}} {
		looks = 0
		at, _ := peak.About(f, row.low, row.place, row.high, 5-(row.place-2.7)*(row.place-2.7), 1e-6)
		if math.Abs(at-row.at) > 1e-6 || looks > row.most {
			t.Errorf("about %g between %g and %g: at %g with %d looks, want %g", row.place, row.low, row.high, at, looks, row.at)
		}
	}
}
