package scene

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// shape returns the corners of the first closed path of a role.
func shape(t *testing.T, l *draw.List, role draw.Role) []draw.Point {
	t.Helper()
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Role == role && it.Kind == draw.KindPath && it.Closed {
			var c []draw.Point
			for _, p := range l.Corners(it) {
				c = append(c, p.At)
			}
			return c
		}
	}
	t.Fatalf("nothing of role %d", role)
	return nil
}

// inShape tells whether a point is inside a closed line, by crossings.
func inShape(c []draw.Point, p draw.Point) bool {
	in := false
	for i, a := range c {
		b := c[(i+len(c)-1)%len(c)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// The tyre as the plan draws it is the edge of the body that gaps are computed
// with, and stays inside the swept outline in every pose of the span.
func TestTheTyreStaysInItsSweptOutline(t *testing.T) {
	v := draw.View{Centre: draw.Point{X: 500}, Zoom: 0.8, W: 1400, H: 1100}
	for _, travel := range []float64{-60, -17, 0, 33, 70} {
		for _, rack := range []float64{-62, -21, 0, 62} {
			in := roomy(t)
			in.Travel, in.Rack, in.Overlays = travel, rack, Clearance
			l, out := buildPlan(t, v, in)
			swept, tyre := shape(t, l, draw.BandSwept), shape(t, l, draw.Outline)
			for _, p := range tyre {
				if in := p.Add(draw.Point{X: 654, Y: 0}.Sub(p).Mul(0.002)); !inShape(swept, in) {
					t.Errorf("travel %g, rack %g: %v of the tyre is outside", travel, rack, p)
				}
			}
			for i := range 24 {
				sin, cos := math.Sincos(float64(i) * 15.3 * degree)
				far := wideTyre.Reach(&out.Left, kinematics.Vec{X: -sin, Y: cos})
				most := math.Inf(-1)
				for _, p := range tyre {
					most = max(most, p.X*cos+p.Y*sin)
				}
				if most > far+1e-9 || most < far-aboveSag {
					t.Errorf("travel %g, rack %g: the tyre reaches %v, not %v", travel, rack, most, far)
				}
			}
		}
	}
}

// The outline as drawn is the one given, thinned: no corner is far from it, and
// in roll it leans with the body.
func TestTheSweptOutlineIsTheOneGiven(t *testing.T) {
	in := roomy(t)
	l, _ := build(t, fitted(draw.View{W: 900, H: 700}, in), in)
	c := shape(t, l, draw.BandSwept)
	if len(c) < 100 || len(c) > len(in.Swept[0])/2 {
		t.Errorf("%d corners drawn of %d", len(c), len(in.Swept[0]))
	}
	worst := 0.0
	for _, q := range in.Swept[0] {
		p, off := draw.Point{X: q.X, Y: q.Y}, math.Inf(1)
		for i, a := range c {
			off = min(off, distance(p, a, c[(i+1)%len(c)]))
		}
		worst = max(worst, off)
	}
	if worst > 0.15 {
		t.Errorf("the line drawn stands %v mm off", worst)
	}
	in.Roll = 2.9 * degree
	l, out := build(t, fitted(draw.View{W: 900, H: 700}, in), in)
	if first, want := shape(t, l, draw.BandSwept)[0], out.Carries[clearance.OnBody].At(kinematics.Vec{Y: in.Swept[0][0].X, Z: in.Swept[0][0].Y}); apart(first, front(1, want)) > 1e-9 || first.X == in.Swept[0][0].X {
		t.Errorf("in roll the outline begins at %v, not %v", first, want)
	}
}

// The line of a least gap is there in its pose alone, as long as the gap in
// space, from the obstacle's surface to the tyre's.
func TestLeastGapIsDrawnInItsPose(t *testing.T) {
	for i, o := range roomy(t).Obstacles {
		if o.Carrier == clearance.OnUpright {
			continue
		}
		in := roomy(t)
		in.Overlays, in.Obstacles = Clearance, []Obstacle{o}
		in.Travel, in.Rack = o.Travel, o.Rack
		v := fitted(draw.View{W: 900, H: 700}, in)
		l, out := build(t, v, in)
		ends := lines(l, draw.DimensionNow)
		if len(ends) != 1 {
			t.Errorf("%s: %d lines in the pose of its least gap", o.Name, len(ends))
			continue
		}
		way := gapWay(&wideTyre, &out.Left, o.At)
		if math.Abs(r3.Norm(way)-1) > 1e-9 {
			t.Errorf("%s: the way has length %v", o.Name, r3.Norm(way))
		}
		surface := r3.Sub(o.At, r3.Scale(o.Thick, way))
		tyre := onTyre(&wideTyre, &out.Left, r3.Sub(surface, r3.Scale(o.Gap, way)))
		if long := r3.Norm(r3.Sub(surface, tyre)); o.Gap > 0 && math.Abs(long-o.Gap) > 0.02 {
			t.Errorf("%s: the line is %v long, the gap %v", o.Name, long, o.Gap)
		}
		if gap := wideTyre.Gap(&out.Left, tyre); math.Abs(gap) > 0.05 {
			t.Errorf("%s: the line ends %v mm off the tyre", o.Name, gap)
		}
		if apart(ends[0][0], front(1, surface)) > 1e-9 || apart(ends[0][1], front(1, tyre)) > 1e-9 {
			t.Errorf("%s: drawn from %v to %v", o.Name, ends[0][0], ends[0][1])
		}
		in.Travel += 0.3
		if l, _ = build(t, v, in); i == 0 && len(lines(l, draw.DimensionNow)) > 0 {
			t.Errorf("%s: its line stands in another pose", o.Name)
		}
	}
}

// What is fitted holds the swept outline's width, with and without the rest.
func TestFitHoldsTheSweptWidth(t *testing.T) {
	in := roomy(t)
	for _, b := range []draw.Box{Fit(in), func() draw.Box { in.Overlays = Clearance; return Fit(in) }()} {
		for _, q := range in.Swept[0] {
			if q.X > b.Max.X {
				t.Fatalf("the outline reaches %v, the picture %v", q.X, b.Max.X)
			}
		}
	}
	in.Overlays = 0
	if b := Fit(in); b.Max.X > 742+290 {
		t.Errorf("without the overlay there is room for it: %v", b.Max.X)
	}
}
