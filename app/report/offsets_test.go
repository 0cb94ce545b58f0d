package report

import (
	"math"
	"math/rand/v2"
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
	return scrubAt(t, &c, 0, c.Wheel.Offset)
}

// The bands hold the scrub radius of a wheel, and the offset and the spacer that keep
// the measured one, 95 times in 100: with errors drawn for both corners, what they share
// alike, and the answer solved anew. Without an error that an assumed offset has,
// the wheel's own would keep it exactly.
func TestBandsOfOffsetsHoldWhatTheySay(t *testing.T) {
	const variant, draws = 2, 500
	for _, assumed := range []bool{false, true} {
		j := opened(t, frontJob)
		for i := range j.Variants {
			j.Variants[i].Assumed = j.Variants[i].Assumed.With(job.OffsetValue, assumed)
		}
		o := OffsetsOf(j, variant)
		first, s := SourceOf(j, 0), SourceOf(j, variant)
		r := rand.New(rand.NewPCG(20261204, 9))
		var in [3]int
		n := 0
		for range draws {
			a, b := first.Corner, s.Corner
			for _, at := range s.Within.Coordinates(&s.Corner) {
				size, e := s.Within.Size(at), 2*r.Float64()-1
				if first.Corner.Shares(&s.Corner, at) {
					size = max(size, first.Within.Size(at))
					first.Within.Shift(&a, at, e*size)
				} else {
					first.Within.Shift(&a, at, (2*r.Float64()-1)*first.Within.Size(at))
				}
				s.Within.Shift(&b, at, e*size)
			}
			keep := scrubAt(t, &a, 0, a.Wheel.Offset)
			for i := range o.Rows {
				k, radius := o.Rows[i].Kept, o.Rows[i].Kept.Spec.Loaded.Radius
				offset := k.Spec.Offset
				if offset == s.Corner.Wheel.Offset {
					offset = b.Wheel.Offset
				}
				now := scrubAt(t, &b, radius, offset)
				slope := scrubAt(t, &b, radius, offset+1) - now // exact: they move on one line
				kept := offset + (keep-now)/slope
				n++
				for what, off := range [...]float64{now - k.Now, kept - k.Offset, offset - kept - k.Spacer} {
					if half := [...]band{k.now, k.offset, k.spacer}[what]; half.ok && math.Abs(off) <= half.half+1e-9 {
						in[what]++
					}
				}
			}
		}
		for what, name := range [...]string{"scrub radius", "offset", "spacer"} {
			if share := float64(in[what]) / float64(n); share < 0.93 || share > 0.975 && !assumed {
				t.Errorf("offset assumed %v: the band of the %s holds it %.1f times in 100", assumed, name, 100*share)
			}
		}
		if own := o.Rows[0].Kept; assumed != (own.offset.half > 19) {
			t.Errorf("offset assumed %v: it keeps within %.1f", assumed, own.offset.half)
		}
	}
}

// scrubAt is the scrub radius of a corner with another loaded radius, 0 for its own, and
// offset.
func scrubAt(t *testing.T, c *kinematics.Corner, radius, offset float64) float64 {
	t.Helper()
	with := *c
	if with.Wheel.Offset = offset; radius != 0 {
		with.Wheel.LoadedRadius = radius
	}
	m, err := kinematics.New(&with)
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
