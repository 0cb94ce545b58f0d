package kinematics

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// What of a value is assumed counts if it is more than rounding and shows beside the
// whole: a hundredth of the band is where it begins to.
func TestRestsOn(t *testing.T) {
	for _, c := range []struct {
		square, all float64
		rests       bool
	}{{1e-20, 1e-19, false}, {1e-18, 1e-17, true}, {0.9e-4, 1, false}, {1.1e-4, 1, true}, {1, 1, true}} {
		if restsOn(c.square, c.all) != c.rests {
			t.Errorf("%+v", c)
		}
	}
}

// A value of nought has its interval about nought, one that is at infinity goes through
// it, and one that is neither is not known.
func TestIntervalsAtNoughtAndInfinity(t *testing.T) {
	c := randomCorner(rand.New(rand.NewPCG(3, 1)))
	at := c.TieRod.RackEnd.Z
	l, err := Linearise(&c, Evenly(1), func(c *Corner) ([]Value, error) {
		x := c.TieRod.RackEnd.Z - at
		return []Value{Number(x, true), {Num: 1, Den: x, OK: true}, {Num: 0, Den: 0, OK: true}}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	half, ok := l.Half(0)
	if i, known := l.Interval(0); !ok || !known || !(half > 0.9 && half <= 1) || math.Abs(i.Low+half) > 1e-9 || math.Abs(i.High-half) > 1e-9 {
		t.Errorf("nought lies in %+v, half %g", i, half)
	}
	if i, known := l.Interval(1); !known || !i.Infinite || math.Abs(i.Low-1/half) > 1e-6 || math.Abs(i.High+1/half) > 1e-6 {
		t.Errorf("infinity lies in %+v", i)
	}
	if i, known := l.Interval(2); known {
		t.Errorf("nothing lies in %+v", i)
	}
}

// The contact at rest needs no mechanism, and is that of one.
func TestRestContactIsTheMechanisms(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 2))
	for range 50 {
		c := randomCorner(r)
		c.Wheel.Offset, c.Wheel.Spacer = 40*r.Float64()-10, 30*r.Float64()
		m, err := New(&c)
		if err != nil {
			continue
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		nearVec(t, "contact", c.RestContact(), p.Contact, 1e-9)
	}
}

// Every place of an arm's plane that lies in the transverse plane lies on its line.
func TestArmLines(t *testing.T) {
	r := rand.New(rand.NewPCG(72, 2))
	vec := func() Vec { return Vec{X: 400*r.Float64() - 200, Y: 700 * r.Float64(), Z: 500 * r.Float64()} }
	for range 100 {
		on, axis, ball, x := vec(), vec(), vec(), 200*r.Float64()-100
		ny, nz, d := armLine(on, axis, ball, x)
		along := r3.Sub(ball, on)
		for range 3 {
			s := 2*r.Float64() - 1
			u := (x - on.X - s*axis.X) / along.X
			p := r3.Add(on, r3.Add(r3.Scale(s, axis), r3.Scale(u, along)))
			if size := math.Abs(ny*p.Y) + math.Abs(nz*p.Z) + math.Abs(d); math.Abs(ny*p.Y+nz*p.Z-d) > 1e-9*size {
				t.Fatalf("%+v is off the line by %g of %g", p, ny*p.Y+nz*p.Z-d, size)
			}
		}
	}
}

// What a value needs measured first is what moves it most over its range, and not what
// it moves most with.
func TestNeedsGoesByTheRange(t *testing.T) {
	c := randomCorner(rand.New(rand.NewPCG(3, 1)))
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	lower, upper := Coordinate{Point: LowerBall, Axis: 1}, Coordinate{Point: UpperBall, Axis: 1}
	for _, want := range []Coordinate{lower, upper} {
		w := Evenly(1)
		for _, at := range []Coordinate{lower, upper} {
			mm := 6.0
			if at == want {
				mm = 400
			}
			w = w.Assumed(at, mm)
		}
		b, err := m.Bands(w, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		if at, ok := b.Needs(ScrubRadius); !ok || at != want {
			t.Errorf("needs %+v (%v), want %+v", at, ok, want)
		}
	}
}

// Readings at the very end of what is reached teach nothing: a neighbour binds there.
func TestNothingIsTaughtAtTheEdge(t *testing.T) {
	c := randomCorner(rand.New(rand.NewPCG(3, 1)))
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	r, err := m.Range(0)
	if err != nil {
		t.Fatal(err)
	}
	w := Evenly(1)
	if _, err := w.Taught(&c, []ToeRead{{Travel: r.Bump.Travel - 1e-6, Sigma: 1e-3}}); err == nil {
		t.Error("a reading at the edge is taken")
	}
	if _, err := w.Taught(&c, []ToeRead{{Travel: r.Bump.Travel / 4, Sigma: 1e-3}}); err != nil {
		t.Error(err)
	}
}

// From a drive angle at which the parts do not meet the nearest at which they do is
// found on either side; where neither side has one within reach there is none.
func TestTheNearestAssemblyOnEitherSide(t *testing.T) {
	const seed = 243
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	var sides [2]int
	none := 0
	for range 60 {
		c := randomCorner(r)
		m, err := New(&c)
		if err != nil {
			continue
		}
		a := assembly{m: m, change: &Change{}, old: c}
		meets := func(x float64) bool { _, link := a.put(x); return link == NoLink }
		if !meets(0) {
			t.Fatal("a corner does not meet at rest")
		}
		for k, way := range []float64{-1, 1} {
			for edge := 0.0; edge < 1.4; edge += 1e-3 {
				if meets(way * edge) {
					continue
				}
				out := 0.0
				for out < 0.3 && !meets(way*(edge+out)) && !meets(way*(edge+2*out)) {
					out += 0.01
				}
				start := way * (edge + out/2)
				at, high, ok := a.someAssembly(start)
				want, link := a.put(at)
				if !ok || link != NoLink || high != want || math.Abs(at-start) > out/2+1e-3+walkStep {
					t.Errorf("from %g, %g past the edge, found %g: %v, high %g", start, out/2, at, ok, high)
				}
				sides[k]++
				break
			}
		}
		if a.m.rod *= 40; meets(0) {
			t.Fatal("a rod of 40 times the length meets")
		}
		if _, _, ok := a.someAssembly(0); !ok {
			none++
		}
	}
	if sides[0] < 10 || sides[1] < 10 || none < 30 {
		t.Errorf("%v edges to either side, %d corners without", sides, none)
	}
}

// A value says nothing while its band reaches nought, its end too, and most of the
// band's squares is assumed.
func TestWhatSaysNothing(t *testing.T) {
	for _, c := range []struct {
		value, half, assumed, all float64
		nothing                   bool
	}{{2, 2, 0.7, 1, true}, {-2, 2, 0.7, 1, true}, {2, 1.999, 0.7, 1, false}, {2, 3, 0.5, 1, false}, {2, 3, 0.501, 1, true}, {0, 1, 1e-19, 1e-19, false}} {
		if saysNothing(c.value, c.half, c.assumed, c.all) != c.nothing {
			t.Errorf("%+v", c)
		}
	}
}

// A place farther than any mechanism's is a direction.
func TestPlacesAtInfinity(t *testing.T) {
	from, u := Flat{X: 310, Y: -20}, Flat{X: 0.6, Y: -0.8}
	for _, num := range []float64{1, -4000} {
		den := parallelSine * math.Abs(num) / MaxLength
		if p := along(from, u, num, 0.9*den); !p.AtInfinity || p.At != u {
			t.Errorf("beyond: %+v", p)
		}
		far := num / (1.1 * den)
		if p := along(from, u, num, 1.1*den); p.AtInfinity || math.Abs(p.At.X-310-0.6*far) > 1e-9*math.Abs(far) || math.Abs(p.At.Y+20+0.8*far) > 1e-9*math.Abs(far) {
			t.Errorf("within: %+v, want %g along", p, far)
		}
	}
}

// The reciprocal of every number is finite and has its sign, however small it is.
func TestReciprocalsAreFinite(t *testing.T) {
	const least = 1 / math.MaxFloat64
	for _, x := range []float64{math.SmallestNonzeroFloat64, math.Nextafter(least, 0), least, math.Nextafter(least, 1), 1e-300, 0.25, math.MaxFloat64} {
		for _, sign := range []float64{1, -1} {
			if y := inverse(sign*x, sign); math.IsInf(y, 0) || y*sign <= 0 || x >= 1e-300 && math.Abs(sign*x*y-1) > 1e-12 {
				t.Errorf("1/%g is %g", sign*x, y)
			}
		}
	}
}

// A roll that is refused is named in degrees.
func TestRefusedRollIsNamed(t *testing.T) {
	c := caseB()
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := m.Roll(-0.6, 0); err == nil || !strings.HasPrefix(err.Error(), "roll -34.4 degrees is not") {
		t.Errorf("%v", err)
	}
}
