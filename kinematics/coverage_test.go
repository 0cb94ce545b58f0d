package kinematics

import (
	"math"
	"os"
	"slices"
	"testing"
)

// coverage counts how often the truth lies within a band.
type coverage struct{ in, of int }

func (c *coverage) add(in bool) {
	c.of++
	if in {
		c.in++
	}
}

// coverCorners is how many random corners the bands are tried on: with the
// environment's ARMSCRIBE_LONG some thousands, as `make long` does.
func coverCorners(t *testing.T, short, long int) int {
	t.Helper()
	n := short
	if os.Getenv("ARMSCRIBE_LONG") != "" {
		n = long
	}
	t.Logf("%d corners", n)
	return n
}

// demand fails where bands hold less than 93 or more than 97 times in 100. few
// tells that one or two coordinates decide alone: then the band is the most there
// is, which holds always.
func (c *coverage) demand(t *testing.T, what string, few bool) {
	t.Helper()
	share := float64(c.in) / float64(c.of)
	t.Logf("%-34s %6.2f %% of %d", what, 100*share, c.of)
	const low, high = 0.93, 0.97
	if share < low || share > high && !few {
		t.Errorf("%s: the truth lies within the band in %.2f %% of %d, want 93 to 97", what, 100*share, c.of)
	}
}

// carsPerCorner is how many cars each band is held against.
const carsPerCorner = 40

// TestBandsCoverage: the readings of cars whose points lie anywhere within the
// measuring error are within the bands of the measured corner 95 times in 100,
// at any travel and rack; near parallel arms as well.
func TestBandsCoverage(t *testing.T) {
	const within = 1.0
	corners := coverCorners(t, 1000, 20000)
	r := seeded(t, 20261202)
	var got [QuantityCount]coverage
	var far, inverse, even coverage
	infinite := 0
	for range corners {
		c := randomCorner(r)
		m, err := New(&c)
		if err != nil {
			continue
		}
		travel, rack := 60*(2*r.Float64()-1), 20*(2*r.Float64()-1)
		b, err := m.Bands(Evenly(within), travel, rack)
		if err != nil {
			continue
		}
		for range carsPerCorner {
			car := c
			for _, at := range c.Coordinates() {
				car.Shift(at, within*(2*r.Float64()-1))
			}
			mc, err := New(&car)
			if err != nil {
				continue
			}
			p, err := mc.At(travel, rack)
			if err != nil {
				continue
			}
			truth := p.Readings()
			for q := range QuantityCount {
				v, ok := truth.Of(q)
				i, known := b.Interval(q)
				if !ok || !known {
					continue
				}
				got[q].add(i.Holds(v))
				if q == SwingArm {
					if i.Infinite {
						infinite++
						inverse.add(i.Holds(v))
					}
					if math.Abs(b.values[q]) > 5000 {
						far.add(i.Holds(v))
					}
					if half, ok := b.Of(q); ok {
						even.add(math.Abs(v-b.values[q]) <= half)
					}
				}
			}
		}
	}
	for q := range QuantityCount {
		// A few coordinates decide where the wheel stands.
		few := q == HalfTrack || q == RollCentreY || q == SpringLength
		got[q].demand(t, q.String(), few)
	}
	far.demand(t, "swing arm beyond 5 m", false)
	even.demand(t, "swing arm, the same band both ways", false)
	inverse.demand(t, "swing arm that may be infinite", false)
	if infinite == 0 {
		t.Error("no swing arm may be infinite")
	}
}

// TestChangeBandsCoverage: likewise the change from one corner to another that
// shares some of its points, and some with another error.
func TestChangeBandsCoverage(t *testing.T) {
	corners := coverCorners(t, 600, 5000)
	r := seeded(t, 20261203)
	var got [QuantityCount]coverage
	for range corners {
		a := randomCorner(r)
		b := a
		within := Evenly(1)
		for _, at := range a.Coordinates() {
			if r.IntN(4) == 0 {
				within = within.Measured(at, 0.25*float64(r.IntN(9)))
			}
			if r.IntN(8) == 0 {
				within = within.Assumed(at, 3*r.Float64())
			}
			if r.IntN(3) == 0 {
				b.Shift(at, 6*(2*r.Float64()-1))
			}
		}
		ma, errA := New(&a)
		mb, errB := New(&b)
		if errA != nil || errB != nil {
			continue
		}
		travel, rack := 50*(2*r.Float64()-1), 20*(2*r.Float64()-1)
		bands, err := ChangeBands(&ma, &mb, within, within, travel, rack)
		if err != nil {
			continue
		}
		for range carsPerCorner {
			carA, carB := a, b
			for _, at := range a.Coordinates() {
				size := within.of(at)
				draw := func() float64 { return size.measured*(2*r.Float64()-1) + size.assumed*(2*r.Float64()-1) }
				e := draw()
				carA.Shift(at, e)
				if !a.Shares(&b, at) {
					e = draw()
				}
				carB.Shift(at, e)
			}
			ra, okA := tryRead(&carA, travel, rack)
			rb, okB := tryRead(&carB, travel, rack)
			if !okA || !okB {
				continue
			}
			for q := range QuantityCount {
				x, okX := ra.Of(q)
				y, okY := rb.Of(q)
				i, known := bands.Interval(q)
				if okX && okY && known && bands.halves[q] > 1e-9 {
					got[q].add(i.Holds(y - x))
				}
			}
		}
	}
	for q := range QuantityCount {
		if q != RollCentreY {
			got[q].demand(t, "change of "+q.String(), q == HalfTrack)
		}
	}
}

func tryRead(c *Corner, travel, rack float64) (Readings, bool) {
	m, err := New(c)
	if err != nil {
		return Readings{}, false
	}
	p, err := m.At(travel, rack)
	return p.Readings(), err == nil
}

// toeOver are the toe changes from rest over a travel.
func toeOver(c *Corner, travel []float64) ([]Value, error) {
	m, err := New(c)
	if err != nil {
		return nil, err
	}
	list := make([]Value, len(travel))
	for i, h := range travel {
		p, err := m.At(h, 0)
		if err != nil {
			return nil, err
		}
		list[i] = Number(p.readings(Toe)-c.Toe, true)
	}
	return list, nil
}

func (p *Pose) readings(q Quantity) float64 {
	r := p.Readings()
	v, _ := r.Of(q)
	return v
}

func largest(list []Value) float64 {
	most := 0.0
	for _, v := range list {
		most = max(most, math.Abs(v.number()))
	}
	return most
}

// TestLargestCoverage: the largest toe change over a travel, and its change from
// one corner to another, are within their bands 95 times in 100, though both ends
// of the travel may compete. Half of the corners have the rack end moved so that
// they do.
func TestLargestCoverage(t *testing.T) {
	corners := coverCorners(t, 600, 5000)
	r := seeded(t, 20261204)
	travel := []float64{-50, -40, -30, -20, -10, 10, 20, 30, 40, 50}
	all := make([]int, len(travel))
	beside := make([]int, len(travel))
	for i := range all {
		all[i], beside[i] = i, len(travel)+i
	}
	var own, change, closeOnes coverage
	for n := range corners {
		a := randomCorner(r)
		if n%2 == 0 && !evenToe(&a, travel) {
			continue
		}
		b := a
		b.TieRod.OuterEnd.Z += 4 * (2*r.Float64() - 1)
		b.TieRod.RackEnd.Y += 4 * (2*r.Float64() - 1)
		b.Upper.Front.Z += 4 * (2*r.Float64() - 1)
		la, errA := Linearise(&a, Evenly(1), func(c *Corner) ([]Value, error) { return toeOver(c, travel) })
		lb, errB := Linearise(&b, Evenly(1), func(c *Corner) ([]Value, error) { return toeOver(c, travel) })
		if errA != nil || errB != nil {
			continue
		}
		both := Beside(&la, &lb)
		half, ok := la.Largest(all)
		halfChange, okChange := both.LargestChange(all, beside)
		if !ok || !okChange {
			continue
		}
		for range carsPerCorner {
			carA, carB := a, b
			for _, at := range a.Coordinates() {
				e := 2*r.Float64() - 1
				carA.Shift(at, e)
				if !a.Shares(&b, at) {
					e = 2*r.Float64() - 1
				}
				carB.Shift(at, e)
			}
			va, errA := toeOver(&carA, travel)
			vb, errB := toeOver(&carB, travel)
			if errA != nil || errB != nil {
				continue
			}
			in := math.Abs(largest(va)-largest(la.Base)) <= half
			own.add(in)
			if n%2 == 0 {
				closeOnes.add(in)
			}
			change.add(math.Abs(largest(vb)-largest(va)-largest(lb.Base)+largest(la.Base)) <= halfChange)
		}
	}
	own.demand(t, "largest toe change", false)
	closeOnes.demand(t, "largest toe change, ends alike", false)
	change.demand(t, "change of the largest toe change", false)
}

// evenToe moves the rack end until both ends of the travel toe alike far.
func evenToe(c *Corner, travel []float64) bool {
	off := func(z float64) float64 {
		moved := *c
		moved.TieRod.RackEnd.Z += z
		v, err := toeOver(&moved, travel)
		if err != nil {
			return math.NaN()
		}
		return math.Abs(v[0].number()) - math.Abs(v[len(v)-1].number())
	}
	low, high := -15.0, 15.0
	if !(off(low)*off(high) < 0) {
		return false
	}
	for range 40 {
		mid := (low + high) / 2
		if off(mid)*off(low) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	c.TieRod.RackEnd.Z += low
	return !math.IsNaN(off(0))
}

// TestLargestIsSteady: the same corner gives the same bits, in any order of
// asking, and a place that cannot be the largest changes nothing.
func TestLargestIsSteady(t *testing.T) {
	c := randomCorner(seeded(t, 20261205))
	travel := []float64{-50, -25, 25, 50, 1}
	of := func(c *Corner) ([]Value, error) { return toeOver(c, travel) }
	l, err := Linearise(&c, Evenly(1), of)
	if err != nil {
		t.Fatal(err)
	}
	first, _ := l.Largest([]int{0, 1, 2, 3})
	again, _ := Linearise(&c, Evenly(1), of)
	second, ok := again.Largest([]int{0, 1, 2, 3})
	with, _ := again.Largest([]int{0, 1, 2, 3, 4})
	if !ok || first <= 0 || first != second || first != with {
		t.Errorf("±%g, ±%g, ±%g", first, second, with)
	}
}

// TestNeverMoreThanTheSum: no band is wider than all errors together can do, and
// one that rests on a single coordinate is that coordinate's.
func TestNeverMoreThanTheSum(t *testing.T) {
	for n, c := range someCorners(t, 20261206, 60) {
		alone := Evenly(0)
		list := c.Coordinates()
		at := list[n%len(list)]
		alone = alone.Measured(at, 0.7).Assumed(at, 0.4)
		for _, within := range []Within{Evenly(0.9), alone} {
			l, err := mustNew(t, c).Linear(within, -19, 4)
			if err != nil {
				t.Fatal(err)
			}
			b, err := mustNew(t, c).Bands(within, -19, 4)
			if err != nil {
				t.Fatal(err)
			}
			for q := range QuantityCount {
				half, ok := l.Half(int(q))
				fast, okFast := b.Of(q)
				if okFast != ok || math.Abs(fast-half) > 1e-6*half+1e-9 {
					t.Errorf("%v: the quick way says ±%g (%v), the other ±%g (%v)", q, fast, okFast, half, ok)
				}
				if !ok || centreIndex(q) >= 0 {
					continue
				}
				most := 0.0
				for _, at := range list {
					most += math.Abs(l.Slope(int(q), at)) * within.of(at).most()
				}
				if half > most*(1+1e-12) {
					t.Errorf("%v: ±%g, and all together can do ±%g", q, half, most)
				}
				if one := math.Abs(l.Slope(int(q), at)); within == alone && math.Abs(half-min(1.1*one, even95*math.Hypot(0.7, 0.4)*one)) > 1e-9*half {
					t.Errorf("%v rests on one coordinate: ±%g, slope %g", q, half, one)
				}
			}
		}
	}
}

// TestIntervals: an interval turned over and back is itself, and holds what the
// other holds.
func TestIntervals(t *testing.T) {
	r := seeded(t, 20261207)
	for range 2000 {
		ends := []float64{r.NormFloat64(), r.NormFloat64()}
		slices.Sort(ends)
		i := Interval{Low: ends[0], High: ends[1]}
		if r.IntN(2) == 0 {
			i = Interval{Low: ends[1], High: ends[0], Infinite: true}
		}
		inv := i.reciprocal()
		if back := inv.reciprocal(); back.Infinite != i.Infinite || math.Abs(back.Low-i.Low) > 1e-12*math.Abs(i.Low) || math.Abs(back.High-i.High) > 1e-12*math.Abs(i.High) {
			t.Fatalf("%+v over %+v is %+v", i, inv, back)
		}
		for range 20 {
			if x := 3 * r.NormFloat64(); i.Holds(x) != inv.Holds(1/x) {
				t.Fatalf("%+v and %+v disagree on %g", i, inv, x)
			}
		}
	}
}

// TestLargestOfCompetingEnds: where the worst place turns from one end of the
// travel to the other between two corners, the band of the change is what cars
// make of it, corner for corner, and neither many times as wide nor a part of it.
func TestLargestOfCompetingEnds(t *testing.T) {
	const cars, apart = 500, 0.3
	r := seeded(t, 20261208)
	travel := []float64{-50, -40, -30, -20, -10, 10, 20, 30, 40, 50}
	all, beside := make([]int, len(travel)), make([]int, len(travel))
	for i := range all {
		all[i], beside[i] = i, len(travel)+i
	}
	of := func(c *Corner) ([]Value, error) { return toeOver(c, travel) }
	corners := coverCorners(t, 40, 300)
	for tried := 0; tried < corners; {
		a := randomCorner(r)
		if !evenToe(&a, travel) {
			continue
		}
		b := a
		a.TieRod.RackEnd.Z -= apart
		b.TieRod.RackEnd.Z += apart
		la, errA := Linearise(&a, Evenly(1), of)
		lb, errB := Linearise(&b, Evenly(1), of)
		if errA != nil || errB != nil {
			continue
		}
		tried++
		both := Beside(&la, &lb)
		half, ok := both.LargestChange(all, beside)
		if !ok {
			t.Fatal("no band")
		}
		var away []float64
		for range cars {
			carA, carB := a, b
			for _, at := range a.Coordinates() {
				e := 2*r.Float64() - 1
				carA.Shift(at, e)
				if !a.Shares(&b, at) {
					e = 2*r.Float64() - 1
				}
				carB.Shift(at, e)
			}
			va, errA := of(&carA)
			vb, errB := of(&carB)
			if errA == nil && errB == nil {
				away = append(away, math.Abs(largest(vb)-largest(va)-largest(lb.Base)+largest(la.Base)))
			}
		}
		slices.Sort(away)
		// Of so many cars the half-width that 95 in 100 stay within scatters by 4 %.
		if drawn := away[len(away)*95/100]; math.Abs(half/drawn-1) > 0.2 {
			t.Errorf("corner %d: ±%.5f degrees, cars say ±%.5f", tried, deg(half), deg(drawn))
		}
	}
}

// TestMostErrors: two corners that share nothing, with two errors on everything
// there is, are drawn as well.
func TestMostErrors(t *testing.T) {
	a := caseB()
	b, within := a, Evenly(1)
	for _, at := range a.Coordinates() {
		within = within.Assumed(at, 2)
		b.Shift(at, 0.3)
	}
	for axis := range 3 {
		at := Coordinate{AtRest, axis}
		within = within.Measured(at, 0.01).Assumed(at, 0.01)
	}
	for i := range MostTogether {
		within = within.Together(i, shiftedAll(&a, Vec{X: 0.2, Z: 0.1 * float64(i)}))
	}
	b.Camber, b.Toe, b.Wheel.Offset = a.Camber+0.01, a.Toe+0.01, a.Wheel.Offset+1
	of := func(c *Corner) ([]Value, error) { return toeOver(c, []float64{-30, 30}) }
	la, errA := Linearise(&a, within, of)
	lb, errB := Linearise(&b, within, of)
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	both := Beside(&la, &lb)
	if half := both.drawn([]int{0, 3}, func(v []float64) float64 { return v[1] - v[0] }); !(half > 0) || len(both.errors) != maxErrors/2-MostTogether { // these both have
		t.Errorf("±%g of %d errors", half, len(both.errors))
	}
}
