package units

import (
	"math"
	"math/rand"
	"testing"
)

func TestFormat(t *testing.T) {
	tests := []struct{ got, want string }{
		{FormatNumber(57.349, 1), "57.3"},
		{FormatNumber(-57.349, 2), "\u221257.35"},
		{FormatNumber(-0.04, 1), "0.0"},
		{FormatNumber(999.6, 0), "1\u2009000"},
		{FormatNumber(-1234567.25, 2), "\u22121\u2009234\u2009567.25"},
		{Taped.Length(1234.56, Millimetre), "1\u2009234.6 mm"},
		{Built.Length(57.15, Inch), "2.250 in"},
		{FormatBoth(57.15), "57.15 mm = 2 1/4 in"},
		{FormatBoth(57), "57.00 mm = 2.244 in"},
		{FormatDegrees(-1.5*math.Pi/180, 2), "\u22121.50°"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}

func TestFormatFraction(t *testing.T) {
	tests := []struct {
		mm    float64
		denom int
		want  string
		off   float64 // mm
	}{
		{266.7, 32, "10 1/2 in", 0},
		{-57.15, 64, "\u22122 1/4 in", 0},
		{3.175, 32, "1/8 in", 0},
		{57, 32, "2 1/4 in", 0.15},
		{57, 64, "2 1/4 in", 0.15},
		{58, 32, "2 9/32 in", -0.05625},
		{58.5, 64, "2 19/64 in", -0.159375},
		{-0.2, 64, "\u22121/64 in", -0.196875},
		{0.1, 64, "0 in", -0.1},
		{50.7, 32, "2 in", 0.1},
		{25431.75, 4, "1\u2009001 1/4 in", 0},
	}
	for _, tt := range tests {
		got, off := FormatFraction(tt.mm, tt.denom)
		// 1e-11 mm: a few roundings at 25 m.
		if got != tt.want || math.Abs(off-tt.off) > 1e-11 {
			t.Errorf("FormatFraction(%v, %d) = %q, %v; want %q, %v", tt.mm, tt.denom, got, off, tt.want, tt.off)
		}
	}
}

func TestFormatWithBand(t *testing.T) {
	tests := []struct {
		value, band float64
		want        string
	}{
		{32.217, 1.83, "32.2 ± 1.8"},
		{-32.217, 0.62, "\u221232.2 ± 0.6"},
		{32.217, 0.354, "32.22 ± 0.35"},
		{32.217, 0.355, "32.2 ± 0.4"},
		{32.217, 0.0962, "32.22 ± 0.10"},
		{1234.9, 123, "1\u2009230 ± 120"},
		{12345, 470, "12\u2009300 ± 500"},
		{12345, 960, "12\u2009300 ± 1\u2009000"},
		{0.02, 5.4, "0 ± 5"},
		{-0.02, 5.4, "0 ± 5"},
		{32.25, 0, "32.250 ± 0"},
		{32.25, 3e-9, "32.250000 ± 0.000001"},
	}
	for _, tt := range tests {
		if got := FormatWithBand(tt.value, tt.band); got != tt.want {
			t.Errorf("FormatWithBand(%v, %v) = %q, want %q", tt.value, tt.band, got, tt.want)
		}
	}
	if got, want := FormatWithLimits(34.68, 1.83, 1.79), "34.7 (\u22121.8/+1.8)"; got != want {
		t.Errorf("FormatWithLimits = %q, want %q", got, want)
	}
	if got, want := FormatWithLimits(-69.04, 15.6, 0), "\u221269 (\u221216/+0)"; got != want {
		t.Errorf("FormatWithLimits = %q, want %q", got, want)
	}
}

// What is printed is read back: to half the last place for decimals, and as
// the very fraction for fractions.
func TestPrintedTextIsRead(t *testing.T) {
	const seed = 1907
	r := rand.New(rand.NewSource(seed))
	for range 2000 {
		mm := (r.Float64()*2 - 1) * 9990
		for _, u := range []Unit{Millimetre, Inch} {
			text := Gauged.Length(mm, u)
			back, err := Parse(text, Foot)
			// 25.4/2000 mm is half the last place of an inch; 1e-9 is for rounding.
			if err != nil || math.Abs(back-mm) > 25.4/2000+1e-9 {
				t.Fatalf("seed %d: %v prints %q, reads %v, %v", seed, mm, text, back, err)
			}
		}
		text, off := FormatFraction(mm, 32)
		if back, err := Parse(text, Foot); err != nil || math.Abs(back-(mm+off)) > 1e-9 || math.Abs(off) > 25.4/64+1e-9 {
			t.Fatalf("seed %d: %v prints %q, reads %v, %v; off %v", seed, mm, text, back, err, off)
		}
	}
}

func TestPrintingPanics(t *testing.T) {
	calls := map[string]func(){
		"NaN":               func() { FormatNumber(math.NaN(), 1) },
		"Inf":               func() { Taped.Length(math.Inf(-1), Inch) },
		"angle as length":   func() { Taped.Length(57, Degree) },
		"denominator":       func() { FormatFraction(57, 10) },
		"negative band":     func() { FormatWithBand(57, -0.1) },
		"unbounded band":    func() { FormatWithBand(57, math.Inf(1)) },
		"plain beyond 10 m": func() { Plain(10000.1, Millimetre) },
	}
	for name, call := range calls {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: no panic", name)
				}
			}()
			call()
		}()
	}
}

// A number rounded to whole units is printed as any number without decimals is,
// halves and all.
func TestToPlace(t *testing.T) {
	for _, v := range []float64{2.5, 3.5, -0.5, 1234.5, 7.4} {
		if got, want := toPlace(v, 0), FormatNumber(v, 0); got != want {
			t.Errorf("%v becomes %s, as a number it is %s", v, got, want)
		}
	}
	if got := toPlace(1249, 2); got != FormatNumber(1200, 0) {
		t.Errorf("1249 to hundreds is %s", got)
	}
}

// The whole ones of numbers and fractions stand under each other.
func TestParts(t *testing.T) {
	for text, want := range map[string]string{"+2 1/2": "+2| 1/2", "\u22121/2": "\u2212|1/2", "3/8": "|3/8", "12.5": "12|.5", "\u22121\u2009200": "\u22121\u2009200|", "± 0.5": "± 0|.5", "1234567890.9": "1234567890|.9"} {
		if whole, rest, ok := Parts(text); !ok || whole+"|"+rest != want {
			t.Errorf("%q is %q and %q, %v", text, whole, rest, ok)
		}
	}
	for _, text := range []string{"kept", "", "1 in", "\u2212"} {
		if _, _, ok := Parts(text); ok {
			t.Errorf("%q is a number", text)
		}
	}
}
