package window

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

func TestADragChangesReadingsInTheSameFrameAndUndoes(t *testing.T) {
	w := open(t, "gravel-estate")
	first, before := w.bytes(t), w.reading(t, kinematics.RideToe)
	from := w.grab(t, scene.OfPoint(kinematics.OuterEnd))
	w.pull(from, 0, -6)
	if got := w.reading(t, kinematics.RideToe); got <= before {
		t.Fatalf("ride toe %g before, %g while raising the outer end", before, got)
	}
	if w.doc.UndoName() != "" {
		t.Fatal("a gesture in progress is in the history")
	}
	w.letGo(from.AddXY(0, -6))
	if w.doc.UndoName() != "move outer tie-rod end" || !strings.Contains(w.win.Title(), "*") {
		t.Fatalf("undo %q, title %q", w.doc.UndoName(), w.win.Title())
	}
	w.undo()
	if w.bytes(t) != first || w.reading(t, kinematics.RideToe) != before || strings.Contains(w.win.Title(), "*") {
		t.Fatalf("undo does not give the first job back; title %q", w.win.Title())
	}
	w.redo()
	if w.bytes(t) == first {
		t.Fatal("redo did nothing")
	}
}

func TestEveryHandleIsAGestureOfItsOwn(t *testing.T) {
	w := open(t, "gravel-estate")
	out, _ := w.view.Shown()
	var handles []scene.Handle
	for _, s := range out.Spots {
		handles = append(handles, s.Handle)
	}
	if len(handles) != 14 {
		t.Fatalf("%d handles", len(handles))
	}
	for _, h := range handles {
		was := w.bytes(t)
		w.drag(t, h, 5, -4)
		name := w.doc.UndoName()
		if w.bytes(t) == was || name == "" {
			t.Errorf("handle %d: nothing changed", h)
			continue
		}
		w.undo()
		if w.bytes(t) != was {
			t.Errorf("%s: undo does not bring it back", name)
		}
	}
}

func TestEscAndUndoAbandonAGesture(t *testing.T) {
	w := open(t, "gravel-estate")
	first := w.bytes(t)
	for _, give := range []func(){func() { w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }, w.undo} {
		from := w.grab(t, scene.OfPoint(kinematics.UpperBall))
		w.pull(from, 9, 7)
		give()
		w.letGo(from.AddXY(9, 7))
		if w.bytes(t) != first || w.doc.UndoName() != "" || w.frame.Now.Study.Case != w.documentCase() {
			t.Fatalf("an abandoned gesture left something; undo %q", w.doc.UndoName())
		}
	}
}

func TestNudgesInARowAreOneUndo(t *testing.T) {
	w := open(t, "gravel-estate")
	z := w.doc.Variant().Point(kinematics.OuterEnd).Z
	w.view.Select(scene.OfPoint(kinematics.OuterEnd))
	for range 4 {
		w.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
	if got := w.doc.Variant().Point(kinematics.OuterEnd).Z; got != z+4 {
		t.Fatalf("outer end at %g after four presses from %g", got, z)
	}
	w.undo()
	if got := w.doc.Variant().Point(kinematics.OuterEnd).Z; got != z {
		t.Fatalf("outer end at %g after undo, was %g", got, z)
	}
}

func TestTheAdviceCuresTheDemo(t *testing.T) {
	w := open(t, "gravel-estate")
	if w.advice.Fault != frame.Slope || w.advice.Raise == 0 {
		t.Fatalf("advice %+v", w.advice)
	}
	change := w.frame.Diagnosis.Change
	shown := w.doc.Variant().Name
	w.tryAdvice()
	if len(w.doc.Job().Variants) != 4 || w.frame.Diagnosis.Change > change/4 {
		t.Fatalf("%d variants, toe change %g before and %g after", len(w.doc.Job().Variants), change, w.frame.Diagnosis.Change)
	}
	if v, ok := w.doc.Compared(); !ok || v.Name != shown {
		t.Error("the new variant is not compared with the one it came from")
	}
	if w.advice.Raise != 0 {
		t.Errorf("after the cure: %+v", w.advice)
	}
}

func TestTravelRackAndRollMoveEverything(t *testing.T) {
	w := open(t, "gravel-estate")
	w.setTravel(37)
	if w.frame.Now.Readings.Travel != 37 || w.strips.Value() != 37 {
		t.Errorf("readings at %g, strips at %g", w.frame.Now.Readings.Travel, w.strips.Value())
	}
	w.setTravel(1e6)
	if w.position.Travel != 90 {
		t.Errorf("travel went to %g beyond the span's 90", w.position.Travel)
	}
	w.rest()
	w.setRack(12)
	if w.frame.Now.Readings.Rack != 12 || w.rackBar.Value() != 12 {
		t.Errorf("readings at rack %g, bar at %g", w.frame.Now.Readings.Rack, w.rackBar.Value())
	}
	w.rest()
	w.setRoll(0.02)
	out, err := w.view.Shown()
	if err != nil || !out.Rolled || !w.frame.Now.HasRight {
		t.Errorf("roll: %v, both corners shown %v and read %v", err, out.Rolled, w.frame.Now.HasRight)
	}
	w.setTravel(21)
	if w.position.Roll != 0 || w.rollBar.Value() != 0 || w.frame.Now.Readings.Travel != 21 {
		t.Errorf("travel in roll: roll %g, bar %g, readings at %g", w.position.Roll, w.rollBar.Value(), w.frame.Now.Readings.Travel)
	}
	w.setRoll(-0.01)
	if w.position.Travel != 0 || w.strips.Value() != 0 {
		t.Errorf("roll after travel: travel %g, strips at %g", w.position.Travel, w.strips.Value())
	}
}

func TestPlayStaysInTheSpanAndStartsWhereTheWheelStands(t *testing.T) {
	w := open(t, "gravel-estate")
	for _, from := range []float64{0, 31, -44} {
		if got := w.playAt(0, from); math.Abs(got-from) > 1e-9 {
			t.Errorf("play from %g starts at %g", from, got)
		}
		lo, hi := 0.0, 0.0
		for f := 0.0; f <= 1; f += 1.0 / 512 {
			h := w.playAt(f, from)
			lo, hi = min(lo, h), max(hi, h)
		}
		if lo < -70 || hi > 90 || lo > -69.9 || hi < 89.9 {
			t.Errorf("play from %g runs from %g to %g", from, lo, hi)
		}
	}
}

func TestCurvesOverRackAndRollAndAsCSV(t *testing.T) {
	w := open(t, "gravel-estate")
	for _, over := range []frame.Over{frame.OverTravel, frame.OverRack, frame.OverRoll} {
		w.setOver(over)
		w.copyCurves()
		rows, err := csv.NewReader(strings.NewReader(w.app.Clipboard().Content())).ReadAll()
		if err != nil || len(rows) < 15 {
			t.Fatalf("over %d: %d rows, %v, %s", over, len(rows), err, w.status.Text)
		}
		column := func(name string) int { return slices.Index(rows[0], name) }
		at := column([]string{"travel_mm", "rack_mm", "roll_deg"}[over])
		for _, n := range []int{1, 9} {
			x, err := strconv.ParseFloat(rows[n][at], 64)
			if err != nil {
				t.Fatal(err)
			}
			toe, err := strconv.ParseFloat(rows[n][column("toe_deg")], 64)
			if err != nil {
				t.Fatalf("%v: %v", rows[0], err)
			}
			if want := w.toeAt(t, over, x); math.Abs(toe-want) > 1e-5 {
				t.Errorf("over %d at %g: toe %g, the mechanism says %g", over, x, toe, want)
			}
			if band, err := strconv.ParseFloat(rows[n][column("toe_deg_band_95")], 64); err != nil || !(band > 0) && x != 0 || rows[n][column("variant")] != w.doc.Variant().Name {
				t.Errorf("over %d: band %g of %q (%v)", over, band, rows[n][column("variant")], err)
			}
		}
	}
}

// toeAt is the toe, degrees, of a single solution.
func (w *Window) toeAt(t *testing.T, over frame.Over, at float64) float64 {
	t.Helper()
	m := &w.frame.Now.Study.Mechanism
	var r kinematics.Readings
	var err error
	switch over {
	case frame.OverRoll:
		var ax kinematics.RolledAxle
		ax, err = m.Roll(at*math.Pi/180, 0)
		r, _ = ax.Readings()
	case frame.OverRack:
		var p kinematics.Pose
		p, err = m.At(0, at)
		r = p.Readings()
	default:
		var p kinematics.Pose
		p, err = m.At(at, 0)
		r = p.Readings()
	}
	if err != nil {
		t.Fatal(err)
	}
	v, _ := r.Of(kinematics.Toe)
	return v * 180 / math.Pi
}

func TestChoicesAreRemembered(t *testing.T) {
	w := open(t, "gravel-estate")
	w.setUnit(units.Inch)
	w.toggleOverlay(scene.OtherSide)
	w.toggleCurve(frame.CurveOf(kinematics.ScrubRadius))
	w.setDark(true)
	again := New(w.app, w.doc)
	t.Cleanup(again.endKeeping)
	if again.unit != units.Inch || again.overlays != w.overlays || !again.dark || !again.curves.has(frame.CurveOf(kinematics.ScrubRadius)) {
		t.Errorf("remembered: unit %v, overlays %b, dark %v, curves %v", again.unit, again.overlays, again.dark, again.curves)
	}
}

func TestSaveWritesWhatIsShown(t *testing.T) {
	w := open(t, "gravel-estate")
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	path := filepath.Join(t.TempDir(), "kept.armscribe.yaml")
	w.saveTo(path, nil)
	j, err := job.Load(path)
	if err != nil || !j.Equal(w.doc.Job()) {
		t.Fatalf("the file does not hold what is shown: %v", err)
	}
	if strings.Contains(w.win.Title(), "*") || !strings.Contains(w.win.Title(), "kept.armscribe.yaml") {
		t.Errorf("title %q", w.win.Title())
	}
}

func TestAFailedSaveStaysChanged(t *testing.T) {
	w := open(t, "gravel-estate")
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	dir := t.TempDir()
	saved := false
	w.saveTo(filepath.Join(dir, "no-such-folder", "x.armscribe.yaml"), func() { saved = true })
	if saved || !w.doc.Changed() || !strings.Contains(w.win.Title(), "*") {
		t.Errorf("after a failed save: went on %v, changed %v, title %q", saved, w.doc.Changed(), w.win.Title())
	}
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("nothing tells the person that the save failed")
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestUnsavedChangesAreAskedAbout(t *testing.T) {
	w := open(t, "gravel-estate")
	went := false
	w.keepOrLose("close", func() { went = true })
	if !went {
		t.Fatal("asked although nothing had changed")
	}
	w.drag(t, scene.OfPoint(kinematics.RackEnd), 3, 5)
	went = false
	w.keepOrLose("close", func() { went = true })
	if went || w.win.Canvas().Overlays().Top() == nil {
		t.Fatal("went on without asking")
	}
}

func TestTheTeachingAndTheRearJobOpen(t *testing.T) {
	for _, name := range []string{"flat-teaching", "rear-toe-link"} {
		w := open(t, name)
		w.reading(t, kinematics.Camber)
		if name == "rear-toe-link" && (w.unit != units.Inch || w.rackBar.Visible()) {
			t.Errorf("%s: unit %v, rack bar shown %v", name, w.unit, w.rackBar.Visible())
		}
	}
}

// While a dialog asks, the keys of the menus do nothing behind it; an answer
// follows undo as ever.
func TestMenusWaitForAnAnswer(t *testing.T) {
	w := open(t, "gravel-estate")
	key := func(s fyne.Shortcut) {
		t.Helper()
		for _, m := range w.win.MainMenu().Items {
			for _, i := range m.Items {
				if i.Shortcut != nil && i.Shortcut.ShortcutName() == s.ShortcutName() {
					i.Action()
					return
				}
			}
		}
		t.Fatalf("no menu has %s", s.ShortcutName())
	}
	edit := func() { w.drag(t, scene.OfPoint(kinematics.RackEnd), 5, 7) }
	edit()
	changed := w.doc.Job().Clone()
	w.close()
	if !w.asks() {
		t.Fatal("nothing is asked before changes are lost")
	}
	shown := w.overlays
	for _, s := range []fyne.Shortcut{&fyne.ShortcutUndo{}, ctrl(fyne.KeyG), ctrlShift(fyne.KeyE), ctrl(fyne.KeyN)} {
		key(s)
	}
	if !w.doc.Job().Equal(changed) || w.overlays != shown || w.answer.step != atAGlance || len(w.win.Canvas().Overlays().List()) != 1 {
		t.Errorf("behind the question: undo name %q, overlays %b, step %v, %d dialogs", w.doc.UndoName(), w.overlays, w.answer.step, len(w.win.Canvas().Overlays().List()))
	}
	w.win.Canvas().Overlays().Top().Hide()
	key(&fyne.ShortcutUndo{})
	if w.doc.Job().Equal(changed) {
		t.Error("answered, and yet undo does nothing")
	}
	edit()
	w.choose(fit)
	key(&fyne.ShortcutUndo{})
	if w.doc.UndoName() != "" {
		t.Errorf("beside an answer, undo leaves %q", w.doc.UndoName())
	}
}
