package chart

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/plot"
)

// Range is a stretch of an axis; Max must lie above Min.
type Range struct{ Min, Max float64 }

// Has tells whether v lies in r or at its ends.
func (r Range) Has(v float64) bool { return v >= r.Min && v <= r.Max }

func (r Range) clamp(v float64) float64 { return max(r.Min, min(v, r.Max)) }

// valid tells whether r can be an axis: finite ends, a width that counts.
func (r Range) valid() bool {
	w := r.Max - r.Min
	return w > 0 && w-w == 0
}

// Tick is a mark of an axis. A minor tick has no label.
type Tick struct {
	Value float64
	Label string
}

// leastLabels is how many labelled ticks a range should have.
const leastLabels = 3

// tickSteps are the round steps within one power of ten, and into how many minor
// steps each is parted.
var tickSteps = [...]struct {
	step  float64
	minor int
}{{5, 5}, {2, 4}, {1, 5}}

// Ticks returns the marks of r at round values: the labelled ones first, rising,
// then the minor ones. The choice is that of gonum/plot's default ticker, after
// Talbot, Lin and Hanrahan, IEEE Transactions on Visualization and Computer
// Graphics 16 (6), 2010. Where it leaves out a zero that r holds, or has fewer than
// three labels, they are multiples of a round step instead: a curve about zero is
// read from there. The labels all have the decimals they need, U+2212 for minus
// and thin spaces in thousands. A range that is none panics.
func Ticks(r Range) []Tick {
	if !r.valid() {
		panic(fmt.Sprintf("chart: %g to %g is no range", r.Min, r.Max))
	}
	if ticks, ok := r.plotTicks(); ok {
		return ticks
	}
	return r.roundTicks()
}

// plotTicks are those of gonum/plot; false where they do not serve.
func (r Range) plotTicks() ([]Tick, bool) {
	var major, minor []Tick
	zero := !r.Has(0)
	for _, t := range (plot.DefaultTicks{}).Ticks(r.Min, r.Max) {
		if t.IsMinor() {
			minor = append(minor, Tick{Value: t.Value})
			continue
		}
		v := t.Value
		if math.Abs(v) < tickSlack*(r.Max-r.Min) {
			v, zero = 0, true
		}
		major = append(major, Tick{Value: v})
	}
	if !zero || len(major) < leastLabels {
		return nil, false
	}
	d := decimalsOf(major)
	for i := range major {
		major[i].Label = Number(major[i].Value, d)
	}
	return append(major, minor...), true
}

// roundTicks are the multiples of the largest of 1, 2 or 5 times a power of ten
// that gives three labels.
func (r Range) roundTicks() []Tick {
	power := math.Pow10(int(math.Ceil(math.Log10(r.Max - r.Min))))
	for {
		for _, s := range tickSteps {
			if r.multiples(s.step*power) >= leastLabels {
				return r.ticks(s.step*power, s.minor)
			}
		}
		power /= 10
	}
}

// tickSlack is the rounding error, as a part of the step, that a tick at the very
// end of its range may have.
const tickSlack = 1e-9

// ends returns the first and the last multiple of step in r.
func (r Range) ends(step float64) (first, last float64) {
	return math.Ceil(r.Min/step - tickSlack), math.Floor(r.Max/step + tickSlack)
}

func (r Range) multiples(step float64) int {
	first, last := r.ends(step)
	return int(last-first) + 1
}

func (r Range) ticks(step float64, minor int) []Tick {
	first, last := r.ends(step)
	var major, between []Tick
	for i := first; i <= last; i++ {
		major = append(major, Tick{Value: r.clamp(i * step)})
	}
	d := decimalsOf(major)
	for i := range major {
		major[i].Label = Number(major[i].Value, d)
	}
	fine := step / float64(minor)
	first, last = r.ends(fine)
	for i := first; i <= last; i++ {
		if math.Mod(i, float64(minor)) != 0 {
			between = append(between, Tick{Value: r.clamp(i * fine)})
		}
	}
	return append(major, between...)
}

// maxDecimals bounds the decimals of a label; nothing drawn is finer.
const maxDecimals = 6

// decimalsOf returns how many decimals show the values of all ticks in full.
func decimalsOf(ticks []Tick) int {
	if len(ticks) < 2 {
		return maxDecimals
	}
	// Rounding errors of the ticker, as a part of the step.
	slack := (ticks[1].Value - ticks[0].Value) * 1e-6
	for d := range maxDecimals {
		k := math.Pow10(d)
		full := true
		for _, t := range ticks {
			full = full && math.Abs(t.Value-math.Round(t.Value*k)/k) < slack
		}
		if full {
			return d
		}
	}
	return maxDecimals
}

// Number formats v with so many decimals: U+2212 for minus, thin spaces between
// thousands, zero without sign or decimals.
func Number(v float64, decimals int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	whole := len(s)
	if decimals > 0 {
		whole -= decimals + 1
	}
	out := make([]byte, 0, len(s)+8)
	zero := true
	for i := range len(s) {
		if s[i] != '0' && s[i] != '.' {
			zero = false
		}
		out = append(out, s[i])
		if left := whole - 1 - i; left > 0 && left%3 == 0 {
			out = append(out, "\u2009"...)
		}
	}
	switch {
	case zero:
		return "0"
	case v < 0:
		return "\u2212" + string(out)
	}
	return string(out)
}

// NiceRange widens lo..hi to ends at round values, so that the outermost ticks
// lie at the ends or close to them. least is the smallest width worth showing:
// a flat curve stays flat instead of filling the chart with noise. The arguments
// may come in either order; least must be positive.
func NiceRange(lo, hi, least float64) Range {
	if !(least > 0) || lo-lo != 0 || hi-hi != 0 {
		panic(fmt.Sprintf("chart: no range of %g to %g, at least %g", lo, hi, least))
	}
	lo, hi = min(lo, hi), max(lo, hi)
	if short := least - (hi - lo); short > 0 {
		lo, hi = lo-short/2, hi+short/2
	}
	// The largest of 1, 2, 5 times a power of ten that fits four times.
	quarter := (hi - lo) / 4
	step := math.Pow10(int(math.Floor(math.Log10(quarter))))
	for _, k := range []float64{5, 2} {
		if step*k <= quarter {
			step *= k
			break
		}
	}
	const slack = 1e-9 // of a step: an end that is round already stays
	return Range{
		Min: math.Floor(lo/step+slack) * step,
		Max: math.Ceil(hi/step-slack) * step,
	}
}
