package canvas

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// An obstacle goes where the hand takes it, in either view and at any travel,
// told in the same frame, and is one deed.
func TestDragObstacles(t *testing.T) {
	for _, travel := range []float64{0, 41} {
		o := newRoomOwner(t, travel)
		for _, b := range []*board{&o.view.board, &o.plan.board} {
			for _, at := range []struct{ i, end int }{{0, 0}, {1, 0}, {1, 1}, {2, 0}, {2, 1}, {3, 0}} {
				h := scene.OfObstacle(at.i, at.end)
				from := spotOn(t, b, h)
				b.Select(h) // where handles lie on each other, the selected one is taken
				start, deeds := o.in.Obstacles[at.i].Obstacle, len(o.ended)
				seen, _ := b.Spot(h)
				held := b.View().ToWorld(draw.Screen(from)).Sub(seen)
				to := plus(from, 14, -11)
				o.mods = fyne.KeyModifierControl
				told := o.told
				grabOn(b, from, plus(from, 3, 3), plus(from, 30, 8), to)
				if !b.Busy() || o.told < told+3 {
					t.Fatalf("%s end %d: busy %v, told %d times", start.Name, at.end, b.Busy(), o.told-told)
				}
				now, _ := b.Spot(h)
				off := now.Sub(b.View().ToWorld(draw.Screen(to)).Sub(held))
				if at.end == 1 && start.Shape == clearance.Circle { // the rim goes along its radius only
					centre, _ := b.Spot(scene.OfObstacle(at.i, 0))
					way := now.Sub(centre).Mul(1 / start.Radius)
					off = draw.Point{X: off.X*way.X + off.Y*way.Y}
				}
				if off.Len() > 0.01 {
					t.Errorf("%s end %d, plan %v: %v off the hand", start.Name, at.end, b.plan, off)
				}
				letGoOn(b, to)
				o.mods = 0
				if len(o.ended) != deeds+1 {
					t.Fatalf("%s end %d: %d deeds", start.Name, at.end, len(o.ended)-deeds)
				}
				d := o.ended[deeds]
				if d.index != at.i || d.before != start || d.after != o.in.Obstacles[at.i].Obstacle || d.after == start || !strings.Contains(d.name, start.Name) {
					t.Errorf("%s end %d: deed %+v", start.Name, at.end, d)
				}
				if b.Selected() != h {
					t.Errorf("%s end %d: %v is selected", start.Name, at.end, b.Selected())
				}
			}
		}
		if o.changed > 0 || len(o.done) > 0 {
			t.Error("the corner moved with the obstacles")
		}
	}
}

// In the front view x stays, in the plan z.
func TestEachViewMovesWhatItShows(t *testing.T) {
	o := newRoomOwner(t, 0)
	h := scene.OfObstacle(0, 0)
	was := o.in.Obstacles[0].A
	from := spotOn(t, &o.view.board, h)
	grabOn(&o.view.board, from, plus(from, 20, 15))
	letGoOn(&o.view.board, plus(from, 20, 15))
	now := o.in.Obstacles[0].A
	if now.X != was.X || now.Y <= was.Y || now.Z >= was.Z {
		t.Errorf("right and down in the front view: %v became %v", was, now)
	}
	was = now
	from = spotOn(t, &o.plan.board, h)
	grabOn(&o.plan.board, from, plus(from, -18, 22))
	letGoOn(&o.plan.board, plus(from, -18, 22))
	if now = o.in.Obstacles[0].A; now.Z != was.Z || now.Y >= was.Y || now.X <= was.X {
		t.Errorf("left and down in the plan, toward the nose: %v became %v", was, now)
	}
}

func TestEscGivesBackTheObstacle(t *testing.T) {
	o := newRoomOwner(t, 23)
	for k, b := range []*board{&o.view.board, &o.plan.board} {
		h := scene.OfObstacle(3, 0)
		was := o.in.Obstacles[3].Obstacle
		from := spotOn(t, b, h)
		grabOn(b, from, plus(from, 25, 9))
		if o.in.Obstacles[3].Obstacle == was || !strings.HasPrefix(o.status, "Moving hose on the rack. ") {
			t.Fatalf("not dragging: %q", o.status)
		}
		pressOn(b, fyne.KeyEscape)
		if o.in.Obstacles[3].Obstacle != was || len(o.back) != k+1 || b.Busy() {
			t.Errorf("given back %d times: %v", len(o.back), o.in.Obstacles[3].A)
		}
		letGoOn(b, plus(from, 60, 9))
	}
	if len(o.ended) > 0 {
		t.Errorf("deeds %v", o.ended)
	}
}

func TestTheKeyboardMovesObstacles(t *testing.T) {
	o := newRoomOwner(t, 0)
	b := &o.plan.board
	b.FocusGained()
	out, _ := b.Shown()
	var walked []scene.Handle
	for walked = append(walked, b.Selected()); b.AcceptsTab(); walked = append(walked, b.Selected()) {
		pressOn(b, fyne.KeyTab)
	}
	if len(walked) != len(out.Spots) || walked[len(walked)-1] != scene.OfObstacle(3, 0) {
		t.Errorf("Tab walked %v of %d", walked, len(out.Spots))
	}
	b.Select(scene.OfObstacle(1, 1))
	pressOn(b, fyne.KeyRight)
	o.mods = fyne.KeyModifierShift
	pressOn(b, fyne.KeyDown)
	o.mods = 0
	if p := o.in.Obstacles[1].B; p != (kinematics.Vec{X: 201, Y: 413, Z: 329}) {
		t.Errorf("1 outboard and 10 ahead: %v", p)
	}
	if len(o.ended) != 2 || o.ended[0].name != "nudge chassis rail, second end" {
		t.Errorf("deeds %v", o.ended)
	}
	pressOn(b, fyne.KeyReturn)
	if o.typed != scene.OfObstacle(1, 1) {
		t.Errorf("Enter asks for %v", o.typed)
	}
	pressOn(b, fyne.KeyM)
	to := plus(spotOn(t, b, scene.OfObstacle(1, 1)), 31, -17)
	b.MouseMoved(mouse(to, 0))
	b.MouseDown(mouse(to, desktop.MouseButtonPrimary))
	b.MouseUp(mouse(to, desktop.MouseButtonPrimary))
	if len(o.ended) != 3 || b.Placing() {
		t.Fatalf("%d deeds after placing", len(o.ended))
	}
	p, _ := b.Spot(scene.OfObstacle(1, 1))
	if off := p.Sub(b.View().ToWorld(draw.Screen(to))); off.Len() > 1.5 { // the grid is 1 mm
		t.Errorf("placed %v off the click", off)
	}
	b.SetLocked("Stop the play to move it.")
	was := o.in.Obstacles[1].Obstacle
	pressOn(b, fyne.KeyRight)
	if o.in.Obstacles[1].Obstacle != was || o.message != "Stop the play to move it." {
		t.Errorf("locked, and moved; says %q", o.message)
	}
}

// Targets are 24 points across at any zoom; pointing names the obstacle and
// shows its numbers.
func TestPointingAtObstacles(t *testing.T) {
	o := newRoomOwner(t, 0)
	for _, zoom := range []float64{0.3, 2.5} {
		for _, b := range []*board{&o.view.board, &o.plan.board} {
			b.SetView(b.View().ZoomAbout(b.View().Centre, zoom/b.View().Zoom))
			h := scene.OfObstacle(0, 0)
			p, _ := b.Spot(h)
			s := b.View()
			s.Centre = p
			b.SetView(s)
			at := spotOn(t, b, h)
			for _, d := range [][2]float32{{11, 0}, {-11, 0}, {0, 11}, {0, -11}} {
				b.MouseMoved(mouse(plus(at, d[0], d[1]), 0))
				if note := strings.Join(b.note, "|"); b.hover != h || note != "Inner wing|x −118 mm  y 521 mm  z 656 mm" {
					t.Errorf("plan %v, zoom %v, %v off: points at %v, %q", b.plan, zoom, d, b.hover, note)
				}
			}
			b.MouseMoved(mouse(plus(at, 14, 0), 0))
			if b.hover == h {
				t.Errorf("plan %v: still pointed at 14 points off", b.plan)
			}
		}
	}
}

// The words of a rear axle do not reach into a name that the person gave.
func TestObstacleNamesStayAsTheyAre(t *testing.T) {
	o := newRoomOwner(t, 0)
	o.in.Rear = true
	o.in.Obstacles[3].Name = "rack end stop"
	o.show()
	o.view.Select(scene.OfObstacle(3, 0))
	if !strings.HasPrefix(o.status, "Rack end stop: ") || o.view.note[0] != "Rack end stop" {
		t.Errorf("status %q, note %q", o.status, o.view.note)
	}
}

// Obstacles taken away in the middle of everything leave nothing behind.
func TestObstaclesTakenAway(t *testing.T) {
	o := newRoomOwner(t, 0)
	h := scene.OfObstacle(3, 0)
	from := spotOn(t, &o.view.board, h)
	grabOn(&o.view.board, from, plus(from, 9, 9))
	o.in.Obstacles = o.in.Obstacles[:1]
	o.show()
	o.view.paint(450, 280)
	if o.view.Selected() != scene.NoHandle {
		t.Errorf("%v is still selected", o.view.Selected())
	}
	o.view.Cancel()
	o.view.Select(scene.OfObstacle(2, 1))
	if o.view.Selected() != scene.NoHandle {
		t.Error("an obstacle that is not there can be selected")
	}
}

// Both views ask for places, each in its own two coordinates.
func TestAskInEitherView(t *testing.T) {
	o := newRoomOwner(t, 0)
	for _, b := range []*board{&o.view.board, &o.plan.board} {
		var got draw.Point
		left := false
		b.Ask(&Pick{Text: "Click the edge of the wing", Picked: func(p draw.Point) { got = p }, Left: func() { left = true }})
		at := fyne.NewPos(311, 97)
		b.MouseMoved(mouse(at, 0))
		if o.status != "Click the edge of the wing" || !b.Asking() {
			t.Errorf("plan %v: status %q", b.plan, o.status)
		}
		b.MouseDown(mouse(at, desktop.MouseButtonPrimary))
		b.MouseUp(mouse(at, desktop.MouseButtonPrimary))
		if want := b.View().ToWorld(draw.Screen(at)); got != want || b.Asking() {
			t.Errorf("plan %v: picked %v, not %v", b.plan, got, want)
		}
		b.Ask(&Pick{Left: func() { left = true }})
		pressOn(b, fyne.KeyEscape)
		if !left {
			t.Errorf("plan %v: Esc does not leave", b.plan)
		}
	}
}

// Points of the linkage go along and across the car in the plan, seen in both
// views in the same frame, as one deed.
func TestDragPointsInPlan(t *testing.T) {
	for _, travel := range []float64{0, 37} {
		o := newRoomOwner(t, travel)
		o.view.OnChanged = func(c kinematics.Corner) { // told by the front view, for the plan stands under it
			o.changed++
			o.set(c)
			o.show()
		}
		o.view.OnCancelled = func(c kinematics.Corner) {
			o.set(c)
			o.show()
		}
		b := &o.plan.board
		for _, p := range []kinematics.Point{kinematics.UpperBall, kinematics.RackEnd, kinematics.LowerRear} {
			h := pointHandle(p)
			b.Select(h)
			was, deeds := o.corner(), len(o.done)
			from := spotOn(t, b, h)
			seen, _ := b.Spot(h)
			held := b.View().ToWorld(draw.Screen(from)).Sub(seen)
			to := plus(from, 9, 0)
			to.Y -= 13 // up: toward the rear
			o.mods = fyne.KeyModifierControl
			grabOn(b, from, plus(from, 3, 3), to)
			if !o.view.Busy() {
				t.Error("the front view does not know of the hand in the plan")
			}
			now, _ := b.Spot(h)
			if off := now.Sub(b.View().ToWorld(draw.Screen(to)).Sub(held)); off.Len() > 0.01 {
				t.Errorf("%v at travel %v: %v off the hand", p, travel, off)
			}
			front, _ := o.view.Spot(h)
			if front.X != now.X {
				t.Errorf("%v: %v in the front view, %v in the plan", p, front, now)
			}
			letGoOn(b, to)
			o.mods = 0
			after := o.corner()
			if len(o.done) != deeds+1 || o.done[deeds].before != was || o.done[deeds].after != after {
				t.Fatalf("%v: %d deeds", p, len(o.done)-deeds)
			}
			if u, v := *was.At(p), *after.At(p); u.Z != v.Z || u.X <= v.X || u.Y >= v.Y {
				t.Errorf("%v went from %v to %v", p, u, v)
			}
		}
		was := o.corner()
		from := spotOn(t, b, pointHandle(kinematics.HubFace))
		b.Select(pointHandle(kinematics.HubFace))
		grabOn(b, from, plus(from, 15, 15))
		pressOn(b, fyne.KeyEscape)
		if o.corner() != was {
			t.Error("Esc does not give back the corner")
		}
		o.view.SetLocks(grip.Locks{Side: grip.PointSet(0).With(kinematics.UpperBall, true)})
		o.view.SetLocked("Stop the play first.")
		if o.plan.Locks() != o.view.Locks() || o.plan.Locked() != o.view.Locked() {
			t.Error("the plan is not held as the front view is")
		}
		o.plan.Select(pointHandle(kinematics.UpperBall))
		if note := strings.Join(o.plan.note, "|"); !strings.Contains(note, "  x ") {
			t.Errorf("note %q", note)
		}
		o.plan.Select(scene.UprightBody)
		if o.plan.Selected() == scene.UprightBody {
			t.Error("the upright is taken hold of from above")
		}
	}
}

// The sheet of a plan is the plan.
func TestPlanSheet(t *testing.T) {
	o := newRoomOwner(t, 0)
	o.in.Overlays = scene.AllOverlays
	o.show()
	s := o.plan.Sheet("Invented estate, front")
	words := sheetWords(t, &s)
	for _, want := range []string{"nose", "inner wing", "Invented estate, front"} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q in %s", want, words)
		}
	}
	if strings.Contains(words, "roll centre") {
		t.Errorf("a front view: %s", words)
	}
}
