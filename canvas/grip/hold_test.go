package grip

import (
	"math"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// lengthsOf asks the mechanism, which measures by itself.
func lengthsOf(t *testing.T, c kinematics.Corner) [3]float64 {
	t.Helper()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	u, l := m.ArmLengths()
	return [3]float64{u, l, m.RodLength()}
}

func TestAHeldLengthStays(t *testing.T) {
	for _, c := range []kinematics.Corner{twoBushings(), onePivot()} {
		want := lengthsOf(t, c)
		for k, l := range []Locks{{UpperArm: true}, {LowerArm: true}, {TieRod: true}} {
			for _, p := range c.Points() {
				if !lengths[k].ends.Has(p) {
					continue
				}
				for _, at := range []Stance{{}, {Travel: 42, Rack: 3}} {
					j := job(0, 0)
					j.Stance, j.Locks = at, l
					d := begin(t, c, point(p), j)
					r := d.To(by(d, 11.3, 27.9))
					if r.Corner == c {
						t.Errorf("%s did not move at %+v: %s", p, at, r.Message)
					}
					if got := lengthsOf(t, r.Corner)[k]; !near(got, want[k], 1e-9) {
						t.Errorf("%s at %+v: %s from %v to %v", p, at, lengths[k].name, want[k], got)
					}
					if n := lengthsOf(t, d.By(0.7, 1.9).Corner)[k]; !near(n, want[k], 1e-9) {
						t.Errorf("nudged %s at %+v: %s from %v to %v", p, at, lengths[k].name, want[k], n)
					}
				}
			}
		}
	}
}

// At rest the held end of a one-pivot arm goes to the foot of the pointer on
// its circle: pivot, end and pointer stand in one line.
func TestAHeldLengthPointsAtThePointer(t *testing.T) {
	c := onePivot()
	for _, travel := range []float64{0, 42} {
		j := job(travel, 0)
		j.Locks.LowerArm = true
		d := begin(t, c, point(kinematics.LowerBall), j)
		hand := by(d, 23, 31)
		r := d.To(hand)
		pivot := draw.Point{X: c.Lower.Front.Y, Y: c.Lower.Front.Z}
		a, b := r.At.Sub(pivot), hand.At.Sub(pivot)
		if sine := (a.X*b.Y - a.Y*b.X) / (a.Len() * b.Len()); math.Abs(sine) > 1e-6 {
			t.Errorf("at travel %v: %v off the line to the pointer", travel, sine)
		}
	}
}

func TestHeldHeightAndSide(t *testing.T) {
	for _, c := range []kinematics.Corner{twoBushings(), onePivot()} {
		for _, p := range c.Points() {
			for _, travel := range []float64{0, -37} {
				j := job(travel, 0)
				j.Locks = Locks{Height: setOf(p)}
				d := begin(t, c, point(p), j)
				r := d.To(free(by(d, 8.25, 13)))
				if r.Corner.At(p).Z != c.At(p).Z || !near(r.At.X, d.From().X+8.25, 1e-6) {
					t.Errorf("%s, height held at travel %v: %v to %v, seen at %v", p, travel, *c.At(p), *r.Corner.At(p), r.At)
				}
				j.Locks = Locks{Side: setOf(p)}
				d = begin(t, c, point(p), j)
				r = d.To(free(by(d, 8.25, 13)))
				if r.Corner.At(p).Y != c.At(p).Y || !near(r.At.Y, d.From().Y+13, 1e-6) {
					t.Errorf("%s, side held at travel %v: %v to %v, seen at %v", p, travel, *c.At(p), *r.Corner.At(p), r.At)
				}
			}
		}
	}
}

func TestALockOnAPointBindsTheUpright(t *testing.T) {
	c := twoBushings()
	j := job(0, 0)
	j.Locks.Height = setOf(kinematics.OuterEnd)
	d := begin(t, c, 64, j) // the upright
	r := d.To(free(by(d, 9.5, 14.5)))
	if r.Corner.Lower.Ball.Z != c.Lower.Ball.Z || r.Corner.Lower.Ball.Y != c.Lower.Ball.Y+9.5 {
		t.Errorf("lower ball joint from %v to %v", c.Lower.Ball, r.Corner.Lower.Ball)
	}
}

func TestShiftHoldsTheNearerAxis(t *testing.T) {
	c := twoBushings()
	for _, travel := range []float64{0, 44} {
		d := begin(t, c, point(kinematics.OuterEnd), job(travel, 0))
		r := d.To(axial(by(d, 14, 9)))
		if r.Corner.TieRod.OuterEnd.Z != c.TieRod.OuterEnd.Z || r.Corner.TieRod.OuterEnd.Y == c.TieRod.OuterEnd.Y || len(r.Guides) != 1 || !r.Guides[0].Level {
			t.Errorf("aside at travel %v: %v, guides %v", travel, r.Corner.TieRod.OuterEnd, r.Guides)
		}
		r = d.To(axial(by(d, 14, -19)))
		if r.Corner.TieRod.OuterEnd.Y != c.TieRod.OuterEnd.Y || r.Corner.TieRod.OuterEnd.Z == c.TieRod.OuterEnd.Z || len(r.Guides) == 0 || r.Guides[0].Level {
			t.Errorf("down at travel %v: %v, guides %v", travel, r.Corner.TieRod.OuterEnd, r.Guides)
		}
	}
}

func TestTooManyLocksAreNamed(t *testing.T) {
	c := twoBushings()
	j := job(12, 0)
	j.Locks = Locks{TieRod: true, Height: setOf(kinematics.OuterEnd)}
	d := begin(t, c, point(kinematics.OuterEnd), j)
	for _, r := range []Result{d.To(by(d, 50, 50)), d.By(1, 1)} {
		if r.Corner != c || !strings.Contains(r.Message, "height and length of the tie rod are held") {
			t.Errorf("moved: %v, message %q", r.Corner != c, r.Message)
		}
	}
	// The lock of another part does not bind.
	d = begin(t, c, point(kinematics.UpperBall), j)
	if r := d.To(by(d, 5, 5)); r.Corner == c {
		t.Errorf("the upper ball joint is bound: %s", r.Message)
	}
}

func TestHeldListsTheRings(t *testing.T) {
	c := onePivot()
	got := Locks{LowerArm: true, Height: setOf(kinematics.RackEnd)}.Held(&c)
	want := []kinematics.Point{kinematics.LowerFront, kinematics.LowerBall, kinematics.RackEnd}
	if len(got) != len(want) {
		t.Fatalf("held %v, want %v", got, want)
	}
	for k := range want {
		if got[k] != point(want[k]) {
			t.Fatalf("held %v, want %v", got, want)
		}
	}
}
