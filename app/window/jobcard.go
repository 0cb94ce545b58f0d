package window

import (
	"strings"

	"armscribe/app/frame"
	"armscribe/app/jobcard"
	"armscribe/app/panels"
	"armscribe/app/targets"
	"armscribe/kinematics"
)

// cardPlaces are the places that this window has.
var cardPlaces = jobcard.PlacesOf(jobcard.Points, jobcard.Wheel, jobcard.Travel, jobcard.Spring, jobcard.Variants, jobcard.Targets, jobcard.Toe, jobcard.Notes, jobcard.Save, jobcard.Room, jobcard.Offset, jobcard.Papers)

// showCard brings the job card up to date. It is about the variant shown.
func (w *Window) showCard() {
	card := jobcard.Card(jobcard.Input{
		Clear: w.room.judged(), Unit: w.unit,
		Job: w.doc.Job(), Variant: w.doc.Current(), Results: w.results(),
		Advice: w.advice, HasAdvice: w.frame.HasAdvice,
		Saved:  !w.doc.Changed() && w.doc.Path() != "",
		Drawn:  w.drawn == w.doc.Variant().Corner(),
		Places: cardPlaces,
	})
	steps := append(make([]panels.CardStep, 0, stepCount), panels.CardStep{Name: atAGlance.String(), Mark: panels.CardNone})
	for i := range card {
		e := &card[i]
		step := panels.CardStep{Name: e.Step.String(), Mark: markOfStatus[e.Status]}
		for _, l := range e.Lines {
			// A step that is done shows what it first asked for, another all that is left.
			if e.Status == jobcard.Met && len(step.Lines) > 0 || e.Status != jobcard.Met && l.Status == jobcard.Met {
				continue
			}
			step.Lines = append(step.Lines, w.cardLine(l))
		}
		steps = append(steps, step)
	}
	w.card.SetSteps(steps, int(w.answer.step))
}

var markOfStatus = map[jobcard.Status]panels.CardMark{
	jobcard.Open: panels.CardOpen, jobcard.Missed: panels.CardMissed,
	jobcard.Undecided: panels.CardUndecided, jobcard.Met: panels.CardMet,
}

func (w *Window) cardLine(l jobcard.Line) panels.CardLine {
	line := panels.CardLine{Text: l.What, Mark: markOfStatus[l.Status], Go: func() { w.goTo(l) }}
	line.Hint = l.What + "."
	if l.Need != "" {
		line.Hint = l.What + ": " + strings.TrimSuffix(l.Need, ".") + "."
	}
	switch {
	case l.Step:
	case l.HasTarget && l.Status == jobcard.Met:
		line.Text = l.Target.About().Name + " as aimed at"
	case l.HasTarget:
		line.Text = w.targetInShort(l.Target)
	case l.Place == jobcard.Toe:
		line.Text, _, _ = strings.Cut(l.What, ":")
	}
	return line
}

// targetInShort is a target as it fits a narrow column: 'scrub radius 35 of 25 to
// 45'.
func (w *Window) targetInShort(k targets.Kind) string {
	list := w.results()
	for i := range list {
		if r := &list[i]; r.Kind == k {
			asked, _, _ := strings.Cut(r.Asked.Text(k, w.unit), ",")
			return k.About().Name + " " + r.Stands(w.unit) + ", target " + asked
		}
	}
	return k.About().Name
}

// goTo leads to the place where a line of the card is done.
func (w *Window) goTo(l jobcard.Line) {
	switch l.Place {
	case jobcard.Points:
		if l.Assumed {
			w.nextAssumed()
		} else {
			w.typePoint(pointFor(l))
		}
	case jobcard.Wheel:
		w.focusIn(fit, wheelSection, w.wheel.RadiusField)
	case jobcard.Offset:
		w.focusIn(fit, wheelSection, w.wheel.OffsetField)
	case jobcard.Travel:
		w.focusIn(measure, carSection, w.car.FirstField)
	case jobcard.Spring:
		w.focusIn(ride, springSection, w.spring.SpringField)
	case jobcard.Variants:
		if len(w.doc.Job().Variants) == 1 {
			w.askVariant()
		} else {
			w.showCompare()
		}
	case jobcard.Targets:
		w.showTargets()
	case jobcard.Toe:
		w.showToe()
	case jobcard.Room:
		w.open(check, clearanceSection)
	case jobcard.Notes:
		w.showNotes(w.doc.Current())
	case jobcard.Save:
		w.save(nil)
	case jobcard.Papers:
		w.open(handOver, papersSection)
	}
}

// typePoint takes the keyboard to the fields of a point.
func (w *Window) typePoint(at kinematics.Point) {
	w.open(measure, pointsSection)
	if f := w.points.Field(at); f != nil {
		w.win.Canvas().Focus(f)
	}
}

// pointFor is the point to begin with for a line that leads to the points.
func pointFor(l jobcard.Line) kinematics.Point {
	if l.HasTarget && (l.Target == targets.RollCentreHeight || l.Target == targets.RollCentreMovement) {
		return kinematics.LowerFront
	}
	return kinematics.UpperFront
}

// showToe leads to the toe curve over travel, and why it is as it is.
func (w *Window) showToe() {
	w.choose(steering)
	toe := frame.CurveOf(kinematics.Toe)
	if w.curves.Over != frame.OverTravel {
		w.setOver(frame.OverTravel)
	}
	if !w.curves.has(toe) {
		w.toggleCurve(toe)
	}
	w.book().Open(diagnosisSection)
}

// newCard makes the job card.
func (w *Window) newCard() *panels.Card {
	c := panels.NewCard()
	c.OnStep = func(i int) { w.choose(step(i)) }
	c.OnHint = w.hintOver()
	return c
}

// hintOver shows hints in the status line, and what stood there before when
// there is none.
func (w *Window) hintOver() func(text string) {
	under := ""
	return func(text string) {
		switch {
		case text != "":
			under = w.status.Text
			w.say(text)
		case under != "":
			w.say(under)
			under = ""
		}
	}
}
