package job

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"
)

// sidesCodec is a list of the keys of two lengths.
type sidesCodec struct {
	to   *Sides
	keys [2]string
}

func (c sidesCodec) read(r *reader, n *yaml.Node, at string) {
	cure := "write it as " + c.keys[0] + " or " + c.keys[1]
	if n.Kind != yaml.SequenceNode {
		r.add(n.Line, at, scalarValue(n), "is not a list", "write the keys in brackets, as ["+c.keys[0]+", "+c.keys[1]+"]")
		return
	}
	for i, item := range n.Content {
		place := fmt.Sprintf("%s[%d]", at, i)
		if !r.isScalar(item, place, "a key") {
			continue
		}
		switch k := slices.Index(c.keys[:], item.Value); {
		case k < 0:
			r.add(item.Line, place, item.Value, "is no length that stands here", cure)
		case c.to[k]:
			r.add(item.Line, place, item.Value, "stands here again", "keep one of the two")
		default:
			c.to[k] = true
		}
	}
}

func (c sidesCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.to.Any() {
		return nil
	}
	n := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
	if old != nil && old.Kind == yaml.SequenceNode {
		copyComments(n, old)
		n.Style = old.Style
	}
	for i, key := range c.keys {
		if c.to[i] {
			n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key})
		}
	}
	return n
}

func (c sidesCodec) schema(*schemer) object {
	return object{{"type", "array"}, {"items", object{{"type", "string"}, {"enum", c.keys[:]}}}}
}
