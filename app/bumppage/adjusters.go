package bumppage

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/figures"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// adjusters tables what can be set on the car, and the setting that reaches a
// wished camber and caster.
type adjusters struct {
	p                      *Page
	camber, caster         *pages.Field
	note                   *pages.Notice
	effects, reach, answer *pages.Grid
	order, answerWords     *widget.Label
	keep                   *keyed.Button
	content                *fyne.Container
	rest                   *fyne.Container
	found                  *report.Adjusted
	form                   *adjusterForm
}

func newAdjusters(p *Page) *adjusters {
	a := &adjusters{p: p, note: pages.NewNotice(), effects: pages.NewGrid("llrrrrrrr"), reach: pages.NewGrid("lrrrrl"), answer: pages.NewGrid("lrlrl"),
		order: pages.Prose(), answerWords: pages.Prose(), camber: pages.NewField(70), caster: pages.NewField(70)}
	a.camber.Done = func(string) { p.Show() }
	a.caster.Done = a.camber.Done
	row := pages.NewGrid("llllll")
	row.Row(pages.Plain("wished: camber"), a.camber, pages.Plain("deg, caster"), a.caster, pages.Plain("deg"), keyed.NewButton("Find the setting", func() { p.Show() }))
	a.keep = keyed.NewButton("Keep the setting as a variant", a.keepIt)
	a.keep.Importance = widget.HighImportance
	a.rest = container.NewVBox(pages.Heading("What each turn or mm does, the ride height held"), a.effects.Content, a.order, row.Content, a.answer.Content,
		a.answerWords, container.NewHBox(a.keep), pages.Heading("Range and thread"), a.reach.Content,
		pages.Hint(fmt.Sprintf("Least: %g diameters of thread in engagement; common practice, no source.", bumpsteer.MinEngagement)))
	a.form = newAdjusterForm(p)
	a.content = container.NewVBox(a.note.Label, a.rest, a.form.content)
	return a
}

func (a *adjusters) Name() string              { return "Adjusters" }
func (a *adjusters) Object() fyne.CanvasObject { return a.content }

// wishes reads the wished angles; a blank one is none.
func (a *adjusters) wishes() ([]bumpsteer.Wish, error) {
	var list []bumpsteer.Wish
	var errs []error
	for _, w := range []struct {
		f    *pages.Field
		of   kinematics.Quantity
		name string
	}{{a.camber, kinematics.Camber, "camber"}, {a.caster, kinematics.Caster, "caster"}} {
		if strings.TrimSpace(w.f.Text) == "" {
			continue
		}
		rad, err := units.ParseAngle(w.f.Text)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", w.name, err))
			continue
		}
		list = append(list, bumpsteer.Wish{Quantity: w.of, Value: rad})
	}
	return list, errors.Join(errs...)
}

func (a *adjusters) Show() {
	p := a.p
	a.found = nil
	a.rest.Hide()
	a.form.show()
	if len(p.setup.Adjusters) == 0 {
		a.note.Say("The job states no adjusters: add rod ends, eccentric bolts or shims below.")
		return
	}
	wishes, err := a.wishes()
	if err != nil {
		a.note.Wrong("", a.p.said(err))
		wishes = nil
	} else {
		a.note.Say("")
	}
	found, err := report.AdjustOf(p.host.Job(), p.host.Variant(), wishes)
	if err != nil {
		a.note.Wrong("", a.p.said(err))
		return
	}
	a.found, found.Source.Unit = found, p.setup.Unit
	a.showEffects()
	a.showOrder()
	a.showAnswer()
	a.showRange()
	a.rest.Show()
	a.content.Refresh()
}

var effectHeads = map[kinematics.Quantity]string{
	kinematics.Camber: "camber", kinematics.Caster: "caster", kinematics.Toe: "toe", kinematics.ScrubRadius: "scrub",
	kinematics.HalfTrack: "half track", kinematics.RollCentreHeight: "roll centre", kinematics.RideToe: "ride toe",
}

func (a *adjusters) showEffects() {
	g := a.effects
	g.Clear()
	heads, unit := []string{"", "for each"}, []string{"", ""}
	for _, q := range bumpsteer.Adjusted() {
		heads, unit = append(heads, effectHeads[q]), append(unit, a.unitOf(q))
	}
	g.Head(heads...)
	g.Head(unit...)
	for i := range a.p.setup.Adjusters {
		adj := &a.p.setup.Adjusters[i]
		cells := []fyne.CanvasObject{pages.Bold(adj.Name), pages.Plain(pages.Pick(adj.Unit == bumpsteer.Turn, "turn", "mm"))}
		for _, q := range bumpsteer.Adjusted() {
			v, ok := a.found.Effects[i].Of(q)
			if !ok {
				cells = append(cells, pages.Quiet("none"))
				continue
			}
			cells = append(cells, pages.Plain(a.effectText(q, v)))
		}
		g.Row(cells...)
	}
	g.Done()
}

func (a *adjusters) unitOf(q kinematics.Quantity) string {
	switch q.Kind() {
	case kinematics.Angle:
		return "deg"
	case kinematics.Slope:
		return "deg/" + a.p.setup.Unit.String()
	}
	return a.p.setup.Unit.String()
}

// effectText prints an effect to a tenth of what is read on a car.
func (a *adjusters) effectText(q kinematics.Quantity, v float64) string {
	u := a.p.setup.Unit
	switch q.Kind() {
	case kinematics.Angle:
		return units.Signed(units.SmallAngles.Number(v * pages.Degree))
	case kinematics.Slope:
		return units.Signed(units.FormatNumber(v*pages.Degree/units.In(1, u), 5))
	}
	return units.Signed(fine(v, u))
}

func (a *adjusters) showOrder() {
	if len(a.found.Order) == 0 {
		a.order.SetText("No order of adjusting: " + a.found.NoOrder)
		return
	}
	var words []string
	for _, i := range a.found.Order {
		adj := &a.p.setup.Adjusters[i]
		words = append(words, fmt.Sprintf("%s (%s)", adj.Name, strings.ToLower(figures.Of(adj.Sets).Name)))
	}
	a.order.SetText("Adjust in this order, so that the later disturbs the earlier least: " + strings.Join(words, ", then ") + ".")
}

func (a *adjusters) showAnswer() {
	a.answer.Clear()
	s := a.found.Setting
	if s == nil {
		a.keep.Hide()
		a.answer.Done()
		a.answerWords.SetText("Type a camber, a caster or both: the setting that reaches them together is found.")
		return
	}
	a.keep.Show()
	a.answer.Head("set", "by", "", "exactly", "")
	for _, l := range a.found.SetLines() {
		text := strings.Join(l.Marks, ", ")
		last := pages.Plain(text)
		if l.Short {
			last = pages.Marked("! " + text)
		}
		a.answer.Row(pages.Bold(l.Name), pages.Plain(l.Set), pages.Plain(l.Unit), pages.Quiet(l.Exactly), last)
	}
	a.answer.Done()
	words := make([]string, len(a.found.Wishes))
	for i, w := range a.found.WishLines() {
		words[i] = strings.ToLower(w.Name) + " " + w.AsSet + " deg"
		if w.Left != "" {
			words[i] += " (" + w.Left + ")"
		}
	}
	text := "So set it comes to " + strings.Join(words, ", ") + ". A turn makes the leg longer; a rod end goes on again every half turn."
	if !slices.ContainsFunc(a.found.Wishes, func(w bumpsteer.Wish) bool { return w.Quantity == kinematics.Toe }) {
		text += " Set the toe anew with the tie rod afterwards."
	}
	if !s.Met {
		text = "✕ Not met together: this is the nearest that limits and adjusters allow. " + text
	}
	if row := a.found.Clear.Row(a.p.setup.Unit); row != "" {
		text += " ! Wheel so set: " + row + "."
	}
	a.answerWords.SetText(text)
}

func (a *adjusters) showRange() {
	g, p := a.reach, a.p
	u := p.setup.Unit.String()
	g.Clear()
	g.Head("", "from … to", "engaged, "+u, "fully out", "least", "")
	for i := range p.setup.Adjusters {
		adj := &p.setup.Adjusters[i]
		ends := units.Signed(units.FormatNumber(adj.Min, 1)) + " … " + units.Signed(units.FormatNumber(adj.Max, 1)) + pages.Pick(adj.Unit == bumpsteer.Turn, " turns", " mm")
		if len(adj.Threads) == 0 {
			g.Texts(adj.Name, ends, "no thread")
			continue
		}
		now, out := adj.Engagements(0), adj.Engagements(adj.Max)
		for k := range now {
			flag := pages.Plain("")
			switch {
			case now[k].Short:
				flag = pages.Marked("! too short now")
			case out[k].Short:
				flag = pages.Marked("! short when out")
			}
			name := adj.Name
			if k > 0 {
				name, ends = "left-hand thread", ""
			}
			g.Row(pages.Plain(name), pages.Plain(ends), pages.Plain(p.figure(now[k].Engaged)), pages.Plain(p.figure(max(0, out[k].Engaged))), pages.Plain(p.figure(now[k].Least)), flag)
		}
	}
	g.Done()
}

func (a *adjusters) keepIt() {
	if a.found == nil || a.found.Setting == nil {
		return
	}
	notes := "Adjusters set from " + a.p.variant().Name + ":"
	for _, l := range a.found.SetLines() {
		notes += fmt.Sprintf(" %s %s %s;", l.Name, l.Set, l.Unit)
	}
	a.p.keep(a.note, "adjusted", strings.TrimSuffix(notes, ";")+".", a.found.Setting.Advised().Corner, nil)
}

func (a *adjusters) picture() picture {
	pic := a.p.travelPicture()
	if a.found == nil || a.found.Setting == nil {
		pic.curves = []curve{nowCurve(a.p.present(), "now")}
		return pic
	}
	s := &a.p.setup
	pic.curves = []curve{beforeCurve(a.p.present(), "now")}
	after, err := bumpsteer.ToeCurve(a.found.Setting.Advised().Corner, bumpsteer.OverTravel, stations(-s.Droop, s.Bump, curvePlaces))
	if err == nil { // else it does not reach over the travel when so set
		pic.curves = append(pic.curves, nowCurve(after, "so set"))
	}
	return pic
}
