package job

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// Stack is the spacers that stand between outer end and steering arm of a variant,
// their height in its points: under the joint, or over it, where they lower it.
type Stack struct {
	Pieces []units.Length
	Over   bool
}

// Raise is by how much the stack raises the outer end, mm; below 0 if it stands over it.
func (s *Stack) Raise() float64 {
	sum := 0.0
	for _, p := range s.Pieces {
		sum += p.MM
	}
	if s.Over {
		return -sum
	}
	return sum
}

// MaxPieces is the most spacers in one stack.
const MaxPieces = 20

func (s *Stack) fields() []field {
	return []field{
		{"under", "[2, 0.5]", "", false, piecesCodec{s, false}},
		{"over", "[2, 0.5]", "", false, piecesCodec{s, true}},
	}
}

// check asks for one side.
func (s *Stack) check(r *reader, at string, line int, has func(string) bool) {
	cure := "write under: " + lengths("[2, 0.5]", r.units) + ", or over: with the pieces that stand above the joint"
	switch {
	case has("under") && has("over"):
		r.add(line, at, "", "stands on both sides of the joint", "keep one: "+cure)
	case !has("under") && !has("over"):
		r.add(line, at, "", "holds no spacers", cure+", or remove it")
	}
}

// piecesCodec are the pieces on one side.
type piecesCodec struct {
	s    *Stack
	over bool
}

func (c piecesCodec) list(to *[]units.Length) listCodec[units.Length] {
	return listCodec[units.Length]{to: to, most: MaxPieces, what: "spacers", item: pieceItem{}, flow: true}
}

func (c piecesCodec) read(r *reader, n *yaml.Node, at string) {
	var list []units.Length
	c.list(&list).read(r, n, at)
	if len(list) == 0 {
		if n.Kind == yaml.SequenceNode && len(n.Content) == 0 {
			r.add(n.Line, at, "", "holds no spacers", "list those that stand there, as "+lengths("[2, 0.5]", r.units)+", or remove it")
		}
		return
	}
	c.s.Pieces, c.s.Over = list, c.over
}

func (c piecesCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if c.s.Over != c.over {
		return nil
	}
	return c.list(&c.s.Pieces).write(w, old)
}

func (c piecesCodec) schema(s *schemer) object { return c.list(&c.s.Pieces).schema(s) }

// pieceItem is the thickness of one spacer.
type pieceItem struct{}

func (pieceItem) readItem(r *reader, n *yaml.Node, at string, to *units.Length) {
	lengthCodec{to: to}.read(r, n, at)
}

func (pieceItem) writeItem(w *writer, old *yaml.Node, l *units.Length) *yaml.Node {
	return w.length(old, *l)
}

func (pieceItem) schemaItem(*schemer) object { return typed(lengthHint) }

// stack checks a stack.
func (c *checker) stack(s *Stack, key string) {
	side := ".under"
	if s.Over {
		side = ".over"
	}
	if len(s.Pieces) > MaxPieces {
		c.add(key+side, "", fmt.Sprintf("holds %d spacers, more than %d", len(s.Pieces), MaxPieces), "keep those that stand there", nil)
		return
	}
	for i := range s.Pieces {
		c.length(itemKey(key+side, i), s.Pieces[i], MinThickness, MaxThickness)
	}
}
