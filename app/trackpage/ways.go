package trackpage

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
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
	wide
	p              *Page
	from           *variantChoice
	by, scrub      *pages.Number
	filling, begun bool
	after          *pages.Notice
	head, limit    *widget.Label
	clear          *widget.Label // of obstacles
	grid           *pages.Grid
	refit          *widget.Label
	plain, notes   footnote
	keeps          [4]*widget.Button // spacers, arms, both, the mix of both
	picture        *pages.Picture
}

// waysAnswer is both ways of one question.
type waysAnswer struct {
	*report.Widened
	job    *job.Job
	from   int // the variant that was widened
	before *corner
	made   [2]*corner // by spacers, by arms
}

// The buttons in their order.
const (
	keepSpacers = iota
	keepArms
	keepBoth
	keepMix
)

func newWays(p *Page) *ways {
	w := &ways{lastGood: newLastGood[waysAnswer](), p: p, after: pages.NewNotice(),
		head: pages.Prose(), limit: pages.Prose(), clear: pages.Prose(), refit: pages.Prose(), grid: pages.NewGrid("lrlrrllrrll"), plain: newFootnote(), notes: newFootnote()}
	w.grid.Tight = true
	w.from = newVariantChoice(p, w.work)
	w.by, w.scrub = pages.NewLength("wider by", 84), pages.NewLength("scrub radius of at most", 84)
	w.by.Live, w.scrub.Live = true, true
	w.scrub.SetPlaceHolder("none")
	w.by.OnChanged = func(string) { w.changed() }
	w.scrub.OnChanged = func(string) { w.changed() }
	fields := pages.NewGrid("llllll")
	fields.Row(pages.Plain("widen"), w.from.Select, pages.Plain("a side by"), w.by.Field, pages.Plain("scrub radius at most"), w.scrub.Field)
	for i, name := range []string{"Keep spacers as a variant", "Keep longer arms as a variant", "Keep both", "Keep spacers and arms together"} {
		w.keeps[i] = widget.NewButton(name, func() { w.keep(i) })
	}
	w.picture = pages.NewPicture(w.compose)
	buttons := container.NewHBox(w.keeps[keepSpacers], w.keeps[keepArms], w.keeps[keepBoth], w.keeps[keepMix])
	words := container.NewVBox(container.NewBorder(nil, nil, fields.Content, nil, w.plain.RichText), w.note.Label, w.whose.Label, buttons, w.after.Label, w.head, w.clear, w.limit, w.grid.Content, w.refit, w.notes.RichText)
	w.wide = newWide("Two ways", words, w.picture)
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
	defer w.settle()
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
	a.pose()
	return a, nil
}

// answered says what an answer is to.
func (w *ways) answered() string {
	by := w.answer.Spec.By
	return fmt.Sprintf("“%s”, %s a side by %s", w.answer.Source.Variant, pages.Pick(by < 0, "narrower", "wider"), w.p.short(max(by, -by)))
}

// tell shows a text, or takes its room away.
func tell(l *widget.Label, text string) {
	l.SetText(text)
	if text == "" {
		l.Hide()
		return
	}
	l.Show()
}

// short prints a length with its unit and no more decimals than it needs.
func (p *Page) short(mm float64) string {
	return pages.ShortLength(mm, p.unit()) + " " + p.unit().String()
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
		for _, text := range []*widget.Label{w.head, w.clear, w.limit, w.refit} {
			tell(text, "")
		}
		return
	}
	a.Source.Unit = w.p.unit()
	w.tell(w.answered())
	spacers, arms := a.WayName(report.BySpacers), a.WayName(report.ByArms)
	w.keeps[keepSpacers].SetText("Keep " + spacers + " as a variant")
	w.keeps[keepArms].SetText("Keep " + arms + " as a variant")
	head := []string{w.answered() + ", points within ±" + w.p.short(a.Source.Within.Common()) + "."}
	for _, way := range a.Ways() {
		head = append(head, pages.UpperFirst(a.WayName(way))+": "+a.Sum(way)+".")
	}
	if words := a.NoSpacersWords(); words != "" {
		head = append(head, words)
	}
	tell(w.head, strings.Join(head, "\n"))
	tell(w.clear, sentences(a.ClearanceLines()))
	limit := ""
	if a.Spec.HasScrubMax {
		limit = sentences(a.LimitLines())
	}
	tell(w.limit, limit)
	w.table(spacers, arms)
	tell(w.refit, a.RefitWords())
	w.notes.say(a.Notes()...)
	w.picture.Redraw()
}

// sentences ends each line with a stop, or with a colon where more of it follows.
func sentences(lines []string) string {
	for i := range lines {
		end := "."
		if i == 0 && len(lines) > 1 {
			end = ":"
		}
		lines[i] = pages.UpperFirst(lines[i]) + end
	}
	return strings.Join(lines, "\n")
}

func (w *ways) table(spacers, arms string) {
	g := w.grid
	g.Clear()
	g.Head("", "as it is", "", spacers, "change", "95 %", "", arms, "change", "95 %", "")
	for _, part := range w.answer.Parts() {
		g.Row(pages.Bold(part.Name))
		for i := range part.Lines {
			l := &part.Lines[i]
			name := l.Name
			if l.Unit != "" {
				name += ", " + l.Unit
			}
			row := []fyne.CanvasObject{pages.Plain(name), pages.Plain(l.Before), pages.Quiet(l.Band)}
			for _, way := range []*report.WidenWay{&l.Spacers, &l.Arms} {
				row = append(row, pages.Plain(way.Value), pages.Plain(way.Change), pages.Quiet(way.Band), verdictWord(way.Verdict))
			}
			g.Row(row...)
		}
	}
	g.Done()
}

// keep keeps what a button stands for.
func (w *ways) keep(button int) {
	defer w.settle()
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
	*widget.Select
	p       *Page
	chosen  string // empty for the measured one
	filling bool
}

func newVariantChoice(p *Page, changed func()) *variantChoice {
	c := &variantChoice{p: p}
	c.Select = widget.NewSelect(nil, func(name string) {
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
