package sheet

import (
	"strings"
	"unicode"

	"armscribe/app/units"
)

// Faces are where a part of an answer is shown; the zero value is everywhere.
type Faces uint8

// The faces.
const (
	OnText Faces = 1 << iota
	OnWindow
	InFile
	OnScreens = OnText | OnWindow
)

// Sheet is the answer to one question.
type Sheet struct {
	// Job and Variant are what was asked about; Job is empty where a question has
	// none. Title says what the answer is, after them.
	Job, Variant, Title string
	Head                []string   // further lines of the heading
	Says                string     // the sentence that screens begin with: what to do, or what is so; may be empty
	Rests               []string   // keys of the assumed values that it rests on
	Unit                units.Unit // of lengths, on screens
	Items               []Item     // in the order of all faces
	Notes               func(units.Unit) []Note
	Caution             string
	// Bare tells that a file in JSON is the rows of the only table, with the numbers
	// of CSV.
	Bare bool
}

// Note is a sentence under an answer.
type Note struct {
	On   Faces
	Text string
}

// Notes are sentences that every face shows.
func Notes(texts ...string) []Note {
	list := make([]Note, len(texts))
	for i, t := range texts {
		list[i].Text = t
	}
	return list
}

// Either are notes of which the window has its own version, one for one.
func Either(elsewhere, window []string) []Note {
	var list []Note
	for i, text := range elsewhere {
		if window[i] == text {
			list = append(list, Note{Text: text})
			continue
		}
		list = append(list, Note{On: OnText | InFile, Text: text}, Note{On: OnWindow, Text: window[i]})
	}
	return list
}

// Item is one part of an answer: a [Field], [Object], [Table] or [Prose].
type Item interface{ item() }

func (Field) item()  {}
func (Object) item() {}
func (*Table) item() {}
func (Prose) item()  {}

// Field is one value under its key, and its band under another if that is not
// empty. Only files show it.
type Field struct {
	Key, BandKey string
	Pair         string // see Column
	Cell         Cell
}

// PairOf is a field whose value and band are one object, null where there is none.
func PairOf(key string, c Cell) Field {
	return Field{Key: key + ".value", BandKey: key + ".band_95", Pair: key, Cell: c}
}

// Object are fields under one key. Only files show it.
type Object struct {
	Key    string
	Fields []Field
}

// Prose are sentences, one a line. In a file they stand under the key, if there
// is one.
type Prose struct {
	Key   string
	Title string
	On    Faces
	Lines []Line
}

// Line is a sentence with its mark.
type Line struct {
	Mark Mark
	Text string
	At   *Place
}

// Role is what a column holds.
type Role uint8

// The roles.
const (
	Figures Role = iota // numbers, points under each other
	Name                // what a row is about, indented under headings
	Text                // words
)

// Column is one column of a table, and its members of a row's object in files.
type Column struct {
	Title string
	Role  Role
	On    Faces
	// Under tells that a window shows the texts under their rows, for they are long.
	Under bool
	// UnitIn puts the unit behind the title; its number is any cell's.
	UnitIn bool
	// Band, if not empty, is the title of a column for the bands of this one; with
	// a single space the column has no title. UnitTitle likewise for the unit.
	Band, UnitTitle string
	// Key is the member in files; dots make objects in objects. BandKey and UnitKey
	// name the members for the band and the unit, MissingKey that for why there is
	// no value.
	Key, BandKey, UnitKey, MissingKey string
	// Pair is the key of the object that Key and BandKey are the only members of: it is
	// null where there is no value.
	Pair string
	// Whole tells that files show no null for what is missing: its members are left out.
	Whole bool
}

// Table is rows of cells.
type Table struct {
	// Title stands over the first column, or above the table where Above is set.
	Title  string
	Above  bool
	On     Faces
	Key    string // of the rows, in files
	Groups []Group
	// GroupKey, if not empty, is the key of the groups in files: each an object of
	// its key and name, with the rows under Key.
	GroupKey string
	Columns  []Column
	// Over are titles that run over several columns, above the columns' own.
	Over []Over
	// UnitRow puts units in a row under the titles.
	UnitRow bool
	// WideHeadings tells that the first column of a text is as wide as the headings.
	WideHeadings bool
	// Bare leaves titles out that stand under Over.
	Bare bool
}

// Over is a title from a column on to the next one's.
type Over struct {
	Column int
	Title  string
}

// Group is rows under a heading.
type Group struct {
	Key, Name string
	Missing   string // why there are no rows
	// Fields, if any, stand in files in the stead of key and name.
	Fields []Field
	Rows   []Row
	On     Faces
}

// Row is the cells of one row, one a column.
type Row []Cell

// Rows is a table's only group, without a heading.
func Rows(rows ...Row) []Group { return []Group{{Rows: rows}} }

// OneLine makes a name fit one line of a table: control characters, which
// could break it or the terminal, become spaces.
func OneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, s)
}

// NotesOn are the notes that a face shows, in a unit.
func (s *Sheet) NotesOn(face Faces, unit units.Unit) []string {
	list := []string{}
	if text := RestsWords(s.Rests); text != "" && face == OnWindow { // a text has it at its top, a file under its own key
		list = append(list, text)
	}
	if s.Notes == nil {
		return list
	}
	for _, n := range s.Notes(unit) {
		if n.On.Shows(face) {
			list = append(list, n.Text)
		}
	}
	return list
}

// unitOf is the unit that a column's cells are printed in; that of what is
// missing where nothing is there.
func (t *Table) unitOf(column int, length units.Unit) (unit string) {
	for g := range t.Groups {
		for _, r := range t.Groups[g].Rows {
			if column >= len(r) {
				continue
			}
			if u := r[column].Unit(length); u != "" {
				return u
			}
			if r[column].state == isMissing || r[column].said != "" {
				_, unit = r[column].kind.In(0, length)
			}
		}
	}
	return unit
}
