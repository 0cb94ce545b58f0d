package cli

import (
	"bytes"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"armscribe/app/units"
)

// inchJob is a job in which every @ stands for so many whole inches and an odd number of
// sixteenths more.
const inchJob = `armscribe: 1.5
name: Wagon in inches
axle: front
units: in
travel: {bump: @2, droop: @2}
rack: {left: @2, right: @2}
targets: {scrub_radius: {min: @0, max: @4}, track: {min: @55}, ride_toe: {max: 2, over: {bump: @1, droop: @1}}}
spacers: {stock: [@0, {thickness: @0, count: 3}], tallest: @1, grip: @1}
toe_gauge: {width: @18}
adjusters:
  - {name: rod end, kind: rod_end, leg: upper_arm_front, thread: {diameter: 3/4, pitch: 16 tpi, engaged: @1}, out: @0, in: @0, sets: caster}
steering: {rack_per_turn: @1, wheel_diameter: @14}
obstacles: [{name: rail, shape: line, at: {x: 14, y: @14, z: 14}, to: {x: -14, y: @14, z: 14}, gap: @0}]
variants:
  - name: as measured
    measured_within: 1/32
    upper_arm: {front_pivot: {x: @4, y: @15, z: @18}, rear_pivot: {x: -4 3/4, y: @15, z: @18}, ball_joint: {x: 0.1, y: @25, z: @19}}
    lower_arm: {front_pivot: {x: @5, y: @13, z: @8}, rear_pivot: {x: -6.2, y: @13, z: @8}, ball_joint: {x: 0.2, y: @25, z: @7}}
    tie_rod: {rack_end: {x: @4, y: @13, z: @9}, outer_end: {x: @4, y: @27, z: @8}}
    hub: {y: @29, z: 12}
    camber: -1.5
    toe: 0.05
    wheel: {tyre: 205/65R15, rim_width: 6 in, offset: @1, loaded_radius: @11}
`

// What was typed in sixteenths is nowhere printed as the decimal that it comes to.
func TestAnInchJobIsPrintedInFractions(t *testing.T) {
	const seed, jobs = 88117, 8
	r := rand.New(rand.NewSource(seed))
	answered := 0
	for n := range jobs {
		var decimals []string
		text := regexp.MustCompile(`@\d+`).ReplaceAllStringFunc(inchJob, func(at string) string {
			var whole int
			fmt.Sscanf(at, "@%d", &whole)
			parts := 16*whole + 1 + 2*r.Intn(8)
			decimals = append(decimals, fmt.Sprintf("%.4f", float64(parts)/16), fmt.Sprintf("%.3f", float64(parts)/16))
			word, _ := units.FormatFraction(float64(parts)*25.4/16, 16)
			return strings.TrimSuffix(word, " in")
		})
		path := filepath.Join(t.TempDir(), "inches.armscribe.yaml")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"check"}, {"readings"}, {"sweep"}, {"diagnose"}, {"gauge"}, {"clearance"}, {"adjust", "--camber=-1"}, {"effort"}, {"joints"}, {"lock"}} {
			var out, problems bytes.Buffer
			if code := Run(append([]string{args[0], path}, args[1:]...), &out, &problems); code > 1 {
				t.Fatalf("seed %d, job %d: %v: %s", seed, n, args, problems.String())
			}
			if out.Len() > 0 {
				answered++
			}
			for _, line := range strings.Split(out.String()+problems.String(), "\n") {
				for _, d := range decimals {
					if regexp.MustCompile(`(^|[^\d.])`+regexp.QuoteMeta(d)+` in\b`).MatchString(line) || strings.HasPrefix(strings.TrimLeft(line, " +\u2212"), d+" ") {
						t.Errorf("seed %d, job %d, %s prints %s: %s", seed, n, args[0], d, line)
					}
				}
			}
		}
	}
	if answered < jobs*6 {
		t.Errorf("only %d answers", answered)
	}
}

// No face prints a length in inches finer than anyone could find: to three decimals.
func TestInchesHaveAtMostThreeDecimals(t *testing.T) {
	const seed, jobs = 40913, 6
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	answered := 0
	for n := range jobs {
		text := regexp.MustCompile(`@\d+`).ReplaceAllStringFunc(inchJob, func(at string) string {
			var whole int
			fmt.Sscanf(at, "@%d", &whole)
			return fmt.Sprintf("%.3f", float64(whole)+0.1+0.8*r.Float64())
		})
		path := filepath.Join(t.TempDir(), "inches.armscribe.yaml")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"check"}, {"readings"}, {"readings", "--travel", "0.73", "--rack", "1"}, {"compare"}, {"sweep", "--format", "table"}, {"diagnose"}, {"tune"}, {"gauge"}, {"clearance"}, {"adjust", "--camber=-1"},
			{"arms", "--upper", "0.37", "--roll", "2"}, {"offsets"}, {"effort"}, {"joints"}, {"lock"}, {"widen", "--by", "1.3"}, {"reach", "--half-track", "31"}} {
			var out, problems bytes.Buffer
			if code := Run(append([]string{args[0], path}, args[1:]...), &out, &problems); code > 1 {
				t.Fatalf("seed %d, job %d: %v: %s", seed, n, args, problems.String())
			}
			if out.Len() > 0 {
				answered++
			}
			for _, table := range strings.Split(out.String()+"\n\n"+problems.String(), "\n\n") {
				head, _, _ := strings.Cut(table, "\n")
				inches := strings.Contains(head, ", in") && !strings.Contains(head, "/in") && !strings.Contains(head, "ratio")
				for _, line := range strings.Split(table, "\n") {
					if fine := regexp.MustCompile(`\d\.\d{4,}( ± [\d.]+)?( in\b|.* in$)`); fine.MatchString(line) || inches && regexp.MustCompile(`\d\.\d{4,}`).MatchString(line) {
						t.Errorf("seed %d, job %d: %s: %s", seed, n, strings.Join(args, " "), line)
					}
				}
			}
		}
	}
	if answered < jobs*14 {
		t.Errorf("only %d answers", answered)
	}
}

// Help knows no job, so that what it names in one system stands there in the other too.
func TestHelpIsInBothSystems(t *testing.T) {
	commands := regexp.MustCompile(`(?m)^  ([a-z]+) <`).FindAllStringSubmatch(answer(t, []string{"--help"}), -1)
	amount := regexp.MustCompile(`\d ?(mm|kg|lb|in)\b`)
	systems := map[string]int{"mm": 1, "kg": 1, "lb": 2, "in": 2}
	if len(commands) < 15 {
		t.Fatalf("%d commands", len(commands))
	}
	for _, c := range commands {
		text := strings.Join(strings.Fields(answer(t, []string{c[1], "--help"})), " ")
		for _, sentence := range regexp.MustCompile(`[.;] |--`).Split(text, -1) {
			said := 0
			for _, m := range amount.FindAllStringSubmatch(sentence, -1) {
				said |= systems[m[1]]
			}
			if said != 0 && said != 3 && !strings.Contains(sentence, "Rim width") {
				t.Errorf("%s: %q", c[1], sentence)
			}
		}
	}
}

// What is wrong with a job in inches, or with what is asked of it, is said in inches.
func TestFaultsOfAnInchJobAreSaidInInches(t *testing.T) {
	good := regexp.MustCompile(`@(\d+)`).ReplaceAllString(inchJob, "${1}.3")
	path := filepath.Join(t.TempDir(), "inches.armscribe.yaml")
	for n, c := range []struct{ from, to, says string }{
		{"", "", ""},
		{"z: 19.3}}\n    lower", "z: 2.3}}\n    lower", "z 2.3 in and 7.3 in"},
		{"{x: 4.3, y: 27.3, z: 8.3}", "{x: 4.3, y: 13.3, z: 9.3}", "0 in apart"},
		{"z: 12}", "z: 700}", "700 in is beyond the limit of 393.7 in"},
		{"loaded_radius: 11.3", "loaded_radius: 19", "half whose diameter is 12.736 in"},
		{"-6.2, y: 13.3, z: 8.3", "5.3, y: 13.3, z: 8.3", "two pivots stand in one place (0 in apart)"},
		{"travel: {bump: 2.3, ", "travel: {bump: 2.3, assumed: [bump], ", ""},
	} {
		text := strings.Replace(good, c.from, c.to, 1)
		if c.from != "" && text == good {
			t.Fatalf("no %q in the job", c.from)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, args := range [][]string{{"check"}, {"readings", "--travel", "9"}, {"arms", "--upper", "-6"}, {"arms", "--lower=19"}, {"sweep", "--to", "11"}, {"diagnose", "--from", "0"}, {"diagnose", "--rack-step", "30"},
			{"tune", "--free", "outer_end.z=3..1"}, {"widen", "--by", "40"}, {"reach", "--half-track", "31", "--spacer", "3..2"}, {"lock"}, {"gauge", "--to", "20"}, {"effort", "--turn", "99"}, {"effort", "--load", "99999"}} {
			var out, problems bytes.Buffer
			Run(append([]string{args[0], path}, args[1:]...), &out, &problems)
			said += problems.String()
			if m := regexp.MustCompile(`.*(\d (mm|kg)\b|[^\d]-0 ).*`).FindString(strings.ReplaceAll(problems.String(), path, "")); m != "" {
				t.Errorf("%d, %s: %s", n, strings.Join(args, " "), m)
			}
		}
		if !strings.Contains(said, c.says) {
			t.Errorf("%q is not said:\n%s", c.says, said)
		}
	}
}
