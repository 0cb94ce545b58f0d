package clearance

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// tenObstacles stand about the wheel of ahead and behind.
func tenObstacles() []Obstacle {
	return []Obstacle{
		{Name: "inner wing", A: Vec{X: 284, Y: 611, Z: 402}, Wish: 10},
		{Name: "bump stop", A: Vec{X: -31, Y: 590, Z: 655}, Thick: 14, Wish: 10},
		{Name: "chassis rail", Shape: Line, A: Vec{X: -420, Y: 455, Z: 242}, B: Vec{X: 520, Y: 431, Z: 236}, Thick: 20, Wish: 10},
		{Name: "wing lip", Shape: Circle, A: Vec{X: 8, Y: 915, Z: 330}, B: Vec{X: 0.03, Y: 1, Z: -0.06}, Radius: 371, Wish: 8},
		{Name: "strut tube", Shape: Line, A: Vec{X: 355, Y: 530, Z: 210}, B: Vec{X: 310, Y: 505, Z: 720}, Thick: 16, Wish: 10},
		{Name: "cross tube, end on", Shape: Line, A: Vec{X: -170, Y: 96, Z: 372}, B: Vec{X: -244, Y: 541, Z: 361}, Thick: 11, Wish: 10},
		{Name: "damper body", Shape: Line, Carrier: OnDamper, A: Vec{X: -9, Y: 433, Z: 560}, B: Vec{X: -6, Y: 512, Z: 312}, Thick: 31, Wish: 6},
		{Name: "lamp pod", Shape: Circle, A: Vec{X: 410, Y: 690, Z: 500}, B: Vec{X: 1, Y: 0.2}, Radius: 70, Wish: 10},
		{Name: "caliper", Shape: Line, Carrier: OnUpright, A: Vec{X: 88, Y: 722, Z: 441}, B: Vec{X: 131, Y: 719, Z: 396}, Thick: 9, Wish: 5},
		{Name: "outer end", Carrier: OnUpright, A: Vec{X: 140, Y: 680, Z: 230}, Thick: 14, Wish: 5},
	}
}

func ring() Ring { return Ring{Barrel: 411, Seat: 457, Overall: 292} }
func span() Span { return Span{Bump: 62, Droop: 54, Left: 47, Right: 51} }

func mustSweep(t testing.TB, m *kinematics.Mechanism, c Case, g Grid) Result {
	t.Helper()
	r, err := Sweep(m, c, g)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// sampled are points all along an obstacle as it stands in a pose, on a line
// `step` apart.
func sampled(o *Obstacle, c *kinematics.Corner, p *kinematics.Pose, step float64) (points []Vec) {
	switch o.Shape {
	case Point:
		points = []Vec{o.A}
	case Line:
		n := math.Ceil(r3.Norm(r3.Sub(o.B, o.A)) / step)
		for i := 0.0; i <= n; i++ {
			points = append(points, r3.Add(r3.Scale(1-i/n, o.A), r3.Scale(i/n, o.B)))
		}
	case Circle:
		// Any two directions square to the circle's.
		e := r3.Unit(r3.Cross(o.B, Vec{X: 0.3, Y: -0.2, Z: 0.9}))
		f := r3.Unit(r3.Cross(e, o.B))
		n := math.Ceil(2 * math.Pi * o.Radius / step)
		for i := 0.0; i < n; i++ {
			s, k := math.Sincos(2 * math.Pi * i / n)
			points = append(points, r3.Add(o.A, r3.Add(r3.Scale(o.Radius*k, e), r3.Scale(o.Radius*s, f))))
		}
	}
	if o.Carrier == OnDamper {
		// On the damper's own line only: along it and off it are kept.
		was, is := r3.Unit(r3.Sub(c.Spring.Moving, c.Spring.Body)), r3.Unit(r3.Sub(p.SpringMoving, p.SpringBody))
		turn := r3.NewRotation(math.Acos(r3.Dot(was, is)), r3.Cross(was, is))
		for i, q := range points {
			points[i] = r3.Add(c.Spring.Body, turn.Rotate(r3.Sub(q, c.Spring.Body)))
		}
	}
	return points
}

// Every answer over a grid is the least of all poses and of all points of the
// obstacle, and stands where it says.
func TestSweepAgainstAllPosesAndPoints(t *testing.T) {
	for _, corner := range []kinematics.Corner{ahead(), behind()} {
		m := checkcorner.New(t, corner)
		c := Case{wide(), ring(), tenObstacles()}
		g := Grid{Travel: spread(-54, 62, 7), Rack: spread(-51, 47, 6), Roll: []float64{0}, Bump: 62, Droop: 54}
		got := mustSweep(t, m, c, g)
		if got.Unmet != 0 || got.Poses != 43 {
			t.Fatalf("%d poses, %d unmet", got.Poses, got.Unmet)
		}
		for i := range c.Obstacles {
			o, a := &c.Obstacles[i], &got.Answers[i]
			least := math.Inf(1)
			at := func(travel, rack float64) float64 {
				p, best := checkcorner.At(t, m, travel, rack), math.Inf(1)
				for _, q := range sampled(o, &corner, &p, 0.08) {
					best = min(best, c.Tyre.Gap(&p, q)-o.Thick)
				}
				return best
			}
			if o.Carrier == OnUpright {
				continue
			}
			for _, travel := range append([]float64{0}, g.Travel...) {
				for _, rack := range append([]float64{0}, g.Rack...) {
					if (travel == 0) == (rack == 0) || rack != 0 {
						least = min(least, at(travel, rack))
					}
				}
			}
			if a.Gap > least+1e-9 || a.Gap < least-0.04 {
				t.Errorf("%s: gap %.4f, all points %.4f", o.Name, a.Gap, least)
			}
			if there := at(a.Travel, a.Rack); math.Abs(there-a.Gap) > 0.04 {
				t.Errorf("%s: gap %.4f, but %.4f at travel %g, rack %g", o.Name, a.Gap, there, a.Travel, a.Rack)
			}
			if rest := at(0, 0); math.Abs(rest-a.Rest) > 0.04 {
				t.Errorf("%s: %.4f at rest, all points %.4f", o.Name, a.Rest, rest)
			}
			if a.Keeps() != (a.Gap >= o.Wish) || (a.Err() != nil) != (a.Rest < 0) {
				t.Errorf("%s: keeps %v, %v for gap %g, rest %g", o.Name, a.Keeps(), a.Err(), a.Gap, a.Rest)
			}
		}
	}
}

// The least gap of a point to the swept tyre, between the poses too, against a
// sample of a million surface points in each pose near the one found.
func TestPolishedGapOfAPoint(t *testing.T) {
	m := checkcorner.New(t, ahead())
	c := Case{Tyre: wide(), Obstacles: []Obstacle{{Name: "corner of the inner wing", A: Vec{X: 318, Y: 560, Z: 371}, Wish: 10}}}
	a := mustSweep(t, m, c, Fine(span())).Answers[0]
	least := math.Inf(1)
	for i := -2.0; i <= 2; i++ {
		for k := -2.0; k <= 2; k++ {
			travel, rack := max(-54, min(a.Travel+7*i, 62)), max(-51, min(a.Rack+6*k, 47))
			p := checkcorner.At(t, m, travel, rack)
			surface(c.Tyre, &p, 1_100_000, func(s Vec) { least = min(least, r3.Norm2(r3.Sub(s, c.Obstacles[0].A))) })
		}
	}
	if least = math.Sqrt(least); math.Abs(a.Gap-least) > 0.05 || a.Gap < 8 {
		t.Errorf("gap %.4f at travel %g, rack %g; sample %.4f", a.Gap, a.Travel, a.Rack, least)
	}
	// No pose of a grid seven times as fine comes nearer.
	dense := Grid{Travel: spread(-54, 62, 281), Rack: spread(-51, 47, 141), Roll: []float64{0}}
	if d := mustSweep(t, m, c, dense).Answers[0]; a.Gap > d.Gap+1e-6 || a.Gap < d.Gap-0.05 {
		t.Errorf("polished %.6f at %g, %g; dense grid %.6f at %g, %g", a.Gap, a.Travel, a.Rack, d.Gap, d.Travel, d.Rack)
	}
}

// Every obstacle's polished gap is that of a grid many times as fine.
func TestPolishMeetsADenseGrid(t *testing.T) {
	for _, corner := range []kinematics.Corner{ahead(), behind()} {
		m, c := checkcorner.New(t, corner), Case{wide(), ring(), tenObstacles()}
		fine := mustSweep(t, m, c, Fine(span()))
		dense := mustSweep(t, m, c, Grid{Travel: spread(-54, 62, 161), Rack: spread(-51, 47, 121), Roll: []float64{0}})
		coarse := mustSweep(t, m, c, Coarse(span()))
		for i, f := range fine.Answers {
			d, k := dense.Answers[i], coarse.Answers[i]
			if f.Gap > d.Gap+1e-3 || f.Gap < d.Gap-0.3 {
				t.Errorf("%s: fine %.4f at %g, %g; dense %.4f at %g, %g", f.name, f.Gap, f.Travel, f.Rack, d.Gap, d.Travel, d.Rack)
			}
			if k.Gap < f.Gap-1e-3 || k.Gap > f.Gap+6 {
				t.Errorf("%s: coarse %.3f, fine %.3f", f.name, k.Gap, f.Gap)
			}
		}
	}
}

// What the upright carries keeps its gap at all travels; both gaps by hand
// from the places along and off the spin axis.
func TestOnTheUpright(t *testing.T) {
	corner := ahead()
	corner.Camber, corner.Toe = 0, 0
	m := checkcorner.New(t, corner)
	c := Case{Tyre: wide(), Ring: ring(), Obstacles: JointsInRim(&corner, 14, 17, 19, WishInRim)}
	// Wheel centre (1, 738, 309): both joints stand inside the barrel of 205.5.
	up := corner.Upper.Ball
	want := []float64{205.5 - math.Hypot(139, 79) - 14, 205.5 - math.Hypot(9, 129) - 17, 205.5 - math.Hypot(up.X-1, up.Z-309) - 19}
	got := mustSweep(t, m, c, Fine(span()))
	for _, at := range [][2]float64{{0, 0}, {41, -33}, {-50, 20}} {
		gaps, err := GapAt(m, c, at[0], at[1])
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range want {
			if math.Abs(gaps[i]-w) > 1e-9 && at[0] == 0 || math.Abs(got.Answers[i].Gap-w) > 1e-9 {
				t.Errorf("joint %d at %v: gap %.6f, sweep %.6f, want %.6f", i, at, gaps[i], got.Answers[i].Gap, w)
			}
		}
	}
	// A line on the upright, against all its points.
	line := tenObstacles()[8]
	c.Obstacles = []Obstacle{line}
	p, least := checkcorner.At(t, m, 0, 0), math.Inf(1)
	prof, s := c.Tyre.profile(), standOf(&p)
	for _, q := range sampled(&line, &corner, &p, 0.01) {
		u, v := s.polar(q)
		least = min(least, c.Ring.distance(&prof, u, v)-line.Thick)
	}
	if a := mustSweep(t, m, c, Fine(span())).Answers[0]; math.Abs(a.Gap-least) > 1e-3 || a.Travel != 0 || a.Rack != 0 {
		t.Errorf("caliper: gap %.5f, all points %.5f", a.Gap, least)
	}
}

// The nearest place along a line in the ring is found, inside as well as at either
// end, against its points one by one.
func TestTheNearestPlaceInTheRing(t *testing.T) {
	r := seeded(t, 327)
	m := checkcorner.New(t, ahead())
	p := checkcorner.At(t, m, 0, 0)
	s, c := standOf(&p), Case{Tyre: wide(), Ring: ring()}
	const lines, points, step = 60, 4000, 0.011
	ends := [2]int{}
	for range lines {
		// About the edge of the rim, which is round: the nearest place may be anywhere.
		way := r3.Unit(Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
		radial := r3.Unit(r3.Cross(s.spin, Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}))
		middle := r3.Add(s.centre, r3.Add(r3.Scale(-150-30*r.Float64(), s.spin), r3.Scale(170+70*r.Float64(), radial)))
		from := r3.Add(middle, r3.Scale(-points*step*r.Float64(), way))
		line := Obstacle{Carrier: OnUpright, Shape: Line, A: from, B: r3.Add(from, r3.Scale(points*step, way)), Thick: 3}
		c.Obstacles = []Obstacle{line}
		w, err := newWork(m, c)
		if err != nil {
			t.Fatal(err)
		}
		gap, at := w.onUpright(&w.curves[0], &s)
		least, best := math.Inf(1), 0
		for k := range points + 1 {
			u, v := s.polar(r3.Add(from, r3.Scale(float64(k)*step, way)))
			if g := c.Ring.distance(&w.profile, u, v) - line.Thick; g < least {
				least, best = g, k
			}
		}
		if best == 0 || best == points {
			ends[best/points]++
		}
		off := r3.Norm(r3.Sub(at, r3.Add(from, r3.Scale(float64(best)*step, way))))
		if math.Abs(gap-least) > 0.006 || off > 0.2 {
			t.Errorf("from %v towards %v: gap %.5f, point by point %.5f, %.3f mm off", from, way, gap, least, off)
		}
	}
	if inside := lines - ends[0] - ends[1]; ends[0] < 5 || ends[1] < 5 || inside < 5 {
		t.Errorf("the lines are nearest at %v ends, and %d inside", ends, inside)
	}
}

// In roll the wheel stands where heave and roll together bring it, and never
// past its stops.
func TestRollAddsTravel(t *testing.T) {
	m := checkcorner.New(t, ahead())
	c := Case{Tyre: wide(), Obstacles: tenObstacles()[1:2]} // above the tyre: least in full bump
	g := Grid{Travel: []float64{-11, 17}, Rack: []float64{-4}, Roll: []float64{0, rad(-2), rad(1.5)}, Bump: 62, Droop: 54}
	a := mustSweep(t, m, c, g).Answers[0]
	ax, err := m.Roll(rad(-2), 0) // the left side goes down, its wheel up
	if err != nil {
		t.Fatal(err)
	}
	if want := 17 + ax.Left.Travel; a.Roll != rad(-2) || math.Abs(a.Travel-want) > 1e-9 || want < 30 {
		t.Errorf("least gap at travel %g, roll %g; want travel %g", a.Travel, a.Roll, want)
	}
	gaps, err := GapAt(m, c, a.Travel, a.Rack)
	if err != nil || math.Abs(gaps[0]-a.Gap) > 1e-9 {
		t.Errorf("gap %g, there %v, %v", a.Gap, gaps, err)
	}
	g.Bump = 30
	if b := mustSweep(t, m, c, g).Answers[0]; b.Roll != 0 || b.Travel != 17 {
		t.Errorf("past the stop: travel %g, roll %g", b.Travel, b.Roll)
	}
}

// A corner that assembles over a part of the grid only says how much is left out.
func TestPosesOutOfReachAreCounted(t *testing.T) {
	m := checkcorner.New(t, ahead())
	c := Case{Tyre: plain(), Obstacles: tenObstacles()[:1]}
	r := mustSweep(t, m, c, Grid{Travel: []float64{0, 30, 900}, Rack: []float64{0, 13, -700}, Roll: []float64{0}})
	if r.Unmet != 5 || r.Poses != 5 {
		t.Errorf("%d poses, %d unmet; want 5 of each", r.Poses, r.Unmet)
	}
}

func TestObstaclesThatAreNone(t *testing.T) {
	m := checkcorner.New(t, ahead())
	bare := ahead()
	bare.Spring = kinematics.Spring{}
	tests := []struct {
		name string
		m    *kinematics.Mechanism
		edit func(*Obstacle)
		says string
	}{
		{"negative gap", m, func(o *Obstacle) { o.Wish = -3 }, `obstacle "rail": the wished gap is not between 0 and 500 mm (-3 mm)`},
		{"gap that is none", m, func(o *Obstacle) { o.Wish = math.NaN() }, "(NaN mm)"},
		{"far away", m, func(o *Obstacle) { o.A.Y = 1e5 }, "not within ±10 m"},
		{"no number", m, func(o *Obstacle) { o.A.Z = math.Inf(-1) }, "not within ±10 m"},
		{"thickness", m, func(o *Obstacle) { o.Thick = -1 }, "thickness"},
		{"no line", m, func(o *Obstacle) { o.Shape, o.B = Line, o.A }, "both ends stand in one place"},
		{"no circle", m, func(o *Obstacle) { o.Shape, o.B = Circle, Vec{Y: 1} }, "circle's radius"},
		{"no direction", m, func(o *Obstacle) { o.Shape, o.Radius = Circle, 44 }, "no direction"},
		{"no rim", m, func(o *Obstacle) { o.Carrier = OnUpright }, "the rim is not known"},
		{"no damper", checkcorner.New(t, bare), func(o *Obstacle) { o.Carrier = OnDamper }, "the corner has none"},
	}
	for _, tt := range tests {
		o := Obstacle{Name: "rail", A: Vec{X: 310, Y: 480, Z: 277}, Wish: 10}
		tt.edit(&o)
		_, err := Sweep(tt.m, Case{Tyre: wide(), Obstacles: []Obstacle{{A: Vec{X: 900}}, o}}, Coarse(span()))
		var e *ObstacleError
		if !errors.Is(err, ErrObstacle) || !errors.As(err, &e) || e.Index != 1 || e.Cure == "" || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.says)
		}
	}
	inside := Obstacle{Name: "damper", A: Vec{X: 20, Y: 700, Z: 410}}
	a := mustSweep(t, m, Case{Tyre: wide(), Obstacles: []Obstacle{inside}}, Coarse(span())).Answers[0]
	var e *InsideError
	if err := a.Err(); !errors.Is(err, ErrInside) || !errors.As(err, &e) || math.Abs(e.Depth+a.Rest) > 0 || e.Depth < 50 || !strings.Contains(err.Error(), `"damper": stands `) {
		t.Errorf("inside: %v", err)
	}
	if _, err := Sweep(m, Case{Tyre: Tyre{}}, Coarse(span())); err == nil {
		t.Error("a sweep of no tyre")
	}
	if _, err := Sweep(m, Case{Tyre: wide(), Ring: Ring{Barrel: 470, Seat: 457, Overall: 292}}, Coarse(span())); err == nil || !strings.Contains(err.Error(), "inside diameter 470 mm") {
		t.Errorf("a rim wider inside than out: %v", err)
	}
}

// BenchmarkClearance: ten obstacles over 41 x 21 poses, and between them.
func BenchmarkClearance(b *testing.B) {
	m, c, g := checkcorner.New(b, ahead()), Case{wide(), ring(), tenObstacles()}, Fine(span())
	for b.Loop() {
		if _, err := Sweep(m, c, g); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkClearanceCoarse is BenchmarkClearance for a hand that still moves.
func BenchmarkClearanceCoarse(b *testing.B) {
	m, c, g := checkcorner.New(b, ahead()), Case{wide(), ring(), tenObstacles()}, Coarse(span())
	for b.Loop() {
		if _, err := Sweep(m, c, g); err != nil {
			b.Fatal(err)
		}
	}
}
