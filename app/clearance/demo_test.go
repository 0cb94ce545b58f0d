package clearance

import (
	"testing"

	"armscribe/app/job"
	"armscribe/assets"
	"armscribe/kinematics"
)

// Nothing that a demo job puts inside a rim stands in the barrel's way: a
// person may measure it on the screen.
func TestWheelsOfTheDemosGoRound(t *testing.T) {
	for _, name := range assets.DemoNames() {
		data, ok := assets.Demo(name)
		if !ok {
			t.Fatalf("no demo job %q", name)
		}
		j, err := job.Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		for i := range j.Variants {
			c := j.Variants[i].Corner()
			m, err := kinematics.New(&c)
			if err != nil {
				t.Fatal(err)
			}
			r, err := RimOf(j, i, &m)
			if err != nil {
				t.Fatal(err)
			}
			if r.BrakeErr != nil || r.OffsetErr != nil || len(r.Joints) != 3 {
				t.Errorf("%s, %s: brake %v, offset %v, %d joints", name, j.Variants[i].Name, r.BrakeErr, r.OffsetErr, len(r.Joints))
			}
			for k := range r.Joints {
				if g := &r.Joints[k]; g.Err != nil || !g.Keeps() {
					t.Errorf("%s, %s: %s has a gap of %.1f mm to the rim (%v)", name, j.Variants[i].Name, g.Obstacle.Name, g.Gap, g.Err)
				}
			}
		}
	}
}
