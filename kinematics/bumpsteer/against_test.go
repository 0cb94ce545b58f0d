package bumpsteer

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// Sheets of corners drawn at random, many of them strongly curved: exact
// readings of the corner itself and readings of the car behind it are not odd,
// one in another unit is where it is large enough to be seen.
func TestOddReadingsOfRandomSheets(t *testing.T) {
	const seed, degree = 8086, math.Pi / 180
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 5))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	curved, sheets, slips, seen := 0, 0, 0, 0
	for n := range checkcorner.Trials(t, 300, 1000) {
		c, within, reads := checkcorner.Random(r), in(0.3, 1.5), in(0.02, 0.08)*degree
		if n%3 == 0 { // at a height that leaves the bow alone
			cured, _, ok := slopeRemedy.find(c, -55, 60)
			if !ok {
				continue
			}
			c = cured
		}
		exact, err := sheetOf(r, c, 0)
		car, err2 := sheetOf(r, checkcorner.MeasuredWrong(r, c, within), reads/math.Sqrt(3))
		if err != nil || err2 != nil {
			continue
		}
		sheets++
		for _, list := range [][]Reading{exact, car} {
			against, all, err := CompareReadings(c, kinematics.Evenly(within), reads, list)
			if err != nil || all != 0 || slices.ContainsFunc(against, func(a Against) bool { return a.Odd }) {
				t.Errorf("corner %d: %v, all %g, %+v", n, err, all, against)
			}
		}
		// An inch written down among millimetres, of which six times what the
		// errors allow is left.
		k := r.IntN(len(car))
		against, _, err := CompareReadings(c, kinematics.Evenly(within), reads, car)
		if err != nil {
			t.Fatal(err)
		}
		sizes := make([]float64, len(car))
		for i := range car {
			sizes[i] = math.Abs(against[i].Predicted.Value)
		}
		if slices.Max(sizes) > 6*max(median(sizes), reads) {
			curved++
		}
		if 24.4*math.Abs(car[k].Toe) < 10*(against[k].Predicted.Half+reads) {
			continue
		}
		slips++
		car[k].Toe *= 25.4
		if against, _, err = CompareReadings(c, kinematics.Evenly(within), reads, car); err == nil && against[k].Odd {
			seen++
		}
	}
	t.Logf("%d sheets, %d of them strongly curved; %d of %d slips found odd", sheets, curved, seen, slips)
	if sheets < 200 || curved < 40 || slips < 100 || float64(seen) < 0.95*float64(slips) {
		t.Error("see above")
	}
}

// sheetOf reads a corner on both sides, each gauge with its own zero.
func sheetOf(r *rand.Rand, c kinematics.Corner, sigma float64) ([]Reading, error) {
	travel := []float64{-55, -22, -14, 9, 17, 24, 60}
	curve, err := ToeCurve(c, OverTravel, travel)
	var list []Reading
	for _, side := range []Side{LeftSide, RightSide} {
		zero := 0.1 * math.Pi / 180 * r.NormFloat64()
		for i, h := range travel {
			if err == nil {
				list = append(list, Reading{Travel: h, Side: side, Toe: curve.Toe[i] + zero + sigma*r.NormFloat64()})
			}
		}
	}
	return list, err
}

// Readings by hand, each so many times off what errors allow: one far off among the fewest
// that can be compared is odd, among fewer none is; where all are off, one four times as
// much is not. Without any error there is nothing to measure by.
func TestOddByHand(t *testing.T) {
	const reads = 1e-3
	c := ahead()
	within := kinematics.Evenly(0.7)
	for what, row := range map[string]struct {
		off []float64
		odd bool
	}{
		"the fewest":  {[]float64{0, 0, 0, 40}[4-minReadings:], true},
		"fewer":       {make([]float64, minReadings-1), false},
		"all are off": {[]float64{2.5, -2.5, 2.5, -2.5, 0, 2.5, -2.5, -2.5, 10}, false},
		"one is off":  {[]float64{0.5, -0.5, 0.5, -0.5, 0, 0.5, -0.5, -0.5, 10}, true},
	} {
		list := make([]Reading, len(row.off))
		for i := range list {
			list[i] = Reading{Travel: -43 + 11*float64(i) + 0.5, Side: LeftSide}
		}
		each, _, err := CompareReadings(c, within, reads, list)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range each {
			list[i].Toe = p.Predicted.Value + row.off[i]*(p.Predicted.Half+reads)
		}
		if what == "fewer" {
			list[0].Toe += 40 * (each[0].Predicted.Half + reads)
		}
		if each, _, err = CompareReadings(c, within, reads, list); err != nil {
			t.Fatal(err)
		}
		for i, a := range each {
			if a.Odd != (row.odd && i == len(each)-1) {
				t.Errorf("%s: reading %d, %g times off: odd %v", what, i, a.Times, a.Odd)
			}
		}
		if each, _, err = CompareReadings(c, kinematics.Evenly(0), 0, list); err != nil {
			t.Fatal(err)
		}
		for i, a := range each {
			if a.Times != 0 || a.Odd {
				t.Errorf("%s: reading %d without any error: %+v", what, i, a)
			}
		}
	}
}

// Readings in another unit are so many times as large, in the middle, as the points
// predict with their errors.
func TestAllReadingsInAnotherUnit(t *testing.T) {
	const reads = 2e-4
	r := rand.New(rand.NewPCG(4, 1))
	c := ahead()
	c.TieRod.RackEnd.Z += 14
	list, err := sheetOf(r, c, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i := range list {
		list[i].Toe *= 25.4
	}
	each, all, err := CompareReadings(c, kinematics.Evenly(0.3), reads, list)
	if err != nil {
		t.Fatal(err)
	}
	var sizes, could []float64
	for i, a := range each {
		sizes = append(sizes, math.Abs(list[i].Toe-a.Zero))
		could = append(could, math.Abs(a.Predicted.Value)+a.Predicted.Half)
	}
	if want := median(sizes) / median(could); all < allOff || math.Abs(all-want) > 1e-9*want {
		t.Errorf("%g times as large, want %g", all, want)
	}
	// So few readings tell as well, fewer do not.
	few := []Reading{list[0], list[len(list)/2], list[len(list)-1]}
	for i := len(list) / 3; len(few) < minReadings; i++ {
		few = append(few, list[i])
	}
	for n, tells := range map[int]bool{minReadings: true, minReadings - 1: false} {
		if _, all, err := CompareReadings(c, kinematics.Evenly(0.01), reads/10, few[:n]); err != nil || (all > allOff) != tells {
			t.Errorf("%d readings are %g times as large: %v", n, all, err)
		}
	}
}

// A tie rod of 3, 4 and 12 mm along the axes is 13 long.
func TestRodLength(t *testing.T) {
	c := kinematics.Corner{TieRod: kinematics.TieRod{RackEnd: vec(131, 310, 240), OuterEnd: vec(134, 314, 252)}}
	if got := rodLength(&c); math.Abs(got-13) > 1e-12 {
		t.Errorf("%g, want 13", got)
	}
}
