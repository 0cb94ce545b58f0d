//go:build e2e

package e2e

import (
	"math"
	"strings"
	"testing"
)

// Whatever step is chosen, the hand goes on in the view, and undo takes it back.
func TestTheHandGoesOnBesideEveryStep(t *testing.T) {
	p := start(t, "gravel-estate")
	p.acceptCautions()
	first := p.read().Readings["ride_toe"]
	for _, step := range []string{"At a glance", "Measure", "Fit", "Arms", "Steering", "Ride", "Check", "Hand over"} {
		p.press(step)
		p.await("the step "+step, func() bool { return p.read().Step == step })
		p.drag("outer tie-rod end", 0, -12)
		p.await("the drag's end in "+step, func() bool { return strings.Contains(p.read().Undo, "outer tie-rod end") })
		p.keep(step)
		if got := p.read(); got.Readings["ride_toe"] <= first+0.002 || got.Step != step {
			t.Errorf("%s: ride toe %g deg/mm before, %g after raising the outer end; step %s", step, first, got.Readings["ride_toe"], got.Step)
		}
		p.key("ctrl+z")
		p.await("undo in "+step, func() bool { return p.read().Undo == "" })
		if got := p.read().Readings["ride_toe"]; math.Abs(got-first) > 1e-12 {
			t.Errorf("%s: after undo ride toe %g, was %g", step, got, first)
		}
	}
}

// From the demo to a corner that is cured, looked at for clearance and joints, and saved:
// in six acts.
func TestACuredCheckedSavedCornerInFewActs(t *testing.T) {
	p := start(t, "gravel-estate")
	p.acceptCautions()
	acts := 0
	act := func(do func()) { acts++; do() }
	act(func() { p.press("Steering") })
	act(func() { p.press("Cure") })
	act(func() { p.press("Keep as a variant") })
	p.await("the cured variant", func() bool { return strings.HasSuffix(p.read().Variant, ", tuned") })
	if toe := p.read().Readings["ride_toe"]; math.Abs(toe) > 0.001 {
		t.Errorf("cured, and yet a ride toe of %g deg/mm", toe)
	}
	act(func() { p.press("Check") })
	act(func() { p.press("Clearance") })
	p.await("gaps that are kept", func() bool {
		gaps := p.room().Gaps
		for _, g := range gaps {
			if !g.Fine || g.Gap < 0 {
				return false
			}
		}
		return len(gaps) > 3
	})
	act(func() { p.key("ctrl+s") })
	p.await("the save", func() bool { return !strings.Contains(p.read().Title, "*") })
	p.sameInFile(p.read())
	t.Logf("%d acts", acts)
	if acts > 6 {
		t.Errorf("%d acts", acts)
	}
}
