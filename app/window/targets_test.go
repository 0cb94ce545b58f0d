package window

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// typeInto types over what the field with the keyboard holds, and presses Enter.
func (w *Window) typeInto(t *testing.T, text string) {
	t.Helper()
	f := w.win.Canvas().Focused()
	if f == nil {
		t.Fatal("no field has the keyboard")
	}
	f.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	test.Type(f, text)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// showTarget takes the keyboard to a target.
func (w *Window) showTarget(k targets.Kind) {
	w.focusIn(check, targetsSection, func() fyne.Focusable { return w.answer.targets.Field(k) })
}

func (w *Window) tab() { w.win.Canvas().FocusNext() }

func (w *Window) aim(t *testing.T, change func(*job.Targets)) {
	t.Helper()
	if err := w.doc.EditJob("set targets", "", func(j *job.Job) { change(&j.Targets) }); err != nil {
		t.Fatal(err)
	}
	w.refresh()
}

func length(mm float64) job.Optional { return job.Given(units.Length{MM: mm}) }

func TestTargetsAreTypedUndoneAndMet(t *testing.T) {
	w := openWith(t, "gravel-estate", noTargets)
	first := w.bytes(t)
	w.showTarget(targets.ScrubRadius)
	w.typeInto(t, "1/4 in")
	if got := w.doc.Job().Targets.ScrubRadius; got.Min.MM != 6.35 || got.Max.Given || w.doc.UndoName() != "type target scrub radius, least" {
		t.Fatalf("typed: %+v, undo %q", got, w.doc.UndoName())
	}
	w.tab()
	w.typeInto(t, "5 mm") // below the least: refused at the field
	if w.doc.Job().Targets.ScrubRadius.Max.Given {
		t.Fatal("a most below the least was taken")
	}
	w.typeInto(t, "120")
	if got := w.doc.Job().Targets.ScrubRadius.Max; got.MM != 120 {
		t.Fatalf("most %+v", got)
	}
	if len(w.targetLines()) != 1 || w.targetLines()[0].Verdict != targets.Met || !strings.Contains(w.targetLines()[0].Words, "met") {
		t.Errorf("lines %+v", w.targetLines())
	}
	for range 2 {
		w.undo()
	}
	if w.bytes(t) != first || len(w.targetLines()) != 0 {
		t.Error("undo leaves a target")
	}
}

func TestRideToeComesWithItsTravel(t *testing.T) {
	w := openWith(t, "gravel-estate", noTargets)
	w.showTarget(targets.RideToe)
	w.typeInto(t, "0,1")
	if w.doc.Job().Targets.Any() {
		t.Fatal("a comma was read as something")
	}
	w.typeInto(t, "0.1")
	if got := w.doc.Job().Targets.RideToe; got.Max.Degrees != 0.1 || got.Over.Bump.MM != 40 || got.Over.Droop.MM != 40 {
		t.Fatalf("ride toe %+v", got)
	}
	w.tab()
	w.typeInto(t, "35")
	w.tab()
	w.typeInto(t, "")
	if got := w.doc.Job().Targets.RideToe.Over; got.Bump.MM != 35 || got.Droop.MM != 0 {
		t.Fatalf("over %+v", got)
	}
	w.typeInto(t, "30")
	w.showTarget(targets.RideToe)
	w.typeInto(t, "")
	if w.doc.Job().Targets.Any() {
		t.Errorf("an empty most leaves %+v", w.doc.Job().Targets)
	}
}

func TestALineFollowsTheHand(t *testing.T) {
	w := open(t, "gravel-estate")
	scrub := w.reading(t, kinematics.ScrubRadius)
	w.aim(t, func(a *job.Targets) { a.ScrubRadius = job.LengthRange{Max: length(scrub + 4)} })
	if v := w.targetLines()[0].Verdict; v == targets.Missed {
		t.Fatalf("at %g mm: %+v", scrub, w.targetLines()[0])
	}
	from := w.grab(t, scene.WheelOutline)
	w.pull(from, 40, 0)
	if got := w.reading(t, kinematics.ScrubRadius); got < scrub+10 {
		t.Fatalf("the hand made a scrub radius of %g mm from %g", got, scrub)
	}
	if v := w.targetLines()[0].Verdict; v != targets.Missed {
		t.Errorf("in the hand: %+v", w.targetLines()[0])
	}
	w.view.Cancel()
	w.letGo(from)
}

func TestCurvesShowTheRangeOverItsTravel(t *testing.T) {
	w := open(t, "gravel-estate")
	w.aim(t, func(a *job.Targets) {
		a.RideToe = job.AngleOver{Max: job.OptionalDegrees{Degrees: 0.12, Given: true}, Over: job.Travel{Bump: units.Length{MM: 33}, Droop: units.Length{MM: 21}}}
		a.Camber = job.AngleRange{Min: job.OptionalDegrees{Degrees: -2.25, Given: true}}
	})
	var toe, camber *canvas.StripTarget
	for _, s := range w.plots.specs {
		switch s.Title {
		case "toe":
			toe = s.Target
		case "camber":
			camber = s.Target
		}
	}
	const deg = math.Pi / 180
	const between = 1e-6 // rad: rest lies between two stations of the curve
	rest := float64(w.doc.Variant().Toe) * deg
	if toe == nil || toe.From != -21 || toe.To != 33 || math.Abs(toe.Low-(rest-0.12*deg)) > between || math.Abs(toe.High-(rest+0.12*deg)) > between {
		t.Errorf("toe %+v, at rest %g", toe, rest)
	}
	if camber == nil || camber.From >= 0 || camber.To <= 0 || math.Abs(camber.Low+2.25*deg) > 1e-12 || camber.High <= camber.Low {
		t.Errorf("camber %+v", camber)
	}
}

// BenchmarkDragFrameWithTargets is BenchmarkDragFrame for a job that asks for
// everything.
func BenchmarkDragFrameWithTargets(b *testing.B) {
	w := open(b, "gravel-estate")
	over := job.Travel{Bump: units.Length{MM: 40}, Droop: units.Length{MM: 40}}
	angle := job.OptionalDegrees{Degrees: 0.1, Given: true}
	if err := w.doc.EditJob("set targets", "", func(j *job.Job) {
		j.Targets = job.Targets{
			ScrubRadius: job.LengthRange{Min: length(5)}, RollCentreHeight: job.LengthRange{Min: length(20)},
			SwingArm: job.LengthRange{Min: length(1500)}, Track: job.LengthRange{Min: length(1500)},
			Camber: job.AngleRange{Max: angle}, Caster: job.AngleRange{Min: angle},
			RideToe: job.AngleOver{Max: angle, Over: over}, RollCentreMovement: job.LengthOver{Max: length(50), Over: over},
		}
	}); err != nil {
		b.Fatal(err)
	}
	w.refresh()
	w.setTravel(20)
	from := w.grab(b, scene.OfPoint(kinematics.OuterEnd))
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		i++
		w.pull(from, float32(i%7), float32(i%11)-5)
		w.view.Shown()
	}
}
