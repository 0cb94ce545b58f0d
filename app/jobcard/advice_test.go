package jobcard

import (
	"testing"

	"armscribe/app/car"
	"armscribe/app/frame"
	"armscribe/app/report"
	"armscribe/app/tune"
	"armscribe/kinematics/bumpsteer"
)

// The spacer that the one sentence advises is the first of the table of stacks.
func TestAdviceIsTheFirstOfTheTable(t *testing.T) {
	j := input(t).Job
	for i := range j.Variants {
		for _, by := range []float64{0, -3.3, 1.7} {
			next := j.Clone()
			c := next.Variants[i].Corner()
			c.TieRod.OuterEnd.Z += by
			next = tune.Moved(next, i, "moved", "", c)
			at := len(next.Variants) - 1
			var f frame.Frame
			if err := f.Update(car.StudyOf(next, &next.Variants[at]), nil, frame.Position{}); err != nil {
				t.Fatal(err)
			}
			shop := tune.SetupOf(next, at)
			a, ok := f.Advise(&shop)
			tuned, err := report.TuneOf(t.Context(), next, at, report.TuneSpec{Free: []bumpsteer.Free{{Freedom: bumpsteer.OuterEndHeight, Min: -25, Max: 25}},
				Goal: bumpsteer.Goal{From: -shop.Droop, To: shop.Bump}})
			if err != nil {
				t.Fatal(err)
			}
			best := tuned.Plan[0].Raise
			for k := range tuned.Plan { // the table puts what touches last
				if tuned.Plan[k].Measure.Largest < tuned.Plan[0].Measure.Largest {
					best = tuned.Plan[k].Raise
				}
			}
			if !ok || a.Raise != best {
				t.Errorf("%s %+g mm: advised %g mm, the table begins with %g: %s", j.Variants[i].Name, by, a.Raise, best, a.Cure)
			}
		}
	}
}
