package report

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

const degree = math.Pi / 180

func jobAt(t *testing.T, path string) *job.Job {
	t.Helper()
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func free(f bumpsteer.Freedom, from, to float64) bumpsteer.Free {
	return bumpsteer.Free{Freedom: f, Min: from, Max: to}
}

func tuned(t *testing.T, path string, spec TuneSpec) *Tuned {
	t.Helper()
	r, err := TuneOf(context.Background(), jobAt(t, path), 0, spec)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// largest is the largest change of toe by the poses alone, at other places
// than the cure looked at.
func largest(t *testing.T, c kinematics.Corner, from, to float64) float64 {
	t.Helper()
	const n = 263
	most := 0.0
	for i := range n + 1 {
		h := from + (to-from)*float64(i)/n
		most = max(most, math.Abs(value(t, readingsAt(t, c, h, 0), kinematics.Toe)-c.Toe))
	}
	return most
}

// No place that can be built is better than the cure, and the numbers printed are
// those of the corner that is saved.
func TestTuneAgainstAGrid(t *testing.T) {
	j := jobAt(t, frontJob)
	r := tuned(t, frontJob, TuneSpec{Free: []bumpsteer.Free{free(bumpsteer.OuterEndHeight, -15, 25)}, Goal: bumpsteer.Goal{From: -60, To: 70}})
	var out tuneJSON
	if err := json.Unmarshal([]byte(r.Sheet().JSON()), &out); err != nil {
		t.Fatal(err)
	}
	near(t, "before", out.Before, largest(t, r.Source.Corner, -60, 70)/degree, 1e-4)
	path := filepath.Join(t.TempDir(), "tuned.armscribe.yaml")
	names, err := job.Add(path, "", j, r.Variants(j, 0), false)
	if err != nil {
		t.Fatal(err)
	}
	back := jobAt(t, path)
	last := &back.Variants[len(back.Variants)-1]
	if names[0] != "tuned" || last.Name != names[0] || len(back.Variants) != len(j.Variants)+1 || last.Corner() != r.Result.Corner || !strings.Contains(last.Notes, "outer end height +6.5 mm") {
		t.Errorf("saved %q with notes %q", last.Name, last.Notes)
	}
	back.Variants = back.Variants[:len(j.Variants)]
	if !back.Equal(j) {
		t.Error("the rest of the job changed")
	}
	after := largest(t, last.Corner(), -60, 70)
	near(t, "after", out.After, after/degree, 1e-4)
	near(t, "to", out.Moves[0].To, last.Corner().TieRod.OuterEnd.Z, 1e-6)
	if out.Moves[0].Name != "outer_end.z" || out.Moves[0].From != 246 {
		t.Errorf("%+v", out.Moves[0])
	}
	for mm := -15.0; mm <= 25; mm += tune.BuildStep(units.Millimetre) {
		c := r.Source.Corner
		c.TieRod.OuterEnd.Z += mm
		if v := largest(t, c, -60, 70); v < after-1e-7 {
			t.Errorf("%.3f mm leaves %.9f deg, the cure %.9f", mm, v/degree, after/degree)
		}
	}
	for _, sign := range []float64{1, -1} {
		c := r.Result.Corner
		c.TieRod.OuterEnd.Z += sign
		want, got := largest(t, c, -60, 70)-after, *out.Moves[0].Plus
		if sign < 0 {
			got = *out.Moves[0].Minus
		}
		near(t, "1 mm of building error", got, want/degree, 2e-4)
	}
	// The job's own spacers: 1, 2, 2.5 and 4 mm, 31 mm of grip.
	if len(r.Plan) != 5 || r.Plan[0].Height != 6.5 || r.Plan[0].Bolt != 37.5 {
		t.Errorf("%+v", r.Plan)
	}
	for _, k := range r.Plan {
		c := r.Source.Corner
		c.TieRod.OuterEnd.Z += k.Raise
		near(t, "stack", k.Measure.Change, largest(t, c, -60, 70), 1e-6)
	}
}

// The teaching job is cured to nothing: the rack comes down to the arm's plane.
func TestTuneFlatTeaching(t *testing.T) {
	r := tuned(t, flatJob, TuneSpec{Free: []bumpsteer.Free{free(bumpsteer.RackHeight, -25, 15)}, Goal: bumpsteer.Goal{From: -60, To: 60}})
	near(t, "rack height", r.Result.Moves[0].To, 204, 1e-3)
	near(t, "left", r.Result.After.Change, 0, 1e-7)
	if r.NoPlan != "" || r.Plan != nil {
		t.Errorf("a plan for a height that is fixed: %q", r.NoPlan)
	}
}

// Over roll with a wanted line the measure is the distance from that line, of
// the left wheel's toe to the ground.
func TestTuneOverRoll(t *testing.T) {
	goal := bumpsteer.Goal{Over: bumpsteer.OverRoll, From: -3 * degree, To: 2.5 * degree, Slope: 0.03}
	spec := TuneSpec{Free: []bumpsteer.Free{free(bumpsteer.OuterEndHeight, -15, 25), free(bumpsteer.RackEndSide, -4, 9)}, Goal: goal, Spacers: []bumpsteer.Spacer{{Thickness: 4.5}}}
	r := tuned(t, frontJob, spec)
	distance := func(c kinematics.Corner) float64 {
		most := 0.0
		for i := range 24 {
			roll := goal.From + (goal.To-goal.From)*float64(i)/23
			ax, err := mechanism(t, c).Roll(roll, 0)
			if err != nil {
				t.Fatal(err)
			}
			left, _ := ax.Readings()
			most = max(most, math.Abs(value(t, left, kinematics.Toe)-c.Toe-0.03*roll))
		}
		return most
	}
	before, after := distance(r.Source.Corner), distance(r.Result.Corner)
	near(t, "before", r.Result.Before.Largest, before, 1e-6)
	near(t, "after", r.Result.After.Largest, after, 1e-5)
	// At most 0.02 degrees are given away for smaller moves, and what rounding takes.
	if after > before/5 || after > r.Result.Least+0.03*degree {
		t.Errorf("from %g to %g, least %g", before, after, r.Result.Least)
	}
	for dz := -2.0; dz <= 2; dz += 0.5 {
		for dy := -2.0; dy <= 2; dy += 0.5 {
			c := r.Result.Corner
			c.TieRod.OuterEnd.Z += dz
			c.TieRod.RackEnd.Y += dy
			if y := c.TieRod.RackEnd.Y - 315; y < -4 || y > 9 {
				continue
			}
			if v := distance(c); v < r.Result.Least-2e-6 {
				t.Errorf("%+.1f, %+.1f mm beside it %g is left, the least is %g", dz, dy, v, r.Result.Least)
			}
		}
	}
	if len(r.Plan) == 0 || math.Abs(math.Remainder(r.Plan[0].Height, 4.5)) > 1e-9 {
		t.Errorf("%+v", r.Plan)
	}
	var out tuneJSON
	if err := json.Unmarshal([]byte(r.Sheet().JSON()), &out); err != nil {
		t.Fatal(err)
	}
	near(t, "slope", out.Slope, 0.03, 1e-12)
	near(t, "from", out.From, -3, 1e-9)
	near(t, "travel", out.Diagnosis.To, 752*math.Tan(3*degree), 1e-6)
	text := r.Sheet().String()
	if !strings.Contains(text, "+0.03 deg/deg, toe-in as this side lifts") {
		t.Errorf("%s", text)
	}
}

func TestTuneRefuses(t *testing.T) {
	j := jobAt(t, frontJob)
	goal := bumpsteer.Goal{From: -60, To: 70}
	height := []bumpsteer.Free{free(bumpsteer.OuterEndHeight, -15, 25)}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	for name, c := range map[string]struct {
		ctx  context.Context
		spec TuneSpec
		want error
	}{
		"nothing freed": {context.Background(), TuneSpec{Goal: goal}, bumpsteer.ErrNothingFreed},
		"reversed":      {context.Background(), TuneSpec{Free: []bumpsteer.Free{free(bumpsteer.RackHeight, 5, -5)}, Goal: goal}, bumpsteer.ErrLimits},
		"no rest":       {context.Background(), TuneSpec{Free: height, Goal: bumpsteer.Goal{From: 10, To: 70}}, bumpsteer.ErrRange},
		"out of reach":  {context.Background(), TuneSpec{Free: []bumpsteer.Free{free(bumpsteer.RackEndSide, 345, 347)}, Goal: goal}, kinematics.ErrUnreachable},
		"far travel":    {context.Background(), TuneSpec{Free: height, Goal: bumpsteer.Goal{From: -60, To: 400}}, kinematics.ErrUnreachable},
		"thin spacer":   {context.Background(), TuneSpec{Free: height, Goal: goal, Spacers: []bumpsteer.Spacer{{Thickness: -1}}}, bumpsteer.ErrSpacers},
		"cancelled":     {stopped, TuneSpec{Free: height, Goal: goal}, context.Canceled},
	} {
		if _, err := TuneOf(c.ctx, j, 0, c.spec); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	few := TuneSpec{Free: height, Goal: goal}
	j.Spacers = job.Spacers{}
	r, err := TuneOf(context.Background(), j, 0, few)
	if err != nil || r.Plan != nil || !strings.Contains(r.NoPlan, "no spacers are listed") {
		t.Errorf("%v, %+v", err, r.NoPlan)
	}
	few.Spacers, few.Free = []bumpsteer.Spacer{{Thickness: 2}}, []bumpsteer.Free{free(bumpsteer.OuterEndHeight, -15, 5)}
	if r, err = TuneOf(context.Background(), j, 0, few); err != nil || r.Plan[0].Height != 4 || r.Result.Moves[0].Limit != bumpsteer.AtMax {
		t.Errorf("%v, %+v", err, r)
	}
}

// stations hold both ends, rest, and whole steps between.
func TestStations(t *testing.T) {
	if got := stations(-60, 70, 20); !slices.Equal(got, []float64{-60, -40, -20, 0, 20, 40, 60, 70}) {
		t.Error(got)
	}
	if got := stations(-12.4, 20.3, 20); !slices.Equal(got, []float64{-12.4, 0, 20.3}) {
		t.Error(got) // 20 is all but the end
	}
	for span, want := range map[float64]float64{130: 20, 4.5: 0.5, 8: 1, 100: 10, 0.02: 0.002} {
		near(t, "step", tableSteps(span), want, 1e-12)
	}
}

// The sheet says what the poses say, as angle, length and dials.
func TestGaugeSheetSaysWhatThePosesSay(t *testing.T) {
	j := jobAt(t, "../../testdata/job/format-1.2.armscribe.yaml")
	g, err := GaugeOf(j, 0, Spec{From: 55, To: -45, Step: 25})
	if err != nil {
		t.Fatal(err)
	}
	var at []float64
	for _, l := range g.Lines {
		at = append(at, l.Travel)
		toe := value(t, readingsAt(t, g.Source.Corner, l.Travel, 0), kinematics.Toe)
		near(t, "toe", l.Toe, toe, 1e-12)
		near(t, "change", l.Change.Value, toe-0.05*degree, 1e-12)
		near(t, "length", l.Length, (toe-0.05*degree)*457.2, 1e-9)
		near(t, "dials", l.Dials, 400*(toe-0.05*degree), 1e-9)
	}
	if !slices.Equal(at, []float64{-45, -25, 0, 25, 50, 55}) || len(g.Taken) != 4 {
		t.Errorf("%v, %+v", at, g.Taken)
	}
	near(t, "predicted", g.Taken[1].Predicted.Value, value(t, readingsAt(t, g.Source.Corner, -38.1, 0), kinematics.Toe)-0.05*degree, 1e-12)
	near(t, "read", g.Taken[1].Toe, 2.5/457.2, 1e-12)
	if _, err := GaugeOf(j, 0, Spec{From: -45, To: 55}); !errors.Is(err, ErrSpec) {
		t.Error(err)
	}
	if _, err := GaugeOf(j, 0, Spec{From: -45, To: 555, Step: 100}); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Error(err)
	}
	j.Variants[0].ToeReadings[0].Travel.MM = 800
	if _, err := GaugeOf(j, 0, Spec{From: -45, To: 55, Step: 10}); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Error(err)
	}
}

func frontReadings(t *testing.T, j *job.Job) []tune.Taken {
	t.Helper()
	text, err := os.ReadFile("../../testdata/armcalc/front-toe.csv")
	if err != nil {
		t.Fatal(err)
	}
	list, err := tune.ParseReadings("front-toe.csv", string(text), tune.SetupOf(j, 0).Gauge)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// The readings were made from the demo with its rack end 6 mm higher, gauge
// zeros of 0.04 and -0.03 deg, noise of 0.02 deg, rounded to 0.01. The fit
// names the rack height with that error in its band, and what it says of each
// reading follows from the fitted corner alone.
func TestFitFindsTheRack(t *testing.T) {
	j := jobAt(t, frontJob)
	f, err := FitOf(j, 0, frontReadings(t, j), false, false)
	if err != nil {
		t.Fatal(err)
	}
	var out fitJSON
	if err := json.Unmarshal([]byte(f.Sheet().JSON()), &out); err != nil {
		t.Fatal(err)
	}
	found := false
	for _, c := range out.Corrections {
		if !(c.Sigma > 0 && c.Sigma <= c.Prior+1e-12) || math.Abs(c.Prior-1/math.Sqrt(3)) > 1e-9 {
			t.Errorf("%+v", c)
		}
		if c.Point != "rack_end" || c.Axis != "z" {
			continue
		}
		found = c.Mismeasured || c.Rival
		near(t, "rack height alone", c.Alone.Value, 6, *c.Alone.Band)
		near(t, "correction", f.Result.Corner.TieRod.RackEnd.Z-281, c.MM, 1e-9)
	}
	if !found || !f.Result.Mismeasured {
		t.Errorf("the rack is not suspected: %+v", out.Corrections)
	}
	near(t, "left zero", out.Zeros[0].Deg, 0.04, *out.Zeros[0].Band)
	near(t, "right zero", out.Zeros[1].Deg, -0.03, *out.Zeros[1].Band)
	sum := 0.0
	for i, r := range out.Residuals {
		zero := out.Zeros[i/12]
		toe := value(t, readingsAt(t, f.Result.Corner, r.Travel, 0), kinematics.Toe)/degree - 0.08
		near(t, "fitted", r.Fitted, toe+zero.Deg, 1e-9)
		near(t, "residual", r.Residual, r.Read-r.Fitted, 1e-9)
		near(t, "as measured", r.AsMeasured, value(t, readingsAt(t, f.Source.Corner, r.Travel, 0), kinematics.Toe)/degree-0.08, 1e-9)
		if r.Bad || r.Side != []string{"left", "right"}[i/12] {
			t.Errorf("%+v", r)
		}
		sum += r.Residual * r.Residual
	}
	if rms := math.Sqrt(sum / 24); rms < 0.01 || rms > 0.03 {
		t.Errorf("%.4f deg are left of noise of 0.02", rms)
	}
	// The true car, 6 mm up, asks for this raise.
	c := f.Source.Corner
	c.TieRod.RackEnd.Z += 6
	d, err := bumpsteer.Diagnose(c, kinematics.Evenly(0), -60, 70)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "raise", out.Raise.Value, d.Raise.Value, 1.5**out.Raise.Band)

	path := filepath.Join(t.TempDir(), "fitted.armscribe.yaml")
	if names, err := job.Add(path, path, j, f.Variants(j, 0), false); err != nil || names[0] != "fitted" {
		t.Fatal(err)
	}
	if back := jobAt(t, path); back.Variants[3].Corner() != f.Result.Corner || back.Variants[3].ToeReadings != nil {
		t.Error("the fitted corner is not what is saved")
	} else {
		keptFit(t, back, f)
	}
}

// keptFit: what the gauge taught stays with the fitted variant in its file, and goes
// with its points.
func keptFit(t *testing.T, j *job.Job, f *Fitted) {
	t.Helper()
	d, err := DiagnoseOf(j, 3, 5, -f.Source.Droop, f.Source.Bump)
	if err != nil {
		t.Fatal(err)
	}
	got, want := &d.Diagnosis, &f.Result.Advice
	for _, k := range [][2]bumpsteer.Banded{{got.Slope, want.Slope}, {got.Bow, want.Bow}, {got.Raise, want.Raise}} {
		near(t, "value kept", k[0].Value, k[1].Value, 1e-12)
		near(t, "band kept", k[0].Half/k[1].Half, 1, 1e-6)
	}
	if !(got.Slope.Half < f.Before.Slope.Half/2) || !strings.Contains(d.Sheet().String(), "readings that they were fitted to") {
		t.Errorf("slope ± %g, by the tape ± %g:\n%s", got.Slope.Half, f.Before.Slope.Half, d.Sheet().String())
	}
	v := j.Variants[3]
	former := v
	v.Notes = "something else"
	if v.Measured(&former); len(v.FittedTo) == 0 {
		t.Error("a note lets go of the readings")
	}
	v.TieRod.RackEnd.Z.MM += 0.5
	if v.Measured(&former); v.FittedTo != nil || j.Variants[3].FittedTo == nil {
		t.Error("a moved point is known as the old one was")
	}
	if p := j.Variants[3].Proposal("p"); p.FittedTo != nil {
		t.Error("a proposal was never read")
	}
}

// Questions are asked before anything is fitted; taken as they are, the odd
// reading is flagged, and can be left out.
func TestFitAsks(t *testing.T) {
	j := jobAt(t, frontJob)
	list := frontReadings(t, j)
	list[16].Toe *= 25.4
	if _, err := FitOf(j, 0, list, false, false); !errors.Is(err, tune.ErrDoubt) || !strings.Contains(err.Error(), "line 18") || !strings.Contains(err.Error(), "--as-read") {
		t.Errorf("%v", err)
	}
	f, err := FitOf(j, 0, list, true, true)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range f.Result.Residuals {
		if r.LeftOut != (i == 16) {
			t.Errorf("%s: left out %v", f.Taken[i].Place, r.LeftOut)
		}
	}
	if f.used() != 23 || !strings.Contains(f.Sheet().String(), "bad reading, left out") {
		t.Errorf("%d are used", f.used())
	}
	f, err = FitOf(j, 0, list, true, false)
	if err != nil || f.used() != 24 || !strings.Contains(f.Sheet().String(), "bad reading?") {
		t.Errorf("%v", err)
	}
	if _, err := FitOf(j, 0, nil, false, false); !errors.Is(err, bumpsteer.ErrTooFewReadings) || !strings.Contains(err.Error(), "toe_readings") {
		t.Error(err)
	}
	if _, err := FitOf(j, 0, list[:2], false, false); !errors.Is(err, bumpsteer.ErrTooFewReadings) {
		t.Error(err)
	}
	list = frontReadings(t, j)
	list[4].Travel = 900
	if _, err := FitOf(j, 0, list, true, false); !errors.Is(err, kinematics.ErrUnreachable) || !strings.Contains(err.Error(), "line 6") {
		t.Error(err)
	}
}

// Diagnosis, ideal rack end and fan are printed as package bumpsteer has them;
// the fan's present curve is the toe curve itself.
func TestDiagnosed(t *testing.T) {
	d, err := DiagnoseOf(jobAt(t, rearJob), 0, 5, -40, 60)
	if err != nil {
		t.Fatal(err)
	}
	var out diagnoseJSON
	if err := json.Unmarshal([]byte(d.Sheet().JSON()), &out); err != nil {
		t.Fatal(err)
	}
	if len(out.Fans) != 3 || out.Fans[2].Name != "rack_end.x" || out.Fans[0].Name != "rack_end.z" || out.Fans[1].Name != "rack_end.y" || strings.Contains(d.Sheet().String(), " rack") {
		t.Errorf("%s", d.Sheet().String())
	}
	for _, f := range out.Fans {
		for _, k := range f.Curves {
			c := d.Source.Corner
			switch f.Name {
			case "rack_end.z":
				c.TieRod.RackEnd.Z += k.Move
			case "rack_end.y":
				c.TieRod.RackEnd.Y += k.Move
			default:
				c.TieRod.RackEnd.X += k.Move
			}
			for i := 0; i < len(k.At); i += 17 {
				near(t, "fan", k.Toe[i], (value(t, readingsAt(t, c, k.At[i], 0), kinematics.Toe)-c.Toe)/degree, 1e-9)
			}
		}
	}
	near(t, "slope in inches", out.Diagnosis.Parts[0].Per.Value, d.Diagnosis.Slope.Value/degree, 1e-12)
	if _, err := DiagnoseOf(jobAt(t, rearJob), 0, 5, 5, 60); !errors.Is(err, bumpsteer.ErrRange) {
		t.Error(err)
	}
	if _, err := DiagnoseOf(jobAt(t, rearJob), 0, 5, -40, 600); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Error(err)
	}
}

// A move of which the tape cannot tell the way is not told as one to make.
func TestAMoveThatTheTapeCannotTellIsNotAdvised(t *testing.T) {
	j := jobAt(t, "../../assets/demo/gravel-estate.armscribe.yaml")
	for _, within := range []float64{0.2, 60} {
		next := j.Clone()
		next.MeasuredWithin.MM = within
		a, err := TuneOf(t.Context(), next, 0, TuneSpec{Free: []bumpsteer.Free{{Freedom: bumpsteer.OuterEndHeight, Min: -25, Max: 25}}, Goal: bumpsteer.Goal{From: -40, To: 40}})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := a.Sheet().Says, map[bool]string{true: "Raise the outer end by ", false: "Not decidable at ±"}[within < 1]; !strings.HasPrefix(got, want) {
			t.Errorf("measured within %g mm: %q", within, got)
		}
	}
}
