package trackpage

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/kinematics/jointangle"
)

// joints shows how far each joint tilts from rest over travel and rack, against
// limits that can be typed, and beside the measured corner.
type joints struct {
	pages.Part
	p       *Page
	note    *pages.Notice
	limits  [jointangle.JointCount]*pages.Field
	view    *pages.View
	picture *pages.Picture

	now, before *report.Joints // nil for none; before also where the measured variant is shown
}

// jointNames name the limits for Undo.
var jointNames = [jointangle.JointCount]string{jointangle.UpperBall: "the upper ball joint", jointangle.LowerBall: "the lower ball joint",
	jointangle.OuterEnd: "the outer rod end", jointangle.RackEnd: "the inner rod end"}

func newJoints(p *Page) *joints {
	a := &joints{p: p, note: pages.NewNotice(), view: pages.NewView()}
	a.view.GoTo = p.host.GoTo
	a.view.Field = func(key string) fyne.CanvasObject { return a.limits[report.JointOf(key)] }
	const width = 60
	for k := range a.limits {
		a.limits[k] = pages.NewField(width)
		a.limits[k].SetPlaceHolder("none")
		a.limits[k].Done = func(text string) { a.take(jointangle.Joint(k), text) }
	}
	a.picture = pages.NewPicture()
	content := container.NewVBox(a.note.Label, a.view.Object())
	a.Part = pages.NewPart("Joint angles", content, a.picture)
	return a
}

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
		a.view.Show(nil)
		a.picture.Put(plates.Words("no answer"))
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
	a.view.Show(a.now.Sheet(a.before))
	a.picture.Put(a.now.Plate(a.before))
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
