package kinematics

import (
	"errors"
	"math"
	"testing"
)

const wheelbase = 2465.0

// trapezoid is a corner whose steering axis stands upright over the wheel's
// contact centre, so that the textbook's flat steering linkage is exact:
// steering arm of the given angle to straight back (positive inboard), level
// tie rod from a rack behind the axle.
func trapezoid(arm float64) Corner {
	sin, cos := math.Sincos(arm)
	outer := Vec{X: -132 * cos, Y: 730 - 132*sin, Z: 310}
	return Corner{
		Lower:  FlatArm(Vec{Y: 330, Z: 190}, Vec{Y: 730, Z: 190}),
		Upper:  FlatArm(Vec{Y: 420, Z: 440}, Vec{Y: 730, Z: 440}),
		TieRod: TieRod{RackEnd: Vec{X: outer.X - 14, Y: outer.Y - 352, Z: 310}, OuterEnd: outer},
		Hub:    Vec{Y: 730, Z: 310},
		Wheel:  Wheel{LoadedRadius: 310},
	}
}

// TestAckermannTextbook compares the error with the textbook's condition
// cot(outer) - cot(inner) = distance of the steering axes / wheelbase, which
// is exact where the axes go through the contact centres.
func TestAckermannTextbook(t *testing.T) {
	for _, arm := range []float64{rad(17), rad(-8), 0} {
		m := mustNew(t, trapezoid(arm))
		for _, rack := range []float64{-48, -20, 6, 31, 52} {
			s, err := m.Steering(rack, wheelbase)
			if err != nil || !s.HasError {
				t.Fatalf("rack %g: %+v, %v", rack, s, err)
			}
			inner, outer := math.Abs(s.Left), math.Abs(s.Right)
			if s.Left < 0 {
				inner, outer = outer, inner
			}
			ideal := math.Atan(1 / (1/math.Tan(inner) + 2*730/wheelbase))
			near(t, "Ackermann error", s.AckermannError, outer-ideal, 1e-12)
		}
	}
}

// TestAckermannSign: arms that point straight back steer nearly parallel, so
// the outer wheel turns too far; arms that lean in bring it nearer.
func TestAckermannSign(t *testing.T) {
	at := func(arm float64) float64 {
		s, err := mustNew(t, trapezoid(arm)).Steering(40, wheelbase)
		if err != nil || !s.HasError {
			t.Fatal(s, err)
		}
		return s.AckermannError
	}
	parallel, leaning, much := at(0), at(rad(12)), at(rad(30))
	if !(parallel > rad(0.5) && leaning < parallel && much < rad(-0.5)) {
		t.Errorf("errors %g, %g, %g degrees for arms at 0, 12, 30", deg(parallel), deg(leaning), deg(much))
	}
}

// TestAckermannExact finds the rack position at which the error changes its
// sign and checks there that the axles of both wheels, drawn out, meet the
// rear-axle line in one point.
func TestAckermannExact(t *testing.T) {
	// These arms turn the outer wheel too far at small lock, too little at large.
	m := mustNew(t, trapezoid(rad(21)))
	f := func(rack float64) float64 {
		s, err := m.Steering(rack, wheelbase)
		if err != nil || !s.HasError {
			t.Fatal(s, err)
		}
		return s.AckermannError
	}
	lo, hi := 5.0, 60.0
	if f(lo)*f(hi) >= 0 {
		t.Fatalf("errors %g and %g degrees do not bracket none", deg(f(lo)), deg(f(hi)))
	}
	for range 200 {
		if mid := (lo + hi) / 2; f(lo)*f(mid) <= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	left, right := mustAt(t, m, 0, lo), mustAt(t, m, 0, -lo)
	meet := func(p Pose) float64 { // y, outboard in the wheel's own mirror image, of its axle at the rear-axle line
		return p.Contact.Y + (-wheelbase-p.Contact.X)*p.Spin.Y/p.Spin.X
	}
	near(t, "both axles meet at y", meet(left), -meet(right), 1e-6)
}

// TestSteeringMirror: the rack the other way exchanges the wheels.
func TestSteeringMirror(t *testing.T) {
	for _, c := range someCorners(t, 81, 60) {
		m := mustNew(t, c)
		for _, rack := range []float64{11, 36} {
			a, err := m.Steering(rack, wheelbase)
			b, err2 := m.Steering(-rack, wheelbase)
			if err := errors.Join(err, err2); err != nil {
				t.Fatal(err)
			}
			near(t, "left and right", a.Left, -b.Right, 0)
			near(t, "right and left", a.Right, -b.Left, 0)
			near(t, "error", a.AckermannError, b.AckermannError, 1e-12)
			if a.HasError != b.HasError {
				t.Errorf("error exists %v and %v", a.HasError, b.HasError)
			}
			r := mustRead(t, m, 0, rack)
			near(t, "left wheel", a.Left, -value(t, &r, Toe), 0)
			o := mustRead(t, m, 0, -rack)
			near(t, "right wheel", a.Right, value(t, &o, Toe), 0)
		}
	}
}

// TestSteeringWithoutError: straight ahead, without a wheelbase, and with the
// wheels turned against each other there is no error to tell.
func TestSteeringWithoutError(t *testing.T) {
	toeIn := trapezoid(rad(9))
	toeIn.Toe = rad(0.4)
	for _, check := range []struct {
		what      string
		c         Corner
		rack, wb  float64
		sameSense bool
	}{
		{"straight ahead", trapezoid(rad(9)), 0, wheelbase, true},
		{"no wheelbase", trapezoid(rad(9)), 33, 0, true},
		{"toe-in", toeIn, 0, wheelbase, false},
	} {
		s, err := mustNew(t, check.c).Steering(check.rack, check.wb)
		if err != nil || s.HasError || s.AckermannError != 0 {
			t.Errorf("%s: %+v, %v", check.what, s, err)
		}
		if check.sameSense == (s.Left*s.Right < -1e-12) {
			t.Errorf("%s: wheels at %g and %g", check.what, s.Left, s.Right)
		}
	}
}

// TestSteeringOutOfReach names the side.
func TestSteeringOutOfReach(t *testing.T) {
	_, err := mustNew(t, caseB()).Steering(190, wheelbase)
	var reach *ReachError
	if !errors.As(err, &reach) || !errors.Is(err, ErrUnreachable) || reach.Link != TieRodLink || reach.HasLimit {
		t.Errorf("rack 190: %v", err)
	}
}

// The sense of the rack is the sign of the wheels' turning over it, here by
// solving to both sides of the middle.
func TestRackSense(t *testing.T) {
	both := map[float64]int{}
	rng := seeded(t, 4711)
	for range 400 {
		c := randomCorner(rng)
		m, err := New(&c)
		if err != nil {
			continue
		}
		l, errL := m.Steering(0.5, 0)
		r, errR := m.Steering(-0.5, 0)
		if errL != nil || errR != nil || math.Abs(l.Left-r.Left) < 1e-4 {
			continue
		}
		want := math.Copysign(1, l.Left-r.Left)
		both[want]++
		if got := m.RackSense(); got != want {
			t.Errorf("sense %g, the wheels turn %g degrees to the left over 1 mm: %+v", got, deg(l.Left-r.Left), c)
		}
	}
	if both[1] < 50 || both[-1] < 50 {
		t.Errorf("%v corners of each sense", both)
	}
}
