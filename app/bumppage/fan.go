package bumppage

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/canvas/plates"
)

// fan shows what happens to the toe curve when the rack moves.
type fan struct {
	p       *Page
	which   *keyed.Select
	step    *pages.Number
	view    *pages.View
	note    *pages.Notice
	content fyne.CanvasObject
	moved   *report.RackMoved // nil where there is none
}

func newFan(p *Page) *fan {
	f := &fan{p: p, step: pages.NewLength("step", 82), view: pages.NewView(), note: pages.NewNotice()}
	what := pages.Prose()
	what.SetText("What happens if the rack moves: the toe curve for each place of it. See the cost before anything is cut.")
	u := p.host.Job().Units
	f.step.Suggest(report.RackMoveStep(units.Millimetre), u)
	f.step.Done = func(string) { p.Show() }
	f.which = keyed.NewSelect(nil, func(string) { p.Show() })
	row := pages.Flow(pages.Asked(pages.Wide(f.which, 220)), pages.Asked("in steps of", f.step.Field))
	f.content = container.NewVBox(what, row, f.note.Label, f.view.Object())
	return f
}

func (f *fan) Name() string              { return "Rack moved" }
func (f *fan) Object() fyne.CanvasObject { return f.content }

// choose fills the list of freedoms, in the words of the axle, and tells which is chosen.
func (f *fan) choose() int {
	i := max(0, f.which.SelectedIndex())
	f.which.Options = nil
	for _, k := range report.RackFreedoms {
		f.which.Options = append(f.which.Options, f.p.setup.FreedomName(k))
	}
	f.which.Selected = f.which.Options[i]
	f.which.Refresh()
	return i
}

func (f *fan) Show() {
	s, h := &f.p.setup, &f.p.host
	freedom := report.RackFreedoms[f.choose()]
	f.step.Show(s.Unit)
	f.moved = nil
	step, err := f.step.Value()
	if err == nil {
		f.moved, err = report.RackMovedOf(h.Job(), h.Variant(), freedom, step, -s.Droop, s.Bump)
	}
	if err != nil {
		f.note.Wrong("", f.p.said(err))
		f.view.Show(nil)
		return
	}
	f.note.Say("")
	f.moved.InUnit(s.Unit)
	f.view.Show(f.moved.Sheet())
}

func (f *fan) picture() plates.Toe {
	pic := f.p.travelPicture()
	pic.Ends = true
	if f.moved == nil {
		return pic
	}
	var now []plates.ToeCurve
	for i := range f.moved.Curves {
		c := f.moved.Curves[i].Curve
		by := f.moved.By(i)
		label := units.Signed(f.p.short(by))
		switch {
		case len(c.At) < 2:
		case by == 0:
			now = append(now, plates.NowCurve(c, "as it stands"))
		case by < 0:
			pic.Curves = append(pic.Curves, plates.ToeCurve{Curve: c, Role: draw.LowerArmArc, Text: draw.TextQuiet, Label: label})
		default:
			pic.Curves = append(pic.Curves, plates.ToeCurve{Curve: c, Role: draw.Construction, Text: draw.TextQuiet, Label: label})
		}
	}
	pic.Curves = append(pic.Curves, now...)
	return pic
}
