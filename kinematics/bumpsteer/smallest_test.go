package bumpsteer

import (
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// With three values free the best cure is far off for next to nothing: two small
// moves do as well, and those are taken.
func TestSmallestCureDoesNotGoFarForNothing(t *testing.T) {
	q := Request{Corner: ahead(), Goal: Goal{From: -55, To: 65},
		Free: []Free{{OuterEndHeight, -25, 25}, {RackEndSide, -60, 60}, {RackForeAft, -30, 30}, {OuterEndForeAft, -30, 30}}}
	far := cure(t, q)
	q.Within = kinematics.Evenly(1)
	near := cure(t, q)
	sum := func(r *Result) (mm float64) {
		for i := range r.Moves {
			mm += math.Abs(r.Moves[i].By())
		}
		return mm
	}
	t.Logf("best %.5f rad with %.1f mm in all, smallest %.5f rad with %.1f mm", far.After.Largest, sum(&far), near.After.Largest, sum(&near))
	for _, m := range near.Moves {
		t.Logf("%v %+.3f ± %.3f", m.Free.Freedom, m.By(), m.Band)
	}
	if near.Least != far.Least || near.After.Largest > far.After.Largest+mostApart*1.02 || sum(&near) > 0.6*sum(&far) {
		t.Error("see above")
	}
}

// The smallest of two moves against a fine grid, on corners drawn at random.
func TestSmallestCureAgainstAGrid(t *testing.T) {
	const seed = 313
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 2))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for n := range checkcorner.Trials(t, 12, 60) {
		c := checkcorner.Random(r)
		var free []Free
		for _, f := range r.Perm(int(FreedomCount))[:2] {
			free = append(free, Free{Freedom(f), in(-40, -5), in(5, 40)})
		}
		q := Request{Corner: c, Within: kinematics.Evenly(in(0.4, 2)), Free: free, Goal: Goal{From: -50, To: 60}}
		res, err := Cure(t.Context(), q)
		if err != nil {
			continue
		}
		s := search{ctx: t.Context(), corner: c, free: free, goal: q.Goal, report: func(float64) {}}
		best, _, err := s.best()
		if err != nil {
			t.Fatal(err)
		}
		level := best.cost + s.leeway(s.box(best.u), &q.Within)
		at := q.Goal.pick(searchTravel, searchRoll)
		buffer := make([]float64, len(at))
		least := math.Inf(1)
		const steps = 80
		for i := range steps * steps {
			x := s.box([]float64{float64(i%steps) / (steps - 1), float64(i/steps) / (steps - 1)})
			if total(x) < least && s.cost(x, at, buffer) <= level {
				least = total(x)
			}
		}
		got := math.Abs(res.Moves[0].By()) + math.Abs(res.Moves[1].By())
		if res.After.Largest > level*1.01 || got > least*1.02+0.05 {
			t.Errorf("corner %d, %v: moves of %.2f mm miss by %.5f, level %.5f; the grid needs %.2f mm", n, free, got, res.After.Largest, level, least)
		}
	}
}

// Rounded to what can be built: whole multiples, none of those about it better.
func TestCuresAreRoundedToWhatCanBeBuilt(t *testing.T) {
	for _, build := range []float64{0.5, 0.7, 1.6, 2.3} {
		q := Request{Corner: ahead(), Within: kinematics.Evenly(1), Build: build, Goal: Goal{From: -55, To: 65}, Free: []Free{{OuterEndHeight, -17, 23.2}, {RackEndSide, -60, 45}}}
		res := cure(t, q)
		best := math.Inf(1)
		for n := range 4 {
			c := q.Corner
			for k, m := range res.Moves {
				by := build * (math.Floor(m.Exact/build) + float64(n>>k&1))
				c.Shift(q.Free[k].Freedom.Coordinate(), by)
			}
			if got, err := Measured(c, q.Goal); err == nil {
				best = min(best, got.Largest)
			}
		}
		if res.After.Largest > best+1e-7 {
			t.Errorf("to %g: misses by %g, the best of the four about it by %g", build, res.After.Largest, best)
		}
		for _, m := range res.Moves {
			if n := m.By() / build; math.Abs(n-math.Round(n)) > 1e-9 || math.Abs(m.By()-m.Exact) >= build {
				t.Errorf("%v moved by %g, exactly %g, to %g", m.Free.Freedom, m.By(), m.Exact, build)
			}
		}
	}
}

// What one more mm would bring, against the cure of a box so much wider.
func TestOneMoreMillimetre(t *testing.T) {
	q := Request{Corner: ahead(), Goal: Goal{From: -55, To: 65}, Free: []Free{{OuterEndHeight, -3, 1.5}, {RackHeight, -2, 0.5}}}
	res := cure(t, q)
	seen := 0
	for k, m := range res.Moves {
		if m.Limit == Inside {
			continue
		}
		seen++
		wider := q
		wider.Free = append([]Free(nil), q.Free...)
		if m.Limit == AtMax {
			wider.Free[k].Max++
		} else {
			wider.Free[k].Min--
		}
		if want := cure(t, wider); !m.HasOneMore || math.Abs(m.OneMore-want.After.Largest) > 1e-6 || m.OneMore >= res.After.Largest {
			t.Errorf("%v: 1 mm more leaves %g, the wider box %g; now %g", m.Free.Freedom, m.OneMore, want.After.Largest, res.After.Largest)
		}
	}
	if seen == 0 {
		t.Error("nothing stands at a limit")
	}
}
