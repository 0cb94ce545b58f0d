package bumppage

import (
	"context"
	"errors"
	"fmt"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Where the spacers go.
const (
	underPresent = "the corner as shown"
	underCured   = "the cure found, spacers instead of its outer end height"
)

// spacers plans stacks from what the shop has.
type spacers struct {
	p                   *Page
	stock, standing     *pages.Field
	tallest, grip, bolt *pages.JobLength
	base                *keyed.Select
	note                *pages.Notice
	what, hint          *widget.Label
	list                *pages.Grid
	content             fyne.CanvasObject

	planned planKey
	stacks  []bumpsteer.Stack
	rows    []string          // what of the wheel's gaps is not kept with each
	from    kinematics.Corner // without the stack
	wish    float64
}

// planKey is what a plan depends on.
type planKey struct {
	corner              kinematics.Corner
	standing            []float64
	over                bool
	spacers             []bumpsteer.Spacer
	tallest, grip, bolt float64
	droop, bump         float64
	basis               clearance.Basis
}

func newSpacers(p *Page) *spacers {
	s := &spacers{p: p, note: pages.NewNotice(), what: pages.Prose(), hint: pages.Prose(), list: pages.NewGrid("lrrrrll"), stock: pages.NewField(240)}
	s.stock.Done = s.takeStock
	s.standing = pages.NewField(140)
	s.standing.SetPlaceHolder("none, or 2, 0.5")
	s.standing.Done = s.takeStanding
	s.tallest = pages.NewJobLength(&p.host, "tallest stack", s.note, func(j *job.Job) *job.Optional { return &j.Spacers.Tallest })
	s.grip = pages.NewJobLength(&p.host, "grip of the bolt", s.note, func(j *job.Job) *job.Optional { return &j.Spacers.Grip })
	s.bolt = pages.NewJobLength(&p.host, "longest bolt", s.note, func(j *job.Job) *job.Optional { return &j.Spacers.LongestBolt })
	s.base = keyed.NewSelect([]string{underPresent, underCured}, func(string) { p.Show() })
	s.base.Selected = underPresent
	asked := pages.Flow(pages.Asked("spacers there are", s.stock), pages.Asked("tallest stack", s.tallest.Field), pages.Asked("grip", s.grip.Field),
		pages.Asked("longest bolt", s.bolt.Field), pages.Asked("there now", s.standing), pages.Asked("under the outer end of"), pages.Asked(pages.Wide(s.base, 330)))
	s.content = container.NewVBox(asked, s.note.Label, s.what, s.list.Content, s.hint)
	return s
}

func (s *spacers) Name() string              { return "Spacers" }
func (s *spacers) Object() fyne.CanvasObject { return s.content }

// takeStock keeps the shop's list in the job.
func (s *spacers) takeStock(text string) {
	if !s.stock.Owing() {
		return
	}
	list, err := parseStock(text, s.p.setup.Unit)
	if err != nil {
		s.note.Wrong("Spacers: ", err)
		return
	}
	held := s.stock.Held
	s.stock.Taken()
	err = s.p.host.Edit("type spacers", func(j *job.Job) {
		j.Spacers.Stock = mergeStock(list, j.Spacers.Stock)
		if len(list) == 0 {
			j.Spacers = job.Spacers{}
		}
	})
	if err != nil {
		s.stock.Held = held
		s.note.Wrong("", s.p.said(err))
		return
	}
	s.note.Say("Kept in the job.")
}

func (s *spacers) Show() {
	s.stock.SetPlaceHolder(pages.Pick(s.p.setup.Unit == units.Inch, "1/32, 1/16, 1/8 (4), 1/4", "1, 1.5, 2, 3 (4), 5"))
	s.stock.Hold(stockText(s.p.host.Job().Spacers.Stock, s.p.setup.Unit))
	s.standing.Hold(standingText(&s.p.variant().Stack, s.p.setup.Unit))
	s.tallest.Show()
	s.grip.Show()
	s.bolt.Show()
	if err := s.plan(); err != nil {
		s.stacks = nil
		s.what.SetText("No plan: " + s.p.said(err).Error() + ".")
	} else {
		s.what.SetText(s.sentence())
	}
	s.showStacks()
}

var errNoStock = errors.New("list above what spacers and washers the shop has")

// without is the corner under which the stacks are put.
func (s *spacers) without() (kinematics.Corner, error) {
	c := s.p.setup.Corner
	if s.base.Selected == underPresent {
		return c, nil
	}
	if s.p.cure.found == nil {
		return c, errors.New("find a cure first, on the page before this one")
	}
	cured := s.p.cure.found.Result.Corner
	cured.TieRod.OuterEnd.Z = c.TieRod.OuterEnd.Z
	return cured, nil
}

// plan looks for the stacks, unless it has them.
func (s *spacers) plan() error {
	u := &s.p.setup
	c, err := s.without()
	if err != nil {
		s.planned = planKey{}
		return err
	}
	if len(u.Spacers) == 0 {
		s.planned = planKey{}
		return errNoStock
	}
	j, variant := s.p.host.Job(), s.p.host.Variant()
	key := planKey{c, u.Standing, u.Over, u.Spacers, u.Tallest, u.Grip, u.Bolt, u.Droop, u.Bump, clearance.BasisOf(j, variant, &c)}
	if reflect.DeepEqual(key, s.planned) && s.stacks != nil {
		return nil
	}
	s.planned = key
	goal := bumpsteer.Goal{From: -u.Droop, To: u.Bump}
	best, err := bumpsteer.Cure(context.Background(), bumpsteer.Request{Corner: c, Within: u.Within, Goal: goal,
		Free: []bumpsteer.Free{u.SpacerRoom()}})
	if err != nil {
		return err
	}
	s.wish = best.Moves[0].By()
	judges := clearance.JudgesOf(j, variant)
	q := u.Stacking(c, u.Spacers, s.wish, u.SpacerRoom().Max+u.Stands(), goal)
	q.Rank, s.from = judges.Rank, q.Corner
	s.stacks, err = bumpsteer.Stacks(q)
	s.rows = s.rows[:0]
	for i := range s.stacks {
		with := q.Corner
		with.TieRod.OuterEnd.Z += s.stacks[i].Raise
		s.rows = append(s.rows, judges.Of(with).Row(u.Unit))
	}
	return err
}

// standsBest tells whether the outer end is best left where it is.
func (s *spacers) standsBest() bool { return max(s.wish, -s.wish) < tune.BuildStep(s.p.setup.Unit)/2 }

func (s *spacers) sentence() string {
	if s.standsBest() {
		return "Over the travel the outer end stands best as it is: no stack betters it."
	}
	text := fmt.Sprintf("Best over the travel would be the outer end %s by %s%s: a stack %s the joint.", pages.Pick(s.wish < 0, "lowered", "raised"), s.p.length(max(s.wish, -s.wish)),
		pages.Pick(s.p.setup.StandingText() == "", "", ", from where it is with "+s.p.setup.StandingText()), pages.Pick(s.wish+s.p.setup.Stands() < 0, "over", "under"))
	if s.p.setup.Tallest == 0 {
		text += fmt.Sprintf(" How tall a stack fits is not stated: up to %s looked at.", units.ShortLength(tune.GuessedRoom, s.p.setup.Unit))
	}
	return text
}

func (s *spacers) showStacks() {
	p, u := s.p, s.p.setup.Unit.String()
	s.list.Clear()
	s.hint.SetText("")
	if len(s.stacks) == 0 {
		s.list.Done()
		return
	}
	s.list.Head("stack, "+u, "height", "bolt", pages.Pick(p.setup.Rear, "toe link", "tie rod"), "toe change left", "", "")
	tall := false
	for i := range s.stacks {
		k := &s.stacks[i]
		bolt := "not stated"
		if k.Bolt > 0 {
			bolt = p.short(k.Bolt)
		}
		warn := pages.Plain("")
		if k.Tall {
			tall, warn = true, pages.Marked("! tall")
		}
		near := s.rows[i]
		if p.setup.StandsAlready(k) {
			warn = pages.Plain("stands there now")
		}
		s.list.Row(pages.Bold(tune.PiecesText(k.Pieces, p.setup.Unit)), pages.Plain(p.short(k.Height)), pages.Plain(bolt), pages.Plain(p.figure(k.Rod)), pages.Plain(sizeText(k.Measure.Change)),
			keyed.NewButton("Keep as a variant", func() { s.keep(i) }), warn)
		if near != "" {
			s.list.Across(0, pages.Marked("! "+near))
		}
	}
	s.list.Done()
	hint := "Bolt: grip and stack. Rod: its length from end to end, cut to keep the resting toe. Toe change left: largest over the travel. " + pages.UpperFirst(tune.SpacerHint)
	if s.p.host.Variant() > 0 {
		hint = "These stacks come on top of what the variant shown has under the joint already: bolt and tall do not count that. " + hint
	}
	if tall {
		hint = "! Tall: " + tune.TallWarning + " " + hint
	}
	s.hint.SetText(hint)
}

func (s *spacers) keep(i int) {
	if i >= len(s.stacks) {
		return
	}
	p, k := s.p, s.stacks[i]
	from := s.from
	c, _, err := bumpsteer.Raised(from, k.Raise, -p.setup.Droop, p.setup.Bump)
	if err != nil {
		s.note.Wrong("", s.p.said(err))
		return
	}
	notes := fmt.Sprintf("%s with a stack of %s %s %s the outer end; tie rod cut to keep the resting toe. %s", p.variant().Name, tune.PiecesText(k.Pieces, p.setup.Unit), p.setup.Unit,
		pages.Pick(k.Raise < 0, "over", "under"), pages.UpperFirst(tune.SpacerHint))
	p.keep(s.note, "stack "+p.short(k.Height), notes, c, func(v *job.Variant) { tune.Put(v, &k) })
}

func (s *spacers) picture() plates.Toe {
	pic := s.p.travelPicture()
	pic.Ends = true
	for i := len(s.stacks) - 1; i > 0; i-- {
		pic.Curves = append(pic.Curves, plates.ToeCurve{Curve: s.stacks[i].Measure.ToeChange, Role: draw.Construction, Text: draw.TextQuiet, Label: s.p.short(s.stacks[i].Raise)})
	}
	pic.Curves = append(pic.Curves, plates.BeforeCurve(s.p.present(), "as shown"))
	if len(s.stacks) > 0 {
		pic.Curves = append(pic.Curves, plates.NowCurve(s.stacks[0].Measure.ToeChange, pages.Pick(s.standsBest(), s.p.short(s.stacks[0].Raise), "best stack")))
	}
	pic.Caption = "thin: the other stacks, by their height"
	return pic
}
