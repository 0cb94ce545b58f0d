package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/panels"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

func (w *Window) makeView() {
	w.view = canvas.NewFrontView()
	w.view.OnChanged = func(c kinematics.Corner) {
		w.stopPlay()
		now := w.documentCase()
		now.Corner = c
		w.solve(now)
		w.show()
	}
	w.view.OnChangeEnded = func(name string, _, after kinematics.Corner) {
		run := ""
		if strings.HasPrefix(name, "nudge") {
			run = name
		}
		if err := w.doc.SetCorner(name, run, after); err != nil {
			w.showProblems("This change cannot be kept", err)
		}
		w.refresh()
	}
	w.view.OnCancelled = func(kinematics.Corner) { w.refresh() }
	w.view.OnStatus = w.say
	w.view.OnMessage = func(text string) {
		if w.pass(); text != "" {
			w.sayOfNow(text)
		}
	}
	w.view.OnLoupe = func() { w.showToe() }
	w.view.OnTyped = w.typeHandle
	w.view.OnMenu = w.showHandleMenu
	w.view.OnView = func(draw.View) { w.writeState() }
}

// typeHandle takes the keyboard to a handle's numbers.
func (w *Window) typeHandle(h scene.Handle) {
	i, _, obstacle := h.Obstacle()
	p, point := h.Point()
	switch {
	case obstacle:
		w.room.typeIn(i)
	case point:
		w.typePoint(p)
	case h == scene.UprightBody:
		w.askMove()
	case h == scene.WheelOutline:
		w.focusIn(fit, wheelSection, w.wheel.OffsetField)
	case h == scene.GroundLine:
		w.focusIn(fit, wheelSection, w.wheel.RadiusField)
	}
}

// askMove asks how far the whole upright is to go. The arms grow with it.
func (w *Window) askMove() {
	if reason := w.lockReason(); reason != "" {
		w.say(reason)
		return
	}
	ways := [2]*keyed.Entry{keyed.NewEntry("0"), keyed.NewEntry("0")}
	for _, e := range ways {
		e.Validator = func(text string) error {
			_, err := units.Parse(text, w.unit)
			return err
		}
	}
	w.dialogs.Form("Move the whole upright", "Move it", "Leave it", []*widget.FormItem{
		widget.NewFormItem("Out, "+w.unit.String(), ways[0]), widget.NewFormItem("Up, "+w.unit.String(), ways[1])}, moveWidth, func() {
		var by [2]float64
		for k, e := range ways {
			by[k], _ = units.Parse(e.Text, w.unit) // the form takes no other
		}
		w.view.Select(scene.UprightBody)
		w.view.MoveBy(by[0], by[1])
	})
}

// moveWidth is that of the question for a move.
const moveWidth = 440

// edit is a typed change from a panel.
func (w *Window) edit(name string, change func(*job.Variant)) error {
	err := w.doc.Edit(name, "", change)
	w.refresh()
	return err
}

// showHandleMenu offers what can be done with a handle.
func (w *Window) showHandleMenu(h scene.Handle, at fyne.Position) {
	var items []*fyne.MenuItem
	if i, _, ok := h.Obstacle(); ok {
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", w.room.menu(i)...), w.win.Canvas(), at)
		return
	}
	if p, ok := h.Point(); ok {
		l := w.view.Locks()
		name := grip.NameOf(&w.frame.Now.Study.Case.Corner, h)
		items = append(items,
			fyne.NewMenuItem("Type the place of the "+name+"…", func() { w.view.OnTyped(h) }),
			fyne.NewMenuItem("Move it to where I click", func() { w.view.Select(h); w.view.MoveTo() }),
			fyne.NewMenuItemSeparator())
		if c, ok := panels.PivotChangeOf(w.doc.Variant(), p); ok {
			items = append(items, fyne.NewMenuItem(c.Words, func() { w.changePivots(c) }), fyne.NewMenuItemSeparator())
		}
		items = append(items,
			checked("Hold its height", l.Height.Has(p), func() { l.Height = l.Height.With(p, !l.Height.Has(p)); w.view.SetLocks(l) }),
			checked("Hold its side distance", l.Side.Has(p), func() { l.Side = l.Side.With(p, !l.Side.Has(p)); w.view.SetLocks(l) }))
	}
	items = append(items, w.lengthLocks()...)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), at)
}

func (w *Window) lengthLocks() []*fyne.MenuItem {
	l := w.view.Locks()
	set := func(change func(*grip.Locks)) func() {
		return func() { change(&l); w.view.SetLocks(l) }
	}
	return []*fyne.MenuItem{
		checked("Hold the upright: a ball joint makes its arm longer", l.Upright, set(func(l *grip.Locks) { l.Upright = !l.Upright })),
		checked("Hold the upper arm's length", l.UpperArm, set(func(l *grip.Locks) { l.UpperArm = !l.UpperArm })),
		checked("Hold the lower arm's length", l.LowerArm, set(func(l *grip.Locks) { l.LowerArm = !l.LowerArm })),
		checked("Hold the tie rod's length", l.TieRod, set(func(l *grip.Locks) { l.TieRod = !l.TieRod })),
	}
}

func (w *Window) undo() { w.step(w.doc.Undo, "Undone: ") }
func (w *Window) redo() { w.step(w.doc.Redo, "Done again: ") }

func (w *Window) step(do func() (string, bool), word string) {
	if w.cancelHand() {
		return // a gesture in progress is what undo means
	}
	name, ok := do()
	if !ok {
		return
	}
	w.refresh()
	w.sayOfNow(word + name + ".")
}

// askVariant makes a proposal from the variant shown.
func (w *Window) askVariant() {
	name := keyed.NewEntry(w.doc.Variant().Name + ", changed")
	w.dialogs.Form("New variant from "+w.doc.Variant().Name, "Add it", "Not now",
		[]*widget.FormItem{widget.NewFormItem("Name", name)}, 440, func() { w.addVariant(name.Text, nil) })
}

func (w *Window) addVariant(name string, change func(*job.Variant)) {
	from := w.doc.Current()
	if err := w.doc.AddVariant(name, change); err != nil {
		w.showProblems("This variant cannot be added", err)
		return
	}
	w.doc.Compare(from)
	w.refresh()
}

// tryAdvice adds the advised spacer as a variant.
func (w *Window) tryAdvice() {
	raise, stack := w.advice.Raise, w.advice.Stack
	if raise == 0 {
		return
	}
	w.addVariant(w.doc.Variant().Name+", spacer", func(v *job.Variant) {
		c := v.Corner()
		c.TieRod.OuterEnd.Z += raise
		document.SetCorner(v, c)
		tune.Put(v, &stack)
	})
}

func (w *Window) showVariant(i int) {
	w.cancelHand()
	w.doc.Show(i)
	w.refresh()
}

func (w *Window) compareWith(i int) {
	w.doc.Compare(i)
	w.refresh()
}

func (w *Window) setUnit(u units.Unit) {
	w.unit = u
	w.prefs.setDisplayUnit(u)
	w.refresh()
}

func (w *Window) toggleOverlay(o scene.Overlays) {
	w.overlays ^= o
	w.prefs.setOverlays(w.overlays)
	if o == scene.Clearance {
		w.room.stand()
	}
	w.refresh()
	if o == scene.Clearance && w.room.isShown() {
		w.say(w.room.missing())
	}
}

func (w *Window) setOver(over frame.Over) {
	w.curves.Over = over
	w.chooseCurves()
}

func (w *Window) toggleCurve(c frame.Curve) {
	next := w.curves.Curves[:0:0]
	for _, words := range allCurves { // the order in which they are offered
		if w.curves.has(words.curve) != (words.curve == c) {
			next = append(next, words.curve)
		}
	}
	if len(next) == 0 {
		w.sayOfNow("One curve stays: choose another first.")
		return
	}
	w.curves.Curves = next
	w.chooseCurves()
}

// toggleChange shows how far the curves are from before, or both curves again.
func (w *Window) toggleChange() {
	if w.curves.Change = !w.curves.Change; w.curves.Change && !w.frame.HasBefore {
		w.say("Choose a variant to compare with: there is no change from before yet.")
	}
	w.chooseCurves()
}

func (w *Window) chooseCurves() {
	w.prefs.setCurves(w.answer.step, w.curves)
	w.refresh()
	w.body.Refresh() // the strips' width follows their number
}

func (w *Window) toggleCard() {
	w.foldCard = toggled(w.cardFolded(w.win.Canvas().Size().Width))
	w.body.Refresh()
	w.refresh()
}
