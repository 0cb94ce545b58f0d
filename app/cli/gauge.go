package cli

import (
	"errors"
	"fmt"
	"io"
	"os"

	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/tune"
)

type gauge struct {
	source
	From   *string `placeholder:"A" help:"First travel; the job's own droop if left out."`
	To     *string `placeholder:"B" help:"Last travel; the job's own bump if left out."`
	Step   *string `placeholder:"S" help:"Step of travel; 10 mm (1/2 in) if left out."`
	Format string  `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *gauge) Help() string {
	return `What a toe gauge should read at each travel, as an angle, as a length across the gauge's width (the rim's diameter unless the job states one), and on two dials if the job states their spacing, with room to write down what it does read. Readings that the variant holds are set against the prediction.`
}

// Run prints the sheet.
func (c *gauge) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	var sp report.Spec
	var errs [3]error
	sp.From, errs[0] = length("from", c.From, j.Units, -j.Travel.Droop.MM)
	sp.To, errs[1] = length("to", c.To, j.Units, j.Travel.Bump.MM)
	sp.Step, errs[2] = length("step", c.Step, j.Units, 2*report.DefaultStep(j.Units))
	if err := errors.Join(errs[:]...); err != nil {
		return err
	}
	g, err := report.GaugeOf(j, i, sp)
	if errors.Is(err, report.ErrSpec) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	out.answer(g.Sheet(), c.Format)
	return nil
}

type fit struct {
	source
	Readings    *string `placeholder:"FILE" help:"Readings as CSV, its first line naming the columns: travel_mm or travel_in; toe_deg, or toe_mm or toe_in across the gauge's width, or front_dial_mm and rear_dial_mm; side (left, right) may be added. Left out: the variant's own toe_readings."`
	AsRead      bool    `help:"Take readings that raise a question as they are."`
	LeaveOutBad bool    `help:"Fit without the readings that are flagged as bad."`
	saving
	Format string `enum:"table,json" default:"table" help:"One of ${enum}. Tables are in the job's unit, JSON in mm and degrees."`
}

// Help is the text below the flags' own.
func (c *fit) Help() string {
	return `Finds the corrections of the measured points that make the readings most likely: each coordinate is as sure as the job's measured_within says, each reading as its toe_gauge says. Each side's gauge has its own zero, so toe may be read from rest or from straight ahead; toe-in is positive on either side.

A reading that is far from what the points predict with their measuring error, and one that is written down twice, is asked about: nothing is printed or written until it is put right, or taken with --as-read.`
}

// Run prints the fit.
func (c *fit) Run(out *output) error {
	j, i, err := c.open()
	if err != nil {
		return err
	}
	var list []tune.Taken
	if c.Readings != nil {
		text, err := readText(*c.Readings)
		if err != nil {
			return err
		}
		if list, err = tune.ParseReadings(*c.Readings, text, tune.SetupOf(j, i).Gauge); err != nil {
			return err
		}
	}
	f, err := report.FitOf(j, i, list, c.AsRead, c.LeaveOutBad)
	if err != nil {
		return err
	}
	return c.saving.answer(out, f.Sheet().Face(c.Format), c.Format, c.Job, j, func() []job.Variant { return f.Variants(j, i) })
}

// readText reads a file of readings, one byte beyond what is taken at most.
func readText(path string) (text string, err error) {
	info, err := os.Stat(path)
	if err == nil && !info.Mode().IsRegular() {
		return "", fmt.Errorf("%s: is not an ordinary file; name a file of readings", path)
	}
	if err != nil {
		return "", fmt.Errorf("--readings: %w", err)
	}
	file, err := os.Open(path)
	if err != nil {
		return "", fmt.Errorf("--readings: %w", err)
	}
	defer func() { err = errors.Join(err, file.Close()) }()
	data, err := io.ReadAll(io.LimitReader(file, tune.MaxReadingsFile+1))
	if err != nil {
		return "", fmt.Errorf("--readings: %w", err)
	}
	return string(data), nil
}
