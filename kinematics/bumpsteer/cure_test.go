package bumpsteer

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

func vec(x, y, z float64) kinematics.Vec { return kinematics.Vec{X: x, Y: y, Z: z} }

// ahead is an invented corner with the rack ahead of the axle, inclined axes
// and a tie rod that steers a good deal.
func ahead() kinematics.Corner {
	c := checkcorner.Inclined()
	c.Camber, c.Toe = -0.021, 0.0013
	c.Wheel = kinematics.Wheel{Offset: 12, Spacer: 3, LoadedRadius: 306}
	return c
}

// behind is an invented corner with the rack behind the axle, high up.
func behind() kinematics.Corner {
	return kinematics.Corner{
		Lower:  kinematics.Arm{Front: vec(128, 352, 214), Rear: vec(-149, 337, 203), Ball: vec(-6, 702, 191)},
		Upper:  kinematics.Arm{Front: vec(92, 417, 447), Rear: vec(-108, 409, 431), Ball: vec(-27, 668, 471)},
		TieRod: kinematics.TieRod{RackEnd: vec(-137, 371, 338), OuterEnd: vec(-121, 683, 352)},
		Hub:    vec(2, 741, 322),
		Camber: -0.034, Toe: -0.0021,
		Wheel: kinematics.Wheel{Offset: -17, LoadedRadius: 318},
	}
}

func cure(t testing.TB, q Request) Result {
	t.Helper()
	res, err := Cure(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// byGrid finds the least largest miss by brute force, without the package's
// goal: the whole box at `steps` places an axis, then five times a grid about
// the best place so far, half as wide again as one of its cells.
func byGrid(c kinematics.Corner, free []Free, g Goal, steps, places int) float64 {
	miss := func(x []float64) float64 {
		moved := c
		for k, f := range free {
			p := moved.At(f.Freedom.Coordinate().Point)
			*[]*float64{&p.X, &p.Y, &p.Z}[f.Freedom.Coordinate().Axis] += x[k]
		}
		m, err := kinematics.New(&moved)
		if err != nil {
			return math.Inf(1)
		}
		worst := 0.0
		for i := range places {
			h := g.From + (g.To-g.From)*float64(i)/float64(places-1)
			p, err := m.At(h, 0)
			if err != nil {
				return math.Inf(1)
			}
			r := p.Readings()
			toe, _ := r.Of(kinematics.Toe)
			worst = max(worst, math.Abs(toe-c.Toe-g.Slope*h))
		}
		return worst
	}
	lo, hi := make([]float64, len(free)), make([]float64, len(free))
	for k, f := range free {
		lo[k], hi[k] = f.Min, f.Max
	}
	best, at := math.Inf(1), make([]float64, len(free))
	x := make([]float64, len(free))
	for range 6 {
		total := 1
		for range free {
			total *= steps
		}
		for i := range total {
			for k, j := 0, i; k < len(free); k++ {
				x[k] = lo[k] + (hi[k]-lo[k])*float64(j%steps)/float64(steps-1)
				j /= steps
			}
			if v := miss(x); v < best {
				best = v
				copy(at, x)
			}
		}
		for k, f := range free {
			w := 1.5 * (hi[k] - lo[k]) / float64(steps-1)
			lo[k], hi[k] = max(f.Min, at[k]-w), min(f.Max, at[k]+w)
		}
	}
	return best
}

func TestCureIsTheBestOfTheBox(t *testing.T) {
	g := Goal{From: -55, To: 65}
	line := Goal{From: -47, To: 52, Slope: -0.31e-4}
	for _, row := range []struct {
		name   string
		corner kinematics.Corner
		goal   Goal
		free   []Free
		limit  AtLimit // of the first move
	}{
		{"height", ahead(), g, []Free{{OuterEndHeight, -17, 23}}, Inside},
		{"height at its limit", ahead(), g, []Free{{OuterEndHeight, -3, 1.5}}, AtMax},
		{"box without rest", behind(), g, []Free{{RackHeight, 6, 19}}, AtMin},
		{"height and width", ahead(), g, []Free{{OuterEndHeight, -17, 23}, {RackEndSide, -60, 45}}, Inside},
		{"a line", behind(), line, []Free{{RackHeight, -28, 21}, {RackEndSide, -33, 38}}, Inside},
		{"two at one end", behind(), g, []Free{{RackHeight, -13, 21}, {OuterEndHeight, -9, 7}}, Inside},
		{"outer end in all directions", ahead(), line, []Free{{OuterEndHeight, -14, 22}, {OuterEndSide, -26, 17}, {OuterEndForeAft, -19, 31}}, Inside},
		{"three", behind(), g, []Free{{OuterEndHeight, -24, 31}, {RackEndSide, -52, 37}, {RackForeAft, -16, 27}}, Inside},
		{"three at limits", ahead(), g, []Free{{OuterEndHeight, -1.2, 4}, {RackEndSide, -7, 9}, {RackHeight, -2, 3.5}}, AtMax},
	} {
		t.Run(row.name, func(t *testing.T) {
			res := cure(t, Request{Corner: row.corner, Free: row.free, Goal: row.goal})
			steps, places := []int{0, 201, 31, 11}[len(row.free)], 61
			want := byGrid(row.corner, row.free, row.goal, steps, places)
			t.Logf("before %.6f, after %.6f, grid %.6f; %+v", res.Before.Largest, res.After.Largest, want, res.Moves)
			// A millionth of a radian is a two-thousandth of a mm at the rim.
			if res.After.Largest > want+1e-6 {
				t.Errorf("largest miss %.7f rad, grid found %.7f", res.After.Largest, want)
			}
			for _, m := range res.Moves {
				if by := m.By(); by < m.Free.Min-1e-9 || by > m.Free.Max+1e-9 {
					t.Errorf("%v moved by %g, limits %g to %g", m.Free.Freedom, by, m.Free.Min, m.Free.Max)
				}
			}
			if res.Moves[0].Limit != row.limit {
				t.Errorf("%v stands at limit %d, want %d", row.free[0].Freedom, res.Moves[0].Limit, row.limit)
			}
		})
	}
}

// The same on boxes drawn at random about corners drawn at random.
func TestCureIsTheBestOfRandomBoxes(t *testing.T) {
	const seed = 99
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for n := range checkcorner.Trials(t, 8, 16) {
		c := ahead()
		if n%2 == 0 {
			c = behind()
		}
		for _, at := range c.Coordinates() {
			c.Shift(at, in(-12, 12))
		}
		var free []Free
		for _, f := range r.Perm(int(FreedomCount))[:1+n%3] {
			a, b := in(-80, 40), in(-40, 90)
			free = append(free, Free{Freedom(f), min(a, b), max(a, b) + 1})
		}
		g := Goal{From: in(-70, -30), To: in(30, 75), Slope: in(-1, 1) * 1e-4 * float64(n%2)}
		res := cure(t, Request{Corner: c, Free: free, Goal: g})
		if want := byGrid(c, free, g, []int{0, 101, 31, 11}[len(free)], 61); !(res.After.Largest <= want+1e-6) {
			t.Errorf("box %v: largest miss %.7f rad, grid found %.7f", free, res.After.Largest, want)
		}
	}
}

// The teaching job: equal parallel arms, a tie rod that would copy the lower
// arm but for its outer end 10 mm off the plane. Raised by those 10 mm it is a
// parallelogram and steers nothing.
func TestFlatTeachingJobIsCuredToZero(t *testing.T) {
	for _, off := range []float64{-10, 10} {
		c := kinematics.Corner{
			Lower:  kinematics.FlatArm(vec(0, 300, 190), vec(0, 698, 171)),
			Upper:  kinematics.FlatArm(vec(0, 285, 440), vec(0, 683, 421)),
			TieRod: kinematics.TieRod{RackEnd: vec(115, 300, 241), OuterEnd: vec(115, 698, 222+off)},
			Hub:    vec(0, 750, 305),
			Wheel:  kinematics.Wheel{LoadedRadius: 305},
		}
		q := Request{Corner: c, Free: []Free{{OuterEndHeight, -21, 26}}, Goal: Goal{From: -60, To: 70}}
		res := cure(t, q)
		if res.Before.Largest < 0.002 || res.After.Largest > 1e-9 || math.Abs(res.Moves[0].By()+off) > 1e-5 {
			t.Errorf("off by %g: %.2e rad before, %.2e after, moved %.7f mm", off, res.Before.Largest, res.After.Largest, res.Moves[0].By())
		}
		if !res.HasLeft || math.Abs(res.Left.Slope.Value) > 1e-10 || res.Left.Rest > 1e-9 {
			t.Errorf("left over: %+v", res.Left)
		}
	}
}

// In roll the goal is to the ground; the grid asks Mechanism.Roll itself.
func TestCureInRoll(t *testing.T) {
	c := behind()
	g := Goal{Over: OverRoll, From: -0.055, To: 0.048, Slope: 0.004}
	free := []Free{{RackHeight, -22, 17}}
	res := cure(t, Request{Corner: c, Free: free, Goal: g})
	at, best := 0.0, math.Inf(1)
	for i := range 157 {
		x := -22 + 39*float64(i)/156
		moved := c
		moved.TieRod.RackEnd.Z += x
		m, err := kinematics.New(&moved)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for k := range 13 {
			roll := g.From + (g.To-g.From)*float64(k)/12
			ax, err := m.Roll(roll, 0)
			if err != nil {
				t.Fatal(err)
			}
			left, _ := ax.Readings()
			toe, _ := left.Of(kinematics.Toe)
			worst = max(worst, math.Abs(toe-c.Toe-0.004*roll))
		}
		if worst < best {
			at, best = x, worst
		}
	}
	if res.After.Largest > best+1e-7 || math.Abs(res.Moves[0].By()-at) > 0.25 {
		t.Errorf("moved %.3f for %.7f rad; grid %.3f for %.7f", res.Moves[0].By(), res.After.Largest, at, best)
	}
	if res.Left.From >= 0 || math.Abs(res.Left.To-741*math.Tan(0.055)) > 1e-9 {
		t.Errorf("diagnosis over %g to %g mm", res.Left.From, res.Left.To)
	}
}

// What is stated of each move, against moving it by hand.
func TestMovesSayWhatBuildingErrorsCost(t *testing.T) {
	g := Goal{From: -55, To: 65}
	q := Request{Corner: ahead(), Within: kinematics.Evenly(0.8), Goal: g,
		Free: []Free{{OuterEndHeight, -17, 6}, {RackEndSide, -60, 45}, {RackHeight, -1, 1}}}
	res := cure(t, q)
	if res.Moves[0].Limit != AtMax || res.Moves[0].Band != 0 || res.Moves[1].Band == 0 {
		t.Errorf("limits and bands: %+v", res.Moves)
	}
	if res.RodTo <= res.RodFrom {
		t.Errorf("rack end moved in, rod from %g to %g mm", res.RodFrom, res.RodTo)
	}
	for _, m := range res.Moves {
		for _, side := range []struct{ mm, extra float64 }{{1, m.ExtraPlus}, {-1, m.ExtraMinus}} {
			c := res.Corner
			c.Shift(m.Free.Freedom.Coordinate(), side.mm)
			got, err := Measured(c, g)
			if err != nil || math.Abs(got.Largest-res.After.Largest-side.extra) > 1e-12 {
				t.Errorf("%v %+g mm: %.9f rad more, said %.9f (%v)", m.Free.Freedom, side.mm, got.Largest-res.After.Largest, side.extra, err)
			}
		}
	}
}

// The band of a move against cures of corners drawn at random.
func TestMoveBandAgainstRandomCorners(t *testing.T) {
	const seed, within = 41, 0.6
	trials := checkcorner.Trials(t, 50, 200)
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 5))
	q := Request{Corner: ahead(), Within: kinematics.Evenly(within), Goal: Goal{From: -55, To: 65},
		Free: []Free{{OuterEndHeight, -30, 40}, {RackEndSide, -70, 45}}}
	want := cure(t, q)
	var square [2]float64
	for range trials {
		drawn := q
		for _, at := range q.Corner.Coordinates() {
			drawn.Corner.Shift(at, within*(2*r.Float64()-1))
		}
		again := cure(t, drawn)
		for k := range square {
			by := again.Moves[k].By() - want.Moves[k].By()
			square[k] += by * by / float64(trials)
		}
	}
	for k, m := range want.Moves {
		got := kinematics.Normal95 * math.Sqrt(square[k])
		t.Logf("%v: band %.3f, drawn %.3f mm", m.Free.Freedom, m.Band, got)
		// So many draws settle a deviation to this share, 5 % for 200; three times that.
		if math.Abs(got/m.Band-1) > 3/math.Sqrt(2*float64(trials)) {
			t.Errorf("%v: band %.3f mm, drawn corners give %.3f", m.Free.Freedom, m.Band, got)
		}
	}
}

// A box most of which does not assemble over the travel.
func TestCureKeepsClearOfWhatDoesNotReach(t *testing.T) {
	c := ahead()
	free := []Free{{OuterEndSide, -900, 400}, {OuterEndHeight, -400, 700}}
	res := cure(t, Request{Corner: c, Within: kinematics.Evenly(1), Free: free, Goal: Goal{From: -55, To: 65}})
	if !(res.After.Largest < res.Before.Largest) || math.IsNaN(res.After.Largest) {
		t.Errorf("%.6f before, %.6f after", res.Before.Largest, res.After.Largest)
	}
	_, err := Cure(t.Context(), Request{Corner: c, Within: kinematics.Evenly(1), Goal: Goal{From: -55, To: 65},
		Free: []Free{{RackEndSide, 333, 346}, {RackHeight, -4, 3}}})
	if !errors.Is(err, kinematics.ErrUnreachable) {
		t.Errorf("a rod too short to follow: %v", err)
	}
	_, err = Cure(t.Context(), Request{Corner: c, Within: kinematics.Evenly(1), Goal: Goal{From: -55, To: 650}, Free: free})
	if !errors.Is(err, kinematics.ErrUnreachable) {
		t.Errorf("a travel out of reach: %v", err)
	}
}

func TestCureRefusesWhatMakesNoSense(t *testing.T) {
	g := Goal{From: -55, To: 65}
	for name, row := range map[string]struct {
		free []Free
		goal Goal
		want error
	}{
		"nothing freed":            {nil, g, ErrNothingFreed},
		"reversed":                 {[]Free{{RackHeight, 7, -3}}, g, ErrLimits},
		"no room":                  {[]Free{{RackHeight, 7, 7}}, g, ErrLimits},
		"freed twice":              {[]Free{{RackHeight, -3, 7}, {RackHeight, -2, 5}}, g, ErrLimits},
		"not a number":             {[]Free{{RackHeight, math.NaN(), 7}}, g, ErrLimits},
		"range above":              {[]Free{{RackHeight, -3, 7}}, Goal{From: 5, To: 65}, ErrRange},
		"range reversed":           {[]Free{{RackHeight, -3, 7}}, Goal{From: 65, To: -55}, ErrRange},
		"range NaN":                {[]Free{{RackHeight, -3, 7}}, Goal{From: math.NaN(), To: 55}, ErrRange},
		"slope in degrees a metre": {[]Free{{RackHeight, -3, 7}}, Goal{From: -55, To: 55, Slope: 12}, ErrRange},
		"roll too far":             {[]Free{{RackHeight, -3, 7}}, Goal{Over: OverRoll, From: -5, To: 5}, ErrRange},
	} {
		_, err := Cure(t.Context(), Request{Corner: ahead(), Within: kinematics.Evenly(1), Free: row.free, Goal: row.goal})
		if !errors.Is(err, row.want) || err.Error() == "" {
			t.Errorf("%s: %v, want %v", name, err, row.want)
		}
	}
}

func TestCureCanBeCancelledAndTellsItsProgress(t *testing.T) {
	last, calls := 0.0, 0
	q := Request{Corner: ahead(), Within: kinematics.Evenly(1), Goal: Goal{From: -55, To: 65},
		Free: []Free{{OuterEndHeight, -17, 23}, {RackEndSide, -60, 45}, {RackForeAft, -22, 14}}}
	q.Progress = func(done float64) {
		if calls++; done < last || done > 1 {
			t.Errorf("progress %g after %g", done, last)
		}
		last = done
	}
	first := cure(t, q)
	if last != 1 || calls < 10 {
		t.Errorf("progress ended at %g after %d calls", last, calls)
	}
	q.Progress = nil
	again := cure(t, q)
	if again.Corner != first.Corner {
		t.Error("the same request gave another answer")
	}
	for _, share := range []float64{0, 0.31, 0.72} {
		ctx, stop := context.WithCancel(t.Context())
		q.Progress = func(done float64) {
			if done >= share {
				stop()
			}
		}
		if _, err := Cure(ctx, q); !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled at %g: %v", share, err)
		}
		stop()
	}
}

func TestFreedomKeys(t *testing.T) {
	for f := range FreedomCount {
		if got, ok := FreedomOf(f.Key()); !ok || got != f {
			t.Errorf("%v has key %q, which means %v", f, f.Key(), got)
		}
	}
	if _, ok := FreedomOf("outer_end"); ok {
		t.Error("outer_end has no axis but was taken")
	}
}

func BenchmarkCureThree(b *testing.B) {
	q := Request{Corner: behind(), Within: kinematics.Evenly(1), Goal: Goal{From: -60, To: 70},
		Free: []Free{{OuterEndHeight, -24, 31}, {RackEndSide, -52, 37}, {RackForeAft, -16, 27}}}
	for b.Loop() {
		if _, err := Cure(context.Background(), q); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCureThreeInRoll(b *testing.B) {
	q := Request{Corner: behind(), Within: kinematics.Evenly(1), Goal: Goal{Over: OverRoll, From: -0.06, To: 0.06},
		Free: []Free{{OuterEndHeight, -24, 31}, {RackEndSide, -52, 37}, {RackForeAft, -16, 27}}}
	for b.Loop() {
		if _, err := Cure(context.Background(), q); err != nil {
			b.Fatal(err)
		}
	}
}
