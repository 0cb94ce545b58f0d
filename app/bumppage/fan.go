package bumppage

import (
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// fan shows what happens to the toe curve when the rack moves, as with another
// engine or other mounts.
type fan struct {
	p           *Page
	which       *keyed.Select
	step        *pages.Number
	what, words *widget.Label
	list        *pages.Grid
	note        *pages.Notice
	content     fyne.CanvasObject
	curves      []bumpsteer.FanCurve
	freedom     bumpsteer.Freedom
}

// fanSides is how many steps the rack is moved either way.
const fanSides = 3

var fanFreedoms = []bumpsteer.Freedom{bumpsteer.RackHeight, bumpsteer.RackEndSide, bumpsteer.RackForeAft}

func newFan(p *Page) *fan {
	f := &fan{p: p, step: pages.NewLength("step", 82), what: pages.Prose(), words: pages.Prose(), list: pages.NewGrid("rrrrl"), note: pages.NewNotice()}
	f.what.SetText("What happens if the rack moves: the toe curve for each place of it, the tie rod cut each time to keep the resting toe. See the cost before anything is cut.")
	f.step.Suggest(firstFanStep, p.host.Job().Units)
	f.step.Done = func(string) { p.Show() }
	f.which = keyed.NewSelect(nil, func(string) { p.Show() })
	row := pages.NewGrid("lll")
	row.Row(pages.Wide(f.which, 220), pages.Plain("in steps of"), f.step.Field)
	f.content = container.NewVBox(f.what, row.Content, f.note.Label, f.list.Content, f.words)
	return f
}

// firstFanStep is the first step of the rack, mm: engine mounts move it so.
const firstFanStep = 5

func (f *fan) Name() string              { return "Rack moved" }
func (f *fan) Object() fyne.CanvasObject { return f.content }

// choose fills the list of freedoms, in the words of the axle.
func (f *fan) choose() {
	i := max(0, f.which.SelectedIndex())
	f.which.Options = nil
	for _, k := range fanFreedoms {
		f.which.Options = append(f.which.Options, f.p.setup.FreedomName(k))
	}
	f.freedom = fanFreedoms[i]
	f.which.Selected = f.which.Options[i]
	f.which.Refresh()
}

func (f *fan) Show() {
	f.choose()
	f.step.Show(f.p.setup.Unit)
	f.curves = nil
	f.list.Clear()
	f.words.SetText("")
	step, err := f.step.Value()
	if err == nil && !(step > 0 && step <= maxFanStep) {
		err = fmt.Errorf("step: must be above zero and at most %s", units.ShortLength(maxFanStep, f.p.setup.Unit))
	}
	if err != nil {
		f.note.Wrong("", f.p.said(err))
		f.list.Done()
		return
	}
	f.note.Say("")
	values := make([]float64, 0, 2*fanSides+1)
	for k := -fanSides; k <= fanSides; k++ {
		values = append(values, float64(k)*step)
	}
	s := &f.p.setup
	f.curves, err = bumpsteer.Fan(s.Corner, f.freedom, values, bumpsteer.Goal{From: -s.Droop, To: s.Bump})
	if err != nil {
		f.note.Wrong("", f.p.said(err))
		return
	}
	f.showList(values)
}

// maxFanStep, mm: three of them are as far as a rack was ever moved.
const maxFanStep = 100

func (f *fan) showList(values []float64) {
	p, u := f.p, f.p.setup.Unit
	f.list.Head("moved, "+u.String(), "full bump, deg", "full droop", p.atEndHead(), "")
	for i := len(f.curves) - 1; i >= 0; i-- {
		k := &f.curves[i]
		largest := largestOf(k.Curve.Toe)
		bump, droop := "", ""
		if n := len(k.Curve.Toe); k.Err == nil && n > 0 {
			bump, droop = toeText(k.Curve.Toe[n-1]), toeText(k.Curve.Toe[0])
		}
		moved := units.Signed(p.short(values[i]))
		note := ""
		switch {
		case errors.Is(k.Err, kinematics.ErrUnreachable):
			note = "as far as it reaches"
		case k.Err != nil:
			note = k.Err.Error()
		}
		if values[i] == 0 {
			note = "as it stands"
		}
		rim := ""
		if p.setup.Gauge.Width > 0 {
			rim = units.Signed(p.rimText(largest))
		}
		cells := []fyne.CanvasObject{pages.Plain(moved), pages.Plain(bump), pages.Plain(droop), pages.Plain(rim), pages.Quiet(note)}
		if values[i] == 0 {
			cells = []fyne.CanvasObject{pages.Bold("0"), pages.Bold(bump), pages.Bold(droop), pages.Bold(rim), pages.Bold(note)}
		}
		f.list.Row(cells...)
	}
	f.list.Done()
	f.words.SetText("Toe change at both ends, and the largest between as a length. " + f.axisWords())
}

func (f *fan) axisWords() string {
	switch f.freedom {
	case bumpsteer.RackHeight:
		return "Positive: the rack higher. It slopes the curve."
	case bumpsteer.RackEndSide:
		return "Positive: each rack end farther out, a wider rack. It bows the curve."
	}
	return "Positive: the rack forward."
}

// largestOf is the value farthest from nought, with its sign.
func largestOf(list []float64) float64 {
	largest := 0.0
	for _, v := range list {
		if max(v, -v) > max(largest, -largest) {
			largest = v
		}
	}
	return largest
}

func (f *fan) picture() picture {
	pic := f.p.travelPicture()
	pic.ends = true
	var now []curve
	for i := range f.curves {
		k := &f.curves[i]
		by := k.Moves[f.freedom]
		label := units.Signed(f.p.short(by))
		switch {
		case len(k.Curve.At) < 2:
		case by == 0:
			now = append(now, nowCurve(k.Curve, "as it stands"))
		case by < 0:
			pic.curves = append(pic.curves, curve{k.Curve, draw.LowerArmArc, draw.TextQuiet, label})
		default:
			pic.curves = append(pic.curves, curve{k.Curve, draw.Construction, draw.TextQuiet, label})
		}
	}
	pic.curves = append(pic.curves, now...)
	return pic
}
