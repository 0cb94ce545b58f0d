package draw

import (
	"math"
	"math/rand/v2"
	"testing"
)

// length returns the length of all paths of l and fails on a corner outside.
func length(t *testing.T, l *List, inside func(Point) bool) float64 {
	t.Helper()
	sum := 0.0
	for i := range l.Items() {
		c := l.Corners(&l.Items()[i])
		for k, p := range c {
			if !inside(p.At) {
				t.Fatalf("corner %v lies outside", p.At)
			}
			if k > 0 {
				sum += p.At.Sub(c[k-1].At).Len()
			}
		}
	}
	return sum
}

// What clipping keeps must have the length that dense sampling finds inside.
func TestClipKeepsTheInside(t *testing.T) {
	const seed = 771
	r := rand.New(rand.NewPCG(seed, 5))
	box := Box{Point{-31, 12}, Point{84, 57}}
	c, rad := Point{20, 31}, 37.0
	for step := range 300 {
		pts := make([]Point, 9)
		for i := range pts {
			pts[i] = Point{r.NormFloat64() * 90, r.NormFloat64() * 70}
		}
		sample := func(inside func(Point) bool) float64 {
			const n = 4000
			sum := 0.0
			for i := 1; i < len(pts); i++ {
				d := pts[i].Sub(pts[i-1])
				for k := range n {
					if inside(pts[i-1].Add(d.Mul((float64(k) + 0.5) / n))) {
						sum += d.Len() / n
					}
				}
			}
			return sum
		}
		var l List
		l.PolylineInBox(CurveNow, box, pts)
		want := sample(box.Has)
		if got := length(t, &l, box.Grow(1e-9).Has); math.Abs(got-want) > 1.2 {
			t.Fatalf("seed %d, step %d: %g mm in the box, sampled %g", seed, step, got, want)
		}
		l.Reset()
		l.PolylineInCircle(CurveNow, c, rad, pts)
		in := func(r float64) func(Point) bool {
			return func(p Point) bool { return p.Sub(c).Len() <= r }
		}
		want = sample(in(rad))
		if got := length(t, &l, in(rad+1e-9)); math.Abs(got-want) > 1.2 {
			t.Fatalf("seed %d, step %d: %g mm in the circle, sampled %g", seed, step, got, want)
		}
	}
}

// A line that leaves and comes back is two paths; one that stays is one.
func TestClipRuns(t *testing.T) {
	var l List
	box := Box{Point{0, 0}, Point{10, 8}}
	l.PolylineInBox(CurveNow, box, []Point{{1, 2}, {5, 3}, {14, 4}, {6, 7}, {2, 5}})
	if n := len(l.Items()); n != 2 {
		t.Fatalf("%d paths, want 2", n)
	}
	if c := l.Corners(&l.Items()[0]); len(c) != 3 || c[2].At.X != 10 {
		t.Errorf("first run %v", c)
	}
}
