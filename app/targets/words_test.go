package targets

import (
	"testing"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/units"
)

func TestRangeText(t *testing.T) {
	asked := job.Targets{
		ScrubRadius: job.LengthRange{Min: mm(5), Max: mm(31.75)}, CamberGain: job.SlopeRange{Min: slope(-0.03)},
		RideToe: job.AngleOver{Max: angle(0.15), Over: travel(40, 35)}, RollCentreMovement: job.LengthOver{Max: mm(70), Over: travel(0, 25.4)},
		Caster: job.AngleRange{Max: angle(7.5)},
	}
	for _, c := range []struct {
		kind     Kind
		mm, inch string
	}{
		{ScrubRadius, "5 to 31.75 mm", "0.19685 to 1 1/4 in"},
		{CamberGain, "at least −0.03 deg/mm", "at least −0.762 deg/in"},
		{RideToe, "at most 0.15 deg, from 35 mm droop to 40 mm bump", "at most 0.15 deg, from 1.37795 in droop to 1.5748 in bump"},
		{RollCentreMovement, "at most 70 mm, to 25.4 mm droop", "at most 2.75591 in, to 1 in droop"},
		{Caster, "at most 7.5 deg", "at most 7.5 deg"},
	} {
		r, ok := Asked(&asked, c.kind)
		if got := r.Text(c.kind, units.Millimetre); !ok || got != c.mm {
			t.Errorf("%q, want %q", got, c.mm)
		}
		if got := r.Text(c.kind, units.Inch); got != c.inch {
			t.Errorf("%q, want %q", got, c.inch)
		}
	}
	asked.RideToe.Over = travel(40, 0)
	if r, _ := Asked(&asked, RideToe); r.Text(RideToe, units.Millimetre) != "at most 0.15 deg, to 40 mm bump" {
		t.Errorf("no droop: %q", r.Text(RideToe, units.Millimetre))
	}
	if _, ok := Asked(&asked, Track); ok {
		t.Error("a track that nobody asked for")
	}
}

// Why a value does not exist is said of its own cause.
func TestWhyNot(t *testing.T) {
	for k := range Count {
		want := "at infinity"
		switch k {
		case ScrubRadius:
			want = "axis is level"
		case CamberGain:
			want = "at a dead point"
		case MotionRatio:
			want = whyNoSpring
		}
		if got := whyNot(k, 1); got != want {
			t.Errorf("kind %d: %q, want %q", k, got, want)
		}
		if got := whyNot(k, 2); got != whyNoReach {
			t.Errorf("kind %d over travel: %q", k, got)
		}
	}
}

func TestResultWords(t *testing.T) {
	for _, c := range []struct {
		r           Result
		value, word string
	}{
		{Result{Kind: ScrubRadius, Verdict: Met, Value: 26.04, Known: true, Low: 23.74, High: 28.34, HasLow: true, HasHigh: true}, "26.0 ± 2.3 mm", "met"},
		{Result{Kind: RideToe, Value: 0.07 * deg, Known: true, Low: 0, High: 0.19 * deg, HasLow: true, HasHigh: true},
			"0.07 (−0.07/+0.12) deg", "not decidable at ±1.5 mm: use a toe gauge"},
		{Result{Kind: RideToe, Verdict: Missed, Why: whyNoReach}, "the linkage does not reach that travel", "not met: the linkage does not reach that travel"},
		{Result{Kind: Track, Value: 1500, Known: true, Low: 1498, High: 1502, HasLow: true, HasHigh: true, Tight: true},
			"1\u2009500.0 ± 2.0 mm", "not decidable at ±1.5 mm: the range is narrower than the measuring error"},
		{Result{Kind: SwingArm, Value: 9000, Known: true, Low: 4000, HasLow: true, Estimate: true}, "at infinity", "not decidable at ±1.5 mm: measure the loaded radius and the points closer"},
		{Result{Kind: SwingArm, Verdict: Missed, Value: -8300, Known: true, Low: -8700, High: -7900, HasLow: true, HasHigh: true},
			"8\u2009300 ± 400 mm outboard", "not met: no instant centre on this side"},
		{Result{Kind: SwingArm, Verdict: Missed, Value: -2e9, Known: true, Low: -3e9, High: -1e9, HasLow: true, HasHigh: true},
			"at infinity, outboard", "not met: no instant centre on this side"},
		{Result{Kind: Caster, Value: 4.5 * deg, Known: true, Why: whyEdge}, "4.5 deg, band not known", "not decidable at ±1.5 mm: " + whyEdge},
	} {
		if got := c.r.ValueText(units.Millimetre); got != c.value {
			t.Errorf("%q, want %q", got, c.value)
		}
		c.r.Points = car.Known{Least: 1.5, Most: 1.5}
		if got := c.r.Words(units.Millimetre); got != c.word {
			t.Errorf("%q, want %q", got, c.word)
		}
	}
}
