package job

import (
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
	"armscribe/kinematics/tyre"
)

// Toe at rest is that of one wheel, an angle. It may be typed as a length with its
// unit: by how much nearer to the car's middle the front of the wheel stands than its
// rear, across the toe gauge's width.

// ToeWidth is the width over which toe as a length is read, mm: the gauge's, or
// without one the diameter of the variant's rim (fromRim). It is 0 where neither is known.
func (j *Job) ToeWidth(v *Variant) (mm float64, fromRim bool) {
	return toeWidth(j.ToeGauge.Width.MM, &v.Wheel)
}

func toeWidth(gauge float64, w *Wheel) (mm float64, fromRim bool) {
	if gauge > 0 {
		return gauge, false
	}
	if t, err := tyre.Parse(w.Tyre); err == nil {
		return t.RimDiameter(), true
	}
	return 0, false
}

// ParseToe reads a toe at rest across a width in mm, 0 where none is known. Text whose
// numbers have units of length is one, which typed then holds; any other is an angle in
// degrees.
func ParseToe(text string, width float64) (toe Degrees, typed string, err error) {
	toe, err = ParseDegrees(text)
	if err == nil {
		return toe, "", nil
	}
	l, notLength := units.ParseLength(text, units.Millimetre)
	other, _ := units.ParseLength(text, units.Inch)
	if notLength == nil && other.MM != l.MM && strings.ContainsFunc(text, ofUnit) {
		return 0, "", &units.EntryError{Text: text, Problem: "has numbers with and without a unit", Cure: "write toe in degrees, or as a length with its unit, such as 1/16 in"}
	}
	switch {
	case notLength != nil || other.MM != l.MM:
		return 0, "", err
	case !(width > 0):
		return 0, "", &units.EntryError{Text: text, Problem: "is a length, and the width it was read across is not known", Cure: "write toe in degrees, or say the toe gauge's width"}
	}
	return DegreesOf(bumpsteer.Gauge{Width: width}.FromLength(l.MM)), l.Typed, nil
}

// ofUnit tells whether a character of a length is part of a unit's name.
func ofUnit(c rune) bool { return unicode.IsLetter(c) || strings.ContainsRune("\"'″”′’", c) }

// ToeAsTyped is the length that a variant's toe was typed as; empty where it was an
// angle, or where toe or width have become others since.
func (j *Job) ToeAsTyped(v *Variant) string {
	if v.ToeTyped == "" {
		return ""
	}
	width, _ := j.ToeWidth(v)
	if toe, typed, err := ParseToe(v.ToeTyped, width); err == nil && toe == v.Toe {
		return typed
	}
	return ""
}

// toeCodec is the toe at rest.
type toeCodec struct{ v *Variant }

func (c toeCodec) read(r *reader, n *yaml.Node, at string) {
	if !r.isScalar(n, at, "an angle in degrees") || r.noNumber(n, at) {
		return
	}
	c.v.ToeTyped = n.Value // for Variant.check: the width may come further down
}

// settleToe reads the toe of a variant that has been read otherwise.
func (v *Variant) settleToe(r *reader, at string) {
	line, stands := r.lines[at]
	if !stands || r.unread(at) {
		return
	}
	width, _ := toeWidth(r.gaugeWidth, &v.Wheel)
	var err error
	text := v.ToeTyped
	if v.Toe, v.ToeTyped, err = ParseToe(text, width); err != nil {
		r.entryError(&yaml.Node{Line: line, Value: text}, at, err)
	}
}

func (c toeCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.v.ToeTyped == "" {
		return degreesCodec{to: &c.v.Toe}.write(w, old)
	}
	return w.text(old, c.v.ToeTyped, old != nil && old.Value == c.v.ToeTyped)
}

func (toeCodec) schema(*schemer) object {
	return typed(angleHint + "; toe also as a length with its unit, across the toe gauge's width or else the rim's diameter")
}

// neededByToe is the lowest MINOR that takes a toe at rest as it is written: a length
// came with 5.
func neededByToe(text string) uint64 {
	if _, err := ParseDegrees(text); err != nil {
		return 5
	}
	return 0
}

// gaugeWidthIn looks up how wide the toe gauge is before any toe is read; 0 where the
// file does not say, or not so that it can be read, which is reported in its place.
func gaugeWidthIn(root *yaml.Node, u units.Unit) float64 {
	_, gauge := find(root, "toe_gauge")
	_, n := find(gauge, "width")
	if n == nil || n.Kind != yaml.ScalarNode {
		return 0
	}
	l, err := units.ParseLength(n.Value, u)
	if err != nil {
		return 0
	}
	return l.MM
}
