package window

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/car"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/panels"
	"armscribe/app/targets"
	"armscribe/canvas"
)

// standing keeps how the corner in the view meets the targets.
type standing struct {
	memo  targets.Memo
	lines []panels.Target
}

// results sets the corner in the view, in the hand or not, against the targets
// of the job. They are about the car at rest, wherever it is shown.
func (w *Window) results() []targets.Result {
	j := w.doc.Job()
	return w.standing.memo.Results(car.Of(j, w.doc.Variant()).With(&w.frame.Now.Study.Case.Corner), &j.Targets)
}

// targetLines are the second lines of the readings.
func (w *Window) targetLines() []panels.Target {
	w.standing.lines = w.standing.lines[:0]
	if !w.doc.Job().Targets.Any() {
		return nil
	}
	list := w.results()
	for i := range list {
		r := &list[i]
		words := r.Words(w.unit)
		asked := r.Asked.Text(r.Kind, w.unit)
		short, _, _ := strings.Cut(asked, ",")
		verdict, _, _ := strings.Cut(words, ":")
		if r.Verdict == targets.Undecided {
			verdict = r.Verdict.String() // the heading says how well the points are known
		}
		w.standing.lines = append(w.standing.lines, panels.Target{
			Of: r.Kind.About().Of, Verdict: r.Verdict,
			Words:    r.Kind.About().Brief + " " + short + ": " + verdict,
			Sentence: r.Kind.About().Name + " is to be " + asked + "; it is " + r.ValueText(w.unit) + ": " + words + ".",
		})
	}
	return w.standing.lines
}

// newTargets makes the form of targets, which hold for every variant.
func (w *Window) newTargets() *panels.Targets {
	form := panels.NewTargets()
	form.OnEdit = func(name string, change func(*job.Job)) error {
		err := w.doc.EditJob(name, "", change)
		w.refresh()
		return err
	}
	return form
}

// fillTargets brings the form up to date.
func (w *Window) fillTargets() {
	in := panels.TargetsInput{Job: w.doc.Job(), Unit: w.unit}
	list := w.results()
	for i := range list {
		r := &list[i]
		in.Standing[r.Kind] = panels.Standing{Verdict: r.Verdict,
			Words: w.doc.Variant().Name + " has " + r.ValueText(w.unit) + ": " + r.Words(w.unit)}
	}
	w.answer.targets.SetInput(in)
}

// showTargets leads to the first target.
func (w *Window) showTargets() {
	w.focusIn(check, targetsSection, func() fyne.Focusable { return w.answer.targets.Field(targets.Track) })
}

// restMark is half the travel, mm, over which a target that holds at rest is
// marked on a curve: enough to be seen.
const restMark = 4.0

// stripTarget is the target that a curve over travel shows; nil for none. One
// that holds over travel goes before one that holds at rest.
func stripTarget(t *job.Targets, c frame.Curve, s *frame.Series, to *canvas.StripTarget) *canvas.StripTarget {
	q, ok := c.Quantity()
	if !ok || !t.Any() {
		return nil
	}
	shades := targets.Shades(t, q)
	if len(shades) == 0 {
		return nil
	}
	shade := shades[len(shades)-1]
	for _, x := range shades {
		if x.From != x.To {
			shade = x
		}
	}
	low, high := reachOf(s)
	beyond := high - low + 1 // an open side goes off the paper
	about := 0.0
	if shade.AboutRest {
		if about, ok = atRest(s); !ok {
			return nil
		}
	}
	*to = canvas.StripTarget{Low: low - beyond, High: high + beyond, From: shade.From, To: shade.To}
	if shade.Range.HasMin {
		to.Low = about + shade.Range.Min
		to.High = math.Max(to.High, to.Low+beyond)
	}
	if shade.Range.HasMax {
		to.High = about + shade.Range.Max
		if !shade.Range.HasMin {
			to.Low = math.Min(to.Low, to.High-beyond)
		}
	}
	if to.From == to.To {
		to.From, to.To = -restMark, restMark
	}
	return to
}

// reachOf returns the least and the most of a curve.
func reachOf(s *frame.Series) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i, v := range s.Value {
		if s.OK[i] {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		return 0, 0
	}
	return low, high
}

// atRest reads a curve at no travel, straight between its stations.
func atRest(s *frame.Series) (float64, bool) {
	for i := 1; i < len(s.At); i++ {
		if a, b := s.At[i-1], s.At[i]; a <= 0 && b >= 0 && b > a && s.OK[i-1] && s.OK[i] {
			f := -a / (b - a)
			return s.Value[i-1]*(1-f) + s.Value[i]*f, true
		}
	}
	return 0, false
}
