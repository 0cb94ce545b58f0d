package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// central is a five-point central difference: its error falls with the fourth
// power of the step, so that a step of 0.5 mm leaves only rounding.
func central(f func(x float64) float64, x, step float64) float64 {
	return (f(x-2*step) - f(x+2*step) + 8*(f(x+step)-f(x-step))) / (12 * step)
}

// TestSlopes compares the slopes by travel with finite differences.
func TestSlopes(t *testing.T) {
	somePoses(t, someCorners(t, 51, 150), func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64) {
		r := mustRead(t, m, travel, rack)
		slope := func(q Quantity) float64 {
			return central(func(h float64) float64 { r := mustRead(t, m, h, rack); return value(t, &r, q) }, travel, 0.1)
		}
		near(t, "camber gain", value(t, &r, CamberGain), slope(Camber), 2e-10)
		near(t, "ride toe", value(t, &r, RideToe), slope(Toe), 2e-10)
		if c.Spring.Carrier == NoSpring {
			if _, ok := r.Of(MotionRatio); ok {
				t.Error("a motion ratio without a spring")
			}
			return
		}
		near(t, "motion ratio", value(t, &r, MotionRatio), math.Abs(slope(SpringLength)), 1e-8)
	})
}

// TestMotion compares the velocities of the linkage with differences of
// positions by the drive angle.
func TestMotion(t *testing.T) {
	somePoses(t, someCorners(t, 52, 40), func(t *testing.T, c *Corner, m *Mechanism, travel, rack float64) {
		p := mustAt(t, m, travel, rack)
		v, ok := m.move(&p)
		if !ok {
			t.Fatal("dead point")
		}
		t0 := math.Atan2(p.driveSine, p.driveCosine)
		by := func(of func(*Pose) Vec) Vec {
			part := func(axis func(Vec) float64) float64 {
				return central(func(x float64) float64 {
					var q Pose
					if link := m.assemble(math.Sin(x), math.Cos(x), rack, &q); link != NoLink {
						t.Fatalf("%v binds", link)
					}
					return axis(of(&q))
				}, t0, 3e-4)
			}
			return Vec{
				X: part(func(v Vec) float64 { return v.X }),
				Y: part(func(v Vec) float64 { return v.Y }),
				Z: part(func(v Vec) float64 { return v.Z }),
			}
		}
		nearVec(t, "lower ball joint", v.lower, by(func(p *Pose) Vec { return p.LowerBall }), 1e-5)
		nearVec(t, "upper ball joint", v.upper, by(func(p *Pose) Vec { return p.UpperBall }), 1e-5)
		nearVec(t, "outer end", v.at(p.OuterEnd, p.LowerBall), by(func(p *Pose) Vec { return p.OuterEnd }), 1e-5)
		nearVec(t, "wheel centre", v.at(p.WheelCentre, p.LowerBall), by(func(p *Pose) Vec { return p.WheelCentre }), 1e-5)
	})
}

// TestLinearSlopes compares the derivative by each measured coordinate with a
// finite difference of a larger step.
func TestLinearSlopes(t *testing.T) {
	list := someCorners(t, 53, 10)
	for i := range list {
		c := &list[i]
		m := mustNew(t, *c)
		l := mustLinear(t, m, 21, -6)
		r := mustRead(t, m, 21, -6)
		for _, at := range c.Coordinates() {
			for q := range QuantityCount {
				if _, ok := r.Of(q); !ok {
					continue
				}
				want := central(func(x float64) float64 {
					moved := *c
					moved.Shift(at, x)
					r := mustRead(t, mustNew(t, moved), 21, -6)
					return value(t, &r, q)
				}, 0, 0.02)
				// A far-off centre bends with its distance.
				near(t, m.corner.NameOf(at.Point)+", "+q.String(), l.Slope(int(q), at), want, 1e-6*(1+math.Abs(want)))
			}
		}
	}
}

// TestLinearTells: a coordinate whose shift makes no mechanism leaves all without
// a band, and a quantity that the corner does not have is marked.
func TestLinearTells(t *testing.T) {
	c := caseA()
	l := mustLinear(t, mustNew(t, c), 12, 0)
	for q, want := range map[Quantity]bool{SpringLength: false, MotionRatio: false, Camber: true} {
		if _, ok := l.Half(int(q)); ok != want {
			t.Errorf("%v without spring has a band: %v", q, ok)
		}
	}
	c.TieRod.RackEnd = r3.Sub(c.TieRod.OuterEnd, Vec{Y: MinSpan + bandStep/2})
	c.Hub.X = 4
	l, err := mustNew(t, c).Linear(Evenly(1), 0, 0)
	if _, ok := l.Half(int(Toe)); err != nil || l.Edge == nil || ok {
		t.Errorf("a tie rod that a hundredth of a mm makes too short: %v, %v, band %v", err, l.Edge, ok)
	}
	if _, err := mustNew(t, caseB()).Linear(Evenly(1), 900, 0); err == nil {
		t.Error("a travel out of reach is linearised")
	}
}

// TestSlopesWhenSteered: at full rack the slopes are still those
// of travel alone, the rack held. The toe of a steered wheel is far from small.
func TestSlopesWhenSteered(t *testing.T) {
	m := mustNew(t, caseB())
	for _, rack := range []float64{-55, 48} {
		r := mustRead(t, m, 14, rack)
		if math.Abs(value(t, &r, Toe)) < rad(15) {
			t.Errorf("rack %g steers only %g degrees", rack, deg(value(t, &r, Toe)))
		}
		for slope, q := range map[Quantity]Quantity{CamberGain: Camber, RideToe: Toe} {
			want := central(func(h float64) float64 { r := mustRead(t, m, h, rack); return value(t, &r, q) }, 14, 0.1)
			near(t, slope.String(), value(t, &r, slope), want, 2e-10)
		}
	}
}
