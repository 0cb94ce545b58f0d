package car

import (
	"testing"

	"armscribe/app/job"
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
