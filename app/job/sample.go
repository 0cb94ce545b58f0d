package job

import (
	"math"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// Samples stand in the tables in mm; a problem shows them in the job's unit.

// number is one in a sample.
var number = regexp.MustCompile(`-?\d+(\.\d+)?`)

// lengths puts a text whose numbers are all lengths in mm into a unit.
func lengths(text string, unit units.Unit) string {
	if unit != units.Inch {
		return text
	}
	return number.ReplaceAllStringFunc(text, func(mm string) string {
		l, err := units.ParseLength(mm, units.Millimetre)
		if err != nil {
			panic("job: a sample is no length: " + mm)
		}
		// A thickness to a 64th, what a tape shows to a 16th.
		parts := 16
		if math.Abs(l.MM) < 25.4/2 {
			parts = 64
		}
		inches, _ := units.FormatFraction(l.MM, parts)
		return strings.Replace(strings.TrimSuffix(inches, " in"), "−", "-", 1)
	})
}

// sample is what a key's value may look like in the job's unit.
func (r *reader) sample(f field) string {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(f.sample), &doc); err != nil || len(doc.Content) != 1 {
		panic("job: the sample of " + f.key + " is no value")
	}
	return r.sampled(doc.Content[0], f.codec)
}

func (r *reader) sampled(n *yaml.Node, c codec) string {
	var list []string
	switch n.Kind {
	case yaml.MappingNode:
		fields := c.(interface{ parts() section }).parts().fields()
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := n.Content[i].Value
			f, ok := fieldNamed(fields, key)
			if !ok {
				panic("job: a sample has the unknown key " + key)
			}
			list = append(list, key+": "+r.sampled(n.Content[i+1], f.codec))
		}
		return "{" + strings.Join(list, ", ") + "}"
	case yaml.SequenceNode:
		for _, item := range n.Content {
			list = append(list, lengths(item.Value, r.units))
		}
		return "[" + strings.Join(list, ", ") + "]"
	}
	if _, ok := c.(lengthy); ok {
		mm, spelt := strings.CutSuffix(n.Value, " mm")
		switch {
		case !plainNumber.MatchString(mm):
		case spelt:
			return lengths(mm, r.units) + " " + r.units.String()
		default:
			return lengths(mm, r.units)
		}
	}
	return n.Value
}

// lengthy is a codec of a length.
type lengthy interface{ length() }

func (lengthCodec) length()   {}
func (optionalCodec) length() {}
func (withinCodec) length()   {}
func (hubSideCodec) length()  {}

func (c sectionCodec) parts() section { return c.sec }
func (c withinCodec) parts() section  { return c.to }
