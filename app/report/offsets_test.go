package report

import (
	"math"
	"testing"

	"armscribe/app/job"
	"armscribe/kinematics"
)

// With the offset, and with the spacer, that the answer names for a wheel the scrub
// radius is the measured one, computed on the corner itself.
func TestOffsetsKeepTheScrubRadius(t *testing.T) {
	j := opened(t, frontJob)
	want := scrubOf(t, j, 0, j.Variants[0].Wheel)
	o := OffsetsOf(j, 0)
	if len(o.Rows) != 4 { // one of the list is the variant's own
		t.Fatalf("%d wheels", len(o.Rows))
	}
	for _, r := range o.Rows {
		if r.Fault != nil {
			t.Fatal(r.Fault)
		}
		w := r.Wheel
		w.Offset.MM = r.Kept.Offset
		if got := scrubOf(t, j, 0, w); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s with an offset of %.2f: scrub radius %.4f, want %.4f", r.Name, w.Offset.MM, got, want)
		}
		w = r.Wheel
		if w.Spacer.MM = r.Kept.Spacer; w.Spacer.MM < 0 {
			continue
		}
		if got := scrubOf(t, j, 0, w); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s with a spacer of %.2f: scrub radius %.4f, want %.4f", r.Name, w.Spacer.MM, got, want)
		}
	}
}

// scrubOf is the scrub radius of a variant with another wheel on the same hub.
func scrubOf(t *testing.T, j *job.Job, variant int, w job.Wheel) float64 {
	t.Helper()
	v := j.Variants[variant]
	v.Wheel = w
	c := v.Corner()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	p, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	r := p.Readings()
	x, _ := r.Of(kinematics.ScrubRadius)
	return x
}
