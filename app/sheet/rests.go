package sheet

import (
	"fmt"
	"strings"
)

// restNamed is how many assumptions are named before the rest is counted.
const restNamed = 3

// RestsWords say of an answer that it rests on assumed values, and on which; empty
// where nothing is assumed.
func RestsWords(keys []string) string {
	if len(keys) == 0 {
		return ""
	}
	text := "Rests on assumed values: " + strings.Join(keys[:min(restNamed, len(keys))], ", ")
	if more := len(keys) - restNamed; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text + "."
}

// restsKey is the key of what an answer in a file rests on.
const restsKey = "assumed"

// resting is the table of rows with one more column that says what they rest on; the
// table itself where nothing is assumed.
func (s *Sheet) resting(t *Table) *Table {
	if len(s.Rests) == 0 {
		return t
	}
	out := *t
	out.Columns = append(t.Columns[:len(t.Columns):len(t.Columns)], Column{Key: restsKey, On: InFile})
	out.Groups = make([]Group, len(t.Groups))
	for g := range t.Groups {
		out.Groups[g] = t.Groups[g]
		out.Groups[g].Rows = make([]Row, len(t.Groups[g].Rows))
		for i, r := range t.Groups[g].Rows {
			out.Groups[g].Rows[i] = append(r[:len(r):len(r)], Words(RestsWords(s.Rests)))
		}
	}
	return &out
}
