package cli

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
)

func TestWidenWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	dir := t.TempDir()
	wrongs(t, []wrongCase{
		{"no amount", []string{"widen", front}, WrongUsage, []string{"--by"}},
		{"nothing", []string{"widen", front, "--by", "0"}, WrongUsage, []string{"0 changes nothing"}},
		{"no length", []string{"widen", front, "--by", "wide"}, WrongUsage, []string{`--by: "wide"`}},
		{"wrong unit", []string{"widen", front, "--by", "60in"}, WrongUsage, []string{"1524 mm a side is not within ±500 mm"}},
		{"limit of nothing", []string{"widen", front, "--by", "50", "--scrub-max", "0"}, WrongUsage, []string{"a scrub radius of at most 0 mm is not above 0"}},
		{"limit below nothing", []string{"widen", front, "--by", "50", "--scrub-max", "-45"}, WrongUsage, []string{"at most −45 mm"}},
		{"load in words", []string{"widen", front, "--by", "50", "--load", "heavy"}, WrongUsage, []string{`--load: "heavy" is not a load; write it as 340kg`}},
		{"endless load", []string{"widen", front, "--by", "50", "--load", "Inf"}, WrongUsage, []string{`--load: "Inf" is not above zero`}},
		{"no load", []string{"widen", front, "--by", "50", "--load", "0 N"}, WrongUsage, []string{`"0 N" is not above zero`}},
		{"several at once", []string{"widen", front, "--by", "x", "--turn", "0", "--steering-wheel", "4 m"}, WrongUsage,
			[]string{`--by: "x"`, `--turn: "0" is not above zero`, `--steering-wheel: "4 m"`}},
		{"unknown variant", []string{"widen", front, "--by", "50", "--variant", "x"}, WrongUsage, []string{`has no "x"`}},
		{"no such job", []string{"widen", "none.armscribe.yaml", "--by", "50"}, JobProblem, []string{"none.armscribe.yaml"}},
		{"nowhere to write", []string{"widen", front, "--by", "32", "-o", filepath.Join(dir, "none", "a.armscribe.yaml")}, JobProblem, []string{"none"}},
	})
}

// The demo job holds both ways as somebody typed them: what is written must be
// the same corners, spacers first, and the former file must stay.
func TestWidenWritesBothProposals(t *testing.T) {
	t.Chdir("../..")
	path := filepath.Join(t.TempDir(), "wide.armscribe.yaml")
	good, err := os.ReadFile(front)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, good, 0o600); err != nil {
		t.Fatal(err)
	}
	table := answer(t, []string{"widen", path, "--by", "32", "-o", path})
	if !strings.Contains(table, `written, with variants "spacers +32 mm" and "arms +32 mm"`) {
		t.Errorf("it does not say what was written:\n%s", table)
	}
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"as measured", "spacers only", "longer arms", "spacers +32 mm", "arms +32 mm"}; !slices.Equal(j.Names(), want) {
		t.Fatalf("variants %q", j.Names())
	}
	for typed, made := range map[int]int{1: 3, 2: 4} {
		if a, b := j.Variants[typed].Corner(), j.Variants[made].Corner(); a != b {
			t.Errorf("%s is\n%+v, not as typed\n%+v", j.Variants[made].Name, b, a)
		}
	}
	if bak, err := os.ReadFile(path + ".bak"); err != nil || string(bak) != string(good) {
		t.Errorf("the former file: %v", err)
	}
}

// Without a spacer to take away the arms alone are printed and written, and no
// value of spacers is.
func TestWidenNarrowerThanTheSpacer(t *testing.T) {
	t.Chdir("../..")
	path := filepath.Join(t.TempDir(), "narrow.armscribe.yaml")
	table := answer(t, []string{"widen", front, "--by=-7", "-o", path})
	for _, want := range []string{"Thinner spacers: not possible. There is no spacer to take away", `written, with variant "arms −7 mm"`} {
		if !strings.Contains(table, want) {
			t.Errorf("%q is not in\n%s", want, table)
		}
	}
	var a struct {
		Measures []struct {
			Key           string
			Spacers, Arms struct {
				Value, Change *float64
				Verdict       string
			}
		}
		Clearance struct{ Spacers, Arms []struct{ Name string } }
	}
	if err := json.Unmarshal([]byte(answer(t, []string{"widen", front, "--by=-7", "--format", "json"})), &a); err != nil {
		t.Fatal(err)
	}
	for _, m := range a.Measures {
		if m.Spacers.Value != nil || m.Spacers.Change != nil || m.Spacers.Verdict != "not possible" || m.Arms.Value == nil {
			t.Errorf("%+v", m)
		}
	}
	if len(a.Clearance.Spacers) != 0 || len(a.Clearance.Arms) == 0 || len(a.Measures) < 20 {
		t.Errorf("clearance %+v of %d measures", a.Clearance, len(a.Measures))
	}
}

type widenAnswer struct {
	Measures []struct {
		Key           string
		Unit          string
		Before        *float64 `json:"as_it_is"`
		Spacers, Arms struct {
			Value, Change *float64
			Verdict       string
		}
	}
	Limit *struct {
		Mixed *struct {
			Spacer float64 `json:"spacer_mm"`
			Arms   float64 `json:"arms_mm"`
			Scrub  float64 `json:"scrub_radius_mm"`
		} `json:"both_together"`
	} `json:"scrub_limit"`
}

// What widen says of both ways is what compare says of the variants that hold
// them, and the trade's: spacers take scrub radius along, arms do not.
func TestWidenAgreesWithCompare(t *testing.T) {
	t.Chdir("../..")
	var w widenAnswer
	if err := json.Unmarshal([]byte(answer(t, []string{"widen", front, "--by", "32", "--scrub-max", "30", "--load", "3300N", "--format", "json"})), &w); err != nil {
		t.Fatal(err)
	}
	var c struct {
		Readings []struct {
			Key      string
			Variants []struct{ Value *float64 }
		}
	}
	if err := json.Unmarshal([]byte(answer(t, []string{"compare", front, "--format", "json"})), &c); err != nil {
		t.Fatal(err)
	}
	const within = 1e-7
	seen := 0
	for _, m := range w.Measures {
		for _, r := range c.Readings {
			if r.Key != m.Key {
				continue
			}
			seen++
			for i, v := range []*float64{m.Before, m.Spacers.Value, m.Arms.Value} {
				if v == nil || r.Variants[i].Value == nil || math.Abs(*v-*r.Variants[i].Value) > within {
					t.Errorf("%s: variant %d differs from compare", m.Key, i)
				}
			}
		}
		switch m.Key {
		case "scrub_radius":
			if m.Spacers.Verdict != "worse" || m.Arms.Verdict != "kept" || math.Abs(*m.Spacers.Change-32) > 0.5 || math.Abs(*m.Arms.Change) > within {
				t.Errorf("scrub radius: %+v", m)
			}
		case "spring_force": // near load / motion ratio; the ratio is checked above
			if m.Arms.Verdict != "changes" || *m.Before < 3300 || *m.Before > 2*3300 {
				t.Errorf("spring force: %+v", m)
			}
		}
	}
	if seen < 5 { // half track, scrub radius, camber gain, roll centre, motion ratio
		t.Errorf("%d lines stand in both", seen)
	}
	if m := w.Limit.Mixed; m == nil || math.Abs(m.Scrub-30) > 0.01 || math.Abs(m.Spacer+m.Arms-32) > 0.05 {
		t.Errorf("both together: %+v", w.Limit)
	}
}

// The same load in three units is the same load; a plain number is kg, or lb where
// lengths are in inches, as corner_weight is.
func TestLoadUnits(t *testing.T) {
	for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
		plain := map[units.Unit]string{units.Millimetre: "300", units.Inch: "661.3867865546327"}[unit]
		for text, want := range map[string]float64{"300kg": 2941.995, plain: 2941.995, "661.3867865546327 lb": 2941.995, " 2941.995N": 2941.995} {
			if got, err := forceOf("load", text, unit); err != nil || math.Abs(got-want) > 1e-6 {
				t.Errorf("%q where lengths are in %s: %v, %v", text, unit, got, err)
			}
		}
		w, err := job.ParseWeight(plain, unit)
		if got, _ := forceOf("load", plain, unit); err != nil || math.Abs(w.Kg*report.Gravity-got) > 1e-6 {
			t.Errorf("%s in %s: %v kg on the scales, %v N as a load", plain, unit, w.Kg, got)
		}
	}
	if _, err := forceOf("load", "11024", units.Inch); err == nil || !strings.Contains(err.Error(), "at most 11\u2009023 lb") {
		t.Error(err)
	}
}
