package window

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/app/clearance"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// hand is what both views take from a mouse.
type hand interface {
	MouseMoved(*desktop.MouseEvent)
	MouseDown(*desktop.MouseEvent)
	MouseUp(*desktop.MouseEvent)
	Dragged(*fyne.DragEvent)
	DragEnd()
	View() draw.View
	Spot(scene.Handle) (draw.Point, bool)
}

// openRoom is a window with clearance on and its tab open.
func openRoom(t testing.TB, name string) *Window {
	t.Helper()
	w := open(t, name)
	w.room.plan.Modifiers = w.view.Modifiers
	w.toggleOverlay(scene.Clearance)
	w.open(check, clearanceSection)
	return w
}

// click clicks into a view at a place of its drawing.
func click(v hand, at draw.Point) {
	s := v.View().ToScreen(at)
	e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.Position(s)}, Button: desktop.MouseButtonPrimary}
	v.MouseMoved(e)
	v.MouseDown(e)
	v.MouseUp(e)
}

// take drags a handle of a view in two steps; stop looks while it is held.
func take(t *testing.T, v hand, h scene.Handle, dx, dy float32, stop func()) {
	t.Helper()
	spot, ok := v.Spot(h)
	if !ok {
		t.Fatalf("no handle %d", h)
	}
	from := fyne.Position(v.View().ToScreen(spot))
	v.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}})
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from}, Button: desktop.MouseButtonPrimary})
	for _, f := range []float32{0.5, 1} {
		v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(f*dx, f*dy)}, Dragged: fyne.NewDelta(dx/2, dy/2)})
	}
	stop()
	v.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(dx, dy)}, Button: desktop.MouseButtonPrimary})
	v.DragEnd()
}

// jumpTolerance, mm: the gap at the place jumped to is the answer itself but for
// rounding.
const jumpTolerance = 1e-9

func TestAJumpShowsTheVeryPlaceOfTheLeastGap(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	if err := w.editRoom("put a sill", func(j *job.Job) { // nearest on the way through, not at an end
		sill := &j.Obstacles[3]
		sill.At, sill.To = job.At(kinematics.Vec{X: -358, Y: 862, Z: 190}), job.At(kinematics.Vec{X: -358, Y: 862, Z: 415})
	}); err != nil {
		t.Fatal(err)
	}
	inRoll := 0
	for _, roll := range []float64{0, 0.0262, 0.0419} {
		w.room.panel.OnRoll(roll)
		for i := range w.doc.Job().Obstacles {
			w.room.jump(i)
			g := w.room.answers.Gaps[i]
			if w.room.answers.Fine&clearance.Gaps == 0 || g.Err != nil || w.frame.Now.Err != nil {
				t.Fatalf("%s: fine %b, %v, %v", g.Obstacle.Name, w.room.answers.Fine, g.Err, w.frame.Now.Err)
			}
			if !g.Moves() {
				if w.position != (frame.Position{}) {
					t.Errorf("%s goes with the wheel and is shown at %+v", g.Obstacle.Name, w.position)
				}
				continue
			}
			m := &w.frame.Now.Study.Mechanism
			there, err := swept.GapAt(m, w.room.query.Case, w.position.Travel, w.position.Rack)
			if err != nil || math.Abs(there[i]-g.Gap) > jumpTolerance || w.position.Roll != 0 {
				t.Errorf("%s: gap %g at the place jumped to (%v), the answer is %g", g.Obstacle.Name, there[i], err, g.Gap)
			}
			if r := w.frame.Now.Readings; r.Travel != g.Travel || r.Rack != g.Rack {
				t.Errorf("%s: readings at %g, %g, the gap at %g, %g", g.Obstacle.Name, r.Travel, r.Rack, g.Travel, g.Rack)
			}
			if out, err := w.view.Shown(); err != nil || out.Travel != g.Travel || out.Rack != g.Rack {
				t.Errorf("%s: the view stands at %g, %g (%v)", g.Obstacle.Name, out.Travel, out.Rack, err)
			}
			if g.Roll != 0 {
				inRoll++
				if !strings.Contains(w.status.Text, "heave") {
					t.Errorf("%s happens in roll: %q", g.Obstacle.Name, w.status.Text)
				}
			}
		}
	}
	if inRoll == 0 {
		t.Error("no gap was least in roll: that way is not tested")
	}
	w.room.panel.OnRest()
	if w.position != (frame.Position{}) {
		t.Errorf("rest is at %+v", w.position)
	}
}

func TestGapsFollowAHandCoarselyAndAreFineBehindIt(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	first, before := w.bytes(t), w.room.answers.Gaps[2].Gap
	from := w.grab(t, scene.UprightBody)
	w.pull(from, 9, 0)
	a := w.room.answers
	if a.Gaps[2].Gap >= before || a.Fine != 0 || w.room.desk.Waiting() || a.Swept[swept.PlanView] == nil {
		t.Fatalf("the wheel moves outboard: arch lip %g, before %g; fine %b", a.Gaps[2].Gap, before, a.Fine)
	}
	if in := w.view.Input(); in.Obstacles[2].Gap != a.Gaps[2].Gap || &in.Swept[0][0] != &a.Swept[0][0] {
		t.Fatal("the view shows other gaps")
	}
	if got := w.room.plan.Input(); got.Obstacles[2].Gap != a.Gaps[2].Gap {
		t.Fatal("the plan shows other gaps")
	}
	w.letGo(from.AddXY(9, 0))
	if a = w.room.answers; a.Fine != clearance.AllParts {
		t.Fatalf("after the hand let go, fine are %b", a.Fine)
	}
	r, err := report.ClearanceOf(w.doc.Job(), w.doc.Current(), 0)
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Gaps {
		if a.Gaps[i].Answer != r.Result.Answers[i] {
			t.Errorf("%s: the window has %+v, the report %+v", a.Gaps[i].Obstacle.Name, a.Gaps[i].Answer, r.Result.Answers[i])
		}
	}
	w.undo()
	if w.bytes(t) != first || w.room.answers.Gaps[2].Gap != before {
		t.Errorf("undo: arch lip %g, before %g", w.room.answers.Gaps[2].Gap, before)
	}
}

func TestAFineAnswerToAFormerCornerIsThrownAway(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	var late []func()
	w.room.desk.Run = func(work, then func()) { late = append(late, func() { work(); then() }) }
	w.drag(t, scene.UprightBody, 9, 0)
	if len(late) != 1 || w.room.answers.Fine != 0 {
		t.Fatalf("%d at work, fine %b", len(late), w.room.answers.Fine)
	}
	from := w.grab(t, scene.UprightBody)
	w.pull(from, -14, 0)
	moving := w.room.answers.Gaps[2].Gap
	late[0]() // for the corner of before, while the hand holds another
	if w.room.answers.Fine != 0 || w.room.answers.Gaps[2].Gap != moving || len(late) != 1 {
		t.Fatalf("a stale answer came through: fine %b, arch lip %g, in the hand %g", w.room.answers.Fine, w.room.answers.Gaps[2].Gap, moving)
	}
	w.letGo(from.AddXY(-14, 0))
	if len(late) != 2 {
		t.Fatalf("%d were asked for", len(late))
	}
	late[1]()
	if w.room.answers.Fine != clearance.AllParts {
		t.Errorf("fine %b", w.room.answers.Fine)
	}
}

func TestObstaclesAreDraggedInBothViews(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	first := w.bytes(t)
	const lip = 2
	was := w.doc.Job().Obstacles[lip]
	for _, c := range []struct {
		view   hand
		dy, dx bool // whether the drag changes y and x
	}{{w.view, true, false}, {w.room.plan, true, true}} {
		gap := w.room.answers.Gaps[lip].Gap
		h := scene.OfObstacle(lip, 0)
		take(t, c.view, h, 17, -9, func() {
			g := &w.room.answers.Gaps[lip]
			if g.Obstacle.A.Y <= was.At.Y.MM || g.Gap == gap || w.room.answers.Fine != 0 || w.doc.UndoName() != "" {
				t.Errorf("in the hand at %v, gap %g, before %g, fine %b, undo %q", g.Obstacle.A, g.Gap, gap, w.room.answers.Fine, w.doc.UndoName())
			}
		})
		now := w.doc.Job().Obstacles[lip]
		if (now.At.Y != was.At.Y) != c.dy || (now.At.X != was.At.X) != c.dx || now.Radius != was.Radius || now.Gap != was.Gap {
			t.Errorf("from %+v to %+v", was, now)
		}
		if w.doc.UndoName() != "move arch lip, first end" || w.room.answers.Fine != clearance.AllParts || w.room.panel.Selected() != lip {
			t.Errorf("undo %q, fine %b, selected %d", w.doc.UndoName(), w.room.answers.Fine, w.room.panel.Selected())
		}
		w.undo()
		if w.bytes(t) != first || w.room.answers.Gaps[lip].Gap != gap {
			t.Fatal("undo does not bring it back")
		}
	}
}

func TestEscAndUndoGiveAnObstacleBack(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	first, gap := w.bytes(t), w.room.answers.Gaps[0].Gap
	for _, give := range []func(){func() { w.room.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }, w.undo} {
		take(t, w.room.plan, scene.OfObstacle(3, 0), -21, 6, give)
		if w.bytes(t) != first || w.doc.UndoName() != "" || w.room.held != nil || w.room.answers.Gaps[0].Gap != gap {
			t.Fatalf("an abandoned gesture left something; undo %q", w.doc.UndoName())
		}
	}
}

// A drag in the plan is one in the view above it, with live gaps.
func TestAPointIsDraggedInThePlan(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	first, was, before := w.bytes(t), w.doc.Variant().Point(kinematics.OuterEnd), w.room.answers.Gaps[3].Gap
	take(t, w.room.plan, scene.OfPoint(kinematics.OuterEnd), 3, 11, func() {
		if g := w.room.answers.Gaps[3].Gap; g == before || w.room.answers.Fine != 0 || w.room.desk.Waiting() {
			t.Errorf("in the hand the sill is %g off, before %g; fine %b", g, before, w.room.answers.Fine)
		}
	})
	now := w.doc.Variant().Point(kinematics.OuterEnd)
	if now.X <= was.X || now.Z != was.Z || w.room.answers.Fine != clearance.AllParts || w.doc.UndoName() != "move outer tie-rod end" {
		t.Errorf("from %v to %v, fine %b, undo %q", was, now, w.room.answers.Fine, w.doc.UndoName())
	}
	w.undo()
	if w.bytes(t) != first {
		t.Error("undo does not bring it back")
	}
}

// What the upright carries is dragged where a variant has it, and kept as it was
// measured on the car.
func TestACaliperIsKeptAsMeasuredOnTheCar(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	const caliper = 5
	was := w.doc.Job().Obstacles[caliper].At.Vec()
	w.view.Modifiers = func() fyne.KeyModifier { return fyne.KeyModifierControl } // no snapping
	take(t, w.view, scene.OfObstacle(caliper, 0), 8, -13, func() {})
	now := w.doc.Job().Obstacles[caliper].At.Vec()
	zoom := w.view.View().Zoom
	if math.Abs(now.Y-was.Y-8/zoom) > 1 || math.Abs(now.Z-was.Z-13/zoom) > 1 || now.X != was.X {
		t.Errorf("from %v to %v by a drag of %g, %g mm", was, now, 8/zoom, 13/zoom)
	}
}

func TestObstaclesAreDrawn(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	w.setTravel(31)
	n := len(w.doc.Job().Obstacles)
	hub := w.doc.Variant().Hub.Vec()
	for _, c := range []struct {
		item   int
		clicks func()
		want   job.Obstacle
	}{
		{0, func() { click(w.view, draw.Point{X: 611, Y: 547}) },
			job.Obstacle{Shape: job.PointShape, At: job.At(kinematics.Vec{X: hub.X, Y: 611, Z: 547})}},
		{1, func() {
			click(w.view, draw.Point{X: 641, Y: 467})
			click(w.room.plan, draw.Point{X: 683, Y: 92})
		}, job.Obstacle{Shape: job.LineShape, At: job.At(kinematics.Vec{X: hub.X, Y: 641, Z: 467}), To: job.At(kinematics.Vec{X: -92, Y: 683, Z: 467})}},
		{2, func() {
			click(w.view, draw.Point{X: 905, Y: 330})
			click(w.view, draw.Point{X: 905, Y: 688})
		}, job.Obstacle{Shape: job.ArcShape, At: job.At(kinematics.Vec{X: hub.X, Y: 905, Z: 330}), Facing: job.Direction{Y: 1}, Angles: job.Angles{To: 180}}},
		{3, func() {
			click(w.room.plan, draw.Point{X: 613, Y: 41})
			click(w.room.plan, draw.Point{X: 655, Y: 41})
		}, job.Obstacle{Shape: job.CircleShape, At: job.At(kinematics.Vec{X: -41, Y: 613, Z: hub.Z}), Facing: job.Direction{Z: 1}}},
	} {
		w.room.panel.DraftItems()[c.item].Action()
		if w.position != (frame.Position{}) || !w.view.Asking() || !w.room.plan.Asking() {
			t.Fatalf("drawing begins at %+v, asking %v and %v", w.position, w.view.Asking(), w.room.plan.Asking())
		}
		c.clicks()
		list := w.doc.Job().Obstacles
		if len(list) != n+1 || w.view.Asking() || w.room.plan.Asking() || w.room.panel.Selected() != n {
			t.Fatalf("item %d: %d obstacles, asking %v, selected %d", c.item, len(list), w.view.Asking(), w.room.panel.Selected())
		}
		got := list[n]
		pixel := 1.01/w.view.View().Zoom + 0.1
		for axis, d := range map[string][2]float64{
			"x": {got.At.X.MM, c.want.At.X.MM}, "y": {got.At.Y.MM, c.want.At.Y.MM}, "z": {got.At.Z.MM, c.want.At.Z.MM},
			"to x": {got.To.X.MM, c.want.To.X.MM}, "to y": {got.To.Y.MM, c.want.To.Y.MM}, "to z": {got.To.Z.MM, c.want.To.Z.MM},
		} {
			if math.Abs(d[0]-d[1]) > pixel {
				t.Errorf("item %d: %s %g, clicked %g", c.item, axis, d[0], d[1])
			}
		}
		if got.Shape != c.want.Shape || got.Facing != c.want.Facing || got.Angles != c.want.Angles || c.item == 3 && math.Abs(got.Radius.MM-42) > 2*pixel || c.item == 2 && math.Abs(got.Radius.MM-358) > 2*pixel {
			t.Errorf("item %d: %+v", c.item, got)
		}
		if !strings.HasPrefix(w.doc.UndoName(), "add obstacle") {
			t.Errorf("undo %q", w.doc.UndoName())
		}
		w.undo()
		if len(w.doc.Job().Obstacles) != n || w.room.panel.Selected() != -1 {
			t.Fatalf("undo leaves %d obstacles, selected %d", len(w.doc.Job().Obstacles), w.room.panel.Selected())
		}
	}
}

func TestEscLeavesADrawingInEitherView(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	first := w.bytes(t)
	for _, leave := range []interface{ TypedKey(*fyne.KeyEvent) }{w.view, w.room.plan} {
		w.room.panel.DraftItems()[1].Action()
		click(w.view, draw.Point{X: 641, Y: 467})
		leave.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if w.bytes(t) != first || w.view.Asking() || w.room.plan.Asking() {
			t.Fatalf("asking %v and %v, or something changed", w.view.Asking(), w.room.plan.Asking())
		}
	}
}

func TestATypedObstacleStandsBesideTheTyre(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	for _, item := range []int{6, 7, 8, 9} {
		n := len(w.doc.Job().Obstacles)
		w.room.panel.DraftItems()[item].Action()
		if got := w.room.answers.Gaps; len(got) != n+1 || got[n].Err != nil || got[n].Rest < 20 {
			t.Fatalf("item %d: %+v", item, got[n])
		}
		if w.win.Canvas().Focused() != w.room.panel.NameField() {
			t.Errorf("the keyboard is on %T", w.win.Canvas().Focused())
		}
	}
}

func TestTheWindowSaysWhatIsMissing(t *testing.T) {
	w := openRoom(t, "flat-teaching")
	if err := w.doc.EditJob("empty", "", func(j *job.Job) { j.Obstacles = nil }); err != nil {
		t.Fatal(err)
	}
	w.toggleOverlay(scene.Clearance)
	w.toggleOverlay(scene.Clearance)
	if !strings.Contains(w.status.Text, "Check, Clearance") {
		t.Errorf("without obstacles: %q", w.status.Text)
	}
	if in := w.view.Input(); in.Swept[swept.FrontView] == nil {
		t.Error("the swept tyre is not shown without obstacles")
	}
}

func TestThePlanStandsUnderTheFrontViewAndIsRemembered(t *testing.T) {
	w := open(t, "gravel-estate")
	if w.room.plan.Visible() || w.room.wanted() != 0 || w.room.answers != nil {
		t.Fatal("clearance is computed though nothing shows it")
	}
	whole := w.view.Size().Height
	w.toggleOverlay(scene.Clearance)
	front, plan := w.view, w.room.plan
	if !plan.Visible() || front.Size().Height+plan.Size().Height > whole || plan.Size().Width != front.Size().Width {
		t.Fatalf("front view %v, plan %v, in %g", front.Size(), plan.Size(), whole)
	}
	for range 2 {
		a, b := front.View(), plan.View()
		at := draw.Point{X: 631, Y: 0}
		if a.Zoom != b.Zoom || a.ToScreen(at).X != b.ToScreen(at).X {
			t.Fatalf("zoom %g over %g, y = 631 at %g over %g", a.Zoom, b.Zoom, a.ToScreen(at).X, b.ToScreen(at).X)
		}
		front.ZoomIn()
	}
	w.room.panel.OnRoll(0.035)
	again := New(w.app, w.doc)
	t.Cleanup(again.endKeeping)
	if !again.room.isShown() || !again.room.plan.Visible() || again.prefs.roomRoll() != 0.035 {
		t.Errorf("remembered: shown %v, roll %g", again.room.isShown(), again.prefs.roomRoll())
	}
}

// A spacer that would bring the outer end into the rim is not advised without a
// word on it.
func TestTheAdviceSaysWhatItsSpacerTouches(t *testing.T) {
	w := openRoom(t, "gravel-estate")
	i := w.doc.Current()
	raised := func(by float64) kinematics.Vec {
		end := w.doc.Variant().Point(kinematics.OuterEnd)
		return kinematics.Vec{X: end.X, Y: end.Y, Z: end.Z + by}
	}
	edit := func(change func(j *job.Job)) {
		t.Helper()
		if err := w.doc.EditJob("test", "", change); err != nil {
			t.Fatal(err)
		}
		w.refresh()
	}
	edit(func(j *job.Job) { j.Variants[i].SetPoint(kinematics.OuterEnd, raised(17)) }) // so that it is to be lowered
	if w.advice.Raise >= 0 || strings.Contains(w.advice.Cure, "With it") {
		t.Fatalf("%+v", w.advice)
	}
	stands := func(by float64) float64 { // from the end's middle to rim or tyre
		c := w.doc.Variant().Corner()
		c.TieRod.OuterEnd.Z += by
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		r, err := clearance.RimOf(w.doc.Job(), i, &m)
		if err != nil {
			t.Fatal(err)
		}
		return r.Joints[0].Answer.Gap + r.Joints[0].Obstacle.Thick
	}
	now, then := stands(0), stands(w.advice.Raise)
	if then > now-1 {
		t.Fatalf("lowered by %g, the end stands %g from the rim, now %g", w.advice.Raise, then, now)
	}
	edit(func(j *job.Job) { j.Housings.OuterEnd = job.Given(units.Length{MM: now + then}) })
	if !strings.Contains(w.advice.Cure, "With it: TOUCHES outer tie-rod end") {
		t.Errorf("%+v", w.advice)
	}
}
