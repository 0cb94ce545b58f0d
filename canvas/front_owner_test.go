package canvas

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// An invented corner with asymmetric numbers, and its wheel.
func sampleCorner() kinematics.Corner {
	return kinematics.Corner{
		Lower:  kinematics.Arm{Front: kinematics.Vec{X: 151, Y: 303.3, Z: 191}, Rear: kinematics.Vec{X: -172, Y: 331, Z: 175}, Ball: kinematics.Vec{X: 9, Y: 691.3, Z: 178}},
		Upper:  kinematics.Arm{Front: kinematics.Vec{X: 112, Y: 341, Z: 431}, Rear: kinematics.Vec{X: -149, Y: 362, Z: 409}, Ball: kinematics.Vec{X: -16, Y: 648, Z: 457.7}},
		TieRod: kinematics.TieRod{RackEnd: kinematics.Vec{X: 131, Y: 333, Z: 246}, OuterEnd: kinematics.Vec{X: 142, Y: 659, Z: 239.2}},
		Hub:    kinematics.Vec{Y: 752, Z: 311}, Camber: -0.011, Toe: 0.002,
		Wheel:  kinematics.Wheel{Offset: 35, Spacer: 12, LoadedRadius: 309},
		Spring: kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: kinematics.Vec{X: 5, Y: 553, Z: 196}, Body: kinematics.Vec{X: -11, Y: 422, Z: 603}},
	}
}

var sampleSection = scene.Section{OverallDiameter: 640, SectionWidth: 205, RimDiameter: 406, RimOverallWidth: 191}

func sizeOf(w, h float32) fyne.Size { return fyne.NewSize(w, h) }

// owner stands in for the program: it keeps the study and answers the view.
type owner struct {
	t    *testing.T
	view *FrontView
	st   study.Study
	in   scene.Input
	mods fyne.KeyModifier

	changed, cancelled int
	done               []deed
	hovered            []scene.Handle
	status, message    string
	typed, menu        scene.Handle
	looks              int
}

type deed struct {
	name          string
	before, after kinematics.Corner
}

func newOwner(t *testing.T, c kinematics.Corner, travel float64) *owner {
	t.Helper()
	test.NewTempApp(t)
	o := &owner{t: t, view: NewFrontView(), typed: scene.NoHandle, menu: scene.NoHandle}
	v := o.view
	v.Modifiers = func() fyne.KeyModifier { return o.mods }
	v.OnChanged = func(c kinematics.Corner) { o.changed++; o.set(c) }
	v.OnChangeEnded = func(name string, before, after kinematics.Corner) { o.done = append(o.done, deed{name, before, after}) }
	v.OnCancelled = func(before kinematics.Corner) { o.cancelled++; o.set(before) }
	v.OnHover = func(h scene.Handle) { o.hovered = append(o.hovered, h) }
	v.OnStatus = func(s string) { o.status = s }
	v.OnMessage = func(s string) { o.message = s }
	v.OnTyped = func(h scene.Handle) { o.typed = h }
	v.OnMenu = func(h scene.Handle, _ fyne.Position) { o.menu = h }
	v.OnView = func(draw.View) { o.looks++ }
	w := test.NewTempWindow(t, v)
	w.SetPadded(false)
	w.Resize(sizeOf(900, 700))
	o.in = scene.Input{Now: scene.Subject{Name: "sample", Study: &o.st, Section: sampleSection},
		Travel: travel, Overlays: scene.AllOverlays &^ scene.TieRodArcs} // no loupe over the handles
	o.set(c)
	return o
}

func (o *owner) set(c kinematics.Corner) {
	o.t.Helper()
	if err := o.st.Update(study.Case{Corner: c, Within: kinematics.Evenly(1), Span: study.Span{Bump: 71, Droop: 63}}, o.in.Rack); err != nil {
		o.t.Fatalf("the hand made a corner that cannot be studied: %v", err)
	}
	o.view.SetInput(o.in)
}

func (o *owner) corner() kinematics.Corner { return o.st.Case.Corner }

// at returns where a handle can be taken on the screen, rounded as pointers are.
func (o *owner) at(h scene.Handle) fyne.Position {
	o.t.Helper()
	p, ok := o.view.Spot(h)
	if !ok {
		o.t.Fatalf("no handle %d in the picture", h)
	}
	s := o.view.View().ToScreen(p)
	return fyne.NewPos(float32(int(s.X+0.5)), float32(int(s.Y+0.5)))
}

func mouse(at fyne.Position, b desktop.MouseButton) *desktop.MouseEvent {
	e := &desktop.MouseEvent{Button: b}
	e.Position, e.AbsolutePosition = at, at
	return e
}

func dragTo(at fyne.Position) *fyne.DragEvent {
	e := &fyne.DragEvent{}
	e.Position, e.AbsolutePosition = at, at
	return e
}

// grab presses and pulls through places, and keeps holding.
func (o *owner) grab(from fyne.Position, through ...fyne.Position) {
	o.view.MouseDown(mouse(from, desktop.MouseButtonPrimary))
	for _, p := range through {
		o.view.Dragged(dragTo(p))
	}
}

// letGo releases as the desktop does: the end of the drag first.
func (o *owner) letGo(at fyne.Position) {
	o.view.DragEnd()
	o.view.MouseUp(mouse(at, desktop.MouseButtonPrimary))
}

func (o *owner) click(at fyne.Position) {
	o.view.MouseMoved(mouse(at, 0))
	o.view.MouseDown(mouse(at, desktop.MouseButtonPrimary))
	o.view.MouseUp(mouse(at, desktop.MouseButtonPrimary))
}

func (o *owner) press(k fyne.KeyName) { o.view.TypedKey(&fyne.KeyEvent{Name: k}) }

func (o *owner) with(m fyne.KeyModifier, f func()) {
	o.mods = m
	f()
	o.mods = 0
}

func plus(p fyne.Position, dx, dy float32) fyne.Position { return fyne.NewPos(p.X+dx, p.Y+dy) }

func pointHandle(p kinematics.Point) scene.Handle { return scene.OfPoint(p) }
