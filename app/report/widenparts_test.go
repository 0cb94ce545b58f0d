package report

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

func mustWiden(t *testing.T, path string, variant int, spec WidenSpec) *Widened {
	t.Helper()
	w, err := WidenOf(loadJob(t, path), variant, spec)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// printed reads a number as tables print it.
func printed(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.NewReplacer("\u2212", "-", "\u2009", "").Replace(text), 64)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return v
}

// What is printed of each line is what the mechanism says, in the unit asked
// for, and the change is the difference of what stands beside it.
func TestPartsPrintTheTable(t *testing.T) {
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37})
	for unit, scale := range map[units.Unit]float64{units.Millimetre: 1, units.Inch: 25.4} {
		w.Source.Unit = unit
		seen := map[widen.Measure]bool{}
		for _, p := range w.Parts() {
			for _, l := range p.Lines {
				seen[l.Measure] = true
				if l.Unit != unit.String() {
					continue // not a length
				}
				for _, way := range []struct {
					of   WidenWay
					want widen.Value
				}{{l.Spacers, w.Table[l.Measure].Spacers}, {l.Arms, w.Table[l.Measure].Arms}} {
					near(t, l.Name, printed(t, way.of.Value), way.want.Value/scale, 0.06)
					if strings.TrimSuffix(strings.TrimLeft(way.of.Change, "+"), " ") == "" || !strings.HasPrefix(way.of.Band, "± ") {
						t.Errorf("%s: %+v", l.Name, way.of)
					}
					near(t, l.Name, printed(t, strings.TrimPrefix(way.of.Change, "+")), (way.want.Value-w.Table[l.Measure].Before.Value)/scale, 0.06)
				}
			}
		}
		if len(seen) != int(widen.MeasureCount) {
			t.Errorf("%d of %d measures are printed", len(seen), widen.MeasureCount)
		}
	}
}

func TestVerdictsOfTheWays(t *testing.T) {
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37})
	for _, p := range w.Parts() {
		for _, l := range p.Lines {
			switch l.Measure {
			case widen.HalfTrack, widen.Face:
				if l.Spacers.Verdict != WayNone || l.Arms.Verdict != WayNone {
					t.Errorf("%s is wished: %+v", l.Name, l)
				}
			case widen.ScrubRadius, widen.ParkingPull:
				if l.Spacers.Verdict != WayWorse || l.Arms.Verdict != WayOpen {
					t.Errorf("%s: %+v", l.Name, l)
				}
			case widen.RideToeRodKept:
				if l.Spacers.Verdict != WayBetter || l.Arms.Verdict != WayWorse {
					t.Errorf("%s: %+v", l.Name, l)
				}
			}
		}
	}
	n := 0
	for v := WayNone; v < wayVerdicts; v++ {
		n += w.Count(BySpacers, v)
	}
	if n != int(widen.MeasureCount) || w.Count(BySpacers, WayWorse) < 10 || w.Count(ByArms, WayWorse) >= w.Count(BySpacers, WayWorse) {
		t.Errorf("%d verdicts; worse %d and %d", n, w.Count(BySpacers, WayWorse), w.Count(ByArms, WayWorse))
	}
	// Without error of measuring there is nothing open.
	j := loadJob(t, frontJob)
	j.MeasuredWithin = units.Length{}
	exact, err := WidenOf(j, 0, WidenSpec{By: 37})
	if err != nil {
		t.Fatal(err)
	}
	if exact.Count(ByArms, WayOpen) != 0 || exact.Count(ByArms, WaySame) == 0 {
		t.Errorf("open %d, same %d", exact.Count(ByArms, WayOpen), exact.Count(ByArms, WaySame))
	}
}

// A variant of a way is the corner that was compared; the three are free of
// each other's names, and the mixed one adds up.
func TestVariantsOfTheWays(t *testing.T) {
	j := loadJob(t, frontJob)
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37, ScrubMax: 41, HasScrubMax: true})
	list := w.Variants(j, 0, BySpacers, ByArms, ByBoth)
	names := []string{"spacers", "longer arms 2", "spacers and longer arms"} // the demo has its own longer arms
	for i, way := range []Way{BySpacers, ByArms, ByBoth} {
		if list[i].Name != names[i] || list[i].Corner() != w.Corner(way) {
			t.Errorf("%q holds\n%+v, not\n%+v", list[i].Name, list[i].Corner(), w.Corner(way))
		}
	}
	if len(j.Variants) != 3 {
		t.Errorf("the job has %d variants now", len(j.Variants))
	}
	near(t, "scrub radius of both", w.Mixed.ScrubRadius, 41, 1e-9)
	near(t, "spacer and arms", w.Mixed.Spacer+w.Mixed.Arms, 37, 0.05)
	less := mustWiden(t, frontJob, 1, WidenSpec{By: -12})
	if got := less.Variants(j, 1, BySpacers)[0]; got.Name != "thinner spacers" || got.Wheel.Spacer.MM != 38 || !strings.Contains(got.Notes, "12 mm a side narrower than spacers only") {
		t.Errorf("narrower: %+v", got)
	}
}

func TestRefitWords(t *testing.T) {
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37})
	if !w.HasRefit || math.Abs(w.Refit.Y) < 5 {
		t.Fatalf("refit %+v", w.Refit)
	}
	want := "Rack end refitted for the longer arms: " + units.FormatLength(math.Abs(w.Refit.Y), units.Millimetre, 1) + " farther in"
	if got := w.RefitWords(); !strings.HasPrefix(got, want) {
		t.Errorf("%q does not begin with %q", got, want)
	}
	rear := mustWiden(t, rearJob, 0, WidenSpec{By: 38.1})
	if got := rear.RefitWords(); !strings.HasPrefix(got, "Inner end of the toe link refitted") || strings.Contains(got, "mm") {
		t.Error(got)
	}
}
