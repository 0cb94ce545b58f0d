package window

import (
	"path/filepath"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/panels"
)

// lineOf returns the line of the card whose text begins so.
func (w *Window) lineOf(t *testing.T, step, text string) panels.CardLine {
	t.Helper()
	for _, s := range w.card.Steps() {
		if s.Name != step {
			continue
		}
		for _, l := range s.Lines {
			if strings.HasPrefix(l.Text, text) {
				return l
			}
		}
		t.Fatalf("step %s has %+v, wanted %q", step, s.Lines, text)
	}
	t.Fatalf("no step %s", step)
	return panels.CardLine{}
}

func (w *Window) markOf(t *testing.T, step string) panels.CardMark {
	t.Helper()
	for _, s := range w.card.Steps() {
		if s.Name == step {
			return s.Mark
		}
	}
	t.Fatalf("no step %s", step)
	return 0
}

func TestTheCardComesFirstAndLeadsToItsPlaces(t *testing.T) {
	w := openWith(t, "gravel-estate", noTargets)
	if w.answer.step != atAGlance {
		t.Fatalf("step %s", w.answer.step)
	}
	w.lineOf(t, "Arms", "No target").Go()
	if !w.isOpen(check, targetsSection) {
		t.Fatal("the arms do not lead to the targets")
	}
	w.lineOf(t, "Steering", "The toe curve slopes").Go()
	if !w.isOpen(steering, diagnosisSection) {
		t.Error("the steering does not lead to the reason")
	}
	w.lineOf(t, "Measure", "").Go()
	if !w.isOpen(measure, pointsSection) || w.win.Canvas().Focused() == nil {
		t.Errorf("measuring leads to %s, focus %v", w.answer.step, w.win.Canvas().Focused())
	}
}

func TestAStepTurnsMetAsItsTargetIs(t *testing.T) {
	w := openWith(t, "gravel-estate", noTargets)
	if w.markOf(t, "Fit") != panels.CardOpen {
		t.Fatalf("without targets the fit is %d", w.markOf(t, "Fit"))
	}
	w.aim(t, func(a *job.Targets) { a.Track = job.LengthRange{Min: length(1000), Max: length(1100)} })
	if w.markOf(t, "Fit") != panels.CardMissed || !strings.Contains(w.lineOf(t, "Fit", "Track").Text, "target 1") {
		t.Errorf("a track far off: mark %d", w.markOf(t, "Fit"))
	}
	w.aim(t, func(a *job.Targets) { a.Track = job.LengthRange{Min: length(1000), Max: length(2900)} })
	if w.markOf(t, "Fit") != panels.CardMet {
		t.Errorf("a track within a wide range: mark %d", w.markOf(t, "Fit"))
	}
	w.undo()
	if w.markOf(t, "Fit") != panels.CardMissed {
		t.Error("undo does not turn the card back")
	}
}

func TestTheCardKnowsOfTheFileAndTheNotes(t *testing.T) {
	w := open(t, "gravel-estate")
	w.lineOf(t, "Hand over", "File not saved yet")
	w.saveTo(filepath.Join(t.TempDir(), "kept.armscribe.yaml"), nil)
	for _, s := range w.card.Steps() {
		for _, l := range s.Lines {
			if s.Name == "Hand over" && s.Mark != panels.CardMet && l.Text == "File not saved yet" {
				t.Error("the file is saved, and yet asked for")
			}
		}
	}
}
