package bumpsteer

import (
	"cmp"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"armscribe/kinematics"
)

var stackGoal = Goal{From: -55, To: 65}

func shop(thickness ...float64) []Spacer {
	list := make([]Spacer, len(thickness))
	for i, t := range thickness {
		list[i].Thickness = t
	}
	return list
}

// everyStack lists all heights of up to `most` pieces by plain recursion, with
// the fewest pieces of each.
func everyStack(spacers []Spacer, limit float64, most int) map[int]int {
	found := map[int]int{0: 0}
	var add func(k, height, pieces int)
	add = func(k, height, pieces int) {
		if float64(height) > limit*1e6+0.5 || pieces > most {
			return
		}
		if n, ok := found[height]; !ok || pieces < n {
			found[height] = pieces
		}
		if k == len(spacers) {
			return
		}
		u := int(math.Round(spacers[k].Thickness * 1e6))
		for n := 0; spacers[k].Count == 0 || n <= spacers[k].Count; n++ {
			if float64(height+n*u) > limit*1e6+0.5 || pieces+n > most {
				break
			}
			add(k+1, height+n*u, pieces+n)
		}
	}
	add(0, 0, 0)
	return found
}

func TestStacksAreTheBestOfAll(t *testing.T) {
	c := ahead()
	for _, row := range []struct {
		name    string
		spacers []Spacer
		wish    float64
		limit   float64
	}{
		{"shop list", shop(1, 1.5, 2, 3, 5, 10), 9.06, 25},
		{"wish above the limit", shop(1.5, 3), 9.06, 6},
		{"lowering", shop(1.2, 2.5), -4.1, 14},
		{"inches", shop(25.4/16, 25.4/8, 1.25), 8.8, 19},
		{"no common measure", shop(1.618034, 2.718282), 8.3, 11},
		{"few of each", []Spacer{{3, 2}, {1.5, 1}, {0.7, 3}}, 7.4, 12},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := Stacks(StackRequest{Corner: c, Spacers: row.spacers, Raise: row.wish, Max: row.limit, Goal: stackGoal})
			if err != nil {
				t.Fatal(err)
			}
			all := everyStack(row.spacers, row.limit, 26)
			var changes []float64
			for units := range all {
				moved := c
				moved.TieRod.OuterEnd.Z += math.Copysign(float64(units)/1e6, row.wish)
				m, err := Measured(moved, stackGoal)
				if err != nil {
					t.Fatal(err)
				}
				changes = append(changes, m.Largest)
			}
			slices.Sort(changes)
			for i, s := range got {
				sum := 0.0
				for _, p := range s.Pieces {
					sum += p
				}
				if !slices.IsSortedFunc(s.Pieces, func(a, b float64) int { return cmp.Compare(b, a) }) || sum != s.Height || math.Abs(math.Abs(s.Raise)-sum) > 0 || s.Raise*row.wish < 0 || s.Height > row.limit+1e-9 {
					t.Errorf("stack %d: %+v", i, s.Pieces)
				}
				if want := all[int(math.Round(s.Height*1e6))]; len(s.Pieces) != want {
					t.Errorf("stack of %g mm has %v, %d pieces do", s.Height, s.Pieces, want)
				}
				// Changes within 2e-6 rad count as equal.
				if math.Abs(s.Measure.Largest-changes[i]) > 3e-6 {
					t.Errorf("place %d: %g mm leaves %.7f, the best possible there %.7f", i, s.Height, s.Measure.Largest, changes[i])
				}
			}
			if len(got) != min(5, len(all)) {
				t.Errorf("%d stacks of %d heights", len(got), len(all))
			}
		})
	}
}

// A stack that takes up just what room and bolt both leave is offered, and none
// that is taller.
func TestTheTighterOfRoomAndBolt(t *testing.T) {
	for _, row := range []struct{ room, grip, bolt, tallest float64 }{
		{30, 31, 47, 16}, {14, 31, 47, 14}, {17, 31, 0, 17}, {30, 0, 22, 22}, {22, 28, 50, 22},
	} {
		for over, want := range map[float64]int{0: 2, 0.02: 1} { // with none at all
			q := StackRequest{Corner: behind(), Spacers: shop(row.tallest + over), Raise: 26, Max: row.room, Grip: row.grip, MaxBolt: row.bolt, Goal: stackGoal}
			got, err := Stacks(q)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range got {
				if bolt := row.grip + s.Height; row.grip > 0 && s.Bolt != bolt || row.grip == 0 && s.Bolt != 0 {
					t.Errorf("grip %g and a stack of %g mm: a bolt of %g", row.grip, s.Height, s.Bolt)
				}
			}
			if len(got) != want {
				t.Errorf("room %g, grip %g, bolt %g, a spacer of %g mm: %d stacks, want %d", row.room, row.grip, row.bolt, row.tallest+over, len(got), want)
			}
		}
	}
}

func TestStackFlagsAndBolts(t *testing.T) {
	q := StackRequest{Corner: behind(), Spacers: shop(2, 5), Raise: 13, Max: 30, Grip: 31, MaxBolt: 47, Goal: stackGoal}
	got, err := Stacks(q)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range got {
		if s.Tall != (s.Height > 12) || s.Bolt != 31+s.Height || s.Bolt > 47 {
			t.Errorf("%+v", s)
		}
	}
	for name, bad := range map[string]struct {
		change func(*StackRequest)
		want   error
	}{
		"no spacers":    {func(q *StackRequest) { q.Spacers = nil }, ErrSpacers},
		"thin":          {func(q *StackRequest) { q.Spacers = shop(3, 0) }, ErrSpacers},
		"NaN":           {func(q *StackRequest) { q.Spacers = shop(math.NaN()) }, ErrSpacers},
		"minus two":     {func(q *StackRequest) { q.Spacers = []Spacer{{3, -2}} }, ErrSpacers},
		"no height":     {func(q *StackRequest) { q.Max = 0 }, ErrStack},
		"endless":       {func(q *StackRequest) { q.Max = math.Inf(1) }, ErrStack},
		"short bolt":    {func(q *StackRequest) { q.MaxBolt = 29 }, ErrStack},
		"no raise":      {func(q *StackRequest) { q.Raise = math.NaN() }, ErrStack},
		"goal reversed": {func(q *StackRequest) { q.Goal.From = 70 }, ErrRange},
	} {
		broken := q
		bad.change(&broken)
		if _, err := Stacks(broken); !errors.Is(err, bad.want) {
			t.Errorf("%s: %v, want %v", name, err, bad.want)
		}
	}
}

// What stands in the way of a stack puts it behind, but not what stands in the way
// without any.
func TestStacksInTheWayComeBehind(t *testing.T) {
	q := StackRequest{Corner: ahead(), Spacers: shop(1, 1.5, 2, 3), Raise: 9.06, Max: 25, Goal: stackGoal}
	free, err := Stacks(q)
	if err != nil {
		t.Fatal(err)
	}
	z := q.Corner.TieRod.OuterEnd.Z
	low := func(none int) func(kinematics.Corner) int {
		return func(c kinematics.Corner) int {
			switch raise := c.TieRod.OuterEnd.Z - z; {
			case raise == 0:
				return none
			case raise > free[0].Raise-0.25: // the best one, and those above
				return 2
			}
			return 0
		}
	}
	q.Rank = low(0)
	if list, err := Stacks(q); err != nil || list[0].Raise >= free[0].Raise {
		t.Errorf("what touches stands first: %+v (%v)", list, err)
	}
	q.Rank = low(2)
	if list, err := Stacks(q); err != nil || !slices.EqualFunc(list, free, func(a, b Stack) bool { return a.Raise == b.Raise }) {
		t.Errorf("what touches without a stack too puts stacks behind: %+v, else %+v (%v)", list, free, err)
	}
}

// The best of the nearest is the same whether every curve is drawn or the hopeless are
// passed over.
func TestTheBestIsFoundWithoutTheHopeless(t *testing.T) {
	const seed = 20261219
	rnd := rand.New(rand.NewPCG(seed, 5))
	passed := 0
	for range 120 {
		c := ahead()
		c.TieRod.OuterEnd.Z += 16*rnd.Float64() - 8
		c.TieRod.RackEnd.Y += 30*rnd.Float64() - 15
		q := StackRequest{Corner: c, Spacers: shop(0.7, 1.6, 2.9, 5.3), Raise: 24*rnd.Float64() - 12, Max: 31, Goal: stackGoal, Near: 4}
		q.Goal.Slope = 4e-5 * (rnd.Float64() - 0.5)
		got, err := Stacks(q)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		passed += stacksGiven - len(got)
		q.Rank = func(kinematics.Corner) int { return 0 }
		want, err := Stacks(q)
		if err != nil || got[0].Raise != want[0].Raise || got[0].Measure.Largest != want[0].Measure.Largest || !slices.Equal(got[0].Pieces, want[0].Pieces) {
			t.Fatalf("seed %d: raised by %.9g, want %.9g: %v", seed, got[0].Raise, want[0].Raise, err)
		}
	}
	if passed == 0 {
		t.Errorf("seed %d: none was passed over", seed)
	}
}

// Of the heights that can be made the nearest are looked at, so many each way.
func TestNearestHeights(t *testing.T) {
	for _, row := range []struct {
		wish        float64
		near        int
		first, last float64
	}{{50.5, 0, 36, 65}, {50, 0, 36, 65}, {50.5, 2, 49, 52}, {3, 0, 0, 18}, {88, 4, 85, 90}, {400, 3, 88, 90}} {
		list := nearestStacks(shop(1, 10), row.wish, 90.4, row.near)
		for i, pieces := range list {
			if got := sum(pieces); got != row.first+float64(i) {
				t.Errorf("wish %g: height %d is %g, want %g", row.wish, i, got, row.first+float64(i))
			}
		}
		if len(list) != int(row.last-row.first)+1 {
			t.Errorf("wish %g, %d each way: %d heights, want %g to %g", row.wish, row.near, len(list), row.first, row.last)
		}
	}
}
