package trackpage

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/room"
	"armscribe/app/units"
	"armscribe/kinematics/clearance"
)

// lock shows how the wheels steer from stop to stop, what ends the lock, and
// the turning circle in plan.
type lock struct {
	p                    *Page
	note                 *pages.Notice
	wheelbase            *pages.JobLength
	way                  *widget.RadioGroup
	words                *widget.Label
	fields               *pages.Grid
	ends, beside, angles *pages.Grid
	besideHead           *fyne.Container
	jumps                *fyne.Container
	hint                 footnote
	rest, content        *fyne.Container
	picture              *pages.Picture
	charts               [2]lockChart

	now, before *report.Lock // nil for none; before also where the measured variant is shown
	curve, was  []report.LockRow
	tyre        clearance.Tyre
	hasTyre     bool
}

// The ways, as report.Lock.Ways has them.
var wayWords = []string{"turning right", "turning left"}

// curveStretches is how many stretches a curve over the rack is drawn with.
const curveStretches = 48

func newLock(p *Page) *lock {
	k := &lock{p: p, note: pages.NewNotice(), words: pages.Prose(), hint: newFootnote(), fields: pages.NewGrid("lll"),
		ends: pages.NewGrid("lrrrrr"), beside: pages.NewGrid("llrrrll"), angles: pages.NewGrid("rrrrrl"), jumps: container.NewHBox()}
	k.ends.Tight, k.beside.Tight, k.angles.Tight, k.fields.Tight = true, true, true, true
	k.wheelbase = pages.NewJobLength(&p.host.Host, "the wheelbase", k.note, func(j *job.Job) *job.Optional { return &j.Wheelbase })
	k.way = widget.NewRadioGroup(wayWords, func(string) { k.write() })
	k.way.Horizontal, k.way.Required = true, true
	k.way.Selected = wayWords[1]
	k.besideHead = container.NewVBox(pages.Heading("Beside the measured corner"), k.beside.Content)
	k.picture = pages.NewPicture(k.compose)
	k.rest = container.NewVBox(k.fields.Content, k.words, k.jumps, k.ends.Content, k.way, k.besideHead,
		pages.Heading("Angles from stop to stop, at rest height"), k.angles.Content, k.hint.RichText)
	k.content = container.NewVBox(k.note.Label, k.rest)
	return k
}

// Name is on the section's button.
func (k *lock) Name() string { return "Lock and circle" }

// Object holds the words.
func (k *lock) Object() fyne.CanvasObject { return k.content }

// Beside is the picture.
func (k *lock) Beside() fyne.CanvasObject { return k.picture }

// Show follows the job.
func (k *lock) Show() {
	j, variant := k.p.host.Job(), k.p.host.Variant()
	k.now, k.before, k.curve, k.was = nil, nil, nil, nil
	k.rest.Hide()
	step := report.RackStep(j, k.p.unit())
	now, err := report.LockOf(j, variant, step)
	if err == nil {
		k.curve, err = report.LockCurve(j, variant, curveStretches)
	}
	switch {
	case errors.Is(err, report.ErrNoSteering):
		k.note.Say("This axle does not steer: its toe links end on the body. There is neither lock nor turning circle here.")
	case err != nil:
		k.note.Wrong("", err)
	default:
		k.now = now
		k.now.Source.Unit = k.p.unit()
		k.note.Say("")
		k.rest.Show()
	}
	if err == nil && variant != 0 {
		if k.before, err = report.LockOf(j, 0, step); err == nil {
			k.was, err = report.LockCurve(j, 0, curveStretches)
		}
		if err != nil {
			k.before, k.was = nil, nil
			k.note.Wrong("Nothing to set beside this variant: ", err)
		}
	}
	k.tyre, k.hasTyre = room.TyreOf(k.p.host.Shown())
	k.write()
}

// write shows the answer.
func (k *lock) write() {
	if k.now == nil {
		k.picture.Redraw()
		return
	}
	k.wheelbase.Show()
	k.fields.Clear()
	k.fields.Row(pages.Plain("wheelbase"), k.wheelbase.Field, pages.Quiet(k.p.unit().String()+", for Ackermann error and circle"))
	k.fields.Done()
	k.words.SetText(k.sentences())
	k.writeEnds()
	k.writeBeside()
	k.writeAngles()
	k.hint.say(append(k.now.Notes(), "In the plan the other axle's wheels are drawn like the front ones.")...)
	k.content.Refresh()
	k.picture.Redraw()
}

// chosen is the way that is looked at.
func (k *lock) chosen() int {
	if k.way.Selected == wayWords[0] {
		return 0
	}
	return 1
}

// sentences say what ends the lock each way.
func (k *lock) sentences() string {
	unit := k.p.unit()
	var lines []string
	for i := range k.now.Ways {
		w := &k.now.Ways[i]
		head := pages.UpperFirst(wayWords[i]) + ": "
		switch {
		case w.Kept.By == report.ByObstacle:
			text := fmt.Sprintf("✕ %sthe wished gaps are kept up to %s of rack only, of %s. In the way: %s.", head, k.length(w.Kept.Rack), k.length(w.AtEnd.Rack), w.Kept.Words(unit))
			if w.Touch.By == report.ByObstacle {
				text += fmt.Sprintf(" It touches at %s.", k.length(w.Touch.Rack))
			} else {
				text += " It does not touch before the end."
			}
			lines = append(lines, text)
		case w.AtEnd.By == report.ByLinkage:
			lines = append(lines, fmt.Sprintf("✕ %sthe linkage ends it at %s of rack, before the stop at %s: %s.", head, k.length(w.AtEnd.Rack), k.length(w.Stop), w.AtEnd.Cause))
		case k.now.Obstacles > 0 && !k.now.NoTyre:
			lines = append(lines, fmt.Sprintf("✓ %sall %s of rack, every wished gap kept.", head, k.length(w.AtEnd.Rack)))
		default:
			lines = append(lines, fmt.Sprintf("%sall %s of rack; no obstacle is looked at.", head, k.length(w.AtEnd.Rack)))
		}
	}
	return strings.Join(lines, "\n")
}

// length is the size of a length with its unit.
func (k *lock) length(mm float64) string { return k.p.length(math.Abs(mm)) }

// length prints a length with its unit, to what a tape shows.
func (p *Page) length(mm float64) string {
	return units.Taped.Length(mm, p.unit())
}

// signed prints a length with its sign, without its unit.
func (p *Page) signed(mm float64) string {
	return units.Signed(units.Taped.Number(mm, p.unit()))
}

// far is the unit of a turning circle.
func (p *Page) far() units.Unit {
	if p.unit() == units.Inch {
		return units.Foot
	}
	return units.Metre
}

// banded prints a value with its band; a band of nought is none.
func banded(v, band float64, decimals int) string {
	if band == 0 {
		return units.FormatNumber(v, decimals)
	}
	return units.FormatWithBand(v, band)
}

// angle prints an angle as armcalc does: with its band, also one of nought, or
// that its band is not known.
func angle(rad, band float64, known bool) string {
	if !known {
		return exactly(rad) + ", band not known"
	}
	return units.Signed(units.FormatWithBand(rad*pages.Degree, band*pages.Degree))
}

// exactly prints an angle that has no band of its own.
func exactly(rad float64) string { return units.Signed(units.FormatNumber(rad*pages.Degree, 2)) }

// writeEnds tables the ends of both ways, and offers to show what is in the way.
func (k *lock) writeEnds() {
	p, g := k.p, k.ends
	g.Clear()
	k.jumps.Objects = nil
	far := p.far().String()
	g.Head("", "rack, "+p.unit().String(), "left, deg", "right, deg", "wall to wall, "+far, "kerb to kerb, "+far)
	for i := range k.now.Ways {
		w := &k.now.Ways[i]
		g.Row(pages.Bold(pages.UpperFirst(wayWords[i])))
		k.endRow("as far as the rack goes", &w.AtEnd)
		if w.Kept.By == report.ByObstacle {
			k.endRow("wished gaps kept", &w.Kept)
			k.jumps.Add(k.jump("Show where the gap falls short, "+wayWords[i], &w.Kept))
		}
		if w.Touch.By == report.ByObstacle {
			k.endRow("before it touches", &w.Touch)
		}
	}
	g.Done()
	k.jumps.Refresh()
}

func (k *lock) endRow(name string, e *report.LockEnd) {
	cells := []string{name, k.p.signed(e.Rack), "", "", "", ""}
	if e.Missing == "" {
		cells[2], cells[3] = angle(e.Left, e.LeftBand, e.HasBands), angle(e.Right, e.RightBand, e.HasBands)
	}
	if far := k.p.far(); e.HasCircle {
		if e.HasWall {
			cells[4] = banded(units.In(e.Circle.WallToWall, far), units.In(e.CircleBand, far), 2)
		}
		cells[5] = banded(units.In(e.Circle.KerbToKerb, far), units.In(e.CircleBand, far), 2)
	}
	k.ends.Texts(cells...)
}

// jump shows the corner where an obstacle is in the way; the right wheel's pose
// is the left one's at the rack the other way round.
func (k *lock) jump(text string, e *report.LockEnd) *widget.Button {
	travel, rack := e.Travel, e.Rack
	if e.Wheel == "right" {
		rack = -rack
	}
	return widget.NewButton(text, func() { k.p.host.GoTo(travel, rack, 0) })
}

// writeBeside sets the way chosen beside the measured variant's.
func (k *lock) writeBeside() {
	g := k.beside
	g.Clear()
	if k.before == nil {
		k.besideHead.Hide()
		return
	}
	k.besideHead.Show()
	g.Head("", "", "this variant", cut(k.before.Source.Variant), "change", "", "")
	for _, l := range k.now.Beside(k.before, k.chosen()) {
		g.Row(pages.Plain(l.Name), pages.Quiet(l.Unit), pages.Plain(l.Now), pages.Plain(l.Before), pages.Plain(l.Change), pages.Quiet(l.Band), verdictWord(l.Verdict))
	}
	g.Done()
}

// writeAngles tables the angles over the rack.
func (k *lock) writeAngles() {
	p, g := k.p, k.angles
	g.Clear()
	g.Head("rack, "+p.unit().String(), "left, deg", "right, deg", "outer, ideal", "Ackermann error", "")
	for i := range k.now.Rows {
		r := &k.now.Rows[i]
		cells := []string{p.signed(r.Rack), "", "", "", "", ""}
		if r.Missing == "" {
			cells[1], cells[2] = angle(r.Left, r.LeftBand, r.HasBands), angle(r.Right, r.RightBand, r.HasBands)
		} else {
			cells[5] = "out of the linkage's reach"
		}
		if ideal, _, ok := r.Ideal(); ok {
			cells[3], cells[4], cells[5] = exactly(ideal), angle(r.AckermannError, r.ErrorBand, r.HasBands), report.AckermannWord(r.AckermannError, r.ErrorBand)
		}
		g.Texts(cells...)
	}
	g.Done()
}
