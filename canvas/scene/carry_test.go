package scene

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

// stances are positions to look at obstacles in, travel and rack in mm, roll in
// degrees.
var stances = []struct{ travel, rack, roll float64 }{{0, 0, 0}, {43, 0, 0}, {-51, 37, 0}, {0, -29, 0}, {0, 0, 2.3}, {0, 41, -3.1}}

func builtIn(t *testing.T, travel, rack, roll float64) *Output {
	t.Helper()
	in := roomy(t)
	in.Travel, in.Rack, in.Roll = travel, rack, roll*degree
	_, out := build(t, draw.View{Centre: draw.Point{X: 500, Y: 300}, Zoom: 0.7, W: 700, H: 600}, in)
	return out
}

// What a carrier carries keeps its distances to everything else it carries: four
// points of the upright that are in no plane, the spring's body end and the
// points of the body.
func TestCarriersAreRigid(t *testing.T) {
	const near = 1e-9
	c := wide()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	rest, _ := m.At(0, 0)
	q := at(-141.5, 712.3, 377)
	for _, s := range stances {
		out := builtIn(t, s.travel, s.rack, s.roll)
		p := &out.Left
		same := func(on clearance.Carrier, was, is kinematics.Vec, what string) {
			t.Helper()
			if a, b := r3.Norm(r3.Sub(q, was)), r3.Norm(r3.Sub(out.Carries[on].At(q), is)); math.Abs(a-b) > near {
				t.Errorf("%+v: %s is %v mm off, at rest %v", s, what, b, a)
			}
		}
		same(clearance.OnUpright, rest.LowerBall, p.LowerBall, "lower ball")
		same(clearance.OnUpright, rest.UpperBall, p.UpperBall, "upper ball")
		same(clearance.OnUpright, rest.OuterEnd, p.OuterEnd, "outer end")
		same(clearance.OnUpright, rest.WheelCentre, p.WheelCentre, "wheel centre")
		same(clearance.OnDamper, c.Spring.Body, p.SpringBody, "damper's body end")
		same(clearance.OnBody, c.Spring.Body, p.SpringBody, "body end on the body")
		end := c.TieRod.RackEnd
		end.Y += out.Rack
		same(clearance.OnBody, end, p.RackEnd, "rack end")
		// On the damper's own line a place stays on it.
		share := 0.37
		on := r3.Add(c.Spring.Body, r3.Scale(share, r3.Unit(r3.Sub(c.Spring.Moving, c.Spring.Body))))
		want := r3.Add(p.SpringBody, r3.Scale(share, r3.Unit(r3.Sub(p.SpringMoving, p.SpringBody))))
		if off := r3.Norm(r3.Sub(out.Carries[clearance.OnDamper].At(on), want)); off > near {
			t.Errorf("%+v: a place on the damper's line is %v mm off it", s, off)
		}
		if !out.Carries[clearance.OnBody].Moves() && s.roll == 0 != (out.Carries[clearance.OnBody].At(q) == q) {
			t.Errorf("%+v: the body moves in its own axes", s)
		}
	}
	if out := builtIn(t, 0, 0, 0); out.Carries != [3]Carry{} {
		t.Error("at rest something is elsewhere than at rest")
	}
}

// A damper swings as package clearance has it, which was written apart.
func TestDamperSwingsAsTheGapsHaveIt(t *testing.T) {
	const seed = 219
	r := rand.New(rand.NewPCG(seed, 3))
	c := wide()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	for range 20 {
		travel, rack := 10+50*r.Float64(), 40*r.NormFloat64()
		o := clearance.Obstacle{Carrier: clearance.OnDamper, A: at(-26+r.NormFloat64()*30, 511+r.NormFloat64()*20, 430+r.NormFloat64()*40)}
		a, err := clearance.Sweep(&m, clearance.Case{Tyre: wideTyre, Obstacles: []clearance.Obstacle{o}}, clearance.Grid{Travel: []float64{travel}, Rack: []float64{rack}, Roll: []float64{0}})
		if err != nil || a.Answers[0].Travel == 0 {
			continue // rest is nearer, and says nothing
		}
		out := builtIn(t, travel, rack, 0)
		if off := r3.Norm(r3.Sub(out.Carries[clearance.OnDamper].At(o.A), a.Answers[0].At)); off > 1e-9 {
			t.Errorf("seed %d, travel %.1f, rack %.1f: %v mm off", seed, travel, rack, off)
		}
	}
}
