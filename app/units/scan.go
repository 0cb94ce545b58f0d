package units

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
)

// kind of a token.
type tokenKind uint8

const (
	endToken tokenKind = iota
	numberToken
	unitToken
	signToken // + - * / ( )
)

// token is one piece of typed text. start and end count characters.
type token struct {
	kind       tokenKind
	start, end int
	value      *big.Rat // of a number
	whole      bool     // the number has no decimal point
	unit       Unit
	sign       rune // U+2212 is stored as '-'
	hyphen     bool // '-' as typed on a keyboard, not U+2212
}

const (
	minusSign   = '\u2212'
	thinSpace   = '\u2009'
	narrowSpace = '\u202f' // the thin space that does not break a line
)

// scanner cuts text into tokens.
type scanner struct {
	text []rune
	bare Unit // tells a length from an angle
	at   int
	out  []token
}

// scan returns the tokens of text, closed by an endToken. The unit of a plain
// number tells what units the text may have.
func scan(text []rune, bare Unit) ([]token, *EntryError) {
	s := &scanner{text: text, bare: bare}
	for s.at < len(s.text) {
		if err := s.next(); err != nil {
			return nil, err
		}
	}
	return append(s.out, token{kind: endToken, start: s.at, end: s.at}), nil
}

// refuse makes an error at character index at.
func (s *scanner) refuse(at int, problem, cure string) *EntryError {
	return &EntryError{Text: string(s.text), At: at + 1, Problem: problem, Cure: cure}
}

// peek returns the character i places ahead, or 0 behind the end.
func (s *scanner) peek(i int) rune {
	if s.at+i < len(s.text) {
		return s.text[s.at+i]
	}
	return 0
}

func (s *scanner) next() *EntryError {
	c := s.peek(0)
	switch {
	case isDigit(c), c == '.':
		return s.number()
	case unicode.IsSpace(c) || c == narrowSpace:
		s.at++
		return nil
	case strings.ContainsRune("+-*/()", c), c == minusSign:
		t := token{kind: signToken, start: s.at, end: s.at + 1, sign: c, hyphen: c == '-'}
		if c == minusSign {
			t.sign = '-'
		}
		s.out = append(s.out, t)
		s.at++
		return nil
	case unicode.IsLetter(c):
		return s.word()
	}
	if u, ok := spellings[string(c)]; ok {
		s.out = append(s.out, token{kind: unitToken, start: s.at, end: s.at + 1, unit: u})
		s.at++
		return nil
	}
	return s.strange(c)
}

// number reads a decimal. Thin spaces between its thousands are skipped.
func (s *scanner) number() *EntryError {
	start := s.at
	digits, err := s.wholeDigits()
	if err != nil {
		return err
	}
	whole := true
	if s.peek(0) == '.' {
		whole = false
		digits += "."
		s.at++
		for isDigit(s.peek(0)) {
			digits += string(s.peek(0))
			s.at++
		}
	}
	if digits == "." {
		return s.refuse(start, "a point without a digit", "write a number such as 0.5")
	}
	if s.peek(0) == '.' {
		return s.refuse(s.at, "a second decimal point in one number", "keep one point")
	}
	// SetString takes .5 and 5. as they stand, and has seen digits only.
	v, ok := new(big.Rat).SetString(digits)
	if !ok {
		panic("units: scanned a number that is none: " + digits)
	}
	s.out = append(s.out, token{kind: numberToken, start: start, end: s.at, value: v, whole: whole})
	return nil
}

// wholeDigits reads digits up to a point, with thin spaces only where
// thousands part: "1 234".
func (s *scanner) wholeDigits() (string, *EntryError) {
	var digits []rune
	group, grouped := 0, false
	for {
		c := s.peek(0)
		switch {
		case isDigit(c):
			digits = append(digits, c)
			group++
			s.at++
			continue
		case (c == thinSpace || c == narrowSpace) && isDigit(s.peek(1)):
			if group > 3 || grouped && group != 3 {
				return "", s.refuse(s.at, "a thin space that does not part thousands", "leave it out")
			}
			group, grouped = 0, true
			s.at++
			continue
		}
		if grouped && group != 3 {
			return "", s.refuse(s.at-group-1, "a thin space that does not part thousands", "leave it out")
		}
		return string(digits), nil
	}
}

// word reads letters: a unit, or something to refuse by name.
func (s *scanner) word() *EntryError {
	start := s.at
	for unicode.IsLetter(s.peek(0)) {
		s.at++
	}
	word := strings.ToLower(string(s.text[start:s.at]))
	if u, ok := spellings[word]; ok {
		s.out = append(s.out, token{kind: unitToken, start: start, end: s.at, unit: u})
		return nil
	}
	behind := len(s.out) > 0 && s.out[len(s.out)-1].kind == numberToken
	afterNumber := behind && s.out[len(s.out)-1].end == start
	switch {
	case word == "nan" || word == "inf" || word == "infinity":
		return s.refuse(start, fmt.Sprintf("%q is not a number", word), "write the number itself")
	case afterNumber && word == "e":
		return s.refuse(start, "exponents are not read", "write the number out, such as 1200 for 1.2e3")
	case afterNumber && strings.HasPrefix(word, "x") && string(s.text[s.out[len(s.out)-1].start:start]) == "0":
		return s.refuse(start, "hexadecimal numbers are not read", "write the number in decimal; multiply with *")
	case word == "x":
		return s.refuse(start, `"x" is no sign of multiplication here`, "multiply with *")
	case !behind:
		return s.refuse(start, fmt.Sprintf("%q is not a number", word), "type a number, such as "+example(s.bare))
	}
	cure := `the units are mm, cm, m, in, ", ft and '`
	if s.bare == Degree {
		cure = "the unit is deg or °"
	}
	return s.refuse(start, fmt.Sprintf("unknown unit %q", word), cure)
}

// strange refuses a character that is part of no value, by its name.
func (s *scanner) strange(c rune) *EntryError {
	switch c {
	case ',':
		return s.refuse(s.at, "a comma", "use a point for decimals, as in 5.2, and nothing between thousands")
	case '_':
		return s.refuse(s.at, "an underscore", "write the digits without it")
	case '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞', '⁄':
		return s.refuse(s.at, fmt.Sprintf("the character %q", c), "write a fraction with a stroke, as in 1/8")
	case '×', '·', '÷', ':':
		return s.refuse(s.at, fmt.Sprintf("the character %q", c), "multiply with * and divide with /")
	case '–', '—':
		return s.refuse(s.at, fmt.Sprintf("a dash (%q)", c), "use a hyphen or a minus sign")
	}
	return s.refuse(s.at, fmt.Sprintf("the character %q is not part of a value", c), "leave it out")
}

func isDigit(c rune) bool { return c >= '0' && c <= '9' }
