package report

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/widen"
)

// wheelsToBeHad puts wheels of its own into a job, so that no change of a demo
// moves the tests.
func wheelsToBeHad(t *testing.T) *job.Job {
	t.Helper()
	j := loadJob(t, frontJob)
	length := func(mm float64) units.Length { return units.Length{MM: mm} }
	j.Brake = job.Brake{Diameter: job.Given(length(303)), Gap: job.Given(length(6))}
	j.Wheels = []job.WheelChoice{
		{Name: "the same", Tyre: "205/65 R15", RimWidth: length(152.4), Offset: length(18), LoadedRadius: job.Given(length(308))},
		{Name: "deep", Tyre: "215/60R15", RimWidth: length(165.1), Offset: length(-17)},
		{Name: "small", Tyre: "185/60R14", RimWidth: length(139.7), Offset: length(31)}, // barrel of 356 - 45
	}
	return j
}

func mustReach(t *testing.T, j *job.Job, variant int, spec ReachSpec) *Reached {
	t.Helper()
	r, err := ReachOf(j, variant, spec)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func reachSpec(to float64, byFace bool, scrub float64) ReachSpec {
	s := ReachSpec{Wish: UsualReach(units.Millimetre)}
	s.To, s.ByFace, s.ScrubMax, s.HasScrubMax = to, byFace, scrub, scrub > 0
	return s
}

// layOut is what a way is laid out in, mm.
const layOut = 0.01

// What an answer promises, its variant has, whatever wheel it stands on.
func TestReachAnswersAreTheirVariants(t *testing.T) {
	j := wheelsToBeHad(t)
	for _, spec := range []ReachSpec{reachSpec(771, false, 0), reachSpec(913, true, 58), reachSpec(771, false, 47)} {
		r := mustReach(t, j, 0, spec)
		if len(r.Wheels) != 3 { // the same wheel twice is one
			t.Fatalf("wheels %+v", r.Wheels)
		}
		if n, _ := r.Reaching(); n == 0 || r.Missed() != nil {
			t.Errorf("nothing reaches %+v: %v", spec.Wish, r.Missed())
		}
		for i, a := range r.Answers {
			v := r.Variant(j, 0, i)
			readings := readingsAt(t, v.Corner(), 0, 0)
			near(t, v.Name+" half track", value(t, readings, kinematics.HalfTrack), a.HalfTrack, 1e-8)
			near(t, v.Name+" scrub radius", value(t, readings, kinematics.ScrubRadius), a.ScrubRadius, 1e-8)
			body, ok := clearance.TyreOf(&v)
			if !ok {
				t.Fatalf("%s has no tyre", v.Name)
			}
			pose, err := mechanism(t, v.Corner()).At(0, 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, v.Name+" face", body.Face(&pose), a.Face, 1e-8)
			got := a.HalfTrack
			if spec.ByFace {
				got = a.Face
			}
			near(t, v.Name+" wish", spec.To-got, a.Short, layOut)
			if a.Reaches() && spec.HasScrubMax && math.Abs(a.ScrubRadius) > spec.ScrubMax+1e-6 {
				t.Errorf("%s: scrub radius %g over %g", v.Name, a.ScrubRadius, spec.ScrubMax)
			}
			if i > 0 && r.Answers[i-1].rank() > a.rank() {
				t.Errorf("%s stands behind a worse one", v.Name)
			}
			next := j.Clone()
			next.Variants = append(next.Variants, v)
			if problems := next.Problems(); len(problems) > 0 {
				t.Errorf("%s: %v", v.Name, problems)
			}
		}
	}
}

// The scrub radius of an answer on its very limit is not decidable, one far
// under it is kept.
func TestReachSaysWhatIsOpen(t *testing.T) {
	j := wheelsToBeHad(t)
	r := mustReach(t, j, 0, reachSpec(797, false, 47))
	open, kept := false, false
	for i := range r.Answers {
		a := &r.Answers[i]
		note, rank := r.note(a), r.row(i, false)[0].Text(units.Millimetre)
		switch {
		case a.Reaches() && math.Abs(a.ScrubRadius-47) < layOut:
			open = true
			if !strings.Contains(note, "the band spans the limit") || a.Scrub != LimitOpen {
				t.Errorf("%s %+v", note, a)
			}
		case a.Reaches() && a.ScrubRadius < 40:
			kept = true
			if a.Scrub != LimitKept || strings.Contains(note, "scrub") {
				t.Errorf("%s %+v", note, a)
			}
		}
		if (rank == "") == a.Leads() || a.Leads() != (a.Reaches() && a.Wheel.Name != "small") || (a.Wheel.Brake == nil) == (a.Wheel.Name == "small") {
			t.Errorf("%s %+v", note, a)
		}
	}
	if !open || !kept {
		t.Errorf("open %t, kept %t: want both", open, kept)
	}
}

func TestReachSaysWhatIsMissing(t *testing.T) {
	j := wheelsToBeHad(t)
	r := mustReach(t, j, 0, reachSpec(861, false, 33))
	if n, _ := r.Reaching(); n != 0 || !errors.Is(r.Missed(), ErrUnreached) {
		t.Fatalf("reached: %v", r.Missed())
	}
	a := &r.Answers[0]
	if want := "half track " + units.FormatNumber(861-a.HalfTrack, 1) + " mm short"; !strings.Contains(r.Missed().Error(), want) || !strings.Contains(r.note(a), want) {
		t.Errorf("%v does not say %q", r.Missed(), want)
	}
	if want := "the nearest that keeps the scrub limit before the track"; !strings.Contains(r.Missed().Error(), want) {
		t.Errorf("%v does not say %q", r.Missed(), want)
	}
	near(t, "scrub radius of the nearest", a.ScrubRadius, 33, layOut)
	j.Wheels[1].Tyre = "bespoke" // as a job with a measured radius may say
	j.Wheels[1].LoadedRadius = job.Given(units.Length{MM: 309})
	byFace := mustReach(t, j, 0, reachSpec(913, true, 0))
	if len(byFace.Left) != 1 || !strings.Contains(byFace.Sheet(0).String(), "Not looked at: deep: its tyre and rim have no size") {
		t.Errorf("left out: %q", byFace.Left)
	}
	for _, a := range byFace.Answers {
		if a.Wheel.Name == "deep" {
			t.Error("a face without a size")
		}
	}
}

func TestReachRefuses(t *testing.T) {
	j := wheelsToBeHad(t)
	bad := func(change func(s *ReachSpec)) ReachSpec {
		s := reachSpec(771, false, 47)
		change(&s)
		return s
	}
	for name, s := range map[string]ReachSpec{
		"no track":             bad(func(s *ReachSpec) { s.To = 0 }),
		"a track that is none": bad(func(s *ReachSpec) { s.To = math.NaN() }),
		"no scrub":             bad(func(s *ReachSpec) { s.ScrubMax = -3 }),
		"spacer below zero":    bad(func(s *ReachSpec) { s.SpacerMin = -3 }),
		"spacers crossed":      bad(func(s *ReachSpec) { s.SpacerMin = 31 }),
		"arms crossed":         bad(func(s *ReachSpec) { s.ArmsMin = 61 }),
	} {
		if _, err := ReachOf(j, 0, s); !errors.Is(err, ErrWidenSpec) && !errors.Is(err, widen.ErrWiden) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestReachSavesTheBest(t *testing.T) {
	j := wheelsToBeHad(t)
	r := mustReach(t, j, 2, reachSpec(791, false, 0))
	path := filepath.Join(t.TempDir(), "reach.armscribe.yaml")
	names, err := job.Add(path, "", j, []job.Variant{r.Variant(j, 2, 0)}, false)
	if err != nil {
		t.Fatal(err)
	}
	back := loadJob(t, path)
	v, ok := back.Find(names[0])
	if !ok || len(back.Variants) != len(j.Variants)+1 {
		t.Fatalf("%q in %q", names, back.Names())
	}
	near(t, "half track", value(t, readingsAt(t, v.Corner(), 0, 0), kinematics.HalfTrack), 791, layOut)
	var out struct {
		Answers []struct {
			Reaches bool
			Track   float64 `json:"half_track_mm"`
			Arms    float64 `json:"arms_mm"`
		}
	}
	if err := json.Unmarshal([]byte(r.Sheet(0).JSON()), &out); err != nil {
		t.Fatal(err)
	}
	near(t, "half track in the JSON", out.Answers[0].Track, r.Answers[0].HalfTrack, 1e-6)
	near(t, "arms in the JSON", out.Answers[0].Arms, r.Answers[0].Arms, 1e-6)
}

// What is kept has no more figures than a fabricator lays out: hundredths of a
// mm, or thousandths of an inch where the job is in inches.
func TestKeptWaysAreLaidOut(t *testing.T) {
	for unit, decimals := range map[units.Unit]int{units.Millimetre: 2, units.Inch: 3} {
		laid := func(mm float64) float64 {
			out, err := units.Parse(strconv.FormatFloat(units.In(mm, unit), 'f', decimals, 64), unit)
			if err != nil {
				t.Fatal(err)
			}
			return out
		}
		j := wheelsToBeHad(t)
		j.Units = unit
		v := &j.Variants[0]
		c := v.Corner()
		for _, p := range c.Points() {
			at := *c.At(p)
			for _, x := range []*float64{&at.X, &at.Y, &at.Z} {
				*x = laid(*x)
			}
			v.SetPoint(p, at)
		}
		r := mustReach(t, j, 0, reachSpec(783.3, false, 45.1))
		w, err := WidenOf(j, 0, WidenSpec{By: laid(37.31), ScrubMax: 45.1, HasScrubMax: true})
		if err != nil || !w.HasMixed {
			t.Fatal(w, err)
		}
		list := w.Variants(j, 0, BySpacers, ByArms, ByBoth)
		for i := range r.Answers {
			list = append(list, r.Variant(j, 0, i))
		}
		for _, v := range list {
			c := v.Corner()
			numbers := []float64{v.Wheel.Spacer.MM}
			for _, p := range c.Points() {
				numbers = append(numbers, c.At(p).X, c.At(p).Y, c.At(p).Z)
			}
			for _, mm := range numbers {
				text := units.Plain(mm, unit)
				if _, after, _ := strings.Cut(text, "."); len(after) > decimals {
					t.Errorf("%s: %s %s", v.Name, text, unit)
				}
			}
		}
	}
}

// What the message of a miss offers does lead to the wish, and a mark less does
// not.
func TestTheCureOfAMissLeadsThere(t *testing.T) {
	j := wheelsToBeHad(t)
	spec := reachSpec(861, false, 33)
	var far float64
	_, text, ok := strings.Cut(mustReach(t, j, 0, spec).Missed().Error(), "allow arms to +")
	if _, err := fmt.Sscanf(text, "%g mm with", &far); !ok || err != nil {
		t.Fatalf("no cure in %q: %v", text, err)
	}
	for arms, want := range map[float64]bool{far: true, far - 1: false} {
		spec.ArmsMax = arms
		if n, _ := mustReach(t, j, 0, spec).Reaching(); (n > 0) != want {
			t.Errorf("arms to %g mm: %d ways lead there", arms, n)
		}
	}
	short := mustReach(t, j, 0, reachSpec(661, false, 0)).Missed()
	if short == nil || !strings.Contains(short.Error(), "; allow arms from \u2212") {
		t.Errorf("too far out: %v", short)
	}
}

// A way on a wheel that the brake does not pass leads nowhere.
func TestAWayThatTheBrakeBlocksIsNone(t *testing.T) {
	j := wheelsToBeHad(t)
	j.Brake.Diameter = job.Given(units.Length{MM: 457})
	r := mustReach(t, j, 0, reachSpec(771, false, 0))
	n, blocked := r.Reaching()
	if n != 0 || blocked < 3 || !errors.Is(r.Missed(), ErrUnreached) || !strings.Contains(r.Missed().Error(), "the brake does not pass") {
		t.Errorf("%d lead there, %d are blocked: %v", n, blocked, r.Missed())
	}
	for i := range r.Answers {
		if rank := r.row(i, false)[0].Text(units.Millimetre); rank != "" {
			t.Errorf("it has a rank: %s", rank)
		}
	}
}

// A way whose tyre touches what stands around it comes behind those that go free,
// however well it steers, and says what it touches: as the fine sweep of the
// variant kept says it, but for the coarse steps.
func TestAWayThatTouchesComesBehind(t *testing.T) {
	j := opened(t, frontJob)
	r := mustReach(t, j, 0, reachSpec(780, false, 45))
	touched, free := 0, 0
	for i := range r.Answers {
		a := &r.Answers[i]
		if !a.Leads() {
			continue
		}
		if a.Room.InTheWay() {
			touched++
		} else if free++; touched > 0 {
			t.Errorf("way %d goes free and stands behind one that touches", i+1)
		}
		next := j.Clone()
		next.Variants = append(next.Variants, r.Variant(j, 0, i))
		c, err := ClearanceOf(next, len(next.Variants)-1, 0)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for k := range c.Result.Answers {
			least = min(least, c.Result.Answers[k].Gap)
		}
		for k := range c.Rim.Joints {
			least = min(least, c.Rim.Joints[k].Gap)
		}
		if !a.Room.Known() || a.Room.InTheWay() != (least < 0) || a.Room.Words(j.Units) != c.Judged.Words(j.Units) {
			t.Errorf("way %d: %+v, the least gap is %.2f", i+1, a.Room, least)
		}
	}
	if touched == 0 || free == 0 {
		t.Errorf("%d touch and %d go free: want both", touched, free)
	}
	near := slices.IndexFunc(r.Answers, func(a ReachAnswer) bool { return a.Room.Verdict() != clearance.Kept && !a.Room.InTheWay() })
	if near < 1 || r.Answers[0].Room.Verdict() != clearance.Kept || !strings.Contains(r.note(&r.Answers[near]), "TOO NEAR upper ball joint, ") {
		t.Errorf("way %d is the first that comes too near", near+1)
	}
	j.Obstacles = nil
	if text := mustReach(t, j, 0, reachSpec(780, false, 45)).Sheet(0).String(); !strings.Contains(text, "states no obstacles") || strings.Contains(text, "footwell") {
		t.Errorf("without obstacles:\n%s", text)
	}
}

// What is not known of a way's clearance is said, and is no free way.
func TestAWayOfUnknownClearanceSaysSo(t *testing.T) {
	j := opened(t, frontJob)
	j.Variants[0].Wheel.Tyre = "" // of no known size
	j.Wheels = nil
	r := mustReach(t, j, 0, reachSpec(780, false, 0))
	for i := range r.Answers {
		if a := &r.Answers[i]; a.Room.Known() || !strings.Contains(r.note(a), clearance.NotKnown) {
			t.Errorf("%+v: %+v", a.Room, r.note(a))
		}
	}
	if !strings.Contains(r.Sheet(0).JSON(), `"tyre_touches": null`) {
		t.Error("JSON says more than is known")
	}
	j = opened(t, frontJob)
	j.Rack.Left.MM, j.Rack.Right.MM = 150, 150 // the linkage does not go so far
	r = mustReach(t, j, 0, reachSpec(780, false, 0))
	if note := r.note(&r.Answers[0]); !strings.Contains(note, "not all of travel and rack is reached") {
		t.Errorf("beyond the linkage: %q", note)
	}
}

// How far an estimated loaded radius may be off is said as the readings say it:
// no other figure stands beside the answers, and it is in the job's unit.
func TestReachSaysHowFarTheRadiusMayBeOff(t *testing.T) {
	for _, size := range []string{"205/65R15", "31x10.50R15", "155/80R13"} {
		for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
			j := wheelsToBeHad(t)
			j.Units, j.Wheels = unit, nil
			j.Variants[0].Wheel = job.Wheel{Tyre: size, RimWidth: units.Length{MM: 165.1}, Offset: units.Length{MM: 23}}
			s := SourceOf(j, 0)
			off := max(s.Corner.Wheel.LoadedRadius-s.RadiusLow, s.RadiusHigh-s.Corner.Wheel.LoadedRadius)
			want := fmt.Sprintf("likely within %.0f mm either way", off)
			if unit == units.Inch {
				want = fmt.Sprintf("likely within %.1f in either way", off/25.4)
			}
			if text := mustReach(t, j, 0, reachSpec(771, false, 0)).Sheet(0).String(); !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", size, want, text)
			}
		}
	}
}
