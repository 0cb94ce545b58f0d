package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// TestMeetSphere: the meeting point lies on circle and sphere, on its side,
// for circles and spheres of all sizes and directions.
func TestMeetSphere(t *testing.T) {
	r := seeded(t, 111)
	vec := func(size float64) Vec {
		return Vec{X: size * r.NormFloat64(), Y: size * r.NormFloat64(), Z: size * r.NormFloat64()}
	}
	met := 0
	for range 20_000 {
		size := math.Pow(10, 3.5*r.Float64()) // 1 mm to 3 m
		c := circle{vec(500), unit(vec(1)), size * (0.05 + r.Float64())}
		q, radius := r3.Add(c.centre, vec(size)), size*2*r.Float64()
		left, okL := c.meetSphere(q, radius, 1)
		right, okR := c.meetSphere(q, radius, -1)
		short, tooLarge := c.miss(q, radius)
		if okL != okR || okL != (short == 0) {
			t.Fatalf("circle %+v, sphere %v %g: meets %v and %v, miss %g", c, q, radius, okL, okR, short)
		}
		if !okL {
			near, far := reachOf(&c, q)
			if tooLarge && !(radius > far) || !tooLarge && !(radius < near) {
				t.Errorf("radius %g, the circle lies from %g to %g, too large: %v", radius, near, far, tooLarge)
			}
			other := radius + short*1.001
			if tooLarge {
				other = radius - short*1.001
			}
			if _, ok := c.meetSphere(q, other, 1); !ok && short > 1e-6 {
				t.Errorf("radius %g misses by %g, yet %g does not meet", radius, short, other)
			}
			continue
		}
		met++
		for side, p := range map[float64]Vec{1: left, -1: right} {
			e := r3.Sub(p, c.centre)
			near(t, "radius", r3.Norm(e), c.radius, 1e-9)
			near(t, "height over the circle's plane", r3.Dot(e, c.axis), 0, 1e-9)
			near(t, "distance to the sphere's centre", r3.Norm(r3.Sub(p, q)), radius, 1e-7)
			if c.isClear(p, q, clearance{open: 1e-12}) && c.sideOf(p, q) != side {
				t.Errorf("the root of side %g stands on side %g", side, c.sideOf(p, q))
			}
		}
		if t.Failed() {
			t.Fatalf("circle %+v, sphere %v %g", c, q, radius)
		}
	}
	t.Logf("%d of 20000 meet", met)
	if met < 5000 {
		t.Error("too few meet")
	}
}

// reachOf is the least and the greatest distance to points all round a circle.
func reachOf(c *circle, q Vec) (least, most float64) {
	u := unit(r3.Cross(c.axis, Vec{X: 0.3, Y: -0.8, Z: 0.5}))
	v := r3.Cross(c.axis, u)
	least = math.Inf(1)
	for i := range 90 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 45)
		d := r3.Norm(r3.Sub(r3.Add(c.centre, r3.Scale(c.radius, r3.Add(r3.Scale(cos, u), r3.Scale(sin, v)))), q))
		least, most = min(least, d), max(most, d)
	}
	return least, most
}

// TestMeetSphereTouching: a sphere that only touches is met where it touches,
// a hair short of it too, and a little more is a miss.
func TestMeetSphereTouching(t *testing.T) {
	r := seeded(t, 112)
	clamped := 0
	for range 5_000 {
		axis := unit(Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
		across := unit(r3.Cross(axis, Vec{X: r.NormFloat64(), Y: 1, Z: 0.3}))
		c := circle{Vec{X: 11, Y: 320, Z: 210}, axis, 150 + 200*r.Float64()}
		for _, touch := range []struct{ place, radius float64 }{
			{c.radius + 270.5, 270.5},        // outside
			{c.radius - 97.25, 97.25},        // inside
			{c.radius * 0.3, c.radius * 1.3}, // around
		} {
			q := r3.Add(c.centre, r3.Scale(touch.place, across))
			want := r3.Add(c.centre, r3.Scale(c.radius, across))
			if touch.radius > c.radius {
				want = r3.Sub(c.centre, r3.Scale(c.radius, across))
			}
			if touch.place > c.radius {
				want = r3.Add(c.centre, r3.Scale(c.radius, across))
			}
			p, ok := c.meetSphere(q, touch.radius, 1)
			if !ok {
				t.Fatalf("touching sphere is missed: %+v %+v", c, touch)
			}
			nearVec(t, "touching point", p, want, 2e-3)
			near(t, "radius", r3.Norm(r3.Sub(p, c.centre)), c.radius, 1e-9)
			// Shrink or grow away from the circle.
			away := -1.0
			if touch.radius > c.radius && touch.place < c.radius {
				away = 1
			}
			if _, ok := c.meetSphere(q, touch.radius+away*1e-11, -1); ok {
				clamped++
			}
			if p, ok := c.meetSphere(q, touch.radius+away*1e-6, -1); ok {
				t.Errorf("a sphere a millionth of a mm away meets at %v: %+v %+v", p, c, touch)
			}
		}
	}
	if clamped < 14_900 {
		t.Errorf("only %d of 15000 hairs are bridged", clamped)
	}
}

// TestMeetSphereOnAxis: a sphere's centre on the axis is equally far from all
// of the circle; there is no answer and no NaN.
func TestMeetSphereOnAxis(t *testing.T) {
	c := circle{Vec{X: 3, Y: 310, Z: 205}, Vec{X: 1}, 377}
	for _, x := range []float64{0, 41.5} {
		q := Vec{X: 3 + x, Y: 310, Z: 205}
		if p, ok := c.meetSphere(q, math.Hypot(377, x), 1); ok {
			t.Errorf("meets at %v", p)
		}
	}
}

// TestRoot: the bracketed search finds roots of hard functions, and ends when
// the bracket holds no further number.
func TestRoot(t *testing.T) {
	for _, check := range []struct {
		what      string
		f         func(float64) float64
		a, b, at  float64
		tol, near float64
	}{
		{"line", func(x float64) float64 { return 3*x - 7 }, -11, 5, 7.0 / 3, 1e-12, 1e-12},
		{"cosine", func(x float64) float64 { return math.Cos(x) - x }, 0.1, 1.7, 0.7390851332151607, 1e-14, 1e-14},
		{"flat", func(x float64) float64 { return math.Pow(x-0.3, 9) }, -1.1, 1.9, 0.3, 1e-40, 1e-3},
		{"steep", func(x float64) float64 { return math.Cbrt(x - 0.37) }, -4, 9, 0.37, 1e-300, 1e-15},
		{"jump", func(x float64) float64 { return math.Copysign(1, x-0.41) }, -2, 3, 0.41, 1e-9, 1e-15},
		{"at the start", func(x float64) float64 { return x - 2.5 }, 2.5, 8, 2.5, 0, 0},
		{"at the end", func(x float64) float64 { return x - 8 }, 2.5, 8, 8, 0, 0},
	} {
		near(t, check.what, root(check.f, check.a, check.b, check.tol), check.at, check.near)
	}
}
