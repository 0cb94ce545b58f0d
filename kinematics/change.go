package kinematics

// Shares tells whether both corners have the coordinate at the very same
// number. Such a point was measured once, for both: a proposal keeps what it
// does not change. A flat arm's pivot is not the front pivot of a full arm.
func (c *Corner) Shares(other *Corner, at Coordinate) bool {
	if at.Point > AtRest {
		return true // see Within.Together
	}
	if at.Point == AtRest {
		return [3]bool{c.Camber == other.Camber, c.Toe == other.Toe, c.Wheel.Offset == other.Wheel.Offset}[at.Axis]
	}
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
// mechanism to another in one pose: a coordinate that both share carries one
// error. A reading that either lacks, or that may be infinite, has no band.
// Errors are those of At.
func ChangeBands(from, to *Mechanism, withinFrom, withinTo Within, travel, rack float64) (Bands, error) {
	a, err := from.Linear(withinFrom, travel, rack)
	if err != nil {
		return Bands{}, err
	}
	c, err := to.Linear(withinTo, travel, rack)
	if err != nil {
		return Bands{}, err
	}
	return BandsOfChange(&a, &c), nil
}

// BandsOfChange are those of ChangeBands, from both Mechanism.Linear.
func BandsOfChange(from, to *Linear) (b Bands) {
	both := Beside(from, to)
	for q := range QuantityCount {
		k, n := int(q), int(QuantityCount+q)
		half, ok := both.Change(k, n)
		if !ok {
			continue
		}
		b.values[q], b.halves[q], b.known = both.Base[n].number()-both.Base[k].number(), half, b.known|1<<q
		if i := centreIndex(q); i >= 0 {
			b.centres[i], b.placed[i] = around(b.values[q], half), true
		}
	}
	return b
}

// Linear linearises all readings of one pose, in the order of the Quantity
// constants. Errors are those of At.
func (m *Mechanism) Linear(within Within, travel, rack float64) (Linear, error) {
	var kept [2][]Value
	n := 0
	return Linearise(&m.corner, within, func(c *Corner) ([]Value, error) {
		m, err := New(c)
		if err != nil {
			return nil, err
		}
		p, err := m.At(travel, rack)
		if err != nil {
			return nil, err
		}
		if n++; n == 1 {
			return p.Values(), nil
		}
		list := &kept[n%2]
		*list = p.AppendValues((*list)[:0])
		return *list, nil
	})
}
