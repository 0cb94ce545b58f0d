package cli

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func TestEffortWrongUsageAndProblems(t *testing.T) {
	t.Chdir("../..")
	wrongs(t, []wrongCase{
		{"no job", []string{"effort"}, WrongUsage, []string{`expected "<job>"`}},
		{"no such job", []string{"effort", "none.armscribe.yaml"}, JobProblem, []string{"none.armscribe.yaml"}},
		{"unknown variant", []string{"effort", front, "--variant", "x"}, WrongUsage, []string{`has no "x"`}},
		{"load in words", []string{"effort", front, "--load", "much"}, WrongUsage, []string{`--load: "much" is not a load`}},
		{"load of a lorry", []string{"effort", front, "--load", "60 kN"}, WrongUsage, []string{`"60 kN" is not a load`}},
		{"load beyond all", []string{"effort", front, "--load", "5001"}, WrongUsage, []string{"at most 5000 kg on one wheel"}},
		{"backward steering", []string{"effort", front, "--turn=-45"}, WrongUsage, []string{`--turn: "-45" is not above zero`}},
		{"unknown format", []string{"effort", front, "--format", "csv"}, WrongUsage, []string{"--format"}},
	})
}

type effortAnswer struct {
	Cases []struct {
		Key    string
		Values []struct {
			Key   string
			Value float64
		}
	}
}

// effortValues reads "case.key" to value.
func effortValues(t *testing.T, args ...string) map[string]float64 {
	t.Helper()
	var a effortAnswer
	if err := json.Unmarshal([]byte(answer(t, append([]string{"effort"}, append(args, "--format", "json")...))), &a); err != nil {
		t.Fatal(err)
	}
	of := map[string]float64{}
	for _, c := range a.Cases {
		for _, v := range c.Values {
			of[c.Key+"."+v.Key] = v.Value
		}
	}
	return of
}

// Laws that hold between the numbers: equal work of rack and hand, the formula
// for parking with the scrub radius and trail of armcalc readings, a moment of
// the braking force in proportion to the grip, and all of it to the load.
func TestEffortLaws(t *testing.T) {
	t.Chdir("../..")
	const load, turn, wheel = 2750.0, 53.0, 342.0
	got := effortValues(t, front, "--variant", "spacers only", "--load", "2750N", "--turn", "53", "--steering-wheel", "342")
	near := func(what string, a, b float64) {
		t.Helper()
		if !(math.Abs(a-b) <= 1e-6*(1+math.Abs(b))) {
			t.Errorf("%s: %v, want %v", what, a, b)
		}
	}
	for _, c := range []string{"parking", "braking", "bump"} {
		near(c+": torque", got[c+".wheel_torque"], got[c+".rack"]*turn/1000/(2*math.Pi))
		near(c+": pull", got[c+".rim_pull"], got[c+".wheel_torque"]/(wheel/2000))
	}
	scrub, trail := readingOf(t, "scrub_radius"), readingOf(t, "trail")
	const tread = 0.75 * 205
	near("parking torque, N m", (got["parking.right_moment"]-got["parking.left_moment"])/2,
		0.7*load*math.Sqrt(tread*tread/8+scrub*scrub+trail*trail)/1000)
	lift := (got["parking.right_moment"] + got["parking.left_moment"]) / 2 // of the load alone, the same in braking
	near("grip", (got["braking.left_moment"]-lift)/(got["braking.right_moment"]-lift), 0.8/0.3)

	twice := effortValues(t, front, "--variant", "spacers only", "--load", "5500N", "--turn", "53", "--steering-wheel", "342")
	if len(twice) < 20 {
		t.Fatalf("%d values", len(twice))
	}
	for key, v := range twice {
		near(key+" under twice the load", v, 2*got[key])
	}
}

// readingOf reads one value of the spacers' variant at rest.
func readingOf(t *testing.T, key string) float64 {
	t.Helper()
	var r struct {
		Readings []struct {
			Key   string
			Value *float64
		}
	}
	if err := json.Unmarshal([]byte(answer(t, []string{"readings", front, "--variant", "spacers only", "--format", "json"})), &r); err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Readings {
		if l.Key == key && l.Value != nil {
			return *l.Value
		}
	}
	t.Fatalf("no reading %s", key)
	return 0
}

// A rear axle has no steering wheel and nobody parks it; what is assumed is said
// only where it is.
func TestEffortSaysWhatItAssumes(t *testing.T) {
	t.Chdir("../..")
	rearText := answer(t, []string{"effort", rear, "--load", "300"})
	for _, word := range []string{"Parking", "steering wheel", "Assumed"} {
		if strings.Contains(rearText, word) {
			t.Errorf("a rear axle with its load given says %q", word)
		}
	}
	const silent = "testdata/job/format-1.3.armscribe.yaml" // a job that tells nothing of it
	text := answer(t, []string{"effort", silent, "--load", "300", "--turn", "2in"})
	if strings.Count(text, "Assumed, not of this car") != 1 || !strings.Contains(text, "a steering wheel of 360 mm") {
		t.Errorf("what is assumed:\n%s", text)
	}
	for _, caution := range []string{"INDICATIVE ONLY", "it judges no part's strength", "Geometry only: strength"} {
		if !strings.Contains(text, caution) || !strings.Contains(rearText, caution) {
			t.Errorf("no caution %q", caution)
		}
	}
}

// TestLoadingComesFromTheJob unless it is asked for otherwise, and each answer
// says where every number comes from.
func TestLoadingComesFromTheJob(t *testing.T) {
	t.Chdir("../..")
	const told = "testdata/job/format-1.4.armscribe.yaml" // 772.5 lb, 1 3/4 in a turn, 355 mm
	asked := []string{"--load", "772.5lb", "--turn", "1 3/4in", "--steering-wheel", "355"}
	got, want := effortValues(t, told), effortValues(t, append([]string{told}, asked...)...)
	if len(got) < 20 || len(got) != len(want) {
		t.Fatalf("%d and %d values", len(got), len(want))
	}
	for key, v := range want {
		if math.Abs(got[key]-v) > 1e-9*math.Abs(v) {
			t.Errorf("%s is %v by the job, %v when asked for the same", key, got[key], v)
		}
	}
	for _, command := range [][]string{{"effort", told}, {"widen", told, "--by", "37"}} {
		text := answer(t, command)
		for _, line := range []string{"From the job: 772.5 lb on each wheel.", "From the job: 44.45 mm of rack for a turn of the steering wheel.", "From the job: a steering wheel of 355 mm."} {
			if !strings.Contains(text, line) {
				t.Errorf("%s: no %q in\n%s", command[0], line, text)
			}
		}
		if strings.Contains(text, "Assumed") || !strings.Contains(text, "Forces: 3\u2009436 N on each wheel.") { // 350.4 kg x 9.80665
			t.Errorf("%s:\n%s", command[0], text)
		}
		text = answer(t, append(command, asked...))
		if strings.Contains(text, "From the job") || strings.Contains(text, "Assumed") {
			t.Errorf("%s, all asked for:\n%s", command[0], text)
		}
		text = answer(t, append(command, "--load", "301"))
		if strings.Count(text, "From the job") != 2 || !strings.Contains(text, "Forces: 2\u2009952 N on each wheel.") {
			t.Errorf("%s, load asked for:\n%s", command[0], text)
		}
	}
	var a struct {
		Conditions struct {
			FromTheJob []string `json:"from_the_job"`
			Assumed    []string
		}
	}
	if err := json.Unmarshal([]byte(answer(t, []string{"effort", told, "--turn", "48", "--format", "json"})), &a); err != nil {
		t.Fatal(err)
	}
	if c := a.Conditions; len(c.FromTheJob) != 2 || c.FromTheJob[0] != "772.5 lb on each wheel" || c.Assumed == nil || len(c.Assumed) != 0 {
		t.Errorf("%+v", c)
	}
}
