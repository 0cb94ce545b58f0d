package job

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// Encode returns the job as a file. What nobody changed since the job was
// read is written as it was typed, with the comments beside it and the
// ends of lines as they were. The result has been read back and compared: it
// holds what the job holds. The error is Problems if the job has any.
func (j *Job) Encode() ([]byte, error) {
	if err := j.Problems().orNil(); err != nil {
		return nil, err
	}
	data, kept, err := j.encode()
	if err != nil {
		return nil, err
	}
	back, err := Read("", data)
	if err != nil {
		return nil, fmt.Errorf("the job cannot be written so that it reads back: %w", err)
	}
	if !back.Equal(j) || len(back.kept) != kept {
		return nil, errReadBack
	}
	return data, nil
}

var errReadBack = errors.New("the job as written would read back with other values, so it is not saved; please report this with the job")

// encode returns the file, and how many keys in it are kept unread.
func (j *Job) encode() (data []byte, kept int, err error) {
	w := &writer{units: j.Units, keeps: j.version.newerMinor()}
	root := w.section(j.src, j.stating(), false)
	setVersion(root, j.version)
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := e.Encode(root); err != nil {
		return nil, 0, fmt.Errorf("the job cannot be written: %w", err)
	}
	if err := e.Close(); err != nil {
		return nil, 0, fmt.Errorf("the job cannot be written: %w", err)
	}
	if data = b.Bytes(); j.crlf {
		data = bytes.ReplaceAll(data, lf, crlf)
	}
	return data, w.kept, nil
}

// writer builds the nodes of a file from the job and the nodes it was read from.
type writer struct {
	units units.Unit
	keeps bool // the file is of a newer MINOR: what is unknown stays
	kept  int  // keys that stayed so
}

// section writes a mapping. Keys that old has keep their order and comments; a
// new one comes behind the key that precedes it in the table.
func (w *writer) section(old *yaml.Node, s section, flow bool) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	if flow {
		n.Style = yaml.FlowStyle
	}
	if old != nil && old.Kind == yaml.MappingNode {
		n.Style = old.Style
		copyComments(n, old)
	} else {
		old = nil
	}
	var order []string
	pairs := map[string][2]*yaml.Node{}
	fields := s.fields()
	for _, f := range fields {
		oldKey, oldValue := find(old, f.key)
		value := f.codec.write(w, oldValue)
		if value == nil {
			continue
		}
		key := &yaml.Node{Kind: yaml.ScalarNode, Value: f.key}
		if oldKey != nil {
			key.Style = oldKey.Style
			copyComments(key, oldKey)
		}
		pairs[f.key] = [2]*yaml.Node{key, value}
		order = append(order, f.key)
	}
	if w.keeps {
		order = append(order, w.unknown(old, fields, pairs)...)
	}
	for _, k := range inOrderOf(old, order) {
		n.Content = append(n.Content, pairs[k][0], pairs[k][1])
	}
	return n
}

// unknown adds the pairs of a mapping that no table has, and returns their keys.
// A known key that is not written any more is not among them.
func (w *writer) unknown(old *yaml.Node, fields []field, pairs map[string][2]*yaml.Node) []string {
	var keys []string
	for i := 0; old != nil && i+1 < len(old.Content); i += 2 {
		k := old.Content[i]
		if _, known := fieldNamed(fields, k.Value); !known {
			pairs[k.Value] = [2]*yaml.Node{k, old.Content[i+1]}
			keys = append(keys, k.Value)
		}
	}
	w.kept += len(keys)
	return keys
}

// inOrderOf sorts keys as old has them; those it lacks follow the key that
// stood before them.
func inOrderOf(old *yaml.Node, keys []string) []string {
	if old == nil {
		return keys
	}
	var order []string
	for i := 0; i+1 < len(old.Content); i += 2 {
		if k := old.Content[i].Value; slices.Contains(keys, k) {
			order = append(order, k)
		}
	}
	for i, k := range keys {
		if slices.Contains(order, k) {
			continue
		}
		at := 0
		if i > 0 {
			at = slices.Index(order, keys[i-1]) + 1
		}
		order = slices.Insert(order, at, k)
	}
	return order
}

func copyComments(to, from *yaml.Node) {
	to.HeadComment, to.LineComment, to.FootComment = from.HeadComment, from.LineComment, from.FootComment
}

// scalar writes a number or word, or the old node if that says the same.
func (w *writer) scalar(old *yaml.Node, value string, same bool) *yaml.Node {
	n := &yaml.Node{Kind: yaml.ScalarNode, Value: value}
	if old == nil || old.Kind != yaml.ScalarNode {
		return n
	}
	copyComments(n, old)
	if same {
		n.Value, n.Tag, n.Style = old.Value, old.Tag, old.Style
	}
	return n
}

// text writes a text, quoted where it needs it.
func (w *writer) text(old *yaml.Node, value string, same bool) *yaml.Node {
	n := w.scalar(old, value, same)
	if same {
		return n
	}
	n.Tag = "!!str"
	if !plainText(value) {
		n.Style = yaml.DoubleQuotedStyle
	}
	return n
}

// plainText tells whether a text survives the file without quotes or in a block.
func plainText(s string) bool {
	if s != strings.TrimSpace(s) {
		return false
	}
	for _, line := range strings.Split(s, "\n") {
		if line != strings.TrimSpace(line) || strings.ContainsFunc(line, func(c rune) bool { return !unicode.IsPrint(c) }) {
			return false
		}
	}
	return true
}
