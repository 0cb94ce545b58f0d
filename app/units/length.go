package units

import (
	"math"
	"math/big"
	"strings"
)

// Length is a length together with the way it was typed.
//
// Typed is empty for a plain number. Otherwise it is the typed text, and where
// a number in it took the unit on display that unit is written behind it, so
// that the text means the same in a file whose unit differs.
type Length struct {
	MM    float64
	Typed string
}

// ParseLength is [Parse] that keeps the typed text.
func ParseLength(text string, bare Unit) (Length, error) {
	bare.mustBeLength()
	r, fault := read(text, bare)
	if fault != nil {
		return Length{}, fault
	}
	if r.plain {
		return Length{MM: r.value}, nil
	}
	return Length{MM: r.value, Typed: r.typed}, nil
}

// Text is the length as a file in the given unit keeps it: the typed text, or
// the plain number. [Parse] with that unit returns the same MM, bit for bit.
func (l Length) Text(unit Unit) string {
	if l.Typed != "" {
		return l.Typed
	}
	return Plain(l.MM, unit)
}

// plainDigits is the most significant digits tried: 17 tell any two float64
// apart, and two more cover the conversion to another unit.
const plainDigits = 19

// Plain writes mm in the given unit with the fewest digits that [Parse] reads
// back to the same float64, with the ASCII hyphen and no exponent, for files.
// It panics on a NaN, on an Inf and beyond [MaxLength].
func Plain(mm float64, unit Unit) string {
	unit.mustBeLength()
	if !(math.Abs(mm) <= MaxLength) {
		panic("units: no length to write")
	}
	if mm == 0 {
		return "0"
	}
	exact := new(big.Rat).SetFloat64(mm)
	scale := unit.scale()
	inUnit := exact.Quo(exact, scale)
	for digits := 1; digits <= plainDigits; digits++ {
		text := significant(inUnit, digits)
		v, ok := new(big.Rat).SetString(text)
		if !ok {
			panic("units: wrote a number that is none: " + text)
		}
		if back, _ := v.Mul(v, scale).Float64(); back == mm {
			return text
		}
	}
	panic("units: no decimal reads back to the length")
}

// significant rounds v to so many significant digits, as a plain decimal.
func significant(v *big.Rat, digits int) string {
	// The precision holds the exact decimal of any float64 in range well
	// beyond plainDigits.
	f := new(big.Float).SetPrec(256).SetRat(v)
	wide := f.Text('e', digits-1)
	r, ok := new(big.Rat).SetString(wide)
	if !ok {
		panic("units: rounded to no number: " + wide)
	}
	n, exact := r.FloatPrec()
	if !exact {
		panic("units: a decimal that does not end: " + wide)
	}
	s := r.FloatString(n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}
