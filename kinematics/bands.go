package kinematics

import (
	"fmt"
	"math"
)

// Band constants.
const (
	// bandStep is half the central difference by each coordinate, mm: small
	// against a corner, large against rounding (1e-13 mm).
	bandStep = 1e-3
	// normal95 is the 97.5 % point of the normal distribution: a sum of many
	// small errors lies within ±1.96 standard deviations 95 times in 100.
	// Source: any table of the normal distribution.
	normal95 = 1.959963984540054
)

// Bands are the half-widths of the 95 % measuring-error bands of readings.
type Bands struct {
	values [QuantityCount]float64
	known  uint32
}

// Of returns the half-width for a quantity, in its own unit; false where the
// quantity does not exist, or does not in a corner a thousandth of a mm away.
func (b *Bands) Of(q Quantity) (half float64, ok bool) {
	return b.values[q], b.known&(1<<q) != 0
}

// Bands returns the bands at one pose; see SweepBands.
func (m *Mechanism) Bands(within, travel, rack float64) (Bands, error) {
	var b [1]Bands
	err := m.SweepBands(b[:], within, []float64{travel}, rack)
	return b[0], err
}

// SweepBands writes, for each travel, the 95 % bands that follow when every
// measured coordinate carries an independent error, uniform within ±within mm:
// first order, root sum of squares over all of Corner.Coordinates, that is
// 1.96 * within / sqrt(3) * |gradient|. The given angles and wheel sizes are
// taken as exact. Errors are those of At at the travels given.
func (m *Mechanism) SweepBands(dst []Bands, within float64, travel []float64, rack float64) error {
	if !(within >= 0 && within <= MaxLength) {
		panic(fmt.Sprintf("kinematics: measured within %g mm", within))
	}
	var p Pose
	var plus, minus Readings
	for i, h := range travel {
		if err := m.solve(h, rack, &p); err != nil {
			return err
		}
		p.read(&plus)
		dst[i] = Bands{known: plus.known}
	}
	var buffer [maxCoordinates]Coordinate
	for _, at := range m.corner.appendCoordinates(buffer[:0]) {
		up, down, ok := m.neighbours(at)
		for i, h := range travel {
			if !ok || up.solve(h, rack, &p) != nil {
				dst[i].known = 0
				continue
			}
			p.read(&plus)
			if down.solve(h, rack, &p) != nil {
				dst[i].known = 0
				continue
			}
			p.read(&minus)
			dst[i].add(&plus, &minus)
		}
	}
	for i := range dst[:len(travel)] {
		dst[i].finish(within)
	}
	return nil
}

// neighbours are the mechanism with one coordinate bandStep up and down; false
// where one of them is no mechanism.
func (m *Mechanism) neighbours(at Coordinate) (up, down Mechanism, ok bool) {
	c := m.corner
	c.Shift(at, bandStep)
	up, err := New(&c)
	if err != nil {
		return up, down, false
	}
	c.Shift(at, -2*bandStep)
	down, err = New(&c)
	return up, down, err == nil
}

// add adds the squared derivatives of one coordinate.
func (b *Bands) add(plus, minus *Readings) {
	b.known &= plus.known & minus.known
	for q := range b.values {
		d := (plus.values[q] - minus.values[q]) / (2 * bandStep)
		b.values[q] += d * d
	}
}

// finish turns sums of squares into half-widths.
func (b *Bands) finish(within float64) {
	for q := range b.values {
		if b.known&(1<<q) == 0 {
			b.values[q] = 0
			continue
		}
		b.values[q] = normal95 * within / math.Sqrt(3) * math.Sqrt(b.values[q])
	}
}

// Gradient returns the derivative of every reading at a pose by one measured
// coordinate, per mm, in the quantity's own unit; ok tells for which
// quantities it exists. Errors are those of At.
func (m *Mechanism) Gradient(at Coordinate, travel, rack float64) (d [QuantityCount]float64, ok [QuantityCount]bool, err error) {
	up, down, valid := m.neighbours(at)
	if !valid {
		return d, ok, fmt.Errorf("%s: a corner %g mm away is no mechanism: %w", m.corner.NameOf(at.Point), bandStep, ErrGeometry)
	}
	var here, plus, minus Readings
	for _, side := range []struct {
		of *Mechanism
		to *Readings
	}{{m, &here}, {&up, &plus}, {&down, &minus}} {
		p, err := side.of.At(travel, rack)
		if err != nil {
			return d, ok, err
		}
		p.read(side.to)
	}
	// Parallel arms have no instant centre, though their neighbours do.
	known := here.known & plus.known & minus.known
	for q := range QuantityCount {
		if ok[q] = known&(1<<q) != 0; ok[q] {
			d[q] = (plus.values[q] - minus.values[q]) / (2 * bandStep)
		}
	}
	return d, ok, nil
}
