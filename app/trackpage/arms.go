package trackpage

import (
	"errors"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// arms says what longer or shorter arms do on the same upright, and which upper
// arm keeps the outer wheel's camber in roll.
type arms struct {
	pages.Part
	p                  *Page
	lower, upper, roll *pages.Number
	rod                *keyed.Check // cut anew for the toe
	note, after        *pages.Notice
	view               *pages.View
	keep, keepRoll     *keyed.Button
	filling            bool

	now *report.Arms // nil for none
}

func newArms(p *Page) *arms {
	a := &arms{p: p, note: pages.NewNotice(), after: pages.NewNotice(), view: pages.NewView()}
	const width = 76
	a.lower, a.upper, a.roll = pages.NewLength("the lower arm", width), pages.NewLength("the upper arm", width), pages.NewAngle("the roll", width)
	for _, n := range []*pages.Number{a.lower, a.upper, a.roll} {
		n.Live = true
		n.SetPlaceHolder(pages.Pick(n == a.roll, "none", "0"))
		n.OnChanged = func(string) { a.changed() }
	}
	a.rod = keyed.NewCheck("tie rod cut to keep toe", func(bool) { a.changed() })
	a.rod.Checked = true
	a.keep, a.keepRoll = keyed.NewButton("Keep as a variant", a.keepIt), keyed.NewButton("Keep it with the upper arm for this roll", a.keepRolled)
	a.keep.Importance = widget.HighImportance
	fields := pages.NewGrid("ll")
	fields.Tight = true
	fields.Row(pages.Plain("lower arm longer by"), a.lower.Field)
	fields.Row(pages.Plain("upper arm longer by"), a.upper.Field)
	fields.Row(pages.Plain("camber kept in a roll of, deg"), a.roll.Field)
	content := container.NewVBox(
		fields.Content, a.rod, a.note.Label, pages.Flow(a.keep, a.keepRoll), a.after.Label, a.view.Object())
	a.Part = pages.NewPart("Arm lengths", content, nil)
	return a
}

// Show follows the job and the unit on display.
func (a *arms) Show() {
	a.filling = true
	for _, n := range []*pages.Number{a.lower, a.upper, a.roll} {
		n.Show(a.p.unit())
	}
	a.filling = false
	a.work()
}

func (a *arms) changed() {
	if !a.filling {
		a.after.Say("")
		a.work()
	}
}

// spec is what is typed; a blank is nothing.
func (a *arms) spec() (report.ArmsSpec, error) {
	spec := report.ArmsSpec{KeepRod: !a.rod.Checked}
	var errs [3]error
	for k, n := range []*pages.Number{a.lower, a.upper, a.roll} {
		to := [...]*float64{&spec.Lower, &spec.Upper, &spec.Roll}[k]
		if *to, errs[k] = n.Value(); errors.Is(errs[k], pages.ErrBlank) {
			errs[k] = nil
		} else {
			spec.HasRoll = spec.HasRoll || n == a.roll
		}
	}
	return spec, errors.Join(errs[:]...)
}

func (a *arms) work() {
	spec, err := a.spec()
	a.now = nil
	if err == nil && spec.Lower == 0 && spec.Upper == 0 && !spec.HasRoll {
		a.note.Say("Type by how much an arm is to be longer (below zero: shorter), or a roll of the body. The upright stays the same and is put together again at the same ride height. " + report.ArmSearch)
	} else {
		if err == nil {
			a.now, err = report.ArmsOf(a.p.host.Job(), a.p.host.Variant(), spec)
		}
		if a.note.Say(""); err != nil {
			a.note.Wrong("", err)
		}
	}
	if a.now == nil {
		a.view.Show(nil)
	} else {
		a.now.Source.Unit = a.p.unit()
		a.view.Show(a.now.Sheet())
	}
	show := func(b *keyed.Button, on bool) {
		if b.Hide(); on {
			b.Show()
		}
	}
	show(a.keep, a.now != nil && (spec.Lower != 0 || spec.Upper != 0))
	show(a.keepRoll, a.now != nil && a.rolled() != nil)
	a.Settle()
}

// rolled is the arm that was found for the roll: one whose pivots move, if there
// is one, since it leaves camber at rest alone.
func (a *arms) rolled() *report.RolledArm {
	for i := range a.now.Rolled {
		if r := &a.now.Rolled[i]; r.Fault == nil && r.Arm.Found {
			return r
		}
	}
	return nil
}

func (a *arms) keepIt() { a.add(a.now.Name(), a.now.Corner, a.now.Spec.Anew) }

func (a *arms) keepRolled() {
	r := a.rolled()
	a.add("upper arm for a roll of "+units.Trimmed(a.now.Spec.Roll*pages.Degree, 2)+" deg", r.Arm.Corner,
		func(c kinematics.Corner) (kinematics.Corner, error) { return r.Anew(&a.now.Spec, c) })
}

func (a *arms) add(name string, c kinematics.Corner, anew func(kinematics.Corner) (kinematics.Corner, error)) {
	from := a.p.host.Variant()
	v := a.p.host.Job().Variants[from].Proposal(name)
	document.SetCorner(&v, c)
	v.CamberWithin, v.ToeWithin = report.AnglesAfter(a.p.host.Job(), from, anew)
	a.p.add(a.after, from, v)
}
