package bumppage

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/canvas/draw"
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
	stock               *field
	tallest, grip, bolt *jobLength
	base                *widget.Select
	note                *notice
	what, hint          *widget.Label
	list                *grid
	content             fyne.CanvasObject

	planned planKey
	stacks  []bumpsteer.Stack
	from    kinematics.Corner // without the stack
	wish    float64
}

// planKey is what a plan depends on.
type planKey struct {
	corner              kinematics.Corner
	spacers             []bumpsteer.Spacer
	tallest, grip, bolt float64
	droop, bump         float64
}

func newSpacers(p *Page) *spacers {
	s := &spacers{p: p, note: newNotice(), what: prose(), hint: prose(), list: newGrid("lrrrll"), stock: newField(360)}
	s.stock.SetPlaceHolder("1, 1.5, 2, 3 (4), 5")
	s.stock.done = s.takeStock
	s.tallest = newJobLength(p, "tallest stack", s.note, func(j *job.Job) *job.Optional { return &j.Spacers.Tallest })
	s.grip = newJobLength(p, "grip of the bolt", s.note, func(j *job.Job) *job.Optional { return &j.Spacers.Grip })
	s.bolt = newJobLength(p, "longest bolt", s.note, func(j *job.Job) *job.Optional { return &j.Spacers.LongestBolt })
	s.base = widget.NewSelect([]string{underPresent, underCured}, func(string) { p.Show() })
	s.base.Selected = underPresent
	first := newGrid("ll")
	first.row(plain("spacers there are"), s.stock)
	second := newGrid("llllll")
	second.row(plain("tallest stack"), s.tallest.field, plain("grip"), s.grip.field, plain("longest bolt"), s.bolt.field)
	third := newGrid("ll")
	third.row(plain("under the outer end of"), wide(s.base, 400))
	s.content = container.NewVBox(first.content, second.content, third.content, s.note.Label, s.what, s.list.content, s.hint)
	return s
}

func (s *spacers) name() string              { return "Spacers" }
func (s *spacers) object() fyne.CanvasObject { return s.content }

// takeStock keeps the shop's list in the job.
func (s *spacers) takeStock(text string) {
	if !s.stock.owing() {
		return
	}
	list, err := parseStock(text, s.p.setup.Unit)
	if err != nil {
		s.note.wrong("Spacers: ", err)
		return
	}
	held := s.stock.held
	s.stock.taken()
	err = s.p.host.Edit("type spacers", func(j *job.Job) {
		j.Spacers.Stock = mergeStock(list, j.Spacers.Stock)
		if len(list) == 0 {
			j.Spacers = job.Spacers{}
		}
	})
	if err != nil {
		s.stock.held = held
		s.note.wrong("", err)
		return
	}
	s.note.say("Kept in the job.")
}

func (s *spacers) show() {
	s.stock.hold(stockText(s.p.host.Job().Spacers.Stock, s.p.setup.Unit))
	s.tallest.show()
	s.grip.show()
	s.bolt.show()
	if err := s.plan(); err != nil {
		s.stacks = nil
		s.what.SetText("No plan: " + err.Error() + ".")
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
	if s.p.cure.result == nil {
		return c, errors.New("find a cure first, on the page before this one")
	}
	cured := s.p.cure.result.Corner
	cured.TieRod.OuterEnd.Z = c.TieRod.OuterEnd.Z
	return cured, nil
}

// guessedRoom is the tallest stack where the job does not say, mm: beyond it no
// one should go without thought.
const guessedRoom = 25

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
	key := planKey{c, u.Spacers, u.Tallest, u.Grip, u.Bolt, u.Droop, u.Bump}
	if reflect.DeepEqual(key, s.planned) && s.stacks != nil {
		return nil
	}
	s.planned, s.from = key, c
	room := u.Tallest
	if room == 0 {
		room = guessedRoom
	}
	goal := bumpsteer.Goal{From: -u.Droop, To: u.Bump}
	best, err := bumpsteer.Cure(context.Background(), bumpsteer.Request{Corner: c, Within: u.Within, Goal: goal,
		Free: []bumpsteer.Free{{Freedom: bumpsteer.OuterEndHeight, Min: -room, Max: room}}})
	if err != nil {
		return err
	}
	s.wish = best.Moves[0].By()
	s.stacks, err = bumpsteer.Stacks(bumpsteer.StackRequest{Corner: c, Spacers: u.Spacers, Raise: s.wish, Max: room, Grip: u.Grip, MaxBolt: u.Bolt, Goal: goal})
	return err
}

func (s *spacers) sentence() string {
	text := fmt.Sprintf("Best over the travel would be the outer end %s by %s: a stack %s the joint.", pick(s.wish < 0, "lowered", "raised"), s.p.length(max(s.wish, -s.wish)), pick(s.wish < 0, "over", "under"))
	if s.p.setup.Tallest == 0 {
		text += fmt.Sprintf(" How tall a stack fits is not stated: up to %s looked at.", s.p.length(guessedRoom))
	}
	return text
}

func (s *spacers) showStacks() {
	p, u := s.p, s.p.setup.Unit.String()
	s.list.clear()
	s.hint.SetText("")
	if len(s.stacks) == 0 {
		s.list.done()
		return
	}
	s.list.head("stack, "+u, "height", "bolt", "toe change left", "", "")
	tall := false
	for i := range s.stacks {
		k := &s.stacks[i]
		bolt := "not stated"
		if k.Bolt > 0 {
			bolt = p.figure(k.Bolt)
		}
		warn := plain("")
		if k.Tall {
			tall, warn = true, marked("! tall")
		}
		s.list.row(bold(p.piecesText(k.Pieces)), plain(p.figure(k.Height)), plain(bolt), plain(sizeText(k.Measure.Change)),
			widget.NewButton("Keep as a variant", func() { s.keep(i) }), warn)
	}
	s.list.done()
	hint := "Bolt: grip and stack. Toe change left: largest over the travel, the tie rod cut to keep the resting toe. " + upperFirst(tune.SpacerHint)
	if tall {
		hint = "! Tall: " + tune.TallWarning + " " + hint
	}
	s.hint.SetText(hint)
}

// piecesText is a stack as it is put together.
func (p *Page) piecesText(pieces []float64) string {
	if len(pieces) == 0 {
		return "none"
	}
	words := make([]string, len(pieces))
	for i, mm := range pieces {
		words[i] = shortLength(mm, p.setup.Unit)
	}
	return strings.Join(words, " + ")
}

func (s *spacers) keep(i int) {
	if i >= len(s.stacks) {
		return
	}
	p, k := s.p, s.stacks[i]
	from := s.from
	c, _, err := bumpsteer.Raised(from, k.Raise, -p.setup.Droop, p.setup.Bump)
	if err != nil {
		s.note.wrong("", err)
		return
	}
	notes := fmt.Sprintf("%s with a stack of %s %s %s the outer end; tie rod cut to keep the resting toe. %s", p.variant().Name, p.piecesText(k.Pieces), p.setup.Unit,
		pick(k.Raise < 0, "over", "under"), upperFirst(tune.SpacerHint))
	p.keep(s.note, "stack "+shortLength(k.Height, p.setup.Unit), notes, c)
}

func (s *spacers) picture() picture {
	pic := s.p.travelPicture()
	pic.ends = true
	for i := len(s.stacks) - 1; i > 0; i-- {
		pic.curves = append(pic.curves, curve{s.stacks[i].Measure.ToeChange, draw.Construction, draw.TextQuiet, s.p.figure(s.stacks[i].Raise)})
	}
	pic.curves = append(pic.curves, beforeCurve(s.p.present(), "as shown"))
	if len(s.stacks) > 0 {
		pic.curves = append(pic.curves, nowCurve(s.stacks[0].Measure.ToeChange, "best stack"))
	}
	pic.caption = "thin: the other stacks, by their height"
	return pic
}
