package canvas

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/canvas/draw"
	"armscribe/canvas/grip"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

func TestTabWalksInOrder(t *testing.T) {
	c := sampleCorner()
	o := newOwner(t, c, 0)
	o.view.FocusGained()
	want := grip.Handles(&c)
	for k, h := range want {
		if o.view.Selected() != h {
			t.Fatalf("stop %d: %v, want %v", k, o.view.Selected(), h)
		}
		if more := o.view.AcceptsTab(); more != (k < len(want)-1) {
			t.Fatalf("stop %d: AcceptsTab %v", k, more)
		}
		if k < len(want)-1 {
			o.press(fyne.KeyTab)
		}
	}
	o.with(fyne.KeyModifierShift, func() {
		for k := len(want) - 1; k > 0; k-- {
			o.press(fyne.KeyTab)
			if o.view.Selected() != want[k-1] {
				t.Fatalf("back to stop %d: %v", k-1, o.view.Selected())
			}
		}
		if o.view.AcceptsTab() {
			t.Error("Shift+Tab is kept before the first handle")
		}
	})
	o.view.Select(scene.NoHandle)
	o.with(fyne.KeyModifierShift, o.view.FocusGained)
	if o.view.Selected() != want[len(want)-1] {
		t.Errorf("Shift+Tab came in at %v", o.view.Selected())
	}
}

func TestNudges(t *testing.T) {
	o := newOwner(t, sampleCorner(), 18)
	o.view.Select(pointHandle(kinematics.OuterEnd)) // 659, 239.2
	o.press(fyne.KeyRight)
	o.with(fyne.KeyModifierShift, func() { o.press(fyne.KeyUp) })
	o.view.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierControl})
	if v := o.corner().TieRod.OuterEnd; v.Y != 659.9 || v.Z != 249.2 {
		t.Errorf("1 out, 10 up, 0.1 in: %v", v)
	}
	if len(o.done) != 3 || o.done[1].name != "nudge outer tie-rod end" || o.done[2].before != o.done[1].after {
		t.Errorf("%d deeds", len(o.done))
	}
	o.view.SetStep(25.4 / 32)
	o.press(fyne.KeyDown)
	if got, want := o.corner().TieRod.OuterEnd.Z, 249.2-25.4/32; math.Abs(got-want) > 1e-9 {
		t.Errorf("1/32 in down: %v, want %v", got, want)
	}
	o.view.Select(scene.NoHandle)
	before := o.corner()
	o.press(fyne.KeyDown)
	if o.corner() != before {
		t.Error("nothing was selected, and something moved")
	}
}

func TestPickThenPlace(t *testing.T) {
	c := sampleCorner()
	h := pointHandle(kinematics.RackEnd)
	o := newOwner(t, c, 22)
	o.press(fyne.KeyM)
	if o.view.Placing() {
		t.Error("nothing is selected to place")
	}
	o.click(o.at(h))
	o.press(fyne.KeyM)
	if !o.view.Placing() || !strings.HasPrefix(o.status, "Click where the rack end goes") {
		t.Fatalf("status %q", o.status)
	}
	to := plus(o.at(h), 33, 21)
	o.with(fyne.KeyModifierControl, func() {
		o.view.MouseMoved(mouse(plus(to, 90, 5), 0))
		if o.corner() == c {
			t.Error("no preview")
		}
		o.view.MouseOut()
		if o.corner() != c {
			t.Error("the preview stays although the pointer left")
		}
		o.click(to)
	})
	spot, _ := o.view.Spot(h)
	if off := spot.Sub(o.view.View().ToWorld(draw.Screen(to))).Len(); off > 0.01 || len(o.done) != 1 || o.view.Placing() {
		t.Errorf("%v mm off the click, %d deeds", off, len(o.done))
	}
	// Esc leaves it and gives back what it found.
	c = o.corner()
	o.view.MoveTo()
	o.view.MouseMoved(mouse(plus(to, 50, 50), 0))
	o.press(fyne.KeyEscape)
	o.click(plus(to, 50, 50))
	if o.corner() != c || len(o.done) != 1 || o.view.Placing() {
		t.Errorf("left by Esc, and yet %d deeds", len(o.done))
	}
	o.view.NoLetterKeys = true
	o.view.Select(h)
	o.press(fyne.KeyM)
	if o.view.Placing() {
		t.Error("letter keys are off")
	}
}

func TestASecondClickGoesThroughAPile(t *testing.T) {
	c := sampleCorner()
	c.TieRod.RackEnd.Y, c.TieRod.RackEnd.Z = c.Lower.Front.Y+0.5, c.Lower.Front.Z+0.5
	o := newOwner(t, c, 0)
	at := o.at(pointHandle(kinematics.LowerFront))
	o.click(at)
	first := o.view.Selected()
	o.click(at)
	second := o.view.Selected()
	if first == second || first != pointHandle(kinematics.LowerFront) || second != pointHandle(kinematics.RackEnd) {
		t.Errorf("first %v, second %v", first, second)
	}
	o.grab(at, plus(at, 20, -12)) // drags the selected one of the pile
	if got := o.corner(); got.Lower.Front != c.Lower.Front || got.TieRod.RackEnd == c.TieRod.RackEnd {
		t.Errorf("the other one moved: %v", got.Lower.Front)
	}
	o.letGo(plus(at, 20, -12))
	o.view.Select(pointHandle(kinematics.RackEnd))
	o.click(o.at(pointHandle(kinematics.RackEnd)))
	if o.view.Selected() != pointHandle(kinematics.RackEnd) {
		t.Error("a second click on a lone point went on to another")
	}
}

// Marks that overlap without hiding each other are a pile too: clicks in one
// place go through it, and a press on another goes to what is there.
func TestClicksGoThroughOverlappingMarks(t *testing.T) {
	c := sampleCorner()
	o := newOwner(t, c, 0)
	c.TieRod.RackEnd.Y = c.Lower.Front.Y + 8/o.view.View().Zoom
	c.TieRod.RackEnd.Z = c.Lower.Front.Z
	o.set(c)
	pivot, rack := pointHandle(kinematics.LowerFront), pointHandle(kinematics.RackEnd)
	at := o.at(pivot)
	for i, want := range []scene.Handle{pivot, rack, pivot, rack} {
		o.click(at)
		if got := o.view.Selected(); got != want {
			t.Fatalf("click %d selects %v, not %v", i+1, got, want)
		}
	}
	o.click(at)
	o.click(o.at(rack))
	if got := o.view.Selected(); got != rack {
		t.Errorf("a click on the rack end selects %v", got)
	}
}

// What is held is said in the status line and beside the handle, at once.
func TestHeldThingsAreNamed(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	h := pointHandle(kinematics.LowerBall)
	o.view.Select(h)
	o.view.SetLocks(grip.Locks{Height: grip.PointSet(0).With(kinematics.LowerBall, true)})
	if !strings.Contains(o.status, "(height held)") {
		t.Errorf("status %q", o.status)
	}
	if note := strings.Join(o.view.note, "|"); !strings.Contains(note, "height held") {
		t.Errorf("note %q", note)
	}
	at := o.at(h)
	o.grab(at, plus(at, 14, -9))
	if note := strings.Join(o.view.note, "|"); !strings.Contains(o.status, "(height held)") || !strings.Contains(note, "height held") {
		t.Errorf("in the hand: status %q, note %q", o.status, note)
	}
	o.letGo(plus(at, 14, -9))
}

// A rear corner has a toe link: no tie rod or rack in any words.
func TestARearCornerHasAToeLink(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	in := o.view.Input()
	in.Rear = true
	o.view.SetInput(in)
	o.view.Select(pointHandle(kinematics.RackEnd))
	words := o.status + strings.Join(o.view.note, "|")
	if strings.Contains(strings.ToLower(words), "rack") || !strings.Contains(words, "toe link") {
		t.Errorf("words %q", words)
	}
}

func TestZoomAndPanComeBack(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	start := v.View()
	p := fyne.NewPos(611, 203)
	world := start.ToWorld(draw.Screen(p))
	wheel := func(dy float32) {
		v.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.Delta{DY: dy}})
	}
	looks := o.looks
	wheel(75)
	if off := v.View().ToWorld(draw.Screen(p)).Sub(world).Len(); off > 1e-9 || math.Abs(v.View().Zoom/start.Zoom-1.331) > 1e-12 {
		t.Errorf("the place under the pointer went by %v, zoom %v", off, v.View().Zoom/start.Zoom)
	}
	wheel(-75)
	if o.looks != looks+2 || math.Abs(v.View().Zoom/start.Zoom-1) > 1e-12 || v.View().Centre.Sub(start.Centre).Len() > 1e-9 {
		t.Errorf("zoomed there and back: %+v, was %+v; told %d times", v.View(), start, o.looks-looks)
	}
	pan := func(button desktop.MouseButton, from, to fyne.Position) {
		v.MouseDown(mouse(from, button))
		v.Dragged(dragTo(plus(from, 3, 3)))
		v.Dragged(dragTo(to))
		v.DragEnd()
		v.MouseUp(mouse(to, button))
	}
	at := o.at(pointHandle(kinematics.UpperBall))
	pan(desktop.MouseButtonTertiary, at, plus(at, 55, -21))
	if moved := o.at(pointHandle(kinematics.UpperBall)); moved != plus(at, 55, -21) {
		t.Errorf("panned to %v, want %v", moved, plus(at, 55, -21))
	}
	v.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	pan(desktop.MouseButtonPrimary, plus(at, 55, -21), at)
	v.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	if v.View().Centre.Sub(start.Centre).Len() > 1e-4 || o.changed != 0 || len(o.done) != 0 {
		t.Errorf("panned there and back: %v, was %v; %d changes", v.View().Centre, start.Centre, o.changed)
	}
	v.ZoomIn()
	v.ZoomOut()
	v.ZoomIn()
	v.Fit()
	if got := v.View(); math.Abs(got.Zoom-start.Zoom) > 1e-12 || got.Centre != start.Centre {
		t.Errorf("fitted again: %+v, was %+v", got, start)
	}
	v.Resize(sizeOf(700, 500))
	if got := v.View(); got.W != 700 || got.Zoom >= start.Zoom {
		t.Errorf("a smaller view is not fitted: %+v", got)
	}
}

func TestHoverNamesAndTells(t *testing.T) {
	c := sampleCorner()
	o := newOwner(t, c, 0)
	o.view.MouseIn(mouse(o.at(pointHandle(kinematics.LowerBall)), 0))
	if n := len(o.hovered); n != 1 || o.hovered[0] != pointHandle(kinematics.LowerBall) {
		t.Fatalf("hovered %v", o.hovered)
	}
	if len(o.view.note) != 2 || o.view.note[0] != "Lower ball joint" || !strings.Contains(o.view.note[1], "691.3 mm") {
		t.Errorf("note %q", o.view.note)
	}
	if !strings.HasPrefix(o.status, "Lower ball joint: drag it") || o.view.Cursor() != desktop.PointerCursor {
		t.Errorf("status %q", o.status)
	}
	o.view.MouseMoved(mouse(fyne.NewPos(5, 5), 0))
	if len(o.hovered) != 2 || o.hovered[1] != scene.NoHandle || o.view.note != nil {
		t.Errorf("hovered %v, note %q", o.hovered, o.view.note)
	}
	o.view.MouseDown(mouse(o.at(scene.WheelOutline), desktop.MouseButtonSecondary))
	if o.menu != scene.WheelOutline || o.view.Selected() != scene.WheelOutline {
		t.Errorf("menu of %v", o.menu)
	}
	o.press(fyne.KeyEnter)
	if o.typed != scene.WheelOutline {
		t.Errorf("entry of %v", o.typed)
	}
}

// countRefresh counts how often the view is marked for painting.
func TestNothingIsDoneTwice(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	v := o.view
	first := v.paint(900, 700)
	v.dirty = false
	pix := v.painted
	if v.paint(900, 700) != first || v.painted != pix {
		t.Error("painted again")
	}
	quiet := func(what string, f func()) {
		t.Helper()
		v.build()
		v.paint(900, 700)
		v.pending = false
		f()
		if v.stale || v.dirty {
			t.Errorf("%s: the picture is drawn again", what)
		}
	}
	at := o.at(pointHandle(kinematics.RackEnd))
	v.MouseMoved(mouse(at, 0))
	quiet("moving on over the same point", func() { v.MouseMoved(mouse(plus(at, 1, 0), 0)) })
	quiet("a drag event at the same place", func() {
		o.grab(at, plus(at, 9, 9))
		v.paint(900, 700)
		n := o.changed
		v.Dragged(dragTo(plus(at, 9, 9)))
		if o.changed != n {
			t.Error("told of a change twice")
		}
	})
	o.letGo(plus(at, 9, 9))
	quiet("a wheel sideways", func() { v.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DX: 25}}) })
	quiet("the same locks", func() { v.SetLocks(v.Locks()) })
}

func TestDevicePixels(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	for _, k := range []int{1, 2} {
		img := o.view.paint(900*k, 700*k)
		if b := img.Bounds(); b.Dx() != 900*k || b.Dy() != 700*k {
			t.Fatalf("painted %v", b)
		}
		// The filled mark of the lower ball joint stands at its place.
		s := o.view.View().ToScreen(draw.Point{X: 691.3, Y: 178})
		c := img.At(int(s.X*float32(k)), int(s.Y*float32(k)))
		if r, _, _, _ := c.RGBA(); r > 0x4000 {
			t.Errorf("at scale %d the ball joint is %v", k, c)
		}
	}
	o.view.SetPalette(draw.Dark())
	if r, _, _, _ := o.view.paint(900, 700).At(2, 2).RGBA(); r > 0x4000 {
		t.Error("dark paper is light")
	}
}

func TestAViewWithoutACornerIsBlank(t *testing.T) {
	v := NewFrontView()
	v.Resize(sizeOf(300, 200))
	v.MouseMoved(mouse(fyne.NewPos(20, 20), 0))
	v.MouseDown(mouse(fyne.NewPos(20, 20), desktop.MouseButtonPrimary))
	v.Dragged(dragTo(fyne.NewPos(40, 40)))
	v.DragEnd()
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	v.MoveTo()
	v.Fit()
	img := v.paint(300, 200)
	paper := draw.Light()[draw.Paper]
	if r, g, b, _ := img.At(150, 100).RGBA(); uint8(r>>8) != paper.R || uint8(g>>8) != paper.G || uint8(b>>8) != paper.B {
		t.Errorf("not blank: %v", img.At(150, 100))
	}
	if v.AcceptsTab() || v.Busy() {
		t.Error("takes the keyboard without a corner")
	}
}

// The view that follows Fit makes room for the other side when it is switched on.
func TestTheOtherSideIsFitted(t *testing.T) {
	o := newOwner(t, sampleCorner(), 0)
	out, _ := o.view.Shown()
	tyre := out.Tyre[0]
	o.in.Overlays |= scene.OtherSide
	o.view.SetInput(o.in)
	at := o.view.View().Sheet(draw.At(-tyre.X, tyre.Y))
	if !o.view.View().Window().Has(at) {
		t.Errorf("the other tyre stands at %v, outside %v", at, o.view.View().Window())
	}
}
