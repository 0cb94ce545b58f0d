package car

import (
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// A hand that has the ground sets the loaded radius; any other keeps its estimate.
func TestWithACornerInTheHand(t *testing.T) {
	j, err := job.Load("../../testdata/armcalc/short-form.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	c := Of(j, &j.Variants[0])
	if c.RadiusFrom == "" || !(c.RadiusLow < c.Corner.Wheel.LoadedRadius && c.Corner.Wheel.LoadedRadius < c.RadiusHigh) {
		t.Fatalf("no estimate: %+v", c)
	}
	held := c.Corner
	held.Upper.Ball.Z += 7.5
	if got := c.With(&held); got.Corner != held || got.RadiusFrom != c.RadiusFrom || got.Study().Corner != held {
		t.Errorf("a moved ball joint: %+v", got)
	}
	held.Wheel.LoadedRadius -= 3
	if got := c.With(&held); got.RadiusFrom != "" || got.RadiusLow != 0 || got.RadiusHigh != 0 {
		t.Errorf("a moved ground: %+v", got)
	}
	if c.With(&c.Corner) != c {
		t.Error("its own corner makes another car")
	}
}

// What is said of the points is true of each: one figure where all are alike, whatever
// the job says of others, and a range of the points that the corner has.
func TestKnownIsSaidOfThePointsThereAre(t *testing.T) {
	corner := kinematics.Corner{Upper: kinematics.FlatArm(kinematics.Vec{Y: 350, Z: 380}, kinematics.Vec{X: -12, Y: 618, Z: 431})}
	all := func(own float64) kinematics.Within {
		w := kinematics.Evenly(1)
		for _, at := range corner.Coordinates() {
			w = w.Measured(at, own)
		}
		return w
	}
	at := corner.Coordinates()[0]
	for _, c := range []struct {
		within kinematics.Within
		says   string
	}{
		{kinematics.Evenly(25.4 / 32), "1/32 in"},
		{all(25.4 / 16), "1/16 in"},
		{all(25.4/16).Measured(at, 25.4/4), "1/16 to 1/4 in (each point its own)"},
		{all(25.4/16).Assumed(at, 25.4), "1/16 in (what is assumed, by more)"},
	} {
		if got := KnownOf(&c.within, &corner).Text(units.Inch); got != c.says {
			t.Errorf("%q, want %q", got, c.says)
		}
	}
}
