package bumpsteer

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

func apart(a, b kinematics.Vec) float64 { return r3.Norm(r3.Sub(a, b)) }

// one is a change of one leg.
func one(l Leg, mm float64) Change {
	var ch Change
	ch.Longer[l] = mm
	return ch
}

func spinOf(c *kinematics.Corner) kinematics.Vec { return spinAxis(c.Camber, c.Toe) }

func wheelHeight(c *kinematics.Corner) float64 {
	return c.Hub.Z + (c.Wheel.Spacer-c.Wheel.Offset)*spinOf(c).Z
}

// Every link has the length it was given, the upright keeps all its own
// dimensions, and the wheel centre its height.
func TestReassembledLengthsAreExact(t *testing.T) {
	const seed = 19
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 2))
	for i := range 300 {
		c := ahead()
		if i%2 == 1 {
			c = behind()
		}
		c.Spring = kinematics.Spring{Carrier: kinematics.Carrier(1 + i%3), Moving: vec(-7, 540, 215), Body: vec(12, 430, 590)}
		var ch Change
		for l := range LegCount {
			ch.Longer[l] = 12 * (2*r.Float64() - 1)
		}
		for _, p := range []kinematics.Point{kinematics.UpperFront, kinematics.UpperRear, kinematics.LowerFront, kinematics.LowerRear, kinematics.RackEnd} {
			ch.Moved[p] = vec(5*r.NormFloat64(), 5*r.NormFloat64(), 5*r.NormFloat64())
		}
		n, err := Reassemble(c, ch)
		if err != nil {
			t.Fatal(err)
		}
		check := func(what string, got, want float64) {
			t.Helper()
			if !(math.Abs(got-want) <= 1e-8) {
				t.Fatalf("%s %.10f, want %.10f", what, got, want)
			}
		}
		check("upper front leg", apart(n.Upper.Ball, n.Upper.Front), apart(c.Upper.Ball, c.Upper.Front)+ch.Longer[UpperFrontLeg])
		check("upper rear leg", apart(n.Upper.Ball, n.Upper.Rear), apart(c.Upper.Ball, c.Upper.Rear)+ch.Longer[UpperRearLeg])
		check("lower front leg", apart(n.Lower.Ball, n.Lower.Front), apart(c.Lower.Ball, c.Lower.Front)+ch.Longer[LowerFrontLeg])
		check("lower rear leg", apart(n.Lower.Ball, n.Lower.Rear), apart(c.Lower.Ball, c.Lower.Rear)+ch.Longer[LowerRearLeg])
		check("tie rod", rodLength(&n), rodLength(&c)+ch.Longer[TieRodLeg])
		check("rack end", apart(n.TieRod.RackEnd, r3.Add(c.TieRod.RackEnd, ch.Moved[kinematics.RackEnd])), 0)
		check("lower rear pivot", apart(n.Lower.Rear, r3.Add(c.Lower.Rear, ch.Moved[kinematics.LowerRear])), 0)
		check("wheel centre height", wheelHeight(&n), wheelHeight(&c))
		// The upright is one body: all distances between its points, the spin
		// axis shown by a point a metre out on it, and its handedness.
		body := func(c *kinematics.Corner) []kinematics.Vec {
			list := []kinematics.Vec{c.Lower.Ball, c.Upper.Ball, c.TieRod.OuterEnd, c.Hub, r3.Add(c.Hub, r3.Scale(1000, spinOf(c)))}
			if c.Spring.Carrier == kinematics.OnUpright {
				list = append(list, c.Spring.Moving)
			}
			return list
		}
		was, is := body(&c), body(&n)
		for i := range was {
			for k := range i {
				check("upright", apart(is[i], is[k]), apart(was[i], was[k]))
			}
		}
		volume := func(v []kinematics.Vec) float64 {
			return r3.Dot(r3.Sub(v[1], v[0]), r3.Cross(r3.Sub(v[2], v[0]), r3.Sub(v[4], v[0])))
		}
		if volume(was)*volume(is) < 0 {
			t.Fatal("the upright was turned inside out")
		}
		if c.Spring.Carrier == kinematics.OnLowerArm && ch.Longer[LowerRearLeg] != 0 && apart(n.Spring.Moving, c.Spring.Moving) > 60 {
			t.Fatalf("the spring's end went from %v to %v", c.Spring.Moving, n.Spring.Moving)
		}
	}
}

// Nothing changed, nothing moves; there and back ends where it began; and a
// rack that moves sideways is the mechanism's own rack travel at rest height.
func TestReassembleAgreesWithTheMechanism(t *testing.T) {
	for _, c := range []kinematics.Corner{ahead(), behind()} {
		same, err := Reassemble(c, Change{})
		if err != nil || apart(same.Upper.Ball, c.Upper.Ball) > 1e-9 || math.Abs(same.Toe-c.Toe) > 1e-12 || math.Abs(same.Camber-c.Camber) > 1e-12 {
			t.Errorf("nothing changed: %+v, %v", same, err)
		}
		ch := one(UpperRearLeg, 7.3).plus(one(LowerFrontLeg, -5.1)).plus(one(TieRodLeg, 3.9))
		there, err := Reassemble(c, ch)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Reassemble(there, ch.times(-1))
		if err != nil || apart(back.Lower.Ball, c.Lower.Ball) > 1e-8 || apart(back.TieRod.OuterEnd, c.TieRod.OuterEnd) > 1e-8 || math.Abs(back.Camber-c.Camber) > 1e-11 {
			t.Errorf("there and back: %+v, %v", back, err)
		}
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 8.2)
		if err != nil {
			t.Fatal(err)
		}
		var moved Change
		moved.Moved[kinematics.RackEnd].Y = 8.2
		n, err := Reassemble(c, moved)
		if err != nil || apart(n.TieRod.OuterEnd, p.OuterEnd) > 1e-8 || apart(n.Lower.Ball, p.LowerBall) > 1e-8 || math.Abs(n.Toe-math.Atan2(p.Spin.X, p.Spin.Y)) > 1e-10 {
			t.Errorf("rack moved: %v, mechanism %v, %v", n.TieRod.OuterEnd, p.OuterEnd, err)
		}
	}
}

// In the front view an upper arm longer by e leans the upright about the lower
// ball joint: camber by e cos(rise) over the height of the ball joints, and the
// wheel centre then comes back to its height along the arms.
func TestLongerFlatArm(t *testing.T) {
	c := flat(300, 245)
	n, err := Reassemble(c, one(UpperFrontLeg, 2.5))
	if err != nil {
		t.Fatal(err)
	}
	radius := func(a kinematics.Arm) float64 { return math.Hypot(a.Ball.Y-a.Front.Y, a.Ball.Z-a.Front.Z) }
	if math.Abs(radius(n.Upper)-radius(c.Upper)-2.5) > 1e-9 || math.Abs(radius(n.Lower)-radius(c.Lower)) > 1e-9 ||
		math.Abs(n.Upper.Ball.X) > 1e-9 || math.Abs(wheelHeight(&n)-310) > 1e-9 {
		t.Errorf("%+v", n)
	}
	if want := 2.5 / 280; math.Abs(n.Camber-want) > 0.1*want {
		t.Errorf("camber %.5f rad, about %.5f", n.Camber, want)
	}
	if _, err := Reassemble(c, one(UpperFrontLeg, -310)); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Error(err)
	}
	defer func() {
		if recover() == nil {
			t.Error("a flat arm's rear leg was lengthened")
		}
	}()
	_, _ = Reassemble(c, one(UpperRearLeg, 1))
}
