package cli

import (
	"errors"
	"fmt"

	"armscribe/app/report"
)

type lockCommand struct {
	source
	Step   *string `placeholder:"S" help:"Step of the rack, from the middle both ways; both stops are always printed. Left out: a round one."`
	Format string  `enum:"table,json,csv" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON and CSV in mm and degrees; CSV has the angles alone."`
}

// Help is the text below the flags' own.
func (c *lockCommand) Help() string {
	return `Steers the front wheels from stop to stop of the job's rack at rest height and prints both angles and the Ackermann error; then, each way, how far the rack goes before the tyre comes too near to one of the job's obstacles or touches it, and the turning circle from wall to wall and from kerb to kerb.

Low speed, no slip; bodywork ahead of the wheel is not in the circle. Ackermann error and circle need the job's wheelbase.`
}

// Run prints the lock.
func (c *lockCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	step, err := length("step", c.Step, j.Units, 0)
	if err != nil {
		return err
	}
	if c.Step != nil && !(step > 0) {
		return usageError{fmt.Errorf("--step: %q is not above zero", *c.Step)}
	}
	l, err := report.LockOf(j, i, step)
	switch {
	case errors.Is(err, report.ErrNoSteering):
		return usageError{fmt.Errorf("%s: %w", c.Job, err)}
	case errors.Is(err, report.ErrSpec):
		return usageError{err}
	case err != nil:
		return err
	}
	out.answer(l.Sheet(nil, 0), c.Format)
	return nil
}
