package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"
)

// shiftedAll moves every point of a corner alike.
func shiftedAll(c *Corner, by Vec) (m Moves) {
	for _, at := range c.Coordinates() {
		m[at.Point][at.Axis] = axisOf(&by, at.Axis)
	}
	return m
}

// An error that shifts the whole corner to the side moves half track by just as much, and
// nothing that is measured on the corner itself; one that moves a single coordinate is that
// coordinate's own. In a change between two corners it cancels.
func TestErrorsTogetherMoveAsOne(t *testing.T) {
	c := changeCorner()
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	bands := func(w Within) Bands {
		b, err := m.Bands(w, 13, -4)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	side := bands(Evenly(0).Together(2, shiftedAll(&c, Vec{Y: 4.5})))
	for q, want := range map[Quantity]float64{HalfTrack: 4.5, ScrubRadius: 0, Caster: 0, Camber: 0, RideToe: 0} {
		if half, ok := side.Of(q); !ok || math.Abs(half-want) > 1e-9 {
			t.Errorf("shifted aside, %s is known within %g, want %g", q, half, want)
		}
	}
	var one Moves
	at := Coordinate{LowerBall, 1}
	one[at.Point][at.Axis] = -2.25
	alone, own := bands(Evenly(0.5).Measured(at, 0).Together(0, one)), bands(Evenly(0.5).Measured(at, 2.25))
	for q := range QuantityCount {
		x, okX := alone.Of(q)
		y, okY := own.Of(q)
		if okX != okY || math.Abs(x-y) > 1e-5*y+1e-12 {
			t.Errorf("%s: %g as one of many, %g of its own", q, x, y)
		}
	}
	if w := Evenly(0.5).Together(0, one); math.Abs(w.Size(at)-math.Hypot(0.5, 2.25)) > 1e-12 || w.Own(at) != 0.5 || w.Measured(at, 1) != Evenly(0.5).Measured(at, 1) {
		t.Errorf("it is known within %g, of its own %g", w.Size(at), w.Own(at))
	}
	next := c
	next.Hub.Y, next.Wheel.Offset = next.Hub.Y+31, 14
	lin := func(c *Corner) Linear {
		l, err := Linearise(c, Evenly(0).Together(5, shiftedAll(c, Vec{Y: 4.5, Z: 2})), func(c *Corner) ([]Value, error) {
			m, err := New(c)
			if err != nil {
				return nil, err
			}
			p, err := m.At(0, 0)
			return p.Values(), err
		})
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	a, b := lin(&c), lin(&next)
	both := Beside(&a, &b)
	if half, ok := both.Change(int(HalfTrack), int(QuantityCount+HalfTrack)); !ok || half > 1e-9 {
		t.Errorf("the change of half track is known within %g", half)
	}
}

// Errors together cover what they say, with those of each coordinate beside them: by the
// quick way and by Linearise alike.
func TestErrorsTogetherCover(t *testing.T) {
	const draws = 3000
	r := rand.New(rand.NewPCG(20261207, 3))
	c := changeCorner()
	w := Evenly(0.4)
	for i := range 4 {
		var m Moves
		for _, at := range c.Coordinates() {
			m[at.Point][at.Axis] = 3 * (2*r.Float64() - 1)
		}
		m[AtRest][CamberAtRest] = 0.004 * r.Float64()
		w = w.Together(i, m)
	}
	m, err := New(&c)
	if err != nil {
		t.Fatal(err)
	}
	b, err := m.Bands(w, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	p, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	base := p.Readings()
	asked := []Quantity{ScrubRadius, Caster, Trail, HalfTrack, CamberGain, RideToe}
	in := make([]int, len(asked))
	for range draws {
		x := c
		for _, at := range w.Coordinates(&c) {
			w.Shift(&x, at, w.Own(at)*(2*r.Float64()-1))
		}
		m, err := New(&x)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		is := p.Readings()
		for k, q := range asked {
			half, _ := b.Of(q)
			v, _ := is.Of(q)
			was, _ := base.Of(q)
			if math.Abs(v-was) <= half {
				in[k]++
			}
		}
	}
	for k, q := range asked {
		if share := float64(in[k]) / draws; share < 0.935 || share > 0.975 {
			t.Errorf("%s: the band holds it %.1f times in 100", q, 100*share)
		}
	}
}
