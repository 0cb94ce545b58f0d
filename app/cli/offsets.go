package cli

import "armscribe/app/report"

type offsetsCommand struct {
	source
	Format string `enum:"table,csv,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, CSV and JSON in mm."`
}

// Help is the text below the flags' own.
func (c *offsetsCommand) Help() string {
	return `For the variant's own wheel and each of the job's wheels: the scrub radius with it as it is, and the offset, or the spacer, with which it stays as measured.`
}

// Run prints them.
func (c *offsetsCommand) Run(out *output) error {
	j, i, err := c.open()
	if err == nil {
		out.answer(report.OffsetsOf(j, i).Sheet(), c.Format)
	}
	return err
}
