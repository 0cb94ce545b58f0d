package effort

import (
	"errors"
	"math"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// A limit itself is taken, and the number next to it beyond is refused.
func TestLimitsOfConditionsAreTaken(t *testing.T) {
	for name, c := range map[string]struct {
		of   func(c *Conditions) *float64
		most float64
	}{
		"load": {func(c *Conditions) *float64 { return &c.Load }, maxForce / 10}, "tread": {func(c *Conditions) *float64 { return &c.Tread }, maxTread},
		"grip": {func(c *Conditions) *float64 { return &c.Parking }, maxGrip}, "bump load": {func(c *Conditions) *float64 { return &c.BumpLoad }, maxForce / 10},
		"bump push": {func(c *Conditions) *float64 { return &c.BumpKick }, maxForce / 10},
	} {
		for _, v := range []struct {
			x  float64
			ok bool
		}{{0, true}, {c.most, true}, {math.Nextafter(c.most, math.Inf(1)), false}, {-5e-324, false}} {
			in := Usual(3100, 187)
			*c.of(&in) = v.x
			if err := in.check(); errors.Is(err, ErrInput) == v.ok {
				t.Errorf("%s of %g: %v", name, v.x, err)
			}
		}
	}
	in := Usual(3100, 187)
	for x, ok := range map[float64]bool{-10_000: true, math.Nextafter(-10_000, math.Inf(-1)): false} {
		if in.BumpTravel = x; (in.check() == nil) != ok {
			t.Errorf("travel of the bump %g: %v", x, in.check())
		}
	}
	m := checkcorner.New(t, upright())
	for _, v := range []struct {
		force, couple, turn float64
		ok                  bool
	}{{maxForce, maxCouple, maxRatio, true}, {math.Nextafter(-maxForce, math.Inf(-1)), 0, 0, false}, {0, math.Nextafter(-maxCouple, math.Inf(-1)), 0, false}, {0, 0, math.Nextafter(maxRatio, math.Inf(1)), false}} {
		if _, err := Solve(m, Gear{RackPerTurn: v.turn, RimRadius: 180}, Case{Left: Side{Force: Vec{X: v.force}, Couple: v.couple}}); (err == nil) != v.ok {
			t.Errorf("%+v: %v", v, err)
		}
	}
}

// The wheel's scrub on the ground is the distance of its contact from the axis there,
// by trail and scrub radius; a bump adds to the load; a steering wheel needs both of
// its numbers.
func TestCasesFromTheReadings(t *testing.T) {
	m := checkcorner.New(t, front())
	c := Usual(3100, 187)
	p, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	arm := math.Hypot(p.Contact.X-p.AxisAtGround.X, p.Contact.Y-p.AxisAtGround.Y)
	r := p.Readings()
	scrub, _ := r.Of(kinematics.ScrubRadius)
	trail, _ := r.Of(kinematics.Trail)
	if math.Abs(arm-math.Hypot(scrub, trail)) > 1e-9 || !(math.Abs(trail) > 1) {
		t.Fatalf("arm %g, scrub %g, trail %g", arm, scrub, trail)
	}
	park, err := Parking(m, c)
	if want := ParkingTorque(c.Parking, c.Load, c.Tread, math.Hypot(scrub, trail)); err != nil || math.Abs(park.Right.Couple-want) > 1e-6 {
		t.Errorf("parking: %g, want %g, %v", park.Right.Couple, want, err)
	}
	bump, err := OneWheelBump(c)
	if err != nil || bump.Left.Force.Z != c.Load+c.BumpLoad || !(c.BumpLoad > 0) {
		t.Errorf("bump: %+v, %v", bump, err)
	}
	for _, g := range []Gear{{RackPerTurn: 44}, {RimRadius: 180}, {}, {RackPerTurn: 44, RimRadius: 180}} {
		a, err := Solve(m, g, park)
		if want := g.RackPerTurn > 0 && g.RimRadius > 0; err != nil || a.HasWheel != want || math.IsInf(a.RimPull, 0) || math.IsNaN(a.RimPull) {
			t.Errorf("%+v: a steering wheel %v, %v", g, a.HasWheel, err)
		}
	}
}
