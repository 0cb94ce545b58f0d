package trackpage

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2/container"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/plates"
)

// firstBy is what each side is widened by until another number is typed, mm:
// 50, and two inches where inches are on display.
func firstBy(unit units.Unit) float64 {
	if unit == units.Inch {
		return 50.8
	}
	return 50
}

// ways sets both ways of widening beside the corner as it is.
type ways struct {
	lastGood[waysAnswer]
	pages.Part
	p              *Page
	from           *variantChoice
	by, scrub      *pages.Number
	filling, begun bool
	after          *pages.Notice
	plain          footnote
	view           *pages.View
	keeps          [4]*keyed.Button // spacers, arms, both, the mix of both
	picture        *pages.Picture
}

// waysAnswer is both ways of one question.
type waysAnswer struct {
	*report.Widened
	job  *job.Job
	from int // the variant that was widened
}

// The buttons in their order.
const (
	keepSpacers = iota
	keepArms
	keepBoth
	keepMix
)

func newWays(p *Page) *ways {
	w := &ways{lastGood: newLastGood[waysAnswer](), p: p, after: pages.NewNotice(), plain: newFootnote(), view: pages.NewView()}
	w.from = newVariantChoice(p, w.work)
	w.by, w.scrub = pages.NewLength("wider by", 84), pages.NewLength("scrub radius of at most", 84)
	w.by.Live, w.scrub.Live = true, true
	w.scrub.SetPlaceHolder("none")
	w.by.OnChanged = func(string) { w.changed() }
	w.scrub.OnChanged = func(string) { w.changed() }
	fields := pages.Flow(pages.Asked("widen", w.from.Select), pages.Asked("a side by", w.by.Field), pages.Asked("scrub radius at most", w.scrub.Field))
	for i, name := range []string{"Keep spacers as a variant", "Keep longer arms as a variant", "Keep both", "Keep spacers and arms together"} {
		w.keeps[i] = keyed.NewButton(name, func() { w.keep(i) })
	}
	w.picture = pages.NewPicture()
	buttons := pages.Flow(w.keeps[keepSpacers], w.keeps[keepArms], w.keeps[keepBoth], w.keeps[keepMix])
	words := container.NewVBox(fields, w.plain.RichText, w.note.Label, w.whose.Label, buttons, w.after.Label, w.view.Object())
	w.Part = pages.NewPart("Two ways", words, w.picture)
	return w
}

// Show follows the job.
func (w *ways) Show() {
	unit := w.p.unit()
	w.filling = true
	if !w.begun {
		w.begun = true
		w.by.Set(firstBy(unit), unit)
		w.scrub.Show(unit)
		if most := w.p.host.Job().Targets.ScrubRadius.Max; most.Given && most.MM > 0 {
			w.scrub.Set(most.MM, unit)
		}
	}
	follow(w.by, unit)
	follow(w.scrub, unit)
	w.from.show()
	w.plain.say(plainNumbers(unit))
	w.filling = false
	w.work()
}

func (w *ways) changed() {
	if w.filling {
		return
	}
	w.after.Say("")
	w.work()
}

// spec reads the fields.
func (w *ways) spec() (s report.WidenSpec, err error) {
	var errs [2]error
	s.By, errs[0] = w.by.Value()
	if strings.TrimSpace(w.scrub.Text) != "" {
		s.HasScrubMax = true
		s.ScrubMax, errs[1] = w.scrub.Value()
	}
	mark(w.by.Field, errs[0])
	mark(w.scrub.Field, errs[1])
	return s, errors.Join(errs[:]...)
}

// work compares anew.
func (w *ways) work() {
	defer w.Settle()
	w.next(w.ask())
	w.write()
}

func (w *ways) ask() (*waysAnswer, error) {
	s, err := w.spec()
	if err != nil {
		return nil, err
	}
	a := &waysAnswer{job: w.p.host.Job(), from: w.from.index()}
	if a.Widened, err = report.WidenOf(a.job, a.from, s); err != nil {
		return nil, err
	}
	return a, nil
}

// write shows the answer.
func (w *ways) write() {
	a := w.answer
	w.allow(w.keeps[keepSpacers], a != nil && a.Both.HasSpacers)
	w.allow(w.keeps[keepArms], true)
	w.allow(w.keeps[keepBoth], a != nil && a.Both.HasSpacers)
	w.allow(w.keeps[keepMix], a != nil && a.HasMixed)
	if w.keeps[keepMix].Show(); a == nil || !a.Spec.HasScrubMax {
		w.keeps[keepMix].Hide() // it is asked for with a limit only
	}
	if a == nil {
		w.view.Show(nil)
		w.picture.Put(plates.Words("no ways to draw"))
		return
	}
	a.Source.Unit = w.p.unit()
	w.tell(a.Asked())
	w.keeps[keepSpacers].SetText("Keep " + a.WayName(report.BySpacers) + " as a variant")
	w.keeps[keepArms].SetText("Keep " + a.WayName(report.ByArms) + " as a variant")
	w.view.Show(a.Sheet())
	plate := a.Plate(a.job, a.from)
	plate.Note.Stale = w.stale
	w.picture.Put(plate)
}

// keep keeps what a button stands for.
func (w *ways) keep(button int) {
	defer w.Settle()
	w.work()
	if w.keeps[button].Disabled() {
		return
	}
	list := map[int][]report.Way{keepSpacers: {report.BySpacers}, keepArms: {report.ByArms}, keepBoth: {report.BySpacers, report.ByArms}, keepMix: {report.ByBoth}}[button]
	a := w.answer
	w.p.add(w.after, a.from, a.Variants(a.job, a.from, list...)...)
}

// variantChoice chooses the variant that a section starts from: the measured
// one unless another is chosen.
type variantChoice struct {
	*keyed.Select
	p       *Page
	chosen  string // empty for the measured one
	filling bool
}

func newVariantChoice(p *Page, changed func()) *variantChoice {
	c := &variantChoice{p: p}
	c.Select = keyed.NewSelect(nil, func(name string) {
		if !c.filling {
			c.chosen = name
			changed()
		}
	})
	return c
}

// show follows the job's variants.
func (c *variantChoice) show() {
	c.filling = true
	c.Options = c.p.host.Job().Names()
	c.SetSelected(c.Options[c.index()])
	c.filling = false
}

func (c *variantChoice) index() int {
	for i, name := range c.p.host.Job().Names() {
		if name == c.chosen {
			return i
		}
	}
	return 0
}
