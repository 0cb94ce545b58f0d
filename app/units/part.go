package units

import (
	"fmt"
	"math/big"
)

// part reads a number with its unit, feet and inches, or a bracket.
func (p *parser) part() (node, *EntryError) {
	t := p.peek(0)
	var n node
	var err *EntryError
	switch {
	case t.kind == numberToken:
		n, err = p.measured()
	case p.isSign(0, '('):
		n, err = p.bracket()
	default:
		err = p.missing(t)
	}
	if err != nil {
		return node{}, err
	}
	switch after := p.peek(0); {
	case after.kind == numberToken, p.isSign(0, '('):
		return node{}, p.refuse(after.start, "two values side by side", "put + - * or / between them")
	case after.kind == unitToken:
		return node{}, p.refuse(after.start, "a second unit", "keep one unit to a number")
	}
	return n, nil
}

// missing says what stands where a number was wanted.
func (p *parser) missing(t token) *EntryError {
	switch t.kind {
	case endToken:
		return p.refuse(t.start, "the text ends where a number should follow", "add the number or leave out what asks for it")
	case unitToken:
		return p.refuse(t.start, fmt.Sprintf("the unit %s has no number before it", t.unit), fmt.Sprintf("write the number first, as in %s %s", example(t.unit), t.unit))
	}
	if t.sign == '-' || t.sign == '+' {
		return p.refuse(t.start, "a second sign", "put a signed number in brackets, as in 2 * (-3)")
	}
	return p.refuse(t.start, fmt.Sprintf("%q where a number should stand", t.sign), "put a number there")
}

// bracket reads "(" value ")" [unit].
func (p *parser) bracket() (node, *EntryError) {
	open := p.peek(0)
	p.at++
	n, err := p.sum()
	if err != nil {
		return node{}, err
	}
	if !p.isSign(0, ')') {
		return node{}, p.refuse(open.start, "a bracket that is not closed", "add a closing bracket")
	}
	n.start, n.end, n.single, n.joined = open.start, p.peek(0).end, true, false
	p.at++
	u := p.peek(0)
	if u.kind != unitToken {
		return n, nil
	}
	if n.measure != number {
		return node{}, p.refuse(u.start, "a unit behind a bracket that has its own", "leave one of the units out")
	}
	return p.withUnit(n, u)
}

// measured reads number [unit], or feet and inches.
func (p *parser) measured() (node, *EntryError) {
	n, err := p.number()
	if err != nil {
		return node{}, err
	}
	u := p.peek(0)
	if u.kind != unitToken {
		return n, nil
	}
	if n, err = p.withUnit(n, u); err != nil {
		return node{}, err
	}
	if u.unit != Foot || p.peek(0).kind != numberToken {
		return n, nil
	}
	inches, err := p.number()
	if err != nil {
		return node{}, err
	}
	if t := p.peek(0); t.kind != unitToken || t.unit != Inch {
		return node{}, p.refuse(inches.start, "the number behind the feet is not marked as inches", `write it as in 5' 6 1/2"`)
	}
	if inches, err = p.withUnit(inches, p.peek(0)); err != nil {
		return node{}, err
	}
	n.value = new(big.Rat).Add(n.value, inches.value)
	n.end = inches.end
	return n, nil
}

// withUnit makes n a quantity in the unit of the token u, which it takes.
func (p *parser) withUnit(n node, u token) (node, *EntryError) {
	if u.unit.IsLength() != p.bare.IsLength() {
		other := "a unit of length"
		if !u.unit.IsLength() {
			other = "a unit of angle"
		}
		return node{}, p.refuse(u.start, fmt.Sprintf("%s is %s", u.unit, other), fmt.Sprintf("this field takes %s", p.article()))
	}
	p.at++
	n.value = new(big.Rat).Mul(n.value, u.unit.scale())
	n.measure, n.end = quantity, u.end
	return n, nil
}

// number reads a decimal, a fraction, or a whole number with a fraction.
func (p *parser) number() (node, *EntryError) {
	t := p.peek(0)
	n := node{value: t.value, start: t.start, end: t.end, single: true}
	if !t.whole {
		p.at++
		return n, nil
	}
	if p.isFraction(0) {
		return p.fraction(n)
	}
	p.at++
	switch {
	case p.isFraction(0):
	case p.isHyphenJoin(t, 0):
		p.at++
		n.joined = true
	default:
		return n, nil
	}
	part := p.peek(0)
	f, err := p.fraction(node{value: part.value, start: part.start})
	if err != nil {
		return node{}, err
	}
	if f.value.Cmp(big.NewRat(1, 1)) >= 0 {
		return node{}, p.refuse(part.start, "the fraction behind a whole number is not less than one",
			"write 2 + 5/4 to add, 2 - 5/4 with spaces to subtract")
	}
	n.value = new(big.Rat).Add(n.value, f.value)
	n.end = f.end
	return n, nil
}

// isFraction tells whether whole "/" whole stands i tokens ahead.
func (p *parser) isFraction(i int) bool {
	a, b := p.peek(i), p.peek(i+2)
	return a.kind == numberToken && a.whole && p.isSign(i+1, '/') && b.kind == numberToken && b.whole
}

// isHyphenJoin tells whether a hyphen and a fraction follow the whole number t
// with no space between; the hyphen stands i tokens ahead.
func (p *parser) isHyphenJoin(t token, i int) bool {
	h := p.peek(i)
	if h.kind != signToken || !h.hyphen || !p.isFraction(i+1) {
		return false
	}
	a, stroke, b := p.peek(i+1), p.peek(i+2), p.peek(i+3)
	return t.end == h.start && h.end == a.start && a.end == stroke.start && stroke.end == b.start
}

// fraction reads whole "/" whole; n holds the upper number.
func (p *parser) fraction(n node) (node, *EntryError) {
	lower := p.peek(2)
	if lower.value.Sign() == 0 {
		return node{}, p.refuse(lower.start, "division by zero", "divide by another number")
	}
	p.at += 3
	n.value = new(big.Rat).Quo(n.value, lower.value)
	n.end, n.single = lower.end, true
	return n, nil
}
