package bumppage

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// adjusters tables what can be set on the car, and the setting that reaches a
// wished camber and caster.
type adjusters struct {
	p              *Page
	camber, caster *pages.Field
	note           *pages.Notice
	view           *pages.View
	keep           *keyed.Button
	content        *fyne.Container
	rest           *fyne.Container
	found          *report.Adjusted
	form           *adjusterForm
}

func newAdjusters(p *Page) *adjusters {
	a := &adjusters{p: p, note: pages.NewNotice(), view: pages.NewView(), camber: pages.NewField(70), caster: pages.NewField(70)}
	a.camber.Done = func(string) { p.Show() }
	a.caster.Done = a.camber.Done
	row := pages.Flow(pages.Asked("wished camber", a.camber, "deg"), pages.Asked("caster", a.caster, "deg"), keyed.NewButton("Find the setting", func() { p.Show() }))
	a.keep = keyed.NewButton("Keep the setting as a variant", a.keepIt)
	a.keep.Importance = widget.HighImportance
	a.rest = container.NewVBox(row, container.NewHBox(a.keep), a.view.Object())
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
	if a.keep.Show(); found.Setting == nil {
		a.keep.Hide()
	}
	a.view.Show(found.Sheet())
	a.rest.Show()
	a.content.Refresh()
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

func (a *adjusters) picture() plates.Toe {
	pic := a.p.travelPicture()
	if a.found == nil || a.found.Setting == nil {
		pic.Curves = []plates.ToeCurve{plates.NowCurve(a.p.present(), "now")}
		return pic
	}
	s := &a.p.setup
	pic.Curves = []plates.ToeCurve{plates.BeforeCurve(a.p.present(), "now")}
	after, err := bumpsteer.ToeCurve(a.found.Setting.Advised().Corner, bumpsteer.OverTravel, stations(-s.Droop, s.Bump, curvePlaces))
	if err == nil { // else it does not reach over the travel when so set
		pic.Curves = append(pic.Curves, plates.NowCurve(after, "so set"))
	}
	return pic
}
