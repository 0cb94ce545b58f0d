package window

import (
	"fmt"

	"armscribe/app/job"
	"armscribe/app/panels"
)

// changePivots gives an arm two pivots for one, or one for two.
func (w *Window) changePivots(c panels.PivotChange) {
	was := w.doc.Variant().Assumed.Count()
	before := w.doc.Job()
	if err := w.edit(c.Edit, c.Change); err != nil {
		w.showProblems("These pivots cannot be changed", err)
		return
	}
	switch more := w.doc.Variant().Assumed.Count() - was; {
	case w.doc.Job() == before:
		w.say("Nothing is changed: " + job.ErrAcross.Error() + ".")
	case more > 0:
		w.say(fmt.Sprintf("Both on the axis as it was; %d of their coordinates are assumed until you type them.", more))
	default:
		w.say("One pivot, where the axis passes the ball joint.")
	}
}

// nextAssumed takes the keyboard to the next value of the measured variant that is
// assumed: each press one on, and round again.
func (w *Window) nextAssumed() {
	if w.doc.Current() != 0 {
		w.showVariant(0)
	}
	list := w.doc.Variant().Assumptions()
	if len(list) == 0 {
		return
	}
	at := 0
	for at < len(list) && list[at] < w.assumedNext {
		at++
	}
	at %= len(list)
	x := list[at]
	w.assumedNext = x + 1
	w.say(fmt.Sprintf("%d of %d: %s is %s. Type over it what you measure.", at+1, len(list), w.doc.Variant().KeyOf(x), x.AssumedWords(w.unit)))
	w.open(measure, pointsSection)
	field := w.points.ValueField(x)
	if field == nil {
		w.open(fit, wheelSection)
		field = w.wheel.ValueField(x)
	}
	if field != nil {
		w.win.Canvas().Focus(field)
	}
}
