package pages

import (
	"math"
	"math/rand"
	"testing"

	"armscribe/app/units"
	"armscribe/canvas/chart"
)

// The ticks of an axis in inches stand at the marks of a tape and are written as every
// other fraction is.
func TestInchTicksAreThoseOfATape(t *testing.T) {
	const seed = 6471
	r := rand.New(rand.NewSource(seed))
	for range 2000 {
		middle, width := (r.Float64()*2-1)*40, math.Pow(10, -1.2+2.8*r.Float64())
		span := chart.Range{Min: middle - width/2, Max: middle + width/2}
		labels, last := 0, math.Inf(-1)
		for _, k := range chart.InchTicks(span) {
			if k.Value != span.Min && k.Value != span.Max && k.Value*64 != math.Round(k.Value*64) {
				t.Fatalf("seed %d: %v has a tick at %v", seed, span, k.Value)
			}
			if k.Label == "" {
				continue
			}
			labels++
			if want, off := units.FormatFraction(k.Value*25.4, 64); k.Label+" in" != want || math.Abs(off) > 1e-9 || k.Value <= last {
				t.Fatalf("seed %d: %v has %q at %v, want %q", seed, span, k.Label, k.Value, want)
			}
			last = k.Value
		}
		if labels < 3 || labels > 12 {
			t.Fatalf("seed %d: %v has %d labels", seed, span, labels)
		}
		nice := chart.NiceInches(span.Min, span.Max, 0.25)
		if !nice.Has(span.Min) || !nice.Has(span.Max) || nice.Min*64 != math.Round(nice.Min*64) || nice.Max*64 != math.Round(nice.Max*64) {
			t.Fatalf("seed %d: %v becomes %v", seed, span, nice)
		}
	}
}
