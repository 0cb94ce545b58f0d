package kinematics

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// uprightBody lists points of the upright: both ball joints, outer end, hub and
// a point a metre out on the spin axis.
func uprightBody(c *Corner) [5]Vec {
	return [...]Vec{c.Lower.Ball, c.Upper.Ball, c.TieRod.OuterEnd, c.Hub, r3.Add(c.Hub, r3.Scale(1000, spinAxis(c.Camber, c.Toe)))}
}

func contactHeight(b *[5]Vec, w *Wheel) float64 {
	s := r3.Scale(1e-3, r3.Sub(b[4], b[3]))
	return b[3].Z + (w.Spacer-w.Offset)*s.Z - w.LoadedRadius*math.Sqrt(max(0, 1-s.Z*s.Z))
}

// offAxis returns how far along an arm's pivot axis its ball joint stands, from
// the rear pivot, and how far off it.
func offAxis(a *Arm, ball Vec) (along, off float64) {
	if a.Flat {
		return ball.X, math.Hypot(ball.Y-a.Front.Y, ball.Z-a.Front.Z)
	}
	u := r3.Unit(r3.Sub(a.Front, a.Rear))
	d := r3.Sub(ball, a.Rear)
	return r3.Dot(d, u), r3.Norm(r3.Cross(d, u))
}

// assembledByNewton puts a corner together without the mechanism: fifteen
// coordinates of the five points of the upright are solved for together from
// nine distances between them, four numbers of the arms, the rod's length (or
// the toe) and the height of the contact centre, by Newton's method with
// differences, the change brought in by steps.
func assembledByNewton(t *testing.T, c *Corner, ch *Change) ([5]Vec, bool) {
	t.Helper()
	b0 := uprightBody(c)
	residuals := func(x []float64, share float64) []float64 {
		var b [5]Vec
		for i := range b {
			b[i] = Vec{X: x[3*i], Y: x[3*i+1], Z: x[3*i+2]}
		}
		var out []float64
		for i := range b {
			for k := range i {
				if i != 4 || k != 3 {
					out = append(out, r3.Norm(r3.Sub(b[i], b[k]))-r3.Norm(r3.Sub(b0[i], b0[k])))
				}
			}
		}
		// That the hub is a metre from its fifth point takes the place of the
		// distance left out: four distances fix the fifth point, and its side.
		for _, a := range []struct {
			arm         *Arm
			ball        Vec
			grown       float64
			front, rear Leg
			f, r        Point
		}{{&c.Lower, b[0], ch.Lower, LowerFrontLeg, LowerRearLeg, LowerFront, LowerRear}, {&c.Upper, b[1], ch.Upper, UpperFrontLeg, UpperRearLeg, UpperFront, UpperRear}} {
			arm := *a.arm
			along0, off0 := offAxis(&arm, arm.Ball)
			front, rear := r3.Sub(arm.Ball, arm.Front), r3.Sub(arm.Ball, arm.Rear)
			arm.Front, arm.Rear = r3.Add(arm.Front, r3.Scale(share, ch.Moved[a.f])), r3.Add(arm.Rear, r3.Scale(share, ch.Moved[a.r]))
			along, off := offAxis(&arm, a.ball)
			switch {
			case arm.Flat:
				out = append(out, along-along0-share*ch.Moved[a.f].X, off-off0-share*(a.grown+ch.Longer[a.front]))
			case a.grown != 0:
				out = append(out, along-along0, off-off0-share*a.grown)
			default:
				out = append(out, r3.Norm(r3.Sub(a.ball, arm.Front))-r3.Norm(front)-share*ch.Longer[a.front],
					r3.Norm(r3.Sub(a.ball, arm.Rear))-r3.Norm(rear)-share*ch.Longer[a.rear])
			}
		}
		if s := r3.Sub(b[4], b[3]); ch.CutRod {
			out = append(out, math.Cos(c.Toe)*s.X-math.Sin(c.Toe)*s.Y)
		} else {
			rack := r3.Add(c.TieRod.RackEnd, r3.Scale(share, ch.Moved[RackEnd]))
			out = append(out, r3.Norm(r3.Sub(b[2], rack))-r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd))-share*ch.Longer[TieRodLeg])
		}
		return append(out, contactHeight(&b, &c.Wheel)-contactHeight(&b0, &c.Wheel))
	}
	x := make([]float64, 15)
	for i, v := range b0 {
		x[3*i], x[3*i+1], x[3*i+2] = v.X, v.Y, v.Z
	}
	const steps = 8
	for s := 1; s <= steps; s++ {
		for turn := 0; ; turn++ {
			r := residuals(x, float64(s)/steps)
			if worst := mat.Norm(mat.NewVecDense(15, r), math.Inf(1)); worst < 1e-9 {
				break
			} else if turn == 30 || worst > 1e3 {
				return b0, false
			}
			j := mat.NewDense(15, 15, nil)
			for k := range x {
				const h = 1e-4
				up, down := append([]float64(nil), x...), append([]float64(nil), x...)
				up[k] += h
				down[k] -= h
				u, d := residuals(up, float64(s)/steps), residuals(down, float64(s)/steps)
				for i := range u {
					j.Set(i, k, (u[i]-d[i])/(2*h))
				}
			}
			var step mat.VecDense
			if step.SolveVec(j, mat.NewVecDense(15, r)) != nil {
				return b0, false
			}
			for k := range x {
				x[k] -= step.AtVec(k)
			}
		}
	}
	var b [5]Vec
	for i := range b {
		b[i] = Vec{X: x[3*i], Y: x[3*i+1], Z: x[3*i+2]}
	}
	return b, true
}

// someChange draws what may be done to a corner: arms longer as a whole, legs
// and pivots each for itself, or both arms and the rod.
func someChange(r *rand.Rand, c *Corner) (ch Change) {
	in := func(most float64) float64 { return most * (2*r.Float64() - 1) }
	ch.CutRod = r.IntN(2) == 0
	switch r.IntN(3) {
	case 0:
		ch.Lower = in(30)
	case 1:
		ch.Lower, ch.Upper = in(25), in(25)
	default:
		for l := range LegCount {
			if !(l == UpperRearLeg && c.Upper.Flat || l == LowerRearLeg && c.Lower.Flat) {
				ch.Longer[l] = in(9)
			}
		}
		for p := range ch.Moved {
			if at := Point(p); at.OnBody() && c.Has(at) {
				ch.Moved[p] = Vec{X: in(6), Y: in(6), Z: in(6)}
			}
		}
	}
	if ch.CutRod {
		ch.Longer[TieRodLeg] = 0
	}
	return ch
}

// Every length is what was asked, the upright keeps all its own, the body its
// height above the ground, and the answer is the one that Newton's method finds
// without the mechanism.
func TestReassembledByLawAndByNewton(t *testing.T) {
	r := seeded(t, 71)
	met := 0
	for range 250 {
		c := randomCorner(r)
		ch := someChange(r, &c)
		n, err := Reassemble(c, ch)
		if err != nil {
			if !errors.Is(err, ErrUnreachable) && !errors.Is(err, ErrGeometry) {
				t.Fatal(err)
			}
			continue
		}
		was, is := uprightBody(&c), uprightBody(&n)
		for i := range was {
			for k := range i {
				near(t, "upright", r3.Norm(r3.Sub(is[i], is[k])), r3.Norm(r3.Sub(was[i], was[k])), 1e-9)
			}
		}
		volume := func(v *[5]Vec) float64 {
			return r3.Dot(r3.Sub(v[1], v[0]), r3.Cross(r3.Sub(v[2], v[0]), r3.Sub(v[4], v[0])))
		}
		if volume(&was)*volume(&is) < 0 {
			t.Error("the upright was turned inside out")
		}
		near(t, "ride height", contactHeight(&is, &n.Wheel), contactHeight(&was, &c.Wheel), 2e-9)
		m0, m1 := mustNew(t, c), mustNew(t, n)
		if ch.Longer == ([LegCount]float64{}) {
			u0, l0 := m0.ArmLengths()
			u1, l1 := m1.ArmLengths()
			near(t, "upper arm", u1-u0, ch.Upper, 1e-9)
			near(t, "lower arm", l1-l0, ch.Lower, 1e-9)
		}
		if ch.CutRod {
			near(t, "toe", n.Toe, c.Toe, 0)
		} else {
			near(t, "rod", m1.RodLength()-m0.RodLength(), ch.Longer[TieRodLeg], 1e-9)
		}
		if want, ok := assembledByNewton(t, &c, &ch); ok {
			met++
			for i := range want {
				nearVec(t, "Newton's upright", is[i], want[i], 1e-5)
			}
		}
		back, err := Reassemble(n, ch.Times(-1))
		if err != nil && ch.Size() < 10 {
			t.Errorf("there, but not back: %v", err)
		}
		if err == nil && ch.Longer == ([LegCount]float64{}) {
			nearVec(t, "upper ball joint there and back", back.Upper.Ball, c.Upper.Ball, 1e-7)
			near(t, "camber there and back", back.Camber, c.Camber, 1e-9)
			if c.Spring.Carrier != NoSpring {
				nearVec(t, "spring there and back", back.Spring.Moving, c.Spring.Moving, 1e-7)
			}
		}
		if t.Failed() {
			t.Fatalf("%+v\n%+v", c, ch)
		}
	}
	if met < 180 {
		t.Errorf("only %d of 250 compared", met)
	}
}

// Seen from behind, a corner is another corner: fore and aft exchanged, every
// answer is the mirror image.
func TestReassembledMirrored(t *testing.T) {
	r := seeded(t, 72)
	mirrored := func(c Corner) Corner {
		for _, p := range c.Points() {
			c.At(p).X = -c.At(p).X
		}
		for _, a := range []*Arm{&c.Upper, &c.Lower} {
			if !a.Flat {
				a.Front, a.Rear = a.Rear, a.Front
			}
		}
		c.Toe = -c.Toe
		return c
	}
	for range 60 {
		c := randomCorner(r)
		ch := Change{Lower: 24 * r.NormFloat64() / 2, Upper: 5 * r.NormFloat64(), CutRod: r.IntN(2) == 0}
		one, err1 := Reassemble(c, ch)
		other, err2 := Reassemble(mirrored(c), ch)
		if (err1 == nil) != (err2 == nil) {
			t.Fatalf("%v, mirrored %v", err1, err2)
		}
		if err1 != nil {
			continue
		}
		other = mirrored(other)
		for _, p := range one.Points() {
			nearVec(t, p.String(), *other.At(p), *one.At(p), 1e-7)
		}
		near(t, "camber", other.Camber, one.Camber, 1e-9)
		near(t, "toe", other.Toe, one.Toe, 1e-9)
	}
}

// Nothing changed, nothing moves by a bit; a rack that moves sideways on an
// upright wheel is the mechanism's own rack travel.
func TestReassembledAsTheMechanism(t *testing.T) {
	for _, c := range []Corner{caseA(), caseB(), workshopCorner()} {
		if same, err := Reassemble(c, Change{}); err != nil || same != c {
			t.Errorf("nothing changed: %+v, %v", same, err)
		}
		var ch Change
		ch.Moved[RackEnd].Y = 8.2
		n, err := Reassemble(c, ch)
		if err != nil {
			t.Fatal(err)
		}
		m := mustNew(t, c)
		rest := mustAt(t, m, 0, 0)
		for h := 0.0; ; { // the travel at which the contact is as high as at rest
			p := mustAt(t, m, h, 8.2)
			if by := rest.Contact.Z - p.Contact.Z; math.Abs(by) > 1e-9 {
				h += by
				continue
			}
			nearVec(t, "outer end", n.TieRod.OuterEnd, p.OuterEnd, 1e-7)
			nearVec(t, "lower ball joint", n.Lower.Ball, p.LowerBall, 1e-7)
			near(t, "toe", n.Toe, math.Atan2(p.Spin.X, p.Spin.Y), 1e-9)
			break
		}
	}
}

// A lower arm that is 20 mm longer leans the wheel in by about 20 mm over the
// height of the upright, and takes its foot out with it.
func TestALongerLowerArmLeansTheWheel(t *testing.T) {
	c := caseA()
	n, err := Reassemble(c, Change{Lower: 20, CutRod: true})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "camber", deg(n.Camber), deg(-20/280.0), 0.4)
	a, b := mustRead(t, mustNew(t, c), 0, 0), mustRead(t, mustNew(t, n), 0, 0)
	near(t, "scrub radius", value(t, &b, ScrubRadius), value(t, &a, ScrubRadius), 2.5)
	if by := value(t, &b, HalfTrack) - value(t, &a, HalfTrack); by < 25 || by > 40 {
		t.Errorf("half track by %g", by)
	}
}

// What does not go together is named, with how much is missing.
func TestPartsThatDoNotMeet(t *testing.T) {
	// Both ball joints' circles of case A at rest: the upper pivot stands 320 out,
	// 430 up, the lower ball joint 690 and 180, so that an upright of 284.4 needs
	// an upper arm of 161.9 at least there.
	for _, row := range []struct {
		name  string
		ch    Change
		link  Link
		short float64
		words string
	}{
		{"upper arm", Change{Upper: -200}, UpperArm, 161.9 - 121.4, "upper arm is "},
		{"rod", Change{Longer: [LegCount]float64{TieRodLeg: -260}}, TieRodLink, 0, "tie rod is "},
		{"an arm of nothing", Change{Lower: -440}, LowerArm, 0.5, "lower arm is "},
	} {
		n, err := Reassemble(caseA(), row.ch)
		var apart *AssemblyError
		if !errors.As(err, &apart) || !errors.Is(err, ErrUnreachable) || apart.Link != row.link || !(apart.Short > 0) {
			t.Errorf("%s: %v, camber %g", row.name, err, n.Camber)
			continue
		}
		if row.short > 0 && math.Abs(apart.Short-row.short) > 1 {
			t.Errorf("%s: %v, want %g", row.name, err, row.short)
		}
		if !strings.Contains(err.Error(), row.words) || !strings.Contains(err.Error(), " short: with these parts") {
			t.Errorf("%s: %v", row.name, err)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a flat arm's rear leg was lengthened")
		}
	}()
	_, _ = Reassemble(caseA(), Change{Longer: [LegCount]float64{UpperRearLeg: 1}})
}
