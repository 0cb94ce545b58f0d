package bumppage

import (
	"context"
	"errors"
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// The goals that can be chosen.
const (
	leastTravel = "least change over the travel"
	slopeTravel = "a chosen slope over the travel"
	leastRoll   = "least change in roll"
	slopeRoll   = "a chosen slope in roll"
)

// firstLimits are the limits that a freedom starts with, mm; the first three
// are ticked at first. Choices of the program's, to be typed over.
var firstLimits = [bumpsteer.FreedomCount]struct {
	low, high float64
	ticked    bool
}{
	bumpsteer.OuterEndHeight: {-15, 25, true}, bumpsteer.OuterEndSide: {-10, 10, false}, bumpsteer.OuterEndForeAft: {-10, 10, false},
	bumpsteer.RackHeight: {-20, 20, false}, bumpsteer.RackEndSide: {-20, 20, false}, bumpsteer.RackForeAft: {-15, 15, false},
}

// freeRow is one freedom: ticked or not, and its limits from the present place.
type freeRow struct {
	tick      *keyed.Check
	low, high *pages.Number
}

// cure finds the moves that bring the toe curve nearest to a goal.
type cure struct {
	p                    *Page
	rows                 [bumpsteer.FreedomCount]freeRow
	goal                 *keyed.Select
	from                 [2]*pages.Number // over travel, over roll
	to                   [2]*pages.Number
	travel               [2]float64 // the job's, as it was filled in
	slope                *pages.Field
	slopeUnit, rangeUnit *widget.Label
	ranges               *fyne.Container
	find, halt           *keyed.Button
	progress             *widget.ProgressBar
	says                 *pages.Sentence
	note                 *pages.Notice
	keep                 *keyed.Button
	view                 *pages.View
	content              fyne.CanvasObject

	cancel context.CancelFunc // nil while nothing runs
	run    int                // which search is the present one
	found  *report.Tuned
	tried  bool // the corner first has been looked at unasked
	first  kinematics.Corner
}

func newCure(p *Page) *cure {
	c := &cure{p: p, says: pages.NewSentence(), note: pages.NewNotice(), view: pages.NewView()}
	rows := pages.NewGrid("lll")
	rows.Tight = true
	rows.Head("free to move", "from", "to")
	for f := range bumpsteer.FreedomCount {
		r := &c.rows[f]
		r.tick = keyed.NewCheck("", nil)
		r.low, r.high = pages.NewLength("", 56), pages.NewLength("", 56)
		r.low.Suggest(firstLimits[f].low, p.host.Job().Units)
		r.high.Suggest(firstLimits[f].high, p.host.Job().Units)
		r.tick.SetChecked(firstLimits[f].ticked)
	}
	for f := range c.rows {
		r := &c.rows[f]
		rows.Row(r.tick, r.low.Field, r.high.Field)
	}
	c.makeGoal()
	c.find = keyed.NewButton("Find it", c.search)
	c.halt = keyed.NewButton("Cancel", c.giveUp)
	c.progress = widget.NewProgressBar()
	c.progress.Hide()
	c.halt.Hide()
	c.keep = keyed.NewButton("Keep as a variant", c.keepIt)
	c.keep.Importance = widget.HighImportance
	c.keep.Hide()
	buttons := container.NewVBox(pages.Flow(c.keep, c.find, c.halt), c.progress, c.note.Label)
	c.content = container.NewVBox(c.says.RichText, buttons, rows.Content, pages.Hint("Limits are from the present place; up, out and forward are positive. The rod is cut to keep the resting toe."), c.ranges, c.view.Object())
	return c
}

// goalWidth is that of the choice of a goal, points.
const goalWidth = 300

func (c *cure) makeGoal() {
	for i := range 2 {
		c.from[i], c.to[i] = pages.NewLength("range, from", 82), pages.NewLength("range, to", 82)
	}
	c.from[bumpsteer.OverRoll], c.to[bumpsteer.OverRoll] = pages.NewAngle("range, from", 82), pages.NewAngle("range, to", 82)
	c.slope, c.slopeUnit, c.rangeUnit = pages.NewField(110), pages.Prose(), widget.NewLabel("")
	c.slope.SetText("0")
	c.ranges = container.NewVBox()
	c.goal = keyed.NewSelect([]string{leastTravel, slopeTravel, leastRoll, slopeRoll}, func(string) { c.showGoal() })
	c.from[bumpsteer.OverRoll].Set(-report.DefaultRoll, units.Millimetre)
	c.to[bumpsteer.OverRoll].Set(report.DefaultRoll, units.Millimetre)
	c.fillRange()
	c.goal.Selected = leastTravel
	c.showGoal()
}

// fillRange puts in the job's own travel, when that is another one.
func (c *cure) fillRange() {
	s := &c.p.setup
	if c.travel == ([2]float64{-s.Droop, s.Bump}) {
		return
	}
	c.travel = [2]float64{-s.Droop, s.Bump}
	c.from[bumpsteer.OverTravel].Set(c.travel[0], s.Unit)
	c.to[bumpsteer.OverTravel].Set(c.travel[1], s.Unit)
}

func (c *cure) over() bumpsteer.Over {
	if c.goal.Selected == leastRoll || c.goal.Selected == slopeRoll {
		return bumpsteer.OverRoll
	}
	return bumpsteer.OverTravel
}

func (c *cure) hasSlope() bool { return c.goal.Selected == slopeTravel || c.goal.Selected == slopeRoll }

// showGoal shows the fields of the goal chosen.
func (c *cure) showGoal() {
	over := c.over()
	unit := c.p.setup.Unit
	c.rangeUnit.SetText(pages.Pick(over == bumpsteer.OverRoll, "deg of roll", unit.String()))
	row := pages.NewGrid("llll")
	row.Row(c.from[over].Field, pages.Plain("to"), c.to[over].Field, c.rangeUnit)
	objects := []fyne.CanvasObject{pages.Flow(pages.Wide(c.goal, goalWidth)), row.Content}
	if c.hasSlope() {
		c.slopeUnit.SetText(pages.Pick(over == bumpsteer.OverRoll, "deg for each deg of roll: above zero, the outer wheel toes out", "deg for each "+unit.String()+": below zero, toe-out in bump"))
		more := pages.NewGrid("ll")
		more.Row(pages.Plain("slope"), c.slope)
		more.Across(0, c.slopeUnit)
		objects = append(objects, more.Content)
	}
	c.ranges.Objects = objects
	c.ranges.Refresh()
}

func (c *cure) Name() string              { return "Cure" }
func (c *cure) Object() fyne.CanvasObject { return c.content }

func (c *cure) Show() {
	s := &c.p.setup
	for f := range c.rows {
		r := &c.rows[f]
		name := s.FreedomName(bumpsteer.Freedom(f))
		r.tick.SetText(name)
		r.low.What, r.high.What = name+", from", name+", to"
		r.low.Show(s.Unit)
		r.high.Show(s.Unit)
	}
	for i := range c.from {
		c.from[i].Show(s.Unit)
		c.to[i].Show(s.Unit)
	}
	c.fillRange()
	c.showGoal()
	switch {
	case c.found == nil:
	case !c.p.sameCorner(&c.found.Source.Corner):
		c.found = nil
		c.note.Say("The corner shown is another one now: find its cure anew.")
	case c.found.Source.Unit != s.Unit:
		c.found = nil
		c.note.Say("Moves are made to steps of the unit, which is another one now: find the cure anew.")
	}
	c.showFound()
	if c.found == nil && c.cancel == nil && (!c.tried || c.first != c.p.setup.Corner) {
		c.tried, c.first = true, c.p.setup.Corner
		c.search() // a first look needs no asking
	}
}

// showFound shows what was found, if anything.
func (c *cure) showFound() {
	if c.found == nil {
		c.keep.Hide()
		c.view.Show(nil)
		c.says.Say("")
		return
	}
	c.keep.Show()
	c.view.Show(c.found.Sheet())
	c.says.Say(c.view.Sheet().Says)
}

// keepIt adds the corner found as a variant.
func (c *cure) keepIt() {
	if c.found != nil {
		c.p.keep(c.note, report.TunedName, c.found.Notes(), c.found.Result.Corner, nil)
	}
}

// request reads the fields; the error joins all that is wrong with them.
func (c *cure) request() (report.TuneSpec, error) {
	var free []bumpsteer.Free
	var errs []error
	read := func(n *pages.Number) float64 {
		v, err := n.Value()
		errs = append(errs, err)
		return v
	}
	for f := range c.rows {
		if r := &c.rows[f]; r.tick.Checked {
			free = append(free, bumpsteer.Free{Freedom: bumpsteer.Freedom(f), Min: read(r.low), Max: read(r.high)})
		}
	}
	over := c.over()
	goal := bumpsteer.Goal{Over: over, From: read(c.from[over]), To: read(c.to[over])}
	if c.hasSlope() {
		slope, err := c.readSlope(over)
		goal.Slope, errs = slope, append(errs, err)
	}
	return report.TuneSpec{Free: free, Goal: goal}, errors.Join(errs...)
}

// readSlope reads the wanted slope, rad/mm or rad/rad.
func (c *cure) readSlope(over bumpsteer.Over) (v float64, err error) {
	if over == bumpsteer.OverTravel {
		var s job.Slope
		s, err = job.ParseSlope(c.slope.Text, c.p.setup.Unit)
		v = s.PerMM()
	} else {
		v, err = units.ParseAngle(c.slope.Text)
		v *= pages.Degree
	}
	if err != nil {
		return 0, fmt.Errorf("slope: %w", err)
	}
	return v, nil
}

// Times of the search.
const (
	// patience is how long a search runs before it shows how far it is.
	patience = 500 * time.Millisecond
	// between two pictures of the progress.
	between = 50 * time.Millisecond
)

// search looks for the cure beside the toolkit's goroutine.
func (c *cure) search() {
	if c.cancel != nil {
		return
	}
	spec, err := c.request()
	if err != nil {
		c.refuse(err)
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	c.cancel = cancel
	c.run++
	run := c.run
	c.find.Disable()
	c.halt.Show()
	c.note.Say("Looking over the whole box of limits…")
	begun := time.Now()
	last := begun
	spec.Progress = func(done float64) {
		now := time.Now()
		if now.Sub(begun) < patience || now.Sub(last) < between {
			return
		}
		last = now
		c.p.host.Do(func() { c.showProgress(run, done) })
	}
	j, variant := c.p.host.Job().Clone(), c.p.host.Variant()
	j.Units = c.p.setup.Unit
	c.p.host.Apart(func() {
		found, err := report.TuneOf(ctx, j, variant, spec)
		c.p.host.Do(func() { c.finish(run, found, err) })
	})
}

func (c *cure) showProgress(run int, done float64) {
	if c.cancel == nil || run != c.run {
		return
	}
	c.progress.Show()
	c.progress.SetValue(done)
}

// finish shows what was found. A search that was given up is not heard.
func (c *cure) finish(run int, found *report.Tuned, err error) {
	if c.cancel == nil || run != c.run {
		return
	}
	c.rest()
	switch {
	case err != nil:
		c.refuse(err)
	case !c.p.sameCorner(&found.Source.Corner):
		c.note.Say("The corner was changed meanwhile: find its cure anew.")
	default:
		c.found = found
		c.note.Say("")
		c.showFound()
		c.p.draw()
	}
}

// refuse says why there is no cure; what was found before answered something else.
func (c *cure) refuse(err error) {
	c.found = nil
	c.note.Wrong("", c.p.said(err))
	c.showFound()
	c.p.draw()
}

// rest puts the buttons back.
func (c *cure) rest() {
	c.cancel()
	c.cancel = nil
	c.find.Enable()
	c.halt.Hide()
	c.progress.Hide()
}

// giveUp ends the search; what was found before stays.
func (c *cure) giveUp() {
	if c.cancel == nil {
		return
	}
	c.rest()
	c.note.Say("Cancelled: nothing has changed.")
}

func (c *cure) stop() { c.giveUp() }

func (c *cure) picture() plates.Toe {
	pic := c.p.travelPicture()
	if c.found == nil {
		pic.Curves = []plates.ToeCurve{plates.NowCurve(c.p.present(), "now")}
		return pic
	}
	g, r := c.found.Spec.Goal, &c.found.Result
	pic.Over, pic.From, pic.To = g.Over, g.From, g.To
	pic.Curves = []plates.ToeCurve{plates.BeforeCurve(r.Before.ToeChange, "before"), plates.NowCurve(r.After.ToeChange, "after")}
	if g.Slope != 0 {
		at := []float64{g.From, 0, g.To}
		wanted := bumpsteer.Curve{At: at, Toe: []float64{g.From * g.Slope, 0, g.To * g.Slope}}
		pic.Curves = append(pic.Curves, plates.ToeCurve{Curve: wanted, Role: draw.RollCentreLine, Text: draw.TextGood, Label: "wanted"})
	}
	return pic
}
