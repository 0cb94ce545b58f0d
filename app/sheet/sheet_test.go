package sheet_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/app/sheet"
	"armscribe/app/units"
)

const degree = math.Pi / 180

// sample is an answer with every part that a sheet can have.
func sample() *sheet.Sheet {
	forces := &sheet.Table{Title: "Forces", Key: "values", GroupKey: "cases", Columns: []sheet.Column{
		{Role: sheet.Name, Key: "name"},
		{Title: "value", Band: "95 % band", UnitTitle: "unit", Key: "value", UnitKey: "unit", BandKey: "band_95", MissingKey: "why"},
		{Title: "travel", UnitIn: true, Key: "at.travel_mm"},
		{Title: "rack", UnitIn: true, Key: "at.rack_mm"},
		{Role: sheet.Text, On: sheet.OnScreens},
	}, Groups: []sheet.Group{
		{Key: "parking", Name: "Parking", Rows: []sheet.Row{
			{sheet.Words("rod"), sheet.Banded(sheet.Force, -1732.326, 36.04).Signed(), sheet.Number(sheet.Travel, 12.7), sheet.Number(sheet.Travel, -63.5), sheet.Words("kept").Marked(sheet.Good)},
			{sheet.Words("toe\nchange"), sheet.Banded(sheet.Toe, 0.565*degree, 0.0213*degree), sheet.Cell{}, sheet.Cell{}, sheet.Cell{}},
			{sheet.Words("axis"), sheet.Missing(sheet.Length, "does not meet the ground"), sheet.Cell{}, sheet.Cell{}, sheet.Cell{}},
		}},
		{Key: "bump", Name: "Bump", Missing: "out of reach"},
	}}
	return &sheet.Sheet{Job: "An estate", Variant: "as measured", Title: "forces", Unit: units.Inch, Items: []sheet.Item{
		sheet.Field{Key: "within_mm", Cell: sheet.Number(sheet.Chosen, 0.79375)},
		sheet.Prose{Key: "words", Lines: []sheet.Line{{Mark: sheet.Good, Text: "All is kept."}}},
		forces,
	}, Notes: func(u units.Unit) []sheet.Note {
		return append(sheet.Notes("Lengths in "+u.String()+"."), sheet.Note{On: sheet.OnWindow, Text: "Click."})
	}, Caution: "Mind it."}
}

func TestText(t *testing.T) {
	const want = `An estate: as measured, forces

All is kept.

Forces                           value  95 % band  unit  travel, in  rack, in
Parking
  rod                         −389      ± 8        lbf         +1/2    −2 1/2  kept
  toe change                      0.565 ± 0.021    deg
  axis        does not meet the ground
Bump
  no answer: out of reach

Lengths in in.
Mind it.
`
	got := sample().String()
	if strings.Join(strings.Fields(got), " ") != strings.Join(strings.Fields(want), " ") {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if strings.Contains(got, " \n") {
		t.Error("a line ends in a space")
	}
}

// The file holds the whole numbers in mm and degrees whatever the unit of the
// screens, in the order of the parts, and null for what is missing.
func TestJSON(t *testing.T) {
	text := sample().JSON()
	var read struct {
		Within float64  `json:"within_mm"`
		Words  []string `json:"words"`
		Cases  []struct {
			Key, Name, Missing string
			Values             []struct {
				Name  string
				Value *float64
				Unit  string
				Band  *float64 `json:"band_95"`
				Why   string
				At    struct {
					Travel *float64 `json:"travel_mm"`
					Rack   *float64 `json:"rack_mm"`
				}
			}
		}
		Notes []string
	}
	if err := json.Unmarshal([]byte(text), &read); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	rod, toe, axis := read.Cases[0].Values[0], read.Cases[0].Values[1], read.Cases[0].Values[2]
	if read.Within != 0.79375 || *rod.Value != -1732.326 || *rod.Band != 36.04 || *rod.At.Travel != 12.7 || *rod.At.Rack != -63.5 {
		t.Errorf("numbers: %s", text)
	}
	if *toe.Value != 0.565 || toe.Unit != "deg" || toe.At.Travel != nil {
		t.Errorf("an angle: %+v", toe)
	}
	if axis.Value != nil || axis.Band != nil || axis.Why != "does not meet the ground" || rod.Why != "" {
		t.Errorf("what is missing: %+v", axis)
	}
	if read.Cases[1].Missing != "out of reach" || read.Cases[1].Values == nil || read.Notes[0] != "Lengths in mm." {
		t.Errorf("the rest: %s", text)
	}
	last := -1
	for _, key := range []string{`"job"`, `"variant"`, `"within_mm"`, `"words"`, `"cases"`, `"notes"`, `"caution"`} {
		at := strings.Index(text, key)
		if at <= last {
			t.Errorf("%s stands at %d, after what should follow it, in\n%s", key, at, text)
		}
		last = at
	}
}

// Whole numbers between dots make arrays.
func TestArrays(t *testing.T) {
	table := &sheet.Table{Key: "rows", Columns: []sheet.Column{{Key: "of.0.a"}, {Key: "of.0.b"}, {Key: "of.1.a"}},
		Groups: sheet.Rows(sheet.Row{sheet.Words("x"), sheet.Flag(true), sheet.Numbers(sheet.Angle, []float64{degree, 2 * degree})})}
	s := &sheet.Sheet{Items: []sheet.Item{table}}
	got := strings.Join(strings.Fields(s.JSON()), "")
	if want := `{"rows":[{"of":[{"a":"x","b":true},{"a":[1,2]}]}],"caution":""}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Groups may have members of their own, a title over columns may be missing on a
// face, and a column of nothing keeps its unit.
func TestGroupsOfTheirOwn(t *testing.T) {
	table := &sheet.Table{Key: "ends", GroupKey: "ways", Bare: true, Columns: []sheet.Column{{Title: "hidden", On: sheet.InFile}, {Title: "rack", UnitIn: true, Key: "rack_mm"}},
		Over:   []sheet.Over{{Column: 0}, {Column: 1}},
		Groups: []sheet.Group{{Name: "Left", Fields: []sheet.Field{{Key: "way", Cell: sheet.Words("l")}}, Rows: []sheet.Row{{{}, sheet.Missing(sheet.Taped, "")}}}}}
	s := &sheet.Sheet{Title: "t", Items: []sheet.Item{table}}
	if got, want := strings.Join(strings.Fields(s.JSON()), ""), `{"ways":[{"way":"l","ends":[{"rack_mm":null}]}],"caution":""}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if l := table.Lay(sheet.OnText, units.Inch); len(l.Over) != 1 || l.Over[0] != (sheet.Over{Column: 0, Title: "rack, in"}) {
		t.Errorf("titles %v", l.Over)
	}
}

// Units and bands of their own members, and notes that a window words otherwise.
func TestUnitsBandsAndNotes(t *testing.T) {
	s := &sheet.Sheet{Unit: units.Inch, Items: []sheet.Item{
		sheet.Object{Key: "limit", Fields: []sheet.Field{{Key: "arms.mm", BandKey: "arms.band", Cell: sheet.Banded(sheet.Length, 25.4, 0.5)}}},
		&sheet.Table{Key: "rows", Columns: []sheet.Column{{Title: "unit", Role: sheet.Text, Key: "unit"}, {Title: "v", Band: " "}}, Groups: sheet.Rows(sheet.Row{sheet.UnitOf(sheet.Slope), sheet.Banded(sheet.Taped, 50.8, 1e-9)})}},
		Notes: func(units.Unit) []sheet.Note {
			return sheet.Either([]string{"same", "a flag"}, []string{"same", "a field"})
		}}
	if got, want := strings.Join(strings.Fields(s.JSON()), ""), `{"limit":{"arms":{"mm":25.4,"band":0.5}},"rows":[{"unit":"deg/mm"}],"notes":["same","aflag"],"caution":""}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got := strings.Join(strings.Fields(s.String()), " "); got != "unit v deg/in 2 ± 0 same a flag" {
		t.Errorf("got %q", got)
	}
	if got := s.NotesOn(sheet.OnWindow, units.Inch); len(got) != 2 || got[1] != "a field" {
		t.Errorf("notes %q", got)
	}
}

// Long texts stand under their rows in a window, where a row may be chosen.
func TestUnderTheRow(t *testing.T) {
	table := &sheet.Table{Columns: []sheet.Column{{Role: sheet.Text}, {Title: "note", Role: sheet.Text, Under: true}, {Title: "v"}}, Groups: sheet.Rows(
		sheet.Row{sheet.Words("1").Offers("draw").Chosen(true), sheet.Words("too near"), sheet.Number(sheet.LaidOut, 1.23456)}, sheet.Row{sheet.Words("2").Offers("draw"), {}, {}})}
	if l := table.Lay(sheet.OnText, units.Inch); len(l.Columns) != 3 || l.Rows[0].Texts[1].Text != "too near" || l.Rows[0].Texts[2].Text != "0.049" {
		t.Errorf("text: %+v", l.Rows)
	}
	l := table.Lay(sheet.OnWindow, units.Millimetre)
	first, second := l.Rows[0], l.Rows[1]
	if len(l.Columns) != 2 || len(l.Heads[0]) != 2 || first.Texts[1].Text != "1.23" || len(first.Under) != 1 || first.Under[0].Text != "too near" || len(second.Under) != 0 {
		t.Errorf("window: %+v", l.Rows)
	}
	if !first.Texts[0].Chosen || second.Texts[0].Chosen || second.Texts[0].Act != "draw" {
		t.Errorf("chosen: %+v", l.Rows)
	}
}

// A column may be as wide as the headings over its rows.
func TestWideHeadings(t *testing.T) {
	table := &sheet.Table{WideHeadings: true, Columns: []sheet.Column{{Role: sheet.Name}, {Title: "v"}}, Groups: []sheet.Group{{Name: "A long heading", Rows: []sheet.Row{{sheet.Words("a"), sheet.Number(sheet.Plain, 7)}}}}}
	const want = "t\n\n                v\nA long heading\n  a             7\n\n\n"
	if got := (&sheet.Sheet{Title: "t", Items: []sheet.Item{table}}).String(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestCSV(t *testing.T) {
	table := &sheet.Table{Key: "rows", Columns: []sheet.Column{{Key: "name"}, {Key: "travel_mm"}, {Title: "aside", On: sheet.OnScreens}, {Key: "toe_deg"}}, Groups: sheet.Rows(
		sheet.Row{sheet.Words("=2+3"), sheet.Number(sheet.Travel, math.Copysign(0, -1)), sheet.Words("no"), sheet.Banded(sheet.Toe, -0.25*degree, 0.1)},
		sheet.Row{sheet.Words("a, \"b\""), sheet.Number(sheet.Travel, 12.7), sheet.Cell{}, sheet.Missing(sheet.Length, "at infinity")})}
	const want = "name,travel_mm,toe_deg\r\n'=2+3,0.000000000,-0.250000000\r\n\"a, \"\"b\"\"\",12.700000000,\r\n"
	if got := (&sheet.Sheet{Items: []sheet.Item{table}}).Face(sheet.AsCSV); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// Every kind prints every finite number, and reads back as itself within the
// digits that its file has.
func TestKinds(t *testing.T) {
	for k := sheet.Plain; k <= sheet.Turns; k++ {
		for _, v := range []float64{0, 1e-13, -3.7e-7, 0.0123, -12.34567, 8765.4321, -1.9e9} {
			for _, half := range []float64{0, 1e-12, 0.0004, 3.21, 4e6} {
				for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
					for _, c := range []sheet.Cell{sheet.Number(k, v), sheet.Banded(k, v, half), sheet.BandedIf(k, v, half, false)} {
						if text := c.Phrase(unit); text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
							t.Errorf("kind %d, %g ± %g: %q", k, v, half, text)
						}
					}
				}
			}
		}
	}
}

func TestFilesHaveNoNegativeNought(t *testing.T) {
	for v, want := range map[float64]string{
		-1e-12: "0.000000000", math.Copysign(0, -1): "0.000000000", -2.5e-9: "-0.000000003", 17.25: "17.250000000",
	} {
		table := &sheet.Table{Columns: []sheet.Column{{Key: "v"}}, Groups: sheet.Rows(sheet.Row{sheet.Number(sheet.Plain, v)})}
		if got := table.CSV(); got != "v\r\n"+want+"\r\n" {
			t.Errorf("%g: %q, want %s", v, got, want)
		}
	}
}

// What is said of a band stands behind the unit.
func TestPhrases(t *testing.T) {
	for want, c := range map[string]sheet.Cell{
		"12.35 mm, band not known": sheet.BandedIf(sheet.Length, 12.345, 0, false),
		"12.3 ± 0.4 mm":            sheet.Banded(sheet.Length, 12.345, 0.42),
		"at infinity":              sheet.Banded(sheet.Length, 12.345, 0.42).Said("at infinity"),
		"12.3 needs scrub mm":      sheet.Banded(sheet.Length, 12.345, 0.42).Needs("needs scrub"),
	} {
		if got := c.Phrase(units.Millimetre); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A length has at most three decimals in either unit, with a band or without.
func TestLengthsHaveAsManyDigitsAsCanBeFound(t *testing.T) {
	const seed = 6021
	r := rand.New(rand.NewPCG(seed, 0))
	for range 2000 {
		v := (r.Float64() - 0.5) * math.Pow(10, 4*r.Float64())
		for _, k := range []sheet.Kind{sheet.Length, sheet.Taped, sheet.Chosen, sheet.LaidOut, sheet.Travel} {
			for _, c := range []sheet.Cell{sheet.Number(k, v), sheet.Banded(k, v, 0), sheet.Banded(k, v, v*v*1e-5), sheet.AtMost(k, math.Abs(v)), sheet.Half(k, math.Abs(v)*1e-3)} {
				for _, unit := range []units.Unit{units.Inch, units.Millimetre} {
					for _, word := range strings.Fields(c.Text(unit)) {
						if _, digits, _ := strings.Cut(word, "."); len(digits) > 3 {
							t.Errorf("seed %d: %g of kind %d is %q in %s", seed, v, k, c.Text(unit), unit)
						}
					}
				}
			}
		}
	}
}

// What an answer rests on stands at the top of a text, under its key in JSON, in a column of
// CSV and first among the window's notes: once in each, and nowhere where nothing is assumed.
func TestEveryFaceSaysWhatItRestsOn(t *testing.T) {
	row := sheet.Row{sheet.Number(sheet.Length, 12.5), sheet.Number(sheet.Length, 7)}
	s := &sheet.Sheet{Unit: units.Millimetre, Job: "car", Variant: "as is", Title: "gaps", Head: []string{"by tape"}, Rests: []string{"hub.z", "camber", "toe", "rack.left"}, Caution: "Mind.",
		Notes: func(units.Unit) []sheet.Note { return sheet.Notes("Note.") },
		Items: []sheet.Item{&sheet.Table{Key: "gaps", Columns: []sheet.Column{{Title: "gap", Key: "gap_mm"}, {Title: "wish", On: sheet.OnScreens}}, Groups: sheet.Rows(row, row)}}}
	const words = "Rests on assumed values: hub.z, camber, toe and 1 more."
	if text := s.String(); !strings.HasPrefix(text, "car: as is, gaps\n"+words+"\nby tape\n") || strings.Count(text, words) != 1 {
		t.Errorf("text:\n%s", text)
	}
	if text := s.JSON(); !strings.Contains(text, `"assumed": [
    "hub.z",
    "camber",
    "toe",
    "rack.left"
  ],`) || strings.Contains(text, words) {
		t.Errorf("JSON:\n%s", text)
	}
	line := "12.500000000,\"" + words + "\"\r\n"
	if text := s.CSV(); text != "gap_mm,assumed\r\n"+line+line {
		t.Errorf("CSV:\n%s", text)
	}
	if notes := s.NotesOn(sheet.OnWindow, units.Millimetre); len(notes) != 2 || notes[0] != words {
		t.Errorf("window: %q", notes)
	}
	if s.Rests = nil; strings.Contains(s.String()+s.JSON()+s.CSV(), "ssumed") || len(s.NotesOn(sheet.OnWindow, units.Millimetre)) != 1 {
		t.Error("it says so of what is measured")
	}
}
