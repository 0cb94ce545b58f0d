package bumpsteer

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

func m16(engaged float64) Thread { return Thread{Diameter: 16, Pitch: 2, Engaged: engaged} }

func readAt(t testing.TB, c kinematics.Corner) func(kinematics.Quantity) float64 {
	t.Helper()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	p, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	r := p.Readings()
	return func(q kinematics.Quantity) float64 {
		v, ok := r.Of(q)
		if !ok {
			t.Fatalf("no %v", q)
		}
		return v
	}
}

// The front view's own velocities: both arms, the upright and the held wheel
// centre are three equations for three turns, with the upper arm growing.
func TestEffectOfALongerArmFromVelocities(t *testing.T) {
	c := flat(300, 245)
	// Lower ball (690,180) about (250,200); upper ball (640,460) about (320,430);
	// wheel centre (750,310); unknown turns of lower arm, upper arm, upright.
	length := math.Hypot(320, 30)
	grow := [2]float64{320 / length, 30 / length}
	// A turn w carries (dy, dz) at (-w dz, w dy).
	a := mat.NewDense(3, 3, []float64{
		-(180.0 - 200), 460.0 - 430, -(460.0 - 180), // lower ball + upright's turn - upper ball, y
		690.0 - 250, -(640.0 - 320), 640.0 - 690, // the same, z
		690.0 - 250, 0, 750.0 - 690, // wheel centre, z
	})
	b := mat.NewVecDense(3, []float64{grow[0], grow[1], 0})
	var x mat.VecDense
	if err := x.SolveVec(a, b); err != nil {
		t.Fatal(err)
	}
	lower, upright := x.AtVec(0), x.AtVec(2)
	camber := -upright // turning from outboard to up leans the top inboard
	wheelY := -lower*(180-200) - upright*(310-180)
	track := wheelY - 310*camber
	pitch := 1.75
	table, err := Effects(c, []Adjuster{RodEnd("upper arm", kinematics.UpperFrontLeg, Thread{12, pitch, 30}, 5, 5)})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		q    kinematics.Quantity
		want float64
	}{{kinematics.Camber, camber * pitch}, {kinematics.HalfTrack, track * pitch}} {
		got, ok := table[0].Of(row.q)
		if !ok || math.Abs(got-row.want) > 1e-6*math.Abs(row.want) {
			t.Errorf("%v: %.9g a turn, velocities give %.9g", row.q, got, row.want)
		}
	}
	if _, ok := table[0].Of(kinematics.SpringLength); ok {
		t.Error("the table holds a quantity that it does not list")
	}
}

// Effects against a whole unit each way, and the pitch of each kind.
func TestEffectsAreOfOneUnit(t *testing.T) {
	c := ahead()
	list := []Adjuster{
		RodEnd("upper front", kinematics.UpperFrontLeg, Thread{14, 1.5, 40}, 6, 4),
		RightLeftPair("tie rod", kinematics.TieRodLeg, m16(40), Thread{16, 1.25, 40}, 6, 4),
		Eccentric("lower rear", kinematics.LowerRear, vec(0, 3, -1), 4.5, 1.2),
		Shims("upper", vec(0, 1, 0), 6, 3, kinematics.UpperFront, kinematics.UpperRear),
	}
	table, err := Effects(c, list)
	if err != nil {
		t.Fatal(err)
	}
	if list[1].Per.Longer[kinematics.TieRodLeg] != 3.25 || list[0].Per.Longer[kinematics.UpperFrontLeg] != 1.5 || list[2].Max != 4.5-1.2 || list[2].Min != -4.5-1.2 {
		t.Errorf("%+v", list)
	}
	for i := range list {
		one := make([]float64, len(list))
		one[i] = 0.4
		up, err := Set(c, list, one)
		if err != nil {
			t.Fatal(err)
		}
		one[i] = -0.4
		down, err := Set(c, list, one)
		if err != nil {
			t.Fatal(err)
		}
		u, d := readAt(t, up), readAt(t, down)
		for _, q := range Adjusted() {
			got, ok := table[i].Of(q)
			want := (u(q) - d(q)) / 0.8
			if tol := 1e-3*math.Abs(want) + 1e-7; !ok || math.Abs(got-want) > tol {
				t.Errorf("%s, %v: %.8g a unit, by hand %.8g", list[i].Name, q, got, want)
			}
		}
	}
	if a, ok := list[2].BoltTurn(-2.25); !ok || math.Abs(a+math.Pi/6) > 1e-15 {
		t.Errorf("bolt turned by %g", a)
	}
	if _, ok := list[2].BoltTurn(4.6); ok {
		t.Error("a bolt turned beyond its throw")
	}
}

// 1.5 diameters of common threads: lengths and turns of own reference rows (ASME
// B1.1 and ISO metric diameters and pitches).
func TestMinimumEngagement(t *testing.T) {
	for _, row := range []struct{ diameter, pitch, least, turns float64 }{
		{12.7, 1.27, 19.05, 15}, {15.875, 25.4 / 18, 23.8125, 16.875}, {19.05, 1.5875, 28.575, 18},
		{11.1125, 1.27, 16.66875, 13.125}, {12, 1.75, 18, 18 / 1.75}, {14, 2, 21, 10.5},
		{16, 2, 24, 12}, {20, 1.5, 30, 20}, {20, 2.5, 30, 12},
	} {
		a := RodEnd("leg", kinematics.UpperFrontLeg, Thread{row.diameter, row.pitch, row.least + 3*row.pitch}, 9, 9)
		for turns, short := range map[float64]bool{2: false, 3: false, 3.01: true, -4: false} {
			e := a.Engagements(turns)[0]
			if math.Abs(e.Least-row.least) > 1e-9 || e.Short != short || math.Abs(e.Engaged/row.pitch-(row.turns+3-turns)) > 1e-9 {
				t.Errorf("diameter %g, %g turns out: %+v", row.diameter, turns, e)
			}
		}
	}
	pair := RightLeftPair("tie rod", kinematics.TieRodLeg, m16(29), Thread{16, 1.5, 26}, 5, 5)
	if e := pair.Engagements(2); e[0].Short || e[0].Engaged != 25 || !e[1].Short || e[1].Engaged != 23 {
		t.Errorf("%+v", e)
	}
}

func TestCamberAndCasterTogether(t *testing.T) {
	c := ahead()
	was := readAt(t, c)
	rod := func(out, in float64) []Adjuster {
		return []Adjuster{
			RodEnd("upper front leg", kinematics.UpperFrontLeg, m16(40), out, in),
			RodEnd("upper rear leg", kinematics.UpperRearLeg, m16(31), out, in),
		}
	}
	const deg = math.Pi / 180
	camber, caster := was(kinematics.Camber)-1.1*deg, was(kinematics.Caster)+0.85*deg
	wishes := []Wish{{kinematics.Camber, camber}, {kinematics.Caster, caster}}
	s, err := Settle(c, rod(9, 9), wishes)
	if err != nil {
		t.Fatal(err)
	}
	now := readAt(t, s.Corner)
	if !s.Met || math.Abs(now(kinematics.Camber)-camber) > 1e-8 || math.Abs(now(kinematics.Caster)-caster) > 1e-8 {
		t.Errorf("met %v, camber %.6f for %.6f, caster %.6f for %.6f, turns %v", s.Met, now(kinematics.Camber), camber, now(kinematics.Caster), caster, s.Units)
	}
	if math.Abs(s.Reached[1]-now(kinematics.Caster)) > 1e-12 || len(s.Engagement) != 2 || s.Engagement[1][0].Engaged != 31-2*s.Units[1] {
		t.Errorf("%+v", s)
	}
	// With the tie rod too, toe stays as well.
	all := append(rod(9, 9), RightLeftPair("tie rod", kinematics.TieRodLeg, m16(40), m16(40), 7, 7))
	s, err = Settle(c, all, append(wishes, Wish{kinematics.Toe, c.Toe}))
	if err != nil || !s.Met || math.Abs(s.Corner.Toe-c.Toe) > 1e-8 || s.Units[2] == 0 {
		t.Errorf("%+v, %v", s, err)
	}
	// Three adjusters for two wishes: met with less movement than any two of them.
	more := append(rod(9, 9), RodEnd("lower front leg", kinematics.LowerFrontLeg, m16(40), 9, 9))
	free, err := Settle(c, more, wishes)
	if err != nil || !free.Met {
		t.Fatalf("%+v, %v", free, err)
	}
	for drop := range 3 {
		two := append(append([]Adjuster(nil), more[:drop]...), more[drop+1:]...)
		s, err := Settle(c, two, wishes)
		if err != nil {
			t.Fatal(err)
		}
		if s.Met && square(free.Units) > 1.02*square(s.Units) {
			t.Errorf("three move by %v, two of them by %v", free.Units, s.Units)
		}
	}
}

// Out of range: the nearest setting, found again by a fine grid.
func TestNearestSettingWithinLimits(t *testing.T) {
	c := behind()
	was := readAt(t, c)
	list := []Adjuster{
		RodEnd("upper front leg", kinematics.UpperFrontLeg, m16(40), 1.5, 0.5),
		RodEnd("upper rear leg", kinematics.UpperRearLeg, m16(40), 2, 2.25),
	}
	camber, caster := was(kinematics.Camber)+0.004, was(kinematics.Caster)+0.045
	s, err := Settle(c, list, []Wish{{kinematics.Camber, camber}, {kinematics.Caster, caster}})
	if err != nil {
		t.Fatal(err)
	}
	miss := func(c kinematics.Corner) float64 {
		r := readAt(t, c)
		return math.Hypot(r(kinematics.Camber)-camber, r(kinematics.Caster)-caster)
	}
	best := math.Inf(1)
	for i := range 41 {
		for k := range 41 {
			n, err := Set(c, list, []float64{-0.5 + 2*float64(i)/40, -2.25 + 4.25*float64(k)/40})
			if err != nil {
				t.Fatal(err)
			}
			best = min(best, miss(n))
		}
	}
	if got := miss(s.Corner); s.Met || got > best+1e-9 || s.Limits[0] == Inside && s.Limits[1] == Inside {
		t.Errorf("misses by %.7f with %v (%v), the grid by %.7f", got, s.Units, s.Limits, best)
	}
}

func TestOrderIsCasterCamberToe(t *testing.T) {
	for _, c := range []kinematics.Corner{ahead(), behind()} {
		list := []Adjuster{
			RightLeftPair("tie rod", kinematics.TieRodLeg, m16(40), m16(40), 5, 5),
			Shims("upper arm", vec(0, 1, 0), 6, 6, kinematics.UpperFront, kinematics.UpperRear),
			RodEnd("upper front leg", kinematics.UpperFrontLeg, m16(40), 5, 5),
		}
		table, err := Effects(c, list)
		if err != nil {
			t.Fatal(err)
		}
		jobs := []Job{{table[0], kinematics.Toe}, {table[1], kinematics.Camber}, {table[2], kinematics.Caster}}
		order, left, err := Order(jobs)
		if err != nil || len(order) != 3 || order[0] != 2 || order[1] != 1 || order[2] != 0 {
			t.Errorf("order %v, %v", order, err)
		}
		sum := func(order []int) float64 {
			v := 0.0
			for i, later := range order {
				for _, earlier := range order[:i] {
					a, _ := jobs[later].Effect.Of(jobs[earlier].Sets)
					b, _ := jobs[later].Effect.Of(jobs[later].Sets)
					v += math.Abs(a / b)
				}
			}
			return v
		}
		for _, other := range [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}} {
			if sum(other) < left {
				t.Errorf("order %v disturbs by %g, the answer by %g", other, sum(other), left)
			}
		}
		if math.Abs(sum(order)-left) > 1e-12 {
			t.Errorf("disturbance %g, added up %g", left, sum(order))
		}
	}
}

func TestAdjustersRefuse(t *testing.T) {
	c := ahead()
	flatUpper := c
	flatUpper.Upper = kinematics.FlatArm(vec(0, 345, 415), c.Upper.Ball)
	good := RodEnd("leg", kinematics.UpperRearLeg, m16(30), 4, 4)
	for name, row := range map[string]struct {
		corner kinematics.Corner
		list   []Adjuster
		wishes []Wish
	}{
		"none":          {c, nil, nil},
		"no pitch":      {c, []Adjuster{RodEnd("leg", kinematics.UpperRearLeg, Thread{16, 0, 30}, 4, 4)}, nil},
		"pitch NaN":     {c, []Adjuster{RodEnd("leg", kinematics.UpperRearLeg, Thread{16, math.NaN(), 30}, 4, 4)}, nil},
		"no range":      {c, []Adjuster{RodEnd("leg", kinematics.UpperRearLeg, m16(30), -4, 4)}, nil},
		"no direction":  {c, []Adjuster{Eccentric("bolt", kinematics.LowerRear, vec(0, 0, 0), 5, 0)}, nil},
		"no rear leg":   {flatUpper, []Adjuster{good}, nil},
		"no rear pivot": {flatUpper, []Adjuster{Shims("upper", vec(0, 2, 0), 3, 4, kinematics.UpperFront, kinematics.UpperRear)}, nil},
		"no wish":       {c, []Adjuster{good}, nil},
		"other wish":    {c, []Adjuster{good}, []Wish{{kinematics.SpringLength, 300}}},
		"wish NaN":      {c, []Adjuster{good}, []Wish{{kinematics.Camber, math.NaN()}}},
	} {
		if _, err := Settle(row.corner, row.list, row.wishes); !errors.Is(err, ErrAdjuster) || err.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	table, err := Effects(c, []Adjuster{RodEnd("tie rod", kinematics.TieRodLeg, m16(40), 3, 3)})
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := Order([]Job{{table[0], kinematics.SpringLength}}); !errors.Is(err, ErrAdjuster) {
		t.Error(err)
	}
	if _, _, err := Order(make([]Job, 9)); !errors.Is(err, ErrAdjuster) {
		t.Error(err)
	}
}

// Lengths and slopes can be wished for beside angles: half track with camber
// from upper and lower arm, ride toe from the rack's shims.
func TestTrackAndRideToeCanBeWishedFor(t *testing.T) {
	c := behind()
	was := readAt(t, c)
	list := []Adjuster{
		RightLeftPair("upper arm front", kinematics.UpperFrontLeg, m16(40), m16(40), 6, 6),
		RightLeftPair("lower arm front", kinematics.LowerFrontLeg, m16(40), m16(40), 6, 6),
		RightLeftPair("tie rod", kinematics.TieRodLeg, m16(40), m16(40), 9, 9),
		Shims("rack", vec(0, 0, 2), 11, 7, kinematics.RackEnd),
	}
	wishes := []Wish{
		{kinematics.HalfTrack, was(kinematics.HalfTrack) + 6.5}, {kinematics.Camber, c.Camber - 0.004},
		{kinematics.Toe, 0.0017}, {kinematics.RideToe, was(kinematics.RideToe) + 2.3e-5},
	}
	s, err := Settle(c, list, wishes)
	if err != nil {
		t.Fatal(err)
	}
	now := readAt(t, s.Corner)
	for i, w := range wishes {
		if got := now(w.Quantity); !s.Met || math.Abs(got-w.Value) > 1e-6 || math.Abs(got-s.Reached[i]) > 1e-9 {
			t.Errorf("%v: %.9g for %.9g, met %v, units %v", w.Quantity, got, w.Value, s.Met, s.Units)
		}
	}
	seen := map[string]bool{}
	for l := range kinematics.LegCount {
		seen[l.String()] = true
	}
	if len(seen) != int(kinematics.LegCount) {
		t.Errorf("legs %v", seen)
	}
}

// What adjusters can reach they are found to reach: wishes read off a setting
// drawn at random within the limits, on corners drawn at random, are met, with
// and without an adjuster to spare; and the setting by half turns is the best of
// all those about it.
func TestWhatCanBeReachedIsFound(t *testing.T) {
	const seed = 4711
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 3))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	unmet, settings := 0, 0
	for range 400 {
		c := checkcorner.Random(r)
		if c.Upper.Flat || c.Lower.Flat {
			continue
		}
		all := []Adjuster{
			RodEnd("upper front", kinematics.UpperFrontLeg, m16(40), in(1, 6), in(1, 6)),
			RodEnd("upper rear", kinematics.UpperRearLeg, m16(40), in(1, 6), in(1, 6)),
			Eccentric("lower front", kinematics.LowerFront, vec(0.06*in(-1, 1), 0.6, 0.2*in(-1, 1)), 7, in(-3, 3)),
			Shims("upper", vec(0, 0.4, 0.1), in(2, 8), in(1, 5), kinematics.UpperFront, kinematics.UpperRear),
			RightLeftPair("tie rod", kinematics.TieRodLeg, m16(40), m16(40), 4, 4),
		}
		list := []Adjuster{all[4]}
		for _, k := range r.Perm(4)[:2+r.IntN(3)] {
			list = append(list, all[k])
		}
		units := make([]float64, len(list))
		for k, a := range list {
			units[k] = in(a.Min, a.Max)
		}
		there, err := Set(c, list, units)
		if err != nil {
			continue
		}
		now := readAt(t, there)
		wishes := []Wish{{kinematics.Camber, now(kinematics.Camber)}, {kinematics.Caster, now(kinematics.Caster)}, {kinematics.Toe, now(kinematics.Toe)}}
		s, err := Settle(c, list, wishes)
		if err != nil {
			t.Fatal(err)
		}
		settings++
		if !s.Met {
			unmet++
			t.Errorf("units %.2f reach the wishes; found %.2f, limits %v, reached %v of %v", units, s.Units, s.Limits, s.Reached, wishes)
		}
		bySteps(t, c, list, wishes, &s)
	}
	t.Logf("%d of %d settings not met", unmet, settings)
	if settings < 200 {
		t.Errorf("only %d settings", settings)
	}
}

// bySteps holds a setting by half turns against all that have the rod ends
// within a turn of it, the others as they are.
func bySteps(t *testing.T, c kinematics.Corner, list []Adjuster, wishes []Wish, s *Setting) {
	t.Helper()
	stepped := 0
	for k, a := range list {
		if a.Step == 0 {
			continue
		}
		stepped++
		if n := s.Built.Units[k] / a.Step; n != math.Round(n) || s.Built.Units[k] < a.Min || s.Built.Units[k] > a.Max {
			t.Errorf("%s set by %g, range %g to %g", a.Name, s.Built.Units[k], a.Min, a.Max)
		}
	}
	if stepped == 0 {
		if s.Built != nil {
			t.Error("a setting by steps, and nothing has steps")
		}
		return
	}
	run := settling{c, list, wishes}
	miss := func(x []float64) float64 {
		r, err := run.misses(x)
		if err != nil {
			return math.Inf(1)
		}
		return square(r)
	}
	least := miss(s.Built.Units)
	for k, a := range list {
		for _, by := range []float64{-a.Step, a.Step} {
			x := append([]float64(nil), s.Built.Units...)
			x[k] += by
			if got := miss(x); x[k] >= a.Min && x[k] <= a.Max && got < least-1e-12 {
				t.Errorf("%s half a turn on misses by %g, the answer by %g", a.Name, got, least)
			}
		}
	}
}

// Every direction that leads somewhere is taken, however long it is written.
func TestEveryDirectionIsTaken(t *testing.T) {
	c := ahead()
	want := Shims("s", vec(0, 3, 4), 3, 4, kinematics.UpperFront).Per.Moved[kinematics.UpperFront]
	for _, f := range []float64{0.2, 1, 1e-300, 1e300, 3e-5, 0.01} {
		a := Shims("s", vec(0, 3*f, 4*f), 3, 4, kinematics.UpperFront)
		if d := r3.Norm(r3.Sub(a.Per.Moved[kinematics.UpperFront], want)); d > 1e-15 || a.Check(&c) != nil {
			t.Errorf("times %g: off by %g, %v", f, d, a.Check(&c))
		}
	}
}

// Where a length and an angle are set, a millimetre counts as a milliradian; an adjuster
// whose range has no width sets nothing.
func TestOrderWeighsLengthsAndAngles(t *testing.T) {
	list := []Adjuster{
		RightLeftPair("tie rod", kinematics.TieRodLeg, m16(40), m16(40), 5, 5),
		Shims("upper arm", vec(0, 1, 0), 6, 6, kinematics.UpperFront, kinematics.UpperRear),
	}
	table, err := Effects(ahead(), list)
	if err != nil {
		t.Fatal(err)
	}
	of := func(i int, q kinematics.Quantity) float64 {
		v, _ := table[i].Of(q)
		return math.Abs(v)
	}
	jobs := []Job{{table[0], kinematics.Toe}, {table[1], kinematics.ScrubRadius}}
	rodLast := of(0, kinematics.ScrubRadius) * 1e-3 / of(0, kinematics.Toe)
	rodFirst := of(1, kinematics.Toe) / (of(1, kinematics.ScrubRadius) * 1e-3)
	_, left, err := Order(jobs)
	if want := min(rodLast, rodFirst); err != nil || want == 0 || math.Abs(left-want) > 1e-9*want {
		t.Errorf("disturbs by %g, want %g or %g: %v", left, rodLast, rodFirst, err)
	}
	list[1].Min = list[1].Max
	if _, err := Effects(ahead(), list); !errors.Is(err, ErrAdjuster) {
		t.Errorf("a range of no width: %v", err)
	}
}

// A unit so many times as large does so many times as much, and is taken to the same wish.
func TestUnitsOfAnySize(t *testing.T) {
	c := behind()
	one := Shims("rack", vec(0, 0.3, 1), 9, 9, kinematics.RackEnd)
	base, err := Effects(c, []Adjuster{one})
	if err != nil {
		t.Fatal(err)
	}
	want := readAt(t, c)(kinematics.RideToe) + 2e-5
	for _, by := range []float64{0.002, 700} {
		a := one
		a.Per, a.Min, a.Max = one.Per.Times(by), one.Min/by, one.Max/by
		got, err := Effects(c, []Adjuster{a})
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range []kinematics.Quantity{kinematics.RideToe, kinematics.RollCentreHeight} {
			u, _ := base[0].Of(q)
			if v, ok := got[0].Of(q); !ok || math.Abs(v-by*u) > 1e-7*math.Abs(by*u) {
				t.Errorf("%v: %g units of %g do %g each, want %g", q, 1/by, by, v, by*u)
			}
		}
		if s, err := Settle(c, []Adjuster{a}, []Wish{{kinematics.RideToe, want}}); err != nil || !s.Met || math.Abs(s.Reached[0]-want) > 1e-9 {
			t.Errorf("units of %g: %+v, %v", by, s, err)
		}
	}
}
