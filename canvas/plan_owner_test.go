package canvas

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// obstacles of the tests: every shape, and one on the upright.
func sampleObstacles() []scene.Obstacle {
	at := func(x, y, z float64) kinematics.Vec { return kinematics.Vec{X: x, Y: y, Z: z} }
	return []scene.Obstacle{
		{Obstacle: clearance.Obstacle{Name: "inner wing", A: at(-118, 521, 656), Wish: 10}},
		{Obstacle: clearance.Obstacle{Name: "chassis rail", Shape: clearance.Line, A: at(-240, 474, 352), B: at(191, 412, 329), Thick: 22, Wish: 12}},
		{Obstacle: clearance.Obstacle{Name: "wing lip", Shape: clearance.Circle, A: at(-7, 907, 349), B: at(0.03, 1, 0.07), Radius: 366, Wish: 10}},
		{Obstacle: clearance.Obstacle{Name: "hose on the rack", Carrier: clearance.OnUpright, A: at(63, 605, 371), Wish: 8}},
	}
}

// room is an owner with a plan under the front view, and obstacles.
type roomOwner struct {
	*owner
	plan *PlanView

	told      int
	ended     []obstacleDeed
	back      []int
	planLooks int
}

type obstacleDeed struct {
	name          string
	index         int
	before, after clearance.Obstacle
}

func newRoomOwner(t *testing.T, travel float64) *roomOwner {
	t.Helper()
	o := &roomOwner{owner: newOwner(t, sampleCorner(), travel), plan: NewPlanView()}
	o.in.Obstacles = sampleObstacles()
	o.in.Overlays = scene.Clearance | scene.ScrubAxis
	for _, e := range []*Events{&o.view.Events, &o.plan.Events} {
		e.Modifiers = o.view.Modifiers
		e.OnStatus, e.OnMessage, e.OnTyped = o.view.OnStatus, o.view.OnMessage, o.view.OnTyped
		e.OnObstacle = func(i int, to clearance.Obstacle) {
			o.told++
			o.put(i, to)
		}
		e.OnObstacleEnded = func(name string, i int, before, after clearance.Obstacle) {
			o.ended = append(o.ended, obstacleDeed{name, i, before, after})
		}
		e.OnObstacleCancelled = func(i int, before clearance.Obstacle) {
			o.back = append(o.back, i)
			o.put(i, before)
		}
	}
	o.plan.OnView = func(draw.View) { o.planLooks++ }
	w := test.NewTempWindow(t, container.NewWithoutLayout(o.view, o.plan))
	w.SetPadded(false)
	w.Resize(sizeOf(900, 900))
	o.view.Resize(sizeOf(900, 560))
	o.plan.Move(fyne.NewPos(0, 560))
	o.plan.Resize(sizeOf(900, 340))
	o.plan.StandUnder(o.view)
	o.show()
	return o
}

func (o *roomOwner) show() {
	o.view.SetInput(o.in)
	o.plan.SetInput(o.in)
}

func (o *roomOwner) put(i int, to clearance.Obstacle) {
	list := append([]scene.Obstacle(nil), o.in.Obstacles...)
	list[i].Obstacle = to
	o.in.Obstacles = list
	o.show()
}

// spot is where a handle can be taken on a view.
func spotOn(t *testing.T, b *board, h scene.Handle) fyne.Position {
	t.Helper()
	p, ok := b.Spot(h)
	if !ok {
		t.Fatalf("no handle %d in the picture", h)
	}
	s := b.View().ToScreen(p)
	return fyne.NewPos(float32(int(s.X+0.5)), float32(int(s.Y+0.5)))
}

func grabOn(b *board, from fyne.Position, through ...fyne.Position) {
	b.MouseDown(mouse(from, desktop.MouseButtonPrimary))
	for _, p := range through {
		b.Dragged(dragTo(p))
	}
}

func letGoOn(b *board, at fyne.Position) {
	b.DragEnd()
	b.MouseUp(mouse(at, desktop.MouseButtonPrimary))
}

func pressOn(b *board, k fyne.KeyName) { b.TypedKey(&fyne.KeyEvent{Name: k}) }
