package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/newjob"
	"armscribe/app/units"
)

// What an answer rests on is said at its top, and in words that say what to do; of a job
// that is measured whole none is said.
func TestAnswersSayWhatTheyRestOn(t *testing.T) {
	f := newjob.Form{Axle: job.Front, Units: units.Millimetre}
	f.Typed[newjob.Track] = "1433"
	r, err := newjob.Make(f)
	if err != nil {
		t.Fatal(err)
	}
	r.Job.Targets.ScrubRadius = job.LengthRange{Max: job.Given(units.Length{MM: 30})}
	folder := t.TempDir()
	path := func(name string) string {
		data, err := r.Job.Encode()
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(folder, name)
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return file
	}
	assumed := path("assumed.yaml")
	r.Job.Variants[0].Assumed, r.Job.Travel.Assumed, r.Job.Rack.Assumed = 0, job.Sides{}, job.Sides{}
	measured := path("measured.yaml")
	for _, c := range []struct {
		args  string
		words string
		atTop bool
	}{
		{"diagnose JOB", "Rests on assumed values: ", true},
		{"tune JOB --free outer_end.z=-15..25", "Rests on assumed values: ", true},
		{"clearance JOB", "Rests on assumed values: ", true},
		{"effort JOB", "Bands are those of the points, which are measured or assumed, alone.", false},
		{"readings JOB", "needs camber", false},
		{"readings JOB --format json", `"needs": "needs camber"`, false},
		{"check JOB", " mm, assumed", false},
		{"check JOB", "not decidable while it rests on assumed values", false},
		{"check JOB", "+60 mm (assumed), rack 60 mm right to 60 mm left (assumed)", false},
		{"readings JOB", "Over the travel of the job: that is assumed", false},
	} {
		answer := func(file string) string {
			var out, err bytes.Buffer
			Run(strings.Fields(strings.Replace(c.args, "JOB", file, 1)), &out, &err)
			if out.Len() == 0 {
				t.Fatalf("%s: %s", c.args, err.String())
			}
			return out.String()
		}
		if text := answer(assumed); c.atTop && !strings.HasPrefix(second(text), c.words) || !strings.Contains(text, c.words) {
			t.Errorf("%s does not say %q:\n%.600s", c.args, c.words, text)
		}
		if text := answer(measured); strings.Contains(text, c.words) {
			t.Errorf("%s says %q of what is measured", c.args, c.words)
		}
	}
}

// second is a text from its second line on: what is said next to the title.
func second(text string) string {
	_, rest, _ := strings.Cut(text, "\n")
	return rest
}
