package kinematics

import (
	"math"
	"testing"
)

// An instant centre that may lie on either side is so found, with limits that
// cars whose points lie within the measuring error keep on their side.
func TestFarWithItsLimits(t *testing.T) {
	r := seeded(t, 6113)
	found := map[Far]int{}
	var sides coverage
	for range 3000 {
		c := randomCorner(r)
		m, err := New(&c)
		if err != nil {
			continue
		}
		travel := 60 * (2*r.Float64() - 1)
		p, err := m.At(travel, 0)
		if err != nil {
			continue
		}
		b, err := m.Bands(Evenly(1.5), travel, 0)
		if err != nil {
			t.Fatal(err)
		}
		readings := p.Readings()
		far := b.Far(&readings)
		found[far]++
		arm, _ := readings.Of(SwingArm)
		lies, _ := b.Interval(SwingArm)
		half, _ := lies.Half()
		size := max(math.Abs(arm), half) // wider than long is as far as its far end
		if far == Near && (math.Abs(arm) >= FarArm || lies.Infinite || half > FarArm && half > math.Abs(arm)) ||
			(far == FarInboard || far == FarOutboard) && (size < FarArm || arm > 0 != (far == FarInboard)) {
			t.Fatalf("arm %g in %+v: %d", arm, lies, far)
		}
		if far != FarEither {
			continue
		}
		inboard, outboard := FarLimits(lies)
		for range 20 {
			car := c
			for _, at := range c.Coordinates() {
				car.Shift(at, 1.5*(2*r.Float64()-1))
			}
			if read, ok := tryRead(&car, travel, 0); ok {
				if arm, ok := read.Of(SwingArm); ok {
					sides.add(arm >= inboard || arm <= -outboard)
				}
			}
		}
	}
	sides.demand(t, "an instant centre beyond its limits", false)
	if found[FarEither] == 0 || found[Near] == 0 {
		t.Errorf("%v", found)
	}
	if FarOf(0, false, Interval{}, false) != FarEither || FarOf(2e5, true, Interval{}, false) != FarInboard || FarOf(-2e5, true, Interval{}, false) != FarOutboard || FarOf(1300, true, Interval{}, false) != Near {
		t.Error("an arm without a band is misjudged")
	}
}
