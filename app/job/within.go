package job

import (
	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Within is how well the coordinates of one point are known, x, y and z, where
// that differs from all others: picked in a photo, or reached for round a
// corner. What is not given is measured like the rest.
type Within [3]Optional

// All returns the Within of a point known alike in every direction.
func All(l units.Length) Within { return Within{Given(l), Given(l), Given(l)} }

// Any tells whether any coordinate has its own.
func (w Within) Any() bool { return w[0].Given || w[1].Given || w[2].Given }

// uniform tells whether one length says all.
func (w Within) uniform() bool { return w[0].Given && w[0] == w[1] && w[1] == w[2] }

func (w *Within) fields() []field {
	return []field{
		{"x", "3", "", false, optionalCodec{&w[0]}},
		{"y", "3", "", false, optionalCodec{&w[1]}},
		{"z", "3", "", false, optionalCodec{&w[2]}},
	}
}

// withinCodec is one length, or a mapping where the coordinates differ.
type withinCodec struct{ to *Within }

func (c withinCodec) read(r *reader, n *yaml.Node, at string) {
	if n.Kind == yaml.MappingNode {
		r.section(n, at, c.to)
		return
	}
	if l, ok := r.length(n, at); ok {
		*c.to = All(l)
	}
}

func (c withinCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	switch {
	case !c.to.Any():
		return nil
	case c.to.uniform() && (old == nil || old.Kind == yaml.ScalarNode):
		return w.length(old, c.to[0].Length)
	case old != nil && old.Kind != yaml.MappingNode:
		old = nil
	}
	return w.section(old, c.to, true)
}

func (c withinCodec) schema(s *schemer) object {
	return object{{"anyOf", []object{typed(lengthHint), s.refer(c.to)}}}
}

// place is a position that nobody has measured as a point of the corner.
type place Position

func (p *place) fields() []field {
	all := (*Position)(p).fields()
	return all[:len(all)-1]
}

// OwnWithin returns how well one coordinate is known, if that was said of it.
func (v *Variant) OwnWithin(at kinematics.Coordinate) (mm float64, ok bool) {
	own := v.Position(at.Point).Within[at.Axis]
	return own.MM, own.Given
}

// forgetWithin takes their own error from coordinates that have another number
// than in a former state: it belonged to that one.
func (v *Variant) forgetWithin(former *Variant) {
	if v.Camber != former.Camber && v.CamberWithin == former.CamberWithin {
		v.CamberWithin = 0
	}
	if v.Toe != former.Toe && v.ToeWithin == former.ToeWithin {
		v.ToeWithin = 0
	}
	corner := v.Corner()
	for _, p := range corner.Points() {
		now, was := v.Position(p), former.Position(p)
		for axis, same := range [3]bool{now.X.MM == was.X.MM, now.Y.MM == was.Y.MM, now.Z.MM == was.Z.MM} {
			if !same && now.Within[axis] == was.Within[axis] {
				now.Within[axis] = Optional{}
			}
		}
	}
}

// within checks how well a point is said to be known.
func (c *checker) within(key string, w *Within) {
	for axis, letter := range "xyz" {
		if !w[axis].Given {
			continue
		}
		if w.uniform() {
			c.length(key, w[axis].Length, 0, MaxWithin)
			return
		}
		c.length(key+"."+string(letter), w[axis].Length, 0, MaxWithin)
	}
}
