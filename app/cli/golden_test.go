package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const (
	front = "assets/demo/gravel-estate.armscribe.yaml"
	flat  = "assets/demo/flat-teaching.armscribe.yaml"
	rear  = "assets/demo/rear-toe-link.armscribe.yaml"
	aims  = "testdata/armcalc/front-targets.armscribe.yaml"
	short = "testdata/armcalc/short-form.armscribe.yaml"
)

// goldens are whole answers, each read line by line before it was kept. The
// numbers in them are recomputed by the tests of package report; what stands
// here is how they are printed.
var goldens = []struct {
	file string
	args []string
}{
	{"front-readings", []string{"readings", front}},
	{"front-readings-steered", []string{"readings", front, "--variant", "longer arms", "--travel", "20", "--rack", "-30"}},
	{"front-compare", []string{"compare", front}},
	{"front-check", []string{"check", front}},
	{"front-targets-check", []string{"check", aims}},
	{"front-targets-compare", []string{"compare", aims}},
	{"front-sweep-csv", []string{"sweep", front, "--step", "20"}},
	{"front-sweep-table", []string{"sweep", front, "--format", "table", "--step", "10"}},
	{"front-sweep-rack", []string{"sweep", front, "--over", "rack", "--step", "30", "--travel", "1 in", "--format", "table"}},
	{"front-sweep-roll", []string{"sweep", front, "--over", "roll", "--step", "1", "--format", "table"}},
	{"front-sweep-roll-json", []string{"sweep", front, "--over", "roll", "--from", "-1.5", "--to", "2", "--step", "3", "--format", "json"}},
	{"flat-readings", []string{"readings", flat, "--variant", "tie rod in the arm's plane"}},
	{"flat-compare", []string{"compare", flat}},
	{"flat-sweep-csv", []string{"sweep", flat, "--variant", "tie rod in the arm's plane", "--from", "-30", "--to", "40", "--step", "35"}},
	{"flat-compare-json", []string{"compare", flat, "--format", "json"}},
	{"rear-readings", []string{"readings", rear, "--travel", "1 1/4"}},
	{"rear-readings-json", []string{"readings", rear, "--format", "json"}},
	{"rear-compare", []string{"compare", rear}},
	{"rear-check", []string{"check", rear}},
	{"rear-sweep-table", []string{"sweep", rear, "--format", "table", "--step", "1/2"}},
	{"short-readings", []string{"readings", short, "--rack", "20mm"}},
	{"short-check", []string{"check", short}},
	{"front-diagnose", []string{"diagnose", front}},
	{"front-tune", []string{"tune", front, "--free=outer_end.z=-14..14"}},
	{"front-tune-roll", []string{"tune", front, "--free=outer_end.z=-14..14", "--free=rack_end.y=-10..10", "--over", "roll", "--target", "0.02", "--stack", "1,2,4"}},
	{"rear-tune", []string{"tune", rear, "--free=rack_end.z=-1/2..1/2", "--free=outer_end.z=-1/2..1/2", "--stack=1/32,1/16,1/8", "--target", "-0.02"}},
	{"front-gauge", []string{"gauge", front, "--variant", "longer arms", "--step", "20"}},
	{"rich-gauge", []string{"gauge", rich, "--format", "json", "--step", "35"}},
	{"rear-gauge", []string{"gauge", rear}},
	{"front-fit", []string{"fit", front, "--readings", toe}},
	{"front-adjust", []string{"adjust", front, "--camber", "-1.5", "--caster", "6"}},
	{"rich-adjust", []string{"adjust", rich}},
	{"rich-adjust-toe", []string{"adjust", rich, "--toe", "0.2"}},
	{"front-arms", []string{"arms", front, "--variant", "longer arms", "--lower", "20", "--roll", "2.5"}},
	{"short-arms-json", []string{"arms", short, "--lower=-6", "--upper", "4.5", "--rod", "as-is", "--format", "json"}},
	{"front-widen", []string{"widen", front, "--by", "32", "--scrub-max", "30"}},
	{"rear-widen", []string{"widen", rear, "--by", "1 1/2", "--load", "600lb"}},
	{"short-widen-json", []string{"widen", short, "--by", "20", "--load", "310kg", "--turn", "51", "--steering-wheel", "350", "--format", "json"}},
	{"front-reach", []string{"reach", front, "--half-track", "770", "--scrub-max", "30"}},
	{"rear-reach", []string{"reach", rear, "--face", "36 1/4", "--spacer", "3/8..1 1/2", "--order", "arms"}},
	{"short-reach-json", []string{"reach", short, "--half-track", "760", "--arms=-10..45", "--format", "json"}},
	{"front-effort", []string{"effort", front, "--variant", "spacers only"}},
	{"rear-effort", []string{"effort", rear, "--load", "600lb"}},
	{"short-effort-json", []string{"effort", short, "--load", "310kg", "--turn", "51", "--steering-wheel", "350", "--format", "json"}},
	{"gaps-clearance", []string{"clearance", gaps}},
	{"gaps-clearance-json", []string{"clearance", gaps, "--roll", "3", "--format", "json"}},
	{"front-lock", []string{"lock", front}},
	{"front-lock-csv", []string{"lock", front, "--variant", "longer arms", "--step", "30", "--format", "csv"}},
	{"gaps-lock", []string{"lock", gaps, "--step", "1 in"}},
	{"gaps-lock-json", []string{"lock", gaps, "--step", "62", "--format", "json"}},
	{"front-joints", []string{"joints", front, "--variant", "longer arms"}},
	{"front-offsets", []string{"offsets", front, "--variant", "longer arms"}},
	{"rear-offsets-csv", []string{"offsets", rear, "--format", "csv"}},
	{"front-offsets-json", []string{"offsets", front, "--format", "json"}},
	{"limits-joints", []string{"joints", limits}},
	{"rear-joints-json", []string{"joints", rear, "--format", "json"}},
	{"wheel", []string{"wheel", "205/65R15", "--rim", "6in", "--offset", "18", "--spacer", "12", "--hub", "752", "--before", "195/65R15"}},
	{"wheel-json", []string{"wheel", "205/65R15", "--rim", "6in", "--offset", "20", "--format", "json"}},
	{"wheel-flotation", []string{"wheel", "31x10.50-15", "--rim", "8in", "--offset", "-19", "--before", "235/75R15"}},
	{"wheel-stretched", []string{"wheel", "205/40R17", "--rim", "9.5in", "--offset", "32"}},
	{"help", []string{"--help"}},
	{"help-widen", []string{"widen", "--help"}},
	{"help-reach", []string{"reach", "--help"}},
	{"help-effort", []string{"effort", "--help"}},
	{"help-clearance", []string{"clearance", "--help"}},
	{"help-lock", []string{"lock", "--help"}},
	{"help-joints", []string{"joints", "--help"}},
	{"help-wheel", []string{"wheel", "--help"}},
	{"help-tune", []string{"tune", "--help"}},
	{"help-fit", []string{"fit", "--help"}},
	{"help-check", []string{"check", "--help"}},
	{"help-sweep", []string{"sweep", "--help"}},
	{"completion-bash", []string{"completion", "bash"}},
	{"completion-zsh", []string{"completion", "zsh"}},
	{"completion-fish", []string{"completion", "fish"}},
}

func TestGoldens(t *testing.T) {
	t.Chdir("../..")
	for _, g := range goldens {
		t.Run(g.file, func(t *testing.T) {
			got := answer(t, g.args)
			if again := answer(t, g.args); again != got {
				t.Error("the same command prints something else the second time")
			}
			path := filepath.Join("testdata/armcalc", g.file+".want")
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("%s\nIf the new answer is right, read it and keep it: armcalc %s > %s",
					firstDifference(got, string(want)), quoted(g.args), path)
			}
		})
	}
}

// quoted are arguments as a shell takes them.
func quoted(args []string) string {
	list := slices.Clone(args)
	for i, a := range list {
		if strings.ContainsAny(a, " *$") {
			list[i] = "'" + strings.ReplaceAll(a, "'", `'\\''`) + "'"
		}
	}
	return strings.Join(list, " ")
}

// told is the problem that commands name behind a whole answer.
var told = map[string]string{"clearance": " touches ", "check": ": target not met: "}

// answer is what a command prints. A wheel that touches something is a problem
// behind a whole answer of clearance, a target not met behind one of check.
func answer(t *testing.T, args []string) string {
	t.Helper()
	var out, errs bytes.Buffer
	code := Run(args, &out, &errs)
	if says := told[args[0]]; code == JobProblem && says != "" && strings.Count(errs.String(), says) == strings.Count(errs.String(), "\n") {
		return out.String()
	}
	if code != Fine {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	if errs.Len() > 0 {
		t.Errorf("standard error: %s", errs.String())
	}
	return out.String()
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "got  " + g[i] + "\nwant " + w[i]
		}
	}
	return "one is the beginning of the other"
}
