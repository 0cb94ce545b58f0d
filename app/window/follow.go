package window

import (
	"time"

	"fyne.io/fyne/v2"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// pace is how an answer follows a hand that works in the view.
type pace uint8

const (
	waits  pace = iota // until the hand lets go: what is typed or found there belongs to the corner as it was
	rests              // when the hand rests: it takes more than a frame has
	follow             // as the hand moves
	apart              // nothing that a hand does in the view is in it, or it follows by itself
)

// paces are those of the sections that do not wait, by their names.
var paces = map[string]pace{
	diagnosisSection: follow, "Spacers": follow, "Rack moved": follow,
	"Arm lengths": follow, targetsSection: follow, "Effort": follow,
	"Wheel and tyre": rests, "Two ways": rests, "Lock and circle": rests, "Joint angles": rests, besideSection: rests,
	clearanceSection: apart, carSection: apart, photoSection: apart, notesSection: apart, papersSection: apart,
}

// Times between two pictures of an answer that follows, and that a hand rests before
// one that needs it does.
const (
	followEvery = 80 * time.Millisecond
	restsAfter  = 160 * time.Millisecond
)

// later runs something on the toolkit's goroutine after a time, unless it is stopped.
var later = func(d time.Duration, f func()) (stop func() bool) {
	return time.AfterFunc(d, func() { fyne.Do(f) }).Stop
}

// following is how far the open answer has come behind a hand.
type following struct {
	shown time.Time   // when it was last shown
	stop  func() bool // what is to come; nil for nothing
	late  bool        // it is of before the hand moved

	corner kinematics.Corner // that job is of
	job    *job.Job
}

// followHand lets the open answer follow a hand in the view as it can, and marks one
// that the hand has overtaken.
func (w *Window) followHand() {
	if !w.view.Busy() || w.answer.step == atAGlance {
		return
	}
	section := w.book().Section()
	corner := w.frame.Now.Study.Case.Corner
	switch section.Object() {
	case w.points:
		w.points.Follow(corner)
		return
	case w.spring:
		w.spring.Follow(corner)
		return
	}
	f, p := &w.answer.following, paces[section.Name()]
	if p == apart {
		return
	}
	if f.stop != nil {
		f.stop()
		f.stop = nil
	}
	since := time.Since(f.shown)
	switch {
	case p == follow && since >= followEvery:
		w.showInHand()
		return
	case p == follow:
		f.stop = later(followEvery-since, w.showInHand)
	case p == rests:
		f.stop = later(restsAfter, w.showInHand)
	}
	if !f.late && p != follow {
		f.late = true
		w.book().SetOf("≈ before this move")
	}
}

// showInHand shows the open answer of the corner in the hand.
func (w *Window) showInHand() {
	if !w.view.Busy() {
		return // it has been shown of what the hand left
	}
	f := &w.answer.following
	f.late = false
	w.book().SetOf("of " + w.doc.Variant().Name + ", in the hand")
	w.book().Show()
	f.shown = time.Now()
}

// jobInView is the document's job, with the corner in the hand if there is one.
func (w *Window) jobInView() *job.Job {
	if !w.view.Busy() {
		w.answer.job = nil
		return w.doc.Job()
	}
	f, c := &w.answer.following, w.frame.Now.Study.Case.Corner
	if f.job == nil || f.corner != c {
		next := *w.doc.Job()
		next.Variants = append([]job.Variant(nil), next.Variants...)
		document.SetCorner(&next.Variants[w.doc.Current()], c)
		f.job, f.corner = &next, c
	}
	return f.job
}
