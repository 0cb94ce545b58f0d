package units

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParseReadsLengths(t *testing.T) {
	tests := []struct {
		text string
		bare Unit
		want float64 // mm, worked by hand: the nearest float64 to the exact value
	}{
		{"57", Millimetre, 57},
		{"57", Inch, 1447.8},
		{"  57 mm ", Inch, 57},
		{"57MM", Inch, 57},
		{"5.7cm", Inch, 57},
		{".0357 m", Inch, 35.7},
		{"35.", Millimetre, 35},
		{"2 1/4 in", Millimetre, 57.15},
		{`2-1/4"`, Millimetre, 57.15},
		{"10 1/2 in", Millimetre, 266.7},
		{"10 1/2", Inch, 266.7},
		{"1/8 inch", Millimetre, 3.175},
		{"1 / 8 in", Millimetre, 3.175},
		{"7/4 in", Millimetre, 44.45},
		{"57mm+1/8in", Inch, 60.175},
		{"57mm-1/8in", Inch, 53.825},
		{"57 mm \u2212 1/8 in", Inch, 53.825},
		{"-2 1/4 in", Millimetre, -57.15},
		{"\u22122 1/4 in", Millimetre, -57.15},
		{"-2-1/4 in", Millimetre, -57.15},
		{"+2 1/4 in", Millimetre, 57.15},
		{"2 - 1/4", Inch, 44.45},
		{"2 -1/4", Inch, 44.45},
		{"2- 1/4", Inch, 44.45},
		{"2-1 /4", Inch, 44.45},
		{"2-1/ 4", Inch, 44.45},
		{"2\u22121/4", Inch, 44.45},
		{`2 in-1/4 in`, Millimetre, 44.45},
		{`2-1/4"-1/8"`, Millimetre, 53.975},
		{"57mm+2-1/4in", Millimetre, 114.15},
		{"12ft", Inch, 3657.6},
		{"2' 3 1/2\"", Millimetre, 698.5},
		{"-2' 3\"", Millimetre, -685.8},
		{"2\u2032 3\u2033", Millimetre, 685.8},
		{"2' - 3\"", Millimetre, 533.4},
		{"5'-6-1/2'", Inch, -457.2},
		{"57 mm * 3", Inch, 171},
		{"3 * 57 mm", Inch, 171},
		{"57 mm / 4", Inch, 14.25},
		{"57 mm * (-3)", Inch, -171},
		{"3 * 2 1/4 in", Millimetre, 171.45},
		{"(2-1/4) * 3", Inch, 171.45},
		{"2*(57mm-7)/4", Millimetre, 25},
		{"(3+1/8) in", Millimetre, 79.375},
		{"7mm * (57mm / 19mm)", Inch, 21},
		{"7mm * (1 + 57mm / 19mm)", Inch, 28},
		{"2*3+4", Inch, 254},
		{"0.1+0.2", Millimetre, 0.3}, // computed exactly
		{"-0", Millimetre, 0},
		{"1\u2009234.5 mm", Inch, 1234.5},
		{"10 m", Inch, 10000},
	}
	for _, tt := range tests {
		got, err := Parse(tt.text, tt.bare)
		if err != nil || got != tt.want || math.Signbit(got) != math.Signbit(tt.want) {
			t.Errorf("Parse(%q, %v) = %v, %v; want %v", tt.text, tt.bare, got, err, tt.want)
		}
	}
}

func TestParseRefusesByName(t *testing.T) {
	tests := []struct {
		text string
		bare Unit
		at   int
		says string // part of the message
	}{
		{"", Inch, 0, "nothing is entered"},
		{" \t", Inch, 0, "nothing is entered"},
		{"5,2", Millimetre, 2, "use a point"},
		{"1,234.5 mm", Millimetre, 2, "use a point"},
		{"NaN", Millimetre, 1, `"nan" is not a number`},
		{"-inf", Millimetre, 2, `"inf" is not a number`},
		{"Infinity", Millimetre, 1, "is not a number"},
		{"0x1F", Millimetre, 2, "hexadecimal"},
		{"0xF", Millimetre, 2, "hexadecimal"},
		{"10x5", Millimetre, 3, "sign of multiplication"},
		{"5x3", Millimetre, 2, "sign of multiplication"},
		{"0 x 3", Millimetre, 3, "sign of multiplication"},
		{"xF", Millimetre, 1, "is not a number"},
		{"37x", Millimetre, 3, "multiply with *"},
		{"37 x 2", Millimetre, 4, "multiply with *"},
		{"abc", Millimetre, 1, `"abc" is not a number; type a number, such as 57`},
		{"3 + wide", Inch, 5, `"wide" is not a number`},
		{"1_000", Millimetre, 2, "underscore"},
		{"1e3", Millimetre, 2, "exponents"},
		{"1E-3 mm", Millimetre, 2, "exponents"},
		{"1.2.3", Millimetre, 4, "second decimal point"},
		{".", Millimetre, 1, "a point without a digit"},
		{"57 parsec", Millimetre, 4, `unknown unit "parsec"`},
		{"57 mm mm", Millimetre, 7, "second unit"},
		{"mm", Millimetre, 1, "no number before it"},
		{"57 mm 3 mm", Millimetre, 7, "two values side by side"},
		{"2 3", Inch, 3, "two values side by side"},
		{"2(3)", Inch, 2, "two values side by side"},
		{"57 mm /", Millimetre, 8, "ends where a number should follow"},
		{"57*-2", Millimetre, 4, "a second sign"},
		{"--57", Millimetre, 2, "a second sign"},
		{"57 mm / 0", Millimetre, 9, "division by zero"},
		{"57 mm / (3-3)", Millimetre, 9, "division by zero"},
		{"1/0 in", Millimetre, 3, "division by zero"},
		{"2 1/0 in", Millimetre, 5, "division by zero"},
		{"57 mm * 3 mm", Millimetre, 7, "a length times a length is not a length"},
		{"57 mm / 19 mm", Millimetre, 1, "a length over a length is a plain number"},
		{"1 + 57mm/19mm", Inch, 1, "a length over a length is a plain number"},
		{"57mm/19mm - 1", Inch, 1, "a length over a length is a plain number"},
		{"3.5 / 57 mm * 2", Millimetre, 5, "a plain number over a length"},
		{"1.5/2 in", Millimetre, 4, "a plain number over a length"},
		{"7 mm + 57mm/19mm", Millimetre, 6, "cannot be added"},
		{"2 5/4 in", Millimetre, 3, "not less than one"},
		{"2-5/4 in", Millimetre, 3, "not less than one"},
		{"3*2-1/4", Inch, 3, "joined by a hyphen"},
		{`2-1/4"*3`, Inch, 1, "joined by a hyphen"},
		{`5'-6"`, Millimetre, 3, "two readings"},
		{`5'-6 1/2`, Inch, 3, "two readings"},
		{`5'-6 1/2"`, Millimetre, 3, "two readings"},
		{`5'-6-1/2"`, Millimetre, 3, "two readings"},
		{`5'-6-1/2`, Inch, 3, "two readings"},
		{"5' 6", Inch, 4, "not marked as inches"},
		{"(57 mm", Millimetre, 1, "not closed"},
		{"1\u200923\u2009456", Millimetre, 5, "does not part thousands"},
		{"57 mm)", Millimetre, 6, "closing bracket"},
		{"(57 mm) in", Millimetre, 9, "has its own"},
		{"()", Millimetre, 2, "where a number should stand"},
		{"1.5 deg", Millimetre, 5, "unit of angle"},
		{"10.001 m", Millimetre, 0, "limit of 10 m"},
		{"-394", Inch, 0, "limit of 393.7 in"},
		{"1" + strings.Repeat("0", 300), Inch, 0, "limit of 393.7 in"},
		{strings.Repeat("7", MaxText+1), Inch, 0, "more than 400"},
		{"½ in", Millimetre, 1, "as in 1/8"},
		{"2×3", Millimetre, 2, "multiply with *"},
		{"57 – 3", Millimetre, 4, "dash"},
		{"57 mm;", Millimetre, 6, "not part of a value"},
		{"10\u20091/2 in", Millimetre, 3, "thin space"},
		{"1234\u2009567", Millimetre, 5, "thin space"},
		{"\xff57", Millimetre, 0, "damaged"},
	}
	for _, tt := range tests {
		mm, err := Parse(tt.text, tt.bare)
		var entry *EntryError
		if !errors.As(err, &entry) {
			t.Errorf("Parse(%q) = %v, %v; want an EntryError", tt.text, mm, err)
			continue
		}
		line := err.Error()
		if entry.At != tt.at || !strings.Contains(line, tt.says) || mm != 0 {
			t.Errorf("Parse(%q) = %v, at %d: %s; want character %d, %q", tt.text, mm, entry.At, line, tt.at, tt.says)
		}
		if entry.Problem == "" || entry.Cure == "" || strings.ContainsAny(line, "\n\r") {
			t.Errorf("Parse(%q): not one line with problem and cure: %q", tt.text, line)
		}
	}
}

func TestParseAngle(t *testing.T) {
	tests := []struct {
		text string
		deg  float64
	}{
		{"-1.5", -1.5}, {"1 3/4 deg", 1.75}, {"\u22120.35°", -0.35}, {"7 deg - 1/2", 6.5}, {"360", 360},
	}
	for _, tt := range tests {
		got, err := ParseAngle(tt.text)
		if want := tt.deg * math.Pi / 180; err != nil || math.Abs(got-want) > 1e-15 {
			t.Errorf("ParseAngle(%q) = %v, %v; want %v", tt.text, got, err, want)
		}
	}
	for text, says := range map[string]string{
		"3 mm":            "unit of length",
		"3'":              "this field takes an angle",
		"360.1":           "limit of 360 deg",
		"3 deg * 2 deg":   "an angle times an angle",
		"3 deg / 1.5 deg": "an angle over an angle",
	} {
		if rad, err := ParseAngle(text); err == nil || !strings.Contains(err.Error(), says) || rad != 0 {
			t.Errorf("ParseAngle(%q) = %v, %v; want %q", text, rad, err, says)
		}
	}
}

func TestErrorRepeatsLittleText(t *testing.T) {
	_, err := Parse(strings.Repeat("57+", 100), Millimetre)
	if err == nil || len([]rune(err.Error())) > 200 || !strings.Contains(err.Error(), "…") {
		t.Errorf("message too long or not clipped: %v", err)
	}
}

func TestParsePanicsOnAngleUnit(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("Parse with bare = Degree did not panic")
		}
	}()
	_, _ = Parse("57", Degree)
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"57mm+1/8in", "2-1/4\"", "-2 1/4 in", "5,2", "12ft-5", "12ft-5*2mm", "(2+3)*1in/4",
		"7mm*(1+57mm/19mm)", "1\u2009234.5", "2' 3 1/2\"", "3*2-1/4", "1/0", "-0", "1e9", "((((1", "5'-6", "12'-5/2.5"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, inches bool) {
		bare, other := Millimetre, Inch
		if inches {
			bare, other = other, bare
		}
		l, err := ParseLength(text, bare)
		mm, err2 := Parse(text, bare)
		if (err == nil) != (err2 == nil) || mm != l.MM {
			t.Fatalf("Parse and ParseLength differ on %q: %v %v, %v %v", text, mm, err2, l, err)
		}
		if rad, err := ParseAngle(text); !(math.Abs(rad) <= 2*math.Pi) || (err != nil && rad != 0) {
			t.Fatalf("ParseAngle(%q) = %v, %v", text, rad, err)
		}
		if !(math.Abs(mm) <= MaxLength) {
			t.Fatalf("Parse(%q) = %v", text, mm)
		}
		if err != nil {
			if l != (Length{}) || strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("Parse(%q) = %v, %q", text, l, err)
			}
			return
		}
		if back, err := Parse(l.Text(bare), bare); err != nil || back != mm {
			t.Fatalf("%q = %v is written %q and reads back as %v, %v", text, mm, l.Text(bare), back, err)
		}
		if back, err := Parse(l.Text(other), other); err != nil || back != mm {
			t.Fatalf("%q = %v is written %q in %v and reads back as %v, %v", text, mm, l.Text(other), other, back, err)
		}
	})
}

// An error repeats a text of the length that one line takes whole, and cuts a
// longer one.
func TestErrorsRepeatTheText(t *testing.T) {
	fits := strings.Repeat("9", shownText)
	for text, want := range map[string]string{fits: fits, fits + "8": fits + "…"} {
		e := &EntryError{Text: text, Problem: "is odd", Cure: "type another"}
		if got := e.Error(); got != `"`+want+`": is odd; type another` {
			t.Errorf("%d characters: %s", len(text), got)
		}
	}
}
