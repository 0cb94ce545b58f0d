package cli

import (
	"errors"

	"armscribe/app/report"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

type adjust struct {
	source
	Camber *string `placeholder:"C" help:"Wished camber at rest, degrees."`
	Caster *string `placeholder:"C" help:"Wished caster at rest, degrees."`
	Toe    *string `placeholder:"C" help:"Wished toe at rest of each wheel, degrees."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *adjust) Help() string {
	return `What one turn, or one millimetre, of each of the job's adjusters does at constant ride height, in which order to set them, and what thread is left in engagement. With a wished camber, caster or toe also the setting that reaches all of them together; exit code 1 where the adjusters do not.`
}

// Run prints the table.
func (c *adjust) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	var wishes []bumpsteer.Wish
	var errs []error
	for _, w := range []struct {
		flag string
		text *string
		of   kinematics.Quantity
	}{{"camber", c.Camber, kinematics.Camber}, {"caster", c.Caster, kinematics.Caster}, {"toe", c.Toe, kinematics.Toe}} {
		if w.text == nil {
			continue
		}
		v, err := angle(w.flag, w.text, 0)
		wishes, errs = append(wishes, bumpsteer.Wish{Quantity: w.of, Value: v}), append(errs, err)
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	a, err := report.AdjustOf(j, i, wishes)
	if err != nil {
		return err
	}
	out.answer(a.Sheet(), c.Format)
	return a.NotMet()
}
