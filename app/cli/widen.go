package cli

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// loadFlags are what forces are computed under.
type loadFlags struct {
	Load          *string `placeholder:"M" help:"Load on each wheel, as 340kg, 750lb or 3300N; a plain number is kg, or lb where the job is in inches. Left out: the job's corner_weight, or else 350 kg (770 lb) are assumed, and said."`
	Turn          *string `placeholder:"L" help:"How far one turn of the steering wheel moves the rack. Left out: the job's rack_per_turn, or else 45 mm (1 3/4 in) are assumed, and said."`
	SteeringWheel *string `placeholder:"D" help:"Diameter of the steering wheel. Left out: the job's wheel_diameter, or else 360 mm (14 1/8 in) are assumed, and said."`
}

// read returns the loading that the flags ask for.
func (f *loadFlags) read(unit units.Unit) (report.Loading, error) {
	var l report.Loading
	var errs [3]error
	if f.Load != nil {
		l.Load, errs[0] = forceOf("load", *f.Load, unit)
	}
	l.RackPerTurn, errs[1] = positive("turn", f.Turn, unit)
	l.RimDiameter, errs[2] = positive("steering-wheel", f.SteeringWheel, unit)
	return l, errors.Join(errs[:]...)
}

// maxFlag catches a number in the wrong unit, mm.
const maxFlag = 1000.0

// positive reads a length above zero; 0 for a flag left out.
func positive(flag string, text *string, unit units.Unit) (float64, error) {
	mm, err := length(flag, text, unit, 0)
	if err != nil || text == nil {
		return 0, err
	}
	if !(mm > 0 && mm <= maxFlag) {
		return 0, usageError{fmt.Errorf("--%s: %q is not above zero and at most %s; check the number and its unit", flag, *text, units.ShortLength(maxFlag, unit))}
	}
	return mm, nil
}

// forceOf reads a wheel load, in N; a plain number is in what goes with lengths in a unit.
func forceOf(flag, text string, unit units.Unit) (float64, error) {
	number, scale, most := strings.TrimSpace(text), report.Gravity, fmt.Sprintf("%g kg", job.MaxWeight)
	if unit == units.Inch {
		scale, most = job.KgPerPound*report.Gravity, units.AsTyped(math.Floor(job.MaxWeight/job.KgPerPound))+" lb"
	}
	for _, u := range []struct {
		name  string
		scale float64
	}{{"kg", report.Gravity}, {"lb", job.KgPerPound * report.Gravity}, {"N", 1}} {
		if rest, ok := strings.CutSuffix(number, u.name); ok {
			number, scale = strings.TrimSpace(rest), u.scale
			break
		}
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(v) {
		return 0, usageError{fmt.Errorf("--%s: %q is not a load; write it as 340kg, 750lb or 3300N", flag, text)}
	}
	if n := v * scale; n > 0 && n <= job.MaxWeight*report.Gravity {
		return n, nil
	}
	return 0, usageError{fmt.Errorf("--%s: %q is not above zero and at most %s on one wheel; check the number and its unit", flag, text, most)}
}

type widenCommand struct {
	source
	By       string  `required:"" placeholder:"N" help:"By how much each side is to be wider; below zero: narrower."`
	ScrubMax *string `placeholder:"S" help:"Largest scrub radius, either way: says which way keeps within it, and what spacer and arms together do."`
	loadFlags
	saving
	Format string `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm, degrees and N."`
}

// Help is the text below the flags' own.
func (c *widenCommand) Help() string {
	return `A wider track in both ways that there are: a thicker spacer, and longer arms that move the whole upright out. Each line stands beside the corner as it is, and says whether it is better or worse and by how much, with the 95 % band of the change.

Forces are indicative: statics, to compare layouts with.`
}

// Run prints both ways.
func (c *widenCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	var sp report.WidenSpec
	var errs [3]error
	sp.By, errs[0] = length("by", &c.By, j.Units, 0)
	sp.ScrubMax, errs[1] = length("scrub-max", c.ScrubMax, j.Units, 0)
	sp.HasScrubMax = c.ScrubMax != nil
	sp.Loading, errs[2] = c.loadFlags.read(j.Units)
	if err := errors.Join(errs[:]...); err != nil {
		return err
	}
	w, err := report.WidenOf(j, i, sp)
	if errors.Is(err, report.ErrWidenSpec) || errors.Is(err, widen.ErrWiden) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	return c.saving.answer(out, w.Sheet().Face(c.Format), c.Format, c.Job, j, func() []job.Variant { return w.Variants(j, i, w.Ways()...) })
}
