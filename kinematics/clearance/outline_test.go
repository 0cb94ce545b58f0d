package clearance

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// within tells whether a point is inside a closed polygon, by the winding
// number, and how far it is from its line.
func within(line []r2.Vec, q r2.Vec) (inside bool, off float64) {
	winding, off := 0.0, math.Inf(1)
	for i, a := range line {
		b := line[(i+1)%len(line)]
		u, v := r2.Sub(a, q), r2.Sub(b, q)
		winding += math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
		off = min(off, segment(a, b, q))
	}
	return winding > math.Pi, off
}

func segment(a, b, q r2.Vec) float64 {
	d := r2.Sub(b, a)
	t := max(0, min(r2.Dot(r2.Sub(q, a), d)/r2.Norm2(d), 1))
	return r2.Norm(r2.Sub(q, r2.Add(a, r2.Scale(t, d))))
}

var outlineCases = []struct {
	name   string
	corner kinematics.Corner
	tyre   Tyre
	span   Span
}{
	{"ahead, wide", ahead(), wide(), span()},
	{"behind, plain, long travel", behind(), plain(), Span{Bump: 95, Droop: 88, Left: 55, Right: 43}},
	{"rear axle", behind(), wide(), Span{Bump: 71, Droop: 49}},
}

// The outline holds every point of the tyre at poses drawn from the whole
// span, its corners above all.
func TestOutlineHoldsTheTyre(t *testing.T) {
	for _, tt := range outlineCases {
		for view := FrontView; view <= PlanView; view++ {
			t.Run(fmt.Sprint(tt.name, view), func(t *testing.T) {
				r := seeded(t, 640)
				m := checkcorner.New(t, tt.corner)
				line, err := Outline(m, tt.tyre, tt.span, view, true)
				if err != nil {
					t.Fatal(err)
				}
				o := newBuckets(line)
				pick := func(lo, hi float64) float64 {
					switch r.IntN(4) {
					case 0:
						return lo
					case 1:
						return hi
					}
					return lo + (hi-lo)*r.Float64()
				}
				for range 160 {
					p := checkcorner.At(t, m, pick(-tt.span.Droop, tt.span.Bump), pick(-tt.span.Right, tt.span.Left))
					surface(tt.tyre, &p, 6000, func(s Vec) {
						if q := view.flat(s); !o.holds(q) {
							_, off := within(line, q)
							t.Fatalf("travel %g, rack %g: point %v is %.4f mm outside", p.Travel, p.Rack, q, off)
						}
					})
				}
			})
		}
	}
}

// buckets hold a polygon's edges by the columns of X they cross, 2 mm wide.
type buckets struct {
	line  []r2.Vec
	first float64
	edges [][]int
}

func newBuckets(line []r2.Vec) *buckets {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range line {
		lo, hi = min(lo, q.X), max(hi, q.X)
	}
	b := &buckets{line, lo, make([][]int, int((hi-lo)/2)+1)}
	for i, p := range line {
		q := line[(i+1)%len(line)]
		for k := int((min(p.X, q.X) - lo) / 2); k <= int((max(p.X, q.X)-lo)/2); k++ {
			b.edges[k] = append(b.edges[k], i)
		}
	}
	return b
}

// holds counts the edges above a point: the even-odd rule.
func (b *buckets) holds(q r2.Vec) bool {
	k := int(math.Floor((q.X - b.first) / 2))
	if k < 0 || k >= len(b.edges) {
		return false
	}
	odd := false
	for _, i := range b.edges[k] {
		a, c := b.line[i], b.line[(i+1)%len(b.line)]
		if (a.X > q.X) != (c.X > q.X) && q.Y < a.Y+(q.X-a.X)/(c.X-a.X)*(c.Y-a.Y) {
			odd = !odd
		}
	}
	return odd
}

// No corner of the outline stands more than OutlineExcess off the tyre: seen
// square to the view, the gap of the nearest pose found by walking from a grid.
func TestOutlineStaysByTheTyre(t *testing.T) {
	for _, tt := range outlineCases {
		for view := FrontView; view <= PlanView; view++ {
			t.Run(fmt.Sprint(tt.name, view), func(t *testing.T) {
				m := checkcorner.New(t, tt.corner)
				line, err := Outline(m, tt.tyre, tt.span, view, true)
				if err != nil {
					t.Fatal(err)
				}
				worst := math.Inf(-1)
				for i := 0; i < len(line); i += 199 {
					worst = max(worst, offTyre(t, m, tt.tyre, tt.span, view, line[i]))
				}
				if worst > OutlineExcess || worst < 0 {
					t.Errorf("the farthest corner is %.4f mm off the tyre, want 0 to %g", worst, OutlineExcess)
				}
			})
		}
	}
}

// offTyre is how far a point of the view lies off the tyre's shape there, over
// all poses: the largest excess over the support in any direction is the
// distance to a convex shape, and the least over poses is sought one
// rack after the other for one travel after the other.
func offTyre(t *testing.T, m *kinematics.Mechanism, tyre Tyre, s Span, view View, q r2.Vec) float64 {
	prof := tyre.profile()
	off := func(travel, rack float64) float64 {
		p := checkcorner.At(t, m, travel, rack)
		c, spin := view.flat(p.WheelCentre), view.flat(p.Spin)
		excess := func(a float64) float64 {
			sin, cos := math.Sincos(a)
			d := r2.Vec{X: cos, Y: sin}
			return r2.Dot(d, r2.Sub(q, c)) - prof.support(r2.Dot(d, spin))
		}
		best, at := math.Inf(-1), 0.0
		for k := range 90 {
			if e := excess(float64(k) * math.Pi / 45); e > best {
				best, at = e, float64(k)*math.Pi/45
			}
		}
		for step := math.Pi / 90; step > 1e-6; step /= 2 {
			for _, a := range [...]float64{at - step, at + step} {
				if e := excess(a); e > best {
					best, at = e, a
				}
			}
		}
		return best
	}
	return leastOver(-s.Droop, s.Bump, 7, func(h float64) float64 {
		return leastOver(-s.Right, s.Left, 33, func(k float64) float64 { return off(h, k) })
	})
}

// leastOver returns the least of f over a span: the best of n looks, and
// golden section between its neighbours.
func leastOver(lo, hi float64, n int, f func(float64) float64) float64 {
	if lo == hi {
		return f(lo)
	}
	step := (hi - lo) / float64(n-1)
	best, at := math.Inf(1), lo
	for i := range n {
		if x := lo + float64(i)*step; f(x) < best {
			best, at = f(x), x
		}
	}
	a, b := max(lo, at-step), min(hi, at+step)
	for b-a > 2e-3 {
		x1, x2 := b-0.618*(b-a), a+0.618*(b-a)
		f1, f2 := f(x1), f(x2)
		best = min(best, f1, f2)
		if f1 < f2 {
			b = x2
		} else {
			a = x1
		}
	}
	return best
}

func TestOutlineThatIsNone(t *testing.T) {
	m := checkcorner.New(t, ahead())
	if _, err := Outline(m, Tyre{Radius: 300}, span(), FrontView, false); err == nil {
		t.Error("the outline of no tyre")
	}
	thin := Tyre{Radius: 60, Section: 31, Tread: 11, Shoulder: 7, Widest: 44}
	if _, err := Outline(m, thin, Span{Bump: 95, Droop: 90, Left: 50, Right: 50}, FrontView, false); !errors.Is(err, ErrOutline) {
		t.Errorf("a wheel smaller than its travel: %v", err)
	}
}

// BenchmarkOutline draws both views, fine.
func BenchmarkOutline(b *testing.B) { benchOutline(b, true) }

// BenchmarkOutlineCoarse draws both views for a hand that still moves.
func BenchmarkOutlineCoarse(b *testing.B) { benchOutline(b, false) }

func benchOutline(b *testing.B, fine bool) {
	m := checkcorner.New(b, ahead())
	for b.Loop() {
		for view := FrontView; view <= PlanView; view++ {
			if _, err := Outline(m, wide(), span(), view, fine); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// Seen from above, nose down: what stands ahead is low in the picture, what
// stands outboard on its right.
func TestPlanIsSeenFromAbove(t *testing.T) {
	c := ahead()
	c.Hub.X = 83
	line, err := Outline(checkcorner.New(t, c), wide(), Span{}, PlanView, true)
	if err != nil {
		t.Fatal(err)
	}
	lo, hi := line[0], line[0]
	for _, p := range line {
		lo, hi = r2.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}, r2.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	p := checkcorner.At(t, checkcorner.New(t, c), 0, 0)
	if y := (lo.Y + hi.Y) / 2; math.Abs(y+p.WheelCentre.X) > OutlineExcess || p.WheelCentre.X < 80 {
		t.Errorf("the tyre stands about %.2f in the plan, its centre at x = %.2f", y, p.WheelCentre.X)
	}
	if x := (lo.X + hi.X) / 2; math.Abs(x-p.WheelCentre.Y) > OutlineExcess {
		t.Errorf("the tyre stands about %.2f aside, its centre at y = %.2f", x, p.WheelCentre.Y)
	}
}

// A wheel that stands a little farther passes the shape by just as much, in any
// direction, and by nothing once it is in.
func TestGainOfAnOutline(t *testing.T) {
	tyre := wide()
	for _, by := range []r2.Vec{{X: 0.7}, {X: -0.31}, {Y: 1.4}, {X: 0.6, Y: -0.8}} {
		o := outliner{sag: 1e-4, profile: tyre.profile(), first: around(outlineFirst), ray: around(outlineRays), radius: make([]float64, outlineRays)}
		still := shadow{spin: r2.Vec{X: 0.28, Y: -0.1}, known: true}
		if _, err := o.cover(&still); err != nil {
			t.Fatal(err)
		}
		moved := still
		moved.centre = by
		// Along a flank the shape moves within itself: most is passed across an edge.
		gain, err := o.cover(&moved)
		again, _ := o.cover(&moved)
		if err != nil || gain < r2.Norm(by)*0.6 || gain > r2.Norm(by)*6 || again > 1e-9 {
			t.Errorf("moved by %v it gains %.4f, then %g, %v", by, gain, again, err)
		}
	}
}
