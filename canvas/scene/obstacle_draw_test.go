package scene

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// alone draws one obstacle and nothing else.
func alone(t *testing.T, o Obstacle, in *Input, plan bool) (*draw.List, *Output, draw.View) {
	t.Helper()
	in.Obstacles, in.Swept, in.Overlays = []Obstacle{o}, [2][]r2.Vec{}, Clearance
	v := draw.View{Centre: draw.Point{X: 500, Y: 200}, Zoom: 0.5, W: 1200, H: 1100}
	if plan {
		l, out := buildPlan(t, v, in)
		return l, out, v
	}
	l, out := build(t, v, in)
	return l, out, v
}

// outlineOf is the box of all that one role draws, in mm.
func outlineOf(l *draw.List, role draw.Role) draw.Box {
	box := draw.EmptyBox()
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Role != role {
			continue
		}
		if it.Kind == draw.KindCircle {
			box = box.With(it.Centre.At.Add(draw.Point{X: it.R, Y: it.R})).With(it.Centre.At.Sub(draw.Point{X: it.R, Y: it.R}))
			continue
		}
		for _, p := range l.Corners(it) {
			box = box.With(p.At)
		}
	}
	return box
}

// The box of an obstacle in either view is that of its surface: balls along a
// point, a line or a circle.
func TestObstaclesAreDrawnTrue(t *testing.T) {
	n := r3.Unit(at(0.31, 0.83, 0.46))
	circle := func(thick float64) clearance.Obstacle {
		return clearance.Obstacle{Name: "lip", Shape: clearance.Circle, A: at(-17, 641, 333), B: r3.Scale(2.7, n), Radius: 287, Thick: thick}
	}
	arc := func(thick float64) clearance.Obstacle { // half a turn over its centre, in the plane of the wheel
		return clearance.Obstacle{Name: "arc", Shape: clearance.Arc, A: at(270, 641, 333), B: at(-304, 641, 333), C: at(-17+287*0.6, 641, 333+287*0.8), Thick: thick}
	}
	reach := func(along float64) float64 { return 287 * math.Sqrt(1-along*along) } // of the circle in one direction
	line := clearance.Obstacle{Name: "rail", Shape: clearance.Line, A: at(-211, 467, 318), B: at(173, 431, 352), Thick: 23}
	point := clearance.Obstacle{Name: "point", A: at(-97, 543, 611), Thick: 17}
	for _, tt := range []struct {
		o          clearance.Obstacle
		x, y, z    float64 // middle
		dx, dy, dz float64 // half extents
	}{
		{point, -97, 543, 611, 17, 17, 17},
		{line, -19, 449, 335, 192 + 23, 18 + 23, 17 + 23},
		{circle(0), -17, 641, 333, reach(n.X), reach(n.Y), reach(n.Z)},
		{arc(0), -17, 641, 333 + 287/2., 287, 0, 287 / 2.},
		{arc(13), -17, 641, 333 + 287/2., 287 + 13, 13, 287/2. + 13},
		{circle(13), -17, 641, 333, reach(n.X) + 13, reach(n.Y) + 13, reach(n.Z) + 13},
	} {
		const off = 0.35 // mm, of the chords
		for _, plan := range []bool{false, true} {
			l, _, _ := alone(t, Obstacle{Obstacle: tt.o}, roomy(t), plan)
			mid, half := draw.Point{X: tt.y, Y: tt.z}, draw.Point{X: tt.dy, Y: tt.dz}
			if plan {
				mid, half = draw.Point{X: tt.y, Y: -tt.x}, draw.Point{X: tt.dy, Y: tt.dx}
			}
			box := outlineOf(l, draw.Obstacle)
			if box.Mid().Sub(mid).Len() > off || math.Abs(box.W()/2-half.X) > off || math.Abs(box.H()/2-half.Y) > off {
				t.Errorf("%s, thick %g, plan %v: %v, wanted %v half %v", tt.o.Name, tt.o.Thick, plan, box, mid, half)
			}
		}
	}
}

// An arc runs from end to end over the place between, and no farther.
func TestAnArcIsDrawnFromEndToEnd(t *testing.T) {
	o := clearance.Obstacle{Name: "lip", Shape: clearance.Arc, A: at(0, 411, 602), B: at(0, 742, 311), C: at(0, 699, 549)}
	l, _, _ := alone(t, Obstacle{Obstacle: o}, roomy(t), false)
	r, ok := o.Round()
	if !ok {
		t.Fatal("no arc")
	}
	var drawn []draw.Point
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Role == draw.Obstacle {
			for _, p := range l.Corners(it) {
				drawn = append(drawn, p.At)
			}
		}
	}
	nearest := func(to draw.Point) float64 {
		least := math.Inf(1)
		for _, p := range drawn {
			least = min(least, apart(p, to))
		}
		return least
	}
	for _, q := range []kinematics.Vec{o.A, o.B} {
		if d := nearest(draw.Point{X: q.Y, Y: q.Z}); d > 1e-9 {
			t.Errorf("nothing is drawn at the end %v: %v off", q, d)
		}
	}
	if d := nearest(draw.Point{X: o.C.Y, Y: o.C.Z}); d > r.Radius*math.Pi/ellipseSteps+1e-6 {
		t.Errorf("nothing is drawn at the place between: %v off", d)
	}
	for _, p := range drawn {
		q := kinematics.Vec{Y: p.X, Z: p.Y}
		d := r3.Sub(q, r.Centre)
		turn := math.Atan2(r3.Dot(d, r.F), r3.Dot(d, r.E))
		if turn < -1e-9 || turn > r.Sweep+1e-9 {
			t.Errorf("drawn at %v, beyond the ends", p)
		}
	}
}

// A circle seen from its edge is a line, with its thickness a slot.
func TestACircleSeenEdgeOn(t *testing.T) {
	o := clearance.Obstacle{Name: "lip", Shape: clearance.Circle, A: at(11, 702, 318), B: at(0, 3, 0), Radius: 351}
	l, out, _ := alone(t, Obstacle{Obstacle: o}, roomy(t), false)
	if box := outlineOf(l, draw.Obstacle); box.W() > 1e-9 || math.Abs(box.H()-702) > 0.5 {
		t.Errorf("edge-on, without thickness: %v", box)
	}
	if s, _ := out.Spot(OfObstacle(0, 1)); apart(s.At, draw.Point{X: 702, Y: 318 + 351}) > 1e-9 {
		t.Errorf("the handle of its radius stands at %v", s.At)
	}
	o.Thick = 19
	l, _, _ = alone(t, Obstacle{Obstacle: o}, roomy(t), false)
	if box := outlineOf(l, draw.Obstacle); math.Abs(box.W()-38) > 0.1 || math.Abs(box.H()-702-38) > 0.1 {
		t.Errorf("edge-on, 19 mm thick: %v", box)
	}
}

// Obstacles go with their carriers; handles stand on them in every stance, and
// the rim's handle at the radius.
func TestObstaclesGoWithTheirCarriers(t *testing.T) {
	for _, s := range stances {
		in := roomy(t)
		in.Travel, in.Rack, in.Roll = s.travel, s.rack, s.roll*degree
		v := draw.View{Centre: draw.Point{X: 500, Y: 200}, Zoom: 0.5, W: 1200, H: 1100}
		for _, plan := range []bool{false, true} {
			out := new(Output)
			var l draw.List
			if err := drawings[map[bool]int{false: 0, true: 1}[plan]].draw(&l, v, in, out); err != nil {
				t.Fatal(err)
			}
			flat := func(q kinematics.Vec) draw.Point {
				if plan {
					return draw.Point{X: q.Y, Y: -q.X}
				}
				return draw.Point{X: q.Y, Y: q.Z}
			}
			for i := range in.Obstacles {
				o := &in.Obstacles[i]
				c := &out.Carries[o.Carrier]
				a, _ := out.Spot(OfObstacle(i, 0))
				if want := flat(c.At(o.A)); apart(a.At, want) > 1e-9 {
					t.Errorf("%+v, plan %v: %s at %v, not %v", s, plan, o.Name, a.At, want)
				}
				b, ok := out.Spot(OfObstacle(i, 1))
				switch o.Shape {
				case clearance.Point:
					if ok {
						t.Errorf("%s has two ends", o.Name)
					}
				case clearance.Line:
					if want := flat(c.At(o.B)); apart(b.At, want) > 1e-9 {
						t.Errorf("%+v, plan %v: end of %s at %v, not %v", s, plan, o.Name, b.At, want)
					}
				case clearance.Circle:
					if r := apart(a.At, b.At); math.Abs(r-o.Radius) > 1e-9 {
						t.Errorf("%+v, plan %v: the rim of %s is %v from its centre, not %v", s, plan, o.Name, r, o.Radius)
					}
				}
			}
		}
	}
}

// What is short is coloured, hatched and told in words; what is kept is not.
func TestShortGapsAreColouredHatchedAndTold(t *testing.T) {
	o := Obstacle{Obstacle: clearance.Obstacle{Name: "inner wing", A: at(-118, 341, 796), Wish: 10}, HasGap: true, Gap: 23.4, State: GapKept}
	for _, tt := range []struct {
		state  GapState
		gap    float64
		travel float64 // where it is; the picture is at rest
		words  string
		plan   string // words behind it from above, where the place is 305.5 mm under the wheel centre
	}{
		{GapKept, 23.4, 0, "inner wing 23.4 mm", ""}, {GapLess, 3.2, 41, "inner wing: least 3.2 mm, wished 10 mm", ""},
		{GapLess, 3.2, 0, "inner wing: here 3.2 mm, wished 10 mm", ", 305.5 mm below the wheel centre"},
		{GapTouches, -4.1, 41, "inner wing touches, 4.1 mm deep", ""},
		{GapTouches, -4.1, 0, "inner wing touches here, 4.1 mm deep", ", 305.5 mm below the wheel centre"},
		{GapInside, -9, 0, "inner wing inside tyre or rim at rest", ""}, {GapUnknown, 0, 0, "inner wing", ""},
	} {
		o.State, o.Gap, o.HasGap, o.Travel = tt.state, tt.gap, tt.state != GapUnknown, tt.travel
		for _, plan := range []bool{false, true} {
			l, _, _ := alone(t, o, roomy(t), plan)
			short := tt.state.Short()
			if n := count(l, draw.ObstacleHatch); (n > 0) != short {
				t.Errorf("state %d, plan %v: %d strokes", tt.state, plan, n)
			}
			if n, m := count(l, draw.ObstacleShort), count(l, draw.Obstacle); (n > 0) != short || (m > 0) == short {
				t.Errorf("state %d, plan %v: drawn %d times as short, %d times as kept", tt.state, plan, n, m)
			}
			found, words := false, tt.words
			if plan {
				words += tt.plan
			}
			for _, text := range texts(l) {
				found = found || text == words
				if strings.HasPrefix(text, "inner wing") && text != words {
					t.Errorf("state %d, plan %v: says %q", tt.state, plan, text)
				}
			}
			if !found {
				t.Errorf("state %d, plan %v: no %q in %q", tt.state, plan, words, texts(l))
			}
		}
	}
	in := roomy(t)
	in.Overlays = oneSide
	if l, out := build(t, fitted(draw.View{W: 700, H: 800}, in), in); count(l, draw.Obstacle, draw.ObstacleShort, draw.ObstacleHatch, draw.Swept, draw.BandSwept) > 0 || len(out.Spots) != 14 {
		t.Error("obstacles are shown with their overlay off")
	}
}

// However small the picture, what is short and in it says so in words, in the
// picture or for the status line.
func TestShortGapsAreToldInSmallPictures(t *testing.T) {
	for _, name := range []string{"roomy", "roomy-worst", "roomy-roll"} {
		for _, size := range []draw.View{{W: 500, H: 300}, {W: 520, H: 203}, {W: 700, H: 267}, {W: 1400, H: 900}} {
			in := demoNamed(t, name)
			in.Hover, in.Note = NoHandle, nil
			for plan, v := range map[bool]draw.View{false: fitted(size, in), true: FitPlan(size, in)} {
				l, out := build(t, v, in)
				if plan {
					l, out = buildPlan(t, v, in)
				}
				for i, o := range in.Obstacles {
					a, _ := out.Spot(OfObstacle(i, 0))
					if !o.State.Short() || !v.Window().Grow(-20).Has(v.Sheet(draw.On(a.At))) {
						continue
					}
					words := o.Name + " touches"
					if o.State == GapLess {
						words = o.Name + ": " + pick(name == "roomy-worst", "here ", "least ") + string(Millimetres(nil, o.Gap, 0))
					}
					if !says(l, words) && !strings.Contains(strings.Join(out.LeftOut, "|"), words) {
						t.Errorf("%s at %.0f x %.0f, plan %v: no %q in %q nor said of %q", name, size.W, size.H, plan, words, texts(l), out.LeftOut)
					}
				}
			}
		}
	}
}
