package units

import "math/big"

// Unit is a unit of entry or display. The zero value is none and is not a
// unit: a function given it panics.
type Unit uint8

// The units. Millimetre to Foot are lengths, Degree is the one angle.
const (
	none Unit = iota
	Millimetre
	Centimetre
	Metre
	Inch
	Foot
	Degree
)

// inMM holds each length unit in millimetres, as a fraction so that it is
// exact. The inch is 25.4 mm (international yard and pound agreement, 1959).
var inMM = map[Unit]*big.Rat{
	Millimetre: big.NewRat(1, 1),
	Centimetre: big.NewRat(10, 1),
	Metre:      big.NewRat(1000, 1),
	Inch:       big.NewRat(254, 10),
	Foot:       big.NewRat(3048, 10),
}

// spellings are the ways a unit may be typed, in lower case. The primes and
// closing quotes are what a keyboard or a pasted text may put for ' and ".
var spellings = map[string]Unit{
	"mm": Millimetre, "cm": Centimetre, "m": Metre,
	"in": Inch, "inch": Inch, `"`: Inch, "\u2033": Inch, "\u201d": Inch,
	"ft": Foot, "'": Foot, "\u2032": Foot, "\u2019": Foot,
	"deg": Degree, "°": Degree,
}

// String returns the unit as it is printed.
func (u Unit) String() string {
	switch u {
	case Millimetre:
		return "mm"
	case Centimetre:
		return "cm"
	case Metre:
		return "m"
	case Inch:
		return "in"
	case Foot:
		return "ft"
	case Degree:
		return "deg"
	}
	return "no unit"
}

// IsLength tells whether u measures a length.
func (u Unit) IsLength() bool { return u >= Millimetre && u <= Foot }

// scale is what one of u is worth in mm, or in degrees for an angle.
func (u Unit) scale() *big.Rat {
	if u.IsLength() {
		return inMM[u]
	}
	return big.NewRat(1, 1)
}

// mustBeLength panics unless u is a length: passing another is a caller's bug.
func (u Unit) mustBeLength() {
	if !u.IsLength() {
		panic("units: " + u.String() + " is not a unit of length")
	}
}
