package targets

import (
	"math"
	"testing"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// A target over travel is tried at even places on both sides of rest, from the
// lowest up, and rest itself is none of them.
func TestStationsOfATarget(t *testing.T) {
	ask := all()
	p := planOf(&ask)
	for i, r := range p.rows {
		if r.kind != RideToe {
			continue
		}
		got := p.travel[i]
		if len(got) != 2*stations || r.n != len(got) {
			t.Fatalf("%d places", len(got))
		}
		for k := range stations {
			down, up := -33*float64(stations-k)/stations, 41*float64(k+1)/stations
			if math.Abs(got[k]-down) > 1e-12 || math.Abs(got[stations+k]-up) > 1e-12 {
				t.Errorf("place %d: %g and %g, want %g and %g", k, got[k], got[stations+k], down, up)
			}
		}
	}
}

func TestTrackIsShadedBySide(t *testing.T) {
	ask := job.Targets{Track: job.LengthRange{Min: mm(1500), Max: mm(1560)}}
	list := Shades(&ask, Track.About().Of)
	if len(list) != 1 || list[0].Range.Min != 750 || list[0].Range.Max != 780 {
		t.Errorf("%+v", list)
	}
	defer func() {
		if recover() == nil {
			t.Error("a target beyond the last has words")
		}
	}()
	Count.About()
}

// The span of an estimated radius widens an interval by half of what the figure moves
// over it; one that does not show in the last digit is not said.
func TestShareOfAnEstimate(t *testing.T) {
	j := demo(t, "gravel-estate")
	ask := job.Targets{ScrubRadius: job.LengthRange{Min: mm(-500), Max: mm(500)}}
	s := car.Of(j, &j.Variants[0])
	plain := Evaluate(s, &ask)[0]
	half := (plain.High - plain.Low) / 2
	scrub := func(radius float64) float64 {
		c := s.Corner
		c.Wheel.LoadedRadius = radius
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		r := p.Readings()
		v, _ := r.Of(kinematics.ScrubRadius)
		return v
	}
	at := s.Corner.Wheel.LoadedRadius
	each := math.Abs(scrub(at+1) - scrub(at-1)) // half of it over ±1 mm, doubled
	for _, c := range []struct {
		share float64
		said  bool
	}{{0.3, true}, {0.025, true}, {0.004, false}} {
		d := c.share * half / (each / 2)
		s.RadiusLow, s.RadiusHigh = at-d, at+d
		got := Evaluate(s, &ask)[0]
		if want := half * (1 + c.share); math.Abs((got.High-got.Low)/2-want) > 1e-3*half || got.Estimate != c.said {
			t.Errorf("a share of %g: half %g, want %g; said %v", c.share, (got.High-got.Low)/2, want, got.Estimate)
		}
	}
}

// A target rests on an assumed value if any of its figures does.
func TestATargetRestsOnWhatIsAssumed(t *testing.T) {
	j := demo(t, "gravel-estate")
	ask := job.Targets{RideToe: job.AngleOver{Max: angle(20), Over: travel(41, 33)}, Camber: job.AngleRange{Min: angle(-9)}}
	s := car.Of(j, &j.Variants[0])
	s.Within = s.Within.Assumed(kinematics.Coordinate{Point: kinematics.OuterEnd, Axis: 2}, 30)
	list := Evaluate(s, &ask)
	if len(find(t, list, RideToe).Assumed) == 0 || len(find(t, list, Camber).Assumed) > 0 {
		t.Errorf("%+v", list)
	}
}

func TestWordsOfWhatRestsOnAssumptions(t *testing.T) {
	r := Result{Kind: RideToe, Verdict: Undecided, Assumed: []kinematics.Coordinate{{Point: kinematics.OuterEnd, Axis: 2}}}
	if got := r.Words(1); got != "not decidable while it rests on assumed values: measure them" {
		t.Error(got)
	}
	r.Why = whyEdge
	if got := r.Words(1); got == "not decidable while it rests on assumed values: measure them" {
		t.Error(got)
	}
}

// Swing arms are asked for by their reciprocals, 1/mm: by hand.
func TestSwingArmsByTheirReciprocals(t *testing.T) {
	asked := Range{Min: 1000, HasMin: true, Max: 2000, HasMax: true}
	inv := reciprocal(asked)
	if inv.Min != 1.0/2000 || inv.Max != 1.0/1000 || !inv.HasMax {
		t.Errorf("%+v", inv)
	}
	for _, c := range []struct {
		low, high float64 // as arms
		tight     bool
	}{{1900, 1100, false}, {2500, 900, true}} {
		var r Result
		r.swing(asked, 1.0/1500, 1/c.low, 1/c.high)
		if r.Tight != c.tight || math.Abs(r.Low-c.high) > 1e-9 || math.Abs(r.High-c.low) > 1e-9 || math.Abs(r.Value-1500) > 1e-9 {
			t.Errorf("%+v: %+v", c, r)
		}
	}
	var out Result // an instant centre outboard
	if out.swing(asked, -1.0/1500, -1.0/1100, -1.0/1900); math.Abs(out.Low+1900) > 1e-9 || math.Abs(out.High+1100) > 1e-9 || !out.HasLow || !out.HasHigh {
		t.Errorf("%+v", out)
	}
}

// A memo computes anew for another corner and for other targets, and not else.
func TestAMemoFollows(t *testing.T) {
	j := demo(t, "gravel-estate")
	ask := all()
	s := car.Of(j, &j.Variants[0])
	var m Memo
	first := m.Results(s, &ask)
	if again := m.Results(s, &ask); &again[0] != &first[0] {
		t.Error("the same is computed again")
	}
	moved := s
	moved.Corner.TieRod.RackEnd.Z += 5
	if other := m.Results(moved, &ask); &other[0] == &first[0] || find(t, other, RideToe).Value == find(t, first, RideToe).Value {
		t.Error("another corner has the old answer")
	}
	fewer := job.Targets{Camber: ask.Camber}
	if list := m.Results(moved, &fewer); len(list) != 1 {
		t.Errorf("%d results of one target", len(list))
	}
}

// An end that the interval only touches is not overstepped: such a target may be met.
func TestVerdictAtAnEnd(t *testing.T) {
	both := Range{Min: 2, Max: 5, HasMin: true, HasMax: true}
	for _, c := range []struct {
		low, high float64
		want      Verdict
	}{{2, 5, Met}, {1, 2, Undecided}, {5, 6, Undecided}, {1, 1.75, Missed}, {5.25, 6, Missed}, {1, 6, Undecided}, {2, 5.25, Undecided}, {1.75, 5, Undecided}} {
		if got := verdict(both, c.low, c.high); got != c.want {
			t.Errorf("%g to %g: %v, want %v", c.low, c.high, got, c.want)
		}
	}
	var r Result // as wide as what is asked, to the bit
	if r.swing(Range{Min: 1024, HasMin: true}, 1.0/2048, 0, 1.0/1024); r.Tight || r.Verdict != Met || r.HasHigh || !r.HasLow || r.Low != 1024 {
		t.Errorf("%+v", r)
	}
	for _, ends := range [][2]float64{{-1.0 / 1024, 0}, {0, 0}} { // no end is an infinite one
		var r Result
		if r.swing(Range{Min: 1024, HasMin: true}, ends[0], ends[0], ends[1]); r.HasHigh || r.HasLow {
			t.Errorf("%v: %+v", ends, r)
		}
	}
}

// Rounding of a swing arm is that of its reciprocal: of an arm of 2 m between a millionth
// and a thousandth of a millimetre, as of a length.
func TestRoundingOfASwingArm(t *testing.T) {
	const arm = 2000
	if mm := exactBand(SwingArm) * arm * arm; mm < 1e-7 || mm > 1e-3 {
		t.Errorf("%g mm of an arm of %d", mm, arm)
	}
	if mm := exactBand(ScrubRadius); mm < 1e-9 || mm > 1e-3 {
		t.Errorf("scrub radius: %g mm", mm)
	}
}
