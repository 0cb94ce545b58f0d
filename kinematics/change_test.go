package kinematics

import (
	"errors"
	"math"
	"testing"
)

func changeCorner() Corner {
	return Corner{
		Upper:  Arm{Front: Vec{X: 104, Y: 372, Z: 449}, Rear: Vec{X: -131, Y: 377, Z: 436}, Ball: Vec{X: -18, Y: 624, Z: 481}},
		Lower:  Arm{Front: Vec{X: 152, Y: 316, Z: 188}, Rear: Vec{X: -171, Y: 309, Z: 179}, Ball: Vec{X: 5, Y: 672, Z: 191}},
		TieRod: TieRod{RackEnd: Vec{X: 117, Y: 341, Z: 214}, OuterEnd: Vec{X: 129, Y: 688, Z: 219}},
		Hub:    Vec{X: 3, Y: 742, Z: 306}, Camber: -0.024, Toe: 0.002, Wheel: Wheel{Offset: 20, LoadedRadius: 304},
	}
}

func changeBands(t *testing.T, a, b Corner, withinA, withinB float64) Bands {
	t.Helper()
	ma, err := New(&a)
	if err != nil {
		t.Fatal(err)
	}
	mb, err := New(&b)
	if err != nil {
		t.Fatal(err)
	}
	bands, err := ChangeBands(&ma, &mb, Evenly(withinA), Evenly(withinB), 17, -3)
	if err != nil {
		t.Fatal(err)
	}
	return bands
}

// Measured afresh all over, both errors add as squares; not measured anew at
// all, nothing is left of them.
func TestChangeBandsAtBothEnds(t *testing.T) {
	a := changeCorner()
	b := a
	for i, at := range a.Coordinates() {
		b.Shift(at, 0.5+0.25*float64(i%7))
	}
	ma, _ := New(&a)
	mb, _ := New(&b)
	bandsA, errA := ma.Bands(Evenly(1.25), 17, -3)
	bandsB, errB := mb.Bands(Evenly(0.5), 17, -3)
	if err := errors.Join(errA, errB); err != nil {
		t.Fatal(err)
	}
	afresh, same := changeBands(t, a, b, 1.25, 0.5), changeBands(t, a, a, 1.25, 0.5)
	for q := range QuantityCount {
		x, okA := bandsA.Of(q)
		y, okB := bandsB.Of(q)
		got, ok := afresh.Of(q)
		tolerance := 1e-9 * got
		if centreIndex(q) >= 0 { // lopsided bands
			tolerance = 0.03 * got
		}
		if ok != (okA && okB) || math.Abs(got-math.Hypot(x, y)) > tolerance {
			t.Errorf("%s measured afresh: %g (%v), want %g (%v)", q, got, ok, math.Hypot(x, y), okA && okB)
		}
		if half, _ := same.Of(q); half != 0 {
			t.Errorf("%s of a corner and itself changes by ±%g", q, half)
		}
	}
}

// One point measured anew: its errors, and of the shared ones only the
// difference that the new place makes.
func TestChangeBandsOfOneMovedPoint(t *testing.T) {
	a := changeCorner()
	b := a
	b.TieRod.OuterEnd.Z += 8
	bands := changeBands(t, a, b, 1, 1)
	half, _ := bands.Of(RideToe)
	ma, _ := New(&a)
	alone, err := ma.Bands(Evenly(1), 17, -3)
	if err != nil {
		t.Fatal(err)
	}
	whole, _ := alone.Of(RideToe)
	l := mustLinear(t, &ma, 17, -3)
	g := l.Slope(int(RideToe), Coordinate{OuterEnd, 2})
	// Two independent errors of that height at least.
	if least := Normal95 / math.Sqrt(3) * math.Sqrt2 * math.Abs(g); half < 0.9*least || half > math.Sqrt2*whole {
		t.Errorf("±%g, want from %g to %g", half, least, math.Sqrt2*whole)
	}
	if c, _ := bands.Of(ScrubRadius); c > 1e-3 {
		t.Errorf("the scrub radius, which no tie rod changes, is known to ±%g", c)
	}
}

func TestShares(t *testing.T) {
	a := changeCorner()
	b := a
	b.Lower = FlatArm(a.Lower.Front, a.Lower.Ball)
	b.Hub.Z = math.Nextafter(b.Hub.Z, 400)
	for at, want := range map[Coordinate]bool{
		{UpperFront, 0}: true, {LowerFront, 1}: false, {LowerRear, 1}: false, {LowerBall, 2}: true,
		{HubFace, 1}: true, {HubFace, 2}: false, {SpringBody, 0}: false,
	} {
		if a.Shares(&b, at) != want || b.Shares(&a, at) != want {
			t.Errorf("%s %d: shared %v", at.Point, at.Axis, !want)
		}
	}
}

// What Linear reads of neighbours in memory used again has the bits of fresh memory.
func TestLinearHasTheBitsOfFreshMemory(t *testing.T) {
	c := changeCorner()
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	got, err := m.Linear(Evenly(1.4), 23, -6)
	if err != nil {
		t.Fatal(err)
	}
	want, err := Linearise(&c, Evenly(1.4), func(c *Corner) ([]Value, error) {
		m, err := New(c)
		if err != nil {
			return nil, err
		}
		p, err := m.At(23, -6)
		return p.Values(), err
	})
	if err != nil {
		t.Fatal(err)
	}
	for k := range want.Base {
		half, ok := got.Half(k)
		if w, wantOK := want.Half(k); half != w || ok != wantOK || got.Base[k] != want.Base[k] {
			t.Errorf("%s: %v ± %v, want %v ± %v", Quantity(k), got.Base[k], half, want.Base[k], w)
		}
	}
}
