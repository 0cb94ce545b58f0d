package cli

import (
	"errors"
	"fmt"

	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/clearance"
)

type wheel struct {
	Tyre   string  `arg:"" help:"Tyre size, as 205/65R15, 205/50-10 or 31x10.50R15."`
	Rim    string  `required:"" placeholder:"W" help:"Rim width between the beads, as 6in; a plain number is mm."`
	Offset string  `required:"" placeholder:"O" help:"Offset of the wheel, positive when the mounting face stands outboard of the rim's middle; a plain number is mm."`
	Spacer *string `placeholder:"S" help:"Spacer between hub and wheel; none if left out."`
	Hub    *string `placeholder:"Y" help:"Distance of the hub face from the car's centre plane; adds the places counted from there."`
	Before *string `placeholder:"TYRE" help:"The tyre that the speedometer was set for; adds what the change does to it."`
	Brake  *string `placeholder:"D" help:"Disc and caliper across, about the spin axis: says whether they pass through the barrel."`
	Gap    *string `placeholder:"G" help:"Gap wished all round the brake; 5 mm (0.2 in) if left out."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. JSON is in mm."`
}

// Help is the text below the flags' own.
func (c *wheel) Help() string {
	return `Everything that follows from a tyre code and a rim, without a job: sizes, backspacing, and where the rim's lips and the tyre's side walls stand from the hub face. A brake that does not pass through the barrel is a problem: exit code 1.`
}

// Run prints the wheel.
func (c *wheel) Run(out *output) error {
	sp := report.WheelSpec{Tyre: c.Tyre, HasHub: c.Hub != nil}
	var errs [6]error
	sp.Rim, errs[0] = length("rim", &c.Rim, units.Millimetre, 0)
	sp.Offset, errs[1] = length("offset", &c.Offset, units.Millimetre, 0)
	sp.Spacer, errs[2] = length("spacer", c.Spacer, units.Millimetre, 0)
	sp.Hub, errs[3] = length("hub", c.Hub, units.Millimetre, 0)
	sp.Brake, errs[4] = positive("brake", c.Brake, units.Millimetre)
	if sp.BrakeGap, errs[5] = length("gap", c.Gap, units.Millimetre, clearance.WishInRim); errs[5] == nil && !(sp.BrakeGap >= 0 && sp.BrakeGap <= maxFlag) {
		errs[5] = usageError{fmt.Errorf("--gap: %q is not between 0 and %g mm; give the gap to keep as 0 or more", *c.Gap, maxFlag)}
	}
	if err := errors.Join(errs[:]...); err != nil {
		return err
	}
	if c.Before != nil {
		if sp.Before = *c.Before; sp.Before == "" {
			return usageError{errors.New("--before: no size; write it as in 205/65R15, or leave the flag out")}
		}
	}
	w, err := report.WheelOf(sp)
	if err != nil {
		return usageError{err}
	}
	out.answer(w.Sheet(units.Millimetre, nil), c.Format)
	return w.BrakeFit()
}
