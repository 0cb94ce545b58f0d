package kinematics

import "math"

// Shares tells whether both corners have the coordinate at the very same
// number. Such a point was measured once, for both: a proposal keeps what it
// does not change. A flat arm's pivot is not the front pivot of a full arm.
func (c *Corner) Shares(other *Corner, at Coordinate) bool {
	if !c.Has(at.Point) || !other.Has(at.Point) {
		return false
	}
	switch at.Point {
	case UpperFront:
		if c.Upper.Flat != other.Upper.Flat {
			return false
		}
	case LowerFront:
		if c.Lower.Flat != other.Lower.Flat {
			return false
		}
	}
	return axisOf(c.At(at.Point), at.Axis) == axisOf(other.At(at.Point), at.Axis)
}

func axisOf(v *Vec, axis int) float64 {
	switch axis {
	case 0:
		return v.X
	case 1:
		return v.Y
	case 2:
		return v.Z
	}
	panic("kinematics: no such axis")
}

// ChangeBands returns the 95 % bands of the change of every reading from one
// mechanism to another in one pose. A coordinate that both share carries one
// error, within the larger of both measures, and moves the change by the
// difference of the two gradients; the others are independent, each within its
// own measure. Else as SweepBands. A reading that either lacks has no band.
// Errors are those of At.
func ChangeBands(from, to *Mechanism, withinFrom, withinTo, travel, rack float64) (Bands, error) {
	var sum [QuantityCount]float64
	known := uint32(1)<<QuantityCount - 1
	add := func(within float64, plus, minus *gradient) {
		known &= plus.known & minus.known
		for q := range sum {
			d := within * (plus.by[q] - minus.by[q])
			sum[q] += d * d
		}
	}
	nought := gradient{known: known}
	for _, at := range from.corner.Coordinates() {
		g, err := from.gradient(at, travel, rack)
		if err != nil {
			return Bands{}, err
		}
		if !from.corner.Shares(&to.corner, at) {
			add(withinFrom, &g, &nought)
			continue
		}
		h, err := to.gradient(at, travel, rack)
		if err != nil {
			return Bands{}, err
		}
		add(max(withinFrom, withinTo), &h, &g)
	}
	for _, at := range to.corner.Coordinates() {
		if from.corner.Shares(&to.corner, at) {
			continue
		}
		g, err := to.gradient(at, travel, rack)
		if err != nil {
			return Bands{}, err
		}
		add(withinTo, &g, &nought)
	}
	b := Bands{known: known}
	for q := range sum {
		if known&(1<<q) != 0 {
			b.values[q] = normal95 / math.Sqrt(3) * math.Sqrt(sum[q])
		}
	}
	return b, nil
}

// gradient is the derivative of every reading by one coordinate, per mm.
type gradient struct {
	by    [QuantityCount]float64
	known uint32
}

// gradient is Gradient, but a corner a step away that is no mechanism leaves
// all unknown.
func (m *Mechanism) gradient(at Coordinate, travel, rack float64) (gradient, error) {
	if _, _, ok := m.neighbours(at); !ok {
		return gradient{}, nil
	}
	by, ok, err := m.Gradient(at, travel, rack)
	g := gradient{by: by}
	for q := range ok {
		if ok[q] {
			g.known |= 1 << q
		}
	}
	return g, err
}
