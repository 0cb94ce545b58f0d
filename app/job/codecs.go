package job

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// formatCodec is the format number. Its read has been done before the others,
// and what is to be written is known only behind them: see setVersion.
type formatCodec struct{}

func (formatCodec) read(*reader, *yaml.Node, string) {}

func (formatCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	return w.scalar(old, Version{Major: Format}.String(), old != nil)
}

// textCodec is a text; an empty one that need not be there is left out.
type textCodec struct {
	to      *string
	mayLack bool
}

func (c textCodec) read(r *reader, n *yaml.Node, at string) {
	if r.isScalar(n, at, "a text") {
		*c.to = n.Value
	}
}

func (c textCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.mayLack && *c.to == "" {
		return nil
	}
	return w.text(old, *c.to, old != nil && old.Value == *c.to)
}

// wordCodec is one of a few words.
type wordCodec[T comparable] struct {
	to    *T
	words []word[T]
}

func (c wordCodec[T]) read(r *reader, n *yaml.Node, at string) {
	texts := make([]string, len(c.words))
	for i, w := range c.words {
		texts[i] = w.text
	}
	if !r.isScalar(n, at, "one of "+strings.Join(texts, ", ")) {
		return
	}
	for _, w := range c.words {
		if n.Value == w.text {
			*c.to = w.value
			return
		}
	}
	r.add(n.Line, at, n.Value, "is not one of "+strings.Join(texts, ", "), "write one of these words")
}

func (c wordCodec[T]) write(w *writer, old *yaml.Node) *yaml.Node {
	text := wordOf(c.words, *c.to)
	return w.text(old, text, old != nil && old.Value == text)
}

// lengthCodec is a length. With mayLack, a file that lacks the key means absent.
type lengthCodec struct {
	to      *units.Length
	mayLack bool
	absent  float64 // mm
}

func (c lengthCodec) read(r *reader, n *yaml.Node, at string) {
	if l, ok := r.length(n, at); ok {
		*c.to = l
	}
}

func (c lengthCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.mayLack && old == nil && *c.to == (units.Length{MM: c.absent}) {
		return nil
	}
	return w.length(old, *c.to)
}

// optionalCodec is a length that may be missing without meaning a number.
type optionalCodec struct{ to *Optional }

func (c optionalCodec) read(r *reader, n *yaml.Node, at string) {
	if l, ok := r.length(n, at); ok {
		*c.to = Given(l)
	}
}

func (c optionalCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.to.Given {
		return nil
	}
	return w.length(old, c.to.Length)
}

// length reads a length in the file's units.
func (r *reader) length(n *yaml.Node, at string) (units.Length, bool) {
	if !r.isScalar(n, at, "a length") {
		return units.Length{}, false
	}
	l, err := units.ParseLength(n.Value, r.units)
	if err != nil {
		if r.noNumber(n, at) {
			return units.Length{}, false
		}
		r.entryError(n, at, err)
		return units.Length{}, false
	}
	return l, true
}

func (w *writer) length(old *yaml.Node, l units.Length) *yaml.Node {
	same := false
	if old != nil && old.Kind == yaml.ScalarNode {
		was, err := units.ParseLength(old.Value, w.units)
		same = err == nil && was == l
	}
	if l.Typed != "" {
		return w.text(old, l.Typed, same)
	}
	return w.scalar(old, l.Text(w.units), same)
}

// degreesCodec is an angle. With mayLack, a file that lacks the key means 0.
type degreesCodec struct {
	to      *Degrees
	mayLack bool
}

func (c degreesCodec) read(r *reader, n *yaml.Node, at string) {
	if d, ok := r.degrees(n, at); ok {
		*c.to = d
	}
}

// degrees reads an angle.
func (r *reader) degrees(n *yaml.Node, at string) (Degrees, bool) {
	if !r.isScalar(n, at, "an angle in degrees") {
		return 0, false
	}
	d, err := ParseDegrees(n.Value)
	if err == nil {
		return d, true
	}
	if !r.noNumber(n, at) {
		r.entryError(n, at, err)
	}
	return 0, false
}

func (c degreesCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.mayLack && old == nil && *c.to == 0 {
		return nil
	}
	same := false
	if old != nil && old.Kind == yaml.ScalarNode {
		was, err := ParseDegrees(old.Value)
		same = err == nil && was == *c.to
	}
	return w.scalar(old, strconv.FormatFloat(float64(*c.to), 'f', -1, 64), same)
}

var plainNumber = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+)$`)

// typedDigits is to how many significant digits an angle typed as a sum or
// fraction is rounded, so that 1 1/2 is 1.5 after the way through radians.
const typedDigits = 14

// ParseDegrees reads an angle, and a plain number to the nearest float64.
func ParseDegrees(text string) (Degrees, error) {
	rad, err := units.ParseAngle(text)
	if err != nil {
		return 0, err
	}
	plain := strings.TrimSpace(text)
	if !plainNumber.MatchString(plain) {
		plain = strconv.FormatFloat(rad/radPerDegree, 'g', typedDigits, 64)
	}
	d, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, fmt.Errorf("the angle %q is not read: %w", text, err)
	}
	if math.Abs(d) == 0 {
		d = 0 // no negative zero
	}
	return Degrees(d), nil
}

// noNumber reports what YAML takes for a number though it is none.
func (r *reader) noNumber(n *yaml.Node, at string) bool {
	switch strings.ToLower(strings.TrimLeft(n.Value, "+-")) {
	case ".nan", "nan", ".inf", "inf":
		r.add(n.Line, at, n.Value, "is not a number", "write the number itself")
		return true
	}
	return false
}

// entryError reports why a typed value was refused.
func (r *reader) entryError(n *yaml.Node, at string, err error) {
	var entry *units.EntryError
	if errors.As(err, &entry) {
		what := entry.Problem
		if entry.At > 0 {
			what = fmt.Sprintf("character %d: %s", entry.At, entry.Problem)
		}
		r.add(n.Line, at, n.Value, what, entry.Cure)
		return
	}
	r.add(n.Line, at, n.Value, err.Error(), "check the number")
}

// sectionCodec is a mapping.
type sectionCodec struct {
	sec     section
	flow    bool        // a new one is written on one line
	lacks   func() bool // the key must not stand there; nil for never
	mayLack func() bool // the key need not stand there; nil for never
}

func (c sectionCodec) read(r *reader, n *yaml.Node, at string) { r.section(n, at, c.sec) }

func (c sectionCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.lacks != nil && c.lacks() || old == nil && c.mayLack != nil && c.mayLack() {
		return nil
	}
	return w.section(old, c.sec, c.flow)
}

// pivotCodec is the one pivot of an arm's short form.
type pivotCodec struct {
	sectionCodec
	arm *Arm
}

func (c pivotCodec) read(r *reader, n *yaml.Node, at string) {
	c.arm.Flat = true
	c.sectionCodec.read(r, n, at)
}

// variantsCodec is the list of variants.
type variantsCodec struct{ to *[]Variant }

// MaxVariants is the most variants a job may hold: more than anyone compares,
// and few enough that a copy for undo stays small.
const MaxVariants = 200

func (c variantsCodec) read(r *reader, n *yaml.Node, at string) {
	switch {
	case n.Kind == yaml.ScalarNode && n.Tag == nullTag:
		r.add(n.Line, at, "", "holds no variant", "add one that begins with '- name: as measured'")
		return
	case n.Kind != yaml.SequenceNode:
		r.add(n.Line, at, scalarValue(n), "is not a list", "begin each variant with '- name: ...'")
		return
	case len(n.Content) == 0:
		r.add(n.Line, at, "", "holds no variant", "add one that begins with '- name: as measured'")
		return
	case len(n.Content) > MaxVariants:
		r.add(n.Line, at, "", fmt.Sprintf("holds %d variants, more than %d", len(n.Content), MaxVariants), "split the job into several files")
		return
	}
	list := make([]Variant, len(n.Content))
	for i, item := range n.Content {
		v := &list[i]
		v.src = item
		place := fmt.Sprintf("%s[%d]", at, i)
		r.lines[place] = item.Line
		r.variant = nameIn(item)
		if item.Kind != yaml.AliasNode {
			r.section(item, place, v)
		}
		r.variant = ""
	}
	*c.to = list
}

// nameIn looks the variant's name up before it is read, for its problems.
func nameIn(n *yaml.Node) string {
	if _, v := find(n, "name"); v != nil && v.Kind == yaml.ScalarNode {
		return v.Value
	}
	return ""
}

func (c variantsCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	n := &yaml.Node{Kind: yaml.SequenceNode}
	if old != nil && old.Kind == yaml.SequenceNode {
		copyComments(n, old)
		n.Style = old.Style
	}
	for i := range *c.to {
		v := &(*c.to)[i]
		n.Content = append(n.Content, w.section(v.src, v, false))
	}
	return n
}
