package kinematics

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// mustReach returns the *ReachError that a position must end in.
func mustReach(t *testing.T, m *Mechanism, travel, rack float64) *ReachError {
	t.Helper()
	_, err := m.At(travel, rack)
	var e *ReachError
	if !errors.Is(err, ErrUnreachable) || !errors.As(err, &e) {
		t.Fatalf("At(%g, %g): %v", travel, rack, err)
	}
	if !(e.Short > 0) || e.Travel != travel || e.Rack != rack || errors.Is(err, ErrGeometry) {
		t.Errorf("At(%g, %g): %+v", travel, rack, e)
	}
	return e
}

// TestRangeEnds: just inside each end the corner assembles, just outside it
// does not, and the error names the same link and the same end.
func TestRangeEnds(t *testing.T) {
	links := map[Link]int{}
	for i, c := range someCorners(t, 101, 150) {
		m := mustNew(t, c)
		for _, rack := range []float64{0, -33, 27} {
			reach, err := m.Range(rack)
			if err != nil {
				t.Fatalf("corner %d: %v", i, err)
			}
			if !(reach.Droop.Travel < 0 && reach.Bump.Travel > 0) {
				t.Errorf("corner %d: range %+v", i, reach)
			}
			for out, end := range map[float64]TravelLimit{-1: reach.Droop, 1: reach.Bump} {
				inside := mustAt(t, m, end.Travel-out*1e-3, rack)
				finitePose(t, &inside)
				at := mustAt(t, m, end.Travel, rack)
				finitePose(t, &at)
				for _, beyond := range []float64{1e-3, 2, 40} {
					e := mustReach(t, m, end.Travel+out*beyond, rack)
					if !e.HasLimit || e.Limit != end.Travel || end.Link == NoLink {
						t.Errorf("corner %d: end %+v, error %+v", i, end, e)
					}
					if beyond < 1 && e.Link != end.Link {
						t.Errorf("corner %d: %v binds at the end, %v just beyond", i, end.Link, e.Link)
					}
				}
				links[end.Link]++
			}
			if t.Failed() {
				t.Fatalf("corner %d, rack %g: %+v", i, rack, c)
			}
		}
	}
	t.Logf("links that bind: %v", links)
}

// lowerBinds and upperBinds are corners in which that link ends the bump or
// the droop travel.
func lowerBinds() Corner {
	c := workshopCorner()
	c.Lower.Front.Y = c.Lower.Ball.Y - 95
	c.Upper.Front.Y = c.Upper.Ball.Y - 480
	c.TieRod.RackEnd.Y = c.TieRod.OuterEnd.Y - 260
	return c
}

func upperBinds() Corner {
	c := caseA()
	c.Upper = FlatArm(Vec{Y: 560, Z: 410}, Vec{Y: 640, Z: 460})
	c.Hub.Y = 650 // a hub inboard of the axis goes down as the upright swings in
	return c
}

// TestReachErrorShort: the named link is the one that binds, and with that
// much more length, or less where it is too long, it would reach; with a
// thousandth of a mm fewer it would not.
func TestReachErrorShort(t *testing.T) {
	folded := caseA() // the upright is longer than the upper arm and its pivot can follow
	folded.Upper = FlatArm(Vec{Y: 590, Z: 390}, Vec{Y: 640, Z: 620})
	long := caseA() // the upper arm is longer than the upright and the lower ball joint can follow
	long.Upper = FlatArm(Vec{Y: 660, Z: 120}, Vec{Y: 640, Z: 390})
	for _, check := range []struct {
		what    string
		c       Corner
		travel  float64
		tooLong bool
	}{
		{"upper arm stretched", upperBinds(), -170, false},
		{"upper arm folded", folded, 160, false},
		{"upper arm too long", long, -115, true},
	} {
		t.Run(check.what, func(t *testing.T) {
			m := mustNew(t, check.c)
			e := mustReach(t, m, check.travel, 0)
			if e.Link != UpperArm || e.TooLong != check.tooLong || !e.HasLimit {
				t.Fatalf("%+v", e)
			}
			// The lower ball joint stands as much higher than at the limit as is missing.
			limit := mustAt(t, m, e.Limit, 0)
			sin, cos, ok := m.raiseBall(limit.LowerBall.Z + check.travel - e.Limit)
			if !ok {
				t.Fatal("the lower arm cannot go there")
			}
			change := e.Short
			if e.TooLong {
				change = -change
			}
			for _, part := range []struct {
				share float64
				bound bool
			}{{1 + 1e-3, false}, {1 - 1e-3, true}} {
				other := *m
				other.upper.radius += part.share * change
				var p Pose
				if link := other.assemble(sin, cos, 0, &p); (link == UpperArm) != part.bound {
					t.Errorf("upper arm %g mm longer: %v", part.share*change, link)
				}
			}
		})
	}
	t.Run("lower arm", func(t *testing.T) {
		m := mustNew(t, lowerBinds())
		e := mustReach(t, m, 130, 0)
		if e.Link != LowerArm || !e.HasLimit {
			t.Fatalf("%+v", e)
		}
		near(t, "short", e.Short, 130-e.Limit, 1e-9)
		near(t, "limit", e.Limit, 95, 25) // about where the arm stands upright
	})
}

// TestRangeOfArmsThatTurnAsOne: with both arms on one axis and the upright in
// their plane the corner is a rigid body that turns for ever; its travel still
// ends where the wheel is highest and lowest.
func TestRangeOfArmsThatTurnAsOne(t *testing.T) {
	pivot := Vec{Y: 310, Z: 260}
	on := func(x, radius, degrees float64) Vec {
		s, c := math.Sincos(degrees * math.Pi / 180)
		return Vec{X: x, Y: pivot.Y + radius*c, Z: pivot.Z + radius*s}
	}
	c := workshopCorner()
	c.Lower = FlatArm(pivot, on(0, 385, 17))
	c.Upper = FlatArm(pivot, on(37, 452, 17))
	c.TieRod = TieRod{RackEnd: pivot, OuterEnd: on(140, 395, 17)}
	c.TieRod.RackEnd.X = 133
	m := mustNew(t, c)
	reach, err := m.Range(0)
	if err != nil {
		t.Fatal(err)
	}
	hub := mustAt(t, m, 0, 0).WheelCentre
	above, out := hub.Z-pivot.Z, math.Hypot(hub.Y-pivot.Y, hub.Z-pivot.Z)
	// Without a rate the end is found to within a small step of the walk.
	within := out * walkSmallStep * walkSmallStep * 2
	near(t, "bump", reach.Bump.Travel, out-above, within)
	near(t, "droop", reach.Droop.Travel, -out-above, within)
	if reach.Bump.Link != LowerArm || reach.Droop.Link != LowerArm {
		t.Errorf("range %+v", reach)
	}
	mustReach(t, m, out-above+1, 0)
}

// TestReachErrorTieRod: a rack position at which nothing assembles, with the
// rod too short on one side and too long on the other.
func TestReachErrorTieRod(t *testing.T) {
	m := mustNew(t, caseB())
	for rack, tooLong := range map[float64]bool{-190: false, 190: true} {
		e := mustReach(t, m, 0, rack)
		if e.Link != TieRodLink || e.TooLong != tooLong || e.HasLimit {
			t.Errorf("rack %g: %+v", rack, e)
			continue
		}
		change := e.Short
		if tooLong {
			change = -change
		}
		for share, bound := range map[float64]bool{1 + 1e-6: false, 1 - 1e-6: true} {
			other := *m
			other.rod += share * change
			var p Pose
			if link := other.assemble(0, 1, rack, &p); (link == TieRodLink) != bound {
				t.Errorf("rack %g, rod %g mm longer: %v", rack, share*change, link)
			}
		}
		if _, err := m.Range(rack); !errors.Is(err, ErrUnreachable) {
			t.Errorf("range at rack %g: %v", rack, err)
		}
	}
	// Nearly at full lock the travel is short, and the tie rod ends it.
	lo, hi := 0.0, -190.0
	for lo-hi > 0.25 {
		if _, err := m.At(0, (lo+hi)/2); err == nil {
			lo = (lo + hi) / 2
		} else {
			hi = (lo + hi) / 2
		}
	}
	reach, err := m.Range(lo)
	if err != nil {
		t.Fatal(err)
	}
	if reach.Bump.Link != TieRodLink && reach.Droop.Link != TieRodLink || reach.Bump.Travel-reach.Droop.Travel > 650 {
		t.Errorf("at rack %g the range is %+v", lo, reach)
	}
}

// TestReachErrorText: one line that says link, amount, position and limit.
func TestReachErrorText(t *testing.T) {
	for e, want := range map[*ReachError]string{
		{Link: UpperArm, Short: 3.44, Travel: 71.2, Limit: 66.31, HasLimit: true}:           "upper arm is 3.4 mm short at travel +71.2 mm; it binds at +66.3 mm",
		{Link: TieRodLink, Short: 0.0123, TooLong: true, Travel: -5, Rack: 62}:              "tie rod is 0.012 mm too long at travel −5.0 mm, rack +62.0 mm; with the rack there the corner does not assemble as it rests",
		{Link: LowerArm, Short: 12, Travel: -80, Rack: -1.5, Limit: -68.04, HasLimit: true}: "lower arm is 12.0 mm short at travel −80.0 mm, rack −1.5 mm; it binds at −68.0 mm",
	} {
		if e.Error() != want {
			t.Errorf("%q, want %q", e, want)
		}
	}
	if s := NoLink.String(); strings.Contains(s, "arm") {
		t.Errorf("NoLink is called %q", s)
	}
}

// straightRod is a corner whose tie rod stands straight out from its steering
// arm at rest. Its lower arm slopes, so that bump brings the upright outboard.
func straightRod() Corner {
	c := Corner{
		Lower: FlatArm(Vec{Y: 310, Z: 215}, Vec{Y: 690, Z: 185}),
		Upper: FlatArm(Vec{Y: 380, Z: 475}, Vec{Y: 690, Z: 455}),
		Hub:   Vec{Y: 748, Z: 306},
		Wheel: Wheel{LoadedRadius: 306},
	}
	out := r3.Unit(Vec{X: 0.71, Y: -0.62}) // square to the upright steering axis
	foot := Vec{Y: 690, Z: 238}
	c.TieRod.OuterEnd = r3.Add(foot, r3.Scale(133, out))
	c.TieRod.RackEnd = r3.Add(foot, r3.Scale(133+341, out))
	return c
}

// straightUpright is a corner whose upper arm stands in line with the upright.
func straightUpright() Corner {
	c := caseA()
	up := r3.Unit(Vec{Y: -0.27, Z: 0.96})
	c.Upper.Ball = r3.Add(c.Lower.Ball, r3.Scale(263, up))
	c.Upper.Front = r3.Add(c.Lower.Ball, r3.Scale(263+187, up))
	return c
}

// TestFullReach: exactly at full reach the corner still stands at rest, and it
// walks the one way that is open.
func TestFullReach(t *testing.T) {
	for name, c := range map[string]Corner{"tie rod straight out": straightRod(), "upper arm and upright in line": straightUpright()} {
		t.Run(name, func(t *testing.T) {
			m := mustNew(t, c)
			p := mustAt(t, m, 0, 0)
			finitePose(t, &p)
			nearVec(t, "lower ball joint", p.LowerBall, c.Lower.Ball, 1e-9)
			nearVec(t, "upper ball joint", p.UpperBall, c.Upper.Ball, 1e-5)
			nearVec(t, "outer end", p.OuterEnd, c.TieRod.OuterEnd, 1e-5)
			r := p.Readings()
			if _, ok := r.Of(RideToe); ok {
				t.Error("a dead point has slopes")
			}
			reach, err := m.Range(0)
			if err != nil {
				t.Fatal(err)
			}
			open := 0
			for dir, end := range map[float64]TravelLimit{-1: reach.Droop, 1: reach.Bump} {
				if math.Abs(end.Travel) < 1e-3 { // the closed way
					e := mustReach(t, m, dir*7, 0)
					if e.Link != end.Link || e.Link == LowerArm {
						t.Errorf("closed way: %+v, %+v", end, e)
					}
					continue
				}
				open++
				for h := 0.25; h < math.Min(30, math.Abs(end.Travel)); h *= 1.7 {
					p := mustAt(t, m, dir*h, 0)
					finitePose(t, &p)
					near(t, "wheel centre", p.WheelCentre.Z-m.restZ, dir*h, 1e-9)
					near(t, "tie rod", r3.Norm(r3.Sub(p.OuterEnd, p.RackEnd)), m.rod, 1e-8)
					near(t, "upright", r3.Norm(r3.Sub(p.UpperBall, p.LowerBall)), m.upright, 1e-8)
				}
			}
			if open != 1 {
				t.Errorf("%d ways are open: %+v", open, reach)
			}
		})
	}
}

// TestSolvePanics: a position that is no number is a caller's bug.
func TestSolvePanics(t *testing.T) {
	m := mustNew(t, caseB())
	for _, at := range [][2]float64{{math.NaN(), 0}, {0, math.Inf(-1)}, {MaxLength * 1.01, 0}, {3, -MaxLength * 1.01}} {
		func() {
			defer func() {
				if s, _ := recover().(string); !strings.HasPrefix(s, "kinematics: ") {
					t.Errorf("At(%g, %g) panics with %q", at[0], at[1], s)
				}
			}()
			_, _ = m.At(at[0], at[1])
		}()
	}
}
