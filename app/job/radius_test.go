package job_test

import (
	"errors"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

// A wheel centre stands between its rim's radius and a little over its tyre's.
// The 285/30R18 of the sample by hand: a rim of 18 in, 457 mm to the nearest
// mm, so 228.5; side walls of 85.5, half up 86, so 314.5 free and 345.95 at most.
func TestTheLoadedRadiusFitsTheTyre(t *testing.T) {
	for _, row := range []struct {
		tyre  string
		mm    float64
		wants []string // of the refusal; none if it is fine
	}{
		{"285/30R18", 228.6, nil},
		{"285/30R18", 345.9, nil},
		{"285/30R18", 228.4, []string{"variants[0].wheel.loaded_radius (as measured) = 228.4 mm", "less than the radius of the rim, 228.5 mm", "or check the tyre size"}},
		{"285/30R18", 346, []string{"346 mm", "more than 1.1 times the radius of the unloaded tyre, 314.5 mm", "measure from the wheel centre"}},
		{"285/30R18", -3, []string{"must be above zero"}},
		// 31 in across on a 15 in rim, 381 mm: 190.5, and 433.07 at most.
		{"31x10.50R15", 433, nil},
		{"31x10.50R15", 433.1, []string{"393.7 mm"}},
		{"31x10.50R15", 190.4, []string{"190.5 mm"}},
	} {
		j, _ := sample(t)
		w := &j.Variants[0].Wheel
		w.Tyre, w.LoadedRadius = row.tyre, job.Given(units.Length{MM: row.mm})
		problems := j.Problems()
		if len(row.wants) == 0 {
			if len(problems) > 0 {
				t.Errorf("%s, %g mm: %v", row.tyre, row.mm, problems)
			}
			continue
		}
		if len(problems) != 1 {
			t.Errorf("%s, %g mm: %d problems: %v", row.tyre, row.mm, len(problems), problems)
			continue
		}
		for _, part := range row.wants {
			if !strings.Contains(problems[0].Error(), part) {
				t.Errorf("%s, %g mm: %q lacks %q", row.tyre, row.mm, problems[0].Error(), part)
			}
		}
	}
}

// With a size that nobody can read, the size alone is reported.
func TestABadTyreHidesTheRadius(t *testing.T) {
	j, _ := sample(t)
	w := &j.Variants[0].Wheel
	w.Tyre, w.LoadedRadius = "285/30Q18", job.Given(units.Length{MM: 97})
	var ps job.Problems
	if err := error(j.Problems()); !errors.As(err, &ps) || len(ps) != 1 || ps[0].Key != "variants[0].wheel.tyre" {
		t.Errorf("%v", ps)
	}
}
