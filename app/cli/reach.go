package cli

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

type reachCommand struct {
	source
	HalfTrack *string `placeholder:"T" help:"Wished half track: the tyre's centre on the ground from the car's centre plane."`
	Face      *string `placeholder:"Y" help:"Wished place of the tyre's outer face, flush with the edge of the wing, from the car's centre plane; instead of --half-track."`
	ScrubMax  *string `placeholder:"S" help:"Largest scrub radius, either way; any if left out."`
	Spacer    *string `placeholder:"A..B" help:"How thick a spacer may be, where there is one; up to 30 mm (1 1/4 in) if left out."`
	Arms      *string `placeholder:"A..B" help:"By how much the arms may grow, below zero shrink; up to 60 mm (2 1/2 in) longer if left out."`
	Order     string  `enum:"scrub,arms" default:"scrub" help:"What makes one way better than another: least scrub radius, or least change of the arms. One of ${enum}."`
	saving
	Format string `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm."`
}

// Help is the text below the flags' own.
func (c *reachCommand) Help() string {
	return `Finds what leads to a wished track: for the wheel on the variant and for each of the wheels that the job lists, the spacer and the growth of the arms, ranked. Where nothing leads there, the nearest ways are printed with what they lack, and the exit code is 1; then nothing is written.`
}

// Run prints the ways.
func (c *reachCommand) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	sp, err := c.spec(j.Units)
	if err != nil {
		return err
	}
	r, err := report.ReachOf(j, i, sp)
	if errors.Is(err, report.ErrWidenSpec) || errors.Is(err, widen.ErrWiden) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	text := r.Sheet(0).Face(c.Format)
	if missed := r.Missed(); missed != nil {
		out.print(text)
		return missed
	}
	return c.saving.answer(out, text, c.Format, c.Job, j, func() []job.Variant { return []job.Variant{r.Variant(j, i, 0)} })
}

// spec reads the flags.
func (c *reachCommand) spec(unit units.Unit) (report.ReachSpec, error) {
	sp := report.ReachSpec{Wish: report.UsualReach(unit)}
	var errs []error
	read := func(flag string, text *string) float64 {
		mm, err := length(flag, text, unit, 0)
		errs = append(errs, err)
		return mm
	}
	switch {
	case (c.HalfTrack == nil) == (c.Face == nil):
		errs = append(errs, usageError{errors.New("say what is wished: --half-track or --face, one of the two")})
	case c.Face != nil:
		sp.ByFace, sp.To = true, read("face", c.Face)
	default:
		sp.To = read("half-track", c.HalfTrack)
	}
	if c.ScrubMax != nil {
		sp.HasScrubMax, sp.ScrubMax = true, read("scrub-max", c.ScrubMax)
	}
	between := func(flag string, text *string, low, high *float64) {
		if text == nil {
			return
		}
		a, b, ok := strings.Cut(*text, "..")
		if !ok {
			errs = append(errs, usageError{fmt.Errorf("--%s: %q is not A..B, as 0..25", flag, *text)})
			return
		}
		*low, *high = read(flag, &a), read(flag, &b)
	}
	between("spacer", c.Spacer, &sp.SpacerMin, &sp.SpacerMax)
	between("arms", c.Arms, &sp.ArmsMin, &sp.ArmsMax)
	if c.Order == "arms" {
		sp.Order = widen.LeastArms
	}
	return sp, errors.Join(errs...)
}
