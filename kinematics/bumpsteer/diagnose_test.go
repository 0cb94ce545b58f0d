package bumpsteer

import (
	"math"
	"testing"

	"armscribe/kinematics"
)

// flat is a corner whose ideal rack end is known (265.564995, 246.582309): own
// reference case, centre of curvature by Euler-Savary and by path curvature.
func flat(rackY, rackZ float64) kinematics.Corner {
	v := func(x, y, z float64) kinematics.Vec { return kinematics.Vec{X: x, Y: y, Z: z} }
	return kinematics.Corner{
		Lower:  kinematics.FlatArm(v(0, 250, 200), v(0, 690, 180)),
		Upper:  kinematics.FlatArm(v(0, 320, 430), v(0, 640, 460)),
		TieRod: kinematics.TieRod{RackEnd: v(120, rackY, rackZ), OuterEnd: v(120, 670, 240)},
		Hub:    v(0, 750, 310),
		Wheel:  kinematics.Wheel{LoadedRadius: 310},
	}
}

func TestIdealRackEndNeedsNothing(t *testing.T) {
	d, err := Diagnose(flat(265.564995, 246.582309), kinematics.Evenly(1), -20, 20)
	if err != nil {
		t.Fatal(err)
	}
	if d.Slope.Decided() || d.Bow.Decided() || math.Abs(d.Raise.Value) > 0.05 || math.Abs(d.Shift.Value) > 0.5 {
		t.Errorf("slope %+v, bow %+v, raise %+v, shift %+v", d.Slope, d.Bow, d.Raise, d.Shift)
	}
	// Own reference case: +0.000183 and -0.000188 degrees at -20 and +20 mm.
	if got := d.Change * 180 / math.Pi; math.Abs(got-0.000188) > 1e-6 {
		t.Errorf("largest change %.7f degrees, want 0.000188", got)
	}
}

func TestWrongHeightSlopesAndWrongLengthBows(t *testing.T) {
	high, err := Diagnose(flat(265.564995, 251.582309), kinematics.Evenly(0.2), -60, 60)
	if err != nil {
		t.Fatal(err)
	}
	// Own reference case: rack end 5 mm too high, rate -0.00570773 degrees per mm at rest.
	if got := high.Slope.Value * 180 / math.Pi; math.Abs(got+0.00570773) > 2e-4 {
		t.Errorf("slope %.6f degrees per mm, want about -0.0057", got)
	}
	// To first order the rod must point at the instant centre, y -1355.102: the
	// outer end rises by the ratio of the distances from there.
	want := 5 * (670 + 1355.102) / (265.565 + 1355.102)
	if !high.Slope.Decided() || math.Abs(high.Raise.Value-want) > 0.1 {
		t.Errorf("rack end 5 mm high: raise %+v, slope %+v", high.Raise, high.Slope)
	}
	short, err := Diagnose(flat(315.564995, 245.768543), kinematics.Evenly(0.2), -60, 60)
	if err != nil {
		t.Fatal(err)
	}
	if !short.Bow.Decided() || short.Shift.Value > -35 || short.Shift.Value < -65 {
		t.Errorf("rod 50 mm short: shift %+v, bow %+v", short.Shift, short.Bow)
	}
	// Both ends of the travel toe in: +0.299208 and +0.266152 degrees at -60 and +60.
	if got := short.Change * 180 / math.Pi; math.Abs(got-0.299208) > 1e-5 || short.ChangeAt != -60 {
		t.Errorf("largest change %.6f degrees at %g, want 0.299208 at -60", got, short.ChangeAt)
	}
}

func TestRaisedByTheAdviceLeavesLittle(t *testing.T) {
	c := flat(265.564995, 239.2)
	d, err := Diagnose(c, kinematics.Evenly(1), -55, 65)
	if err != nil {
		t.Fatal(err)
	}
	cured, left, err := Raised(c, d.Raise.Value, -55, 65)
	if err != nil {
		t.Fatal(err)
	}
	if left > d.Change/20 {
		t.Errorf("change %.5f before, %.5f after raising by %.2f", d.Change, left, d.Raise.Value)
	}
	if cured.TieRod.OuterEnd.Z != c.TieRod.OuterEnd.Z+d.Raise.Value {
		t.Errorf("outer end at %v", cured.TieRod.OuterEnd)
	}
}

func TestBandsGrowWithTheMeasuringError(t *testing.T) {
	c := flat(271.3, 240.7)
	one, err1 := Diagnose(c, kinematics.Evenly(0.7), -50, 60)
	two, err2 := Diagnose(c, kinematics.Evenly(2.1), -50, 60)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	if math.Abs(two.Slope.Half-3*one.Slope.Half) > 1e-12 || one.Slope.Half == 0 {
		t.Errorf("slope bands %g and %g", one.Slope.Half, two.Slope.Half)
	}
	if one.Slope.Value != two.Slope.Value {
		t.Error("the slope changed with the measuring error")
	}
}

func BenchmarkDiagnose(b *testing.B) {
	c := flat(271.3, 240.7)
	for b.Loop() {
		if _, err := Diagnose(c, kinematics.Evenly(1), -60, 70); err != nil {
			b.Fatal(err)
		}
	}
}
