package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Adjusted is what the adjusters of a car do.
type Adjusted struct {
	Source  Source
	Setup   tune.Setup
	Effects []bumpsteer.Effect // one for each adjuster
	// Order is that in which to set those that say what they set, as indices
	// into the adjusters; only if two or more do. NoOrder says why there is none.
	Order   []int
	NoOrder string
	// Wishes and the setting that meets them together, if there were any; Used
	// are the adjusters that it sets, in its order, as indices.
	Wishes  []bumpsteer.Wish
	Used    []int
	Setting *bumpsteer.Setting
	// Clear is how the wheel stands so set; only if there is a Setting.
	Clear   *clearance.Judgement
	ToeKept bool // the last wish is that toe stays as it is
}

// AdjustOf computes the table of the adjusters of a job without problems, and
// the setting that meets the wishes, if there are any. Errors match
// bumpsteer.ErrAdjuster and name the variant, or are those of its geometry.
func AdjustOf(j *job.Job, variant int, wishes []bumpsteer.Wish) (*Adjusted, error) {
	a := &Adjusted{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant), Wishes: wishes}
	list := a.adjusters()
	if len(list) == 0 {
		return nil, a.Source.Named(fmt.Errorf("the job states no adjusters; add rod ends, eccentric bolts or shims under adjusters: %w", bumpsteer.ErrAdjuster))
	}
	var err error
	if a.Effects, err = bumpsteer.Effects(a.Source.Corner, list); err != nil {
		return nil, a.Source.Named(err)
	}
	a.order()
	if len(wishes) == 0 {
		return a, nil
	}
	a.keepToe()
	for _, a.Used = range a.choices() {
		used := make([]bumpsteer.Adjuster, len(a.Used))
		for k, i := range a.Used {
			used[k] = list[i]
		}
		setting, err := bumpsteer.Settle(a.Source.Corner, used, a.Wishes)
		if err != nil {
			return nil, a.Source.Named(err)
		}
		if a.Setting = &setting; setting.Met {
			break
		}
	}
	if a.Setting != nil {
		v := clearance.JudgementOf(j, variant, &a.Setting.Advised().Corner)
		a.Clear = &v
	}
	return a, nil
}

// keepToe adds the wish that toe stays, where none is named and something sets
// it: else the tie rod would be turned to help with the camber.
func (a *Adjusted) keepToe() {
	can := false
	for i := range a.Setup.Adjusters {
		can = can || a.Setup.Adjusters[i].HasSets && a.Setup.Adjusters[i].Sets == kinematics.Toe
	}
	for _, w := range a.Wishes {
		can = can && w.Quantity != kinematics.Toe
	}
	if a.ToeKept = can; can {
		a.Wishes = append(a.Wishes[:len(a.Wishes):len(a.Wishes)], bumpsteer.Wish{Quantity: kinematics.Toe, Value: a.Source.Corner.Toe})
	}
}

// choices are the adjusters to try: first those that say they set what is wished
// for, if there is one for every wish, then all.
func (a *Adjusted) choices() [][]int {
	of := func(w bumpsteer.Wish, i int) bool {
		return a.Setup.Adjusters[i].HasSets && a.Setup.Adjusters[i].Sets == w.Quantity
	}
	var all, some []int
	for i := range a.Setup.Adjusters {
		all = append(all, i)
		if slices.ContainsFunc(a.Wishes, func(w bumpsteer.Wish) bool { return of(w, i) }) {
			some = append(some, i)
		}
	}
	for _, w := range a.Wishes {
		if !slices.ContainsFunc(some, func(i int) bool { return of(w, i) }) {
			return [][]int{all}
		}
	}
	if len(some) == len(all) {
		return [][]int{all}
	}
	return [][]int{some, all}
}

func (a *Adjusted) adjusters() []bumpsteer.Adjuster {
	list := make([]bumpsteer.Adjuster, len(a.Setup.Adjusters))
	for i := range list {
		list[i] = a.Setup.Adjusters[i].Adjuster
	}
	return list
}

func (a *Adjusted) order() {
	var jobs []bumpsteer.Job
	var index []int
	for i := range a.Setup.Adjusters {
		if s := &a.Setup.Adjusters[i]; s.HasSets {
			jobs, index = append(jobs, bumpsteer.Job{Effect: a.Effects[i], Sets: s.Sets}), append(index, i)
		}
	}
	if len(jobs) < 2 {
		a.NoOrder = "fewer than two adjusters say what they set (sets: camber, caster or toe)."
		return
	}
	order, _, err := bumpsteer.Order(jobs)
	if err != nil {
		a.NoOrder = strings.TrimSuffix(err.Error(), ": "+bumpsteer.ErrAdjuster.Error()) + "."
		return
	}
	for _, k := range order {
		a.Order = append(a.Order, index[k])
	}
}

// ErrNotMet: the adjusters do not reach what is wished for.
var ErrNotMet = errors.New("the adjusters do not reach it")

// NotMet is an error that matches ErrNotMet where the wishes cannot be met
// together; nil when they are, and without wishes.
func (a *Adjusted) NotMet() error {
	if a.Setting == nil || a.Setting.Met {
		return nil
	}
	var list []string
	for i, w := range a.Wishes {
		list = append(list, fmt.Sprintf("%s %s deg, nearest %s deg", figures.Of(w.Quantity).Name, toeText(w.Value), toeText(a.Setting.Reached[i])))
	}
	return a.Source.Named(fmt.Errorf("%w: %s", ErrNotMet, strings.Join(list, "; ")))
}

func unitWord(u bumpsteer.Unit) string {
	if u == bumpsteer.Turn {
		return "turn"
	}
	return "mm"
}
