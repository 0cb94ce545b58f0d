package scene

import (
	"math"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

func above(v kinematics.Vec) draw.Point { return draw.Point{X: v.Y, Y: -v.X} }

// Handles and links of the plan stand where the pose has them, seen from above
// with the nose down.
func TestPlanIsThePoseFromAbove(t *testing.T) {
	for _, d := range demos(t) {
		l, out := buildPlan(t, FitPlan(draw.View{W: 800, H: 400}, d.in), d.in)
		p, c := &out.Left, &d.in.Now.Study.Case.Corner
		for _, q := range []struct {
			point kinematics.Point
			at    kinematics.Vec
		}{{kinematics.UpperBall, p.UpperBall}, {kinematics.LowerBall, p.LowerBall}, {kinematics.RackEnd, p.RackEnd}, {kinematics.OuterEnd, p.OuterEnd}, {kinematics.HubFace, p.Hub}} {
			if s, ok := out.Spot(OfPoint(q.point)); !ok || apart(s.At, above(q.at)) > near {
				t.Errorf("%s: %v at %v, not %v", d.name, q.point, s.At, above(q.at))
			}
		}
		for _, q := range []kinematics.Point{kinematics.UpperFront, kinematics.LowerRear} {
			s, ok := out.Spot(OfPoint(q))
			flat := q == kinematics.UpperFront && c.Upper.Flat || q == kinematics.LowerRear && c.Lower.Flat
			if ok == flat {
				t.Errorf("%s: %v has a handle: %v", d.name, q, ok)
			}
			if ok && !out.Rolled && apart(s.At, above(*c.At(q))) > near {
				t.Errorf("%s: %v at %v", d.name, q, s.At)
			}
		}
		rod := lines(l, draw.TieRod)
		if len(rod) == 0 || apart(rod[0][0], above(p.RackEnd)) > near || apart(rod[0][1], above(p.OuterEnd)) > near {
			t.Errorf("%s: tie rod %v", d.name, rod)
		}
		if !says(l, "nose") {
			t.Errorf("%s: nothing tells where the nose is", d.name)
		}
		for _, h := range []Handle{UprightBody, WheelOutline, GroundLine} {
			if _, ok := out.Spot(h); ok {
				t.Errorf("%s: body %d has a handle in plan", d.name, h)
			}
		}
	}
}

// With toe-in the front of the left wheel stands farther inboard than its rear:
// in the picture the low end stands to the left of the high one.
func TestSteeredWheelInPlan(t *testing.T) {
	in := roomy(t)
	in.Overlays = 0
	v := FitPlan(draw.View{W: 900, H: 700}, in)
	for _, in.Rack = range []float64{-31, 17, 58} {
		l, out := buildPlan(t, v, in)
		box := draw.EmptyBox()
		edge := shape(t, l, draw.Outline)
		for _, p := range edge {
			box = box.With(p)
		}
		low, high := draw.EmptyBox(), draw.EmptyBox()
		for _, p := range edge {
			if p.Y < box.Min.Y+0.2*box.H() {
				low = low.With(p)
			}
			if p.Y > box.Max.Y-0.2*box.H() {
				high = high.With(p)
			}
		}
		toe, _ := out.Readings.Of(kinematics.Toe)
		if (low.Mid().X < high.Mid().X) != (toe > 0) || math.Abs(toe) < 2*degree {
			t.Errorf("rack %g, toe %.3f: the front stands at %.0f, the rear at %.0f", in.Rack, toe, low.Mid().X, high.Mid().X)
		}
	}
}

// The arcs of the shoulders have the radii that package clearance gives, and
// their ends are as far from the steering axis as that.
func TestSwingIsWritten(t *testing.T) {
	in := roomy(t)
	in.Overlays, in.Obstacles, in.Swept[1] = Clearance, nil, nil
	v := FitPlan(draw.View{W: 1400, H: 1100}, in)
	v = v.ZoomAbout(v.Centre, 0.8)
	if l, _ := buildPlan(t, v, in); !says(l, "swings on ") {
		t.Errorf("no swing among %q", texts(l))
	}
	in.Now.Section.Tyre.Shoulder = 0
	if l, _ := buildPlan(t, v, in); says(l, "swings on ") {
		t.Error("a tyre that is none swings")
	}
}

// A plan under a front view shows the whole tyre at the zoom that WholeTyre gives.
func TestWholeTyreIsWhole(t *testing.T) {
	in := roomy(t)
	v := draw.View{Zoom: 1, W: 700, H: 233}
	v.Zoom, v.Centre = WholeTyre(v, in), draw.Point{X: 400, Y: PlanMiddle(in)}
	l, _ := buildPlan(t, v, in)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range shape(t, l, draw.Outline) {
		y := v.Sheet(draw.On(p)).Y
		lo, hi = min(lo, y), max(hi, y)
	}
	if lo < -233/2.0 || hi > 233/2.0 || hi-lo < 180 {
		t.Errorf("the tyre stands from %v to %v in a window of 233", lo, hi)
	}
	if z := WholeTyre(draw.View{H: 12}, in); z != 0 {
		t.Errorf("a window of 12 points shows a tyre at %v", z)
	}
}

// The compared variant stands in the plan where its own pose is.
func TestComparedInPlan(t *testing.T) {
	in := demoNamed(t, "spaced")
	l, _ := buildPlan(t, FitPlan(draw.View{W: 900, H: 700}, in), in)
	p, err := in.Before.Study.Mechanism.At(in.Travel, in.Rack)
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, ends := range lines(l, draw.Compared) {
		found = found || apart(ends[0], above(p.RackEnd)) < near && apart(ends[1], above(p.OuterEnd)) < near
	}
	if !found || !says(l, "before") {
		t.Errorf("no tie rod of the compared variant, or no word: %q", texts(l))
	}
	box := draw.EmptyBox()
	for _, q := range shape(t, l, draw.Compared) {
		box = box.With(q)
	}
	if math.Abs(box.Mid().X-p.WheelCentre.Y) > 1 {
		t.Errorf("its tyre stands about %v, not %v", box.Mid().X, p.WheelCentre.Y)
	}
	in.Overlays &^= BeforeOutline
	if l, _ = buildPlan(t, FitPlan(draw.View{W: 900, H: 700}, in), in); count(l, draw.Compared) > 0 {
		t.Error("it is drawn with its overlay off")
	}
}
