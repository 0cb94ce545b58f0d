package scene

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

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

// roomy is wide among obstacles, all gaps and outlines reckoned.
func roomy(t testing.TB) *Input {
	t.Helper()
	s := subject(t, "wide", wide(), wideSection, 1)
	s.Section.Tyre = wideTyre
	in := inputOf(s)
	span := clearance.Span{Bump: 70, Droop: 60, Left: 62, Right: 62}
	c := clearance.Case{Tyre: wideTyre, Ring: clearance.Ring{Barrel: 420, Seat: 457, Overall: 292}, Obstacles: around()}
	r, err := clearance.Sweep(&s.Study.Mechanism, c, clearance.Fine(span))
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range c.Obstacles {
		in.Obstacles = append(in.Obstacles, ObstacleOf(o, &r.Answers[i]))
	}
	for view := range in.Swept {
		var line []r2.Vec
		if line, err = clearance.Outline(&s.Study.Mechanism, wideTyre, span, clearance.View(view), true); err != nil {
			t.Fatal(err)
		}
		in.Swept[view] = line
	}
	return in
}
