package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// rollCorner is invented: arms that close in on each other inboard so much that the wheel takes
// camber back over travel nearly as fast as the body leans.
func rollCorner() Corner {
	return Corner{
		Lower:  FlatArm(Vec{Y: 310, Z: 195}, Vec{X: 3, Y: 655, Z: 172}),
		Upper:  FlatArm(Vec{Y: 350, Z: 346}, Vec{X: -12, Y: 618, Z: 431}),
		TieRod: TieRod{RackEnd: Vec{X: 128, Y: 318, Z: 221}, OuterEnd: Vec{X: 131, Y: 648, Z: 206}},
		Hub:    Vec{Y: 698, Z: 301},
		Camber: rad(-0.7), Toe: rad(0.1),
		Wheel: Wheel{Offset: 21, LoadedRadius: 301},
	}
}

// outerByHand rolls a flat corner without the mechanism: both wheels of the front
// view are four-bar linkages in the frame of the body; the ground line that
// touches both tyres and stands to the body at the roll angle is sought by
// halving. It returns the outer wheel's camber to that line less that at rest.
func outerByHand(c *Corner, angle float64) float64 {
	type wheel struct{ camber, y, low float64 } // to the body; contact's y and height
	// pose turns the lower arm by t and leans the upright until the upper ball
	// joint is on its circle.
	at := func(t float64) wheel {
		turn := func(y, z, a float64) (float64, float64) {
			s, k := math.Sincos(a)
			return k*y - s*z, s*y + k*z
		}
		ly, lz := turn(c.Lower.Ball.Y-c.Lower.Front.Y, c.Lower.Ball.Z-c.Lower.Front.Z, t)
		ly, lz = ly+c.Lower.Front.Y, lz+c.Lower.Front.Z
		uy, uz := c.Upper.Ball.Y-c.Lower.Ball.Y, c.Upper.Ball.Z-c.Lower.Ball.Z
		want := math.Hypot(c.Upper.Ball.Y-c.Upper.Front.Y, c.Upper.Ball.Z-c.Upper.Front.Z)
		off := func(lean float64) float64 {
			y, z := turn(uy, uz, lean)
			return math.Hypot(ly+y-c.Upper.Front.Y, lz+z-c.Upper.Front.Z) - want
		}
		lo, hi := -0.3, 0.3
		for range 80 {
			if mid := (lo + hi) / 2; off(lo)*off(mid) <= 0 {
				hi = mid
			} else {
				lo = mid
			}
		}
		lean := (lo + hi) / 2 // top inboard above zero
		wy, wz := turn(c.Hub.Y-c.Wheel.Offset*math.Cos(c.Camber)-c.Lower.Ball.Y, c.Hub.Z+c.Wheel.Offset*math.Sin(c.Camber)-c.Lower.Ball.Z, lean)
		camber := c.Camber - lean
		// From the centre straight down in the wheel's plane; the ground's own slope
		// moves the lowest point of a thin disc along that line only.
		return wheel{camber, ly + wy - math.Sin(camber)*c.Wheel.LoadedRadius, lz + wz - math.Cos(camber)*c.Wheel.LoadedRadius}
	}
	// Wheel travel both ways by the same lower-arm height is not the same: the
	// mean travel of the wheel centres is nought, so two unknowns, nested.
	centre := func(t float64) float64 { w := at(t); return w.low + math.Cos(w.camber)*c.Wheel.LoadedRadius }
	rest := centre(0)
	drive := func(h float64) float64 {
		lo, hi := -0.4, 0.4
		for range 80 {
			if mid := (lo + hi) / 2; centre(mid)-rest > h {
				hi = mid
			} else {
				lo = mid
			}
		}
		return (lo + hi) / 2
	}
	lo, hi := 0.0, 110.0
	for range 60 {
		h := (lo + hi) / 2
		outer, inner := at(drive(h)), at(drive(-h))
		if slope := math.Atan((outer.low - inner.low) / (outer.y + inner.y)); slope > angle {
			hi = h
		} else {
			lo = h
		}
	}
	outer := at(drive(lo))
	return outer.camber + angle - c.Camber
}

func TestTheArmForARollAngle(t *testing.T) {
	c := rollCorner()
	c.Toe, c.Lower.Ball.X, c.Upper.Ball.X = 0, 0, 0
	c.TieRod = TieRod{RackEnd: Vec{X: 120, Y: 310, Z: 195}, OuterEnd: Vec{X: 120, Y: 655, Z: 172}} // steers nothing
	angle := rad(2.5)
	m := mustNew(t, c)
	now, err := m.OuterCamberInRoll(angle)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "camber in roll by hand, as it is", now, outerByHand(&c, angle), 1e-5)
	if back, err := m.OuterCamberInRoll(-angle); err != nil || math.Abs(back-now) > 1e-11 {
		t.Errorf("rolled the other way %g, %g: %v", back, now, err)
	}
	found := 0
	for _, end := range []ArmEnd{AtPivot, AtBall} {
		a, err := UpperArmForRoll(c, angle, end)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "what is left by hand", outerByHand(&a.Corner, angle), a.Left, 2e-5)
		if !a.Found {
			if end == AtPivot {
				t.Errorf("none found, left %g deg at %+g mm", deg(a.Left), a.Longer)
			}
			continue
		}
		found++
		u0, l0 := m.ArmLengths()
		u1, l1 := mustNew(t, a.Corner).ArmLengths()
		near(t, "upper arm", u1-u0, a.Longer, 1e-9)
		near(t, "lower arm", l1, l0, 1e-9)
		if end == AtPivot {
			was, is := mustRead(t, m, 0, 0), mustRead(t, mustNew(t, a.Corner), 0, 0)
			for _, q := range []Quantity{Camber, ScrubRadius, HalfTrack, InstantCentreY, InstantCentreZ, RollCentreHeight} {
				near(t, q.String(), value(t, &is, q), value(t, &was, q), 1e-6)
			}
		} else {
			nearVec(t, "pivot", a.Corner.Upper.Front, c.Upper.Front, 0)
		}
	}
	if found == 0 {
		t.Error("nothing found")
	}
}

// Where no arm does, the best one is said with what it leaves.
func TestNoArmForARollAngle(t *testing.T) {
	c := equalArms(0)
	a, err := UpperArmForRoll(c, rad(3), AtPivot)
	if err != nil || a.Found || !(a.Left > rad(0.5)) || !(a.Longer < 0) {
		t.Errorf("%+v, %v", a, err)
	}
	near(t, "what is left by hand", outerByHand(&a.Corner, rad(3)), a.Left, 1e-4)
	if _, err := UpperArmForRoll(c, rad(31), AtPivot); err == nil {
		t.Error("31 degrees of roll taken")
	}
}

// Of random corners the arm is one that can be built, nothing nearer keeps the camber,
// and none of 300 arms between the ends of what was searched leaves less; at such an
// end, and only there, that is said, and a little farther cannot be built.
func TestTheArmForARollCanBeBuilt(t *testing.T) {
	r := seeded(t, 71204)
	var found, limits [4]int
	for range coverCorners(t, 60, 2000) {
		c, angle := randomCorner(r), rad(0.5+4*r.Float64())
		low := 130 * r.Float64() // inner pivots, so that some wheels lean back as fast as the body
		c.Upper.Front.Z -= low
		c.Upper.Rear.Z -= low
		m, err := New(&c)
		if err != nil {
			continue
		}
		if _, err := m.OuterCamberInRoll(angle); err != nil {
			continue
		}
		for _, end := range []ArmEnd{AtPivot, AtBall} {
			a, err := UpperArmForRoll(c, angle, end)
			if err != nil {
				t.Fatal(err)
			}
			length := m.upper.radius
			least, most := min(c.Camber, rad(-5)), max(c.Camber, rad(2))
			build := func(mm float64) (float64, bool) {
				with, err := WithUpperArm(c, mm, end)
				if err != nil || with.Camber < least || with.Camber > most || mm/length < -0.3-1e-9 || mm/length > 0.4+1e-9 {
					return 0, false
				}
				m, err := New(&with)
				if err != nil {
					return 0, false
				}
				left, err := m.OuterCamberInRoll(angle)
				return left, err == nil
			}
			left, ok := build(a.Longer)
			if !ok || math.Abs(left-a.Left) > 1e-9 || a.Shortest > length+a.Longer+1e-9 || a.Longest < length+a.Longer-1e-9 {
				t.Errorf("%+g mm of %g: leaves %g, not %g, can be built %v", a.Longer, length, left, a.Left, ok)
			}
			for k, mm := range []float64{a.Shortest - length, a.Longest - length} {
				if _, ok := build(mm); !ok {
					t.Errorf("searched as far as %+g mm of %g, which cannot be built", mm, length)
				}
				beyond := mm + [...]float64{-0.01, 0.01}[k]
				if _, ok := build(beyond); ok {
					t.Errorf("searched only as far as %+g mm of %g", mm, length)
				}
			}
			at := min(math.Abs(a.Shortest-length-a.Longer), math.Abs(a.Longest-length-a.Longer)) < 1e-9
			if !a.Found && at != (a.Limit != NoArmLimit) || a.Found && a.Limit != NoArmLimit {
				t.Errorf("%+g mm of %g to %g, is %g, found %v: limit %d", a.Longer, a.Shortest, a.Longest, length, a.Found, a.Limit)
			}
			now, _ := build(0)
			for i := range 301 {
				mm := a.Shortest - length + (a.Longest-a.Shortest)*float64(i)/300
				by, ok := build(mm)
				switch {
				case !ok:
				case !a.Found && (math.Abs(by) < math.Abs(a.Left)-1e-7 || by*now < 0):
					t.Errorf("%+g mm leaves %g, the best of %+g leaves %g, now %g", mm, by, a.Longer, a.Left, now)
				case a.Found && by*now < 0 && math.Abs(mm) < math.Abs(a.Longer)-1e-6:
					t.Errorf("%+g mm leaves %g: one nearer than %+g keeps it", mm, by, a.Longer)
				}
			}
			limits[a.Limit]++
			if a.Found {
				found[end]++
			}
		}
	}
	t.Logf("found at the pivot and the ball joint %v, limits %v", found[:2], limits)
	if found[AtPivot] == 0 && found[AtBall] == 0 || limits[NoArmLimit] == 0 || limits[ArmShare] == 0 || limits[RestCamber] == 0 {
		t.Errorf("found %v, limits %v: not every way was tried", found[:2], limits)
	}
}

// At the pivot end neither ball joint nor camber moves, on inclined axes either.
func TestAnArmChangedAtItsPivot(t *testing.T) {
	c := caseB()
	n, err := WithUpperArm(c, -37.5, AtPivot)
	if err != nil {
		t.Fatal(err)
	}
	u0, _ := mustNew(t, c).ArmLengths()
	u1, _ := mustNew(t, n).ArmLengths()
	near(t, "arm", u1, u0-37.5, 1e-9)
	nearVec(t, "ball joint", n.Upper.Ball, c.Upper.Ball, 0)
	nearVec(t, "axis", r3.Sub(n.Upper.Front, n.Upper.Rear), r3.Sub(c.Upper.Front, c.Upper.Rear), 1e-9)
}
