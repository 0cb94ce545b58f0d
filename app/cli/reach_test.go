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
)

func TestReachWrongUsage(t *testing.T) {
	t.Chdir("../..")
	wrongs(t, []wrongCase{
		{"no wish", []string{"reach", front}, WrongUsage, []string{"--half-track or --face, one of the two"}},
		{"two wishes", []string{"reach", front, "--half-track", "780", "--face", "905"}, WrongUsage, []string{"one of the two"}},
		{"no length", []string{"reach", front, "--face", "flush"}, WrongUsage, []string{`--face: "flush"`}},
		{"no track", []string{"reach", front, "--half-track", "-780"}, WrongUsage, []string{"a half track of −780 mm is not above 0"}},
		{"no range", []string{"reach", front, "--half-track", "780", "--spacer", "25"}, WrongUsage, []string{`--spacer: "25" is not A..B, as 0..25`}},
		{"spacer below zero", []string{"reach", front, "--half-track", "780", "--spacer", "-5..25"}, WrongUsage, []string{"the thinnest spacer, −5 mm, is not between 0 mm and 25 mm"}},
		{"arms crossed", []string{"reach", front, "--half-track", "780", "--arms", "40..10"}, WrongUsage, []string{"the shortest the arms may grow, 40 mm"}},
		{"limit of nothing", []string{"reach", front, "--half-track", "780", "--scrub-max", "0"}, WrongUsage, []string{"a scrub radius of at most 0 mm"}},
		{"several at once", []string{"reach", front, "--half-track", "x", "--spacer", "y", "--arms", "1..z"}, WrongUsage, []string{`--half-track: "x"`, `--spacer: "y"`, `--arms: "z"`}},
		{"no such job", []string{"reach", "none.armscribe.yaml", "--half-track", "780"}, JobProblem, []string{"none.armscribe.yaml"}},
	})
}

// What cannot be reached is printed with the nearest that can, and is a
// problem; nothing is written then.
func TestReachOutOfReach(t *testing.T) {
	t.Chdir("../..")
	path := filepath.Join(t.TempDir(), "far.armscribe.yaml")
	var out, errs bytes.Buffer
	if code := Run([]string{"reach", front, "--half-track", "861", "-o", path}, &out, &errs); code != JobProblem {
		t.Errorf("exit code %d", code)
	}
	if !strings.Contains(errs.String(), "armcalc: the wished track is not reached: the nearest in the track is “less offset”") || !strings.Contains(out.String(), "NOT REACHED: half track") {
		t.Errorf("%s%s", out.String(), errs.String())
	}
	if _, err := os.Stat(path); !os.IsNotExist(err) {
		t.Errorf("a file was written: %v", err)
	}
}

// What reach writes has the track that was wished, by what readings say.
func TestReachWritesTheBest(t *testing.T) {
	t.Chdir("../..")
	path := filepath.Join(t.TempDir(), "wide.armscribe.yaml")
	table := answer(t, []string{"reach", front, "--half-track", "783", "--scrub-max", "39", "--arms", "-10..70", "--order", "arms", "-o", path})
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	last := j.Variants[len(j.Variants)-1].Name
	if !strings.Contains(table, "written, with variant \""+last+"\"") {
		t.Errorf("it does not say what was written:\n%s", table)
	}
	var r struct {
		Readings []struct {
			Key   string
			Value *float64
		}
	}
	if err := json.Unmarshal([]byte(answer(t, []string{"readings", path, "--variant", last, "--format", "json"})), &r); err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, q := range r.Readings {
		switch {
		case q.Key == "half_track" && q.Value != nil:
			seen++
			if math.Abs(*q.Value-783) > 0.01 {
				t.Errorf("half track %v", *q.Value)
			}
		case q.Key == "scrub_radius" && q.Value != nil:
			seen++
			if math.Abs(*q.Value) > 39+1e-6 {
				t.Errorf("scrub radius %v", *q.Value)
			}
		}
	}
	if seen != 2 {
		t.Errorf("%d of 2 readings", seen)
	}
}
