package panels

import (
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/clearance"
)

// owner tells jobs apart: what was typed for one is not put into another.
func (c *Car) owner() string { return c.in.Job.Name }

// valueLine adds the row of a field; fill comes from the caller.
func (c *Car) valueLine(label string, f *field, fill func(r *valueRow)) {
	r := newValueRow(&c.form, c.words(label), f)
	c.add(r, func() { fill(r) })
}

// length adds a length of the job, which must be given; assumed tells where it is
// marked as one that nobody has measured, or is nil.
func (c *Car) length(label, name, hint string, of func(j *job.Job) *units.Length, assumed func(j *job.Job) *bool) {
	f := newField(name)
	f.check = func(text string) (string, error) { return echoLength(text, c.in.Unit) }
	f.hand = func(text string) error {
		l, err := units.ParseLength(text, c.in.Unit)
		if err != nil {
			return err
		}
		return c.OnEdit("type "+f.name, func(j *job.Job) {
			if *of(j) = l; assumed != nil {
				*assumed(j) = false
			}
		})
	}
	c.valueLine(label, f, func(r *valueRow) {
		short, full := lengthTexts(*of(c.in.Job), c.in.Unit)
		words := hint
		if r.field.assumed = assumed != nil && *assumed(c.in.Job); r.field.assumed {
			words = "assumed; " + hint
		}
		r.field.hold(c.owner(), short, full)
		r.explainWith(words)
	})
}

// optional adds a length of the job that may be left out; without says what
// holds then.
func (c *Car) optional(label, name, hint string, without func() string, of func(j *job.Job) *job.Optional) {
	f := c.optionalField(name, without, func(edit string, l job.Optional) error {
		return c.OnEdit(edit, func(j *job.Job) { *of(j) = l })
	})
	c.valueLine(label, f, func(r *valueRow) { c.holdOptional(r, c.owner(), *of(c.in.Job), hint, without()) })
}

// optionalField is the field of a length that may be left out.
func (c *Car) optionalField(name string, without func() string, set func(edit string, l job.Optional) error) *field {
	f := newField(name)
	f.check = func(text string) (string, error) {
		if blank(text) {
			return without(), nil
		}
		return echoLength(text, c.in.Unit)
	}
	f.hand = func(text string) error {
		if blank(text) {
			return set("drop "+f.name, job.Optional{})
		}
		l, err := units.ParseLength(text, c.in.Unit)
		if err != nil {
			return err
		}
		return set("type "+f.name, job.Given(l))
	}
	return f
}

func (c *Car) holdOptional(r *valueRow, owner string, l job.Optional, hint, without string) {
	if !l.Given {
		r.field.hold(owner, "", "")
		r.explainWith(without)
		return
	}
	short, full := lengthTexts(l.Length, c.in.Unit)
	r.field.hold(owner, short, full)
	r.explainWith(hint)
}

// ownWithin adds how well the variant in view is measured, where it differs.
func (c *Car) ownWithin() {
	without := func() string { return "of this variant alone; empty: as the job's" }
	f := c.optionalField("measured within of the variant", without, func(edit string, l job.Optional) error {
		return c.OnVariant(edit, func(v *job.Variant) { v.MeasuredWithin = l })
	})
	c.valueLine("This variant", f, func(r *valueRow) {
		c.holdOptional(r, c.in.owner(), c.in.Variant.MeasuredWithin, "of this variant alone; a proposal: built within", without())
	})
}

// weight adds the corner weight.
func (c *Car) weight() {
	f := newField("corner weight")
	f.check = func(text string) (string, error) {
		if blank(text) {
			return c.assumedWeight(), nil
		}
		w, err := job.ParseWeight(text, c.in.Unit)
		if err != nil {
			return "", err
		}
		return weightText(w.Kg, units.Millimetre, 1) + " = " + weightText(w.Kg, units.Inch, 1), nil
	}
	f.hand = func(text string) error {
		if blank(text) {
			return c.OnEdit("drop "+f.name, func(j *job.Job) { j.CornerWeight = job.Weight{} })
		}
		w, err := job.ParseWeight(text, c.in.Unit)
		if err != nil {
			return err
		}
		return c.OnEdit("type "+f.name, func(j *job.Job) { j.CornerWeight = w })
	}
	c.valueLine("Corner weight", f, func(r *valueRow) {
		short, full := c.weightTexts(c.in.Job.CornerWeight)
		r.field.hold(c.owner(), short, full)
		if c.in.Job.CornerWeight.Given {
			r.explainWith("on each wheel of this axle, ready to drive")
		} else {
			r.explainWith(c.assumedWeight())
		}
	})
}

// weightTexts is lengthTexts for a weight, with its unit.
func (c *Car) weightTexts(w job.Weight) (short, full string) {
	if !w.Given {
		return "", ""
	}
	short, full = weightText(w.Kg, c.in.Unit, 1), weightText(w.Kg, c.in.Unit, editDecimals)
	if w.Typed != "" {
		full = w.Typed
		if len([]rune(full)) <= typedMost {
			short = full
		}
	}
	return short, full
}

// weightText prints a weight in the unit that goes with one of length.
func weightText(kg float64, lengths units.Unit, decimals int) string {
	if lengths == units.Inch {
		return units.Trimmed(kg/job.KgPerPound, decimals) + " lb"
	}
	return units.Trimmed(kg, decimals) + " kg"
}

// limits adds the limits of the joints.
func (c *Car) limits() {
	c.paragraph("How far each joint may tilt from where it is at rest, either way, in degrees. Its maker says.")
	for _, l := range []struct {
		label, name string
		of          func(j *job.Job) *job.OptionalDegrees
	}{
		{"Upper ball joint", "limit of the upper ball joint", func(j *job.Job) *job.OptionalDegrees { return &j.JointLimits.UpperBall }},
		{"Lower ball joint", "limit of the lower ball joint", func(j *job.Job) *job.OptionalDegrees { return &j.JointLimits.LowerBall }},
		{"Outer tie-rod end", "limit of the outer tie-rod end", func(j *job.Job) *job.OptionalDegrees { return &j.JointLimits.OuterEnd }},
		{"Rack end", "limit of the rack end", func(j *job.Job) *job.OptionalDegrees { return &j.JointLimits.RackEnd }},
	} {
		c.limit(l.label, l.name, l.of)
	}
}

const noLimit = "no limit given"

func (c *Car) limit(label, name string, of func(j *job.Job) *job.OptionalDegrees) {
	f := newField(c.words(name))
	f.check = func(text string) (string, error) {
		if blank(text) {
			return noLimit, nil
		}
		d, err := job.ParseDegrees(text)
		if err != nil {
			return "", err
		}
		return units.Trimmed(float64(d), restDecimals) + "° either way", nil
	}
	f.hand = func(text string) error {
		if blank(text) {
			return c.OnEdit("drop "+f.name, func(j *job.Job) { *of(j) = job.OptionalDegrees{} })
		}
		d, err := job.ParseDegrees(text)
		if err != nil {
			return err
		}
		return c.OnEdit("type "+f.name, func(j *job.Job) { *of(j) = job.OptionalDegrees{Degrees: d, Given: true} })
	}
	c.valueLine(label, f, func(r *valueRow) {
		d := of(c.in.Job)
		if !d.Given {
			r.field.hold(c.owner(), "", "")
			r.explainWith(noLimit)
			return
		}
		text := units.Trimmed(float64(d.Degrees), editDecimals) + "°"
		r.field.hold(c.owner(), text, text)
		r.explainWith("")
	})
}

// What holds where nothing is given.

func (c *Car) assumed(text string) string { return "not given: " + text + " assumed for forces" }

func (c *Car) plainLength(mm float64) string {
	return units.Taped.Short(mm, c.in.Unit) + " " + c.in.Unit.String()
}

func (c *Car) assumedTurn() string {
	usual, _ := report.AssumedLoading(c.in.Job.Units)
	return c.assumed(c.plainLength(usual.RackPerTurn))
}
func (c *Car) assumedRim() string {
	usual, _ := report.AssumedLoading(c.in.Job.Units)
	return c.assumed(c.plainLength(usual.RimDiameter))
}

func (c *Car) assumedWeight() string {
	_, usual := report.AssumedLoading(c.in.Job.Units)
	return c.assumed(weightText(usual.Kg, c.in.Unit, 0))
}

func (c *Car) usualGap() string {
	return "not given: " + c.plainLength(clearance.WishInRim) + ", common practice"
}
