package job

import (
	"fmt"
	"strconv"

	"gopkg.in/yaml.v3"
)

// itemCodec moves one entry of a list between the file and the job.
type itemCodec[T comparable] interface {
	readItem(r *reader, n *yaml.Node, at string, to *T)
	writeItem(w *writer, old *yaml.Node, item *T) *yaml.Node
	schemaItem(s *schemer) object
}

// listCodec is a list of entries; an empty one is left out.
type listCodec[T comparable] struct {
	to   *[]T
	most int
	what string // what the entries are, in the plural
	item itemCodec[T]
	flow bool // a new one is written on one line
}

func (c listCodec[T]) read(r *reader, n *yaml.Node, at string) {
	switch {
	case n.Kind == yaml.ScalarNode && n.Tag == nullTag:
		r.add(n.Line, at, "", "holds no "+c.what, "add some, or remove the key")
		return
	case n.Kind != yaml.SequenceNode:
		r.add(n.Line, at, scalarValue(n), "is not a list of "+c.what, "begin each with '- '")
		return
	case len(n.Content) > c.most:
		r.add(n.Line, at, "", fmt.Sprintf("holds %d %s, more than %d", len(n.Content), c.what, c.most), "keep those that matter")
		return
	}
	list := make([]T, len(n.Content))
	for i, item := range n.Content {
		place := itemKey(at, i)
		r.lines[place] = item.Line
		if item.Kind != yaml.AliasNode {
			c.item.readItem(r, item, place, &list[i])
		}
	}
	*c.to = list
}

func itemKey(at string, i int) string { return fmt.Sprintf("%s[%d]", at, i) }

func (c listCodec[T]) write(w *writer, old *yaml.Node) *yaml.Node {
	if len(*c.to) == 0 {
		return nil
	}
	n := &yaml.Node{Kind: yaml.SequenceNode}
	if c.flow {
		n.Style = yaml.FlowStyle
	}
	var were []*yaml.Node
	if old != nil && old.Kind == yaml.SequenceNode {
		copyComments(n, old)
		n.Style = old.Style
		were = c.match(w, old.Content)
	}
	for i := range *c.to {
		var was *yaml.Node
		if were != nil {
			was = were[i]
		}
		n.Content = append(n.Content, c.item.writeItem(w, was, &(*c.to)[i]))
	}
	return n
}

func (c listCodec[T]) schema(s *schemer) object {
	return object{{"type", "array"}, {"maxItems", c.most}, {"items", c.item.schemaItem(s)}}
}

// match finds the node that each entry came from, so that text and comments
// stay with it when others come and go: first the one that says the same, then
// the one at the same place.
func (c listCodec[T]) match(w *writer, old []*yaml.Node) []*yaml.Node {
	list := *c.to
	values := make([]T, len(old))
	for k, n := range old {
		scratch := &reader{units: w.units, lines: map[string]int{}, bad: map[string]bool{}, version: Version{Format, Minor + 1}}
		if n.Kind != yaml.AliasNode {
			c.item.readItem(scratch, n, "", &values[k])
		}
	}
	nodes, used := make([]*yaml.Node, len(list)), make([]bool, len(old))
	next := 0
	for i := range list {
		for k := next; k < len(old); k++ {
			if values[k] == list[i] {
				nodes[i], used[k], next = old[k], true, k+1
				break
			}
		}
	}
	for i := range list {
		if nodes[i] == nil && len(list) == len(old) && !used[i] {
			nodes[i], used[i] = old[i], true
		}
	}
	return nodes
}

// countCodec is how many there are of a thing; a file that lacks the key
// means 0, as many as wanted.
type countCodec struct{ to *int }

// maxCount is more than any shop has of one thing.
const maxCount = 1000

func (c countCodec) read(r *reader, n *yaml.Node, at string) {
	if !r.isScalar(n, at, "a whole number") {
		return
	}
	v, err := strconv.ParseUint(n.Value, 10, 32)
	if err != nil || v < 1 || v > maxCount {
		r.add(n.Line, at, n.Value, fmt.Sprintf("is not a whole number from 1 to %d", maxCount), "write how many there are, or leave the key out for as many as wanted")
		return
	}
	*c.to = int(v)
}

func (countCodec) schema(*schemer) object {
	return object{{"type", "number"}, {"multipleOf", 1}, {"minimum", 1}, {"maximum", maxCount}}
}

func (c countCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if *c.to == 0 {
		return nil
	}
	text := strconv.Itoa(*c.to)
	return w.scalar(old, text, false)
}
