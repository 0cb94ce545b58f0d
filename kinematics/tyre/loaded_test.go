package tyre

import (
	"math"
	"testing"

	"armscribe/kinematics/tyre/internal/checkdata"
)

// Sizes whose code gives no height: the listed diameter lies within the span of
// the estimate, which is marked. 155R13 by hand: 0.82 x 155 = 127.1, so 127; a rim
// of 330 and twice that make 584.
func TestHeightsThatTheCodeDoesNotGive(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"estimated.csv") {
		d, estimate := mustParse(t, row.Text("size")).DiameterSpan()
		listed := row.Number("listed_diameter_mm")
		if !estimate || listed < d.Low || listed > d.High || d.Value < d.Low || d.Value > d.High || d.High-d.Low > 0.06*listed {
			t.Errorf("%s: %+v, estimate %v; listed %v", row, d, estimate, listed)
		}
	}
	if d := mustParse(t, "155R13").Diameter(); d != 584 {
		t.Errorf("155R13: %v, want 584", d)
	}
	for _, code := range []string{"195/65R15", "31x10.50R15"} {
		tyre := mustParse(t, code)
		if d, estimate := tyre.DiameterSpan(); estimate || d != (Estimated{tyre.Diameter(), tyre.Diameter(), tyre.Diameter()}) {
			t.Errorf("%s: %+v, estimate %v", code, d, estimate)
		}
	}
}

// 205/65R15: 381 + 2 x 133 = 647. 305 measured is 18.5 of 133 squashed, 13.91 %;
// of the 117 of 195/60R15 (615 across) that is 16.27, so 291.23.
func TestARadiusOfAnotherSize(t *testing.T) {
	wide, low := mustParse(t, "205/65R15"), mustParse(t, "195/60R15")
	got := low.LoadedLike(wide, 305)
	if math.Abs(got.Radius-(307.5-117*18.5/133)) > 1e-9 || !got.Estimate {
		t.Errorf("%+v, want 291.23, marked", got)
	}
	if math.Abs(got.Radius-got.Low-5.85) > 1e-9 || math.Abs(got.High-got.Radius-5.85) > 1e-9 {
		t.Errorf("%+v: want 5 %% of the section height either way", got)
	}
}

// Laws of a radius taken to another size: back again it is what was measured, a
// tyre as its own other size keeps it, and it stays within what the size allows.
func TestLawsOfARadiusOfAnotherSize(t *testing.T) {
	codes := []string{"205/65R15", "195/60R15", "205/40R17", "155R13", "7.50-16", "31x10.50R15", "175/80R13"}
	for _, a := range codes {
		for _, b := range codes {
			one, other := mustParse(t, a), mustParse(t, b)
			least, most := one.LoadedLimits()
			for share := 0.0; share <= 1; share += 0.05 {
				r := least + share*(one.Diameter()/2-least)
				there := other.LoadedLike(one, r)
				low, high := other.LoadedLimits()
				if !(there.Low <= there.Radius && there.Radius <= there.High && there.Low >= low-1e-9 && there.High <= high) {
					t.Errorf("%g mm of %s on %s: %+v, not within %g to %g", r, a, b, there, low, high)
				}
				if back := one.LoadedLike(other, there.Radius); math.Abs(back.Radius-r) > 1e-9 {
					t.Errorf("%g mm of %s on %s and back: %g", r, a, b, back.Radius)
				}
			}
			if above := other.LoadedLike(one, most); above.Radius > other.Diameter()/2+1e-9 {
				t.Errorf("%s squashed by less than nothing: %+v", b, above)
			}
		}
	}
	if !mustParse(t, "205/65R15").SameSize(mustParse(t, "205/65 VR15 94V")) || mustParse(t, "205/65R15").SameSize(mustParse(t, "205/60R15")) {
		t.Error("same size")
	}
}
