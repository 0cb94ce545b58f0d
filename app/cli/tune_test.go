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
	"armscribe/app/report"
)

const (
	rich    = "testdata/job/format-1.2.armscribe.yaml"
	toe     = "testdata/armcalc/front-toe.csv"
	height  = "outer_end.z=-15..25"
	onlyHub = "--free=" + height
)

func TestTuningWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	dir := t.TempDir()
	csv := func(name, text string) string {
		path := filepath.Join(dir, name+".csv")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const good = "travel_mm,toe_deg\n-50,0.5\n-25,0.22\n0,0\n30,-0.24\n60,-0.4\n"
	for _, c := range []struct {
		name string
		args []string
		code int
		says []string // one for each line of standard error
	}{
		{"limits reversed", []string{"tune", front, "--free", "outer_end.z=25..-15"}, WrongUsage, []string{"outer end height from +25 to -15 mm: are the wrong way round"}},
		{"no room", []string{"tune", front, "--free", "rack_end.z=3..3"}, WrongUsage, []string{"leave no room to move"}},
		{"freed twice", []string{"tune", front, "--free", height, "--free", height}, WrongUsage, []string{"is freed twice"}},
		{"unknown coordinate", []string{"tune", front, "--free", "hub.z=0..5"}, WrongUsage, []string{"there are outer_end.z, outer_end.y, outer_end.x, rack_end.z, rack_end.y, rack_end.x"}},
		{"no limits", []string{"tune", front, "--free", "outer_end.z"}, WrongUsage, []string{"is not NAME=A..B"}},
		{"one limit", []string{"tune", front, "--free", "outer_end.z=4"}, WrongUsage, []string{"is not NAME=A..B"}},
		{"limits that are no lengths", []string{"tune", front, "--free", "outer_end.z=a..5", "--free", "rack_end.z=1..b"}, WrongUsage, []string{`"a"`, `"b"`}},
		{"slope that is none", []string{"tune", front, onlyHub, "--target", "3 mm"}, WrongUsage, []string{"--target"}},
		{"slope of another thing", []string{"tune", front, onlyHub, "--over", "roll", "--target", "x"}, WrongUsage, []string{"--target"}},
		{"steep wish", []string{"tune", front, onlyHub, "--target", "300"}, WrongUsage, []string{"check the number and its unit"}},
		{"stack of words", []string{"tune", front, onlyHub, "--stack", "1,thick,2"}, WrongUsage, []string{`--stack: "thick"`}},
		{"blank in a stack", []string{"tune", front, onlyHub, "--stack", "1,,2"}, WrongUsage, []string{"--stack: \"\": nothing is entered"}},
		{"thin stack", []string{"tune", front, onlyHub, "--stack", "0"}, WrongUsage, []string{"spacer of 0 mm"}},
		{"stack without height", []string{"tune", front, "--free", "rack_end.z=-5..5", "--stack", "1"}, WrongUsage, []string{"--stack: spacers raise or lower the outer end; free it too"}},
		{"range without rest", []string{"tune", front, onlyHub, "--from", "10"}, WrongUsage, []string{"must run from below zero to above zero"}},
		{"roll too far", []string{"tune", front, onlyHub, "--over", "roll", "--to", "50"}, WrongUsage, []string{"must lie within ±30 degrees"}},
		{"unreachable box", []string{"tune", front, "--free", "rack_end.y=345..347"}, JobProblem, []string{`variant "as measured": `}},
		{"unreachable range", []string{"tune", front, onlyHub, "--to", "400"}, JobProblem, []string{`variant "as measured": `}},
		{"nowhere to write", []string{"tune", front, onlyHub, "-o", filepath.Join(dir, "none", "a.armscribe.yaml")}, JobProblem, []string{"none"}},
		{"unknown variant", []string{"tune", front, onlyHub, "--variant", "x"}, WrongUsage, []string{`has no "x"`}},
		{"diagnosis without rest", []string{"diagnose", front, "--from", "5"}, WrongUsage, []string{"must run from below zero to above zero"}},
		{"diagnosis out of reach", []string{"diagnose", front, "--to", "400"}, JobProblem, []string{`variant "as measured": `}},

		{"no step", []string{"gauge", front, "--step", "0"}, WrongUsage, []string{"the step must be above zero"}},
		{"gauge out of reach", []string{"gauge", front, "--to", "400"}, JobProblem, []string{"the linkage assembles from"}},
		{"no readings", []string{"fit", front}, JobProblem, []string{"no readings are given"}},
		{"no such file", []string{"fit", front, "--readings", filepath.Join(dir, "no.csv")}, JobProblem, []string{"no.csv"}},
		{"folder", []string{"fit", front, "--readings", dir}, JobProblem, []string{"is not an ordinary file"}},
		{"blank", []string{"fit", front, "--readings", csv("blank", strings.Replace(good, "0.22", "", 1))}, JobProblem, []string{"blank.csv:3: toe_deg is blank; fill it in, or take the line out"}},
		{"no header", []string{"fit", front, "--readings", csv("bare", good[strings.Index(good, "\n")+1:])}, JobProblem, []string{"is no column", "is no column"}},
		{"too few", []string{"fit", front, "--readings", csv("few", good[:strings.Index(good, "30,")])}, JobProblem, []string{"2 readings away from rest: take at least 3"}},
		{"twenty times the others", []string{"fit", front, "--readings", csv("odd", strings.Replace(good, "0.22", "7.5", 1))}, JobProblem, []string{"line 3, travel −25.0 mm: toe 7.500 deg, where the points predict", "put it right, or take the readings as they are with --as-read"}},
		{"doubled", []string{"fit", front, "--readings", csv("twice", good+"30,-0.24\n")}, JobProblem, []string{"line 7, travel +30.0 mm: the same as line 5: was it written down twice?", "--as-read"}},
		{"out of reach", []string{"fit", front, "--as-read", "--readings", csv("far", good+"500,1\n")}, JobProblem, []string{"line 7: reading 6"}},
		{"no adjusters", []string{"adjust", flat}, JobProblem, []string{"the job states no adjusters"}},
		{"wish that is no angle", []string{"adjust", front, "--camber", "3 mm", "--caster", "x"}, WrongUsage, []string{"--camber", "--caster"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			if code := Run(c.args, &out, &errs); code != c.code || out.Len() > 0 {
				t.Errorf("exit code %d, want %d; it prints %q", code, c.code, out.String())
			}
			lines := strings.Split(strings.TrimSuffix(errs.String(), "\n"), "\n")
			if len(lines) != len(c.says) {
				t.Fatalf("%d lines, want %d:\n%s", len(lines), len(c.says), errs.String())
			}
			for i, line := range lines {
				if !strings.HasPrefix(line, "armcalc: ") || !strings.Contains(line, c.says[i]) {
					t.Errorf("%q does not say %q", line, c.says[i])
				}
			}
		})
	}
	if left, err := filepath.Glob(filepath.Join(dir, "*.yaml*")); err != nil || len(left) > 0 {
		t.Errorf("written all the same: %v (%v)", left, err)
	}
}

// The tuned corner is the last variant of the file written, and a sweep of it
// has the largest change of toe that the answer states. Readings in another
// order, or in inches, give the same fit.
func TestWhatIsWrittenIsWhatIsSaid(t *testing.T) {
	t.Chdir("../..")
	path := filepath.Join(t.TempDir(), "out.armscribe.yaml")
	text := answer(t, []string{"tune", front, "--free=" + height, "--free", "rack_end.y = -1/2 in .. 3/4 in", "-o", path, "--format", "json"})
	var out struct {
		Before float64 `json:"before_max_toe_change_deg"`
		After  float64 `json:"after_max_toe_change_deg"`
		Moves  []struct {
			Name string  `json:"name"`
			From float64 `json:"from_mm"`
			To   float64 `json:"to_mm"`
		} `json:"moves"`
	}
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	sweep := func(file, variant string) float64 {
		var rows []struct {
			Toe float64 `json:"toe_deg"`
		}
		if err := json.Unmarshal([]byte(answer(t, []string{"sweep", file, "--variant", variant, "--step", "0.5", "--format", "json"})), &rows); err != nil {
			t.Fatal(err)
		}
		most := 0.0
		for _, r := range rows {
			most = max(most, math.Abs(r.Toe-0.08))
		}
		return most
	}
	if got := sweep(front, "as measured"); math.Abs(got-out.Before) > 1e-4 {
		t.Errorf("before %g, a sweep says %g", out.Before, got)
	}
	if got := sweep(path, "tuned"); math.Abs(got-out.After) > 1e-4 || out.After > out.Before/5 {
		t.Errorf("after %g, a sweep says %g", out.After, got)
	}
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	last := &j.Variants[len(j.Variants)-1]
	if len(out.Moves) != 2 || out.Moves[1].Name != "rack_end.y" || out.Moves[1].From != 315 || math.Abs(last.TieRod.RackEnd.Y.MM-out.Moves[1].To) > 1e-6 {
		t.Errorf("%+v, written %+v", out.Moves, last.TieRod)
	}
	// Once more onto the same file: nothing is lost.
	if got := answer(t, []string{"fit", path, "--readings", toe, "-o", path}); !strings.HasSuffix(got, `written, with variant "fitted"`+"\n") || !strings.Contains(got, report.Caution) {
		t.Errorf("it ends with %q", got[max(0, len(got)-80):])
	}
	again, err := job.Load(path)
	if err != nil || len(again.Variants) != len(j.Variants)+1 || again.Variants[len(j.Variants)-1].Corner() != last.Corner() {
		t.Errorf("%v", err)
	}
	if _, err := os.Stat(path + ".bak"); err != nil {
		t.Error(err)
	}
}

func TestReadingsInAnotherOrderAndUnit(t *testing.T) {
	t.Chdir("../..")
	dir := t.TempDir()
	fitted := func(name, text string) map[string]float64 {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		var out struct {
			Corrections []struct {
				Point, Axis string
				MM          float64 `json:"mm"`
				Sigma       float64 `json:"sigma_mm"`
			}
			Residuals []struct{}
			Notes     []string
		}
		if err := json.Unmarshal([]byte(answer(t, []string{"fit", front, "--readings", path, "--format", "json"})), &out); err != nil {
			t.Fatal(err)
		}
		if mixed := strings.Contains(strings.Join(out.Notes, " "), "not in order of travel"); mixed != (name == "mixed.csv") || len(out.Residuals) != 6 {
			t.Errorf("%s: %q", name, out.Notes)
		}
		by := map[string]float64{}
		for _, c := range out.Corrections {
			by[c.Point+"."+c.Axis] = c.MM
		}
		return by
	}
	base := fitted("base.csv", "travel_mm,toe_deg\n-50.8,0.62\n-25.4,0.3\n0,0.02\n12.7,-0.12\n25.4,-0.25\n50.8,-0.48\n")
	if len(base) < 20 || base["rack_end.z"] == 0 {
		t.Fatalf("%v", base)
	}
	// 520 mm of gauge: a degree is 520 * pi / 180 mm.
	inches := "travel_in,toe_in\n"
	for _, r := range [][2]float64{{-2, 0.62}, {-1, 0.3}, {0, 0.02}, {0.5, -0.12}, {1, -0.25}, {2, -0.48}} {
		inches += trim(r[0]) + "," + trim(r[1]*math.Pi/180*520/25.4) + "\n"
	}
	for name, text := range map[string]string{
		"mixed.csv":  "toe_deg,travel_mm\n-0.12,12.7\n0.62,-50.8\n-0.48,50.8\n0.02,0\n0.3,-25.4\n-0.25,25.4\n",
		"inches.csv": inches,
	} {
		for key, mm := range fitted(name, text) {
			if math.Abs(mm-base[key]) > 1e-5 {
				t.Errorf("%s: %s by %g, not %g", name, key, mm, base[key])
			}
		}
	}
}

func trim(v float64) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(b)
}

// An answer that is a problem is whole all the same.
func TestAdjustersThatDoNotReach(t *testing.T) {
	t.Chdir("../..")
	var out, errs bytes.Buffer
	if code := Run([]string{"adjust", front, "--camber", "-9"}, &out, &errs); code != JobProblem || !strings.Contains(out.String(), "not met together") || !strings.Contains(errs.String(), "Camber −9.000 deg, nearest") {
		t.Errorf("exit code %d\n%s\n%s", code, out.String(), errs.String())
	}
}
