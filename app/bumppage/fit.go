package bumppage

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// fit corrects the measured points by what the gauge read on the car.
type fit struct {
	p                              *Page
	note                           *pages.Notice
	leaveOut                       *keyed.Check
	asRead, keep                   *keyed.Button
	what, suspectWords, adviceText *widget.Label
	residuals, suspects, points    *pages.Grid
	parts                          *pages.Grid
	rest                           *fyne.Container
	content                        fyne.CanvasObject

	fitted   *report.Fitted
	accepted []job.ToeReading // taken as they are
}

func newFit(p *Page) *fit {
	f := &fit{p: p, note: pages.NewNotice(), what: pages.Prose(), suspectWords: pages.Prose(), adviceText: pages.Prose(),
		residuals: pages.NewGrid("rlrrrrl"), suspects: pages.NewGrid("lrl"), points: pages.NewGrid("lrrr"), parts: pages.NewGrid("lrrr")}
	f.leaveOut = keyed.NewCheck("Leave bad readings out", func(bool) { p.Show() })
	f.asRead = keyed.NewButton("Take the readings as they are", func() {
		f.accepted = p.variant().ToeReadings
		p.Show()
	})
	f.keep = keyed.NewButton("Keep the corrected points as a variant", f.keepIt)
	f.keep.Importance = widget.HighImportance
	f.rest = container.NewVBox(f.what, f.suspects.Content, f.suspectWords, pages.Heading("By the corrected points"), f.parts.Content, f.adviceText,
		container.NewHBox(f.keep, f.leaveOut), pages.Heading("Corrections of the points"), f.points.Content, pages.Heading("Readings"), f.residuals.Content)
	f.content = container.NewVBox(f.note.Label, container.NewHBox(f.asRead), f.rest)
	return f
}

func (f *fit) Name() string              { return "Fit to the car" }
func (f *fit) Object() fyne.CanvasObject { return f.content }

func (f *fit) Show() {
	p := f.p
	f.fitted = nil
	f.asRead.Hide()
	f.rest.Hide()
	if len(p.setup.Readings) == 0 {
		f.note.Say("No readings are written down for " + p.variant().Name + ". Take them with the toe gauge, on the page before this one, for the variant that describes the car as it stood then.")
		return
	}
	asRead := f.accepted != nil && reflect.DeepEqual(f.accepted, p.variant().ToeReadings)
	if doubts := p.setup.Doubts(p.setup.Readings); len(doubts) > 0 && !asRead {
		f.note.Say(questions(doubts))
		f.asRead.Show()
		return
	}
	fitted, err := report.FitOf(p.host.Job(), p.host.Variant(), nil, true, f.leaveOut.Checked)
	if err != nil {
		f.note.Wrong("", f.p.said(err))
		return
	}
	f.fitted = fitted
	f.note.Say("")
	f.showSuspects()
	f.showPoints()
	f.showResiduals()
	parts := p.setup.Parts(&fitted.Result.Advice, tune.ByGauge)
	p.partsGrid(f.parts, parts)
	f.adviceText.SetText(partsWords(parts) + "\n" + f.spacerWords())
	f.rest.Show()
	f.content.Refresh()
}

// spacerWords say which change of the spacer the fitted points ask for.
func (f *fit) spacerWords() string {
	d := &f.fitted.Result.Advice
	if !d.CanRaise {
		return "A spacer under the outer end would not change the slope here."
	}
	text := fmt.Sprintf("Spacer change asked for: outer end %s by %s", pages.Pick(d.Raise.Value < 0, "lowered", "raised"), f.p.sizeBand(d.Raise))
	if !d.Raise.Decided() {
		text += ", which these readings do not decide"
	}
	return text + ". " + pages.UpperFirst(tune.SpacerHint)
}

// axisWords name an axis as a fabricator does.
var axisWords = [3]string{"fore-aft", "to the side", "height"}

// wrongWords say which way a coordinate was measured wrong, by its correction.
func wrongWords(at kinematics.Coordinate, mm float64) string {
	words := [3][2]string{{"too far forward", "too far rearward"}, {"too far out", "too far in"}, {"too high", "too low"}}[at.Axis]
	return pages.Pick(mm < 0, words[0], words[1])
}

func (f *fit) coordinateName(at kinematics.Coordinate) string {
	return f.p.setup.Corner.NameOf(at.Point) + ", " + axisWords[at.Axis]
}

// suspectsShown at most: larger slips are unlikelier.
const suspectsShown = 6

func (f *fit) showSuspects() {
	r := &f.fitted.Result
	f.suspects.Clear()
	bad := 0
	for i := range r.Residuals {
		if r.Residuals[i].Bad {
			bad++
		}
	}
	text := fmt.Sprintf("%d readings, each within ±%s°, against points within ±%s.", len(r.Residuals), units.Trimmed(f.p.setup.ReadsWithin*pages.Degree, 4), units.ShortLength(f.p.setup.Within.Common(), f.p.setup.Unit))
	if bad > 0 {
		text += fmt.Sprintf(" Bad readings: %d, marked below; so far off comes by chance once in a thousand. Read again, or leave them out.", bad)
	}
	for side, zero := range r.Zero {
		if zero != (bumpsteer.Banded{}) {
			word := tune.SideWord(bumpsteer.Side(side))
			text += fmt.Sprintf(" Gauge zero%s: %s deg, taken out.", pages.Pick(word == "", "", " "+word), banded(zero, pages.Degree))
		}
	}
	f.what.SetText(text)
	f.suspectWords.SetText("No point stands out: measuring errors as stated explain the readings.")
	if !r.Mismeasured {
		f.suspects.Done()
		return
	}
	list := append([]int{r.Suspect}, r.Rivals...)
	size := func(k int) float64 { return math.Abs(r.Corrections[k].Size.Value) }
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(size(a), size(b)) })
	f.suspects.Head("one of these alone explains it", "by, "+f.p.setup.Unit.String(), "was measured")
	for _, k := range list[:min(len(list), suspectsShown)] {
		c := &r.Corrections[k]
		f.suspects.Row(pages.Bold(f.coordinateName(c.At)), pages.Plain(f.p.lengthBand(bumpsteer.Banded{Value: size(k), Half: c.Size.Half})), pages.Plain(wrongWords(c.At, c.Size.Value)))
	}
	f.suspects.Done()
	text = "Some point was probably measured farther off than stated. The readings alone do not tell these apart: measure all of them again."
	if more := len(list) - suspectsShown; more > 0 {
		text += fmt.Sprintf(" %d more would do, by larger slips.", more)
	}
	f.suspectWords.SetText(text)
}

// movedShare of its standard deviation is the least correction that is shown.
const movedShare = 0.05

func (f *fit) showPoints() {
	r, u := &f.fitted.Result, f.p.setup.Unit.String()
	f.points.Clear()
	f.points.Head("point", "by, "+u, "± now", "± before")
	for i := range r.Corrections {
		c := &r.Corrections[i]
		if math.Abs(c.MM) < movedShare*c.Prior && c.Sigma > (1-movedShare)*c.Prior {
			continue
		}
		f.points.Texts(f.coordinateName(c.At), units.Signed(f.p.figureFine(c.MM)), f.p.figureFine(kinematics.Normal95*c.Sigma), f.p.figureFine(kinematics.Normal95*c.Prior))
	}
	f.points.Done()
}

// figureFine is a length to a hundredth of a millimetre.
func (p *Page) figureFine(mm float64) string {
	return fine(mm, p.setup.Unit)
}

func (f *fit) showResiduals() {
	r := &f.fitted.Result
	f.residuals.Clear()
	f.residuals.Head("travel, "+f.p.setup.Unit.String(), "side", "read, deg", "as measured", "fitted", "left over", "")
	for i := range r.Residuals {
		k := &r.Residuals[i]
		flag := pages.Plain("")
		switch {
		case k.LeftOut:
			flag = pages.Marked("✕ bad, left out")
		case k.Bad:
			flag = pages.Marked("! bad reading?")
		}
		f.residuals.Row(pages.Plain(f.p.way(k.Reading.Travel)), pages.Plain(tune.SideWord(k.Reading.Side)), pages.Plain(toeText(k.Reading.Toe)), pages.Plain(toeText(f.fitted.Predicted[i])),
			pages.Plain(toeText(k.Fitted)), pages.Plain(toeText(k.Miss)), flag)
	}
	f.residuals.Done()
}

func (f *fit) keepIt() {
	if f.fitted == nil {
		return
	}
	f.p.keep(f.note, "fitted", f.fitted.Notes(), f.fitted.Result.Corner, f.fitted.Teach)
}

func (f *fit) picture() picture {
	pic := f.p.travelPicture()
	pic.ends = true
	if f.fitted == nil {
		pic.curves = []curve{nowCurve(f.p.present(), "as measured")}
		f.p.addReadings(&pic)
		return pic
	}
	s := &f.p.setup
	after, err := bumpsteer.ToeCurve(f.fitted.Result.Corner, bumpsteer.OverTravel, stations(-s.Droop, s.Bump, curvePlaces))
	pic.curves = []curve{beforeCurve(f.p.present(), "as measured")}
	if err == nil { // else the corrected points do not reach over all of it
		pic.curves = append(pic.curves, nowCurve(after, "fitted"))
	}
	pic.caption = "readings less their side's zero"
	for i := range f.fitted.Result.Residuals {
		r := f.fitted.Result.Residuals[i].Reading
		pic.points = append(pic.points, point{r.Travel, r.Toe - f.fitted.Result.Zero[r.Side].Value, r.Side == bumpsteer.RightSide})
	}
	return pic
}
