package canvas

import (
	"math/rand/v2"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

func TestDragEveryHandle(t *testing.T) {
	for _, travel := range []float64{0, 43} {
		c := sampleCorner()
		for _, h := range grip.Handles(&c) {
			o := newOwner(t, c, travel)
			name := grip.NameOf(&c, h)
			from := o.at(h)
			seen := func() draw.Point {
				if out, _ := o.view.Shown(); h == scene.WheelOutline { // its mark stands off its centre
					return draw.Point{X: out.Left.WheelCentre.Y, Y: out.Left.WheelCentre.Z}
				}
				p, _ := o.view.Spot(h)
				return p
			}
			held := o.view.View().ToWorld(draw.Screen(from)).Sub(seen()) // off its middle
			to := plus(from, 13, -9)
			o.with(fyne.KeyModifierControl, func() {
				o.grab(from, plus(from, 3, 3), plus(from, 40, 11), to)
				if !o.view.Busy() {
					t.Fatalf("%s: not taken", name)
				}
				o.letGo(to)
			})
			if len(o.done) != 1 || o.done[0].before != c || o.done[0].after != o.corner() || o.done[0].after == c {
				t.Fatalf("%s at %v: ended %d times, corner changed %v", name, travel, len(o.done), o.corner() != c)
			}
			want := "move " + grip.NameOf(&c, h)
			switch p, _ := h.Point(); {
			case h == scene.GroundLine:
				want = "change loaded radius"
			case p == kinematics.UpperBall || p == kinematics.LowerBall:
				want += ", upright remade"
			}
			if o.done[0].name != want || o.view.Selected() != h {
				t.Errorf("%s: named %q, selected %v", name, o.done[0].name, o.view.Selected())
			}
			off := seen().Sub(o.view.View().ToWorld(draw.Screen(to)).Sub(held))
			if h == scene.WheelOutline { // sideways only
				off.Y = 0
			}
			if h == scene.GroundLine {
				off.X = 0
			}
			if off.Len() > 0.01 {
				t.Errorf("%s at travel %v: %v mm off the pointer", name, travel, off)
			}
		}
	}
}

func TestSnapAndSuspend(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	h := pointHandle(kinematics.LowerBall)
	from := o.at(h)
	o.grab(from, plus(from, 21, 33))
	if v := o.corner().Lower.Ball; v.Y != float64(int(v.Y)) || v.Z != float64(int(v.Z)) {
		t.Errorf("not on the grid: %v", v)
	}
	o.mods = fyne.KeyModifierControl
	o.view.KeyDown(&fyne.KeyEvent{Name: desktop.KeyControlLeft}) // the pointer at rest
	if v := o.corner().Lower.Ball; v.Y == float64(int(v.Y)) || v.Z == float64(int(v.Z)) {
		t.Errorf("still on the grid: %v", v)
	}
	o.mods = 0
	o.view.KeyUp(&fyne.KeyEvent{Name: desktop.KeyControlLeft})
	if v := o.corner().Lower.Ball; v.Y != float64(int(v.Y)) {
		t.Errorf("the grid does not come back: %v", v)
	}
	o.view.SetStep(25.4 / 32)
	o.letGo(plus(from, 21, 33))
	o.grab(o.at(h), plus(o.at(h), 9, 9))
	if n := o.corner().Lower.Ball.Y / 25.4 * 32; n-float64(int(n+0.5)) > 1e-9 || n-float64(int(n+0.5)) < -1e-9 {
		t.Errorf("%v thirty-seconds of an inch", n)
	}
}

func TestShiftAndLocks(t *testing.T) {
	c := sampleCorner()
	h := pointHandle(kinematics.OuterEnd)
	o := newOwner(t, c, 0)
	from := o.at(h)
	o.with(fyne.KeyModifierShift, func() { o.grab(from, plus(from, -30, 12)) })
	if v := o.corner().TieRod.OuterEnd; v.Z != c.TieRod.OuterEnd.Z || v.Y == c.TieRod.OuterEnd.Y {
		t.Errorf("with Shift: %v", v)
	}
	o = newOwner(t, c, 25)
	o.view.SetLocks(grip.Locks{TieRod: true})
	o.grab(o.at(h), plus(o.at(h), -4, 30))
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	if d := o.st.Mechanism.RodLength() - m.RodLength(); d > 1e-9 || d < -1e-9 || o.corner() == c {
		t.Errorf("tie rod held, and changed by %v; moved %v", d, o.corner() != c)
	}
	out, _ := o.view.Shown()
	if out == nil || len(o.view.Locks().Held(&c)) != 2 {
		t.Errorf("rings %v", o.view.Locks().Held(&c))
	}
}

func TestEscapeGivesBackTheStart(t *testing.T) {
	c := sampleCorner()
	o := newOwner(t, c, 31)
	from := o.at(scene.UprightBody)
	o.grab(from, plus(from, 25, 9), plus(from, 44, 3))
	if o.corner() == c || !strings.HasPrefix(o.status, "Moving the upright") {
		t.Fatalf("not dragging: status %q", o.status)
	}
	o.press(fyne.KeyEscape)
	if o.corner() != c || o.cancelled != 1 || o.view.Busy() {
		t.Errorf("cancelled %d times, start restored %v", o.cancelled, o.corner() == c)
	}
	o.view.Dragged(dragTo(plus(from, 60, 3))) // the button is still down
	o.letGo(plus(from, 60, 3))
	if o.corner() != c || len(o.done) != 0 {
		t.Errorf("the abandoned drag went on: %d deeds", len(o.done))
	}
}

func TestTheWayDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 4))
	c := sampleCorner()
	for _, h := range []scene.Handle{pointHandle(kinematics.UpperBall), pointHandle(kinematics.RackEnd), scene.UprightBody, scene.WheelOutline} {
		var want kinematics.Corner
		for n := range 4 {
			o := newOwner(t, c, 37)
			from := o.at(h)
			for range n * 3 {
				o.grab(from, plus(from, float32(rng.IntN(500)-250), float32(rng.IntN(500)-250)))
			}
			o.grab(from, plus(from, 17, -8))
			o.letGo(plus(from, 17, -8))
			if n == 0 {
				want = o.corner()
			}
			if o.corner() != want || want == c {
				t.Errorf("%s: another corner after %d detours", grip.NameOf(&c, h), n*3)
			}
		}
	}
}

func TestAnEdgeIsTold(t *testing.T) {
	o := newOwner(t, sampleCorner(), -60)
	h := pointHandle(kinematics.LowerBall)
	from := o.at(h)
	to := plus(from, 2, -280)
	o.grab(from, to)
	if !strings.HasPrefix(o.message, "Stops at the edge: ") || !strings.Contains(o.message, "mm") {
		t.Errorf("message %q", o.message)
	}
	if _, err := o.view.Shown(); err != nil {
		t.Errorf("the corner at the edge is not shown: %v", err)
	}
	o.view.Dragged(dragTo(plus(from, 2, -6)))
	if o.message != "" {
		t.Errorf("back in reach, and still %q", o.message)
	}
}

func TestAClickChangesNothing(t *testing.T) {
	c := sampleCorner()
	o := newOwner(t, c, 20)
	o.click(o.at(pointHandle(kinematics.UpperBall)))
	if o.changed != 0 || len(o.done) != 0 || o.corner() != c || o.view.Selected() != pointHandle(kinematics.UpperBall) {
		t.Errorf("changed %d, done %d, selected %v", o.changed, len(o.done), o.view.Selected())
	}
	// A drag that comes back to its start is no deed.
	from := o.at(pointHandle(kinematics.RackEnd))
	o.grab(from, plus(from, 30, 10), from)
	o.letGo(from)
	if len(o.done) != 0 || o.corner() != c {
		t.Errorf("there and back: %d deeds, restored %v", len(o.done), o.corner() == c)
	}
}

func TestARandomHandNeverBreaksThePicture(t *testing.T) {
	const seed = 77
	rng := rand.New(rand.NewPCG(seed, 1))
	o := newOwner(t, sampleCorner(), 15)
	pos := func() fyne.Position { return fyne.NewPos(float32(rng.IntN(900)), float32(rng.IntN(700))) }
	keys := []fyne.KeyName{fyne.KeyTab, fyne.KeyUp, fyne.KeyLeft, fyne.KeyEscape, fyne.KeyM, fyne.KeyEnter, fyne.KeyRight, fyne.KeyDown}
	mods := []fyne.KeyModifier{0, 0, fyne.KeyModifierShift, fyne.KeyModifierControl}
	for n := range 1000 {
		p := pos()
		if spots, _ := o.view.Shown(); rng.IntN(2) == 0 && len(spots.Spots) > 0 {
			p = o.at(spots.Spots[rng.IntN(len(spots.Spots))].Handle)
		}
		o.mods = mods[rng.IntN(len(mods))]
		button := []desktop.MouseButton{desktop.MouseButtonPrimary, desktop.MouseButtonTertiary, desktop.MouseButtonSecondary}[rng.IntN(3)]
		switch rng.IntN(9) {
		case 0, 1:
			o.view.MouseDown(mouse(p, button))
		case 2, 3, 4:
			o.view.Dragged(dragTo(p))
		case 5:
			o.view.DragEnd()
			o.view.MouseUp(mouse(p, button))
		case 6:
			o.view.MouseMoved(mouse(p, 0))
		case 7:
			o.press(keys[rng.IntN(len(keys))])
		case 8:
			o.view.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.Delta{DY: float32(rng.IntN(3)-1) * 25}})
		}
		c := o.corner()
		for _, at := range c.Coordinates() {
			if v := *c.At(at.Point); v.X+v.Y+v.Z-(v.X+v.Y+v.Z) != 0 {
				t.Fatalf("seed %d, event %d: %s at %v", seed, n, at.Point, v)
			}
		}
		if n%25 == 0 {
			o.view.paint(450, 350) // a NaN in the picture panics
		}
	}
	if o.changed < 50 || len(o.done) < 10 {
		t.Errorf("only %d changes and %d deeds: the walk shows little", o.changed, len(o.done))
	}
}
