package targets

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics"
)

const deg = math.Pi / 180

func demo(t testing.TB, name string) *job.Job {
	t.Helper()
	data, ok := assets.Demo(name)
	if !ok {
		t.Fatalf("no demo %q", name)
	}
	j, err := job.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func mm(v float64) job.Optional { return job.Given(units.Length{MM: v}) }

func angle(d float64) job.OptionalDegrees {
	return job.OptionalDegrees{Degrees: job.Degrees(d), Given: true}
}

func slope(d float64) job.OptionalSlope {
	return job.OptionalSlope{Slope: job.Slope{Degrees: job.Degrees(d), Per: units.Millimetre}, Given: true}
}

func travel(bump, droop float64) job.Travel {
	return job.Travel{Bump: units.Length{MM: bump}, Droop: units.Length{MM: droop}}
}

// all asks for everything, with room for any value.
func all() job.Targets {
	return job.Targets{
		ScrubRadius: job.LengthRange{Min: mm(-500), Max: mm(500)}, CamberGain: job.SlopeRange{Min: slope(-0.9)},
		RideToe: job.AngleOver{Max: angle(20), Over: travel(41, 33)}, RollCentreHeight: job.LengthRange{Max: mm(900)},
		RollCentreMovement: job.LengthOver{Max: mm(900), Over: travel(41, 33)}, SwingArm: job.LengthRange{Min: mm(500)},
		Track: job.LengthRange{Min: mm(900), Max: mm(2900)}, Camber: job.AngleRange{Min: angle(-9), Max: angle(9)}, Caster: job.AngleRange{Max: angle(20)},
		MotionRatio: job.RatioRange{Min: job.OptionalRatio{Value: 0.2, Given: true}},
	}
}

func find(t *testing.T, list []Result, k Kind) *Result {
	t.Helper()
	for i := range list {
		if list[i].Kind == k {
			return &list[i]
		}
	}
	t.Fatalf("no result for %s", k)
	return nil
}

// The values and bands are those of the mechanism.
func TestResultsAreReadings(t *testing.T) {
	j := demo(t, "gravel-estate")
	asked := all()
	for i := range j.Variants {
		s := car.Of(j, &j.Variants[i])
		list := Evaluate(s, &asked)
		if len(list) != int(Count) || TallyOf(list) != (Tally{Met: int(Count)}) {
			t.Fatalf("%d results, %+v", len(list), TallyOf(list))
		}
		m, err := kinematics.New(&s.Corner)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		rest := p.Readings()
		bands, err := m.Bands(s.Within, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range []Kind{ScrubRadius, CamberGain, RollCentreHeight, SwingArm, Track, Camber, Caster} {
			want, _ := rest.Of(k.About().Of)
			half, _ := bands.Of(k.About().Of)
			if k == Track {
				want, half = 2*want, 2*half
			}
			got := find(t, list, k)
			width := (got.High - got.Low) / 2
			tolerance := 1e-6*half + 1e-9
			if k == SwingArm { // its reciprocal is what has an even band
				tolerance = 0.02 * half
			}
			if !got.Known || math.Abs(got.Value-want) > 1e-9*math.Abs(want) || math.Abs(width-half) > tolerance {
				t.Errorf("%s of %s: %g ± %g, want %g ± %g", k, j.Variants[i].Name, got.Value, width, want, half)
			}
		}
		// The toe curve of this corner falls all the way: an end is worst.
		end := 0.0
		for _, h := range []float64{41, -33} {
			p, err := m.At(h, 0)
			if err != nil {
				t.Fatal(err)
			}
			r := p.Readings()
			toe, _ := r.Of(kinematics.Toe)
			end = max(end, math.Abs(toe-s.Corner.Toe))
		}
		if got := find(t, list, RideToe); math.Abs(got.Value-end) > 1e-12 {
			t.Errorf("ride toe %g, want %g", got.Value/deg, end/deg)
		}
	}
}

// A range that ends just beyond the interval is met or missed, one that ends
// just within is open; the direction is that of the sign.
func TestVerdictsTurnAtTheEndsOfTheInterval(t *testing.T) {
	j := demo(t, "gravel-estate")
	s := car.Of(j, &j.Variants[0])
	wide := all()
	scrub := find(t, Evaluate(s, &wide), ScrubRadius)
	const nudge = 1e-6
	for _, c := range []struct {
		asked job.LengthRange
		want  Verdict
		tight bool
	}{
		{job.LengthRange{Min: mm(scrub.Low - nudge)}, Met, false},
		{job.LengthRange{Min: mm(scrub.Low + nudge)}, Undecided, false},
		{job.LengthRange{Min: mm(scrub.High - nudge)}, Undecided, false},
		{job.LengthRange{Min: mm(scrub.High + nudge)}, Missed, false},
		{job.LengthRange{Max: mm(scrub.High + nudge)}, Met, false},
		{job.LengthRange{Max: mm(scrub.High - nudge)}, Undecided, false},
		{job.LengthRange{Max: mm(scrub.Low - nudge)}, Missed, false},
		{job.LengthRange{Min: mm(scrub.Low - nudge), Max: mm(scrub.High + nudge)}, Met, false},
		{job.LengthRange{Min: mm(scrub.Value - 0.25), Max: mm(scrub.Value + 0.5)}, Undecided, true},
	} {
		got := find(t, Evaluate(s, &job.Targets{ScrubRadius: c.asked}), ScrubRadius)
		if got.Verdict != c.want || got.Tight != c.tight {
			t.Errorf("%s: %s, tight %v; want %s, %v", got.Asked.Text(ScrubRadius, units.Millimetre), got.Verdict, got.Tight, c.want, c.tight)
		}
	}
	s.Within = kinematics.Evenly(0)
	if got := find(t, Evaluate(s, &job.Targets{ScrubRadius: job.LengthRange{Max: mm(scrub.Value + nudge)}}), ScrubRadius); got.Verdict != Met {
		t.Errorf("known without error: %s", got.Verdict)
	}
}

// Camber at rest is what was typed: it has no interval, is printed as short as
// it is, and a range that ends at it is met.
func TestTypedCamberIsExact(t *testing.T) {
	j := demo(t, "gravel-estate")
	v := &j.Variants[0]
	for _, c := range []struct {
		typed, min, max float64
		text            string
		want            Verdict
	}{
		{-1.5, -1.5, -0.8, "−1.5 deg", Met},
		{-1.4, -2.3, -1.4, "−1.4 deg", Met},
		{-1.37, -1.36, -0.8, "−1.37 deg", Missed},
		{0.625, 0.25, 0.62, "0.625 deg", Missed},
		{-2.1, -2.2, -2, "−2.1 deg", Met},
	} {
		v.Camber = job.Degrees(c.typed)
		got := find(t, Evaluate(car.Of(j, v), &job.Targets{Camber: job.AngleRange{Min: angle(c.min), Max: angle(c.max)}}), Camber)
		if text := got.ValueText(units.Inch); text != c.text || got.Verdict != c.want {
			t.Errorf("%g degrees is %q, %s; want %q, %s", c.typed, text, got.Verdict, c.text, c.want)
		}
		if got.Low != got.Value || got.High != got.Value || got.Tight {
			t.Errorf("%+v", got)
		}
	}
}

// What holds over a travel: random measuring errors leave the interval about
// as seldom as they may.
func TestIntervalsOverTravelAgainstRandomErrors(t *testing.T) {
	const seed, trials = 20261124, 4000
	rnd := rand.New(rand.NewPCG(seed, 5))
	j := demo(t, "gravel-estate")
	s := car.Of(j, &j.Variants[2])
	asked := job.Targets{RideToe: job.AngleOver{Max: angle(1), Over: travel(41, 33)}, RollCentreMovement: job.LengthOver{Max: mm(99), Over: travel(41, 33)}}
	p := planOf(&asked)
	list := Evaluate(s, &asked)
	outside := make([]int, len(list))
	for range trials {
		c := s.Corner
		for _, at := range c.Coordinates() {
			c.Shift(at, s.Within.Common()*(2*rnd.Float64()-1))
		}
		figures, err := p.evaluate(&c)
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range p.rows {
			worst, _ := r.size(figures)
			if worst < list[i].Low || worst > list[i].High {
				outside[i]++
			}
		}
	}
	for i, n := range outside {
		if share := float64(n) / trials; share > 0.07 || share < 0.03 {
			t.Errorf("seed %d: %s leaves its interval in %.2f %% of the draws, want about 5 %%", seed, list[i].Kind, 100*share)
		}
	}
}

// A tie rod in the arm's plane keeps toe; its interval begins at nought.
func TestNoRideToe(t *testing.T) {
	j := demo(t, "flat-teaching")
	v, ok := j.Find("tie rod in the arm's plane")
	if !ok {
		t.Fatal("no such variant")
	}
	asked := job.Targets{RideToe: job.AngleOver{Max: angle(0.25), Over: travel(40, 40)}}
	got := find(t, Evaluate(car.Of(j, v), &asked), RideToe)
	if got.Value > 1e-9 || got.Low != 0 || !(got.High > 1e-4) || got.Verdict != Met {
		t.Errorf("%+v", got)
	}
	asked.RideToe.Max = angle(0.01)
	if got := find(t, Evaluate(car.Of(j, v), &asked), RideToe); got.Verdict != Undecided {
		t.Errorf("0.01 degrees are told apart at ±%g mm", j.Within(v))
	}
}

// Parallel arms have their instant centre at infinity: too long for any
// longest arm, and on neither side for certain.
func TestSwingArmAtInfinity(t *testing.T) {
	j := demo(t, "flat-teaching")
	s := car.Of(j, &j.Variants[0])
	for _, c := range []struct {
		asked job.LengthRange
		want  Verdict
	}{
		{job.LengthRange{Max: mm(4000)}, Missed},
		{job.LengthRange{Min: mm(1500)}, Undecided},
		{job.LengthRange{Min: mm(1500), Max: mm(9e3)}, Missed},
	} {
		got := find(t, Evaluate(s, &job.Targets{SwingArm: c.asked}), SwingArm)
		if got.Verdict != c.want || got.Known || got.HasHigh || !(got.Low > 9e3) {
			t.Errorf("%+v: %+v", c.asked, got)
		}
		if text := got.ValueText(units.Millimetre); text != "at infinity" {
			t.Errorf("it says %q", text)
		}
	}
	// Outboard, the arm is negative and no length is met.
	c := j.Variants[0]
	at := c.Point(kinematics.UpperFront)
	at.Z += 60
	c.SetPoint(kinematics.UpperFront, at)
	if got := find(t, Evaluate(car.Of(j, &c), &job.Targets{SwingArm: job.LengthRange{Min: mm(1000)}}), SwingArm); got.Verdict != Missed || got.Value >= 0 {
		t.Errorf("outboard: %+v", got)
	}
}

func TestBeyondReachIsMissed(t *testing.T) {
	j := demo(t, "gravel-estate")
	s := car.Of(j, &j.Variants[0])
	got := Evaluate(s, &job.Targets{RideToe: job.AngleOver{Max: angle(40), Over: travel(360, 10)}})
	if len(got) != 1 || got[0].Verdict != Missed || got[0].Why != whyNoReach || got[0].Known {
		t.Errorf("%+v", got)
	}
	s.Corner.Upper.Ball = s.Corner.Lower.Ball
	asked := all()
	for _, r := range Evaluate(s, &asked) {
		if r.Verdict != Missed || r.Why != whyNoMechanism {
			t.Errorf("%+v", r)
		}
	}
}

// An estimated radius widens what rests on it, and nothing else.
func TestEstimateWidens(t *testing.T) {
	j := demo(t, "rear-toe-link")
	s := car.Of(j, &j.Variants[0])
	if !(s.RadiusHigh > s.RadiusLow) {
		t.Fatal("the radius is no estimate")
	}
	asked := all()
	rough := Evaluate(s, &asked)
	s.RadiusLow, s.RadiusHigh = 0, 0
	for i, fine := range Evaluate(s, &asked) {
		wider := rough[i].High - rough[i].Low - (fine.High - fine.Low)
		switch fine.Kind {
		case ScrubRadius, RollCentreHeight:
			if !rough[i].Estimate || !(wider > 0.5) {
				t.Errorf("%s is wider by %g", fine.Kind, wider)
			}
		case Caster, Camber:
			if rough[i].Estimate || math.Abs(wider) > 1e-9 {
				t.Errorf("%s is wider by %g", fine.Kind, wider)
			}
		}
	}
}

func TestTrends(t *testing.T) {
	j := demo(t, "gravel-estate")
	measured, spacers, arms := car.Of(j, &j.Variants[0]), car.Of(j, &j.Variants[1]), car.Of(j, &j.Variants[2])
	asked := job.Targets{
		ScrubRadius: job.LengthRange{Min: mm(0), Max: mm(40)},                                              // 26, 76, 26
		CamberGain:  job.SlopeRange{Min: slope(-0.015)},                                                    // -0.0248, -0.0243, -0.0207
		RideToe:     job.AngleOver{Max: angle(0.05), Over: travel(40, 40)},                                 // slightly less, less
		Track:       job.LengthRange{Min: mm(1530), Max: mm(1545)}, Camber: job.AngleRange{Max: angle(-2)}, // 1459, 1559, 1559; -1.4
	}
	for _, c := range []struct {
		a, b car.Car
		want [5]Trend // in the order of the kinds: scrub, gain, ride toe, track, camber
	}{
		{measured, spacers, [5]Trend{Worse, Better, Better, Better, AsGood}},
		{spacers, measured, [5]Trend{Better, Worse, Worse, Worse, AsGood}},
		{measured, arms, [5]Trend{AsGood, Better, Better, Better, AsGood}},
		{measured, measured, [5]Trend{AsGood, AsGood, AsGood, AsGood, AsGood}},
	} {
		for i, got := range Trends(c.a, c.b, &asked) {
			if got != c.want[i] {
				t.Errorf("target %d: %s, want %s", i, got, c.want[i])
			}
		}
	}
	// Measured afresh, all over, a small change is not told from error.
	fresh := measured
	for i, at := range fresh.Corner.Coordinates() {
		fresh.Corner.Shift(at, 0.0625*float64(1+i%4))
	}
	for i, got := range Trends(measured, fresh, &asked) {
		if (i == 1 || i == 2) && got != Open {
			t.Errorf("target %d measured afresh: %s", i, got)
		}
	}
	broken := measured
	broken.Corner.Upper.Ball = broken.Corner.Lower.Ball
	if got := Trends(broken, measured, &asked); got[0] != Better {
		t.Errorf("from no mechanism: %v", got)
	}
	if got := Trends(measured, broken, &asked); got[0] != Worse {
		t.Errorf("to no mechanism: %v", got)
	}
}

func TestShades(t *testing.T) {
	asked := all()
	n := 0
	for q := range kinematics.QuantityCount {
		for _, s := range Shades(&asked, q) {
			n++
			switch s.Kind {
			case RideToe:
				if q != kinematics.Toe || !s.AboutRest || s.Range.Min != -20*deg || s.Range.Max != 20*deg || s.From != -33 || s.To != 41 {
					t.Errorf("%+v", s)
				}
			case Track:
				if q != kinematics.HalfTrack || s.Range.Max != 1450 || s.AboutRest || s.From != 0 || s.To != 0 {
					t.Errorf("%+v", s)
				}
			}
		}
	}
	if n != int(Count) {
		t.Errorf("%d shades of %d targets", n, Count)
	}
}

func TestMemo(t *testing.T) {
	j := demo(t, "gravel-estate")
	var m Memo
	asked := all()
	for i := range j.Variants {
		s := car.Of(j, &j.Variants[i])
		for range 2 {
			got, want := m.Results(s, &asked), Evaluate(s, &asked)
			for k := range want {
				if !reflect.DeepEqual(got[k], want[k]) {
					t.Errorf("%+v, want %+v", got[k], want[k])
				}
			}
		}
	}
	asked.Caster = job.AngleRange{Min: angle(30)}
	if got := m.Results(car.Of(j, &j.Variants[0]), &asked); got[Caster].Verdict != Missed {
		t.Error("a changed target is not seen")
	}
	if Evaluate(car.Of(j, &j.Variants[0]), &job.Targets{}) != nil {
		t.Error("results without targets")
	}
}

func BenchmarkEvaluateAll(b *testing.B) {
	j := demo(b, "gravel-estate")
	s := car.Of(j, &j.Variants[2])
	asked := all()
	for b.Loop() {
		Evaluate(s, &asked)
	}
}

func TestTable(t *testing.T) {
	j := demo(t, "gravel-estate")
	var sources []car.Car
	for i := range j.Variants {
		sources = append(sources, car.Of(j, &j.Variants[i]))
	}
	asked := job.Targets{ScrubRadius: job.LengthRange{Max: mm(40)}, CamberGain: job.SlopeRange{Min: slope(-0.015)},
		Track: job.LengthRange{Min: mm(1530), Max: mm(1545)}, Camber: job.AngleRange{Max: angle(-2)}}
	table := TableOf(sources, &asked)
	want := [][]bool{{true, false, false, false}, {false, false, true, false}, {true, true, true, false}}
	for i := range sources {
		for k, r := range Evaluate(sources[i], &asked) {
			if !reflect.DeepEqual(table.Results[i][k], r) || table.Best[i][k] != want[i][k] {
				t.Errorf("variant %d: %+v, best %v", i, table.Results[i][k], table.Best[i][k])
			}
		}
		if i == 0 {
			continue
		}
		for k, trend := range Trends(sources[0], sources[i], &asked) {
			if table.Trends[i][k] != trend {
				t.Errorf("variant %d, target %d: %s, want %s", i, k, table.Trends[i][k], trend)
			}
		}
	}
	sources[1].Corner.Upper.Ball = sources[1].Corner.Lower.Ball
	if broken := TableOf(sources, &asked); broken.Best[1][2] || !broken.Best[2][2] {
		t.Errorf("no mechanism comes nearest: %v", broken.Best)
	}
	if none := TableOf(sources, &job.Targets{}); none.Results != nil {
		t.Error("results without targets")
	}
}
