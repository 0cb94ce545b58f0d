package bumppage

import (
	"errors"
	"fmt"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
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
	says                *pages.Sentence
	view                *pages.View
	content             fyne.CanvasObject

	planned planKey
	found   *report.Stacked // nil for none
}

// planKey is what a plan depends on.
type planKey struct {
	corner              kinematics.Corner
	unit                units.Unit
	standing            []float64
	over                bool
	spacers             []bumpsteer.Spacer
	tallest, grip, bolt float64
	droop, bump         float64
	basis               clearance.Basis
}

func newSpacers(p *Page) *spacers {
	s := &spacers{p: p, note: pages.NewNotice(), says: pages.NewSentence(), view: pages.NewView(), stock: pages.NewField(240)}
	s.view.Act = func(_ string, row int) { s.keep(row) }
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
	s.content = container.NewVBox(s.says.RichText, asked, s.note.Label, s.view.Object())
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
		s.found, s.planned = nil, planKey{}
		s.says.Say("No plan: " + s.p.said(err).Error() + ".")
		s.view.Show(nil)
		return
	}
	shown := s.found.Sheet()
	s.says.Say(shown.Says)
	s.view.Show(shown)
}

// without is the corner under which the stacks are put.
func (s *spacers) without() (kinematics.Corner, error) {
	c := s.p.setup.Corner
	if s.base.Selected == underPresent {
		return c, nil
	}
	if s.p.cure.found == nil {
		return c, errors.New("find a cure first, under the tab before this one")
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
		return err
	}
	j, variant := s.p.host.Job(), s.p.host.Variant()
	key := planKey{c, u.Unit, u.Standing, u.Over, u.Spacers, u.Tallest, u.Grip, u.Bolt, u.Droop, u.Bump, clearance.BasisOf(j, variant, &c)}
	if reflect.DeepEqual(key, s.planned) && s.found != nil {
		return nil
	}
	s.planned = key
	s.found, err = report.StacksOf(j, variant, *u, c)
	return err
}

func (s *spacers) keep(i int) {
	if s.found == nil || i >= len(s.found.Plan) {
		return
	}
	p, k := s.p, s.found.Plan[i]
	c, _, err := bumpsteer.Raised(s.found.From, k.Raise, -p.setup.Droop, p.setup.Bump)
	if err != nil {
		s.note.Wrong("", s.p.said(err))
		return
	}
	notes := fmt.Sprintf("%s with a stack of %s %s %s the outer end; tie rod cut to keep the resting toe. %s", p.variant().Name, tune.PiecesText(k.Pieces, p.setup.Unit), p.setup.Unit,
		pages.Pick(k.Raise < 0, "over", "under"), pages.UpperFirst(tune.SpacerHint))
	p.keep(s.note, "stack "+p.short(k.Height), notes, c, func(v *job.Variant) { tune.Put(v, &k) })
}

// Proposal is the corner with the best stack.
func (s *spacers) Proposal() *job.Variant {
	if s.found == nil || len(s.found.Plan) == 0 {
		return nil
	}
	c, _, err := bumpsteer.Raised(s.found.From, s.found.Plan[0].Raise, -s.p.setup.Droop, s.p.setup.Bump)
	if err != nil {
		return nil
	}
	return s.p.proposal("best stack", c)
}

func (s *spacers) picture() plates.Toe {
	pic := s.p.travelPicture()
	pic.Ends = true
	var stacks []bumpsteer.Stack
	if s.found != nil {
		stacks = s.found.Plan
	}
	for i := len(stacks) - 1; i > 0; i-- {
		pic.Curves = append(pic.Curves, plates.ToeCurve{Curve: stacks[i].Measure.ToeChange, Role: draw.Construction, Text: draw.TextQuiet, Label: s.p.short(stacks[i].Raise)})
	}
	pic.Curves = append(pic.Curves, plates.BeforeCurve(s.p.present(), "as shown"))
	if len(stacks) > 0 {
		pic.Curves = append(pic.Curves, plates.NowCurve(stacks[0].Measure.ToeChange, pages.Pick(s.found.StandsBest(), s.p.short(stacks[0].Raise), "best stack")))
	}
	pic.Caption = "thin: the other stacks, by their height"
	return pic
}
