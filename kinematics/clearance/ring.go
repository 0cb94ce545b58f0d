package clearance

import (
	"fmt"
	"math"
)

// Ring is the wheel as what the upright carries meets it: the tyre from the
// bead seat out, and the rim from its barrel to its edges, hollow inside.
// Spokes and disc are not in it: no code says where they stand.
type Ring struct {
	Barrel  float64 // inside diameter of the rim, mm
	Seat    float64 // diameter of the bead seat, mm: the rim's nominal diameter
	Overall float64 // width of the rim over its edges, mm
}

// flangeHeight is the rim's edge above the bead seat, mm. Source: J flange of
// about 17 mm, ISO 4000-2, from memory.
const flangeHeight = 17.0

// RingError says which measure of a rim is out of range.
type RingError struct {
	Measure         string
	Value, Min, Max float64 // mm
}

// Error names measure, value, limits and cure in one line.
func (e *RingError) Error() string {
	return fmt.Sprintf("rim %s %g mm is not between %g and %g mm; measure the rim", e.Measure, e.Value, e.Min, e.Max)
}

// Validate returns a *[RingError] for the first measure that makes no rim for
// the tyre.
func (r Ring) Validate(t Tyre) error {
	for _, m := range []struct {
		name             string
		value, low, high float64
	}{
		{"bead seat diameter", r.Seat, 2 * minShoulder, 2 * (t.Radius - t.Shoulder)},
		{"inside diameter", r.Barrel, minShoulder, r.Seat},
		{"overall width", r.Overall, minShoulder, 2 * maxRadius},
	} {
		if !(m.value >= m.low && m.value <= m.high) {
			return &RingError{m.name, m.value, m.low, m.high}
		}
	}
	return nil
}

// distance returns the signed distance of a point to ring and tyre. Outside
// both it is exact; inside it is the larger of the depths in either, which is
// at most the depth in both together.
func (r *Ring) distance(p *profile, u, v float64) float64 {
	u = math.Abs(u)
	tyre := p.distance(u, v)
	if seat := r.Seat / 2; v < seat {
		tyre = math.Hypot(max(u-p.half, 0), seat-v)
	} else if tyre < 0 {
		tyre = max(tyre, seat-v)
	}
	return min(tyre, boxDistance(u, v-r.Barrel/2, r.Overall/2, (r.Seat-r.Barrel)/2+flangeHeight))
}

// boxDistance is the signed distance of (u, w) to 0..half by 0..height, where
// u = 0 is a mirror plane and no edge.
func boxDistance(u, w, half, height float64) float64 {
	x, y := u-half, max(-w, w-height)
	if x <= 0 && y <= 0 {
		return max(x, y)
	}
	return math.Hypot(max(x, 0), max(y, 0))
}
