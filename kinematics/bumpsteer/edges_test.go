package bumpsteer

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/kinematics"
)

// Every limit of what can be set is itself allowed, and the next number is not.
func TestAdjustersAtTheirLimits(t *testing.T) {
	c := ahead()
	const most = kinematics.MaxLength
	past, tiny := math.Nextafter(most, math.Inf(1)), math.SmallestNonzeroFloat64
	for _, row := range []struct {
		what   string
		in     bool
		change func(*Adjuster)
	}{
		{"as long a move as there is", true, func(a *Adjuster) { a.Per.Longer[kinematics.UpperRearLeg] = most }},
		{"a longer move", false, func(a *Adjuster) { a.Per.Longer[kinematics.UpperRearLeg] = past }},
		{"no move", false, func(a *Adjuster) { a.Per.Longer[kinematics.UpperRearLeg] = 0 }},
		{"the widest range", true, func(a *Adjuster) { a.Min, a.Max = -most, most }},
		{"below the widest range", false, func(a *Adjuster) { a.Min = -past }},
		{"above the widest range", false, func(a *Adjuster) { a.Max = past }},
		{"no range", false, func(a *Adjuster) { a.Min, a.Max = 1.25, 1.25 }},
		{"any step", true, func(a *Adjuster) { a.Step = 0 }},
		{"a step below none", false, func(a *Adjuster) { a.Step = -tiny }},
		{"no throw", true, func(a *Adjuster) { a.Throw = 0 }},
		{"a throw below none", false, func(a *Adjuster) { a.Throw = -tiny }},
		{"the thickest thread", true, func(a *Adjuster) { a.Threads[0].Diameter = most }},
		{"a thicker thread", false, func(a *Adjuster) { a.Threads[0].Diameter = past }},
		{"a thread of nothing", false, func(a *Adjuster) { a.Threads[0].Diameter = 0 }},
		{"a thread without pitch", false, func(a *Adjuster) { a.Threads[0].Pitch = 0 }},
		{"the longest thread", true, func(a *Adjuster) { a.Threads[0].Engaged = most }},
		{"a longer thread", false, func(a *Adjuster) { a.Threads[0].Engaged = past }},
		{"a thread that is out", true, func(a *Adjuster) { a.Threads[0].Engaged = 0 }},
		{"a thread beyond out", false, func(a *Adjuster) { a.Threads[0].Engaged = -tiny }},
	} {
		a := RodEnd("leg", kinematics.UpperRearLeg, m16(30), 4, 3)
		row.change(&a)
		if err := a.Check(&c); (err == nil) != row.in || err != nil && !errors.Is(err, ErrAdjuster) {
			t.Errorf("%s: %v", row.what, err)
		}
	}
}

// Likewise ranges, gauges and readings.
func TestReadingsAtTheirLimits(t *testing.T) {
	const most = kinematics.MaxLength
	for _, row := range []struct {
		goal Goal
		past func(*Goal)
	}{
		{Goal{From: -most, To: 1}, func(g *Goal) { g.From = math.Nextafter(-most, math.Inf(-1)) }},
		{Goal{From: -1, To: most}, func(g *Goal) { g.To = math.Nextafter(most, math.Inf(1)) }},
		{Goal{Over: OverRoll, From: -kinematics.MaxRoll, To: 0.1}, func(g *Goal) { g.From = math.Nextafter(g.From, -2) }},
		{Goal{Over: OverRoll, From: -0.1, To: kinematics.MaxRoll}, func(g *Goal) { g.To = math.Nextafter(g.To, 2) }},
		{Goal{From: -1, To: 1, Slope: -math.Pi}, func(g *Goal) { g.Slope = math.Nextafter(g.Slope, -4) }},
		{Goal{From: -math.SmallestNonzeroFloat64, To: 1}, func(g *Goal) { g.From = 0 }},
		{Goal{From: -1, To: math.SmallestNonzeroFloat64}, func(g *Goal) { g.To = 0 }},
	} {
		if err := row.goal.check(); err != nil {
			t.Errorf("%+v: %v", row.goal, err)
		}
		if row.past(&row.goal); !errors.Is(row.goal.check(), ErrRange) {
			t.Errorf("%+v is taken", row.goal)
		}
	}
	for mm, in := range map[float64]bool{0: true, most: true, math.Nextafter(most, math.Inf(1)): false, -1e-300: false} {
		for _, g := range []Gauge{{Width: mm}, {Spacing: mm}} {
			if err := g.Check(); (err == nil) != in {
				t.Errorf("%+v: %v", g, err)
			}
		}
	}

	c := behind()
	few := func(last Reading) []Reading {
		list := []Reading{{Travel: -20}, {Travel: 30}, {Travel: 45}, {Travel: -31}, {Travel: 0.4 * kinematics.MinSpan}}[:minReadings-1]
		return append(list[:len(list):len(list)], last)
	}
	for _, row := range []struct {
		last Reading
		want string // "" for taken
	}{
		{Reading{Travel: 11, Toe: -kinematics.MaxStaticAngle}, ""},
		{Reading{Travel: 11, Toe: math.Nextafter(kinematics.MaxStaticAngle, 4)}, "not within ±45 degrees"},
		{Reading{Travel: 11, Sigma: math.Pi}, ""},
		{Reading{Travel: 11, Sigma: math.Nextafter(math.Pi, 4)}, "not a small angle"},
		{Reading{Travel: most}, "do not reach there"},
		{Reading{Travel: math.Nextafter(-most, math.Inf(-1))}, "not within ±10 m"},
		{Reading{Travel: kinematics.MinSpan}, ""},
		{Reading{Travel: math.Nextafter(kinematics.MinSpan, 0)}, "away from rest"},
	} {
		err := checkReadings(&c, few(row.last))
		if row.want == "" && err != nil || row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)) {
			t.Errorf("%+v: %v, want %q", row.last, err, row.want)
		}
	}
	list := []Free{{RackHeight, -most, most}, {RackEndSide, 0, leastRoom}}
	if err := checkFree(list); err != nil {
		t.Errorf("the widest and the narrowest limits: %v", err)
	}
	for _, f := range []Free{{RackHeight, math.Nextafter(-most, math.Inf(-1)), 1}, {RackHeight, -1, math.Nextafter(most, math.Inf(1))}, {RackHeight, 0, math.Nextafter(leastRoom, 0)}} {
		if err := checkFree([]Free{f}); !errors.Is(err, ErrLimits) {
			t.Errorf("%+v: %v", f, err)
		}
	}
}

// A hollow of a grid is where a step along no axis goes down, the grid written
// out in as many dimensions as it has.
func TestHollowsOfGrids(t *testing.T) {
	const seed = 88
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 3))
	for n, steps := range map[int]int{1: 9, 2: 5, 3: 4} {
		side := [3]int{1, 1, 1}
		for k := range n {
			side[k] = steps
		}
		costs := make([]float64, side[0]*side[1]*side[2])
		for i := range costs {
			costs[i] = float64(r.IntN(6)) // with level ones
		}
		for x := range side[0] {
			for y := range side[1] {
				for z := range side[2] {
					at := func(x, y, z int) float64 {
						if x < 0 || y < 0 || z < 0 || x >= side[0] || y >= side[1] || z >= side[2] {
							return math.Inf(1)
						}
						return costs[x+side[0]*(y+side[1]*z)]
					}
					want := at(x, y, z) <= min(at(x-1, y, z), at(x+1, y, z), at(x, y-1, z), at(x, y+1, z), at(x, y, z-1), at(x, y, z+1))
					if got := hollow(costs, x+side[0]*(y+side[1]*z), n, steps); got != want {
						t.Errorf("%d dimensions, place %d %d %d: hollow %v, want %v", n, x, y, z, got, want)
					}
				}
			}
		}
	}
}

// Chvatal's example (Linear Programming, 1983, chapter 3, from memory) goes round
// for ever by the steepest gain: 10a - 57b - 9c - 24d at most, which is 1.
func TestProgrammesDoNotGoRound(t *testing.T) {
	p := newTableau(4, 3)
	copy(p.a[0], []float64{0.5, -5.5, -2.5, 9})
	copy(p.a[1], []float64{0.5, -1.5, -0.5, 1})
	copy(p.a[2], []float64{1, 0, 0, 0})
	p.b[2] = 1
	copy(p.cost, []float64{-10, 57, 9, 24})
	p.run()
	gain := 0.0
	for i, label := range p.basic {
		if label < 4 {
			gain += []float64{10, -57, -9, -24}[label] * p.b[i]
		}
	}
	if math.Abs(gain-1) > 1e-9 {
		t.Errorf("it gains %g: %+v", gain, p)
	}
}

// At the edge of reach the slope is taken from the side that reaches.
func TestSlopesAtTheEdgeOfReach(t *testing.T) {
	seen := 0
	for _, c := range []kinematics.Corner{ahead(), behind()} {
		for _, f := range []Freedom{RackEndSide, OuterEndHeight, RackHeight, RackForeAft} {
			for _, way := range []float64{-1, 1} {
				s := search{ctx: t.Context(), corner: c, free: []Free{{f, -900, 900}}, goal: Goal{From: -55, To: 65}}
				at := s.goal.pick(scanTravel, scanRoll)
				buffer := make([]float64, len(at))
				reaches := func(x float64) bool { return s.cost([]float64{way * x}, at, buffer) < outOfReach }
				in, out := 0.0, 900.0
				if reaches(out) {
					continue
				}
				for out-in > 1e-9 {
					if mid := (in + out) / 2; reaches(mid) {
						in = mid
					} else {
						out = mid
					}
				}
				seen++
				x := in - difference/2
				here, inside := make([]float64, len(at)), make([]float64, len(at))
				s.cost([]float64{way * x}, at, here)
				s.cost([]float64{way * (x - difference)}, at, inside)
				j := s.jacobian([]float64{way * x}, at, here)
				for i := range at {
					if want := way * (here[i] - inside[i]) / difference; math.Abs(j[0][i]-want) > 1e-9*max(1, math.Abs(want)) {
						t.Fatalf("%v at %g: slope %g, from inside %g", f, way*x, j[0][i], want)
					}
				}
				// Away from the edge it is the slope between both sides.
				s.cost([]float64{way * in / 2}, at, here)
				j = s.jacobian([]float64{way * in / 2}, at, here)
				s.cost([]float64{way*in/2 + 1e-3}, at, here)
				s.cost([]float64{way*in/2 - 1e-3}, at, inside)
				for i := range at {
					if want := (here[i] - inside[i]) / 2e-3; math.Abs(j[0][i]-want) > 1e-6*max(1e-3, math.Abs(want)) {
						t.Fatalf("%v at %g: slope %g, want %g", f, way*in/2, j[0][i], want)
					}
				}
			}
		}
	}
	if seen < 3 {
		t.Errorf("%d edges of reach seen", seen)
	}
}

// What is left over of a toe curve is what its slope and bow do not make, and the
// two are those of least squares: no other slope or bow leaves a smaller sum.
func TestWhatIsLeftOverOfACurve(t *testing.T) {
	for _, c := range []kinematics.Corner{ahead(), behind(), flat(271.3, 240.7)} {
		d, err := Diagnose(c, kinematics.Evenly(0.5), -48, 63)
		if err != nil {
			t.Fatal(err)
		}
		g := Goal{From: -48, To: 63}
		curve, err := ToeCurve(c, OverTravel, g.steps(samples))
		if err != nil {
			t.Fatal(err)
		}
		left := func(slope, bow float64) (sum, most float64) {
			for i, h := range curve.At {
				v := curve.Toe[i] - slope*h - bow*h*h
				sum, most = sum+v*v, max(most, math.Abs(v))
			}
			return sum, most
		}
		m, err := Measured(c, g)
		if err != nil {
			t.Fatal(err)
		}
		change, at := 0.0, 0.0
		for i, v := range m.ToeChange.Toe {
			if math.Abs(v) > change {
				change, at = math.Abs(v), m.ToeChange.At[i]
			}
		}
		if m.Change != change || m.ChangeAt != at || m.Largest != change || m.At != at || math.Abs(d.Change-change) > 0.01*change {
			t.Errorf("largest change %g at %g, measured %+v, diagnosed %+v", change, at, m, d)
		}
		least, most := left(d.Slope.Value, d.Bow.Value)
		if math.Abs(d.Rest-most) > 1e-12 || most < 1e-6 {
			t.Errorf("left over %g, want %g", d.Rest, most)
		}
		for _, by := range []float64{-1e-3, 1e-3} {
			if a, _ := left(d.Slope.Value*(1+by), d.Bow.Value); a < least {
				t.Errorf("a slope of %g leaves less", d.Slope.Value*(1+by))
			}
			if b, _ := left(d.Slope.Value, d.Bow.Value*(1+by)); b < least {
				t.Errorf("a bow of %g leaves less", d.Bow.Value*(1+by))
			}
		}
	}
}

// A wish is met to within its own kind's band, and no farther.
func TestWhenAWishIsMet(t *testing.T) {
	c := ahead()
	for q, by := range map[kinematics.Quantity]struct {
		a    Adjuster
		band float64
	}{
		kinematics.Camber:    {RodEnd("upper leg", kinematics.UpperFrontLeg, m16(40), 3, 3), MetAngle},
		kinematics.HalfTrack: {RodEnd("lower leg", kinematics.LowerFrontLeg, m16(40), 3, 3), MetLength},
		kinematics.RideToe:   {Shims("rack", vec(0, 0, 1), 9, 9, kinematics.RackEnd), MetAngle / slopeTravel},
	} {
		by.a.Step = 0
		goal, err := Set(c, []Adjuster{by.a}, []float64{1.37})
		if err != nil {
			t.Fatal(err)
		}
		want := readAt(t, goal)(q)
		table, err := Effects(goal, []Adjuster{by.a})
		if err != nil {
			t.Fatal(err)
		}
		slope, _ := table[0].Of(q)
		for _, short := range []float64{0, 0.9, 1.1} {
			a := by.a
			a.Max = 1.37 - short*by.band/math.Abs(slope)
			s, err := Settle(c, []Adjuster{a}, []Wish{{q, want}})
			if err != nil || s.Met != (short < 1) {
				t.Errorf("%v short by %g bands: met %v, comes to %v of %v, %v", q, short, s.Met, s.Reached, want, err)
			}
		}
	}
}

// A reading is as far off, in its own deviations, whether it is used or left out.
func TestAReadingLeftOutIsAsFarOff(t *testing.T) {
	for _, index := range []int{0, 3, 5} {
		q, _ := request(t, 90+uint64(index))
		q.Readings[index].Toe += 30 * gaugeSigma
		kept := fitOf(t, q)
		q.LeaveOutBad = true
		without := fitOf(t, q)
		a, b := kept.Residuals[index].Studentised, without.Residuals[index].Studentised
		if !without.Residuals[index].LeftOut || math.Abs(a/b-1) > 0.02 || math.Abs(kept.Residuals[index].Miss) >= math.Abs(without.Residuals[index].Miss) {
			t.Errorf("reading %d is %g deviations off where it is used, %g where not: %+v", index, a, b, kept.Residuals[index])
		}
	}
}

// A gauge whose zero is known teaches more than one whose zero is to be found.
func TestAKnownZeroTeachesMore(t *testing.T) {
	q, _ := request(t, 95)
	var up []Reading
	for _, r := range q.Readings {
		if r.Travel > 0 {
			up = append(up, r)
		}
	}
	if q.Readings = up; len(up) < minReadings {
		t.Fatalf("%d readings", len(up))
	}
	known := fitOf(t, q)
	q.ZeroFree = true
	free := fitOf(t, q)
	if !(known.Advice.Slope.Half < 0.98*free.Advice.Slope.Half) {
		t.Errorf("slope bands: %g with a known zero, %g with a free one", known.Advice.Slope.Half, free.Advice.Slope.Half)
	}
}

// However many readings are bad, two thirds of them stay.
func TestAtMostAThirdIsLeftOut(t *testing.T) {
	q, _ := request(t, 97)
	q.Within = kinematics.Evenly(0.05)
	n := len(q.Readings)
	for i := range n/3 + 1 {
		q.Readings[2*i].Toe += []float64{60, -75, 95, -52}[i%4] * gaugeSigma
	}
	q.LeaveOutBad = true
	out := 0
	for _, r := range fitOf(t, q).Residuals {
		if r.LeftOut {
			out++
		}
	}
	if out != n/3 {
		t.Errorf("%d of %d readings are left out, want %d", out, n, n/3)
	}
}

// Of so few readings as a fit takes none is left out, of one more one is.
func TestTheFewestReadingsAllStay(t *testing.T) {
	for more, want := range []int{0, 1} {
		q, _ := request(t, 98)
		q.Within, q.LeaveOutBad = kinematics.Evenly(0.02), true
		q.Readings = append([]Reading(nil), q.Readings[:minReadings+more]...)
		q.Readings[1].Toe += 200 * gaugeSigma
		out := 0
		for _, r := range fitOf(t, q).Residuals {
			if r.LeftOut {
				out++
			}
		}
		if out != want {
			t.Errorf("of %d readings %d are left out, want %d", len(q.Readings), out, want)
		}
	}
}

// Limits of cures, fits and stacks are taken, and what lies past them is not.
func TestRequestsAtTheirLimits(t *testing.T) {
	const most = kinematics.MaxLength
	panics := func(f func() error) (panicked bool) {
		defer func() { panicked = recover() != nil }()
		if err := f(); err != nil {
			t.Error(err)
		}
		return false
	}
	for build, want := range map[float64]bool{0: false, most: false, math.Nextafter(most, math.Inf(1)): true, -1e-300: true} {
		q := Request{Corner: ahead(), Goal: Goal{From: -55, To: 65}, Free: []Free{{RackHeight, -3, 7}}, Build: build}
		if got := panics(func() error { _, err := Cure(t.Context(), q); return err }); got != want {
			t.Errorf("built to %g: panics %v", build, got)
		}
	}
	fit, _ := request(t, 99)
	for prior, want := range map[float64]bool{0: false, most: false, math.Nextafter(most, math.Inf(1)): true, -1e-300: true} {
		q := fit
		q.Prior = map[kinematics.Coordinate]float64{RackHeight.Coordinate(): prior}
		if got := panics(q.check); got != want {
			t.Errorf("a prior of %g: panics %v", prior, got)
		}
	}
	for sigma, in := range map[float64]bool{math.Pi: true, math.Nextafter(math.Pi, 4): false, 1e-300: true} {
		q := fit
		if q.Sigma = sigma; (q.check() == nil) != in {
			t.Errorf("a gauge known within %g: %v", sigma, q.check())
		}
	}
	for _, row := range []struct {
		change func(*StackRequest)
		want   error
	}{
		{func(q *StackRequest) { q.Spacers = shop(0.001, MaxStack) }, nil},
		{func(q *StackRequest) { q.Spacers = shop(0.000999) }, ErrSpacers},
		{func(q *StackRequest) { q.Spacers = shop(math.Nextafter(MaxStack, 999)) }, ErrSpacers},
		{func(q *StackRequest) { q.Max = MaxStack }, nil},
		{func(q *StackRequest) { q.Max = math.Nextafter(MaxStack, 999) }, ErrStack},
		{func(q *StackRequest) { q.Grip, q.MaxBolt = 31, 31 }, nil},
		{func(q *StackRequest) { q.Grip, q.MaxBolt = 31, 30.9 }, ErrStack},
		{func(q *StackRequest) { q.Grip = -1e-300 }, ErrStack},
		{func(q *StackRequest) { q.MaxBolt = -1e-300 }, ErrStack},
		{func(q *StackRequest) { q.Raise = -most }, nil},
		{func(q *StackRequest) { q.Raise = math.Nextafter(most, math.Inf(1)) }, ErrStack},
	} {
		q := StackRequest{Corner: behind(), Spacers: shop(2, 5), Raise: 13, Max: 30, Goal: stackGoal}
		row.change(&q)
		if err := q.check(); !errors.Is(err, row.want) {
			t.Errorf("%+v: %v, want %v", q, err, row.want)
		}
	}
}

// Of a few adjusters in steps every choice of the steps beside the free setting is
// tried; more of them go to the nearest step each.
func TestStepsBesideTheFreeSetting(t *testing.T) {
	c := behind()
	was := readAt(t, c)
	for n := range 12 {
		list := []Adjuster{RodEnd("front", kinematics.UpperFrontLeg, m16(40), 9, 9), RodEnd("rear", kinematics.UpperRearLeg, m16(40), 9, 9)}
		wishes := []Wish{{kinematics.Camber, was(kinematics.Camber) + 0.0013*float64(n-5)}, {kinematics.Caster, was(kinematics.Caster) - 0.0011*float64(3*n%7-2)}}
		s, err := Settle(c, list, wishes)
		if err != nil || s.Built == nil {
			t.Fatal(err)
		}
		miss := func(units []float64) float64 {
			set, err := Set(c, list, units)
			if err != nil {
				t.Fatal(err)
			}
			r := readAt(t, set)
			return math.Hypot(r(kinematics.Camber)-wishes[0].Value, r(kinematics.Caster)-wishes[1].Value)
		}
		best := math.Inf(1)
		for k := range 4 {
			best = min(best, miss([]float64{(math.Floor(2*s.Units[0]) + float64(k&1)) / 2, (math.Floor(2*s.Units[1]) + float64(k>>1)) / 2}))
		}
		if got := miss(s.Built.Units); math.Abs(got-best) > 1e-9 {
			t.Errorf("%v for %v misses by %g, the best by %g", s.Built.Units, s.Units, got, best)
		}
	}
	var list []Adjuster
	for leg := range kinematics.LegCount {
		list = append(list, RodEnd("leg", leg, Thread{Diameter: 16, Pitch: 1.5 + 0.1*float64(leg), Engaged: 40}, 9, 9))
	}
	for axis, direction := range []kinematics.Vec{vec(0, 1, 0), vec(0, 0, 1), vec(0, 0.6, -0.8)} {
		a := Shims("pivots", direction, 9, 9, []kinematics.Point{kinematics.UpperFront, kinematics.RackEnd, kinematics.LowerRear}[axis])
		a.Step = 0.75
		list = append(list, a)
	}
	s, err := Settle(c, list, []Wish{{kinematics.Camber, was(kinematics.Camber) + 0.031}, {kinematics.Caster, was(kinematics.Caster) - 0.023}, {kinematics.Toe, 0.011}})
	if err != nil || s.Built == nil || len(list) <= mostStepped {
		t.Fatal(err)
	}
	for k, a := range list {
		if off := math.Abs(s.Built.Units[k]-s.Units[k]) / a.Step; off > 0.5+1e-9 {
			t.Errorf("adjuster %d of %d: %g for %g, steps of %g", k, len(list), s.Built.Units[k], s.Units[k], a.Step)
		}
	}
}
