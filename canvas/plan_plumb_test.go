package canvas

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// plumb tells how far, in points, what stands y mm outboard in the plan is seen
// beside the same in the front view.
func (o *roomOwner) plumb(y float64) float64 {
	a := o.view.View().ToScreen(draw.Point{X: y, Y: 300})
	b := o.plan.View().ToScreen(draw.Point{X: y, Y: -40})
	return math.Abs(float64(a.X - b.X))
}

// The plan stays plumb under the front view, whatever is zoomed, panned or
// resized, and in whichever.
func TestPlanStaysPlumb(t *testing.T) {
	o := newRoomOwner(t, 0)
	check := func(what string) {
		t.Helper()
		if o.plumb(0) > 0.01 || o.plumb(811) > 0.01 || o.view.View().Zoom != o.plan.View().Zoom {
			t.Errorf("%s: %v and %v points aside, zoom %v and %v", what, o.plumb(0), o.plumb(811), o.view.View().Zoom, o.plan.View().Zoom)
		}
	}
	check("at first")
	wheel := func(b *board, at fyne.Position, dy float32) {
		b.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.Delta{DY: dy}})
	}
	looks, planLooks := o.looks, o.planLooks
	wheel(&o.view.board, fyne.NewPos(611, 203), 75)
	check("wheel in the front view")
	if o.looks != looks+1 || o.planLooks != planLooks+1 {
		t.Errorf("told %d and %d times", o.looks-looks, o.planLooks-planLooks)
	}
	place := o.plan.View().ToWorld(draw.Screen{X: 233, Y: 71})
	wheel(&o.plan.board, fyne.NewPos(233, 71), -50)
	check("wheel in the plan")
	if off := o.plan.View().ToWorld(draw.Screen{X: 233, Y: 71}).Sub(place); off.Len() > 1e-9 {
		t.Errorf("the place under the pointer went by %v", off)
	}
	height := o.view.View().Centre.Y
	o.plan.SetView(o.plan.View().Pan(37, 55))
	check("panned in the plan")
	if o.view.View().Centre.Y != height {
		t.Error("a pan along the car moves the front view up")
	}
	along := o.plan.View().Centre.Y
	o.view.SetView(o.view.View().Pan(-12, 31))
	check("panned in the front view")
	if o.plan.View().Centre.Y != along {
		t.Error("a pan up moves the plan along the car")
	}
	o.view.Resize(sizeOf(777, 500))
	o.plan.Resize(sizeOf(777, 260))
	check("resized")
	o.view.Fit()
	o.plan.Fit()
	check("fitted")
	o.plan.StandUnder(nil)
	zoom := o.plan.View().Zoom
	o.view.ZoomIn()
	if o.plan.View().Zoom != zoom {
		t.Error("parted, and yet it follows")
	}
}

// Fitted, the plan shows a whole tyre, and the front view is no smaller than
// that asks for; without the overlay it is fitted for itself.
func TestFittedPlanShowsTheWholeTyre(t *testing.T) {
	o := newRoomOwner(t, 0)
	v := o.plan.View()
	for _, x := range []float64{-320, 320} {
		if s := v.ToScreen(draw.Point{X: 740, Y: x}); s.Y < 0 || float64(s.Y) > v.H {
			t.Errorf("the end of the tyre at %g is seen at %v of %v", x, s.Y, v.H)
		}
	}
	with := o.view.View().Zoom
	o.in.Overlays &^= scene.Clearance
	o.show()
	if alone := o.view.View().Zoom; alone <= with || o.plan.View().Zoom != alone {
		t.Errorf("zoom %v with the plan, %v without, plan %v", with, alone, o.plan.View().Zoom)
	}
	o.in.Overlays |= scene.Clearance
	o.show()
	o.plan.Resize(sizeOf(900, 90))
	if low := o.view.View().Zoom; low < 0.45*with/2 {
		t.Errorf("a low plan makes the front view tiny: %v", low)
	}
	o.view.ZoomIn()
	hand := o.view.View().Zoom
	o.plan.Resize(sizeOf(900, 340))
	if o.view.View().Zoom != hand {
		t.Error("a zoom by hand is undone by resizing the plan")
	}
}

// A plan that stands alone fits itself.
func TestPlanAlone(t *testing.T) {
	o := newRoomOwner(t, 0)
	v := NewPlanView()
	v.Resize(sizeOf(500, 220))
	v.SetInput(o.in)
	out, err := v.Shown()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range out.Spots {
		if _, isPoint := s.Handle.Point(); isPoint && !v.View().Window().Has(v.View().Sheet(draw.On(s.At))) {
			t.Errorf("%v stands outside at %v", s.Handle, s.At)
		}
	}
	v.SetPalette(draw.Dark())
	if r, _, _, _ := v.paint(500, 220).At(2, 2).RGBA(); r > 0x4000 {
		t.Error("dark paper is light")
	}
}

// A drag repaints each view once.
func TestPlanRepaintsOnce(t *testing.T) {
	o := newRoomOwner(t, 0)
	o.view.paint(900, 560)
	o.plan.paint(900, 340)
	painted := 0
	o.plan.OnPainted = func() { painted++ }
	h := scene.OfObstacle(0, 0)
	from := spotOn(t, &o.view.board, h)
	grabOn(&o.view.board, from, plus(from, 20, 9))
	o.plan.paint(900, 340)
	o.plan.paint(900, 340)
	if painted != 1 {
		t.Errorf("painted %d times", painted)
	}
}

// What is selected in one view is so in the other, and told once; what only one
// of them has leaves the other with nothing.
func TestSelectionIsShared(t *testing.T) {
	o := newRoomOwner(t, 0)
	told := 0
	o.view.OnSelected = func(scene.Handle) { told++ }
	o.plan.OnSelected = func(scene.Handle) { told++ }
	o.plan.Select(scene.OfObstacle(2, 1))
	if o.view.Selected() != scene.OfObstacle(2, 1) || told != 1 {
		t.Errorf("%v in the front view, told %d times", o.view.Selected(), told)
	}
	o.view.Select(scene.WheelOutline)
	if o.plan.Selected() != scene.NoHandle || told != 2 {
		t.Errorf("%v in the plan, told %d times", o.plan.Selected(), told)
	}
}
