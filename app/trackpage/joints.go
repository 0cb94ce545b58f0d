package trackpage

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics/jointangle"
)

// joints shows how far each joint tilts from rest over travel and rack, against
// limits that can be typed, and beside the measured corner.
type joints struct {
	p             *Page
	note          *pages.Notice
	limits        [jointangle.JointCount]*pages.Field
	words         *widget.Label
	grid          *pages.Grid
	hint          footnote
	rest, content *fyne.Container
	picture       *pages.Picture

	now, before *report.Joints // nil for none; before also where the measured variant is shown
}

// jointNames name the limits for Undo.
var jointNames = [jointangle.JointCount]string{jointangle.UpperBall: "the upper ball joint", jointangle.LowerBall: "the lower ball joint",
	jointangle.OuterEnd: "the outer rod end", jointangle.RackEnd: "the inner rod end"}

func newJoints(p *Page) *joints {
	a := &joints{p: p, note: pages.NewNotice(), words: pages.Prose(), hint: newFootnote(), grid: pages.NewGrid("lrrrrll")}
	a.grid.Tight = true
	const width = 60
	for k := range a.limits {
		a.limits[k] = pages.NewField(width)
		a.limits[k].SetPlaceHolder("none")
		a.limits[k].Done = func(text string) { a.take(jointangle.Joint(k), text) }
	}
	a.picture = pages.NewPicture(a.compose)
	a.rest = container.NewVBox(a.words, a.grid.Content)
	a.content = container.NewVBox(a.note.Label, a.rest, a.hint.RichText)
	return a
}

// Name is on the section's button.
func (a *joints) Name() string { return "Joint angles" }

// Object holds the words.
func (a *joints) Object() fyne.CanvasObject { return a.content }

// Beside is the picture.
func (a *joints) Beside() fyne.CanvasObject { return a.picture }

// limitOf is a joint's limit in a job.
func limitOf(j *job.Job, k jointangle.Joint) *job.OptionalDegrees {
	l := &j.JointLimits
	return [jointangle.JointCount]*job.OptionalDegrees{jointangle.UpperBall: &l.UpperBall, jointangle.LowerBall: &l.LowerBall,
		jointangle.OuterEnd: &l.OuterEnd, jointangle.RackEnd: &l.RackEnd}[k]
}

// Show follows the job.
func (a *joints) Show() {
	j, variant := a.p.host.Job(), a.p.host.Variant()
	for k := range a.limits {
		text := ""
		if l := limitOf(j, jointangle.Joint(k)); l.Given {
			text = strconv.FormatFloat(float64(l.Degrees), 'f', -1, 64)
		}
		a.limits[k].Hold(text)
	}
	a.now, a.before = nil, nil
	var err error
	if a.now, err = report.JointsOf(j, variant); err != nil {
		a.note.Wrong("", err)
		a.rest.Hide()
		a.hint.say()
		a.picture.Redraw()
		return
	}
	a.note.Say("")
	if variant != 0 {
		if a.before, err = report.JointsOf(j, 0); err != nil {
			a.before = nil
			a.note.Wrong("Nothing to set beside this variant: ", err)
		}
	}
	a.now.Source.Unit = a.p.unit()
	a.rest.Show()
	a.write()
}

// take holds a typed limit in the job.
func (a *joints) take(k jointangle.Joint, text string) {
	f := a.limits[k]
	if !f.Owing() {
		return
	}
	var next job.OptionalDegrees
	if strings.TrimSpace(text) != "" {
		rad, err := units.ParseAngle(text)
		if err != nil {
			a.note.Wrong("limit of "+jointNames[k]+": ", err)
			return
		}
		next = job.OptionalDegrees{Degrees: job.Degrees(rounded(rad * pages.Degree)), Given: true}
	}
	held := f.Held
	f.Taken()
	if err := a.p.host.Edit("type the limit of "+jointNames[k], func(j *job.Job) { *limitOf(j, k) = next }); err != nil {
		f.Held = held
		a.note.Wrong("", err)
	}
}

// rounded takes out what turning degrees into radians and back leaves behind.
func rounded(deg float64) float64 {
	const digits = 12
	v, err := strconv.ParseFloat(strconv.FormatFloat(deg, 'g', digits, 64), 64)
	if err != nil {
		panic("trackpage: " + err.Error()) // it was printed from a number
	}
	return v
}

// write shows the answer.
func (a *joints) write() {
	a.words.SetText(a.sentences())
	a.writeGrid()
	a.hint.say(a.now.Notes()...)
	a.content.Refresh()
	a.picture.Redraw()
}

// sentences say which limits are kept.
func (a *joints) sentences() string {
	var lines, kept, free []string
	for i := range a.now.List {
		t := &a.now.List[i]
		tilt := banded(t.Tilt*pages.Degree, t.Band*pages.Degree, 2) + "°"
		limit := units.Trimmed(t.Limit*pages.Degree, 2) + "°"
		switch {
		case !t.HasLimit:
			free = append(free, t.Name)
		case t.Verdict == report.LimitPassed:
			lines = append(lines, "✕ The "+t.Name+" would tilt by "+tilt+", past its limit of "+limit+".")
		case t.Verdict == report.LimitOpen:
			lines = append(lines, "? The "+t.Name+" tilts by "+tilt+": its limit of "+limit+" lies within the band, the tape cannot tell.")
		default:
			kept = append(kept, t.Name)
		}
	}
	if len(kept) > 0 {
		lines = append(lines, "✓ Within the limit: "+strings.Join(kept, ", ")+".")
	}
	if len(free) > 0 {
		lines = append(lines, "No limit stated: "+strings.Join(free, ", ")+". Type it in the table.")
	}
	return strings.Join(lines, "\n")
}

// writeGrid tables the joints; each row can show where its tilt is largest.
func (a *joints) writeGrid() {
	g, p := a.grid, a.p
	g.Clear()
	first := ""
	if a.before != nil {
		first = cut(a.before.Source.Variant)
	}
	g.Head("", "tilt, deg", first, "limit, deg", "margin", "", pages.Pick(a.now.Source.Rear, "most at travel, ", "most at travel / rack, ")+p.unit().String())
	for i := range a.now.List {
		t := &a.now.List[i]
		var margin, word, was fyne.CanvasObject
		if t.HasLimit {
			margin = pages.Plain(t.MarginText())
		}
		switch {
		case !t.HasLimit:
			word = pages.Quiet(t.Word())
		case t.Verdict == report.LimitKept:
			word = pages.Plain("✓ " + t.Word())
		case t.Verdict == report.LimitPassed:
			word = pages.Marked("✕ " + t.Word())
		default:
			word = pages.Quiet("? " + t.Word())
		}
		if a.before != nil {
			b := &a.before.List[i]
			was = pages.Quiet(banded(b.Tilt*pages.Degree, b.Band*pages.Degree, 2))
		}
		travel, rack := t.Travel, t.CarRack
		at := p.signed(t.Travel)
		if !a.now.Source.Rear {
			at += " / " + p.signed(t.CarRack) + pages.Pick(t.Right, ", right wheel", "")
		}
		show := widget.NewButton("Show it at "+at, func() { p.host.GoTo(travel, rack, 0) })
		g.Row(pages.Bold(t.Name), pages.Plain(banded(t.Tilt*pages.Degree, t.Band*pages.Degree, 2)), was, a.limits[t.Joint], margin, word, show)
	}
	g.Done()
}
