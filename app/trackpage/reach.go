package trackpage

import (
	"errors"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	"armscribe/kinematics/widen"
)

// What can be wished, and what makes one way better than another.
const (
	wishTrack  = "half track of"
	wishFace   = "face flush at"
	orderScrub = "least scrub radius first"
	orderArms  = "least change of the arms first"
)

// reach finds what leads to a wished track.
type reach struct {
	lastGood[reachAnswer]
	pages.Part
	p              *Page
	from           *variantChoice
	wish, order    *keyed.Select
	to, scrub      *pages.Number
	spacer, arms   [2]*pages.Number
	filling, begun bool
	after          *pages.Notice
	plain          footnote
	view           *pages.View
	keep           *keyed.Button
	wheels         *wheelList
	picture        *pages.Picture
}

// reachAnswer is the ways to one wish.
type reachAnswer struct {
	*report.Reached
	job     *job.Job
	variant int // from which they lead
	picked  int // the way that is drawn
}

func newReach(p *Page) *reach {
	r := &reach{lastGood: newLastGood[reachAnswer](), p: p, after: pages.NewNotice(), plain: newFootnote(), view: pages.NewView()}
	r.view.Act = func(_ string, row int) { r.pick(row) }
	r.from = newVariantChoice(p, r.work)
	r.makeFields()
	r.keep = keyed.NewButton("Keep as a variant", r.keepIt)
	r.keep.Importance = widget.HighImportance
	r.wheels = newWheelList(p)
	r.picture = pages.NewPicture()
	words := container.NewVBox(r.fields(), r.plain.RichText, r.note.Label, r.whose.Label,
		container.NewHBox(r.keep), r.after.Label, r.view.Object(), r.wheels.content)
	r.Part = pages.NewPart("Find a way", words, r.picture)
	return r
}

func (r *reach) makeFields() {
	number := func(what string) *pages.Number {
		n := pages.NewLength(what, 76)
		n.Live = true
		n.OnChanged = func(string) { r.changed() }
		return n
	}
	r.to, r.scrub = number("the wished place"), number("scrub radius of at most")
	r.scrub.SetPlaceHolder("none")
	r.spacer = [2]*pages.Number{number("spacer, from"), number("spacer, to")}
	r.arms = [2]*pages.Number{number("arms longer, from"), number("arms longer, to")}
	r.wish = keyed.NewSelect([]string{wishTrack, wishFace}, func(string) {
		if !r.filling {
			r.filling = true
			r.propose()
			r.filling = false
			r.changed()
		}
	})
	r.order = keyed.NewSelect([]string{orderScrub, orderArms}, func(string) { r.changed() })
	r.filling = true
	r.wish.SetSelected(wishTrack)
	r.order.SetSelected(orderScrub)
	r.filling = false
}

func (r *reach) fields() fyne.CanvasObject {
	return pages.Flow(pages.Asked("from", r.from.Select), pages.Asked(r.wish, r.to.Field), pages.Asked("scrub radius at most", r.scrub.Field),
		pages.Asked("spacer", r.spacer[0].Field, "to", r.spacer[1].Field), pages.Asked("arms longer by", r.arms[0].Field, "to", r.arms[1].Field), pages.Asked(pages.Wide(r.order, 220)))
}

// Show follows the job.
func (r *reach) Show() {
	unit, j := r.p.unit(), r.p.host.Job()
	r.filling = true
	if !r.begun {
		r.begun = true
		usual := report.UsualReach(j.Units)
		r.spacer[0].Set(usual.SpacerMin, unit)
		r.spacer[1].Set(usual.SpacerMax, unit)
		r.arms[0].Set(usual.ArmsMin, unit)
		r.arms[1].Set(usual.ArmsMax, unit)
		r.scrub.Show(unit)
		if most := j.Targets.ScrubRadius.Max; most.Given && most.MM > 0 {
			r.scrub.Set(most.MM, unit)
		}
		r.propose()
	}
	for _, n := range []*pages.Number{r.to, r.scrub, r.spacer[0], r.spacer[1], r.arms[0], r.arms[1]} {
		follow(n, unit)
	}
	r.from.show()
	r.plain.say(plainNumbers(unit))
	r.filling = false
	r.wheels.show()
	r.work()
}

// propose puts in a wish to begin with: the track that the job aims at, or what
// the corner has and firstBy more.
func (r *reach) propose() {
	unit, j := r.p.unit(), r.p.host.Job()
	v := &j.Variants[r.from.index()]
	body, has := clearance.TyreOf(v)
	pose, ok := atRest(v)
	aim := j.Targets.Track.Min
	switch {
	case r.wish.Selected == wishTrack && aim.Given:
		r.to.Set(aim.MM/2, unit)
	case !ok || r.wish.Selected == wishFace && !has:
		r.to.SetText("")
	case r.wish.Selected == wishFace:
		r.to.Set(round(body.Face(&pose)+firstBy(unit), unit), unit)
	default:
		r.to.Set(round(pose.Contact.Y+firstBy(unit), unit), unit)
	}
}

// atRest is the pose of a variant's corner; false where it does not assemble.
func atRest(v *job.Variant) (kinematics.Pose, bool) {
	c := v.Corner()
	m, err := kinematics.New(&c)
	if err != nil {
		return kinematics.Pose{}, false
	}
	p, err := m.At(0, 0)
	return p, err == nil
}

const mmPerInch = 25.4

// round rounds to a mark of the tape: a mm, or an eighth of an inch.
func round(mm float64, unit units.Unit) float64 {
	mark := 1.0
	if unit == units.Inch {
		mark = mmPerInch / 8
	}
	return math.Round(mm/mark) * mark
}

func (r *reach) changed() {
	if r.filling {
		return
	}
	r.after.Say("")
	r.work()
}

// spec reads the fields; the error joins all that is wrong with them.
func (r *reach) spec() (report.ReachSpec, error) {
	var s report.ReachSpec
	var errs []error
	read := func(n *pages.Number) float64 {
		v, err := n.Value()
		mark(n.Field, err)
		errs = append(errs, err)
		return v
	}
	s.To, s.ByFace = read(r.to), r.wish.Selected == wishFace
	if strings.TrimSpace(r.scrub.Text) != "" {
		s.HasScrubMax, s.ScrubMax = true, read(r.scrub)
	} else {
		mark(r.scrub.Field, nil)
	}
	s.SpacerMin, s.SpacerMax = read(r.spacer[0]), read(r.spacer[1])
	s.ArmsMin, s.ArmsMax = read(r.arms[0]), read(r.arms[1])
	if r.order.Selected == orderArms {
		s.Order = widen.LeastArms
	}
	return s, errors.Join(errs...)
}

// work looks anew.
func (r *reach) work() {
	defer r.Settle()
	r.next(r.ask())
	r.write()
}

// ask looks for the ways; the one that was picked stays so while the question does.
func (r *reach) ask() (*reachAnswer, error) {
	s, err := r.spec()
	if err != nil {
		return nil, err
	}
	a := &reachAnswer{job: r.p.host.Job(), variant: r.from.index()}
	if a.Reached, err = report.ReachOf(a.job, a.variant, s); err != nil {
		return nil, err
	}
	if was := r.answer; was != nil && was.Spec == s && was.variant == a.variant && len(was.Answers) == len(a.Answers) {
		a.picked = was.picked
	}
	return a, nil
}

// write shows the answers.
func (r *reach) write() {
	a := r.answer
	if a == nil {
		r.allow(r.keep, false)
		r.view.Show(nil)
		r.picture.Put(plates.Words("no way to draw"))
		return
	}
	a.Source.Unit = r.p.unit()
	r.tell(a.Asked())
	r.show()
}

// show tables and draws the ways.
func (r *reach) show() {
	a := r.answer
	r.view.Show(a.Sheet(a.picked))
	r.keep.SetText("Keep “" + a.proposal().Name + "” as a variant")
	r.allow(r.keep, true)
	plate := a.Plate(a.job, a.variant, a.picked)
	plate.Note.Stale = r.stale
	r.picture.Put(plate)
}

func (r *reach) pick(i int) {
	r.answer.picked = i
	r.show()
}

// proposal is the picked way as a variant.
func (a *reachAnswer) proposal() job.Variant { return a.Variant(a.job, a.variant, a.picked) }

// keepIt keeps the way that is drawn.
func (r *reach) keepIt() {
	defer r.Settle()
	r.work()
	if !r.keep.Disabled() {
		r.p.add(r.after, r.answer.variant, r.answer.proposal())
	}
}
