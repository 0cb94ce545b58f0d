package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"armscribe/app/pages"
	"armscribe/app/pages/pagetest"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// pressed does what a shortcut of the menus does.
func (w *Window) pressed(t *testing.T, menu, name string) {
	t.Helper()
	for _, m := range w.win.MainMenu().Items {
		for _, i := range m.Items {
			if m.Label == menu && i.Label == name {
				i.Action()
				return
			}
		}
	}
	t.Fatalf("no %q in the menu %s", name, menu)
}

// While an answer is open the hand goes on in the view, the menus go on too, and the
// answer follows when the hand lets go.
func TestTheHandGoesOnBesideEveryAnswer(t *testing.T) {
	w := open(t, "gravel-estate")
	for s := range stepCount {
		w.choose(s)
		for _, section := range w.sectionNames() {
			w.open(s, section)
			was, first := w.bytes(t), w.book().Of()
			of := first
			w.answer.following = following{}
			from := w.grab(t, scene.OfPoint(kinematics.OuterEnd))
			w.pull(from, 3, -5)
			of = w.book().Of()
			switch {
			case section == "Readings" || section == pointsSection || section == springSection || paces[section] == apart:
				if of != first {
					t.Errorf("%s, %s: beside a hand it is %q", s, section, of)
				}
			case paces[section] == follow:
				if !strings.HasSuffix(of, "in the hand") {
					t.Errorf("%s, %s does not follow the hand: %q", s, section, of)
				}
			case of != "≈ before this move":
				t.Errorf("%s, %s: beside a hand it is %q", s, section, of)
			case paces[section] == rests:
				if waiting(); !strings.HasSuffix(w.book().Of(), "in the hand") {
					t.Errorf("%s, %s does not follow when the hand rests: %q", s, section, w.book().Of())
				}
			}
			w.letGo(from.AddXY(3, -5))
			if w.bytes(t) == was || w.doc.UndoName() != "move outer tie-rod end" || w.book().Of() != first || !w.isOpen(s, section) {
				t.Errorf("%s, %s: after a drag undo is %q, the answer %q", s, section, w.doc.UndoName(), w.book().Of())
			}
			w.undo()
			if w.bytes(t) != was {
				t.Errorf("%s, %s: undo does not take it back", s, section)
			}
		}
	}
	w.setTravel(23)
	shown := w.overlays
	w.pressed(t, "View", "Back to rest")
	w.pressed(t, "View", "Clearance: swept tyre and obstacles")
	if w.overlays == shown || w.position.Travel != 0 {
		t.Error("beside an answer the menus do nothing")
	}
}

// sectionNames are those of the step that is chosen.
func (w *Window) sectionNames() (list []string) {
	for _, s := range w.book().Sections() {
		list = append(list, s.Name())
	}
	return list
}

// Every step has strips and answers of its own, and the view keeps its width.
func TestAStepChangesStripsAndAnswerAlone(t *testing.T) {
	w := open(t, "gravel-estate")
	for _, size := range []fyne.Size{fyne.NewSize(800, 600), fyne.NewSize(1024, 700), fyne.NewSize(1280, 800), fyne.NewSize(2560, 1440)} {
		w.win.Resize(size)
		view := w.view.Size()
		if min(view.Width, view.Height) < 270 {
			t.Errorf("at %v the view is %v", size, view)
		}
		for s := range stepCount {
			w.choose(s)
			for i, section := range w.sectionNames() {
				if i > 0 && size.Width != 1280 {
					break // the others at one size
				}
				w.open(s, section)
				if w.view.Size() != view {
					t.Errorf("at %v, %s, %s: the view is %v, was %v", size, s, section, w.view.Size(), view)
				}
				const least = 240
				a := w.answer.shown
				if right := w.app.Driver().AbsolutePositionForObject(a).X + a.Size().Width; right > size.Width || a.Size().Width < least {
					t.Errorf("at %v, %s, %s: the answer is %v and ends at %g", size, s, section, a.Size(), right)
				}
			}
		}
	}
}

// The edge between strips and answer is moved by drag and by keys, and remembered.
func TestTheAnswersWidthIsTheirs(t *testing.T) {
	w := open(t, "gravel-estate")
	w.win.Resize(fyne.NewSize(1400, 900))
	edge := w.body.Objects[6].(*splitter)
	was := w.answer.shown.Size().Width
	edge.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(-40, 0)})
	if got := w.answer.shown.Size().Width; got != was+40 {
		t.Errorf("dragged 40 points, the answer is %g wide, was %g", got, was)
	}
	edge.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := w.answer.shown.Size().Width; got != was+40-splitStep {
		t.Errorf("a key makes it %g", got)
	}
	for range 60 {
		edge.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	}
	if got := w.view.Size().Width; got < minView {
		t.Errorf("the view is left with %g", got)
	}
	edge.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) // answers at once, however often the other was pressed
	if got := w.view.Size().Width; got < minView+splitStep/2 {
		t.Errorf("back by one key the view has %g", got)
	}
	edge.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	if got := w.answer.shown.Size().Width; got != was {
		t.Errorf("its own width is %g, was %g", got, was)
	}
}

// What an answer would keep is seen in the view, the curves and the readings before it
// is kept, and goes with the answer.
func TestAProposalIsSeenBeforeItIsKept(t *testing.T) {
	w := open(t, "gravel-estate")
	before := w.frame.Before.Study.Case.Corner
	w.choose(arms)
	arms := w.book().Section().(pages.Proposer)
	pagetest.All[*pages.Field](w.book().Section().Object())[0].SetText("17")
	v := arms.Proposal()
	if v == nil || w.frame.Before.Study.Case.Corner != v.Corner() || w.view.Input().BeforeName != v.Name || v.Corner() == w.doc.Variant().Corner() {
		t.Fatalf("proposed %+v; in the view %q", v, w.view.Input().BeforeName)
	}
	if !w.panelInput().Proposed {
		t.Error("the readings do not know that it is a proposal")
	}
	from := w.grab(t, scene.OfPoint(kinematics.OuterEnd))
	w.pull(from, 2, -3)
	if w.frame.Before.Study.Case.Corner != before {
		t.Error("in a hand the corner is compared with what belonged to another")
	}
	w.letGo(from.AddXY(2, -3))
	if now := arms.Proposal(); now == nil || now.Corner() == v.Corner() || w.frame.Before.Study.Case.Corner != now.Corner() {
		t.Error("after the hand let go the proposal is not that of the new corner")
	}
	w.choose(ride)
	if w.frame.Before.Study.Case.Corner != before || w.view.Input().BeforeName != "" {
		t.Error("the proposal stays when its answer is left")
	}
}

// An answer that follows says of the corner in the hand what it says of one that was let
// go, and Esc gives the answer back that was there.
func TestTheDiagnosisFollowsTheHand(t *testing.T) {
	w := open(t, "gravel-estate")
	w.open(steering, diagnosisSection)
	table := func() string {
		text := ""
		for _, v := range test.LaidOutObjects(w.book().Object()) {
			if l, ok := v.(*fynecanvas.Text); ok {
				text += l.Text + " "
			}
		}
		return strings.Replace(text, ", in the hand", "", 1)
	}
	first := table()
	from := w.grab(t, scene.OfPoint(kinematics.OuterEnd))
	w.pull(from, 4, -9)
	held := table()
	w.view.Cancel()
	if again := table(); held == first || again != first {
		t.Errorf("in the hand %q, dropped %q, at first %q", held, again, first)
	}
	w.drag(t, scene.OfPoint(kinematics.OuterEnd), 4, -9)
	if kept := table(); kept != held {
		t.Errorf("in the hand %q, kept %q", held, kept)
	}
}
