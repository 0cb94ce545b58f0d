package window

import (
	"fmt"
	"path/filepath"
	"strings"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// refresh shows the document as it is, after anything but a drag.
func (w *Window) refresh() {
	w.pass()
	w.view.SetLocked(w.lockReason())
	w.keepWithin()
	w.solve(w.documentCase())
	w.show()
	w.showTitle()
	w.showMenus()
	w.top.show()
	w.showCard()
	w.photo.follow()
	w.showAnswer()
	w.keep()
	w.writeState()
}

// solve makes the frame of a corner at the present position.
func (w *Window) solve(now study.Case) {
	var before *study.Case
	if v, _ := w.compared(); v != nil {
		c := car.StudyOf(w.doc.Job(), v)
		before = &c
	}
	if err := w.frame.Update(now, before, w.position); err != nil {
		// The document refuses corners that are no mechanism, and the view stops
		// at the edge: what is left is a fault of ours, and must be seen.
		w.say(units.Said(err, w.unit).Error())
		return
	}
	s := tune.SetupOf(w.doc.Job(), w.doc.Current())
	s.Unit = w.unit
	w.advice, _ = w.frame.Advise(&s)
	w.room.mind(&w.advice, &now.Corner)
}

// compared is the variant that is drawn beside the one shown, nil for none, and what it
// is called if it is no variant of the job but what the answer proposes.
func (w *Window) compared() (v *job.Variant, called string) {
	if v := w.proposed(); v != nil {
		return v, v.Name
	}
	if v, ok := w.doc.Compared(); ok && w.doc.ComparedIndex() != w.doc.Current() {
		return v, ""
	}
	return nil, ""
}

// show puts the frame into every part of the window: the whole of a drag frame.
func (w *Window) show() {
	w.room.follow()
	w.steady()
	w.showView()
	w.showCurves()
	w.showBars()
	if w.answer.step == atAGlance {
		w.readings.SetInput(w.panelInput())
	} else if len(beside[w.answer.step]) > 0 {
		w.answer.brief.SetInput(w.panelInput())
	}
	w.followHand()
	w.room.fill()
	w.adviceLine.show()
}

// steady keeps labels at home and scales as they are while a hand works.
func (w *Window) steady() {
	elsewhere := w.playing != nil || w.strips.Held() || w.rackBar.Held() || w.rollBar.Held()
	w.view.SetSteady(elsewhere)
	w.room.plan.SetSteady(elsewhere)
	w.strips.SetFrozen(elsewhere || w.view.Busy())
}

// settle shows everything at rest after a hand let go.
func (w *Window) settle(float64) { w.show() }

func (w *Window) showView() {
	f := &w.frame
	in := scene.Input{
		Now:    scene.Subject{Name: w.doc.Variant().Name, Study: &f.Now.Study, Section: w.sections.of(w.doc.Variant())},
		Travel: w.position.Travel, Rack: w.position.Rack, Roll: w.position.Roll,
		Overlays: w.overlays, Format: report.ViewLength(w.unit), Lit: w.lights(),
		Rear: w.doc.Job().Axle == job.Rear, Began: w.doc.Variant().Began(),
	}
	if f.Now.HasBands {
		in.Bands = &f.Now.Bands
	}
	if v, called := w.compared(); v != nil && f.HasBefore {
		in.Before, in.BeforeName = &scene.Subject{Name: v.Name, Study: &f.Before.Study, Section: w.sections.of(v)}, called
		if called != "" {
			in.Overlays |= scene.BeforeOutline // it is what the answer is about
		}
	}
	w.room.into(&in)
	w.view.SetStep(w.nudge())
	w.view.SetInput(in)
	if w.room.isShown() {
		w.room.plan.SetStep(w.nudge())
		w.room.plan.SetInput(in)
	}
}

// lights are the overlays that are lit: by the reading under the pointer, or by the
// answer that is about them.
func (w *Window) lights() scene.Overlays {
	if w.isOpen(steering, diagnosisSection) {
		return w.lit | scene.TieRodArcs
	}
	return w.lit
}

func (w *Window) showCurves() {
	f := &w.frame
	axis := w.axisOf(w.curves.Over)
	shown := w.curves
	shown.Curves = w.shownCurves(w.win.Canvas().Size().Width)
	w.stripsShown = len(shown.Curves)
	specs := w.plots.fill(f, shown, &w.doc.Job().Targets, w.unit)
	in := canvas.StripsInput{Axis: axis, Value: w.overValue(), Strips: specs, Change: w.curves.Change}
	_, in.BeforeName = w.compared()
	for i := range w.plots.now[:len(shown.Curves)] {
		if len(w.plots.now[i].At) > 0 {
			in.At, in.BeforeAt = w.plots.now[i].At, w.plots.before[i].At
			break
		}
	}
	w.strips.SetInput(in)
}

// shownCurves are those of the choice that a window has room for: one in a narrow one.
func (w *Window) shownCurves(width float32) []frame.Curve {
	if width < foldCard {
		return w.curves.Curves[:1]
	}
	return w.curves.Curves
}

// overValue is the present value of what the curves run over.
func (w *Window) overValue() float64 {
	switch w.curves.Over {
	case frame.OverRack:
		return w.position.Rack
	case frame.OverRoll:
		return w.position.Roll
	}
	return w.position.Travel
}

// barsShown is all that the level bars depend on.
type barsShown struct {
	rack, roll float64
	span       study.Span
	unit       units.Unit
	hasRack    bool
}

// showBars sets the level bars; a drag does not touch them.
func (w *Window) showBars() {
	now := barsShown{w.position.Rack, w.position.Roll, w.frame.Now.Study.Case.Span, w.unit, w.hasRack()}
	if w.bars == now {
		return
	}
	w.bars = now
	if w.hasRack() {
		w.rackBar.SetAxis(w.rackAxis())
		w.rackBar.SetValue(w.position.Rack)
		w.rackBar.Show()
	} else {
		w.rackBar.Hide()
	}
	w.rollBar.SetAxis(w.rollAxis())
	w.rollBar.SetValue(w.position.Roll)
}

// showTitle puts file name and changed mark into the window's title.
func (w *Window) showTitle() {
	name := "not saved yet"
	if p := w.doc.Path(); p != "" {
		name = filepath.Base(p)
	}
	if w.doc.Changed() {
		name += " *"
	}
	w.win.SetTitle(fmt.Sprintf("%s (%s) · Armscribe", w.doc.Job().Title(), name))
}

// say puts a sentence into the status line; with nothing to say, what the hand can do.
func (w *Window) say(text string) {
	if text == "" {
		text = w.view.Status()
	}
	w.status.SetText(text)
}

// sayOfNow says what is true until the next act.
func (w *Window) sayOfNow(text string) {
	w.say(text)
	w.passing = text
}

// pass clears what was true of the act before.
func (w *Window) pass() {
	if w.passing != "" && w.status.Text == w.passing {
		w.say(w.view.Status())
	}
	w.passing = ""
}

func (w *Window) menuState() menuState {
	size := w.win.Canvas().Size().Width
	_, hasBefore := w.doc.Compared()
	curves := make([]string, len(w.curves.Curves))
	for i, c := range w.curves.Curves {
		curves[i] = fmt.Sprint(c)
	}
	shut := map[bool]fold{true: foldShut, false: foldOpen}
	return menuState{
		undo: w.doc.UndoName(), redo: w.doc.RedoName(), unit: w.unit, dark: w.dark, overlays: w.overlays,
		foldCard: shut[w.cardFolded(size)], step: w.answer.step,
		over: w.curves.Over, curves: strings.Join(curves, " "), change: w.curves.Change, recent: strings.Join(w.recentFiles, "\n"),
		job: w.doc.Job().Name, hasFile: w.doc.Path() != "", shown: fmt.Sprint(w.advice.Raise), hasBefore: hasBefore, playing: w.playing != nil, hasRack: w.hasRack(),
		variants: w.variantState(),
	}
}

// sectionCache keeps what tyre codes come to: they change rarely, frames often.
type sectionCache map[job.Wheel]scene.Section

func (c *sectionCache) of(v *job.Variant) scene.Section {
	if s, ok := (*c)[v.Wheel]; ok {
		return s
	}
	if *c == nil || len(*c) > 64 {
		*c = sectionCache{}
	}
	s := report.SectionOf(v)
	(*c)[v.Wheel] = s
	return s
}

// setTravel moves the wheel, as far as the linkage goes.
func (w *Window) setTravel(mm float64) {
	if w.position.Roll != 0 {
		w.position.Roll = 0
		defer w.sayOfNow("Out of roll again: in roll the mean wheel travel is zero.")
	}
	w.position.Travel = clamp(mm, w.frame.Now.Study.From, w.frame.Now.Study.To)
	w.move()
}

func (w *Window) setRack(mm float64) {
	w.position.Rack = mm
	w.move()
}

// setRoll turns the body. In roll the mean wheel travel is zero.
func (w *Window) setRoll(rad float64) {
	if rad != 0 {
		w.stopPlay()
		w.position.Travel = 0
	}
	w.position.Roll = rad
	w.move()
}

func (w *Window) setOverValue(v float64) {
	switch w.curves.Over {
	case frame.OverRack:
		w.setRack(v)
	case frame.OverRoll:
		w.setRoll(v)
	default:
		w.setTravel(v)
	}
}

// rest goes back to where the car stands.
func (w *Window) rest() {
	w.stopPlay()
	w.position = frame.Position{}
	w.move()
}

// move shows the same corner at another position.
func (w *Window) move() {
	w.pass()
	w.solve(w.shownCase())
	w.show()
	if err := w.frame.Now.Err; err != nil {
		w.sayOfNow(units.Said(err, w.unit).Error())
	}
	w.writeState()
}

// shownCase is the corner in the view: the document's, or the one in the hand.
func (w *Window) shownCase() study.Case {
	if w.view.Busy() {
		return w.frame.Now.Study.Case
	}
	return w.documentCase()
}

// degrees turns a value of the mechanism into the units of files.
func degrees(q kinematics.Quantity, v float64) float64 {
	v, _ = figures.Of(q).Kind.In(v, units.Millimetre)
	return v
}
