package scene

import (
	"math"
	"strconv"
)

// Signs of the house style: a true minus, a thin space between thousands.
const (
	minus     = "−"
	thinSpace = "\u2009"
	plusMinus = " ± "
)

// noBandStep is the last place of a length whose band is not known; a whole
// number of mm is written without decimals.
const noBandStep = 0.1

// Millimetres is the Formatter of plain millimetres. The half-width keeps one
// figure, or two when the first is a 1; the value gets the same last place.
func Millimetres(dst []byte, mm, half float64) []byte {
	step := noBandStep
	switch {
	case half > 0:
		step = math.Pow10(int(math.Floor(math.Log10(half / 2))))
	case math.Abs(mm-math.Round(mm)) < noBandStep/2:
		step = 1
	}
	dst = appendRounded(dst, mm, step)
	if half > 0 {
		dst = append(dst, plusMinus...)
		dst = appendRounded(dst, half, step)
	}
	return append(dst, " mm"...)
}

// appendRounded appends v rounded to a power of ten, thousands set apart.
func appendRounded(dst []byte, v, step float64) []byte {
	const finest = 0.01 // mm; no band of a measured car is narrower
	step = max(step, finest)
	decimals := int(max(0, math.Round(-math.Log10(step))))
	v = math.Round(v/step)*step + 0 // no negative zero
	if v < 0 {
		dst = append(dst, minus...)
		v = -v
	}
	var buf [32]byte
	digits := strconv.AppendFloat(buf[:0], v, 'f', decimals, 64)
	whole := len(digits)
	if decimals > 0 {
		whole -= decimals + 1
	}
	for i, d := range digits {
		if i > 0 && i < whole && (whole-i)%3 == 0 {
			dst = append(dst, thinSpace...)
		}
		dst = append(dst, d)
	}
	return dst
}
