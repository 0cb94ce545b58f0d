package kinematics

import (
	"math"
	"slices"
	"testing"
)

// TestBandsAgainstDraws compares the 95 % half-widths with what 95 % of 20,000
// corners with random measuring errors stay within, for each quantity.
func TestBandsAgainstDraws(t *testing.T) {
	const draws = 20_000
	// Where they may differ:
	// Sampling. The half-width of 20,000 normal draws that 95 % stay within
	// scatters by sqrt(0.95*0.05/20000) / (2*0.0584) = 0.0132 standard
	// deviations, which is 0.67 % of the half-width; four times that is
	const sampling = 0.027
	// Second order. At 0.2 mm the bend of a reading over its band is small.
	const bend = 0.008
	const within, travel, rack = 0.2, 34.0, 7.5
	flat := caseA()
	flat.Lower.Front.X, flat.Upper.Front.X = 31, -12
	flat.TieRod.RackEnd = Vec{X: 111, Y: 283, Z: 236}
	flat.TieRod.OuterEnd = Vec{X: 126, Y: 661, Z: 231}
	flat.Spring = Spring{Carrier: OnUpright, Moving: Vec{X: 9, Y: 655, Z: 250}, Body: Vec{X: -14, Y: 560, Z: 640}}
	for name, c := range map[string]Corner{"general": caseB(), "flat arms": flat} {
		t.Run(name, func(t *testing.T) {
			m := mustNew(t, c)
			bands, err := m.Bands(Evenly(within), travel, rack)
			if err != nil {
				t.Fatal(err)
			}
			centre := mustRead(t, m, travel, rack)
			away := drawErrors(t, c, draws, within, travel, rack, &centre)
			for q := range QuantityCount {
				half, ok := bands.Of(q)
				if _, known := centre.Of(q); ok != known {
					t.Errorf("%v: band %v, reading %v", q, ok, known)
				}
				if !ok {
					continue
				}
				if q == RollCentreY { // in the centre plane whatever the points
					near(t, q.String(), half, 0, 0)
					continue
				}
				slices.Sort(away[q])
				drawn := away[q][draws*95/100]
				normal := normalShare(t, m, q, travel, rack)
				ratio := drawn / half
				t.Logf("%-26v band %.6g, drawn %.6g, ratio %.4f (sum of uniforms %.4f)", q, half, drawn, ratio, normal)
				if !(math.Abs(ratio-normal) <= sampling+bend) {
					t.Errorf("%v: band %g, draws say %g", q, half, drawn)
				}
			}
		})
	}
}

// drawErrors returns how far each reading goes off in corners with random errors.
func drawErrors(t *testing.T, c Corner, draws int, within, travel, rack float64, centre *Readings) [QuantityCount][]float64 {
	r := seeded(t, 71)
	var away [QuantityCount][]float64
	for range draws {
		drawn := c
		for _, at := range c.Coordinates() {
			drawn.Shift(at, within*(2*r.Float64()-1))
		}
		rd := mustRead(t, mustNew(t, drawn), travel, rack)
		for q := range QuantityCount {
			if v, ok := rd.Of(q); ok {
				away[q] = append(away[q], math.Abs(v-centre.values[q]))
			}
		}
	}
	return away
}

// normalShare is by how much the normal distribution of the bands overstates
// what 95 % of a sum of uniform errors stay within. It is 1 for many equal
// parts, and 0.95 sqrt(3) / 1.96 = 0.84 when a single coordinate decides. The
// sum's own distribution is worked out by adding one uniform part after the
// other on a grid.
func normalShare(t *testing.T, m *Mechanism, q Quantity, travel, rack float64) float64 {
	t.Helper()
	var parts []float64
	total, squares := 0.0, 0.0
	l := mustLinear(t, m, travel, rack)
	for _, at := range m.corner.Coordinates() {
		if g := math.Abs(l.Slope(int(q), at)); g > 0 {
			parts = append(parts, g)
			total += g
			squares += g * g
		}
	}
	const cells = 4000 // each side of zero
	cell := total / cells
	density := make([]float64, 2*cells+1)
	density[cells] = 1
	sum := make([]float64, len(density)+1)
	for _, g := range parts {
		// A box of width 2 g, as an average over the cells it covers.
		for i, d := range density {
			sum[i+1] = sum[i] + d
		}
		upTo := func(x float64) float64 { // integral up to cell coordinate x
			x = min(max(x, 0), float64(len(density)))
			i := min(int(x), len(density)-1)
			return sum[i] + (x-float64(i))*density[i]
		}
		for i := range density {
			at, w := float64(i)+0.5, g/cell
			density[i] = (upTo(at+w) - upTo(at-w)) / (2 * w)
		}
	}
	inside, i := density[cells], 0
	whole := 0.0
	for _, d := range density {
		whole += d
	}
	for ; inside < 0.95*whole; i++ {
		inside += density[cells+i+1] + density[cells-i-1]
	}
	return (float64(i) + 0.5) * cell / min(total, Normal95/math.Sqrt(3)*math.Sqrt(squares))
}

// TestBandsScale: twice the error, twice the band; no error, no band.
func TestBandsScale(t *testing.T) {
	for _, c := range someCorners(t, 72, 20) {
		m := mustNew(t, c)
		one, err := m.Bands(Evenly(0.75), -22, 4)
		if err != nil {
			t.Fatal(err)
		}
		four, _ := m.Bands(Evenly(3), -22, 4)
		none, _ := m.Bands(Evenly(0), -22, 4)
		for q := range QuantityCount {
			a, ok := one.Of(q)
			b, _ := four.Of(q)
			z, _ := none.Of(q)
			if centreIndex(q) < 0 { // the others grow faster than their error
				near(t, q.String()+", four times", b, 4*a, 1e-12*b)
			}
			near(t, q.String()+", no error", z, 0, 0)
			if !ok && a != 0 {
				t.Errorf("%v does not exist and has the band %g", q, a)
			}
		}
	}
}

// mustLinear linearises the readings, each coordinate within 1 mm.
func mustLinear(t *testing.T, m *Mechanism, travel, rack float64) Linear {
	t.Helper()
	l, err := m.Linear(Evenly(1), travel, rack)
	if err != nil || l.Edge != nil {
		t.Fatal(err, l.Edge)
	}
	return l
}

// TestBandsAreTheGradient: the band is 1.96 within / sqrt(3) times the length
// of the gradient, never more than the sum of its parts, and a sweep gives what
// single poses give.
func TestBandsAreTheGradient(t *testing.T) {
	m := mustNew(t, caseB())
	travel := []float64{-41, 3, 58}
	swept := make([]Bands, len(travel))
	if err := m.SweepBands(swept, Evenly(1.25), travel, -11); err != nil {
		t.Fatal(err)
	}
	for i, h := range travel {
		single, err := m.Bands(Evenly(1.25), h, -11)
		if err != nil || single != swept[i] {
			t.Errorf("travel %g: the sweep says otherwise (%v)", h, err)
		}
		var squares, most [QuantityCount]float64
		l := mustLinear(t, m, h, -11)
		for _, at := range m.corner.Coordinates() {
			for q := range squares {
				d := l.Slope(q, at)
				squares[q] += d * d
				most[q] += math.Abs(d)
			}
		}
		for q := range QuantityCount {
			half, ok := single.Of(q)
			if !ok {
				t.Errorf("no band of %v", q)
			}
			tolerance := 1e-6 * half
			if centreIndex(q) >= 0 { // half of a lopsided one
				tolerance = 0.01 * half
			}
			near(t, q.String(), half, min(1.959964*1.25/math.Sqrt(3)*math.Sqrt(squares[q]), 1.25*most[q]), tolerance)
		}
	}
}

// TestBandsAtRest: what is given and not measured has no band at rest.
func TestBandsAtRest(t *testing.T) {
	b, err := mustNew(t, caseB()).Bands(Evenly(1), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []Quantity{Camber, Toe, TieRodError} {
		half, ok := b.Of(q)
		near(t, q.String(), half, 0, 1e-9)
		if !ok {
			t.Errorf("no band of %v", q)
		}
	}
	half, _ := b.Of(HalfTrack) // the y of the hub face alone
	near(t, "half track", half, 1, 1e-9)
}

// TestBandsSayNo: out of reach is an error, a corner at the edge has no bands,
// and a negative error is a caller's bug.
func TestBandsSayNo(t *testing.T) {
	m := mustNew(t, caseB())
	if _, err := m.Bands(Evenly(1), 700, 0); err == nil {
		t.Error("bands at a travel out of reach")
	}
	reach, err := m.Range(0)
	if err != nil {
		t.Fatal(err)
	}
	b, err := m.Bands(Evenly(1), reach.Bump.Travel-1e-4, 0)
	if err != nil {
		t.Fatal(err)
	}
	if half, ok := b.Of(Toe); ok || half != 0 {
		t.Errorf("a hundredth of a mm out of reach, and the band of toe is %g", half)
	}
	// Arms that a hundredth of a mm makes parallel have an instant centre, and a band of it that holds infinity.
	c := equalArms(0)
	c.Upper.Front.Z += bandStep
	m = mustNew(t, c)
	if r := mustRead(t, m, 0, 0); value(t, &r, SwingArm) == 0 {
		t.Error("no swing arm")
	}
	b, err = m.Bands(Evenly(1), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if half, ok := b.Of(SwingArm); ok || half != 0 {
		t.Errorf("the band of a swing arm that may be infinite is %g", half)
	}
	if i, ok := b.Interval(SwingArm); !ok || !i.Infinite {
		t.Errorf("the swing arm that may be infinite lies in %+v, %v", i, ok)
	}
	for _, within := range []float64{-0.5, math.NaN(), math.Inf(1)} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("measured within %g mm does not panic", within)
				}
			}()
			_, _ = m.Bands(Evenly(within), 0, 0)
		}()
	}
}
