package units

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// maxDecimals is the most decimals printed: a nanometre, far below any tape.
const maxDecimals = 6

// FormatNumber prints v with the given number of decimals, rounded to nearest;
// fewer than none are none, and more than can be printed are as many as can.
func FormatNumber(v float64, decimals int) string {
	mustBeFinite(v)
	return dress(strconv.FormatFloat(v, 'f', min(max(decimals, 0), maxDecimals), 64))
}

// dress turns a plain decimal into the printed form: U+2212, thin spaces, no
// sign on nought.
func dress(s string) string {
	negative := strings.HasPrefix(s, "-")
	s = strings.TrimPrefix(s, "-")
	whole, rest, _ := strings.Cut(s, ".")
	var b strings.Builder
	if negative && strings.Trim(s, "0.") != "" {
		b.WriteRune(minusSign)
	}
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteRune(thinSpace)
		}
		b.WriteRune(c)
	}
	if rest != "" {
		b.WriteString("." + rest)
	}
	return b.String()
}

// In converts mm to the given unit of length.
func In(mm float64, unit Unit) float64 {
	unit.mustBeLength()
	scale, _ := unit.scale().Float64()
	return mm / scale
}

// FormatBoth prints mm in both systems, for the echo behind a field:
// "57.15 mm = 2 1/4 in".
func FormatBoth(mm float64) string {
	return Gauged.Length(mm, Millimetre) + " = " + Gauged.OnTape(mm, Inch)
}

// FormatDegrees prints an angle given in radians: "−1.50°".
func FormatDegrees(rad float64, decimals int) string {
	mustBeFinite(rad)
	return FormatNumber(rad*(180/math.Pi), decimals) + "°"
}

// FormatFraction prints mm in inches to the nearest 1/denominator, a power of
// two from 2 to 64, in lowest terms: "10 1/2 in". Halfway goes away from nought.
// off is what is printed less mm, in mm, so that the caller can say how far
// the fraction is from the value: at most 12.7/denominator.
func FormatFraction(mm float64, denominator int) (text string, off float64) {
	mustBeFinite(mm)
	if denominator < 2 || denominator > 64 || denominator&(denominator-1) != 0 {
		panic("units: not a fraction of the tape: 1/" + strconv.Itoa(denominator))
	}
	parts := math.Round(mm / (25.4 / float64(denominator)))
	// The fraction is exact in binary, so only the conversion to mm rounds.
	off = parts/float64(denominator)*25.4 - mm
	if parts == 0 {
		return "0 in", off
	}
	sign := ""
	if parts < 0 {
		sign = string(minusSign)
	}
	r := new(big.Rat).SetFloat64(math.Abs(parts) / float64(denominator))
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if rest.Sign() == 0 {
		return sign + dress(whole.String()) + " in", off
	}
	fraction := rest.String() + "/" + r.Denom().String() + " in"
	if whole.Sign() == 0 {
		return sign + fraction, off
	}
	return sign + dress(whole.String()) + " " + fraction, off
}

// mustBeFinite panics on a NaN or an Inf: none may reach the page.
func mustBeFinite(v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		panic("units: cannot print " + strconv.FormatFloat(v, 'g', -1, 64))
	}
}

// Parts splits a printed number before what stands behind its whole ones, so that
// those stand under each other in a column; ok is false for words. A sign, ± and the
// spaces between thousands count as part of it.
func Parts(c string) (whole, rest string, ok bool) {
	digits, stroke := false, strings.IndexByte(c, '/')
	for _, r := range c {
		switch {
		case r >= '0' && r <= '9':
			digits = true
		case !strings.ContainsRune("+-./± \u2212\u2009", r):
			return "", "", false
		}
	}
	at := strings.IndexByte(c, '.')
	if stroke >= 0 { // a fraction of the tape
		at = max(strings.LastIndexByte(c[:stroke], ' '), 0)
		if at == 0 {
			at = strings.IndexAny(c, "0123456789")
		}
	}
	if at < 0 {
		at = len(c)
	}
	return c[:at], c[at:], digits
}
