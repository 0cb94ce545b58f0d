package cli

import (
	"fmt"
	"math"

	"armscribe/app/report"
	"armscribe/kinematics"
)

type clearanceCommand struct {
	source
	Roll   *string `placeholder:"A" help:"Roll either way, degrees, to look at too; none if left out."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *clearanceCommand) Help() string {
	return `Carries the tyre through the job's travel and rack and prints, for each of the job's obstacles, the least gap and where it happens. Then how joints and brake stand inside the rim. What the wheel touches, a brake that does not pass through the rim and a mounting face outside it are problems: exit code 1. A housing that is assumed is none.`
}

// Run prints the gaps.
func (c *clearanceCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	roll, err := angle("roll", c.Roll, 0)
	if err != nil {
		return err
	}
	if roll = math.Abs(roll); roll > kinematics.MaxRoll {
		return usageError{fmt.Errorf("--roll: %q is not within ±30 degrees", *c.Roll)}
	}
	r, err := report.ClearanceOf(j, i, roll)
	if err != nil {
		return err
	}
	out.answer(r.Sheet(), c.Format)
	return r.Problem()
}
