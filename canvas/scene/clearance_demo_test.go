package scene

import (
	"slices"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// wideTyre is a tyre about as wideSection has it.
var wideTyre = clearance.Tyre{Radius: 314, Section: 290, Tread: 236, Shoulder: 21, Widest: 271}

// around are obstacles of every shape and carrier about the wheel of wide, as
// invented as that.
func around() []clearance.Obstacle {
	return []clearance.Obstacle{
		{Name: "inner wing", A: at(-118, 541, 596), Wish: 10},
		{Name: "chassis rail", Shape: clearance.Line, A: at(-420, 474, 372), B: at(391, 452, 349), Thick: 22, Wish: 12},
		{Name: "wing lip", Shape: clearance.Circle, A: at(-7, 887, 329), B: at(0.03, 1, 0.07), Radius: 386, Wish: 10},
		{Name: "strut cap", Shape: clearance.Circle, A: at(-28, 452, 613), B: at(0.2, 0.5, 1), Radius: 61, Thick: 9, Wish: 10},
		{Name: "caliper", Shape: clearance.Line, Carrier: clearance.OnUpright, A: at(-97, 742, 389), B: at(-142, 731, 318), Thick: 24, Wish: 5},
		{Name: "damper body", Shape: clearance.Line, Carrier: clearance.OnDamper, A: at(-26, 511, 392), B: at(-29, 468, 523), Thick: 27, Wish: 8},
	}
}

// gapsAround computes the gaps to the obstacles and the outlines once for all tests.
var gapsAround = sync.OnceValues(func() (list []Obstacle, swept [2][]r2.Vec) {
	c := wide()
	m, err := kinematics.New(&c)
	if err != nil {
		panic(err)
	}
	span := clearance.Span{Bump: 70, Droop: 60, Left: 62, Right: 62}
	room := clearance.Case{Tyre: wideTyre, Ring: clearance.Ring{Barrel: 420, Seat: 457, Overall: 292}, Obstacles: around()}
	r, err := clearance.Sweep(&m, room, clearance.Fine(span))
	if err != nil {
		panic(err)
	}
	for i, o := range room.Obstacles {
		list = append(list, ObstacleOf(o, &r.Answers[i]))
	}
	for view := range swept {
		if swept[view], err = clearance.Outline(&m, wideTyre, span, clearance.View(view), true); err != nil {
			panic(err)
		}
	}
	return list, swept
})

// roomy is wide among obstacles, all gaps and outlines computed.
func roomy(t testing.TB) *Input {
	t.Helper()
	s := subject(t, "wide", wide(), wideSection, 1)
	s.Section.Tyre = wideTyre
	in := inputOf(s)
	in.Overlays |= Clearance
	list, swept := gapsAround()
	in.Obstacles, in.Swept = slices.Clone(list), swept
	return in
}

// drawings are the two pictures of an input.
var drawings = []struct {
	name string
	draw func(l *draw.List, v draw.View, in *Input, out *Output) error
}{{"front", Build}, {"plan", BuildPlan}}

func buildPlan(t testing.TB, v draw.View, in *Input) (*draw.List, *Output) {
	t.Helper()
	l, out := new(draw.List), new(Output)
	if err := BuildPlan(l, v, in, out); err != nil {
		t.Fatal(err)
	}
	return l, out
}
