package report

import (
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
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
				if l.Before.Unit(unit) != unit.String() {
					continue // not a length
				}
				for _, way := range []struct {
					of   WidenWay
					want widen.Value
				}{{l.Spacers, w.Table[l.Measure].Spacers}, {l.Arms, w.Table[l.Measure].Arms}} {
					most := 0.06 // half of the last digit printed
					value, _ := strings.CutSuffix(way.of.Value.Value(unit), " "+unit.String())
					change, _ := strings.CutSuffix(way.of.Change.Value(unit), " "+unit.String())
					if !strings.Contains(value, ".") {
						most = 0.51
					}
					near(t, l.Name, printed(t, value), way.want.Value/scale, most)
					if strings.TrimSuffix(strings.TrimLeft(change, "+"), " ") == "" || !strings.HasPrefix(way.of.Change.Half(unit), "± ") {
						t.Errorf("%s: %+v", l.Name, way.of)
					}
					near(t, l.Name, printed(t, strings.TrimPrefix(change, "+")), (way.want.Value-w.Table[l.Measure].Before.Value)/scale, 0.06)
				}
			}
		}
		if len(seen) != int(widen.MeasureCount) {
			t.Errorf("%d of %d measures are printed", len(seen), widen.MeasureCount)
		}
	}
}

// count is how many lines get a verdict by a way that is not ByBoth.
func count(w *Widened, way Way, v targets.Trend) (n int) {
	for _, p := range w.Parts() {
		for i := range p.Lines {
			if [...]WidenWay{p.Lines[i].Spacers, p.Lines[i].Arms}[way].Verdict == v {
				n++
			}
		}
	}
	return n
}

func TestVerdictsOfTheWays(t *testing.T) {
	j := loadJob(t, frontJob)
	j.Targets = job.Targets{}
	check := func(want map[widen.Measure][2]targets.Trend) *Widened {
		t.Helper()
		w, err := WidenOf(j, 0, WidenSpec{By: 37})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range w.Parts() {
			for _, l := range p.Lines {
				if of, asked := want[l.Measure]; asked && of != [2]targets.Trend{l.Spacers.Verdict, l.Arms.Verdict} {
					t.Errorf("%s: %v, %v; want %v", l.Name, l.Spacers.Verdict, l.Arms.Verdict, of)
				}
			}
		}
		return w
	}
	w := check(map[widen.Measure][2]targets.Trend{
		widen.HalfTrack: {}, widen.Face: {}, // what is wished
		widen.ScrubRadius: {targets.Worse, targets.Kept}, widen.ParkingPull: {targets.Worse, targets.Kept},
		widen.RideToeRodKept: {targets.Better, targets.Worse},
		widen.CamberGain:     {targets.Changed, targets.Changed}, widen.MotionRatio: {targets.Changed, targets.Changed},
	})
	if got := w.Sum(ByArms); !strings.HasPrefix(got, "scrub radius kept, as built ± 3.3 mm, rim pull while braking kept, as built ± 1.9 N, motion ratio −") {
		t.Error(got)
	}
	// An aim says which way is better, and may say otherwise than less is better.
	j.Targets.ScrubRadius = job.LengthRange{Min: job.Given(units.Length{MM: 40})}
	j.Targets.CamberGain = job.SlopeRange{Max: job.OptionalSlope{Slope: job.Slope{Degrees: -0.017, Per: units.Millimetre}, Given: true}}
	check(map[widen.Measure][2]targets.Trend{
		widen.ScrubRadius: {targets.Better, targets.Kept}, widen.CamberGain: {targets.AsGood, targets.Worse}, widen.RollCentre: {targets.Changed, targets.Changed},
	})
	// Without error of measuring nothing is undecided.
	j.Targets, j.MeasuredWithin = job.Targets{}, units.Length{}
	exact := check(nil)
	if count(exact, ByArms, targets.Open) != 0 || count(exact, ByArms, targets.Kept) == 0 {
		t.Errorf("open %d, kept %d", count(exact, ByArms, targets.Open), count(exact, ByArms, targets.Kept))
	}
}

// A wheel set far in has its contact inboard of the steering axis. Moved out
// past it, the axis lies on the other side: of a smaller scrub radius nobody can
// say that it is better, for the wheel that drags now pulls to the other side.
// Moved out by less it is.
func TestASignThatTurnsIsNotBetter(t *testing.T) {
	j := loadJob(t, frontJob)
	j.Targets = job.Targets{}
	j.Variants[0].Wheel.Offset = units.Length{MM: 52}
	for by, want := range map[float64]targets.Trend{41.7: targets.Turned, 11.9: targets.Better} {
		w, err := WidenOf(j, 0, WidenSpec{By: by})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range w.Parts() {
			for _, l := range p.Lines {
				switch l.Measure {
				case widen.ScrubRadius, widen.BrakingMoment, widen.BrakingRack, widen.BrakingPull:
					if l.Spacers.Verdict != want {
						t.Errorf("%s by %g: %v from %s to %s, want %v", l.Name, by, l.Spacers.Verdict, l.Before.Text(units.Millimetre), l.Spacers.Value.Text(units.Millimetre), want)
					}
				case widen.ParkingPull: // the ground resists either way
					if l.Spacers.Verdict == targets.Turned {
						t.Errorf("%s by %g turns", l.Name, by)
					}
				}
			}
		}
	}
}

// A variant of a way is the corner that was compared; the three are free of
// each other's names, and the mixed one adds up.
func TestVariantsOfTheWays(t *testing.T) {
	j := loadJob(t, frontJob)
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37, ScrubMax: 41, HasScrubMax: true})
	list := w.Variants(j, 0, BySpacers, ByArms, ByBoth)
	names := []string{"spacers +37 mm", "arms +37 mm", w.VariantName(ByBoth)}
	for i, way := range []Way{BySpacers, ByArms, ByBoth} {
		if list[i].Name != names[i] || list[i].Corner() != w.Corner(way) {
			t.Errorf("%q holds\n%+v, not\n%+v", list[i].Name, list[i].Corner(), w.Corner(way))
		}
	}
	if len(j.Variants) != 3 {
		t.Errorf("the job has %d variants now", len(j.Variants))
	}
	near(t, "scrub radius of both", w.Mixed.ScrubRadius, 41, layOut)
	near(t, "spacer and arms", w.Mixed.Spacer+w.Mixed.Arms, 37, 0.05)
	less := mustWiden(t, frontJob, 1, WidenSpec{By: -12})
	if got := less.Variants(j, 1, BySpacers)[0]; got.Name != "spacers \u221212 mm" || got.Wheel.Spacer.MM != 20 || !strings.Contains(got.Notes, "12 mm a side narrower than spacers only") {
		t.Errorf("narrower: %+v", got)
	}
}

func TestRefitWords(t *testing.T) {
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37})
	if !w.HasRefit || math.Abs(w.Refit.Z) < 5 {
		t.Fatalf("refit %+v", w.Refit)
	}
	want := "Rack end refitted for the longer arms: " + units.Built.Length(w.Refit.Y, units.Millimetre) + " farther out, " + units.Built.Length(-w.Refit.Z, units.Millimetre) + " lower"
	if got := w.refitWords(units.Millimetre); !strings.HasPrefix(got, want) {
		t.Errorf("%q does not begin with %q", got, want)
	}
	rear := mustWiden(t, rearJob, 0, WidenSpec{By: 38.1})
	if got := rear.refitWords(units.Inch); !strings.HasPrefix(got, "Inner end of the toe link refitted") || strings.Contains(got, "mm") {
		t.Error(got)
	}
}

// A value has no digit that its own band hides, and is printed alike wherever it
// stands: here, among forces and among readings.
func TestAValueHasTheDigitsOfItsOwnBand(t *testing.T) {
	j := loadJob(t, frontJob)
	w := mustWiden(t, frontJob, 0, WidenSpec{By: 37})
	readings, err := ReadingsOf(SourceOf(j, 0), figures.Position{})
	if err != nil {
		t.Fatal(err)
	}
	efforts, err := EffortsOf(j, 0, Loading{})
	if err != nil {
		t.Fatal(err)
	}
	want := map[widen.Measure][2]string{}
	for measure, q := range map[widen.Measure]kinematics.Quantity{widen.HalfTrack: kinematics.HalfTrack, widen.ScrubRadius: kinematics.ScrubRadius, widen.RollCentre: kinematics.RollCentreHeight} {
		l := readings.Find(q.String())
		want[measure] = [2]string{strings.TrimSuffix(l.Cell().Value(units.Millimetre), " mm"), l.Cell().Half(units.Millimetre)}
	}
	for i, measure := range []widen.Measure{widen.ParkingRack, widen.BrakingRack, widen.BumpRack} {
		for n := range efforts.Cases[i].Lines {
			if l := &efforts.Cases[i].Lines[n]; l.Key == "rack" {
				want[measure] = [2]string{strings.TrimSuffix(l.size().Value(units.Millimetre), " N"), l.size().Half(units.Millimetre)}
			}
		}
	}
	seen := 0
	for _, p := range w.Parts() {
		for _, l := range p.Lines {
			if of, ok := want[l.Measure]; ok {
				seen++
				value, _ := strings.CutSuffix(l.Before.Value(units.Millimetre), " "+l.Before.Unit(units.Millimetre))
				if got := [2]string{value, l.Before.Half(units.Millimetre)}; of != got {
					t.Errorf("%s: %s, elsewhere %s", l.Name, got, of)
				}
			}
		}
	}
	if seen != len(want) || seen != 6 {
		t.Errorf("%d of %d values", seen, len(want))
	}
}

// What is said of the gaps is what armcalc clearance says of the variant kept.
func TestClearanceOfTheWays(t *testing.T) {
	j := loadJob(t, frontJob)
	j.Obstacles[5].Gap = job.Given(units.Length{MM: 20}) // the one nearest anyway, now too near
	w, err := WidenOf(j, 0, WidenSpec{By: 50})
	if err != nil {
		t.Fatal(err)
	}
	next := j.Clone()
	next.Variants = append(next.Variants, w.Variants(j, 0, BySpacers, ByArms)...)
	for i, way := range []Way{BySpacers, ByArms} {
		c, err := ClearanceOf(next, len(j.Variants)+i, 0)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for k := range c.Result.Answers {
			near(t, "gap", w.Clear[way].Gaps.Result.Answers[k].Gap, c.Result.Answers[k].Gap, 1e-9)
			least = min(least, c.Result.Answers[k].Gap)
		}
		says := units.FormatNumber(math.Abs(least), 1) + " mm"
		if least < 0 {
			says += " deep"
		}
		if line := w.clearance().Lines[i].Text; !strings.Contains(line, says) || strings.Contains(line, "TOUCHES") != (least < 0) {
			t.Errorf("%q does not say %q", line, says)
		}
	}
	bare := j.Clone()
	bare.Obstacles = nil
	free, err := WidenOf(bare, 0, WidenSpec{By: 50})
	if err != nil {
		t.Fatal(err)
	}
	if got := free.clearance().Lines; len(got) != 2 || !strings.Contains(got[1].Text, "upper ball joint") {
		t.Errorf("no obstacles: %+v", got)
	}
}

// Farther in than the spacer is thick there are the arms alone.
func TestNarrowerThanTheSpacer(t *testing.T) {
	j := loadJob(t, frontJob)
	w := mustWiden(t, frontJob, 0, WidenSpec{By: -10, ScrubMax: 45, HasScrubMax: true})
	if w.Has(BySpacers) || w.HasMixed || w.Limits[ByArms].Verdict != LimitKept || w.Clear[ByArms].Gaps == nil {
		t.Errorf("spacers %t, mixed %t, %+v", w.Has(BySpacers), w.HasMixed, w.Limits)
	}
	path := filepath.Join(t.TempDir(), "narrow.armscribe.yaml")
	names, err := job.Add(path, "", j, w.Variants(j, 0, w.Ways()...), false)
	if err != nil || !slices.Equal(names, []string{"arms \u221210 mm"}) {
		t.Errorf("saved %q: %v", names, err)
	}
	text := w.Sheet().String()
	for _, want := range []string{"Thinner spacers: not possible. There is no spacer to take away", "thinner spacers: not possible\n", "shorter arms: 9.3 ± 2.4 mm, within"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
}
