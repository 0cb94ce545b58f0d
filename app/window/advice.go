package window

import (
	"reflect"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/canvas/grip"
)

// adviceLine is the program's one sentence: what is wrong with the toe curve,
// how sure that is, what would cure it, and a way to see why or to try it.
type adviceLine struct {
	widget.BaseWidget
	w         *Window
	text      *widget.Label
	why, try  *hintButton
	content   *fyne.Container
	lastShown frame.Advice
	lastAxle  job.Axle
}

func newAdviceLine(w *Window) *adviceLine {
	a := &adviceLine{w: w}
	a.text = widget.NewLabel("")
	a.text.Wrapping = fyne.TextWrapWord
	a.why = w.button("Show why", "What makes the toe change, and where to see it", w.showToe).quiet()
	a.try = w.button("Try it as a variant", "Add a variant with this spacer, beside the present one", w.tryAdvice).quiet()
	a.content = container.NewBorder(nil, container.NewHBox(a.why, a.try), nil, nil, container.NewVScroll(a.text))
	a.ExtendBaseWidget(a)
	return a
}

// CreateRenderer shows the content.
func (a *adviceLine) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(a.content) }

func (a *adviceLine) show() {
	if axle := a.w.doc.Job().Axle; !reflect.DeepEqual(a.w.advice, a.lastShown) || axle != a.lastAxle {
		a.lastShown, a.lastAxle = a.w.advice, axle
	} else {
		return
	}
	text := a.w.adviceText()
	a.text.SetText(a.w.inWords(text))
	enable(a.try, a.w.advice.Raise != 0)
	enable(a.why, text != "")
}

// inWords puts a text into the words of the job's axle.
func (w *Window) inWords(text string) string {
	if w.doc.Job().Axle == job.Rear {
		return grip.ForRear(text)
	}
	return text
}

// adviceText is the one sentence with its cure.
func (w *Window) adviceText() string { return strings.TrimSpace(w.advice.What + " " + w.advice.Cure) }

var whyText = map[frame.Fault]string{
	frame.NoFault: "As the wheel moves, the outer end of the tie rod wants to follow the path that keeps the wheel straight. " +
		"Here the rod's own arc about the rack end lies on that path, so the rod does not push the wheel out of line.",
	frame.Undecided: "The toe changes, but a measuring error of the size you stated could make just such a change. " +
		"Measure the points more closely, or hang a toe gauge on the wheel and move it through its travel.",
	frame.Slope: "Look at the loupe beside the outer end. The tie rod swings on an arc about the rack end. With the wheel held straight, " +
		"the outer end follows another path, which the loupe makes a straight line. Where the arc crosses it at a slant, the rod pushes one way in bump and the other way in droop: " +
		"the toe curve slopes. The slant goes away when the rod points at the arms' instant centre, that is when one of its ends is raised or lowered. " +
		"A spacer under the outer joint does it. A tall stack of spacers bends the stud or bolt: ask someone qualified.",
	frame.Bow: "Look at the loupe beside the outer end. The tie rod's arc and the path with the wheel held straight, which the loupe makes a straight line, run the same way but curve differently: " +
		"the arc bows away from the line, so the rod pushes the wheel the same way in bump and in droop: the toe curve bows. " +
		"The rod is too long or too short for these arms, which means that the rack end stands too far out or in.",
}
