package chart

import (
	"math"
	"strconv"
)

// inchSteps are the round steps of a tape, in inches, the longest first, and into
// how many minor steps each is parted. Beyond them an axis is so long that the
// steps of [Ticks] are those of a tape too.
var inchSteps = [...]struct {
	step  float64
	minor int
}{{12, 12}, {6, 6}, {4, 4}, {2, 4}, {1, 4}, {1. / 2, 4}, {1. / 4, 4}, {1. / 8, 4}, {1. / 16, 4}, {1. / 32, 2}, {1. / 64, 1}}

// longestInches is the widest range that is parted as a tape is.
const longestInches = 48.0

// InchTicks is [Ticks] of a range in inches: at whole ones, or at the fractions of a
// tape down to 1/64, written as such. A range too narrow or too wide for those has
// the ticks of any other.
func InchTicks(r Range) []Tick {
	if r.valid() && r.Max-r.Min <= longestInches {
		for _, s := range inchSteps {
			if r.multiples(s.step) >= leastLabels {
				ticks := r.ticks(s.step, s.minor)
				for i := range ticks {
					if ticks[i].Label != "" {
						ticks[i].Label = fraction(ticks[i].Value)
					}
				}
				return ticks
			}
		}
	}
	return Ticks(r)
}

// NiceInches is [NiceRange] in inches: to ends on round steps of a tape.
func NiceInches(lo, hi, least float64) Range {
	r := NiceRange(lo, hi, least)
	lo, hi = min(lo, hi), max(lo, hi)
	if short := least - (hi - lo); short > 0 {
		lo, hi = lo-short/2, hi+short/2
	}
	if r.Max-r.Min > longestInches {
		return r
	}
	const slack = 1e-9
	for _, s := range inchSteps {
		if quarter := (hi - lo) / 4; s.step <= quarter {
			return Range{Min: math.Floor(lo/s.step+slack) * s.step, Max: math.Ceil(hi/s.step-slack) * s.step}
		}
	}
	return r
}

// ScaleInches is the longest round length of a tape, in inches, that is no longer than most; 0 if there
// is none.
func ScaleInches(most float64) float64 {
	power := math.Pow10(int(math.Floor(math.Log10(most / 12))))
	for _, k := range [...]float64{5, 2, 1} {
		if long := 12 * k * power; power >= 1 && long <= most {
			return long
		}
	}
	for _, s := range inchSteps {
		if s.step <= most {
			return s.step
		}
	}
	return 0
}

// fraction writes a multiple of 1/64 as a tape is read: "−1 3/8".
func fraction(v float64) string {
	const finest = 64
	parts := int(math.Round(math.Abs(v) * finest))
	whole, part, of := parts/finest, parts%finest, finest
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	text := strconv.Itoa(part) + "/" + strconv.Itoa(of)
	switch {
	case part == 0:
		text = strconv.Itoa(whole)
	case whole > 0:
		text = strconv.Itoa(whole) + " " + text
	}
	if v < 0 && parts > 0 {
		return "\u2212" + text
	}
	return text
}
