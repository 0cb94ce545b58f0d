package job_test

import (
	"errors"
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

// A wheel centre stands between its rim's radius and a little over its tyre's.
// The 205/65R15 of the sample by hand: a rim of 15 in, 381 mm, so 190.5; side
// walls of 133.25, to the nearest mm 133, so 323.5 free and 326.735 at most.
func TestTheLoadedRadiusFitsTheTyre(t *testing.T) {
	for _, row := range []struct {
		tyre  string
		mm    float64
		wants []string // of the refusal; none if it is fine
	}{
		{"205/65R15", 190.6, nil},
		{"205/65R15", 326.7, nil},
		{"205/65R15", 190.4, []string{"variants[0].wheel.loaded_radius (as measured) = 190.4 mm", "less than the radius of the rim, 190.5 mm", "or check the tyre size"}},
		{"205/65R15", 326.8, []string{"326.8 mm", "more than a tyre of 205/65R15 can have, half whose diameter is 323.5 mm", "measure from the wheel centre"}},
		// 205/40R17: 432 + 2 x 82 = 596 across.
		{"205/40R17", 304, []string{"304 mm", "half whose diameter is 298 mm", "radius_tyre"}},
		{"205/65R15", -3, []string{"must be above zero"}},
		// 31 in across on a 15 in rim, 381 mm: 190.5, and 397.637 at most.
		{"31x10.50R15", 397.6, nil},
		{"31x10.50R15", 397.7, []string{"393.7 mm"}},
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
	w.Tyre, w.LoadedRadius = "205/65Q15", job.Given(units.Length{MM: 97})
	var ps job.Problems
	if err := error(j.Problems()); !errors.As(err, &ps) || len(ps) != 1 || ps[0].Key != "variants[0].wheel.tyre" {
		t.Errorf("%v", ps)
	}
}

// A radius belongs to the tyre that it was measured with: another size makes it an
// estimate, squashed by the same share of its section height, and the first size
// again brings it back. 205/65R15 is 381 + 2 x 133 across: 305 is 18.5 of 133.
func TestAnotherTyreAnotherRadius(t *testing.T) {
	w := job.Wheel{Tyre: "205/65R15", LoadedRadius: job.Given(units.Length{MM: 305})}
	w.SetTyre("205/65 VR15 94V")
	if r := w.Loaded(); r.Radius != 305 || r.Estimate || w.RadiusTyre != "" {
		t.Errorf("the same size in another spelling: %+v", r)
	}
	w.SetTyre("195/60R15")
	if r := w.Loaded(); math.Abs(r.Radius-(307.5-117*18.5/133)) > 1e-9 || !r.Estimate || w.RadiusTyre != "205/65 VR15 94V" {
		t.Errorf("%+v: %+v", w, r)
	}
	if from := w.LoadedFrom(units.Millimetre); from != "195/60R15 by the 305.0 mm measured with 205/65 VR15 94V" {
		t.Error(from)
	}
	w.SetTyre("215/60R15")
	if w.RadiusTyre != "205/65 VR15 94V" {
		t.Errorf("a third tyre: %+v", w)
	}
	w.SetTyre("205/65R15")
	if r := w.Loaded(); r.Radius != 305 || r.Estimate || w.RadiusTyre != "" {
		t.Errorf("back on the first: %+v", r)
	}
	w.SetTyre("195/60R15")
	w.SetRadius(job.Given(units.Length{MM: 290}))
	if r := w.Loaded(); r.Radius != 290 || r.Estimate {
		t.Errorf("measured again: %+v", r)
	}
}

// A file in which a variant has taken the measured variant's radius over with
// another tyre says so from then on; a radius of its own stays measured, and so does
// one that says what it was measured with.
func TestAFileWithAnInheritedRadius(t *testing.T) {
	j, _ := sample(t)
	path := filepath.Join(t.TempDir(), "a.armscribe.yaml")
	j.Variants[0].Wheel.Tyre, j.Variants[0].Wheel.LoadedRadius = "205/65R15", job.Given(units.Length{MM: 305})
	for _, row := range []struct {
		radius   float64
		with     string
		estimate bool
	}{{305, "205/65R15", true}, {291, "", false}, {305, "", false}, {305, "195/65VR15", false}} {
		w := &j.Variants[1].Wheel
		*w = job.Wheel{Tyre: "195/65R15", RimWidth: w.RimWidth, LoadedRadius: job.Given(units.Length{MM: row.radius}), RadiusTyre: row.with}
		if err := job.Save(path, j); err != nil {
			t.Fatal(err)
		}
		for range 2 { // once more, as it is written then
			back, err := job.Load(path)
			if err != nil {
				t.Fatal(err)
			}
			got := back.Variants[1].Wheel
			if r := got.Loaded(); r.Estimate != row.estimate || !row.estimate && r.Radius != row.radius {
				t.Errorf("%+v: read as %+v, %+v", row, got, r)
			}
			if !back.Equal(j) {
				t.Errorf("%+v: %+v", row, back.Variants[1].Wheel)
			}
			if err := job.Save(path, back); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// An older file, which cannot say it, is read as what it means.
func TestAnOlderFileWithAnInheritedRadius(t *testing.T) {
	for variant, estimate := range []bool{false, true, false} {
		_, text := sample(t)
		lines := []string{"{tyre: 205/65R15, rim_width: 6 in, offset: 20, loaded_radius: 305}", "{tyre: 195/65R15, rim_width: 6 in, offset: 20, loaded_radius: 305}",
			"{tyre: 195/65R15, rim_width: 6 in, offset: 20, loaded_radius: 301}"}
		j := reread(t, text)
		first := j.Variants[0].Proposal("third")
		j.Variants = append(j.Variants, first)
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		parts := regexp.MustCompile(`(?m)    wheel:.*\n(?:      .*\n)*`).Split(string(data), -1)
		if len(parts) != 4 {
			t.Fatalf("%d wheels in\n%s", len(parts)-1, data)
		}
		file := parts[0]
		for i, line := range lines {
			file += "    wheel: " + line + "\n" + parts[i+1]
		}
		w := reread(t, file).Variants[variant].Wheel
		if r := w.Loaded(); r.Estimate != estimate || estimate && w.RadiusTyre != "205/65R15" {
			t.Errorf("variant %d: %+v, %+v", variant, w, r)
		}
	}
}

// A radius's tyre is a size, and stands beside a radius.
func TestBadRadiusTyres(t *testing.T) {
	j, _ := sample(t)
	w := &j.Variants[0].Wheel
	w.RadiusTyre = "round"
	if ps := j.Problems(); len(ps) != 1 || ps[0].Key != "variants[0].wheel.radius_tyre" {
		t.Errorf("%v", ps)
	}
	w.RadiusTyre, w.LoadedRadius = "195/65R15", job.Optional{}
	if ps := j.Problems(); len(ps) != 1 || !strings.Contains(ps[0].Error(), "stands without loaded_radius") {
		t.Errorf("%v", ps)
	}
}
