package job_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/assets"
	"armscribe/kinematics"
)

func demo(t *testing.T, name string) *job.Job {
	t.Helper()
	data, ok := assets.Demo(name)
	if !ok {
		t.Fatalf("no demo %q among %q", name, assets.DemoNames())
	}
	j, err := job.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// TestDemosAreSound: each opens, is written back as it is, says that it is
// invented, and runs through its whole travel at both locks.
func TestDemosAreSound(t *testing.T) {
	names := assets.DemoNames()
	if strings.Join(names, " ") != "flat-teaching gravel-estate rear-toe-link" {
		t.Fatalf("demos %q", names)
	}
	for _, name := range names {
		data, _ := assets.Demo(name)
		j := demo(t, name)
		if got := encode(t, j); got != string(data) {
			t.Errorf("%s is written back otherwise:\n%s", name, got)
		}
		if !bytes.HasPrefix(data, []byte("# Invented: ")) || !j.Invented || j.Title() != j.Name+" (invented example)" {
			t.Errorf("%s does not say that it is invented: %q", name, j.Title())
		}
		if bytes.Contains(bytes.ToLower(data), []byte("taped")) {
			t.Errorf("%s says that it was taped", name)
		}
		for i := range j.Variants {
			m := mechanism(t, &j.Variants[i])
			for _, rack := range []float64{-j.Rack.Right.MM, 0, j.Rack.Left.MM} {
				for _, travel := range []float64{-j.Travel.Droop.MM, j.Travel.Bump.MM} {
					if _, err := m.At(travel, rack); err != nil {
						t.Errorf("%s, %s: %v", name, j.Variants[i].Name, err)
					}
				}
			}
		}
	}
}

func mechanism(t *testing.T, v *job.Variant) *kinematics.Mechanism {
	t.Helper()
	corner := v.Corner()
	m, err := kinematics.New(&corner)
	if err != nil {
		t.Fatal(err)
	}
	return &m
}

// reading returns a quantity at a travel; angles in degrees.
func reading(t *testing.T, v *job.Variant, q kinematics.Quantity, travel float64) float64 {
	t.Helper()
	p, err := mechanism(t, v).At(travel, 0)
	if err != nil {
		t.Fatal(err)
	}
	r := p.Readings()
	x, ok := r.Of(q)
	if !ok {
		t.Fatalf("no %v", q)
	}
	if k := q.Kind(); k == kinematics.Angle || k == kinematics.Slope {
		x *= 180 / math.Pi
	}
	return x
}

func raise(v *job.Variant, p kinematics.Point, mm float64) *job.Variant {
	moved := *v
	at := moved.Point(p)
	at.Z += mm
	moved.SetPoint(p, at)
	return &moved
}

func wantBetween(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	if !(got >= low && got <= high) {
		t.Errorf("%s is %.4f, want %g to %g", what, got, low, high)
	}
}

// TestGravelEstateTellsItsStory: spacers grow the scrub radius by what they
// add, longer arms leave it, and one stack under the outer tie-rod end takes the
// slope out of the toe curve.
func TestGravelEstateTellsItsStory(t *testing.T) {
	j := demo(t, "gravel-estate")
	measured, spacers, longer := &j.Variants[0], &j.Variants[1], &j.Variants[2]
	scrub := reading(t, measured, kinematics.ScrubRadius, 0)
	wantBetween(t, "scrub radius", scrub, 5, 15)
	wantBetween(t, "camber gain", reading(t, measured, kinematics.CamberGain, 0), -0.02, -0.015)
	wantBetween(t, "roll centre", reading(t, measured, kinematics.RollCentreHeight, 0), 100, 130)
	wantBetween(t, "caster", reading(t, measured, kinematics.Caster, 0), 4, 7)
	wantBetween(t, "scrub radius grown by spacers", reading(t, spacers, kinematics.ScrubRadius, 0)-scrub, 31.8, 32.3)
	wantBetween(t, "scrub radius grown by arms", reading(t, longer, kinematics.ScrubRadius, 0)-scrub, -1e-9, 1e-9)
	wantBetween(t, "half track grown by arms", reading(t, longer, kinematics.HalfTrack, 0)-reading(t, measured, kinematics.HalfTrack, 0), 32-1e-9, 32+1e-9)
	for _, v := range []*job.Variant{measured, longer} {
		static := reading(t, v, kinematics.Toe, 0)
		wantBetween(t, v.Name+": toe-out in bump", static-reading(t, v, kinematics.Toe, 30), 0.2, 0.4)
		wantBetween(t, v.Name+": toe-in in droop", reading(t, v, kinematics.Toe, -30)-static, 0.2, 0.4)
		cured := raise(v, kinematics.OuterEnd, 6.5)
		wantBetween(t, v.Name+": slope with the stack", reading(t, cured, kinematics.RideToe, 0), -0.001, 0.001)
		for _, h := range []float64{-30, 30} {
			wantBetween(t, v.Name+": toe change with the stack", reading(t, cured, kinematics.Toe, h)-static, -0.05, 0.05)
		}
	}
}

// TestFlatTeachingTellsItsStory: in the arm's plane the wheel stays straight
// (common practice, no source); 10 mm off, it steers.
func TestFlatTeachingTellsItsStory(t *testing.T) {
	j := demo(t, "flat-teaching")
	off, plane := &j.Variants[0], &j.Variants[1]
	for _, h := range []float64{-60, -22.5, 37.25, 60} {
		wantBetween(t, "toe change in plane", reading(t, plane, kinematics.Toe, h)-reading(t, plane, kinematics.Toe, 0), -1e-9, 1e-9)
	}
	wantBetween(t, "toe change off plane", reading(t, off, kinematics.Toe, 30)-reading(t, off, kinematics.Toe, 0), -0.7, -0.5)
	p, err := mechanism(t, plane).At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	r := p.Readings()
	if y, ok := r.Of(kinematics.InstantCentreY); ok {
		t.Errorf("parallel arms have an instant centre at %v", y)
	}
}

// TestRearToeLinkTellsItsStory: raising the link's inner end by 1/4 in stops
// the toe-out in squat.
func TestRearToeLinkTellsItsStory(t *testing.T) {
	j := demo(t, "rear-toe-link")
	if j.Axle != job.Rear || j.Rack != (job.Rack{}) {
		t.Errorf("axle %v, rack %+v", j.Axle, j.Rack)
	}
	wantBetween(t, "slope", reading(t, &j.Variants[0], kinematics.RideToe, 0), -0.012, -0.008)
	wantBetween(t, "slope, raised", reading(t, &j.Variants[1], kinematics.RideToe, 0), -0.001, 0.001)
	if dz := j.Variants[1].TieRod.RackEnd.Z.MM - j.Variants[0].TieRod.RackEnd.Z.MM; math.Abs(dz-6.35) > 1e-9 {
		t.Errorf("raised by %v mm", dz)
	}
	if _, estimated := j.Variants[0].LoadedRadius(); !estimated {
		t.Error("the loaded radius is not an estimate")
	}
}
