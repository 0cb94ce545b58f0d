package job

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// WheelChoice is a wheel with its tyre that can be had, to choose from.
type WheelChoice struct {
	Name             string
	Tyre             string // size code as typed
	RimWidth, Offset units.Length
	LoadedRadius     Optional
}

// MaxWheels is the most wheels to choose from in one job.
const MaxWheels = 60

// On returns the choice as it stands on the hub face in place of a wheel, with a
// spacer between. Where it has no loaded radius, that of the other is kept as one
// that was measured with the other's tyre.
func (w *WheelChoice) On(was *Wheel, spacer units.Length) Wheel {
	out := Wheel{Tyre: was.measuredWith(), RimWidth: w.RimWidth, Offset: w.Offset, Spacer: spacer, LoadedRadius: was.LoadedRadius}
	out.SetTyre(w.Tyre)
	if w.LoadedRadius.Given {
		out.SetRadius(w.LoadedRadius)
	}
	return out
}

func (w *WheelChoice) fields() []field {
	return []field{
		{"name", "15 x 6 in", "", true, textCodec{to: &w.Name}},
		{"tyre", "205/65R15", "", true, textCodec{to: &w.Tyre}},
		{"rim_width", "6 in", "", true, lengthCodec{to: &w.RimWidth}},
		{"offset", "20", "", true, lengthCodec{to: &w.Offset}},
		{"loaded_radius", "312", "", false, optionalCodec{&w.LoadedRadius}},
	}
}

// wheelItem is one wheel of the list.
type wheelItem struct{}

func (wheelItem) readItem(r *reader, n *yaml.Node, at string, to *WheelChoice) {
	r.section(n, at, to)
}

func (wheelItem) writeItem(w *writer, old *yaml.Node, c *WheelChoice) *yaml.Node {
	return w.section(old, c, true)
}

func (wheelItem) schemaItem(s *schemer) object { return s.refer(&WheelChoice{}) }

// wheels checks every wheel that can be had as one that stands on a hub.
func (c *checker) wheels(list []WheelChoice) {
	const section = "wheels"
	if len(list) > MaxWheels {
		c.add(section, "", fmt.Sprintf("holds %d wheels, more than %d", len(list), MaxWheels), "keep those that can be had", nil)
		return
	}
	first := map[string]int{}
	for i := range list {
		w, at := &list[i], itemKey(section, i)
		c.name(at+".name", w.Name)
		if k, taken := first[w.Name]; taken && !c.skips(at+".name") {
			c.add(at+".name", w.Name, "is the name of "+itemKey(section, k)+" too", "give each wheel its own name", nil)
		} else {
			first[w.Name] = i
		}
		fitted := w.On(&Wheel{}, units.Length{})
		c.wheel(&fitted, at)
	}
}
