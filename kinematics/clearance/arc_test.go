package clearance

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// drawnArc is an arc about a centre, in a random plane, and its places as they
// were drawn.
func drawnArc(r *rand.Rand, centre Vec, radius float64) (o Obstacle, at func(part float64) Vec, sweep float64) {
	n := r3.Unit(Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
	if r.IntN(2) == 0 { // as a lip stands
		n = r3.Unit(Vec{X: 0.1 * r.NormFloat64(), Y: 1, Z: 0.1 * r.NormFloat64()})
	}
	turn, out := r3.NewRotation(2*math.Pi*r.Float64(), n), r3.Unit(r3.Cross(n, Vec{X: 0.31, Y: 0.2, Z: -0.9}))
	sweep = 0.05 + 6.1*r.Float64()
	at = func(part float64) Vec {
		return r3.Add(centre, r3.Scale(radius, turn.Rotate(r3.NewRotation(part*sweep, n).Rotate(out))))
	}
	return Obstacle{Name: "lip", Shape: Arc, A: at(0), B: at(1), C: at(0.1 + 0.8*r.Float64())}, at, sweep
}

// An arc through three places is the one that was drawn: its gap in any pose is
// the least of all its places, tried one by one, and none beyond its ends counts.
func TestArcAgainstAllItsPlaces(t *testing.T) {
	const seed, arcs, samples = 4711, 60, 4000
	r := rand.New(rand.NewPCG(seed, 1))
	corner := ahead()
	m := checkcorner.New(t, corner)
	inside := 0
	for n := range arcs {
		radius := 30 + 420*r.Float64()
		o, at, sweep := drawnArc(r, Vec{X: 60 * r.NormFloat64(), Y: 780 + 90*r.NormFloat64(), Z: 330 + 60*r.NormFloat64()}, radius)
		o.Thick = 20 * r.Float64()
		o.Carrier = Carrier(r.IntN(3))
		got, ok := o.Round()
		if !ok || math.Abs(got.Radius-radius) > 1e-7*radius || math.Abs(got.Sweep-sweep) > 1e-6 || r3.Norm(r3.Sub(got.At(got.Sweep/3), at(1./3))) > 1e-5 {
			t.Fatalf("seed %d, arc %d: %+v, drawn with radius %g over %g", seed, n, got, radius, sweep)
		}
		travel, rack := -54+116*r.Float64(), -50+100*r.Float64()
		p := checkcorner.At(t, m, travel, rack)
		if o.Carrier == OnUpright {
			p = checkcorner.At(t, m, 0, 0)
			travel, rack = 0, 0
		}
		c := Case{Tyre: wide(), Ring: ring(), Obstacles: []Obstacle{o}}
		gaps, err := GapAt(m, c, travel, rack)
		if err != nil {
			t.Fatal(err)
		}
		prof, s, g := c.Tyre.profile(), standOf(&p), c.Ring
		was, is := r3.Unit(r3.Sub(corner.Spring.Moving, corner.Spring.Body)), r3.Unit(r3.Sub(p.SpringMoving, p.SpringBody))
		turn := r3.NewRotation(math.Acos(min(1, r3.Dot(was, is))), r3.Cross(was, is))
		least := math.Inf(1)
		for k := range samples + 1 {
			q := at(float64(k) / samples)
			if o.Carrier == OnDamper {
				q = r3.Add(corner.Spring.Body, turn.Rotate(r3.Sub(q, corner.Spring.Body)))
			}
			gap := c.Tyre.Gap(&p, q)
			if o.Carrier == OnUpright {
				u, v := s.polar(q)
				gap = g.distance(&prof, u, v)
			}
			least = min(least, gap-o.Thick)
		}
		if step := radius * sweep / samples; math.Abs(gaps[0]-least) > step+alongTolerance {
			t.Errorf("seed %d, arc %d on %d: gap %.4f, least of its places %.4f", seed, n, o.Carrier, gaps[0], least)
		}
		if least < 0 {
			inside++
		}
	}
	if inside < 5 || inside > arcs-5 {
		t.Errorf("%d of %d arcs touch", inside, arcs)
	}
}

// A lip over the wheel does not reach the ground, where the ring through it does.
func TestALipIsNoRing(t *testing.T) {
	m := checkcorner.New(t, ahead())
	ringed := Obstacle{Name: "lip", Shape: Circle, A: Vec{Y: 872, Z: 352}, B: Vec{Y: 1}, Radius: 356}
	lip := Obstacle{Name: "lip", Shape: Arc, A: Vec{X: 356, Y: 872, Z: 352}, B: Vec{X: -356, Y: 872, Z: 352}, C: Vec{X: 120, Y: 872, Z: 352 + math.Sqrt(356*356-120*120)}}
	got, err := GapAt(m, Case{Tyre: wide(), Obstacles: []Obstacle{ringed, lip}}, -54, 0)
	if err != nil {
		t.Fatal(err)
	}
	if got[0] > 0 || got[1] < 10 {
		t.Errorf("in droop the ring has %.1f mm, the lip %.1f", got[0], got[1])
	}
}

func TestArcsThatAreNone(t *testing.T) {
	m := checkcorner.New(t, ahead())
	a, b := Vec{X: 301, Y: 905, Z: 401}, Vec{X: -297, Y: 911, Z: 388}
	mid := r3.Scale(0.5, r3.Add(a, b))
	for name, c := range map[string]Vec{"in line": mid, "nearly in line": r3.Add(mid, Vec{Z: 3}), "on an end": r3.Add(a, Vec{Z: 0.5}),
		"not a number": {X: math.NaN()}, "far": {Z: kinematics.MaxLength * 2}} {
		o := Obstacle{Name: name, Shape: Arc, A: a, B: b, C: c}
		if _, err := GapAt(m, Case{Tyre: wide(), Obstacles: []Obstacle{o}}, 0, 0); !errors.Is(err, ErrObstacle) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, ok := ArcThrough(a, r3.Add(mid, Vec{Z: 5}), b); !ok {
		t.Error("a flat arc of 8.8 m is none")
	}
}
