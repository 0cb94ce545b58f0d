package units

import (
	"fmt"
	"math/big"
	"sort"
)

// measure says what a computed value stands for.
type measure uint8

const (
	number   measure = iota // no unit yet: a factor, or in the unit on display
	quantity                // a length (or an angle) in mm (or degrees)
	ratio                   // quantity over quantity: a factor for good
)

// node is a computed stretch of text.
type node struct {
	value      *big.Rat
	measure    measure
	start, end int  // characters, without a leading sign
	single     bool // one number or one bracket: a unit can be put behind it
	joined     bool // a number joined by a hyphen
}

// stretch of text that takes the unit on display.
type stretch struct {
	start, end int
	single     bool
}

type parser struct {
	text   []rune
	tokens []token
	at     int
	bare   Unit
	bared  []stretch
}

func (p *parser) peek(i int) token {
	if p.at+i < len(p.tokens) {
		return p.tokens[p.at+i]
	}
	return p.tokens[len(p.tokens)-1]
}

func (p *parser) isSign(i int, signs ...rune) bool {
	t := p.peek(i)
	for _, s := range signs {
		if t.kind == signToken && t.sign == s {
			return true
		}
	}
	return false
}

// refuse makes an error at the given character index.
func (p *parser) refuse(at int, problem, cure string) *EntryError {
	return &EntryError{Text: string(p.text), At: at + 1, Problem: problem, Cure: cure}
}

// article names the kind of value wanted.
func (p *parser) article() string {
	if p.bare.IsLength() {
		return "a length"
	}
	return "an angle"
}

// result computes the whole text.
func (p *parser) result() (*big.Rat, *EntryError) {
	n, err := p.sum()
	if err != nil {
		return nil, err
	}
	if t := p.peek(0); t.kind != endToken {
		return nil, p.refuse(t.start, "a closing bracket without an opening one", "leave it out")
	}
	if n.measure == ratio {
		return nil, p.refuse(n.start, p.article()+" over "+p.article()+" is a plain number, not "+p.article(),
			"multiply it by "+p.article())
	}
	return p.inUnits(n).value, nil
}

// inUnits gives a bare number the unit on display and notes where.
func (p *parser) inUnits(n node) node {
	if n.measure == number {
		n.value = new(big.Rat).Mul(n.value, p.bare.scale())
		n.measure = quantity
		p.bared = append(p.bared, stretch{n.start, n.end, n.single})
	}
	return n
}

// sum reads [sign] product { (+|-) product }.
func (p *parser) sum() (node, *EntryError) {
	opening := p.peek(0)
	signed := p.isSign(0, '+', '-')
	if signed {
		p.at++
	}
	left, err := p.product()
	if err != nil {
		return node{}, err
	}
	if signed && opening.sign == '-' {
		left.value = new(big.Rat).Neg(left.value)
	}
	start := left.start
	if signed {
		start = opening.start
	}
	for p.isSign(0, '+', '-') {
		if err := p.feetHyphenInches(); err != nil {
			return node{}, err
		}
		op := p.peek(0)
		p.at++
		right, err := p.product()
		if err != nil {
			return node{}, err
		}
		if left, err = p.add(left, right, op); err != nil {
			return node{}, err
		}
		left.start = start
	}
	return left, nil
}

func (p *parser) add(a, b node, op token) (node, *EntryError) {
	switch {
	case a.measure == quantity && b.measure == number:
		b = p.inUnits(b)
	case a.measure == number && b.measure == quantity:
		a = p.inUnits(a)
	case a.measure == number && b.measure == ratio:
		a.measure = ratio
	case a.measure == ratio && b.measure == number: // stays a ratio
	case a.measure != b.measure:
		return node{}, p.refuse(op.start, p.article()+" and a plain number cannot be added",
			fmt.Sprintf("%s over %s is a plain number: multiply it by %s first", p.article(), p.article(), p.article()))
	}
	v := new(big.Rat)
	if op.sign == '-' {
		v.Sub(a.value, b.value)
	} else {
		v.Add(a.value, b.value)
	}
	return node{value: v, measure: a.measure, start: a.start, end: b.end}, nil
}

// feetHyphenInches refuses 5'-6" and 5'-6-1/2", which the trade reads as sums
// and arithmetic as differences.
func (p *parser) feetHyphenInches() *EntryError {
	op, next := p.peek(0), p.peek(1)
	if p.at == 0 || !op.hyphen || next.kind != numberToken || next.start != op.end {
		return nil
	}
	before := p.tokens[p.at-1]
	if before.kind != unitToken || before.unit != Foot || before.end != op.start {
		return nil
	}
	i := 2
	if next.whole && p.isHyphenJoin(next, i) {
		i += 4
	}
	for p.peek(i).kind == numberToken || p.isSign(i, '/') {
		i++
	}
	t := p.peek(i)
	bareInches := p.bare == Inch && (t.kind == endToken || p.isSign(i, '+', '-', ')'))
	if bareInches || (t.kind == unitToken && t.unit == Inch) {
		return p.refuse(op.start, "feet, a hyphen and inches have two readings",
			`write 5' 6" for a sum, 5' - 6" with spaces for a difference`)
	}
	return nil
}

// product reads part { (*|/) part }.
func (p *parser) product() (node, *EntryError) {
	left, err := p.part()
	if err != nil {
		return node{}, err
	}
	for p.isSign(0, '*', '/') {
		op := p.peek(0)
		p.at++
		right, err := p.part()
		if err != nil {
			return node{}, err
		}
		for _, n := range []node{left, right} {
			if n.joined {
				return node{}, p.refuse(n.start, "a number joined by a hyphen has two readings in a product",
					"put it in brackets, as in (2-1/4) * 3")
			}
		}
		if op.sign == '*' {
			left, err = p.times(left, right, op)
		} else {
			left, err = p.over(left, right, op)
		}
		if err != nil {
			return node{}, err
		}
	}
	return left, nil
}

func (p *parser) times(a, b node, op token) (node, *EntryError) {
	if a.measure == quantity && b.measure == quantity {
		return node{}, p.refuse(op.start, fmt.Sprintf("%s times %s is not %s", p.article(), p.article(), p.article()),
			"leave one of the units out")
	}
	m := max(a.measure, b.measure) // a factor changes nothing, and a ratio stays one
	if a.measure == quantity || b.measure == quantity {
		m = quantity
	}
	return node{value: new(big.Rat).Mul(a.value, b.value), measure: m, start: a.start, end: b.end}, nil
}

func (p *parser) over(a, b node, op token) (node, *EntryError) {
	if b.value.Sign() == 0 {
		return node{}, p.refuse(b.start, "division by zero", "divide by another number")
	}
	m := max(a.measure, b.measure)
	switch {
	case a.measure == quantity && b.measure == quantity:
		m = ratio
	case a.measure == quantity:
		m = quantity
	case b.measure == quantity:
		return node{}, p.refuse(op.start, fmt.Sprintf("a plain number over %s is not %s", p.article(), p.article()),
			"give the upper number a unit, or bracket the division: (1.5/2) in")
	}
	return node{value: new(big.Rat).Quo(a.value, b.value), measure: m, start: a.start, end: b.end}, nil
}

// withUnits returns the text with the unit on display written wherever a bare
// number took it, so that it reads the same whatever is on display.
func (p *parser) withUnits() string {
	// The stretches are disjoint: what has a unit never takes another.
	sort.Slice(p.bared, func(i, j int) bool { return p.bared[i].start < p.bared[j].start })
	var out []rune
	at := 0
	for _, s := range p.bared {
		out = append(out, p.text[at:s.start]...)
		if s.single {
			out = append(out, p.text[s.start:s.end]...)
		} else {
			out = append(out, '(')
			out = append(out, p.text[s.start:s.end]...)
			out = append(out, ')')
		}
		out = append(out, ' ')
		out = append(out, []rune(p.bare.String())...)
		at = s.end
	}
	return string(append(out, p.text[at:]...))
}

// isPlain tells whether the text is a decimal with at most a sign.
func (p *parser) isPlain() bool {
	t := p.tokens
	if t[0].kind == signToken {
		t = t[1:]
	}
	return len(t) == 2 && t[0].kind == numberToken
}
