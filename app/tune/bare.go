package tune

import (
	"fmt"
	"regexp"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

var (
	decimalComma = regexp.MustCompile(`\d,\d`)
	bareNumber   = regexp.MustCompile(`^[-+\x{2212}]?[\d.,/ ]*\d\s*[a-z"]*$`)
)

// Meant is how readings without names or with decimal commas may be meant, to be
// asked before they are read so.
type Meant struct {
	Question string
	text     string
	head     string
}

// MeantBy looks whether a text of readings leaves something to ask: columns
// without names, which then are travel and toe in the given unit, as degrees or
// as a length, or both dials; and decimal commas. One answer serves the whole
// page. False where there is nothing to ask.
func MeantBy(text string, unit units.Unit, toe string) (Meant, bool) {
	m := Meant{text: strings.TrimPrefix(text, byteOrderMark)}
	first, _, _ := strings.Cut(strings.TrimLeft(m.text, "\r\n"), "\n")
	mark := separatorOf(first)
	var asks []string
	if mark != ',' && decimalComma.MatchString(m.text) {
		sample := decimalComma.FindString(m.text)
		m.text = decimalComma.ReplaceAllStringFunc(m.text, func(s string) string { return strings.Replace(s, ",", ".", 1) })
		asks = append(asks, fmt.Sprintf("Decimals stand with a comma, as in %s: they are read as decimals on the whole page.", sample))
	}
	if cells := cellsOf(first, mark); bareCells(cells) {
		names := []string{"travel_" + unit.String(), toe}
		if len(cells) == 3 && toe == "" {
			names = []string{"travel_" + unit.String(), "front_dial_" + unit.String(), "rear_dial_" + unit.String()}
		}
		if len(names) == len(cells) && names[1] != "" {
			if mark == ' ' {
				m.text = spaced(m.text)
				mark = '\t'
			}
			m.head = strings.Join(names, string(mark))
			asks = append(asks, fmt.Sprintf("No names stand over the columns: they are read as %s.", strings.Join(names, " and ")))
		}
	}
	m.Question = strings.Join(asks, "\n")
	return m, len(asks) > 0
}

// Parse reads the text as it is meant; as of ParseReadings.
func (m *Meant) Parse(name string, g bumpsteer.Gauge) ([]Taken, error) {
	return parseUnder(&parser{name: name, gauge: g, head: m.head}, m.text)
}

// separatorOf is what stands between the cells of a line.
func separatorOf(line string) rune {
	for _, mark := range "\t;" {
		if strings.ContainsRune(line, mark) {
			return mark
		}
	}
	if strings.ContainsRune(line, ',') && !spacedPair(line) {
		return ','
	}
	return ' '
}

// spacedPair tells of a line that is two or three numbers with spaces between,
// each perhaps with a decimal comma.
func spacedPair(line string) bool {
	n := len(strings.Fields(line))
	return (n == 2 || n == 3) && !strings.Contains(line, ", ") && bareCells(strings.Fields(line))
}

func cellsOf(line string, mark rune) []string {
	if mark == ' ' {
		return strings.Fields(line)
	}
	cells := strings.Split(strings.TrimSpace(line), string(mark))
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	return cells
}

// bareCells tells of numbers in all of two or three cells.
func bareCells(cells []string) bool {
	for _, c := range cells {
		if !bareNumber.MatchString(c) {
			return false
		}
	}
	return len(cells) == 2 || len(cells) == 3
}

// spaced puts tabs between what spaces part.
func spaced(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = strings.Join(strings.Fields(lines[i]), "\t")
	}
	return strings.Join(lines, "\n")
}
