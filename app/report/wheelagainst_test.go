package report

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
)

func loadJob(t *testing.T, path string) *job.Job {
	t.Helper()
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func mustWheel(t *testing.T, spec WheelSpec) *Wheel {
	t.Helper()
	w, err := WheelOf(spec)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The demo's wheel is 205/65R15 on 6 in with offset 18. An inch of rim at the
// same centre plane moves each lip half an inch, 12.7 mm; 43 mm less offset
// moves all of it 43 mm out. 225/65R15 is 381 + 2 x 146 = 673 across, 205/65R15
// is 381 + 2 x 133 = 647.
func TestAWheelAgainstTheMeasuredOne(t *testing.T) {
	j := loadJob(t, frontJob)
	spec := WheelSpecOf(j, 0)
	measured := mustWheel(t, spec)
	if spec.Loaded.Radius != 308 || spec.Loaded.Estimate || spec.Hub != 752 || !spec.HasHub || spec.Before != "205/65R15" {
		t.Errorf("the variant's wheel is %+v", spec)
	}
	if list := measured.Against(measured, units.Millimetre); len(list) != 0 {
		t.Errorf("beside itself: %q", list)
	}
	spec.Tyre, spec.Rim, spec.Offset, spec.Loaded = "225/65R15", 7*25.4, -25, tyre.LoadedRadius{}
	w := mustWheel(t, spec)
	for unit, want := range map[units.Unit][]string{
		units.Millimetre: {"tyre 26.0 mm taller"},
		units.Inch:       {"tyre 1.02 in taller"},
	} {
		list := w.Against(measured, unit)
		for _, line := range want {
			if !slices.Contains(list, line) {
				t.Errorf("%q is missing in %q", line, list)
			}
		}
	}
	back := measured.Against(w, units.Millimetre)
	for _, line := range []string{"tyre 26.0 mm lower"} {
		if !slices.Contains(back, line) {
			t.Errorf("the other way round %q is missing in %q", line, back)
		}
	}
}

func TestTheBrakeOfTheJob(t *testing.T) {
	j := loadJob(t, frontJob)
	j.Brake = job.Brake{Diameter: job.Given(units.Length{MM: 332})}
	w := mustWheel(t, WheelSpecOf(j, 0)) // barrel: 381 less 45
	if err := w.BrakeFit(); !errors.Is(err, tyre.ErrFit) {
		t.Errorf("2 mm all round where 5 are wished: %v", err)
	}
	if got := w.BrakeWords(units.Millimetre); !strings.Contains(got, "332 mm across: 2.0 mm all round") || !strings.Contains(got, "wished 5 mm") {
		t.Error(got)
	}
	if got := w.BrakeWords(units.Inch); !strings.Contains(got, "0.08 in all round") || strings.Contains(got, "mm") {
		t.Error(got)
	}
	j.Brake.Gap = job.Given(units.Length{MM: 1.5})
	if err := mustWheel(t, WheelSpecOf(j, 0)).BrakeFit(); err != nil {
		t.Errorf("2 mm all round where 1.5 are wished: %v", err)
	}
}

// The corner with what KeepScrub says has the scrub radius of the measured one.
func TestKeepScrubKeepsIt(t *testing.T) {
	j := loadJob(t, frontJob)
	spec := WheelSpecOf(j, 0)
	spec.Tyre, spec.Rim, spec.Offset, spec.Spacer, spec.Loaded = "215/60R15", 6.5*25.4, 52, 7, tyre.LoadedRadius{}
	for _, variant := range []int{0, 2} {
		k, err := KeepScrub(j, variant, spec)
		if err != nil {
			t.Fatal(err)
		}
		measured := value(t, readingsAt(t, j.Variants[0].Corner(), 0, 0), kinematics.ScrubRadius)
		tyre, err := tyre.Parse(spec.Tyre)
		if err != nil {
			t.Fatal(err)
		}
		radius := tyre.EstimateLoadedRadius().Radius
		for _, w := range []kinematics.Wheel{{Offset: k.Offset, Spacer: 7, LoadedRadius: radius}, {Offset: 52, Spacer: k.Spacer, LoadedRadius: radius}} {
			c := j.Variants[variant].Corner()
			c.Wheel = w
			near(t, "scrub radius", value(t, readingsAt(t, c, 0, 0), kinematics.ScrubRadius), measured, 1e-9)
		}
		c := j.Variants[variant].Corner()
		c.Wheel = kinematics.Wheel{Offset: 52, Spacer: 7, LoadedRadius: radius}
		near(t, "scrub radius as asked", k.Now, value(t, readingsAt(t, c, 0, 0), kinematics.ScrubRadius), 1e-12)
		near(t, "measured", k.Measured.Value, measured, 1e-12)
		if plane := k.Spacer - 52; !(k.Low < plane && plane < k.High) || math.Abs(k.Offset+plane-7) > 1e-9 {
			t.Errorf("plane %g is not within %g to %g, or not that of the offset", plane, k.Low, k.High)
		}
		text := strings.Join(k.Words(units.Millimetre), "\n")
		for _, says := range []string{"Measured scrub radius: 9.3 ± 2.4 mm", "with the spacer of 7 mm, likely", "with the offset of 52 mm, likely"} {
			if !strings.Contains(text, says) {
				t.Errorf("not %q in\n%s", says, text)
			}
		}
	}
}

func TestKeepScrubSaysWhatCannotBe(t *testing.T) {
	j := loadJob(t, frontJob)
	spec := WheelSpecOf(j, 0)
	k, err := KeepScrub(j, 0, spec)
	if err != nil {
		t.Fatal(err)
	}
	if text := strings.Join(k.Words(units.Millimetre), "\n"); !strings.Contains(text, "This wheel keeps it.") {
		t.Error(text)
	}
	spec.Offset = -14
	if k, err = KeepScrub(j, 0, spec); err != nil {
		t.Fatal(err)
	}
	near(t, "spacer", k.Spacer, -32, 1e-9) // the same tyre: the plane must not move
	near(t, "offset", k.Offset, 18, 1e-9)
	if text := strings.Join(k.Words(units.Millimetre), "\n"); !strings.Contains(text, "No spacer keeps it with the offset of −14 mm: the wheel stands 32.0 mm too far out without one.") {
		t.Error(text)
	}
	spec.Offset, spec.Spacer, spec.Rim = 18, 150, 6*25.4
	if k, err = KeepScrub(j, 0, spec); err != nil {
		t.Fatal(err)
	}
	if text := strings.Join(k.Words(units.Millimetre), "\n"); !strings.Contains(text, "puts the mounting face outside the rim") {
		t.Error(text)
	}
	spec.Tyre = "round"
	if _, err = KeepScrub(j, 0, spec); err == nil {
		t.Error("a tyre code that is none")
	}
}

// Every part around the wheel is named with the gap that armcalc clearance finds on
// a variant with that wheel.
func TestTheGapsOfAWheel(t *testing.T) {
	j := loadJob(t, frontJob)
	wheel := j.Variants[0].Wheel
	wheel.SetTyre("205/65R15")
	wheel.RimWidth, wheel.Offset = units.Length{MM: 6 * 25.4}, units.Length{MM: 35}
	gaps := WheelGaps(j, 0, wheel)
	text := GapWords(&gaps, units.Millimetre)
	next := j.Clone()
	next.Variants[0].Wheel = wheel
	c, err := ClearanceOf(next, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Judged.Items) < 4 {
		t.Fatalf("%d parts", len(c.Judged.Items))
	}
	for i := range c.Judged.Items {
		if part := c.Judged.Items[i].Short(units.Millimetre); !strings.Contains(text, part) {
			t.Errorf("%q is not in %q", part, text)
		}
	}
}

// A tyre that turns less often for the same way makes the speedometer read low: by
// the way that is not shown, of all that is driven. 205/65R15 is 647 across, 215/65R15
// 381 + 2 x 140 = 661: 14 of 661 is 2.1 %.
func TestSpeedometerWords(t *testing.T) {
	for _, row := range [][3]string{{"215/65R15", "205/65R15", "set for 205/65R15 the speedometer reads 2.1 % low"}, {"205/65R15", "215/65R15", "set for 215/65R15 the speedometer reads 2.2 % high"},
		{"205/65R15", "205/65R15", "set for 205/65R15 the speedometer reads right"}} {
		if got := mustWheel(t, WheelSpec{Tyre: row[0], Rim: 6 * 25.4, Offset: 35, Before: row[1]}).SpeedometerWords(); got != row[2] {
			t.Errorf("%q, want %q", got, row[2])
		}
	}
}
