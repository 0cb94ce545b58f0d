package kinematics

import "math"

// A value says nothing while assumptions make up most of its band and that reaches
// over nought: then it needs the one that moves it most measured.
const mostOfBand = 0.5 // of its squares

// saysNothing is that of a value with its band's half-width, and the squares of what
// assumptions and all errors do to it.
func saysNothing(value, half, assumed, all float64) bool {
	return all > roundingSquare && assumed > mostOfBand*all && half >= math.Abs(value)
}

// Needs returns the assumption that value k needs measured before it says anything;
// false where it says something or has no band, and for a ratio, of which an
// Interval tells more.
func (l *Linear) Needs(k int) (at Coordinate, ok bool) {
	v := l.Base[k]
	half, ok := l.Half(k)
	if !ok || v.Den != 1 {
		return at, false
	}
	assumed, all, most := 0.0, 0.0, 0.0
	for i, e := range l.errors {
		d := l.tangent(i, k)
		all += d * d * e.size.squares()
		by := d * d * e.size.assumed * e.size.assumed
		if assumed += by; by > most {
			at, most = e.at, by
		}
	}
	return at, saysNothing(v.Num, half, assumed, all)
}

// Needs is that of a reading, as of a Linear.
func (b *Bands) Needs(q Quantity) (at Coordinate, ok bool) {
	return b.needs[q], b.needed&(1<<q) != 0
}
