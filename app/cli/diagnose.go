package cli

import (
	"errors"

	"armscribe/app/report"
	"armscribe/kinematics/bumpsteer"
)

type diagnose struct {
	source
	From   *string `placeholder:"A" help:"Start of the travel, below rest; the job's own droop if left out."`
	To     *string `placeholder:"B" help:"End of the travel, above rest; the job's own bump if left out."`
	Rack   *string `name:"rack-step" placeholder:"L" help:"Step in which the rack is moved, three either way; 5 mm (1/4 in) if left out."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *diagnose) Help() string {
	return `Splits the toe curve into slope (outer or inner end at the wrong height), bow (tie rod too long or too short) and the rest, each with its measuring-error band; says how far the present rack end is from the ideal one, and what moving the rack up, sideways or forward does to the curve.`
}

// Run prints the diagnosis.
func (c *diagnose) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	from, err := length("from", c.From, j.Units, -j.Travel.Droop.MM)
	to, err2 := length("to", c.To, j.Units, j.Travel.Bump.MM)
	step, err3 := length("rack-step", c.Rack, j.Units, report.RackMoveStep(j.Units))
	if err := errors.Join(err, err2, err3); err != nil {
		return err
	}
	d, err := report.DiagnoseOf(j, i, step, from, to)
	if errors.Is(err, bumpsteer.ErrRange) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	out.answer(d.Sheet(), c.Format)
	return nil
}
