package cli

import "armscribe/app/report"

type effortCommand struct {
	source
	loadFlags
	Format string `enum:"table,json" default:"table" help:"One of ${enum}. JSON is in N and N m."`
}

// Help is the text below the flags' own.
func (c *effortCommand) Help() string {
	return `Moments about the steering axes, forces in tie rods and rack, and the pull at the steering wheel in three cases: parking, braking with different grip left and right, one wheel on a bump.

Indicative only: statics of rigid parts without friction or power assistance, under loads and grip that are assumed; to compare one layout with another. No part's strength is judged.`
}

// Run prints the forces.
func (c *effortCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	l, err := c.loadFlags.read(j.Units)
	if err != nil {
		return err
	}
	e, err := report.EffortsOf(j, i, l)
	if err != nil {
		return err
	}
	out.answer(e.Sheet(nil), c.Format)
	return nil
}
