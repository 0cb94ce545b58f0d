package job

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

// MaxDepth is how deep a file may be nested. A job needs five levels; the
// rest is room for later sections.
const MaxDepth = 32

// structure refuses what no job needs and what could surprise: aliases,
// anchors, tags, repeated keys, keys that are no words, deep nesting.
func (r *reader) structure(n *yaml.Node, at string, depth int) {
	if depth > MaxDepth {
		r.add(n.Line, at, "", fmt.Sprintf("is nested deeper than %d", MaxDepth), "check the indents and brackets")
		return
	}
	switch {
	case n.Kind == yaml.AliasNode:
		r.add(n.Line, at, "*"+n.Value, "is an alias, which a job file may not hold", "write the value out")
		return
	case n.Anchor != "":
		r.add(n.Line, at, "&"+n.Anchor, "is an anchor, which a job file may not hold", "remove it and write each value out")
	case n.Style&yaml.TaggedStyle != 0:
		r.add(n.Line, at, n.Tag, "is a tag, which a job file may not hold", "remove it")
	}
	switch n.Kind {
	case yaml.MappingNode:
		r.mapping(n, at, depth)
	case yaml.SequenceNode:
		defer func(before string) { r.variant = before }(r.variant)
		for i, item := range n.Content {
			if at == "variants" {
				r.variant = nameIn(item)
			}
			r.structure(item, fmt.Sprintf("%s[%d]", at, i), depth+1)
		}
	}
}

func (r *reader) mapping(n *yaml.Node, at string, depth int) {
	seen := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		place := join(at, shorten(k.Value))
		switch {
		case k.Kind != yaml.ScalarNode || k.Anchor != "" || k.Style&yaml.TaggedStyle != 0:
			r.add(k.Line, at, "", "has a key that is not a plain word", "write 'key: value'")
		case k.Tag == mergeTag:
			r.add(k.Line, place, "", "is a merge key, which a job file may not hold", "write the keys out")
		case seen[k.Value] > 0:
			r.add(k.Line, place, "", fmt.Sprintf("stands here again, after line %d", seen[k.Value]), "keep one of the two")
		default:
			seen[k.Value] = k.Line
		}
		r.structure(v, place, depth+1)
	}
}

// section reads a mapping by its table of keys.
func (r *reader) section(n *yaml.Node, at string, s section) {
	if n.Kind != yaml.MappingNode {
		if n.Kind == yaml.ScalarNode && n.Tag == nullTag {
			r.add(n.Line, at, "", "has no value", "add its keys: "+keyList(s.fields()))
			return
		}
		r.add(n.Line, at, scalarValue(n), "does not hold keys", "it takes "+keyList(s.fields()))
		return
	}
	fields := s.fields()
	seen := map[string]bool{}  // keys that stand there
	meant := map[string]bool{} // keys that an unknown one seems to be
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != yaml.ScalarNode || k.Tag == mergeTag || seen[k.Value] {
			continue // reported by structure
		}
		f, ok := fieldNamed(fields, k.Value)
		if !ok && r.version.newerMinor() {
			r.kept = append(r.kept, Kept{join(at, k.Value), k.Line})
			continue
		}
		if !ok {
			meant[r.unknown(k, at, fields)] = true
			continue
		}
		seen[f.key] = true
		place := join(at, f.key)
		r.lines[place] = k.Line
		if v.Kind != yaml.AliasNode {
			f.codec.read(r, v, place)
		}
	}
	for _, f := range fields {
		if f.must && !seen[f.key] && !meant[f.key] {
			r.missing(n.Line, at, f)
		}
	}
	if c, ok := s.(checked); ok {
		c.check(r, at, n.Line, func(key string) bool { return seen[key] || meant[key] })
	}
}

func fieldNamed(fields []field, key string) (field, bool) {
	for _, f := range fields {
		if f.key == key {
			return f, true
		}
	}
	return field{}, false
}

func keyList(fields []field) string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	return strings.Join(keys, ", ")
}

// unknown reports a key that the section does not have, and returns the one
// it seems to be, if any.
func (r *reader) unknown(k *yaml.Node, at string, fields []field) string {
	place := join(at, shorten(k.Value))
	near := nearest(k.Value, fields)
	if near == "" {
		r.add(k.Line, place, "", "is not a key that belongs here", "known are "+keyList(fields))
		return ""
	}
	r.add(k.Line, place, "", "is not a key that belongs here", fmt.Sprintf("did you mean %s?", near))
	r.bad[join(at, near)] = true // what it stood for has not been read
	return near
}

// nearest returns the key that takes the fewest slips of the finger to come to
// what was written: at most one in three characters.
func nearest(word string, fields []field) string {
	best, fewest := "", 1+max(1, len(word)/3)
	if len(word) > shownText {
		return ""
	}
	lower := strings.ToLower(strings.NewReplacer("-", "_", " ", "_").Replace(word))
	for _, f := range fields {
		if d := slips(lower, f.key); d < fewest {
			best, fewest = f.key, d
		}
	}
	return best
}

// slips counts the characters to insert, drop or change between two words
// (Levenshtein's distance, by the usual table of which one row is kept).
func slips(a, b string) int {
	const usual = 32 // no key is longer: the row stays off the heap
	row := make([]int, 0, usual)
	for j := range len(b) + 1 {
		row = append(row, j)
	}
	for i := range len(a) {
		corner := row[0]
		row[0]++
		for j := range len(b) {
			d := corner
			if a[i] != b[j] {
				d++
			}
			corner = row[j+1]
			row[j+1] = min(d, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
