package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func deg(rad float64) float64 { return rad * 180 / math.Pi }
func rad(deg float64) float64 { return deg * math.Pi / 180 }

// caseA is the flat reference corner of testdata/kinematics/casea.yaml. Its
// tie rod lies in the plane x = 120 and copies the lower arm, so it steers nothing.
func caseA() Corner {
	return Corner{
		Lower:  FlatArm(Vec{Y: 250, Z: 200}, Vec{Y: 690, Z: 180}),
		Upper:  FlatArm(Vec{Y: 320, Z: 430}, Vec{Y: 640, Z: 460}),
		TieRod: TieRod{RackEnd: Vec{X: 120, Y: 250, Z: 200}, OuterEnd: Vec{X: 120, Y: 690, Z: 180}},
		Hub:    Vec{Y: 750, Z: 310},
		Wheel:  Wheel{LoadedRadius: 310},
	}
}

// caseB is the reference corner of testdata/kinematics/caseb.yaml: inclined
// axes, rack ahead of the axle, spring on the lower arm.
func caseB() Corner {
	return Corner{
		Lower:  Arm{Front: Vec{X: 150, Y: 300, Z: 190}, Rear: Vec{X: -170, Y: 310, Z: 185}, Ball: Vec{X: 10, Y: 690, Z: 180}},
		Upper:  Arm{Front: Vec{X: 110, Y: 340, Z: 420}, Rear: Vec{X: -150, Y: 350, Z: 410}, Ball: Vec{X: -15, Y: 650, Z: 455}},
		TieRod: TieRod{RackEnd: Vec{X: 130, Y: 330, Z: 235}, OuterEnd: Vec{X: 140, Y: 680, Z: 230}},
		Hub:    Vec{Y: 750, Z: 310},
		Wheel:  Wheel{LoadedRadius: 310},
		Spring: Spring{Carrier: OnLowerArm, Moving: Vec{Y: 550, Z: 195}, Body: Vec{X: -10, Y: 420, Z: 600}},
	}
}

// equalArms is a corner whose arms are equal and parallel, sloping up outward
// by an angle, with a tie rod that copies the lower arm in the plane x = 115.
func equalArms(slope float64) Corner {
	sin, cos := math.Sincos(slope)
	arm := Vec{Y: 400 * cos, Z: 400 * sin}
	lower, upper, rack := Vec{Y: 300, Z: 190}, Vec{Y: 285, Z: 440}, Vec{X: 115, Y: 300, Z: 190}
	return Corner{
		Lower:  FlatArm(lower, r3.Add(lower, arm)),
		Upper:  FlatArm(upper, r3.Add(upper, arm)),
		TieRod: TieRod{RackEnd: rack, OuterEnd: r3.Add(rack, arm)},
		Hub:    Vec{Y: 750, Z: 305},
		Wheel:  Wheel{LoadedRadius: 305},
	}
}

// randomCorner draws a corner such as a car may have: inclined axes, unequal
// arms, bushings anywhere near the ball joint, rack ahead of or behind the
// axle, any spring, a wheel with offset and spacer.
func randomCorner(r *rand.Rand) Corner {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	var c Corner
	c.Lower.Ball = Vec{X: in(-20, 25), Y: in(620, 720), Z: in(160, 220)}
	c.Upper.Ball = Vec{X: in(-35, 10), Y: c.Lower.Ball.Y - in(5, 60), Z: c.Lower.Ball.Z + in(220, 340)}
	pivots := func(ball Vec, reach float64) (front, rear Vec) {
		y, z := ball.Y-reach, ball.Z+in(-30, 35)
		return Vec{X: ball.X + in(70, 190), Y: y + in(-25, 25), Z: z + in(-18, 18)},
			Vec{X: ball.X - in(70, 190), Y: y + in(-25, 25), Z: z + in(-18, 18)}
	}
	c.Lower.Front, c.Lower.Rear = pivots(c.Lower.Ball, in(300, 430))
	c.Upper.Front, c.Upper.Rear = pivots(c.Upper.Ball, in(210, 360))
	c.Lower.Flat, c.Upper.Flat = r.IntN(6) == 0, r.IntN(6) == 0
	side := 1.0
	if r.IntN(2) == 0 {
		side = -1
	}
	c.TieRod.OuterEnd = Vec{X: c.Lower.Ball.X + side*in(95, 150), Y: c.Lower.Ball.Y + in(-35, 25), Z: c.Lower.Ball.Z + in(15, 130)}
	c.TieRod.RackEnd = Vec{X: c.TieRod.OuterEnd.X + in(-40, 40), Y: c.TieRod.OuterEnd.Y - in(290, 400), Z: c.TieRod.OuterEnd.Z + in(-25, 25)}
	c.Hub = Vec{X: in(-4, 4), Y: c.Lower.Ball.Y + in(30, 85), Z: in(285, 340)}
	c.Camber, c.Toe = rad(in(-3.5, 1)), rad(in(-0.6, 0.6))
	c.Wheel = Wheel{Offset: in(-40, 45), Spacer: in(0, 30), LoadedRadius: c.Hub.Z + in(-12, 12)}
	c.Spring.Carrier = Carrier(r.IntN(4))
	switch c.Spring.Carrier {
	case OnLowerArm, OnUpright:
		c.Spring.Moving = Vec{X: in(-30, 30), Y: c.Lower.Ball.Y - in(60, 170), Z: c.Lower.Ball.Z + in(0, 40)}
	case OnUpperArm:
		c.Spring.Moving = Vec{X: in(-30, 30), Y: c.Upper.Ball.Y - in(20, 120), Z: c.Upper.Ball.Z + in(0, 40)}
	}
	if c.Spring.Carrier != NoSpring {
		c.Spring.Body = Vec{X: in(-40, 40), Y: c.Spring.Moving.Y - in(60, 180), Z: c.Spring.Moving.Z + in(300, 420)}
	}
	return c
}

// seeded returns a source of random numbers and prints what made it.
func seeded(tb testing.TB, seed uint64) *rand.Rand {
	tb.Helper()
	tb.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 0x5eed))
}

func mustNew(tb testing.TB, c Corner) *Mechanism {
	tb.Helper()
	m, err := New(&c)
	if err != nil {
		tb.Fatalf("New: %v\n%+v", err, c)
	}
	return &m
}

func mustAt(tb testing.TB, m *Mechanism, travel, rack float64) Pose {
	tb.Helper()
	p, err := m.At(travel, rack)
	if err != nil {
		tb.Fatalf("At(%g, %g): %v", travel, rack, err)
	}
	return p
}

func mustRead(tb testing.TB, m *Mechanism, travel, rack float64) Readings {
	tb.Helper()
	p := mustAt(tb, m, travel, rack)
	return p.Readings()
}

// value returns a reading that must exist.
func value(tb testing.TB, r *Readings, q Quantity) float64 {
	tb.Helper()
	v, ok := r.Of(q)
	if !ok {
		tb.Fatalf("%v does not exist at travel %g, rack %g", q, r.Travel, r.Rack)
	}
	return v
}

// near fails unless got is within tol of want; NaN is never near.
func near(tb testing.TB, what string, got, want, tol float64) {
	tb.Helper()
	if !(math.Abs(got-want) <= tol) {
		tb.Errorf("%s = %.12g, want %.12g within %g (off by %.3g)", what, got, want, tol, got-want)
	}
}

// nearVec is near for the distance between two points.
func nearVec(tb testing.TB, what string, got, want Vec, tol float64) {
	tb.Helper()
	if d := r3.Norm(r3.Sub(got, want)); !(d <= tol) {
		tb.Errorf("%s = %.9v, want %.9v within %g (off by %.3g)", what, got, want, tol, d)
	}
}
