package cli

import (
	"errors"
	"fmt"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// source is what the commands that read one variant share.
type source struct {
	Job     string  `arg:"" help:"Job file, *.armscribe.yaml."`
	Variant *string `placeholder:"NAME" help:"Variant to read; the first if left out."`
}

// load reads the job and finds the variant.
func (s *source) load() (report.Source, error) {
	j, err := job.Load(s.Job)
	if err != nil {
		return report.Source{}, err
	}
	if s.Variant == nil {
		return report.SourceOf(j, 0), nil
	}
	i, err := variantOf(j, s.Job, *s.Variant)
	if err != nil {
		return report.Source{}, err
	}
	return report.SourceOf(j, i), nil
}

// variantOf finds the variant that a flag names.
func variantOf(j *job.Job, file, wanted string) (int, error) {
	known := make([]string, len(j.Variants))
	for i, name := range j.Names() {
		if name == wanted {
			return i, nil
		}
		known[i] = fmt.Sprintf("%q", name)
	}
	return 0, usageError{fmt.Errorf("--variant: %s has no %q; it has %s", file, wanted, strings.Join(known, ", "))}
}

// length reads a length from a flag, or returns what stands in for one left
// out. A flag without a value is not left out.
func length(flag string, text *string, unit units.Unit, otherwise float64) (float64, error) {
	if text == nil {
		return otherwise, nil
	}
	mm, err := units.Parse(*text, unit)
	if err != nil {
		return 0, usageError{fmt.Errorf("--%s: %w", flag, err)}
	}
	return mm, nil
}

func angle(flag string, text *string, otherwise float64) (float64, error) {
	if text == nil {
		return otherwise, nil
	}
	rad, err := units.ParseAngle(*text)
	if err != nil {
		return 0, usageError{fmt.Errorf("--%s: %w", flag, err)}
	}
	return rad, nil
}

type readings struct {
	source
	Travel *string `placeholder:"T" help:"Wheel travel, bump positive; rest if left out."`
	Rack   *string `placeholder:"R" help:"Rack, to the car's left positive; adds the steering angles. A rear axle has none."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Run prints the readings.
func (c *readings) Run(out *output) error {
	s, err := c.load()
	if err != nil {
		return err
	}
	travel, err := length("travel", c.Travel, s.Unit, 0)
	if err != nil {
		return err
	}
	rack, err := rackOf(&s, c.Rack)
	if err != nil {
		return err
	}
	r, err := report.ReadingsOf(s, figures.Position{Travel: travel, Rack: rack, Steering: c.Rack != nil})
	if err != nil {
		return err
	}
	out.answer(r.Sheet(), c.Format)
	return nil
}

// rackOf reads --rack, which a rear axle refuses.
func rackOf(s *report.Source, text *string) (float64, error) {
	if text != nil && s.Rear {
		return 0, usageError{errors.New("--rack: this job is a rear axle with a fixed toe link; leave the rack out")}
	}
	return length("rack", text, s.Unit, 0)
}

type sweep struct {
	source
	Over   string  `enum:"travel,rack,roll" default:"travel" help:"One of ${enum}."`
	From   *string `placeholder:"A" help:"First position: a length, over roll degrees. Left out: the job's own droop or right lock, over roll -4. It may lie above --to: the sweep then runs downward."`
	To     *string `placeholder:"B" help:"Last position, always printed. Left out: the job's own bump or left lock, over roll 4."`
	Step   *string `placeholder:"S" help:"Step. Left out: 5 mm (1/4 in), over roll 0.5 degrees. If the range is not whole steps the last is shorter."`
	Travel *string `placeholder:"T" help:"Travel held while the rack moves."`
	Rack   *string `placeholder:"R" help:"Rack held over travel and roll."`
	Format string  `enum:"csv,json,table" default:"csv" help:"One of ${enum}. CSV (RFC 4180, lines end in CR LF) and JSON are in mm and degrees, empty or null at infinity."`
}

// Help is the text below the flags' own.
func (c *sweep) Help() string {
	return `Travel is relative to the body, droop negative. In roll the mean wheel travel is nought and both tyres stand on the ground; each angle prints a left and a right row, whose travel is each wheel's own. Angles are then to the ground, and the roll centre is that of the axle.

A sweep is printed whole or not at all: where it leaves the range in which the linkage assembles, nothing is printed but an error that names the link, how much it lacks and the range in reach.`
}

// Run prints the sweep.
func (c *sweep) Run(out *output) error {
	s, err := c.load()
	if err != nil {
		return err
	}
	spec, err := c.spec(&s)
	if err != nil {
		return err
	}
	w, err := report.SweepOf(s, spec)
	if errors.Is(err, report.ErrSpec) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	out.answer(w.Sheet(), c.Format)
	return nil
}

// spec reads the flags, with the job's own range in place of those left out.
func (c *sweep) spec(s *report.Source) (report.Spec, error) {
	var sp report.Spec
	from, to, step := -s.Droop, s.Bump, report.DefaultStep(s.Unit)
	switch c.Over {
	case "rack":
		sp.Over = report.OverRack
		from, to = -s.RackRight, s.RackLeft
	case "roll":
		sp.Over = report.OverRoll
		from, to, step = -report.DefaultRoll, report.DefaultRoll, report.DefaultRollStep
	}
	if c.Travel != nil && sp.Over != report.OverRack {
		return sp, usageError{fmt.Errorf("--travel is held only while the rack moves; with --over %s leave it out", c.Over)}
	}
	if c.Rack != nil && sp.Over == report.OverRack {
		return sp, usageError{errors.New("--rack is what moves; leave it out, or give --from and --to")}
	}
	if sp.Over == report.OverRack && s.Rear {
		return sp, usageError{errors.New("--over rack: this job is a rear axle with a fixed toe link")}
	}
	read := func(flag string, text *string, otherwise float64) (float64, error) {
		if sp.Over == report.OverRoll {
			return angle(flag, text, otherwise)
		}
		return length(flag, text, s.Unit, otherwise)
	}
	var errs [5]error
	sp.From, errs[0] = read("from", c.From, from)
	sp.To, errs[1] = read("to", c.To, to)
	sp.Step, errs[2] = read("step", c.Step, step)
	sp.Travel, errs[3] = length("travel", c.Travel, s.Unit, 0)
	sp.Rack, errs[4] = rackOf(s, c.Rack)
	return sp, errors.Join(errs[:]...)
}

type compare struct {
	Job    string `arg:"" help:"Job file, *.armscribe.yaml."`
	Format string `enum:"table,json" default:"table" help:"One of ${enum}."`
}

// Run prints the comparison.
func (c *compare) Run(out *output) error {
	j, err := job.Load(c.Job)
	if err != nil {
		return err
	}
	r, err := report.Compare(report.SourcesOf(j))
	if err != nil {
		return err
	}
	r.Targets = report.TargetsOf(j)
	out.answer(r.Sheet(), c.Format)
	return nil
}

type check struct {
	Job     string  `arg:"" help:"Job file, *.armscribe.yaml."`
	Variant *string `placeholder:"NAME" help:"Variant that must meet the targets; the last if left out."`
}

// Help is the text below the flags' own.
func (c *check) Help() string {
	return `Every variant is set against the job's targets. A target that the chosen variant surely misses is a problem; one that the measuring error leaves open is not. The wheel of the chosen variant is carried through travel and rack: what it touches, a brake that does not pass through the rim and a mounting face outside it are problems; a gap that is less than wished is said, as clearance tells it.`
}

// Run prints what is wrong, or that nothing is. A target that is missed is
// said behind the answer.
func (c *check) Run(out *output) error {
	j, err := job.Load(c.Job)
	if err != nil {
		return err
	}
	chosen := len(j.Variants) - 1
	if c.Variant != nil {
		if chosen, err = variantOf(j, c.Job, *c.Variant); err != nil {
			return err
		}
	}
	sources := report.SourcesOf(j)
	if err := report.Check(sources); err != nil {
		return err
	}
	aims := report.TargetsOf(j)
	var notes []string
	if note := j.KeptNote(); note != "" {
		notes = append(notes, "note: "+note)
	}
	v, lines, problem := report.Room(j, chosen)
	if aims != nil {
		problem = errors.Join(problem, aims.Missed(chosen))
	}
	out.answer(report.Summary(sources, report.HealthOf(&v, problem), aims, append(lines, notes...)...), sheet.AsTable)
	return problem
}
