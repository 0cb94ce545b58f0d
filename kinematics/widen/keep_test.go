package widen

import (
	"errors"
	"math"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// The scrub radius measured on the corner with the wheel put where
// PlaneForScrub says, by offset or by spacer, is the one asked for.
func TestPlaneForScrubKeepsIt(t *testing.T) {
	const within = 1e-9 // mm
	for _, radius := range []float64{0, 287, 331} {
		for _, scrub := range []float64{19, -7.5, 41} {
			c := inclined()
			plane, err := PlaneForScrub(c, radius, scrub)
			if err != nil {
				t.Fatal(err)
			}
			if radius != 0 {
				c.Wheel.LoadedRadius = radius
			}
			for _, spacer := range []float64{0, 12.5} {
				c.Wheel.Spacer, c.Wheel.Offset = spacer, spacer-plane
				if got := reading(t, checkcorner.New(t, c), kinematics.ScrubRadius); math.Abs(got-scrub) > within {
					t.Errorf("loaded radius %g, spacer %g: scrub radius %g, want %g", radius, spacer, got, scrub)
				}
			}
		}
	}
	for _, most := range []float64{-kinematics.MaxLength, kinematics.MaxLength} {
		if _, err := PlaneForScrub(inclined(), 0, most); err != nil {
			t.Errorf("scrub radius %g: %v", most, err)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), 1e6, math.Nextafter(kinematics.MaxLength, 1e9)} {
		if _, err := PlaneForScrub(inclined(), 0, bad); !errors.Is(err, ErrWiden) {
			t.Errorf("scrub radius %g: %v", bad, err)
		}
	}
}
