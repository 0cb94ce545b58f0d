package job

import (
	"fmt"
	"math"
	"slices"

	"gopkg.in/yaml.v3"

	"armscribe/kinematics"
)

// Together is one error that moves many values of a variant at once, as the scale of a
// photo moves all that was picked in it.
type Together struct {
	Name string
	// By is what it does to each value where it is as large as it may be: mm, of camber and
	// toe degrees, whatever the unit of the file; evenly less where it is less.
	By [valueCount]float64
}

// Moves tells whether it moves anything.
func (t *Together) Moves() bool { return t.By != [valueCount]float64{} }

// togetherOf returns the error of a name, 0 everywhere where there is none.
func (v *Variant) togetherOf(name string) Together {
	for _, t := range v.Together {
		if t.Name == name {
			return t
		}
	}
	return Together{}
}

// WithinOf returns how well a value is known that has an error of its own, or moves
// together with others: the half-width of one even error that spreads as far.
func (v *Variant) WithinOf(at kinematics.Coordinate) (mm float64, ok bool) {
	mm, ok = v.OwnWithin(at)
	squares := mm * mm
	for i := range v.Together {
		by := v.Together[i].By[Coordinate(at)]
		squares, ok = squares+by*by, ok || by != 0
	}
	return math.Sqrt(squares), ok
}

// togetherNames are those of the errors of all variants: of one name is one error.
func (j *Job) togetherNames() []string {
	var names []string
	for i := range j.Variants {
		for _, t := range j.Variants[i].Together {
			if !slices.Contains(names, t.Name) {
				names = append(names, t.Name)
			}
		}
	}
	return names
}

// together adds the errors that move many values, but for those that are assumed.
func (j *Job) together(w kinematics.Within, v *Variant) kinematics.Within {
	for i, name := range j.togetherNames() {
		var moves kinematics.Moves
		t := v.togetherOf(name)
		for _, x := range v.values() {
			by := t.By[x]
			if x == RimWidthValue || by == 0 || v.Assumed.Has(x) {
				continue
			}
			if x == CamberValue || x == ToeValue {
				by = Degrees(by).Radians()
			}
			at, _ := x.Coordinate()
			moves[at.Point][at.Axis] = by
		}
		w = w.Together(i, moves)
	}
	return w
}

// forgetTogether takes values out that have another number than in a former state, as an
// error of their own.
func (v *Variant) forgetTogether(former *Variant) {
	if len(v.Together) == 0 {
		return
	}
	var list []Together
	for _, t := range v.Together {
		was := former.togetherOf(t.Name)
		for x := range valueCount {
			if t.By[x] == was.By[x] && v.number(x) != former.number(x) {
				t.By[x] = 0
			}
		}
		if t.Moves() {
			list = append(list, t)
		}
	}
	v.Together = list
}

// togetherItem is one error of the list; the variant knows the keys of its values.
type togetherItem struct{ v *Variant }

func (i togetherItem) readItem(r *reader, n *yaml.Node, at string, to *Together) {
	r.section(n, at, &togetherEntry{to, i.v})
}

func (i togetherItem) writeItem(w *writer, old *yaml.Node, t *Together) *yaml.Node {
	return w.section(old, &togetherEntry{t, i.v}, true)
}

func (i togetherItem) schemaItem(s *schemer) object {
	return s.refer(&togetherEntry{new(Together), i.v})
}

type togetherEntry struct {
	to *Together
	v  *Variant
}

func (e *togetherEntry) fields() []field {
	return []field{
		{"name", "scale", "", true, textCodec{to: &e.to.Name}},
		{"moves", "{lower_arm.ball_joint.y: 2.4}", "", true, sectionCodec{sec: (*togetherMoves)(e), flow: true}},
	}
}

type togetherMoves togetherEntry

// fields are the values by their keys; which form the arms have is not known while a file
// is read.
func (m *togetherMoves) fields() []field {
	flat, full := Variant{}, Variant{}
	flat.UpperArm.Flat, flat.LowerArm.Flat = true, true
	var list []field
	for x := range valueCount {
		keys := []string{flat.KeyOf(x)}
		if key := full.KeyOf(x); key != keys[0] {
			keys = append(keys, key)
		}
		for _, key := range keys {
			list = append(list, field{key, "2.4", "", false, moveCodec{numberCodec{to: &m.to.By[x]}, func() bool { return key == m.v.KeyOf(x) }}})
		}
	}
	return list
}

// moveCodec is a number that is left out where it is nought, or of a value that the variant
// has under another key.
type moveCodec struct {
	numberCodec
	named func() bool
}

func (c moveCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if *c.to == 0 || !c.named() {
		return nil
	}
	return c.numberCodec.write(w, old)
}

// together checks the errors that move many values.
func (c *checker) together(v *Variant, key string) {
	has := v.values()
	for i := range v.Together {
		t, at := &v.Together[i], itemKey(key, i)
		if c.skips(at) {
			continue
		}
		c.text(at+".name", t.Name, MaxName, "")
		for n := range i {
			if v.Together[n].Name == t.Name {
				c.add(at+".name", t.Name, "stands here again", "give each error a name of its own", nil)
			}
		}
		for x := range valueCount {
			key, most := at+".moves."+v.KeyOf(x), MaxWithin
			if x == CamberValue || x == ToeValue {
				most = maxAngleWithin
			}
			switch {
			case t.By[x] == 0 || c.skips(key):
			case !slices.Contains(has, x):
				c.add(key, fmt.Sprint(t.By[x]), "is no value that this variant has", "take it out", nil)
			case !(math.Abs(t.By[x]) <= most):
				c.add(key, fmt.Sprint(t.By[x]), fmt.Sprintf("is not within ±%g", most), "write mm, of camber degrees", nil)
			}
		}
	}
}

// manyTogether refuses more errors than are followed.
func (c *checker) manyTogether(j *Job) {
	if n := len(j.togetherNames()); n > kinematics.MostTogether {
		c.add("variants", "", fmt.Sprintf("name %d errors under picked_together, more than %d", n, kinematics.MostTogether), "give one error the same name in each variant", nil)
	}
}
