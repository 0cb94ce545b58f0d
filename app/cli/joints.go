package cli

import "armscribe/app/report"

type jointsCommand struct {
	source
	Format string `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *jointsCommand) Help() string {
	return `Prints how far both ball joints and both tie-rod ends tilt from where they stand at rest, the most over the job's travel and rack, and where; set against the job's joint_limits, if it states any.

Studs are taken as parallel to the steering axis. A tilt over its limit is said, and is no problem of the job: the exit code stays 0.`
}

// Run prints the tilts.
func (c *jointsCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	a, err := report.JointsOf(j, i)
	if err != nil {
		return err
	}
	out.answer(a.Sheet(nil), c.Format)
	return nil
}
