package cli

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

type tuneCommand struct {
	source
	Free   []string `sep:"none" placeholder:"NAME=A..B" help:"What may be moved, and by how much from its present place, as outer_end.z=-15..25; may be repeated. Left out: the outer end up and down, as far as spacers go. Names: outer_end.z, outer_end.y, outer_end.x, rack_end.z, rack_end.y, rack_end.x: z up, y outboard, x forward."`
	Over   string   `enum:"travel,roll" default:"travel" help:"One of ${enum}."`
	From   *string  `placeholder:"A" help:"Start of the range, below rest: a length, over roll degrees. Left out: the job's own droop, over roll -4."`
	To     *string  `placeholder:"B" help:"End of the range, above rest. Left out: the job's own bump, over roll 4."`
	Target *string  `placeholder:"SLOPE" help:"Wanted change of toe, toe-in positive: degrees for each of the job's units of travel, or as -0.05 deg/in; over roll, degrees for each degree. Left out: none."`
	Stack  *string  `placeholder:"LIST" help:"Thicknesses of the spacers there are, as 1,1.5,2,3,5. Left out: those of the job. Takes outer_end.z among what is free."`
	saving
	Format string `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *tuneCommand) Help() string {
	return `Finds the moves within their limits that leave the least largest change of toe over the range, or the least distance from the line that --target asks for. The tie rod is cut to keep the resting toe.

Over roll it is the toe to the ground of the left wheel: positive roll lifts the left side, which is then the inner one. To have the outer wheel toe out a little, ask for a slope above zero over roll, or below zero over travel.

With spacers, the stacks that come nearest are listed; what -o writes is the exact move.`
}

// Run prints the cure.
func (c *tuneCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	spec, err := c.spec(j, i)
	if err != nil {
		return err
	}
	t, err := report.TuneOf(context.Background(), j, i, spec)
	if err != nil {
		for _, wrong := range []error{bumpsteer.ErrNothingFreed, bumpsteer.ErrLimits, bumpsteer.ErrRange, bumpsteer.ErrSpacers, bumpsteer.ErrStack} {
			if errors.Is(err, wrong) {
				return usageError{err}
			}
		}
		return err
	}
	return c.saving.answer(out, t.Sheet().Face(c.Format), c.Format, c.Job, j, func() []job.Variant { return t.Variants(j, i) })
}

// open reads the job and finds the variant's index.
func (s *source) open() (*job.Job, int, error) {
	j, err := job.Load(s.Job)
	if err != nil || s.Variant == nil {
		return j, 0, err
	}
	i, err := variantOf(j, s.Job, *s.Variant)
	return j, i, err
}

func (c *tuneCommand) spec(j *job.Job, variant int) (report.TuneSpec, error) {
	var sp report.TuneSpec
	var errs []error
	for _, text := range c.Free {
		f, err := freeOf(text, j.Units)
		sp.Free, errs = append(sp.Free, f), append(errs, err)
	}
	if len(c.Free) == 0 {
		setup := tune.SetupOf(j, variant)
		sp.Free = append(sp.Free, setup.SpacerRoom())
	}
	read := func(flag string, text *string, travel, roll float64) float64 {
		v, err := travel, error(nil)
		if c.Over == "roll" {
			v, err = angle(flag, text, roll)
		} else {
			v, err = length(flag, text, j.Units, travel)
		}
		errs = append(errs, err)
		return v
	}
	if c.Over == "roll" {
		sp.Goal.Over = bumpsteer.OverRoll
	}
	sp.Goal.From = read("from", c.From, -j.Travel.Droop.MM, -report.DefaultRoll)
	sp.Goal.To = read("to", c.To, j.Travel.Bump.MM, report.DefaultRoll)
	if c.Target != nil {
		var err error
		sp.Goal.Slope, err = slopeOf(*c.Target, sp.Goal.Over, j.Units)
		errs = append(errs, err)
	}
	if c.Stack != nil {
		var err error
		sp.Spacers, err = stackOf(*c.Stack, j.Units)
		errs = append(errs, err)
		if !slices.ContainsFunc(sp.Free, func(f bumpsteer.Free) bool { return f.Freedom == bumpsteer.OuterEndHeight }) {
			errs = append(errs, usageError{errors.New("--stack: spacers raise or lower the outer end; free it too, as --free outer_end.z=-15..25")})
		}
	}
	return sp, errors.Join(errs...)
}

// freeOf reads NAME=A..B.
func freeOf(text string, unit units.Unit) (bumpsteer.Free, error) {
	wrong := func(format string, args ...any) (bumpsteer.Free, error) {
		return bumpsteer.Free{}, usageError{fmt.Errorf("--free %s: %w", text, fmt.Errorf(format, args...))}
	}
	name, limits, ok := strings.Cut(text, "=")
	low, high, ok2 := strings.Cut(limits, "..")
	if !ok || !ok2 {
		return wrong("is not NAME=A..B, as outer_end.z=-15..25")
	}
	f, ok := bumpsteer.FreedomOf(strings.TrimSpace(name))
	if !ok {
		keys := make([]string, bumpsteer.FreedomCount)
		for k := range bumpsteer.FreedomCount {
			keys[k] = k.Key()
		}
		return wrong("nothing is called so; there are %s", strings.Join(keys, ", "))
	}
	min, err := units.Parse(low, unit)
	if err != nil {
		return wrong("%w", err)
	}
	max, err := units.Parse(high, unit)
	if err != nil {
		return wrong("%w", err)
	}
	return bumpsteer.Free{Freedom: f, Min: min, Max: max}, nil
}

// slopeOf reads a wanted slope, rad/mm or rad/rad.
func slopeOf(text string, over bumpsteer.Over, unit units.Unit) (float64, error) {
	if over == bumpsteer.OverTravel {
		s, err := job.ParseSlope(text, unit)
		if err != nil {
			return 0, usageError{fmt.Errorf("--target: %w", err)}
		}
		return s.PerMM(), nil
	}
	number := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "deg/deg"))
	rad, err := units.ParseAngle(number)
	if err != nil {
		return 0, usageError{fmt.Errorf("--target: %w", err)}
	}
	return rad * 180 / math.Pi, nil
}

// stackOf reads thicknesses.
func stackOf(text string, unit units.Unit) ([]bumpsteer.Spacer, error) {
	var list []bumpsteer.Spacer
	var errs []error
	for _, word := range strings.Split(text, ",") {
		mm, err := units.Parse(word, unit)
		if err != nil {
			errs = append(errs, usageError{fmt.Errorf("--stack: %w", err)})
		}
		list = append(list, bumpsteer.Spacer{Thickness: mm})
	}
	return list, errors.Join(errs...)
}
