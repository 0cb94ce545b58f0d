package cli

import (
	"errors"
	"fmt"

	"armscribe/app/report"
)

type armsCommand struct {
	source
	Lower  *string `placeholder:"N" help:"By how much the lower arm is longer, from pivot axis to ball joint; below zero: shorter."`
	Upper  *string `placeholder:"N" help:"Likewise the upper arm."`
	Rod    string  `enum:"cut,as-is" default:"cut" help:"One of ${enum}: the tie rod cut anew so that toe at rest stays, or as it is."`
	Roll   *string `placeholder:"A" help:"Roll of the body, degrees: also finds the upper arm with which the outer wheel has the same camber to the ground as at rest."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *armsCommand) Help() string {
	return `Longer or shorter arms on the same upright: the corner is put together again with the body as high above the ground as it was, and camber, track, scrub radius, gains and roll centre stand beside what they are now. Where the parts do not go together, the link that is short is named, with how much.

` + report.ArmSearch
}

// Run prints what the arms do.
func (c *armsCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	spec := report.ArmsSpec{KeepRod: c.Rod == "as-is", HasRoll: c.Roll != nil}
	var errs [3]error
	spec.Lower, errs[0] = length("lower", c.Lower, j.Units, 0)
	spec.Upper, errs[1] = length("upper", c.Upper, j.Units, 0)
	spec.Roll, errs[2] = angle("roll", c.Roll, 0)
	if err := errors.Join(errs[:]...); err != nil {
		return err
	}
	a, err := report.ArmsOf(j, i, spec)
	if errors.Is(err, report.ErrArmsSpec) {
		return usageError{fmt.Errorf("--lower, --upper, --roll: %w", err)}
	}
	if err != nil {
		return err
	}
	out.answer(a.Sheet(), c.Format)
	return nil
}
