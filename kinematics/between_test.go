package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Between two intervals each end goes evenly; through infinity it does so in 1/x, and of
// what may be anything nothing comes out.
func TestIntervalBetween(t *testing.T) {
	for _, c := range []struct {
		i, j Interval
		f    float64
		want Interval
	}{
		{Interval{Low: 2, High: 3}, Interval{Low: 6, High: 11}, 0.25, Interval{Low: 3, High: 5}},
		{Interval{Low: -7, High: -3}, Interval{Low: 1, High: 2}, 0.75, Interval{Low: -1, High: 0.75}},
		{Interval{Low: -0.25, High: 0.5}.reciprocal(), Interval{Low: 4, High: 8}, 0.75, Interval{Low: 0.03125, High: 0.3125}.reciprocal()},
		{Interval{Low: -0.25, High: 0.5}.reciprocal(), Interval{Low: 4, High: 8}, 0.25, Interval{Low: -0.15625, High: 0.4375}.reciprocal()},
		{Interval{Any: true}, Interval{Low: 4, High: 8}, 0.25, Interval{Any: true}},
	} {
		if got := c.i.Between(c.j, c.f); got != c.want {
			t.Errorf("%g of the way from %+v to %+v: %+v, want %+v", c.f, c.i, c.j, got, c.want)
		}
	}
}

// The upright moves as differences of poses say: the lower ball joint by its way, every
// other point by the turn about it besides, each for a mm of wheel travel.
func TestUprightMotionByDifferences(t *testing.T) {
	const step, tolerance = 0.01, 1e-6
	m := mustNew(t, caseB())
	for _, at := range [][2]float64{{0, 0}, {37, -41}, {-48, 29}} {
		p, up, down := mustAt(t, m, at[0], at[1]), mustAt(t, m, at[0]+step, at[1]), mustAt(t, m, at[0]-step, at[1])
		rise, turn, ok := m.UprightMotion(&p)
		if !ok {
			t.Fatalf("at %v: a dead point", at)
		}
		for what, place := range map[string]func(*Pose) Vec{
			"lower ball joint": func(p *Pose) Vec { return p.LowerBall },
			"upper ball joint": func(p *Pose) Vec { return p.UpperBall },
			"outer end":        func(p *Pose) Vec { return p.OuterEnd },
			"wheel centre":     func(p *Pose) Vec { return p.WheelCentre },
		} {
			got := r3.Add(rise, r3.Cross(turn, r3.Sub(place(&p), p.LowerBall)))
			want := r3.Scale(1/(2*step), r3.Sub(place(&up), place(&down)))
			if math.Abs(r3.Norm(r3.Sub(got, want))) > tolerance {
				t.Errorf("%s at %v moves by %v, by differences %v", what, at, got, want)
			}
		}
	}
}
