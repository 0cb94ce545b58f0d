package sheet

import (
	"strings"

	"armscribe/app/units"
)

// Mark is how a sentence or a verdict stands; each face has its sign for it.
type Mark uint8

// The marks.
const (
	NoMark  Mark = iota
	Good         // kept, met, better
	Bad          // not kept, not met, worse
	Unsure       // the tape cannot tell
	Warning      // to be looked at
	Aside        // of less weight than what stands around it
)

// Signs are how marks are printed before words.
var signs = [...]string{Good: "✓ ", Bad: "✕ ", Unsure: "? ", Warning: "▲ ", Aside: ""}

// Sign is the mark before words, with its space; empty for none.
func (m Mark) Sign() string { return signs[m] }

// state is what a cell holds.
type state uint8

const (
	isBlank state = iota
	isNumber
	isBanded
	isLoose // a number whose band nobody knows
	isMost  // a size that is at most so
	isMissing
	isWords
	isFlag
	isList
	isTexts
	isUnit
	isHalf
)

// Place is where in travel, rack and roll something happens, to be shown there:
// mm, mm of the left wheel's rack, rad.
type Place struct{ Travel, Rack, Roll float64 }

// Text says where, without units: "+70 / +62", the rack behind the travel where it
// is not in the middle.
func (p Place) Text(length units.Unit) string {
	text := Number(Travel, p.Travel).Text(length)
	if p.Rack != 0 {
		text += " / " + Number(Travel, p.Rack).Text(length)
	}
	if p.Roll != 0 {
		text += ", roll " + Number(Stated, p.Roll).Signed().Phrase(length)
	}
	return text
}

// Cell is one value of an answer. The zero Cell is empty.
type Cell struct {
	state       state
	kind        Kind
	value, half float64
	values      []float64
	text        string
	texts       []string
	yes         bool
	signed      bool
	mark        Mark
	place       *Place
	field, act  string
	chosen      bool
	said        string // on screens instead of the number
	needs       string // on screens instead of the band
}

// Number is a value without a band.
func Number(k Kind, v float64) Cell { return Cell{state: isNumber, kind: k, value: v} }

// Banded is a value with its 95 % half-width. A band that is rounding is none.
func Banded(k Kind, v, half float64) Cell {
	if k.Exact(half) {
		half = 0
	}
	return Cell{state: isBanded, kind: k, value: v, half: half}
}

// BandedIf is Banded, or a value whose band is not known.
func BandedIf(k Kind, v, half float64, known bool) Cell {
	if !known {
		return Cell{state: isLoose, kind: k, value: v}
	}
	return Banded(k, v, half)
}

// Half is a 95 % half-width alone, for files.
func Half(k Kind, half float64) Cell {
	if k.Exact(half) {
		half = 0
	}
	return Cell{state: isHalf, kind: k, value: half}
}

// AtMost is a size that is at most so much.
func AtMost(k Kind, v float64) Cell { return Cell{state: isMost, kind: k, value: v} }

// Missing says why there is no value of a kind: null in a file.
func Missing(k Kind, why string) Cell { return Cell{state: isMissing, kind: k, text: why} }

// Words is a text; in a file, where it is not empty.
func Words(text string) Cell { return Cell{state: isWords, text: OneLine(text)} }

// Flag is a yes or no, for files.
func Flag(yes bool) Cell { return Cell{state: isFlag, yes: yes} }

// Numbers are several values of one kind, for files.
func Numbers(k Kind, values []float64) Cell { return Cell{state: isList, kind: k, values: values} }

// Texts are several texts, for files.
func Texts(list []string) Cell { return Cell{state: isTexts, texts: append([]string{}, list...)} }

// UnitOf is the unit of a kind, as a text.
func UnitOf(k Kind) Cell { return Cell{state: isUnit, kind: k} }

// If is the cell, or an empty one: null in a file.
func (c Cell) If(ok bool) Cell {
	if !ok {
		return Cell{state: isMissing, kind: c.kind}
	}
	return c
}

// Signed prints a plus before what is above nought.
func (c Cell) Signed() Cell { c.signed = true; return c }

// Marked gives a cell a mark.
func (c Cell) Marked(m Mark) Cell { c.mark = m; return c }

// Mark is the cell's mark.
func (c Cell) Mark() Mark { return c.mark }

// At gives a cell the place where it happens.
func (c Cell) At(p Place) Cell { c.place = &p; return c }

// Typed tells that a window lets the cell be typed: key finds the field.
func (c Cell) Typed(key string) Cell { c.field = key; return c }

// Offers tells that a window lets the row do something: key names it.
func (c Cell) Offers(key string) Cell { c.act = key; return c }

// Chosen tells that what a cell offers is what is done already.
func (c Cell) Chosen(yes bool) Cell { c.chosen = yes; return c }

// Said prints words on screens instead of a number that says nothing; files have
// the number. Empty words change nothing.
func (c Cell) Said(words string) Cell { c.said = words; return c }

// Needs prints words on screens instead of a band that says nothing, likewise.
func (c Cell) Needs(words string) Cell { c.needs = words; return c }

// Place is where it happens; nil for nowhere.
func (c Cell) Place() *Place { return c.place }

// missing tells that there is no value.
func (c *Cell) missing() bool { return c.state == isMissing || c.state == isBlank }

// notKnown is said of a band.
const notKnown = "not known"

// split prints a value and its band, which is empty where there is none.
func (c Cell) split(length units.Unit) (value, half string) {
	if c.said != "" {
		return c.said, ""
	}
	if c.needs != "" {
		of := c
		of.needs = ""
		value, _ = of.split(length)
		return value, c.needs
	}
	switch c.state {
	case isNumber:
		value = c.kind.loose(c.value, length)
	case isLoose:
		value, half = c.kind.loose(c.value, length), notKnown
	case isMost:
		value, half = c.kind.loose(c.value, length), "at most"
	case isUnit:
		_, unit := c.kind.In(0, length)
		return unit, ""
	case isBanded:
		if c.half == 0 && c.kind == Taped { // exact, but nobody builds to more
			return c.withSign(c.kind.loose(c.value, length)), "± 0"
		}
		v, _ := c.kind.In(c.value, length)
		h, _ := c.kind.In(c.half, length)
		var ok bool
		value, half, ok = strings.Cut(units.BandedTo(v, h, c.kind.Finest(length)), " ± ")
		if ok {
			half = "± " + half
		}
	default:
		return c.text, ""
	}
	return c.withSign(value), half
}

func (c Cell) withSign(text string) string {
	if c.signed || traits[c.kind].sign {
		return units.Signed(text)
	}
	return text
}

// Text prints a cell as one text without its unit: "32.2 ± 1.8".
func (c Cell) Text(length units.Unit) string { return c.whole(length, "") }

// whole is value, band and unit, and behind them that a band is not known.
func (c Cell) whole(length units.Unit, unit string) string {
	value, half := c.split(length)
	text, behind := value, ""
	switch {
	case half == notKnown:
		behind = ", band not known"
	case half != "":
		text += " " + half
	}
	if unit != "" {
		text += " " + unit
	}
	return text + behind
}

// Value prints a number with its unit and the digits of its band, without the band.
func (c Cell) Value(length units.Unit) string {
	value, _ := c.split(length)
	return strings.TrimSpace(value + " " + c.Unit(length))
}

// Half prints the band alone; empty where there is none.
func (c Cell) Half(length units.Unit) string {
	_, half := c.split(length)
	return half
}

// Phrase prints a cell as one text with its unit, for a sentence.
func (c Cell) Phrase(length units.Unit) string { return c.whole(length, c.Unit(length)) }

// Unit is the unit of a number as it is printed; empty for words.
func (c Cell) Unit(length units.Unit) string {
	if c.said != "" {
		return ""
	}
	switch c.state {
	case isNumber, isBanded, isLoose, isMost, isList:
		_, unit := c.kind.In(0, length)
		return unit
	}
	return ""
}

// Empty tells whether nothing is to be shown.
func (c Cell) Empty() bool { return c.state == isBlank || c.state == isMissing && c.text == "" }
