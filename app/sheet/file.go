package sheet

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/app/units"
)

// Digits of a file, significant: more than any measurement and fewer than what
// rounding leaves behind a number such as 0.1 degrees. A band comes from
// differences, which keep fewer; bandDigits are still more than it means.
// fileNought, in any unit, is what rounding leaves of nought.
const (
	fileDigits = 12
	bandDigits = 6
	fileNought = 1e-12
)

// JSON prints the answer for a program: mm, degrees, N and N m.
func (s *Sheet) JSON() string {
	if s.Bare {
		return encode(s.fileTable().bare())
	}
	var o object
	if s.Job != "" {
		o.set("job", s.Job)
		if s.Variant != "" {
			o.set("variant", s.Variant)
		}
	}
	if len(s.Rests) > 0 {
		o.set(restsKey, s.Rests)
	}
	for _, item := range s.Items {
		switch i := item.(type) {
		case Field:
			i.file(&o)
		case Object:
			o.set(i.Key, i.file())
		case *Table:
			if i.On.Shows(InFile) && i.Key != "" {
				o.set(i.fileKey(), i.file())
			}
		case Prose:
			if i.On.Shows(InFile) && i.Key != "" {
				o.set(i.Key, i.file())
			}
		}
	}
	if s.Notes != nil {
		o.set("notes", s.NotesOn(InFile, units.Millimetre))
	}
	o.set("caution", s.Caution)
	return encode(o)
}

func (f *Field) file(o *object) {
	if f.Pair != "" && f.Cell.missing() {
		o.set(f.Pair, nil)
		return
	}
	o.set(f.Key, f.Cell.file())
	if f.BandKey != "" {
		o.set(f.BandKey, f.Cell.bandFile())
	}
}

func (o *Object) file() object {
	var inner object
	for i := range o.Fields {
		o.Fields[i].file(&inner)
	}
	return inner
}

// MarshalJSON is for files that are not sheets yet.
func (o Object) MarshalJSON() ([]byte, error) { return o.file().MarshalJSON() }

func (p *Prose) file() []string {
	list := make([]string, len(p.Lines))
	for i, l := range p.Lines {
		list[i] = l.Text
	}
	return list
}

func (t *Table) fileKey() string {
	if t.GroupKey != "" {
		return t.GroupKey
	}
	return t.Key
}

// file is the table's rows, or its groups.
func (t *Table) file() any {
	groups, all := []object{}, []object{}
	for i := range t.Groups {
		g := &t.Groups[i]
		if !g.On.Shows(InFile) {
			continue
		}
		rows := []object{}
		for _, r := range g.Rows {
			rows = append(rows, t.rowFile(r))
		}
		var o object
		if g.Fields == nil {
			o.set("key", g.Key)
			o.set("name", g.Name)
		}
		for n := range g.Fields {
			g.Fields[n].file(&o)
		}
		o.set(t.Key, rows)
		if g.Missing != "" {
			o.set("missing", g.Missing)
		}
		groups, all = append(groups, o), append(all, rows...)
	}
	if t.GroupKey != "" {
		return groups
	}
	return all
}

func (t *Table) rowFile(r Row) object {
	var o object
	for i := range t.Columns {
		c := &t.Columns[i]
		if !c.On.Shows(InFile) || i >= len(r) {
			continue
		}
		cell := &r[i]
		missing := cell.missing()
		if c.Whole && missing {
			continue
		}
		if c.Pair != "" && missing {
			o.set(c.Pair, nil)
			continue
		}
		if c.Key != "" {
			o.set(c.Key, cell.file())
		}
		if c.UnitKey != "" {
			_, unit := cell.kind.inFile(0)
			o.set(c.UnitKey, unit)
		}
		if c.BandKey != "" {
			o.set(c.BandKey, cell.bandFile())
		}
		if c.MissingKey != "" && cell.state == isMissing {
			o.set(c.MissingKey, cell.text)
		}
	}
	return o
}

// file is a cell's value; nil for none.
func (c *Cell) file() any {
	switch c.state {
	case isNumber, isBanded, isLoose, isMost:
		v, _ := c.kind.inFile(c.value)
		return rounded(v, fileDigits)
	case isHalf:
		v, _ := c.kind.inFile(c.value)
		return rounded(v, bandDigits)
	case isWords:
		return c.text
	case isFlag:
		return c.yes
	case isTexts:
		return c.texts
	case isUnit:
		_, unit := c.kind.inFile(0)
		return unit
	case isList:
		values := make([]float64, len(c.values))
		for i, v := range c.values {
			v, _ = c.kind.inFile(v)
			values[i] = rounded(v, fileDigits)
		}
		return values
	}
	return nil
}

func (c *Cell) bandFile() any {
	if c.state != isBanded {
		return nil
	}
	half, _ := c.kind.inFile(c.half)
	return rounded(half, bandDigits)
}

// rounded is a number with so many significant digits.
func rounded(v float64, digits int) float64 {
	if math.Abs(v) < fileNought {
		return 0
	}
	v, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		panic("sheet: cannot read back a number: " + err.Error())
	}
	return v
}

// object is a JSON object whose members keep their order.
type object []member

type member struct {
	key   string
	value any
}

// set adds a member; dots in the key make objects in objects, and whole numbers
// between them the elements of an array.
func (o *object) set(key string, value any) {
	first, rest, deep := strings.Cut(key, ".")
	if !deep {
		*o = append(*o, member{key, value})
		return
	}
	for i := range *o {
		if inner, ok := (*o)[i].value.(*object); ok && (*o)[i].key == first {
			inner.set(rest, value)
			return
		}
	}
	inner := &object{}
	inner.set(rest, value)
	*o = append(*o, member{first, inner})
}

// isArray tells whether the keys count up from 0.
func (o object) isArray() bool {
	for i, m := range o {
		if m.key != strconv.Itoa(i) {
			return false
		}
	}
	return len(o) > 0
}

// MarshalJSON is for the encoder.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	open, shut, array := byte('{'), byte('}'), o.isArray()
	if array {
		open, shut = '[', ']'
	}
	b.WriteByte(open)
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if !array {
			fmt.Fprintf(&b, "%q:", m.key)
		}
		var inner bytes.Buffer
		e := json.NewEncoder(&inner)
		e.SetEscapeHTML(false)
		if err := e.Encode(m.value); err != nil {
			return nil, err
		}
		b.Write(bytes.TrimSpace(inner.Bytes()))
	}
	b.WriteByte(shut)
	return b.Bytes(), nil
}

// encode prints a value as indented JSON. What sheets hold can always be
// encoded: a failure, such as a NaN, is a bug.
func encode(v any) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		panic("sheet: " + err.Error())
	}
	return b.String()
}

// csvDecimals of CSV: a nanometre, or a billionth of a degree.
const csvDecimals = 9

// CSV prints the first table that has keys; an answer without one is a bug.
func (s *Sheet) CSV() string { return s.fileTable().CSV() }

func (s *Sheet) fileTable() *Table {
	for _, item := range s.Items {
		if t, ok := item.(*Table); ok && t.Key != "" && t.On.Shows(InFile) {
			return s.resting(t)
		}
	}
	panic("sheet: no table for a file")
}

// bare are the rows with the numbers of CSV.
func (t *Table) bare() []object {
	var list []object
	for g := range t.Groups {
		for _, r := range t.Groups[g].Rows {
			var o object
			for i := range t.Columns {
				c, cell := &t.Columns[i], &r[i]
				if c.Key == "" || !c.On.Shows(InFile) {
					continue
				}
				value := cell.file()
				if _, ok := value.(float64); ok {
					value = json.Number(units.TrimZeros(cell.csv()))
				}
				o.set(c.Key, value)
			}
			list = append(list, o)
		}
	}
	return list
}

// CSV prints the rows of a table after RFC 4180, lines ending in CR LF: mm and
// degrees, the columns by their keys, an empty cell where there is no value.
func (t *Table) CSV() string {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.UseCRLF = true
	record := func(of func(c *Column, i int) string) {
		var cells []string
		for i := range t.Columns {
			if c := &t.Columns[i]; c.Key != "" && c.On.Shows(InFile) {
				cells = append(cells, of(c, i))
			}
		}
		if err := out.Write(cells); err != nil {
			panic("sheet: " + err.Error()) // a buffer takes everything
		}
	}
	record(func(c *Column, _ int) string { return c.Key })
	for g := range t.Groups {
		for _, r := range t.Groups[g].Rows {
			record(func(_ *Column, i int) string { return r[i].csv() })
		}
	}
	out.Flush()
	return b.String()
}

// csv is a cell in CSV; a text that begins like a formula is guarded.
func (c *Cell) csv() string {
	switch c.state {
	case isNumber, isBanded, isLoose, isHalf:
		v, _ := c.kind.inFile(c.value)
		if c.state == isHalf {
			v = rounded(v, bandDigits)
		}
		text := strconv.FormatFloat(v, 'f', csvDecimals, 64)
		if strings.Trim(text, "-0.") == "" {
			return text[strings.IndexByte(text, '0'):] // what rounds to nought has no sign
		}
		return text
	case isWords:
		if strings.ContainsAny(c.text[:min(1, len(c.text))], "=+-@") {
			return "'" + c.text
		}
		return c.text
	}
	return ""
}
