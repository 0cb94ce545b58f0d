package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// someCorners are the reference corners and random ones, for the laws.
func someCorners(t *testing.T, seed uint64, n int) []Corner {
	t.Helper()
	list := []Corner{caseA(), caseB(), equalArms(rad(4)), workshopCorner()}
	r := seeded(t, seed)
	for range n {
		list = append(list, randomCorner(r))
	}
	return list
}

// somePoses calls f at positions of each corner that it reaches with room to spare.
func somePoses(t *testing.T, list []Corner, f func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64)) {
	t.Helper()
	n := 0
	for i := range list {
		m := mustNew(t, list[i])
		for _, rack := range []float64{0, -37, 41} {
			reach, err := m.Range(rack)
			if err != nil {
				t.Fatalf("corner %d: %v", i, err)
			}
			for _, h := range []float64{-68, -23.5, 0, 17, 71} {
				if h < reach.Droop.Travel+5 || h > reach.Bump.Travel-5 {
					continue
				}
				n++
				if f(t, &list[i], m, h, rack); t.Failed() {
					t.Fatalf("corner %d, travel %g, rack %g: %+v", i, h, rack, list[i])
				}
			}
		}
	}
	if n < 12*len(list) {
		t.Errorf("only %d positions of %d corners", n, len(list))
	}
}

// TestLinkLengths: every distance between points of one part stays.
func TestLinkLengths(t *testing.T) {
	somePoses(t, someCorners(t, 41, 100), func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64) {
		p := mustAt(t, m, travel, rack)
		apart := func(a, b Vec) float64 { return r3.Norm(r3.Sub(a, b)) }
		near(t, "travel", p.WheelCentre.Z-m.restZ, travel, travelTolerance)
		nearVec(t, "rack end", p.RackEnd, r3.Add(c.TieRod.RackEnd, Vec{Y: rack}), 1e-12)
		centre := r3.Add(c.Hub, r3.Scale(c.Wheel.Spacer-c.Wheel.Offset, spinOf(c)))
		pairs := []struct {
			what      string
			now, rest float64
		}{
			{"lower arm, front", apart(p.LowerBall, c.Lower.Front), apart(c.Lower.Ball, c.Lower.Front)},
			{"upper arm, front", apart(p.UpperBall, c.Upper.Front), apart(c.Upper.Ball, c.Upper.Front)},
			{"upright", apart(p.UpperBall, p.LowerBall), apart(c.Upper.Ball, c.Lower.Ball)},
			{"tie rod", apart(p.OuterEnd, p.RackEnd), apart(c.TieRod.OuterEnd, c.TieRod.RackEnd)},
			{"steering arm to lower", apart(p.OuterEnd, p.LowerBall), apart(c.TieRod.OuterEnd, c.Lower.Ball)},
			{"steering arm to upper", apart(p.OuterEnd, p.UpperBall), apart(c.TieRod.OuterEnd, c.Upper.Ball)},
			{"hub to lower", apart(p.Hub, p.LowerBall), apart(c.Hub, c.Lower.Ball)},
			{"hub to upper", apart(p.Hub, p.UpperBall), apart(c.Hub, c.Upper.Ball)},
			{"hub to outer end", apart(p.Hub, p.OuterEnd), apart(c.Hub, c.TieRod.OuterEnd)},
			{"wheel to hub", apart(p.WheelCentre, p.Hub), math.Abs(c.Wheel.Spacer - c.Wheel.Offset)},
			{"wheel to outer end", apart(p.WheelCentre, p.OuterEnd), apart(centre, c.TieRod.OuterEnd)},
			{"loaded radius", apart(p.Contact, p.WheelCentre), c.Wheel.LoadedRadius},
			{"spin axis", r3.Norm(p.Spin), 1},
			{"contact in the wheel plane", r3.Dot(r3.Sub(p.Contact, p.WheelCentre), p.Spin), 0},
		}
		if !c.Lower.Flat {
			pairs = append(pairs, struct {
				what      string
				now, rest float64
			}{"lower arm, rear", apart(p.LowerBall, c.Lower.Rear), apart(c.Lower.Ball, c.Lower.Rear)})
		}
		for _, pair := range pairs {
			near(t, pair.what, pair.now, pair.rest, 1e-9)
		}
		springLengths(t, c, &p)
	})
}

// springLengths: the moving end keeps its distances on the part that carries it.
func springLengths(t *testing.T, c *Corner, p *Pose) {
	var now, rest [3]Vec
	switch c.Spring.Carrier {
	case NoSpring:
		return
	case OnLowerArm:
		now, rest = [3]Vec{p.LowerBall, c.Lower.Front, r3.Add(c.Lower.Front, p.lowerAxis)}, [3]Vec{c.Lower.Ball, c.Lower.Front, r3.Add(c.Lower.Front, p.lowerAxis)}
	case OnUpperArm:
		now, rest = [3]Vec{p.UpperBall, c.Upper.Front, r3.Add(c.Upper.Front, p.upperAxis)}, [3]Vec{c.Upper.Ball, c.Upper.Front, r3.Add(c.Upper.Front, p.upperAxis)}
	case OnUpright:
		now, rest = [3]Vec{p.LowerBall, p.UpperBall, p.OuterEnd}, [3]Vec{c.Lower.Ball, c.Upper.Ball, c.TieRod.OuterEnd}
	}
	for i := range now {
		near(t, "spring on its carrier", r3.Norm(r3.Sub(p.SpringMoving, now[i])), r3.Norm(r3.Sub(c.Spring.Moving, rest[i])), 1e-9)
	}
	near(t, "spring length", p.springLength, r3.Norm(r3.Sub(p.SpringMoving, c.Spring.Body)), 1e-12)
}

// TestRestingPosition: at rest every point is where it was measured and camber
// and toe are as given.
func TestRestingPosition(t *testing.T) {
	for i, c := range someCorners(t, 42, 200) {
		m := mustNew(t, c)
		p := mustAt(t, m, 0, 0)
		r := p.Readings()
		near(t, "camber", value(t, &r, Camber), c.Camber, 1e-12)
		near(t, "toe", value(t, &r, Toe), c.Toe, 1e-12)
		near(t, "tie-rod error", value(t, &r, TieRodError), 0, 1e-10)
		nearVec(t, "lower ball joint", p.LowerBall, c.Lower.Ball, 1e-9)
		nearVec(t, "upper ball joint", p.UpperBall, c.Upper.Ball, 1e-9)
		nearVec(t, "outer end", p.OuterEnd, c.TieRod.OuterEnd, 1e-9)
		nearVec(t, "hub", p.Hub, c.Hub, 1e-9)
		if c.Spring.Carrier != NoSpring {
			nearVec(t, "spring", p.SpringMoving, c.Spring.Moving, 1e-9)
		}
		if t.Failed() {
			t.Fatalf("corner %d: %+v", i, c)
		}
	}
}

// TestSameBits: the answer depends on nothing but travel and rack: not on what
// was asked before, nor on the order, nor on whether a sweep or At was asked.
func TestSameBits(t *testing.T) {
	r := seeded(t, 43)
	for i, c := range someCorners(t, 44, 60) {
		m := mustNew(t, c)
		reach, err := m.Range(0)
		if err != nil {
			t.Fatal(err)
		}
		// From end to end, so that the short way and the long way both answer.
		travel := make([]float64, 41)
		for k := range travel {
			travel[k] = reach.Droop.Travel + (reach.Bump.Travel-reach.Droop.Travel)*(0.002+0.996*float64(k)/40)
		}
		there := make([]Pose, len(travel))
		for k, h := range travel {
			there[k] = mustAt(t, m, h, 0)
		}
		swept := make([]Readings, len(travel))
		if _, err := m.SweepTravel(swept, travel, 0); err != nil {
			t.Fatal(err)
		}
		again := mustNew(t, c)
		for _, k := range r.Perm(len(travel)) {
			back := mustAt(t, m, travel[k], 0)
			if back != there[k] || mustAt(t, again, travel[k], 0) != back || back.Readings() != swept[k] {
				t.Fatalf("corner %d, travel %g: other bits on the way back", i, travel[k])
			}
		}
	}
}

// TestShortAndLongWay: the quick search and the patient walk find the same pose.
func TestShortAndLongWay(t *testing.T) {
	quick := 0
	somePoses(t, someCorners(t, 45, 150), func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64) {
		var short, long Pose
		var v motion
		if !m.shortWay(travel, rack, &short, &v) {
			return
		}
		quick++
		if err := m.longWay(travel, rack, &long); err != nil {
			t.Fatal(err)
		}
		nearVec(t, "lower ball joint", short.LowerBall, long.LowerBall, 1e-8)
		nearVec(t, "outer end", short.OuterEnd, long.OuterEnd, 1e-8)
	})
	if quick < 1500 {
		t.Errorf("the short way answered only %d times", quick)
	}
}

// TestShortWayInWildCorners: in corners such as no car has, full of dead points,
// the quick search still answers only what the patient walk finds.
func TestShortWayInWildCorners(t *testing.T) {
	r := seeded(t, 48)
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	quick := 0
	for range 3000 {
		c := randomCorner(r)
		c.Lower.Front.Y, c.Lower.Rear.Y = in(450, 640), in(450, 640)
		c.Upper.Front.Y, c.Upper.Rear.Y = in(450, 900), in(450, 900)
		c.Upper.Front.Z, c.Upper.Rear.Z = in(150, 600), in(150, 600)
		c.TieRod.RackEnd = Vec{X: in(-300, 300), Y: in(350, 620), Z: in(100, 400)}
		c.Hub.Y = in(500, 900)
		m, err := New(&c)
		if err != nil {
			continue
		}
		for _, travel := range []float64{-150, -90, -41, -12, 9, 35, 77, 140} {
			var short, long Pose
			var v motion
			rack := in(-80, 80)
			if !m.shortWay(travel, rack, &short, &v) {
				continue
			}
			quick++
			if err := m.longWay(travel, rack, &long); err != nil {
				t.Fatalf("travel %g, rack %g: the short way answers, yet %v\n%+v", travel, rack, err, c)
			}
			nearVec(t, "lower ball joint", short.LowerBall, long.LowerBall, 1e-7)
			nearVec(t, "upper ball joint", short.UpperBall, long.UpperBall, 1e-7)
			nearVec(t, "outer end", short.OuterEnd, long.OuterEnd, 1e-7)
			if t.Failed() {
				t.Fatalf("travel %g, rack %g: %+v", travel, rack, c)
			}
		}
	}
	t.Logf("%d answers", quick)
	if quick < 2000 {
		t.Error("too few answers")
	}
}

// TestShiftUp: measuring all heights from another floor shifts only heights
// from that floor. The ground is under the tyre, so nothing else may move.
func TestShiftUp(t *testing.T) {
	const dz = 217.375
	somePoses(t, someCorners(t, 46, 60), func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64) {
		lifted := *c
		for _, p := range c.Points() {
			lifted.At(p).Z += dz
		}
		a, b := mustRead(t, m, travel, rack), mustRead(t, mustNew(t, lifted), travel, rack)
		for q := range QuantityCount {
			va, oka := a.Of(q)
			vb, okb := b.Of(q)
			if oka != okb {
				t.Fatalf("%v exists %v, lifted %v", q, oka, okb)
			}
			if q == InstantCentreZ && oka {
				va += dz
			}
			near(t, q.String(), vb, va, slack(q, va))
		}
	})
}

// slack is what rounding may change in a reading: lengths from far-off centres
// lose digits with the square of the distance.
func slack(q Quantity, v float64) float64 {
	switch q {
	case InstantCentreY, InstantCentreZ, SwingArm, RollCentreHeight:
		return 1e-9 * (1 + v*v/1e4)
	}
	return 1e-9
}

// TestScale: a corner twice as large has lengths twice as large and the same angles.
func TestScale(t *testing.T) {
	const k = 1.83
	somePoses(t, someCorners(t, 47, 60), func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64) {
		large := *c
		for _, p := range c.Points() {
			*large.At(p) = r3.Scale(k, *c.At(p))
		}
		large.Wheel = Wheel{k * c.Wheel.Offset, k * c.Wheel.Spacer, k * c.Wheel.LoadedRadius}
		a, b := mustRead(t, m, travel, rack), mustRead(t, mustNew(t, large), k*travel, k*rack)
		for q := range QuantityCount {
			va, oka := a.Of(q)
			vb, okb := b.Of(q)
			if oka != okb {
				t.Fatalf("%v exists %v, scaled %v", q, oka, okb)
			}
			switch q.Kind() {
			case Length:
				va *= k
			case Slope:
				va /= k
			}
			near(t, q.String(), vb, va, slack(q, va))
		}
	})
}
