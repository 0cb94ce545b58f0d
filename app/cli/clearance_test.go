package cli

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

const gaps = "testdata/job/format-1.3.armscribe.yaml"

// gapsWith writes the job with obstacles changed.
func gapsWith(t *testing.T, from, to string) string {
	t.Helper()
	good, err := os.ReadFile(gaps)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(good), from, to, 1)
	if text == string(good) {
		t.Fatalf("%s is not in the job", from)
	}
	path := filepath.Join(t.TempDir(), "gaps.armscribe.yaml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestClearanceWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	wrongs(t, []wrongCase{
		{"no job", []string{"clearance"}, WrongUsage, []string{`expected "<job>"`}},
		{"unknown variant", []string{"clearance", gaps, "--variant", "x"}, WrongUsage, []string{`has no "x"`}},
		{"roll of a length", []string{"clearance", gaps, "--roll", "3 mm"}, WrongUsage, []string{"--roll"}},
		{"roll too far", []string{"clearance", gaps, "--roll", "31"}, WrongUsage, []string{`--roll: "31" is not within ±30 degrees`}},
		{"negative gap", []string{"clearance", gapsWith(t, "gap: 12", "gap: -12")}, JobProblem, []string{"obstacles[0].gap = -12 mm: is not between 0 mm and 500 mm"}},
		{"no tyre size", []string{"clearance", gapsWith(t, "205/65R15", "slick")}, JobProblem, []string{"variants[0].wheel.tyre (as measured) = slick: not a size this program reads"}},
		{"no damper", []string{"clearance", gapsWith(t, "    spring:\n      carried_by: lower_arm\n      moving_end: {x: -22, y: 566, z: 224}\n      body_end: {x: -30, y: 456, z: 560}\n", "")},
			JobProblem, []string{`obstacle "damper body": is part of a damper, but the corner has none`}},
	})
}

// An obstacle inside the tyre at rest is said behind the answer.
func TestObstacleInsideTheTyre(t *testing.T) {
	t.Chdir("../..")
	var out, errs bytes.Buffer
	code := Run([]string{"clearance", gapsWith(t, "at: {x: -120, y: 560, z: 610}", "at: {x: -120, y: 700, z: 510}")}, &out, &errs)
	if code != JobProblem || !strings.Contains(out.String(), "INSIDE TYRE OR RIM AT REST") {
		t.Errorf("exit code %d\n%s", code, out.String())
	}
	if got := errs.String(); strings.Count(got, "\n") != 1 || !strings.Contains(got, `variant "as measured": obstacle "inner wing": stands`) || !strings.Contains(got, "mm inside tyre or rim at rest; check its place") {
		t.Errorf("%q", got)
	}
}

// What does not fit into the rim is said behind the answer too.
func TestABrakeThatDoesNotPassThroughTheRim(t *testing.T) {
	t.Chdir("../..")
	job := gapsWith(t, "obstacles:", "brake: {diameter: 333, gap: 4}\nobstacles:")
	raw, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(job, bytes.Replace(raw, []byte("armscribe: 1.3"), []byte("armscribe: 1.4"), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	code := Run([]string{"clearance", job, "--format", "json"}, &out, &errs)
	var a struct {
		Inside []struct {
			Name    string
			Gap     float64 `json:"gap_mm"`
			Wish    float64 `json:"wished_mm"`
			Kept    bool
			Housing *float64 `json:"housing_mm"`
		} `json:"inside_the_rim"`
	}
	if err := json.Unmarshal(out.Bytes(), &a); err != nil || len(a.Inside) != 4 {
		t.Fatalf("%v\n%s%s", err, out.String(), errs.String())
	}
	// The barrel of a 15 in rim is 336 mm by estimate.
	if b := a.Inside[3]; b.Name != "brake" || b.Gap != 1.5 || b.Wish != 4 || b.Kept || b.Housing != nil {
		t.Errorf("%+v", b)
	}
	if e := a.Inside[0]; e.Name != kinematics.OuterEnd.String() || e.Housing == nil || *e.Housing != 32 || !e.Kept {
		t.Errorf("%+v", e)
	}
	if code != JobProblem || !strings.Contains(errs.String(), "does not pass through the rim") {
		t.Errorf("exit code %d, %q", code, errs.String())
	}
}

type gapAnswer struct {
	Obstacles []struct {
		Name   string
		Gap    float64 `json:"gap_mm"`
		Wish   float64 `json:"wished_mm"`
		Kept   bool
		Travel float64 `json:"travel_mm"`
		Rack   float64 `json:"rack_mm"`
		Roll   float64 `json:"roll_deg"`
		Rest   float64 `json:"gap_at_rest_mm"`
	}
}

func gapsOf(t *testing.T, args ...string) gapAnswer {
	t.Helper()
	var a gapAnswer
	if err := json.Unmarshal([]byte(answer(t, append([]string{"clearance"}, append(args, "--format", "json")...))), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// The point's gap against all places of a fine net, tried one by one with a tyre
// written down here: 205/65R15 on 6 in is 647 mm across and 209 mm wide, the
// tread 0.75 of 205, the shoulder as wide as 0.95 of what is left.
func TestClearanceAgainstEveryPlace(t *testing.T) {
	t.Chdir("../..")
	a := gapsOf(t, gaps)
	wing := a.Obstacles[0]
	body := clearance.Tyre{Radius: 323.5, Section: 209, Tread: 153.75, Shoulder: 0.95 * 27.625, Widest: 323.5 - 66.5}
	j, err := job.Load(gaps)
	if err != nil {
		t.Fatal(err)
	}
	corner := j.Variants[0].Corner()
	m, err := kinematics.New(&corner)
	if err != nil {
		t.Fatal(err)
	}
	point := j.Obstacles[0].At.Vec()
	at := func(travel, rack float64) float64 {
		p, err := m.At(travel, rack)
		if err != nil {
			t.Fatal(err)
		}
		return body.Gap(&p, point)
	}
	least := math.Inf(1)
	for travel := -60.0; travel <= 70; travel += 1.25 {
		for rack := -62.0; rack <= 62; rack += 1.55 {
			least = min(least, at(travel, rack))
		}
	}
	const within = 0.05
	if wing.Gap > least+1e-6 || least > wing.Gap+within {
		t.Errorf("least gap %v, tried one by one %v", wing.Gap, least)
	}
	if d := at(wing.Travel, wing.Rack) - wing.Gap; math.Abs(d) > 1e-6 {
		t.Errorf("there it is %v more", d)
	}
	if d := at(0, 0) - wing.Rest; math.Abs(d) > 1e-9 || wing.Kept || wing.Wish != 12 || wing.Roll != 0 {
		t.Errorf("%+v", wing)
	}
	if damper := a.Obstacles[4]; damper.Wish != clearance.DefaultWish {
		t.Errorf("unless given a gap of %v is wished", damper.Wish)
	}
	// The caliper in the barrel, square to the spin axis but for 1.5 degrees:
	// (381 - 45) / 2 less its place off the axis less its half diameter.
	if caliper := a.Obstacles[3]; math.Abs(caliper.Gap-(168-math.Hypot(96, 402-315)-22)) > 1 || caliper.Travel != 0 || caliper.Rack != 0 {
		t.Errorf("%+v", caliper)
	}
	if rolled := gapsOf(t, gaps, "--roll", "-3"); rolled.Obstacles[1].Gap > a.Obstacles[1].Gap {
		t.Errorf("roll makes room: %v, %v", rolled.Obstacles[1].Gap, a.Obstacles[1].Gap)
	}
}

// Wider by longer arms: what the upright carries goes along, the body is left
// farther behind. Wider by spacers: the barrel slides along the
// spin axis, over a caliper that is well inside it.
func TestClearanceOfBothWays(t *testing.T) {
	t.Chdir("../..")
	path := filepath.Join(t.TempDir(), "wide.armscribe.yaml")
	answer(t, []string{"widen", gaps, "--by", "25", "-o", path})
	before, spacers, arms := gapsOf(t, path), gapsOf(t, path, "--variant", "spacers +25 mm"), gapsOf(t, path, "--variant", "arms +25 mm")
	const same = 1e-6
	if d := arms.Obstacles[3].Gap - before.Obstacles[3].Gap; math.Abs(d) > same {
		t.Errorf("the caliper's gap changes by %v with the arms", d)
	}
	if d := spacers.Obstacles[3].Gap - before.Obstacles[3].Gap; math.Abs(d) > same {
		t.Errorf("the caliper's gap to the barrel changes by %v as the rim slides along its axis", d)
	}
	for i, name := range map[int]string{0: "inner wing", 1: "chassis rail"} {
		if b, s, a := before.Obstacles[i], spacers.Obstacles[i], arms.Obstacles[i]; b.Name != name || !(s.Rest > b.Rest) || !(a.Rest > b.Rest) {
			t.Errorf("%s at rest: %v, %v with spacers, %v with arms", name, b.Rest, s.Rest, a.Rest)
		}
	}
}
