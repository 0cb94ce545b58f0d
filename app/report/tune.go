package report

import (
	"context"
	"errors"
	"fmt"
	"math"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// TuneSpec says what may be moved and what is wanted.
type TuneSpec struct {
	Free []bumpsteer.Free
	Goal bumpsteer.Goal
	// Spacers to plan a stack from; nil for those of the job.
	Spacers []bumpsteer.Spacer
	// Progress is told now and then how much of the search is done, 0 to 1; nil for nobody.
	Progress func(done float64)
}

// TunedName is what is put behind the name of a variant whose moves are made.
const TunedName = "tuned"

// Tuned is a cured corner, and how it compares.
type Tuned struct {
	Source Source
	Setup  tune.Setup
	Spec   TuneSpec
	Result bumpsteer.Result
	// Before is the diagnosis of the present toe curve; only if HasBefore: at
	// the very end of what reaches there is none.
	Before    bumpsteer.Diagnosis
	HasBefore bool
	// Plan is the stacks that come nearest, only if the outer end's height is
	// free and there are spacers; NoPlan says why there is none, or what it lacks.
	Plan   []bumpsteer.Stack
	NoPlan string
	bare   kinematics.Corner // cured, without any stack
	// Clear is how the wheel stands after the moves, and PlanClear with each of the
	// stacks of the plan instead of the outer end's move.
	Clear     *clearance.Judgement
	PlanClear []*clearance.Judgement
}

// TuneOf cures one variant of a job without problems. Errors match
// bumpsteer.ErrNothingFreed, ErrLimits, ErrRange, ErrSpacers or ErrStack, or
// name the variant and match kinematics.ErrUnreachable, or are that of ctx.
func TuneOf(ctx context.Context, j *job.Job, variant int, spec TuneSpec) (*Tuned, error) {
	t := &Tuned{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant), Spec: spec}
	height, freed := t.freeHeight()
	var err error
	q := t.Setup.CureRequest(spec.Free, spec.Goal)
	q.Progress = spec.Progress
	t.Result, err = bumpsteer.Cure(ctx, q)
	if errors.Is(err, kinematics.ErrUnreachable) || errors.Is(err, kinematics.ErrGeometry) {
		return nil, t.Source.Named(err)
	}
	if err != nil {
		return nil, units.Said(err, j.Units)
	}
	from, to := t.travel()
	t.Before, err = bumpsteer.Diagnose(t.Source.Corner, t.Source.Within, from, to)
	if err != nil && !errors.Is(err, kinematics.ErrUnreachable) {
		return nil, t.Source.Named(err)
	}
	t.HasBefore = err == nil
	judges := clearance.JudgesOf(j, variant)
	t.Clear = judges.Of(t.Result.Corner)
	if freed {
		return t, t.plan(height, judges)
	}
	return t, nil
}

// travel is the range of the goal, or what rolling gives the left wheel, about.
func (t *Tuned) travel() (from, to float64) {
	g := t.Spec.Goal
	if g.Over == bumpsteer.OverTravel {
		return g.From, g.To
	}
	y := t.Source.Corner.Hub.Y
	return -y * math.Tan(g.To), -y * math.Tan(g.From)
}

func (t *Tuned) freeHeight() (bumpsteer.Free, bool) {
	for _, f := range t.Spec.Free {
		if f.Freedom == bumpsteer.OuterEndHeight {
			return f, true
		}
	}
	return bumpsteer.Free{}, false
}

// plan looks for stacks that make the outer end's move, the other moves made.
func (t *Tuned) plan(free bumpsteer.Free, judges *clearance.Judges) error {
	spacers := t.Spec.Spacers
	if spacers == nil {
		spacers = t.Setup.Spacers
	}
	if len(spacers) == 0 {
		t.NoPlan = "no spacers are listed: state them in the job, or with --stack, for a plan."
		return nil
	}
	var wish float64
	for _, m := range t.Result.Moves {
		if m.Free.Freedom == bumpsteer.OuterEndHeight {
			wish = m.By()
		}
	}
	stands := t.Setup.Stands()
	tallest := free.Max + stands
	if wish+stands < 0 {
		tallest = -free.Min - stands
	}
	c := t.Result.Corner
	c.TieRod.OuterEnd.Z = t.Source.Corner.TieRod.OuterEnd.Z
	q := t.Setup.Stacking(c, spacers, wish, tallest, t.Spec.Goal)
	q.Rank = judges.Rank
	t.bare = q.Corner
	if !(q.Max > 0) {
		t.NoPlan = "the limits leave no room for a stack."
		return nil
	}
	if math.Abs(q.Raise) > q.Max {
		t.NoPlan = fmt.Sprintf("the move asks for %s, more than the tallest stack that fits, %s.", t.length(math.Abs(q.Raise), false), lengthText(q.Max, t.Source.Unit))
	}
	var err error
	t.Plan, err = bumpsteer.Stacks(q)
	if errors.Is(err, kinematics.ErrUnreachable) {
		return t.Source.Named(fmt.Errorf("with a stack of spacers: %w", err))
	}
	for i := range t.Plan {
		t.PlanClear = append(t.PlanClear, judges.Of(t.stacked(&t.Plan[i])))
	}
	return err
}

// stacked is the corner with a stack instead of the outer end's move.
func (t *Tuned) stacked(k *bumpsteer.Stack) kinematics.Corner {
	c := t.bare
	c.TieRod.OuterEnd.Z += k.Raise
	return c
}

// Variants is the tuned corner as one more variant of the job.
func (t *Tuned) Variants(j *job.Job, variant int) []job.Variant {
	return tune.Moved(j, variant, TunedName, t.Notes(), t.Result.Corner).Variants[len(j.Variants):]
}

// Notes are those of the tuned variant.
func (t *Tuned) Notes() string {
	text := "Tuned for the toe curve from " + oneLine(t.Source.Variant) + ":"
	for i := range t.Result.Moves {
		m := &t.Result.Moves[i]
		text += fmt.Sprintf(" %s %s;", t.Setup.FreedomName(m.Free.Freedom), t.length(m.By(), true))
	}
	return text + fmt.Sprintf(" %s %s from end to end.", t.Setup.Rod(), t.length(t.Result.RodTo, false))
}

// length prints a length to a tenth of a millimetre or a thousandth of an inch.
func (t *Tuned) length(mm float64, signed bool) string {
	text := units.Built.Length(mm, t.Source.Unit)
	if signed {
		return units.Signed(text)
	}
	return text
}

// tableSteps are round steps of travel for tables, in the unit of the table or
// degrees of roll, so that about eight of them span the range.
func tableSteps(span float64) float64 {
	const steps = 8
	for step := 1e-3; ; step *= 10 {
		for _, f := range []float64{1, 2, 5} {
			if span/(step*f) <= steps+2 {
				return step * f
			}
		}
	}
}

// stations are the round places of a range with both ends and rest, rising.
func stations(from, to, step float64) []float64 { return tune.Stations(from, to, step) }
