package grip

import (
	"math"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// The ground stops where a job would refuse the loaded radius, in any stance,
// by drag and by key, and the message names the limit.
func TestTheGroundStopsAtRimAndTyre(t *testing.T) {
	for _, at := range stances {
		for _, step := range []float64{1, 25.4 / 32} {
			j := job(0, 0)
			j.Stance, j.Step = at, step
			j.Section = scene.Section{OverallDiameter: 641.7, SectionWidth: 205, RimDiameter: 406.4, RimOverallWidth: 191}
			d := begin(t, twoBushings(), scene.GroundLine, j)
			for _, tt := range []struct {
				up    float64
				limit float64
				words string
			}{{180, 203.2, "the rim has 203.2 mm"}, {-140, 1.01 * 641.7 / 2, "the unloaded tyre has 320.9 mm"}} {
				check := func(how string, r Result) {
					t.Helper()
					got := r.Corner.Wheel.LoadedRadius
					if !r.AtEdge || !strings.Contains(r.Message, tt.words) || !strings.HasPrefix(r.Message, "Stops at a loaded radius of ") {
						t.Errorf("%s at %+v: %q", how, at, r.Message)
					}
					if off := (got - tt.limit) * math.Copysign(1, tt.up); off < 0 || off > step {
						t.Errorf("%s at %+v: stops at %v, the limit is %v", how, at, got, tt.limit)
					}
				}
				hand := by(d, 0, tt.up)
				check("a drag", d.To(hand))
				check("a key", d.By(0, tt.up))
				hand.At.Y = d.From().Y + 6
				if r := d.To(hand); r.AtEdge || r.Message != "" {
					t.Errorf("back in reach: %q", r.Message)
				}
			}
			j.Section = scene.Section{}
			d = begin(t, twoBushings(), scene.GroundLine, j)
			if r := d.To(Hand{At: d.From().Add(draw.Point{Y: 150}), Zoom: 1, Free: true}); strings.Contains(r.Message, "loaded radius") || math.Abs(r.Corner.Wheel.LoadedRadius-159) > 8 {
				t.Errorf("without a tyre: %v, %q", r.Corner.Wheel.LoadedRadius, r.Message)
			}
		}
	}
}
