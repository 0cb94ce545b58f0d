package canvas

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

func TestALockedCornerStartsNothingAndSaysWhy(t *testing.T) {
	const why = "the car as it stands is locked: make a variant"
	c := sampleCorner()
	o := newOwner(t, c, 0)
	h := scene.OfPoint(kinematics.LowerBall)
	drag := func() {
		from := o.at(h)
		o.grab(from, plus(from, 7, -4), plus(from, 14, -9))
		o.letGo(plus(from, 14, -9))
	}
	o.view.SetLocked(why)
	for name, try := range map[string]func(){
		"drag":  drag,
		"again": drag,
		"arrow": func() { o.view.Select(h); o.press(fyne.KeyUp) },
		"place": func() { o.view.Select(h); o.view.MoveTo() },
	} {
		o.message = ""
		try()
		if o.message != why || o.changed != 0 || len(o.done) != 0 || o.view.Busy() || o.view.Placing() {
			t.Errorf("%s: message %q, %d changes, %d done, busy %v, placing %v", name, o.message, o.changed, len(o.done), o.view.Busy(), o.view.Placing())
		}
		if !strings.HasSuffix(o.status, why[1:]) {
			t.Errorf("%s: status %q", name, o.status)
		}
	}
	if o.corner() != c {
		t.Error("the corner has changed")
	}
	o.view.SetLocked("")
	drag()
	if len(o.done) != 1 || o.corner() == c {
		t.Errorf("unlocked: %d gestures done", len(o.done))
	}
}

func TestALockLetsAGestureInProgressEnd(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	h := scene.OfPoint(kinematics.OuterEnd)
	from := o.at(h)
	o.grab(from, plus(from, 9, 7))
	o.view.SetLocked("locked meanwhile")
	o.view.Dragged(dragTo(plus(from, 13, 11)))
	o.letGo(plus(from, 13, 11))
	if len(o.done) != 1 {
		t.Errorf("%d gestures done", len(o.done))
	}
}
