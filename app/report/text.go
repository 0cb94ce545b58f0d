package report

import (
	"strings"
	"unicode"

	"armscribe/app/units"
	"armscribe/kinematics"

	"golang.org/x/text/width"
)

// align is how a column of a table stands.
type align uint8

const (
	left  align = iota
	point       // numbers: decimal points under each other, words flush right
)

// grid is a table in the making: rows of cells, the columns padded to the
// same width when it is written. A row of one cell is a heading and runs over
// all columns. A row of spans holds titles that run over several columns.
type grid struct {
	columns []align
	rows    [][]string
	titles  []span // above the first row
}

// span is a title that begins at a column and runs to the next title's.
type span struct {
	from int
	text string
}

func (g *grid) row(cells ...string) { g.rows = append(g.rows, cells) }

// gap stands between two columns.
const gap = "  "

// extent is how wide a column is: the parts of its numbers, and all of it.
type extent struct{ whole, fraction, full int }

func (g *grid) extents() []extent {
	list := make([]extent, len(g.columns))
	for _, r := range g.rows {
		for i, c := range r {
			if len(r) == 1 {
				break
			}
			e := &list[i]
			if whole, fraction, ok := units.Parts(c); ok && g.columns[i] == point {
				e.whole, e.fraction = max(e.whole, cells(whole)), max(e.fraction, cells(fraction))
				e.full = max(e.full, e.whole+e.fraction)
			} else {
				e.full = max(e.full, cells(c))
			}
		}
	}
	for i, t := range g.titles { // the last column under a title makes room for it
		to := len(g.columns)
		if i+1 < len(g.titles) {
			to = g.titles[i+1].from
		}
		width := 0
		for _, e := range list[t.from:to] {
			width += e.full + len(gap)
		}
		list[to-1].full += max(0, cells(t.text)+len(gap)-width)
	}
	return list
}

// String returns the table, each line ended, without spaces at line ends.
func (g *grid) String() string {
	extents := g.extents()
	var b strings.Builder
	if len(g.titles) > 0 {
		line, start, next := "", 0, 0
		for i, e := range extents {
			if next < len(g.titles) && g.titles[next].from == i {
				line += spaces(start-cells(line)) + g.titles[next].text
				next++
			}
			start += e.full + len(gap)
		}
		b.WriteString(line + "\n")
	}
	for _, r := range g.rows {
		if len(r) == 1 {
			b.WriteString(r[0] + "\n")
			continue
		}
		line := make([]string, len(r))
		for i, c := range r {
			line[i] = g.columns[i].pad(c, extents[i])
		}
		b.WriteString(strings.TrimRight(strings.Join(line, gap), " ") + "\n")
	}
	return b.String()
}

// pad fills a cell up to its column.
func (a align) pad(c string, e extent) string {
	if a == left {
		return c + spaces(e.full-cells(c))
	}
	if whole, fraction, ok := units.Parts(c); ok {
		return spaces(e.full-e.fraction-cells(whole)) + c + spaces(e.fraction-cells(fraction))
	}
	return spaces(e.full-cells(c)) + c
}

// cells is the number of places that a text takes on a terminal: two for wide
// East Asian letters, none for marks that stand on another letter.
func cells(s string) int {
	n := 0
	for _, r := range s {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case isWide(r):
			n += 2
		default:
			n++
		}
	}
	return n
}

func isWide(r rune) bool {
	k := width.LookupRune(r).Kind()
	return k == width.EastAsianWide || k == width.EastAsianFullwidth
}

func spaces(n int) string { return strings.Repeat(" ", max(0, n)) }

// oneLine makes a name fit one line of a table: control characters, which
// could break it or the terminal, become spaces.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, s)
}

// lengthText prints a length that was chosen, as short as it is.
func lengthText(mm float64, unit units.Unit) string { return units.ShortLength(mm, unit) }

// signedLength is lengthText with its sign.
func signedLength(mm float64, unit units.Unit) string { return units.Signed(lengthText(mm, unit)) }

// splitBand prints a value and its band, from mm and radians, to the digits that the
// band leaves.
func splitBand(k kinematics.Kind, value, band float64, length units.Unit) (number, half string) {
	number, half, _ = strings.Cut(units.WithBand(k, value, band, length), " ± ")
	return number, "± " + half
}
