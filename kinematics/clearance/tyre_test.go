package clearance

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics/internal/checkcorner"
)

// The gap of a point against a million points of the tyre's surface. Points
// 8 mm off and more, where the sample's own 1.5 mm spacing is worth 0.05 mm.
func TestGapAgainstAMillionPoints(t *testing.T) {
	r := seeded(t, 6)
	p := checkcorner.At(t, checkcorner.New(t, ahead()), 37, -21)
	for _, tyre := range []Tyre{wide(), plain()} {
		var points []Vec
		for len(points) < 24 {
			q := r3.Add(p.WheelCentre, Vec{X: 420 * (2*r.Float64() - 1), Y: 240 * (2*r.Float64() - 1), Z: 420 * (2*r.Float64() - 1)})
			if tyre.Gap(&p, q) > 8 {
				points = append(points, q)
			}
		}
		nearest := make([]float64, len(points))
		for i := range nearest {
			nearest[i] = math.Inf(1)
		}
		n := 0
		surface(tyre, &p, 1_100_000, func(s Vec) {
			n++
			for i, q := range points {
				nearest[i] = min(nearest[i], r3.Norm2(r3.Sub(s, q)))
			}
		})
		if n < 1_000_000 {
			t.Fatalf("%d points", n)
		}
		for i, q := range points {
			if got, want := tyre.Gap(&p, q), math.Sqrt(nearest[i]); math.Abs(got-want) > 0.05 {
				t.Errorf("tyre %+v, point %v: gap %.4f, nearest of the sample %.4f", tyre, q, got, want)
			}
		}
	}
}

// Every point of the surface has no gap; pushed outward or inward by some mm
// along the gap's own gradient, it has that gap.
func TestGapOnTheSurface(t *testing.T) {
	r := seeded(t, 61)
	p := checkcorner.At(t, checkcorner.New(t, behind()), -29, 14)
	for _, tyre := range []Tyre{wide(), plain()} {
		surface(tyre, &p, 3000, func(s Vec) {
			if g := tyre.Gap(&p, s); math.Abs(g) > 1e-9 {
				t.Fatalf("surface point %v: gap %g", s, g)
			}
			const h = 1e-4
			grad := Vec{
				X: tyre.Gap(&p, r3.Add(s, Vec{X: h})) - tyre.Gap(&p, r3.Sub(s, Vec{X: h})),
				Y: tyre.Gap(&p, r3.Add(s, Vec{Y: h})) - tyre.Gap(&p, r3.Sub(s, Vec{Y: h})),
				Z: tyre.Gap(&p, r3.Add(s, Vec{Z: h})) - tyre.Gap(&p, r3.Sub(s, Vec{Z: h})),
			}
			if length := r3.Norm(grad) / (2 * h); length < 0.999 {
				return // at the edge of the widest place the direction is not one
			}
			by := 13*r.Float64() - 3
			if g := tyre.Gap(&p, r3.Add(s, r3.Scale(by, r3.Unit(grad)))); math.Abs(g-by) > 1e-5 {
				t.Fatalf("point %v moved %g mm off: gap %g", s, by, g)
			}
		})
	}
}

// Support and distance are two descriptions of one convex body: the plane of
// the support touches, so the farthest surface point in a direction is there.
func TestReachIsTheFarthestPoint(t *testing.T) {
	r := seeded(t, 62)
	p := checkcorner.At(t, checkcorner.New(t, ahead()), 12, 33)
	for _, tyre := range []Tyre{wide(), plain()} {
		for range 12 {
			d := r3.Unit(Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
			far := math.Inf(-1)
			surface(tyre, &p, 200_000, func(s Vec) { far = max(far, r3.Dot(d, s)) })
			if got := tyre.Reach(&p, r3.Scale(2.7, d)); got < far-1e-9 || got > far+0.1 {
				t.Errorf("reach %v toward %v, sample %v", got, d, far)
			}
		}
	}
}

// The ring, against its own drawing: a grid of points of ring and tyre.
func TestRingDistance(t *testing.T) {
	r := seeded(t, 63)
	tyre, ring := wide(), Ring{Barrel: 411, Seat: 457, Overall: 292}
	if err := ring.Validate(tyre); err != nil {
		t.Fatal(err)
	}
	p := tyre.profile()
	solid := func(u, v float64) bool {
		rim := math.Abs(u) <= ring.Overall/2 && v >= ring.Barrel/2 && v <= ring.Seat/2+flangeHeight
		return rim || v >= ring.Seat/2 && p.distance(u, v) <= 0
	}
	const step = 0.4
	var cells [][2]float64
	for u := -160.0; u <= 160; u += step {
		for v := 190.0; v <= 320; v += step {
			if solid(u, v) {
				cells = append(cells, [2]float64{u, v})
			}
		}
	}
	for range 300 {
		u, v := 420*r.Float64()-210, 380*r.Float64()
		got := ring.distance(&p, u, v)
		if solid(u, v) {
			if got > 1e-9 {
				t.Fatalf("(%g, %g) is in the ring, distance %g", u, v, got)
			}
			continue
		}
		near := math.Inf(1)
		for _, c := range cells {
			near = min(near, math.Hypot(c[0]-u, c[1]-v))
		}
		if math.Abs(got-near) > 0.6 {
			t.Fatalf("(%g, %g): distance %g, nearest cell %g", u, v, got, near)
		}
	}
	// By hand: a joint 171.3 off the axis stands 34.2 inside a barrel of 205.5.
	if got := ring.distance(&p, -37, 171.3); math.Abs(got-34.2) > 1e-9 {
		t.Errorf("gap to the barrel %g, want 34.2", got)
	}
}

func TestTyreThatIsNone(t *testing.T) {
	good := wide()
	tests := []struct {
		name string
		edit func(*Tyre)
		says string
	}{
		{"radius", func(t *Tyre) { t.Radius = math.NaN() }, "tyre radius NaN mm"},
		{"section", func(t *Tyre) { t.Section = math.Inf(1) }, "section width +Inf mm"},
		{"tread", func(t *Tyre) { t.Tread = 286 }, "tread width 286 mm is not between 0 and 285 mm"},
		{"shoulder", func(t *Tyre) { t.Shoulder = 28 }, "shoulder radius 28 mm is not between 5 and 27 mm"},
		{"widest", func(t *Tyre) { t.Widest = 299 }, "widest place 299 mm"},
	}
	for _, tt := range tests {
		bad := good
		tt.edit(&bad)
		var e *TyreError
		if err := bad.Validate(); !errors.As(err, &e) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.says)
		}
	}
	if err := good.Validate(); err != nil {
		t.Error(err)
	}
}
