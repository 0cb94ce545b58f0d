package tune

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// Taken is one reading taken on the car, and where it was written down.
type Taken struct {
	bumpsteer.Reading
	Place string // "reading 3", "line 5"
}

// BumpsteerReadings returns the readings alone.
func BumpsteerReadings(list []Taken) []bumpsteer.Reading {
	out := make([]bumpsteer.Reading, len(list))
	for i := range list {
		out[i] = list[i].Reading
	}
	return out
}

var sideOf = map[job.Side]bumpsteer.Side{job.NoSide: bumpsteer.SideNotGiven, job.LeftSide: bumpsteer.LeftSide, job.RightSide: bumpsteer.RightSide}

// SideWord is the word for the side of a reading, empty where it does not say.
func SideWord(s bumpsteer.Side) string {
	for word, side := range sideOf {
		if side == s {
			return word.String()
		}
	}
	return ""
}

// taken turns a job's reading into an angle.
func (s *Setup) taken(t *job.ToeReading, place string) Taken {
	out := Taken{Place: place, Reading: bumpsteer.Reading{Travel: t.Travel.MM, Side: sideOf[t.Side]}}
	switch {
	case t.Toe.Given:
		out.Toe = t.Toe.Radians()
	case t.ToeLength.Given:
		out.Toe = s.Gauge.FromLength(t.ToeLength.MM)
	case t.FrontDial.Given:
		out.Toe = s.Gauge.FromDials(t.FrontDial.MM, t.RearDial.MM)
	}
	return out
}

// keptDecimals of a degree is more than any gauge reads.
const keptDecimals = 1e6

// Kept is the reading as a fitted variant keeps it.
func (t *Taken) Kept() job.ToeReading {
	toe := math.Round(float64(job.DegreesOf(t.Toe))*keptDecimals) / keptDecimals
	out := job.ToeReading{Travel: units.Length{MM: t.Travel}, Toe: job.OptionalDegrees{Degrees: job.Degrees(toe), Given: true}}
	for word, side := range sideOf {
		if side == t.Side {
			out.Side = word
		}
	}
	return out
}

// MaxReadingsFile is the longest text of readings that is read, in bytes.
const MaxReadingsFile = 1 << 20

// ErrReadings: a list of readings cannot be read as it is.
var ErrReadings = errors.New("the readings cannot be read")

// The columns of a list of readings.
type column uint8

const (
	travelColumn column = iota
	toeAngle
	toeLength
	frontDial
	rearDial
	sideColumn
	columnCount
)

// columnName is a name that a header may have, with its unit.
type columnName struct {
	name string
	is   column
	unit units.Unit
}

var columns = []columnName{
	{"travel_mm", travelColumn, units.Millimetre}, {"travel_in", travelColumn, units.Inch},
	{"toe_deg", toeAngle, units.Degree}, {"toe_mm", toeLength, units.Millimetre}, {"toe_in", toeLength, units.Inch},
	{"front_dial_mm", frontDial, units.Millimetre}, {"front_dial_in", frontDial, units.Inch},
	{"rear_dial_mm", rearDial, units.Millimetre}, {"rear_dial_in", rearDial, units.Inch},
	{"side", sideColumn, units.Millimetre},
}

// ColumnNames lists the names a header may have.
func ColumnNames() []string {
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.name
	}
	return names
}

// ParseReadings reads readings from CSV, or from cells as a spreadsheet copies
// them (tabs between). The first line names the columns; see ColumnNames. toe
// as a length takes the gauge's width, dials their spacing. Lines without any
// value are passed over. The error joins one line for every problem, each
// naming name and line, and matches ErrReadings; then nothing is returned.
func ParseReadings(name, text string, g bumpsteer.Gauge) ([]Taken, error) {
	return parseUnder(&parser{name: name, gauge: g}, text)
}

// parseUnder reads a text, below the parser's head if it has one.
func parseUnder(p *parser, text string) ([]Taken, error) {
	switch {
	case len(text) > MaxReadingsFile:
		p.wrong(0, "is larger than 1 MiB; no gauge sheet is so long")
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		p.wrong(0, "is not a text file; save it as CSV in UTF-8")
	case strings.TrimSpace(strings.TrimPrefix(text, byteOrderMark)) == "":
		p.wrong(0, "is empty; it begins with a line such as travel_mm,toe_deg")
	default:
		text = strings.TrimPrefix(text, byteOrderMark)
		if p.head != "" {
			text = p.head + "\n" + text
		}
		p.read(text)
		p.wholePage()
	}
	if len(p.errs) > 0 {
		return nil, errors.Join(p.errs...)
	}
	return p.list, nil
}

const byteOrderMark = "\ufeff"

// parser carries one list of readings.
type parser struct {
	name  string
	gauge bumpsteer.Gauge
	at    [columnCount]int // index of the column, -1 for none
	unit  [columnCount]units.Unit
	width int
	list  []Taken
	errs  []error
	head  string // a line of names above a text that has none
	// Lines with decimal commas, and with more or fewer cells than columns: one
	// answer for the whole page, not one for every line.
	commas, odd []oddLine
}

// oddLine is a line of the text and what stands there.
type oddLine struct {
	line int
	what string
}

// wholePage says once what is wrong all over the page.
func (p *parser) wholePage() {
	more := func(list []oddLine) string {
		if len(list) == 1 {
			return ""
		}
		return fmt.Sprintf(", and so on %d more lines", len(list)-1)
	}
	if n := len(p.odd); n > 0 {
		p.wrong(p.odd[0].line, "%s under %d columns%s; decimals take a point, not a comma", p.odd[0].what, p.width, more(p.odd))
	}
	if n := len(p.commas); n > 0 {
		p.wrong(p.commas[0].line, "%q has a decimal comma%s; decimals take a point", p.commas[0].what, more(p.commas))
	}
}

// mostProblems bounds what is reported of one list.
const mostProblems = 50

func (p *parser) wrong(line int, format string, args ...any) {
	if len(p.errs) == mostProblems {
		return
	}
	place := p.name
	if line > 0 {
		place = fmt.Sprintf("%s:%d", p.name, line)
	}
	p.errs = append(p.errs, &readError{fmt.Sprintf("%s: %s", place, fmt.Sprintf(format, args...))})
}

type readError struct{ text string }

func (e *readError) Error() string        { return e.text }
func (e *readError) Is(target error) bool { return target == ErrReadings }

func (p *parser) read(text string) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	head, _, _ := strings.Cut(text, "\n")
	for _, mark := range "\t;" {
		if strings.ContainsRune(head, mark) {
			r.Comma = mark
		}
	}
	first := true
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			var bad *csv.ParseError
			if errors.As(err, &bad) {
				p.wrong(bad.Line, "%v; write one reading on each line, without quotes", bad.Err)
			} else {
				p.wrong(0, "%v", err)
			}
			return
		}
		line, _ := r.FieldPos(0)
		if p.head != "" {
			line--
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if first {
			first = false
			if !p.header(line, cells) {
				return
			}
			continue
		}
		p.row(line, cells)
	}
	if len(p.list) == 0 && len(p.errs)+len(p.odd)+len(p.commas) == 0 {
		p.wrong(0, "holds no reading below its header")
	}
}

// header finds the columns; false when the rows cannot be read by it.
func (p *parser) header(line int, cells []string) bool {
	for i := range p.at {
		p.at[i] = -1
	}
	p.width = len(cells)
	before := len(p.errs)
	for i, cell := range cells {
		k := slices.IndexFunc(columns, func(c columnName) bool { return strings.EqualFold(c.name, cell) })
		switch {
		case k < 0:
			p.wrong(line, "%q is no column; the first line names the columns, from %s", shown(cell), strings.Join(ColumnNames(), ", "))
		case p.at[columns[k].is] >= 0:
			p.wrong(line, "%s stands beside %s; keep one of the two", cell, cells[p.at[columns[k].is]])
		default:
			p.at[columns[k].is], p.unit[columns[k].is] = i, columns[k].unit
		}
	}
	if len(p.errs) > before {
		return false
	}
	if p.at[travelColumn] < 0 {
		p.wrong(line, "no column for the travel; name it travel_mm or travel_in")
	}
	ways := 0
	for _, has := range []bool{p.at[toeAngle] >= 0, p.at[toeLength] >= 0, p.at[frontDial] >= 0 || p.at[rearDial] >= 0} {
		if has {
			ways++
		}
	}
	switch {
	case ways == 0:
		p.wrong(line, "no column for the toe; name it toe_deg, toe_mm or toe_in, or both dials")
	case ways > 1:
		p.wrong(line, "toe stands there in more than one way; keep one of toe_deg, toe as a length, both dials")
	case (p.at[frontDial] >= 0) != (p.at[rearDial] >= 0):
		p.wrong(line, "one dial of two; name columns for the front and the rear dial")
	case p.at[toeLength] >= 0 && !(p.gauge.Width > 0):
		p.wrong(line, "toe as a length says nothing without the gauge's width; add 'toe_gauge: {width: ...}' to the job")
	case p.at[frontDial] >= 0 && !(p.gauge.Spacing > 0):
		p.wrong(line, "dials say nothing without the distance between them; add 'toe_gauge: {dial_spacing: ...}' to the job")
	}
	return len(p.errs) == before
}

func (p *parser) row(line int, cells []string) {
	if !slices.ContainsFunc(cells, func(c string) bool { return c != "" }) {
		return
	}
	if len(cells) != p.width {
		p.odd = append(p.odd, oddLine{line, fmt.Sprintf("%d cells", len(cells))})
		return
	}
	if k := slices.IndexFunc(cells, decimalComma.MatchString); k >= 0 {
		p.commas = append(p.commas, oddLine{line, shown(cells[k])})
		return
	}
	before := len(p.errs)
	t := Taken{Place: fmt.Sprintf("line %d", line)}
	t.Travel = p.value(line, cells, travelColumn)
	switch {
	case p.at[toeAngle] >= 0:
		t.Toe = p.value(line, cells, toeAngle)
	case p.at[toeLength] >= 0:
		t.Toe = p.gauge.FromLength(p.value(line, cells, toeLength))
	default:
		t.Toe = p.gauge.FromDials(p.value(line, cells, frontDial), p.value(line, cells, rearDial))
	}
	if !(math.Abs(t.Toe) <= maxToe) && len(p.errs) == before {
		p.wrong(line, "a toe of %.4g degrees is not within ±45 degrees; check the number and its unit", t.Toe*degreesPerRad)
	}
	if k := p.at[sideColumn]; k >= 0 && cells[k] != "" {
		side, ok := job.SideOf(strings.ToLower(cells[k]))
		if !ok {
			p.wrong(line, "side %q is neither left nor right", shown(cells[k]))
		}
		t.Side = sideOf[side]
	}
	if len(p.errs) == before {
		p.list = append(p.list, t)
	}
}

const (
	degreesPerRad = 180 / math.Pi
	maxToe        = math.Pi / 4
)

// value reads one cell, in mm or rad.
func (p *parser) value(line int, cells []string, c column) float64 {
	k := p.at[c]
	name := columns[slices.IndexFunc(columns, func(n columnName) bool { return n.is == c && n.unit == p.unit[c] })].name
	if cells[k] == "" {
		p.wrong(line, "%s is blank; fill it in, or take the line out", name)
		return 0
	}
	var v float64
	var err error
	if c == toeAngle {
		v, err = units.ParseAngle(cells[k])
	} else {
		v, err = units.Parse(cells[k], p.unit[c])
	}
	if err != nil {
		p.wrong(line, "%s: %v", name, err)
	}
	return v
}

// shown keeps a cell readable in a message.
func shown(cell string) string {
	const longest = 40
	if r := []rune(cell); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return cell
}
