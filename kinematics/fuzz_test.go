package kinematics

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"
)

// fuzzNumbers are the numbers of a corner, a travel and a rack position, in
// the order in which FuzzSolve reads them.
func fuzzNumbers(c *Corner, travel, rack *float64) []*float64 {
	list := []*float64{&c.Camber, &c.Toe, &c.Wheel.Offset, &c.Wheel.Spacer, &c.Wheel.LoadedRadius, travel, rack}
	for p := range pointCount {
		v := c.At(p)
		list = append(list, &v.X, &v.Y, &v.Z)
	}
	return list
}

// fuzzBytes writes a corner as FuzzSolve reads it.
func fuzzBytes(c Corner, travel, rack float64) []byte {
	form := byte(c.Spring.Carrier)
	if c.Upper.Flat {
		form |= 4
	}
	if c.Lower.Flat {
		form |= 8
	}
	data := []byte{form}
	for _, x := range fuzzNumbers(&c, &travel, &rack) {
		data = binary.LittleEndian.AppendUint64(data, math.Float64bits(*x))
	}
	return data
}

func fuzzCorner(data []byte) (c Corner, travel, rack float64) {
	if len(data) > 0 {
		c.Spring.Carrier = Carrier(data[0] & 3)
		c.Upper.Flat, c.Lower.Flat = data[0]&4 != 0, data[0]&8 != 0
		data = data[1:]
	}
	for _, x := range fuzzNumbers(&c, &travel, &rack) {
		if len(data) < 8 {
			break
		}
		*x = math.Float64frombits(binary.LittleEndian.Uint64(data))
		data = data[8:]
	}
	return c, travel, rack
}

// FuzzSolve: whatever the numbers, New refuses them or every result is finite,
// at any travel and rack within ±10 m, and the links keep their lengths.
func FuzzSolve(f *testing.F) {
	for _, c := range []Corner{caseA(), caseB(), equalArms(0.07), workshopCorner(), lowerBinds(), upperBinds(), straightRod(), straightUpright()} {
		f.Add(fuzzBytes(c, 0, 0))
		f.Add(fuzzBytes(c, 41.5, -17))
		f.Add(fuzzBytes(c, -0.003, 112))
		f.Add(fuzzBytes(c, 7777, 0))
	}
	for _, b := range broken {
		c := caseB()
		b.spoil(&c)
		f.Add(fuzzBytes(c, 12, 3))
	}
	tiny := caseB()
	tiny.Lower.Ball.Y, tiny.Hub.Z = 5e-324, 1e308
	f.Add(fuzzBytes(tiny, math.Inf(1), math.NaN()))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, travel, rack := fuzzCorner(data)
		want := c.Validate()
		m, err := New(&c)
		if (err == nil) != (want == nil) || err != nil && !errors.Is(err, ErrGeometry) {
			t.Fatalf("New: %v; Validate: %v", err, want)
		}
		if err != nil || !finite(travel) || !finite(rack) {
			return
		}
		fuzzAt(t, &m, 0, 0)
		fuzzAt(t, &m, travel, 0)
		fuzzAt(t, &m, travel, rack)
		fuzzAt(t, &m, 0, rack)
		fuzzWhole(t, &m, travel, rack)
		if reach, err := m.Range(rack); err == nil {
			if !finite(reach.Droop.Travel) || !finite(reach.Bump.Travel) || reach.Droop.Link == NoLink || reach.Bump.Link == NoLink {
				t.Errorf("range %+v", reach)
			}
			fuzzAt(t, &m, reach.Droop.Travel, rack)
			fuzzAt(t, &m, (reach.Droop.Travel+reach.Bump.Travel)/2, rack)
			fuzzAt(t, &m, reach.Bump.Travel, rack)
		}
	})
}

// fuzzAt solves twice and looks at every result.
func fuzzAt(t *testing.T, m *Mechanism, travel, rack float64) {
	t.Helper()
	if !finite(travel) {
		t.Fatalf("travel %g", travel)
	}
	p, err := m.At(travel, rack)
	if again, err2 := m.At(travel, rack); again != p || (err == nil) != (err2 == nil) {
		t.Errorf("At(%g, %g) says two things: %v, %v", travel, rack, err, err2)
	}
	if err != nil {
		var e *ReachError
		if !errors.Is(err, ErrUnreachable) || !errors.As(err, &e) {
			t.Fatalf("At(%g, %g): %v", travel, rack, err)
		}
		if e.Link == NoLink || !(e.Short > 0) || !finite(e.Short/4) || !finite(e.Limit) {
			t.Errorf("At(%g, %g): %+v", travel, rack, e)
		}
		return
	}
	finitePose(t, &p)
	apart := func(a, b Vec) float64 { return length(Vec{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z}) }
	near(t, "upright", apart(p.UpperBall, p.LowerBall), m.upright, 1e-4)
	near(t, "tie rod", apart(p.OuterEnd, p.RackEnd), m.rod, 1e-4)
}

// fuzzWhole calls everything else that answers from a pose.
func fuzzWhole(t *testing.T, m *Mechanism, travel, rack float64) {
	t.Helper()
	if b, err := m.Bands(Evenly(1.5), travel, rack); err == nil {
		finiteBands(t, &b)
	}
	if ax, err := m.Roll(0.04, rack); err == nil {
		left, right := ax.Readings()
		finitePose(t, &ax.Left)
		finitePose(t, &ax.Right)
		finiteReadings(t, &left)
		finiteReadings(t, &right)
	}
	if s, err := m.Steering(rack, 2500); err == nil && math.IsNaN(s.Left+s.Right+s.AckermannError) {
		t.Errorf("steering %+v", s)
	}
	if s, err := m.RollRates(); err == nil && math.IsNaN(s.Camber+s.Toe) {
		t.Errorf("roll rates %+v", s)
	}
	if place, ok := m.RackEndFlat(); ok && math.IsNaN(place.At.X+place.At.Y) {
		t.Errorf("ideal rack end %+v", place)
	}
	if q, left, err := m.RackEndSpace([]float64{-20, -7, 8, 21}); err == nil && (math.IsNaN(q.X+q.Y+q.Z+left) || math.IsInf(q.X+q.Y+q.Z+left, 0)) {
		t.Errorf("ideal rack end %v, %g", q, left)
	}
}
