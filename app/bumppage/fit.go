package bumppage

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/canvas/plates"
	"armscribe/kinematics/bumpsteer"
)

// fit corrects the measured points by what the gauge read on the car.
type fit struct {
	p            *Page
	note         *pages.Notice
	leaveOut     *keyed.Check
	asRead, keep *keyed.Button
	view         *pages.View
	rest         *fyne.Container
	content      fyne.CanvasObject

	fitted   *report.Fitted
	accepted []job.ToeReading // taken as they are
}

func newFit(p *Page) *fit {
	f := &fit{p: p, note: pages.NewNotice(), view: pages.NewView()}
	f.leaveOut = keyed.NewCheck("Leave bad readings out", func(bool) { p.Show() })
	f.asRead = keyed.NewButton("Take the readings as they are", func() {
		f.accepted = p.variant().ToeReadings
		p.Show()
	})
	f.keep = keyed.NewButton("Keep the corrected points as a variant", f.keepIt)
	f.keep.Importance = widget.HighImportance
	f.rest = container.NewVBox(container.NewHBox(f.keep, f.leaveOut), f.view.Object())
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
		f.note.Say("No readings are written down for " + p.variant().Name + ". Take them with the toe gauge, under its tab, for the variant that describes the car as it stood then.")
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
	fitted.InUnit(p.setup.Unit)
	f.view.Show(fitted.Sheet())
	f.rest.Show()
	f.content.Refresh()
}

func (f *fit) keepIt() {
	if f.fitted == nil {
		return
	}
	f.p.keep(f.note, "fitted", f.fitted.Notes(), f.fitted.Result.Corner, f.fitted.Teach)
}

func (f *fit) picture() plates.Toe {
	pic := f.p.travelPicture()
	pic.Ends = true
	if f.fitted == nil {
		pic.Curves = []plates.ToeCurve{plates.NowCurve(f.p.present(), "from the points")}
		f.p.addReadings(&pic)
		return pic
	}
	s := &f.p.setup
	after, err := bumpsteer.ToeCurve(f.fitted.Result.Corner, bumpsteer.OverTravel, stations(-s.Droop, s.Bump, curvePlaces))
	pic.Curves = []plates.ToeCurve{plates.BeforeCurve(f.p.present(), "from the points")}
	if err == nil { // else the corrected points do not reach over all of it
		pic.Curves = append(pic.Curves, plates.NowCurve(after, "fitted"))
	}
	pic.Caption = "readings less their side's zero"
	for i := range f.fitted.Result.Residuals {
		r := f.fitted.Result.Residuals[i].Reading
		pic.Points = append(pic.Points, plates.ToePoint{At: r.Travel, Toe: r.Toe - f.fitted.Result.Zero[r.Side].Value, Right: r.Side == bumpsteer.RightSide})
	}
	return pic
}
