package canvas

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"unicode"

	"fyne.io/fyne/v2"
)

// Axis is a variable that a hand sets along a track: travel, rack or roll. All
// its numbers are in mm or radians, as the kinematics has them; PerUnit leads to
// what is shown.
type Axis struct {
	Name    string  // "travel"
	PerUnit float64 // of the unit on display: 25.4 for inches, pi/180 for degrees; 0 stands for 1

	Min, Max         float64 // ends of the track; Min must lie below Max
	MinName, MaxName string  // words at the ends, such as "droop" and "bump"

	// From and To bound the stretch in which the linkage assembles; both zero is
	// no bound. FromWhy and ToWhy say what ends it: "upper arm binds".
	From, To       float64
	FromWhy, ToWhy string

	// Step is what a press of an arrow key adds; 0 stands for PerUnit. Shift
	// makes it ten times, Ctrl a tenth.
	Step float64
	// Format appends the figure of a value. Nil writes sign and one decimal.
	Format func(dst []byte, v float64) []byte
}

// check panics on an axis that is none, and fills in what zero stands for.
func (a Axis) check() Axis {
	if a.PerUnit == 0 {
		a.PerUnit = 1
	}
	if a.Step == 0 {
		a.Step = a.PerUnit
	}
	sum := a.Min + a.Max + a.From + a.To + a.PerUnit + a.Step
	if !(a.Min < a.Max) || !(a.PerUnit > 0) || !(a.Step > 0) || a.From > a.To || sum-sum != 0 {
		panic(fmt.Sprintf("canvas: %q is no axis: from %g to %g, assembled %g to %g, unit %g, step %g",
			a.Name, a.Min, a.Max, a.From, a.To, a.PerUnit, a.Step))
	}
	return a
}

// bounded tells whether the linkage assembles only in a part.
func (a *Axis) bounded() bool { return a.From != 0 || a.To != 0 }

// Limits returns the values that a hand can set: on the track and assembled.
func (a *Axis) Limits() (lo, hi float64) {
	if !a.bounded() {
		return a.Min, a.Max
	}
	lo, hi = max(a.Min, a.From), min(a.Max, a.To)
	if lo > hi { // the assembled stretch lies off the track
		v := max(a.Min, min(a.From, a.Max))
		return v, v
	}
	return lo, hi
}

// clamp returns the settable value nearest to v.
func (a *Axis) clamp(v float64) float64 {
	lo, hi := a.Limits()
	return max(lo, min(v, hi))
}

// unit is the unit on display as written behind a figure, which PerUnit tells.
func (a *Axis) unit() string {
	switch {
	case a.PerUnit == 1:
		return " mm"
	case inches(a.PerUnit):
		return " in"
	case math.Abs(a.PerUnit-math.Pi/180) < nearUnit:
		return "°"
	}
	return ""
}

const (
	mmPerInch = 25.4
	nearUnit  = 1e-9 // units this near are one
)

// inches tells whether a unit on display is the inch.
func inches(perUnit float64) bool { return math.Abs(perUnit-mmPerInch) < nearUnit }

// figureUnit appends the figure of v with its unit, unless Format wrote one.
func (a *Axis) figureUnit(dst []byte, v float64) []byte {
	at := len(dst)
	dst = a.figure(dst, v)
	if hasUnit(dst[at:]) {
		return dst
	}
	return append(dst, a.unit()...)
}

// hasUnit tells whether a figure has more than a number in it.
func hasUnit(figure []byte) bool {
	return bytes.ContainsFunc(figure, func(r rune) bool { return unicode.IsLetter(r) || r == '°' })
}

// figure appends the figure of v.
func (a *Axis) figure(dst []byte, v float64) []byte {
	if a.Format != nil {
		return a.Format(dst, v)
	}
	return signedFigure(dst, v/a.PerUnit)
}

// signedFigure appends v with a sign and one decimal; zero has no sign.
func signedFigure(dst []byte, v float64) []byte {
	r := math.Round(v*10) / 10
	switch {
	case r < 0:
		dst = append(dst, "\u2212"...)
	case r > 0:
		dst = append(dst, '+')
	}
	return strconv.AppendFloat(dst, math.Abs(r), 'f', 1, 64)
}

// restTolerance: a value nearer to zero than this part of a step is zero, lest
// ten steps of a tenth and back leave a rest of 1e-16.
const restTolerance = 1e-6

// key returns the value after a key, and false for a key that sets none.
func (a *Axis) key(v float64, k fyne.KeyName, mods fyne.KeyModifier) (float64, bool) {
	step := a.Step
	if mods&fyne.KeyModifierShift != 0 {
		step *= 10
	}
	if mods&fyne.KeyModifierControl != 0 {
		step /= 10
	}
	lo, hi := a.Limits()
	switch k {
	case fyne.KeyUp, fyne.KeyRight:
		v += step
	case fyne.KeyDown, fyne.KeyLeft:
		v -= step
	case fyne.KeyHome:
		v = 0
	case fyne.KeyPageUp:
		v = hi
	case fyne.KeyPageDown:
		v = lo
	default:
		return v, false
	}
	if math.Abs(v) < restTolerance*a.Step {
		v = 0
	}
	return a.clamp(v), true
}
