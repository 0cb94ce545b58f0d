package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/room"
	"armscribe/app/tune"
	"armscribe/app/units"
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
	Clear   *room.Judgement
	ToeKept bool // the last wish is that toe stays as it is
}

// AdjustOf computes the table of the adjusters of a job without problems, and
// the setting that meets the wishes, if there are any. Errors match
// bumpsteer.ErrAdjuster and name the variant, or are those of its geometry.
func AdjustOf(j *job.Job, variant int, wishes []bumpsteer.Wish) (*Adjusted, error) {
	a := &Adjusted{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant), Wishes: wishes}
	list := a.adjusters()
	if len(list) == 0 {
		return nil, a.Source.named(fmt.Errorf("the job states no adjusters; add rod ends, eccentric bolts or shims under adjusters: %w", bumpsteer.ErrAdjuster))
	}
	var err error
	if a.Effects, err = bumpsteer.Effects(a.Source.Corner, list); err != nil {
		return nil, a.Source.named(err)
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
			return nil, a.Source.named(err)
		}
		if a.Setting = &setting; setting.Met {
			break
		}
	}
	if a.Setting != nil {
		v := room.JudgementOf(j, variant, &a.Setting.Advised().Corner)
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
	return a.Source.named(fmt.Errorf("%w: %s", ErrNotMet, strings.Join(list, "; ")))
}

func unitWord(u bumpsteer.Unit) string {
	if u == bumpsteer.Turn {
		return "turn"
	}
	return "mm"
}

// Table prints the effects for a person.
func (a *Adjusted) Table() string {
	s := &a.Source
	parts := []string{fmt.Sprintf("%s: %s, what the adjusters do\nat constant ride height: the body keeps its height above the ground, all else its length\n", oneLine(s.Job), oneLine(s.Variant)), a.effectTable(), a.threadTable()}
	if len(a.Order) > 0 {
		parts = append(parts, a.orderTable())
	}
	if a.Setting != nil {
		parts = append(parts, a.settingTable())
	}
	return strings.Join(append(parts, foot(a.notes())), "\n")
}

// threadCell prints a length of thread, which may be a round one.
func threadCell(mm float64, u units.Unit) string { return units.Gauged.NumberOnTape(mm, u) }

// effectDecimals of an effect, by its kind: a tenth of what is read on a car.
func effectText(q kinematics.Quantity, perUnit float64, u units.Unit) string {
	kind := Quantity{Kind: q.Kind()}
	v, _ := kind.inUnit(perUnit, u)
	decimals := 3
	switch {
	case kind.Kind == kinematics.Slope:
		decimals = 5
	case kind.Kind == kinematics.Length && u == units.Millimetre:
		decimals = 2
	}
	return units.Signed(units.FormatNumber(v, decimals))
}

var effectHeads = map[kinematics.Quantity]string{
	kinematics.Camber: "camber", kinematics.Caster: "caster", kinematics.Toe: "toe", kinematics.ScrubRadius: "scrub",
	kinematics.HalfTrack: "half track", kinematics.RollCentreHeight: "roll centre", kinematics.RideToe: "ride toe",
}

func (a *Adjusted) effectTable() string {
	u := a.Source.Unit
	g := grid{columns: []align{left, left}}
	heads, unit := []string{"Adjuster", "for each"}, []string{"", ""}
	for _, q := range bumpsteer.Adjusted() {
		kind := Quantity{Kind: q.Kind()}
		_, name := kind.inUnit(0, u)
		heads, unit, g.columns = append(heads, effectHeads[q]), append(unit, name), append(g.columns, point)
	}
	g.row(heads...)
	g.row(unit...)
	for i := range a.Setup.Adjusters {
		adj := &a.Setup.Adjusters[i]
		cells := []string{"  " + oneLine(adj.Name), unitWord(adj.Unit)}
		for _, q := range bumpsteer.Adjusted() {
			v, ok := a.Effects[i].Of(q)
			if !ok {
				cells = append(cells, missingWord(q))
				continue
			}
			cells = append(cells, effectText(q, v, u))
		}
		g.row(cells...)
	}
	return g.String()
}

// threadTable prints the thread in engagement, now and at the ends.
func (a *Adjusted) threadTable() string {
	u := a.Source.Unit
	g := grid{columns: []align{left, point, left, point, point, point, left, left}}
	g.row("Range", "from", "to", "engaged now", "fully out", "least", "", "")
	for i := range a.Setup.Adjusters {
		adj := &a.Setup.Adjusters[i]
		unit := unitWord(adj.Unit)
		if adj.Unit == bumpsteer.Turn {
			unit = "turns"
		}
		low, high := units.Signed(units.FormatNumber(adj.Min, 1)), units.Signed(units.FormatNumber(adj.Max, 1))+" "+unit
		if len(adj.Threads) == 0 {
			g.row("  "+oneLine(adj.Name), low, high, "", "", "", "", "")
			continue
		}
		now, out := adj.Engagements(0), adj.Engagements(adj.Max)
		for k := range now {
			name := "  " + oneLine(adj.Name)
			if k > 0 {
				name, low, high = "    left-hand thread", "", ""
			}
			g.row(name, low, high, threadCell(now[k].Engaged, u), threadCell(max(0, out[k].Engaged), u), threadCell(now[k].Least, u), u.String(), shortWord(now[k], out[k]))
		}
	}
	return g.String()
}

func shortWord(now, out bumpsteer.Engagement) string {
	switch {
	case now.Short:
		return "TOO SHORT as it stands"
	case out.Short:
		return "too short when fully out"
	}
	return ""
}

func (a *Adjusted) orderTable() string {
	g := grid{columns: []align{left, left}}
	g.row("Order of adjusting", "")
	for n, i := range a.Order {
		adj := &a.Setup.Adjusters[i]
		g.row(fmt.Sprintf("  %d  %s", n+1, oneLine(adj.Name)), "sets "+strings.ToLower(figures.Of(adj.Sets).Name))
	}
	return g.String()
}

func (a *Adjusted) settingTable() string {
	g := grid{columns: []align{left, point, point, point, left, left}}
	g.row("Wished together", "wished", "nearest", "as set", "", "")
	for _, w := range a.WishLines() {
		g.row("  "+w.Name, w.Wished, w.Nearest, w.AsSet, "deg", w.Left)
	}
	g.row("Setting", "", "exactly", "set", "", "")
	for _, l := range a.SetLines() {
		g.row("  "+oneLine(l.Name), "", l.Exactly, l.Set, l.Unit, strings.Join(l.Marks, ", "))
	}
	return g.String() + "Wheel so set: " + a.Clear.Words(a.Source.Unit) + "\n"
}

func (a *Adjusted) notes() []string {
	list := []string{"A turn makes the leg longer. Effects are slopes at the present setting; scrub, half track and roll centre as in armcalc readings.",
		fmt.Sprintf("least: %g diameters of thread in engagement; common practice, no source.", bumpsteer.MinEngagement)}
	if a.NoOrder != "" {
		list = append(list, "No order of adjusting: "+a.NoOrder)
	}
	if a.Setting != nil && a.Setting.Built != nil {
		list = append(list, "set: a rod end goes on again every half turn; the others make up for what they can. as set, left: what comes of that, and what then lacks.")
	}
	if a.ToeKept {
		list = append(list, "Toe is not among the wishes, so it is kept as it is.")
	}
	if a.Setting != nil && !a.Setting.Met {
		list = append(list, "The wishes are not met together: this is the nearest that limits and adjusters allow.")
	}
	return list
}
