package job

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// Spacers is what the shop has to put between the outer end of the tie rod and
// the steering arm, and how much of it fits.
type Spacers struct {
	Stock   []Stock
	Tallest Optional // the tallest stack that fits
	// Grip is what the bolt or stud clamps without the stack, nut included;
	// LongestBolt the longest there is.
	Grip, LongestBolt Optional
}

// Stock is one thickness of spacer or washer.
type Stock struct {
	Thickness units.Length
	Count     int // how many there are; 0 for as many as wanted
}

// Any tells whether anything is said of spacers.
func (s *Spacers) Any() bool {
	return len(s.Stock) > 0 || s.Tallest.Given || s.Grip.Given || s.LongestBolt.Given
}

const (
	// MaxStock is the most thicknesses a job may list.
	MaxStock = 60
	// MinThickness and MaxThickness of one spacer, mm: foil, and what is a
	// block rather than a spacer.
	MinThickness, MaxThickness = 0.01, 100.0
	// MaxStack is the tallest stack that can be meant, mm.
	MaxStack = 200.0
)

func (s *Spacers) fields() []field {
	return []field{
		{"stock", "", "the thicknesses there are, each behind '- '", true, listCodec[Stock]{to: &s.Stock, most: MaxStock, what: "spacers", item: stockItem{}, flow: true}},
		{"tallest", "20", "", false, optionalCodec{&s.Tallest}},
		{"grip", "34", "", false, optionalCodec{&s.Grip}},
		{"longest_bolt", "60", "", false, optionalCodec{&s.LongestBolt}},
	}
}

// check refuses a stock of nothing, which would be no stock.
func (s *Spacers) check(r *reader, at string, line int, has func(string) bool) {
	if has("stock") && len(s.Stock) == 0 && !r.bad[at+".stock"] {
		r.add(r.lineOf(at+".stock"), at+".stock", "", "holds no spacers", "list the thicknesses there are, as "+lengths("[1, 1.5, 2, 3, 5, 10]", r.units))
	}
}

func (s *Stock) fields() []field {
	return []field{
		{"thickness", "2", "", true, lengthCodec{to: &s.Thickness}},
		{"count", "4", "", false, countCodec{&s.Count}},
	}
}

// stockItem is a thickness alone, or with how many there are of it.
type stockItem struct{}

func (stockItem) readItem(r *reader, n *yaml.Node, at string, to *Stock) {
	if n.Kind == yaml.MappingNode {
		r.section(n, at, to)
		return
	}
	lengthCodec{to: &to.Thickness}.read(r, n, at)
}

func (stockItem) writeItem(w *writer, old *yaml.Node, s *Stock) *yaml.Node {
	if s.Count == 0 && (old == nil || old.Kind == yaml.ScalarNode) {
		return w.length(old, s.Thickness)
	}
	return w.section(old, s, true)
}

func (stockItem) schemaItem(s *schemer) object {
	return object{{"anyOf", []object{typed(lengthHint), s.refer(&Stock{})}}}
}

// spacers checks the values of the shop's list.
func (c *checker) spacers(s *Spacers) {
	const at = "spacers"
	if s.Any() && len(s.Stock) == 0 && !c.skips(at+".stock") {
		c.add(at+".stock", "", "holds no spacers", "list the thicknesses there are, as "+lengths("[1, 1.5, 2, 3, 5, 10]", c.units), nil)
	}
	if len(s.Stock) > MaxStock {
		c.add(at+".stock", "", fmt.Sprintf("holds %d spacers, more than %d", len(s.Stock), MaxStock), "keep those that matter", nil)
	}
	for i := range s.Stock {
		key := itemKey(at+".stock", i)
		c.length(key, s.Stock[i].Thickness, MinThickness, MaxThickness)
		if n := s.Stock[i].Count; !c.skips(key) && (n < 0 || n > maxCount) {
			c.add(key+".count", fmt.Sprint(n), fmt.Sprintf("is not between 0 and %d", maxCount), "write how many there are", nil)
		}
	}
	for _, l := range []struct {
		key string
		o   Optional
		max float64
	}{{".tallest", s.Tallest, MaxStack}, {".grip", s.Grip, units.MaxLength}, {".longest_bolt", s.LongestBolt, units.MaxLength}} {
		if l.o.Given {
			c.length(at+l.key, l.o.Length, MinThickness, l.max)
		}
	}
	if !s.Grip.Given || !s.LongestBolt.Given || c.skips(at) {
		return
	}
	if s.LongestBolt.MM < s.Grip.MM {
		c.add(at+".longest_bolt", valueOf(s.LongestBolt.Length, c.units), "is shorter than the grip, "+valueOf(s.Grip.Length, c.units), "give what the bolt clamps without a stack, and the longest bolt there is", nil)
	}
}
