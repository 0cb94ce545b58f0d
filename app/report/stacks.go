package report

import (
	"context"
	"errors"
	"fmt"
	"math"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Stacked is which stacks of the spacers at hand come nearest to the least toe change
// over the travel.
type Stacked struct {
	Setup tune.Setup
	Wish  float64                // by how much the outer end would best be raised, mm
	From  kinematics.Corner      // without any stack
	Plan  []bumpsteer.Stack      // the nearest first
	Clear []*clearance.Judgement // how the wheel stands with each

	onTop bool // of what a variant that is no measurement has already
}

// ErrNoStock is that of a job that lists no spacers.
var ErrNoStock = errors.New("list below what spacers and washers the shop has")

// StacksOf plans stacks for a variant, under a corner that may be another than its own.
func StacksOf(j *job.Job, variant int, s tune.Setup, under kinematics.Corner) (*Stacked, error) {
	if len(s.Spacers) == 0 {
		return nil, ErrNoStock
	}
	goal := bumpsteer.Goal{From: -s.Droop, To: s.Bump}
	best, err := bumpsteer.Cure(context.Background(), bumpsteer.Request{Corner: under, Within: s.Within, Goal: goal, Free: []bumpsteer.Free{s.SpacerRoom()}})
	if err != nil {
		return nil, err
	}
	a := &Stacked{Setup: s, Wish: best.Moves[0].By(), onTop: variant > 0}
	judges := clearance.JudgesOf(j, variant)
	q := s.Stacking(under, s.Spacers, a.Wish, s.SpacerRoom().Max+s.Stands(), goal)
	q.Rank, a.From = judges.Rank, q.Corner
	if a.Plan, err = bumpsteer.Stacks(q); err != nil {
		return nil, err
	}
	for i := range a.Plan {
		with := q.Corner
		with.TieRod.OuterEnd.Z += a.Plan[i].Raise
		a.Clear = append(a.Clear, judges.Of(with))
	}
	return a, nil
}

// StandsBest tells whether the outer end is best left where it is.
func (a *Stacked) StandsBest() bool { return math.Abs(a.Wish) < tune.BuildStep(a.Setup.Unit)/2 }

// says is what the answer begins with.
func (a *Stacked) says() string {
	s := &a.Setup
	if a.StandsBest() {
		return "Over the travel the outer end stands best as it is: no stack betters it."
	}
	text := fmt.Sprintf("Best over the travel would be the outer end %s by %s%s: a stack %s the joint.", pickWord(a.Wish < 0, "lowered", "raised"), units.Built.Length(math.Abs(a.Wish), s.Unit),
		pickWord(s.StandingText() == "", "", ", from where it is with "+s.StandingText()), pickWord(a.Wish+s.Stands() < 0, "over", "under"))
	if s.Tallest == 0 {
		text += fmt.Sprintf(" How tall a stack fits is not stated: up to %s looked at.", units.ShortLength(tune.GuessedRoom, s.Unit))
	}
	return text
}

// KeepStack is what a row of the answer offers.
const KeepStack = "keep"

// Sheet is the answer.
func (a *Stacked) Sheet() *sheet.Sheet {
	s := &a.Setup
	t := &sheet.Table{Groups: sheet.Rows(), Columns: []sheet.Column{{Title: "stack, " + s.Unit.String(), Role: sheet.Name}, {Title: "height", UnitIn: true}, {Title: "bolt", UnitIn: true},
		{Title: s.Rod(), UnitIn: true}, {Title: "toe change left", UnitIn: true}, {Role: sheet.Text}, {Role: sheet.Text, Under: true}}}
	for i := range a.Plan {
		k := &a.Plan[i]
		bolt := sheet.Missing(sheet.Chosen, "not stated")
		if k.Bolt > 0 {
			bolt = sheet.Number(sheet.Chosen, k.Bolt)
		}
		under := sheet.Words("")
		switch near := a.Clear[i].Row(s.Unit); {
		case near != "":
			under = sheet.Words(near).Marked(sheet.Bad)
		case s.StandsAlready(k):
			under = sheet.Words("stands there now")
		case k.Tall:
			under = sheet.Words("tall").Marked(sheet.Warning)
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(tune.PiecesText(k.Pieces, s.Unit)), sheet.Number(sheet.Chosen, k.Height), bolt,
			sheet.Number(sheet.LaidOut, k.Rod), sheet.Number(sheet.Toe, k.Measure.Change), sheet.Words("Keep as a variant").Offers(KeepStack), under})
	}
	return &sheet.Sheet{Title: "stacks of spacers", Says: a.says(), Unit: s.Unit, Items: []sheet.Item{t}, Notes: func(units.Unit) []sheet.Note { return a.notes() }}
}

// notes explain the columns, and warn.
func (a *Stacked) notes() []sheet.Note {
	var list []string
	tall := false
	for i := range a.Plan {
		tall = tall || a.Plan[i].Tall
	}
	if tall {
		list = append(list, "Tall: "+tune.TallWarning)
	}
	if a.onTop {
		list = append(list, "These stacks come on top of what the variant shown has under the joint already: bolt and tall do not count that.")
	}
	return sheet.Notes(append(list, "Bolt: grip and stack. Rod: its length from end to end, cut to keep the resting toe. Toe change left: largest over the travel. "+upperFirst(tune.SpacerHint))...)
}
