package units

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"unicode/utf8"
)

const (
	// MaxLength is the longest length taken, either way from nought, in mm.
	// Ten metres is longer than any car; beyond it a unit was mistyped.
	MaxLength = 10_000.0
	// MaxDegrees is the largest angle taken, either way: one full turn.
	MaxDegrees = 360.0
	// MaxText is the longest text read, in characters. The smallest float64
	// written out in full still fits.
	MaxText = 400
)

// Parse reads a length and returns it in mm, rounded once to the nearest
// float64. A number without a unit is in bare, which must be a length unit.
// The package comment gives the grammar.
//
// Every error is an *EntryError; then the length is 0. A length beyond
// [MaxLength] is an error.
func Parse(text string, bare Unit) (mm float64, err error) {
	bare.mustBeLength()
	r, fault := read(text, bare)
	if fault != nil {
		return 0, fault
	}
	return r.value, nil
}

// ParseAngle reads an angle in degrees, with or without its unit, and returns
// it in radians. Errors are as for [Parse], the limit is [MaxDegrees].
func ParseAngle(text string) (rad float64, err error) {
	r, fault := read(text, Degree)
	if fault != nil {
		return 0, fault
	}
	return r.value * (math.Pi / 180), nil
}

// reading is what came of one text.
type reading struct {
	value float64 // mm or degrees
	plain bool    // nothing but a sign and a decimal
	typed string  // the text, with the unit added wherever bare was used
}

func read(text string, bare Unit) (reading, *EntryError) {
	if !utf8.ValidString(text) {
		return reading{}, &EntryError{Text: text, Problem: "the text is damaged (not UTF-8)", Cure: "type it again"}
	}
	runes := []rune(strings.TrimSpace(text))
	if len(runes) == 0 {
		return reading{}, &EntryError{Text: text, Problem: "nothing is entered", Cure: "type a number such as " + example(bare)}
	}
	if len(runes) > MaxText {
		return reading{}, tooLong(text, len(runes))
	}
	if bare.IsLength() {
		if r, fault, ok := threads(text, runes); ok {
			return r, fault
		}
	}
	tokens, fault := scan(runes, bare)
	if fault != nil {
		return reading{}, fault
	}
	p := &parser{text: runes, tokens: tokens, bare: bare}
	v, fault := p.result()
	if fault != nil {
		return reading{}, fault
	}
	f, fault := p.withinLimit(v)
	if fault != nil {
		return reading{}, fault
	}
	r := reading{value: f, plain: p.isPlain(), typed: p.withUnits()}
	if n := utf8.RuneCountInString(r.typed); n > MaxText {
		return reading{}, tooLong(text, n)
	}
	return r, nil
}

// threadsPerInch is what stands behind the number of threads on an inch, by which a
// thread's pitch is known where it is cut in inches: "20 tpi".
const threadsPerInch = "tpi"

// threads reads so many threads per inch as the pitch that it is; ok is false for any
// other text.
func threads(text string, runes []rune) (r reading, fault *EntryError, ok bool) {
	number, has := strings.CutSuffix(strings.ToLower(string(runes)), threadsPerInch)
	if !has {
		return reading{}, nil, false
	}
	number = strings.TrimSpace(number)
	count, isNumber := new(big.Rat).SetString(number)
	if !isNumber || strings.Trim(number, "0123456789.") != "" || count.Sign() <= 0 {
		return reading{}, &EntryError{Text: text, Problem: "threads per inch are a plain number above zero", Cure: "write 20 tpi"}, true
	}
	pitch, _ := count.Quo(big.NewRat(254, 10), count).Float64()
	if pitch > MaxLength {
		return reading{}, &EntryError{Text: text, Problem: "is no thread", Cure: "write 20 tpi"}, true
	}
	return reading{value: pitch, typed: number + " " + threadsPerInch}, nil, true
}

func tooLong(text string, n int) *EntryError {
	return &EntryError{Text: text,
		Problem: fmt.Sprintf("with its units the text has %d characters, more than %d", n, MaxText),
		Cure:    "type the result instead"}
}

func example(bare Unit) string {
	switch bare {
	case Inch, Foot:
		return "2 1/4"
	case Degree:
		return "1.5"
	}
	return "57"
}

// withinLimit rounds v to a float64, which is Inf if it is enormous, and
// refuses it beyond the limit.
func (p *parser) withinLimit(v *big.Rat) (float64, *EntryError) {
	limit, unit, words := MaxLength, Millimetre, LimitText(p.bare)
	if !p.bare.IsLength() {
		limit, unit, words = MaxDegrees, Degree, "360 deg, one turn"
	}
	f, _ := v.Float64()
	if math.Abs(f) > limit {
		if p.bare == Inch || p.bare == Foot {
			v, unit = new(big.Rat).Quo(v, big.NewRat(254, 10)), Inch
		}
		return 0, &EntryError{Text: string(p.text),
			Problem: fmt.Sprintf("%s %s is beyond the limit of %s", shortDecimal(v), unit, words),
			Cure:    "check the unit and the decimal point"}
	}
	return f, nil
}

// LimitText is [MaxLength] as it is said where lengths are in a unit.
func LimitText(unit Unit) string {
	if unit == Inch || unit == Foot {
		return "393.7 in"
	}
	return "10 m"
}

// shortDecimal writes a possibly enormous v in few characters.
func shortDecimal(v *big.Rat) string {
	s := v.FloatString(1)
	if len(s) > 14 {
		return s[:4] + "… (" + fmt.Sprint(len(strings.TrimPrefix(s, "-"))-2) + " digits)"
	}
	return strings.TrimSuffix(s, ".0")
}
