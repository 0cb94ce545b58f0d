package kinematics

import (
	"math"
	"testing"
)

// A value with a root that some neighbour of the corner has not is not known, nor is its
// change to another corner; what is beside it keeps its band.
func TestARootThatANeighbourHasNot(t *testing.T) {
	c := caseB()
	edge := c.Lower.Ball.Y // a corner a little farther out than this has no value
	of := func(c *Corner) ([]Value, error) {
		v := Value{Num: c.TieRod.OuterEnd.Z, Den: 1, OK: c.Lower.Ball.Y <= edge, Root: Root{Gain: 0.7, Base: 30, X: c.TieRod.OuterEnd.X, Y: c.TieRod.OuterEnd.Y}}
		w := v
		w.OK = true
		return []Value{v, w}, nil
	}
	a, err := Linearise(&c, Evenly(1.3), of)
	if err != nil {
		t.Fatal(err)
	}
	other := caseB()
	other.TieRod.OuterEnd.Z += 11
	other.Lower.Ball.Y -= 40
	b, err := Linearise(&other, Evenly(1.3), of)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := a.Half(0); ok {
		t.Error("a value that a neighbour has not has a band")
	}
	if half, ok := a.Half(1); !ok || !(half > 1) || math.IsInf(half, 0) {
		t.Errorf("the value beside it: %g, %t", half, ok)
	}
	for _, l := range []Linear{Beside(&a, &b), Beside(&b, &a)} {
		_, first := l.Half(0)
		_, third := l.Half(2)
		if first == third {
			t.Errorf("one of both corners' values is known: %t, %t", first, third)
		}
		if _, ok := l.Half(1); !ok {
			t.Error("the value beside it lost its band")
		}
	}
}
