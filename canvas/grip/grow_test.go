package grip

import (
	"math"
	"strings"
	"testing"

	"armscribe/canvas/scene"
	"armscribe/kinematics"

	"gonum.org/v1/gonum/spatial/r3"
)

// With the upright held a ball joint makes its arm longer: the handle follows
// the pointer aside, the upright keeps every distance, the other arm its length,
// and toe is kept by the rod unless the rod is held.
func TestAHeldUprightMakesItsArmLonger(t *testing.T) {
	shape := func(c *kinematics.Corner) (d []float64) {
		b := [...]kinematics.Vec{c.Upper.Ball, c.Lower.Ball, c.TieRod.OuterEnd, c.Hub}
		for i := range b {
			for k := range i {
				d = append(d, r3.Norm(r3.Sub(b[i], b[k])))
			}
		}
		return d
	}
	for _, c := range []kinematics.Corner{twoBushings(), onePivot()} {
		was := lengthsOf(t, c)
		for k, p := range []kinematics.Point{kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd} {
			for _, rodHeld := range []bool{false, true} {
				for _, at := range []Stance{{}, {Travel: 31, Rack: 4}, {Roll: 0.03}} {
					j := job(0, 0)
					j.Stance, j.Locks = at, Locks{Upright: true, TieRod: rodHeld && k != 2}
					d := begin(t, c, point(p), j)
					hand := free(by(d, 6.3, -15))
					r := d.To(hand)
					if r.AtEdge || !near(r.At.X, hand.At.X, 1e-6) {
						t.Fatalf("%s at %+v: at %v, pointer at %v: %s", p, at, r.At, hand.At, r.Message)
					}
					a, b := shape(&c), shape(&r.Corner)
					for i := range a {
						if !near(a[i], b[i], 1e-9) {
							t.Errorf("%s: the upright changed by %g", p, b[i]-a[i])
						}
					}
					for i, l := range lengthsOf(t, r.Corner) {
						kept := i != k && (i != 2 || j.Locks.TieRod)
						if kept && !near(l, was[i], 1e-9) || i == k && !(l > was[i]+3) {
							t.Errorf("%s pulled out, rod held %v: %s from %v to %v", p, rodHeld, lengths[i].name, was[i], l)
						}
					}
					if kept := k != 2 && !j.Locks.TieRod; kept != (r.Corner.Toe == c.Toe) {
						t.Errorf("%s, rod held %v: toe from %v to %v", p, rodHeld, c.Toe, r.Corner.Toe)
					}
					if words := strings.Join(d.Note(&r), "\n"); !strings.Contains(words, lengths[k].name+" +") {
						t.Errorf("%s: note %q", p, words)
					}
				}
			}
			j := job(0, 0)
			j.Locks.Upright = true
			d := begin(t, c, point(p), j)
			if got := lengthsOf(t, d.By(1, 5).Corner)[k]; !near(got, was[k]+1, 1e-9) {
				t.Errorf("%s nudged by 1: %v to %v", p, was[k], got)
			}
			if want := "nudge " + p.String() + ", " + lengths[k].name + " longer or shorter"; d.Deed(true) != want {
				t.Errorf("deed %q", d.Deed(true))
			}
			if r := d.To(by(d, -700, 0)); !r.AtEdge || !strings.HasPrefix(r.Message, "Stops at the edge: the ") {
				t.Errorf("%s pulled far in: %q", p, r.Message)
			}
			j.Locks.Height = setOf(kinematics.HubFace)
			d = begin(t, c, point(p), j)
			if r := d.To(by(d, 5, 0)); r.Corner != c || !strings.Contains(r.Message, "upright and height are held") {
				t.Errorf("%s with the hub's height held: %q", p, r.Message)
			}
		}
	}
}

// A ball joint that is free moves in the upright, and its deed and lock say which.
func TestAFreeBallJointRemakesTheUpright(t *testing.T) {
	c := twoBushings()
	d := begin(t, c, point(kinematics.LowerBall), job(0, 0))
	r := d.To(free(by(d, 20, 0)))
	if d.Deed(false) != "move lower ball joint, upright remade" || math.Abs(r.Corner.Lower.Ball.Y-c.Lower.Ball.Y-20) > 1e-9 || r.Corner.Camber != c.Camber {
		t.Errorf("%q, %v", d.Deed(false), r.Corner.Lower.Ball)
	}
	if l := (Locks{Upright: true}); l.Remakes(point(kinematics.LowerBall)) || !(Locks{}).Remakes(point(kinematics.UpperBall)) ||
		(Locks{}).Remakes(point(kinematics.OuterEnd)) || l.Words(&c, point(kinematics.LowerBall)) != "upright held" || l.Words(&c, scene.WheelOutline) != "" {
		t.Errorf("words %q", l.Words(&c, point(kinematics.LowerBall)))
	}
}
