package kinematics

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

func mustRoll(tb testing.TB, m *Mechanism, angle, rack float64) RolledAxle {
	tb.Helper()
	ax, err := m.Roll(angle, rack)
	if err != nil {
		tb.Fatalf("Roll(%g, %g): %v", angle, rack, err)
	}
	return ax
}

// rollCases are angles (rad) and rack positions (mm) for the laws of roll.
var rollCases = [][2]float64{{rad(2.3), 0}, {rad(-1.1), 0}, {rad(3.7), 21}, {rad(-2.6), 13}, {rad(0.4), -34}}

// TestRollMirror: roll and rack the other way exchange left and right.
func TestRollMirror(t *testing.T) {
	for _, c := range someCorners(t, 61, 60) {
		m := mustNew(t, c)
		for _, rc := range rollCases {
			a, b := mustRoll(t, m, rc[0], rc[1]), mustRoll(t, m, -rc[0], -rc[1])
			la, ra := a.Readings()
			lb, rb := b.Readings()
			for q := range QuantityCount {
				for _, pair := range [2][2]*Readings{{&la, &rb}, {&ra, &lb}} {
					va, oka := pair[0].Of(q)
					vb, okb := pair[1].Of(q)
					if oka != okb {
						t.Fatalf("%v exists %v, mirrored %v", q, oka, okb)
					}
					tol := slack(q, va) * 10
					if q == RollCentreY { // toward the car's left on both sides
						va, tol = -va, 1e-6*(1+va*va/1e4)
					}
					near(t, q.String(), vb, va, tol)
				}
			}
			if t.Failed() {
				t.Fatalf("roll %g, rack %g: %+v", rc[0], rc[1], c)
			}
		}
	}
}

// TestRollOnGround: both tyres stand on the resting ground, mean travel is
// zero, and each corner is the mechanism at its own travel, turned.
func TestRollOnGround(t *testing.T) {
	for _, c := range someCorners(t, 62, 100) {
		m := mustNew(t, c)
		rest := mustAt(t, m, 0, 0)
		for _, rc := range rollCases {
			ax := mustRoll(t, m, rc[0], rc[1])
			near(t, "left tyre", ax.Left.Contact.Z, rest.Contact.Z, 1e-9)
			near(t, "right tyre", ax.Right.Contact.Z, rest.Contact.Z, 1e-9)
			near(t, "mean travel", ax.Left.Travel+ax.Right.Travel, 0, 1e-12)
			if ax.Left.Travel*rc[0] >= 0 {
				t.Errorf("roll %g lifts the left side, yet its travel is %g", rc[0], ax.Left.Travel)
			}
			for side, p := range map[string]*Pose{"left": &ax.Left, "right": &ax.Right} {
				roll, rack := rc[0], rc[1]
				if side == "right" {
					roll, rack = -roll, -rack
				}
				body := mustAt(t, m, p.Travel, rack)
				// The body turns about the point of the centre plane on the resting ground, and lifts.
				sin, cos := math.Sincos(roll)
				near(t, side+" rack end, aside", p.RackEnd.Y, cos*body.RackEnd.Y-sin*(body.RackEnd.Z-rest.Contact.Z), 1e-9)
				back := func(v Vec) Flat { return r2.Rotate(Front(v), -roll, Flat{}) }
				// Distances between turned points are those of the body.
				d := r2.Sub(back(p.WheelCentre), back(p.RackEnd))
				near(t, side+" wheel centre to rack end, out", d.X, body.WheelCentre.Y-body.RackEnd.Y, 1e-9)
				near(t, side+" wheel centre to rack end, up", d.Y, body.WheelCentre.Z-body.RackEnd.Z, 1e-9)
				spin := back(p.Spin)
				near(t, side+" spin axis, out", spin.X, body.Spin.Y, 1e-12)
				near(t, side+" spin axis, up", spin.Y, body.Spin.Z, 1e-12)
			}
			if t.Failed() {
				t.Fatalf("roll %g, rack %g: %+v", rc[0], rc[1], c)
			}
		}
	}
}

// TestRollOfEqualArms: equal parallel arms keep the wheel square to the body,
// so in roll the whole roll angle becomes camber; the side that lifts leans in
// at its top, which is negative.
func TestRollOfEqualArms(t *testing.T) {
	for _, slope := range []float64{0, rad(-5), rad(3)} {
		m := mustNew(t, equalArms(slope))
		for _, angle := range []float64{rad(1.7), rad(-2.9)} {
			ax := mustRoll(t, m, angle, 0)
			left, right := ax.Readings()
			near(t, "left camber", value(t, &left, Camber), -angle, 1e-9)
			near(t, "right camber", value(t, &right, Camber), angle, 1e-9)
			near(t, "left toe", value(t, &left, Toe), 0, 1e-9)
		}
		rates, err := m.RollRates()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "camber by roll", rates.Camber, -1, 1e-6)
		near(t, "toe by roll", rates.Toe, 0, 1e-9)
	}
}

// TestParallelArms: no instant centre, and still a roll centre.
func TestParallelArms(t *testing.T) {
	c := equalArms(rad(-5))
	r := mustRead(t, mustNew(t, c), 0, 0)
	for _, q := range []Quantity{InstantCentreY, InstantCentreZ, SwingArm} {
		if v, ok := r.Of(q); ok || v != 0 {
			t.Errorf("parallel arms have %v = %g", q, v)
		}
	}
	near(t, "roll centre", value(t, &r, RollCentreHeight), 750*math.Tan(rad(5)), 1e-9)
	near(t, "roll centre aside", value(t, &r, RollCentreY), 0, 0)
	ax := mustRoll(t, mustNew(t, c), 0, 0)
	left, right := ax.Readings()
	near(t, "left", value(t, &left, RollCentreHeight), 750*math.Tan(rad(5)), 1e-9)
	near(t, "right", value(t, &right, RollCentreHeight), 750*math.Tan(rad(5)), 1e-9)
	if level, _ := mustNew(t, equalArms(0)).Roll(0, 0); !exists(level, RollCentreHeight) {
		t.Error("level parallel arms have no roll centre at rest")
	}
}

func exists(ax RolledAxle, q Quantity) bool {
	left, _ := ax.Readings()
	_, ok := left.Of(q)
	return ok
}

// TestRollCentreOfAxle: at no roll it is the corner's own, and as roll goes to
// zero it comes to that point with the first power of the angle; the left and
// the right line meet in it.
func TestRollCentreOfAxle(t *testing.T) {
	for _, c := range []Corner{caseA(), caseB(), equalArms(rad(-5))} {
		m := mustNew(t, c)
		r := mustRead(t, m, 0, 0)
		height := value(t, &r, RollCentreHeight)
		ax := mustRoll(t, m, 0, 0)
		left, _ := ax.Readings()
		near(t, "at no roll", value(t, &left, RollCentreHeight), height, 1e-9)
		before := math.Inf(1)
		for _, angle := range []float64{1e-2, 1e-3, 1e-4} {
			ax := mustRoll(t, m, angle, 0)
			left, right := ax.Readings()
			y, z := value(t, &left, RollCentreY), value(t, &left, RollCentreHeight)
			near(t, "right side says, up", value(t, &right, RollCentreHeight), z, 0)
			near(t, "right side says, aside", value(t, &right, RollCentreY), y, 0)
			off := math.Hypot(y, z-height)
			if !(off < before/5) {
				t.Errorf("roll %g: %g mm from the resting roll centre, before %g", angle, off, before)
			}
			before = off
			if ic, ok := left.Of(InstantCentreY); ok {
				// The left line holds the roll centre.
				ground := ax.Left.Contact
				a := r2.Sub(Flat{X: ic, Y: value(t, &left, InstantCentreZ)}, Front(ground))
				b := r2.Sub(Flat{X: y, Y: ground.Z + z}, Front(ground))
				near(t, "sine between the lines", r2.Cross(r2.Unit(a), r2.Unit(b)), 0, 1e-9)
			}
		}
		near(t, "close to no roll", before, 0, 1)
	}
}

// TestRollRates compares the slopes in roll with differences of higher order.
// The step of RollRates leaves a third derivative's part of some 1e-5.
func TestRollRates(t *testing.T) {
	for _, c := range someCorners(t, 63, 30) {
		m := mustNew(t, c)
		rates, err := m.RollRates()
		if err != nil {
			t.Fatal(err)
		}
		by := func(q Quantity) float64 {
			return central(func(a float64) float64 {
				ax := mustRoll(t, m, a, 0)
				left, _ := ax.Readings()
				return value(t, &left, q)
			}, 0, 4e-3)
		}
		near(t, "camber by roll", rates.Camber, by(Camber), 3e-5)
		near(t, "toe by roll", rates.Toe, by(Toe), 3e-5)
		// Independent of any roll: to first order the left wheel droops by half
		// track times roll, and the body's own turn comes on top.
		r := mustRead(t, m, 0, 0)
		if c.Camber == 0 && c.Toe == 0 {
			near(t, "camber by roll, from camber gain", rates.Camber, -1-value(t, &r, HalfTrack)*value(t, &r, CamberGain), 1e-5)
		}
	}
}

// TestSweeps: each row of a sweep is what one solution says, and a sweep ends
// at the first position out of reach.
func TestSweeps(t *testing.T) {
	m := mustNew(t, caseB())
	const rack = 9.5
	for _, a := range []float64{rad(-3), rad(0.5), rad(2)} {
		ax := mustRoll(t, m, a, rack)
		l, r := ax.Readings()
		if l.Roll != a || l.Rack != rack || l.Travel != -r.Travel {
			t.Errorf("roll %g: readings say %g, %g, %g", a, l.Roll, l.Rack, l.Travel)
		}
	}
	steered := make([]Readings, 3)
	if n, err := m.SweepRack(steered, -8, []float64{-20, 3, 33}); n != 3 || err != nil {
		t.Fatal(n, err)
	}
	for i, x := range []float64{-20, 3, 33} {
		if steered[i] != mustRead(t, m, -8, x) {
			t.Errorf("rack %g: the sweep says otherwise", x)
		}
	}
	for what, run := range map[string]func() (int, error){
		"travel": func() (int, error) { return m.SweepTravel(steered, []float64{11, 2000, 12}, 0) },
		"rack":   func() (int, error) { return m.SweepRack(steered, 0, []float64{11, 2000, 12}) },
	} {
		if n, err := run(); n != 1 || !errors.Is(err, ErrUnreachable) {
			t.Errorf("sweep over %s: solved %d, %v", what, n, err)
		}
	}
}

// TestRollOutOfReach: the error names the side and the link.
func TestRollOutOfReach(t *testing.T) {
	m := mustNew(t, caseB())
	_, err := m.Roll(rad(25), 0)
	var reach *ReachError
	if !errors.Is(err, ErrUnreachable) || !errors.As(err, &reach) {
		t.Fatalf("25 degrees of roll: %v", err)
	}
	if s := err.Error(); !strings.Contains(s, "left corner") && !strings.Contains(s, "right corner") || !strings.Contains(s, "+25.0 degrees") {
		t.Errorf("error %q names no side or angle", s)
	}
	for _, angle := range []float64{MaxRoll * 1.001, -4, math.NaN(), math.Inf(1)} {
		if _, err := m.Roll(angle, 0); !errors.Is(err, ErrUnreachable) || !strings.Contains(err.Error(), "not within ±30 degrees") {
			t.Errorf("roll %g: %v", angle, err)
		}
	}
	if _, err := m.Roll(0.02, 400); !errors.Is(err, ErrUnreachable) {
		t.Errorf("rack 400: %v", err)
	}
	if _, err := m.RollRates(); err != nil {
		t.Error(err)
	}
}
