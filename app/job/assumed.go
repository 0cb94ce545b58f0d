package job

import (
	"fmt"
	"math/bits"
	"slices"

	"gopkg.in/yaml.v3"

	"armscribe/kinematics"
)

// Assumed is the set of a variant's values that nobody has measured yet: the
// program, or a guess, has put them in. A value that changes is no longer
// assumed; see Measured.
type Assumed uint64

// Value is one value of a variant that can be assumed: a coordinate, by
// Coordinate, or one of those below.
type Value uint8

// The values that are no coordinates. New ones come before valueCount.
const (
	CamberValue Value = iota + 3*Value(pointCount)
	ToeValue
	RimWidthValue
	OffsetValue
	valueCount
)

const pointCount = int(kinematics.SpringBody) + 1

// hubSide is what a track says.
var hubSide = kinematics.Coordinate{Point: kinematics.HubFace, Axis: 1}

// Coordinate returns the value of a measured coordinate.
func Coordinate(at kinematics.Coordinate) Value { return Value(3*int(at.Point) + at.Axis) }

var valueKeys = map[Value]string{CamberValue: "camber", ToeValue: "toe", RimWidthValue: "wheel.rim_width", OffsetValue: "wheel.offset"}

// KeyOf is the key of a value inside the variant, such as hub.y.
func (v *Variant) KeyOf(x Value) string {
	if x >= CamberValue {
		return valueKeys[x]
	}
	return v.pointKey(kinematics.Point(x/3)) + "." + "xyz"[x%3:x%3+1]
}

// values lists all that the variant has, in the order of their numbers.
func (v *Variant) values() []Value {
	var list []Value
	corner := v.Corner()
	for _, at := range corner.Coordinates() {
		list = append(list, Coordinate(at))
	}
	for x := CamberValue; x < valueCount; x++ {
		list = append(list, x)
	}
	return list
}

// Has tells whether a value is assumed.
func (a Assumed) Has(x Value) bool { return a&(1<<x) != 0 }

// HasPoint tells whether any coordinate of a point is assumed.
func (a Assumed) HasPoint(p kinematics.Point) bool {
	const all = 7 // the three coordinates, which follow each other
	return a&(all<<Coordinate(kinematics.Coordinate{Point: p})) != 0
}

// With returns the set with or without a value.
func (a Assumed) With(x Value, assumed bool) Assumed {
	if assumed {
		return a | 1<<x
	}
	return a &^ (1 << x)
}

// Count is how many values are assumed.
func (a Assumed) Count() int { return bits.OnesCount64(uint64(a)) }

// number returns a value, so that a change is seen.
func (v *Variant) number(x Value) float64 {
	switch x {
	case CamberValue:
		return float64(v.Camber)
	case ToeValue:
		return float64(v.Toe)
	case RimWidthValue:
		return v.Wheel.RimWidth.MM
	case OffsetValue:
		return v.Wheel.Offset.MM
	}
	at := v.Point(kinematics.Point(x / 3))
	return [3]float64{at.X, at.Y, at.Z}[x%3]
}

// Measured settles what hangs on numbers that differ from a former state of the
// variant: a measured track holds, an error of its own goes with the number that
// it belonged to, a fit with the corner that was fitted, and what was assumed is so no longer, like what the variant
// does not have any more. What is marked, or given its own error, together with
// its number stays so.
func (v *Variant) Measured(former *Variant) {
	v.holdTrack(former)
	v.forgetWithin(former)
	v.forgetTogether(former)
	v.forgetFit(former)
	if v.Track.Given && v.Track != former.Track {
		v.Assumed = v.Assumed.With(Coordinate(hubSide), false)
	}
	if v.Assumed == 0 {
		return
	}
	has := v.values()
	for x := range valueCount {
		if v.Assumed.Has(x) && (!slices.Contains(has, x) || former.Assumed.Has(x) && v.number(x) != former.number(x)) {
			v.Assumed = v.Assumed.With(x, false)
		}
	}
}

// assumedCodec is a list of keys.
type assumedCodec struct{ v *Variant }

func (c assumedCodec) read(r *reader, n *yaml.Node, at string) {
	if n.Kind != yaml.SequenceNode {
		r.add(n.Line, at, scalarValue(n), "is not a list", "write the keys in brackets, as [hub.y, camber]")
		return
	}
	for i, item := range n.Content {
		place := fmt.Sprintf("%s[%d]", at, i)
		if !r.isScalar(item, place, "a key") {
			continue
		}
		x, ok := c.v.valueOf(item.Value)
		switch {
		case !ok:
			r.add(item.Line, place, item.Value, "is no value that a variant has", "write it as hub.y, or camber")
		case c.v.Assumed.Has(x):
			r.add(item.Line, place, item.Value, "stands here again", "keep one of the two")
		}
		c.v.Assumed = c.v.Assumed.With(x, ok || c.v.Assumed.Has(x))
	}
}

// valueOf finds a value by its key. Which form the arms have is not known yet,
// so both are taken; see check.
func (v *Variant) valueOf(key string) (Value, bool) {
	flat, full := Variant{}, Variant{}
	flat.UpperArm.Flat, flat.LowerArm.Flat = true, true
	for x := range valueCount {
		if full.KeyOf(x) == key || flat.KeyOf(x) == key {
			return x, true
		}
	}
	return 0, false
}

func (c assumedCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.v.Assumed == 0 {
		return nil
	}
	n := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
	if old != nil && old.Kind == yaml.SequenceNode {
		copyComments(n, old)
		n.Style = old.Style
	}
	for _, x := range c.order(old) {
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: c.v.KeyOf(x)})
	}
	return n
}

// order keeps the order of the file; what is new comes behind.
func (c assumedCodec) order(old *yaml.Node) []Value {
	var list []Value
	for i := 0; old != nil && i < len(old.Content); i++ {
		if x, ok := c.v.valueOf(old.Content[i].Value); ok && c.v.Assumed.Has(x) && !slices.Contains(list, x) {
			list = append(list, x)
		}
	}
	for x := range valueCount {
		if c.v.Assumed.Has(x) && !slices.Contains(list, x) {
			list = append(list, x)
		}
	}
	return list
}

func (c assumedCodec) schema(*schemer) object {
	return object{{"type", "array"}, {"items", object{{"type", "string"}, {"examples", []string{"hub.y", "camber"}}}}}
}

// assumed refuses what the variant does not have.
func (c *checker) assumed(v *Variant, key string) {
	if c.skips(key) || v.Assumed == 0 {
		return
	}
	has := v.values()
	for x := range valueCount {
		if v.Assumed.Has(x) && !slices.Contains(has, x) {
			c.add(key, v.KeyOf(x), "is no value that this variant has", "take it off the list", nil)
		}
	}
}
