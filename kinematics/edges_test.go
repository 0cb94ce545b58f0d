package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"
)

// What of a value is assumed counts if it is more than rounding and shows beside the
// whole: a hundredth of the band is where it begins to.
func TestRestsOn(t *testing.T) {
	for _, c := range []struct {
		square, all float64
		rests       bool
	}{{1e-20, 1e-19, false}, {1e-18, 1e-17, true}, {0.9e-4, 1, false}, {1.1e-4, 1, true}, {1, 1, true}} {
		if restsOn(c.square, c.all) != c.rests {
			t.Errorf("%+v", c)
		}
	}
}

// A value of nought has its interval about nought, one that is at infinity goes through
// it, and one that is neither is not known.
func TestIntervalsAtNoughtAndInfinity(t *testing.T) {
	c := randomCorner(rand.New(rand.NewPCG(3, 1)))
	at := c.TieRod.RackEnd.Z
	l, err := Linearise(&c, Evenly(1), func(c *Corner) ([]Value, error) {
		x := c.TieRod.RackEnd.Z - at
		return []Value{Number(x, true), {Num: 1, Den: x, OK: true}, {Num: 0, Den: 0, OK: true}}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	half, ok := l.Half(0)
	if i, known := l.Interval(0); !ok || !known || !(half > 0.9 && half <= 1) || math.Abs(i.Low+half) > 1e-9 || math.Abs(i.High-half) > 1e-9 {
		t.Errorf("nought lies in %+v, half %g", i, half)
	}
	if i, known := l.Interval(1); !known || !i.Infinite || math.Abs(i.Low-1/half) > 1e-6 || math.Abs(i.High+1/half) > 1e-6 {
		t.Errorf("infinity lies in %+v", i)
	}
	if i, known := l.Interval(2); known {
		t.Errorf("nothing lies in %+v", i)
	}
}
