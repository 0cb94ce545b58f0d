package report

import (
	"math"
	"testing"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/kinematics"
)

const (
	frontJob = "../../assets/demo/gravel-estate.armscribe.yaml"
	flatJob  = "../../assets/demo/flat-teaching.armscribe.yaml"
	rearJob  = "../../assets/demo/rear-toe-link.armscribe.yaml"
	shortJob = "../../testdata/armcalc/short-form.armscribe.yaml"
)

var allJobs = []string{frontJob, flatJob, rearJob, shortJob}

func sourcesOf(t *testing.T, path string) []Source {
	t.Helper()
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return SourcesOf(j)
}

func mechanism(t *testing.T, c kinematics.Corner) *kinematics.Mechanism {
	t.Helper()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	return &m
}

func readingsAt(t *testing.T, c kinematics.Corner, travel, rack float64) kinematics.Readings {
	t.Helper()
	p, err := mechanism(t, c).At(travel, rack)
	if err != nil {
		t.Fatal(err)
	}
	return p.Readings()
}

func value(t *testing.T, r kinematics.Readings, q kinematics.Quantity) float64 {
	t.Helper()
	v, ok := r.Of(q)
	if !ok {
		t.Fatalf("no %s", q)
	}
	return v
}

func find(t *testing.T, r *Readings, key string) *Line {
	t.Helper()
	l := r.Find(key)
	if l == nil {
		t.Fatalf("no line %s", key)
	}
	return l
}

func mustReadings(t *testing.T, s Source, at figures.Position) *Readings {
	t.Helper()
	r, err := ReadingsOf(s, at)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// near compares within an absolute tolerance.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tol)
	}
}
