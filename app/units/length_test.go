package units

import (
	"math"
	"math/rand"
	"testing"
)

func TestLengthKeepsTypedText(t *testing.T) {
	tests := []struct {
		text  string
		bare  Unit
		typed string
	}{
		{"57", Millimetre, ""},
		{" -57.25 ", Inch, ""},
		{"57 mm", Inch, "57 mm"},
		{" 10 1/2 in ", Millimetre, "10 1/2 in"},
		{"57mm+1/8in", Millimetre, "57mm+1/8in"},
		{"57mm*3", Inch, "57mm*3"}, // 3 is a factor, it has no unit
		// A number that took the unit on display gets it written behind it.
		{"2 1/4", Inch, "2 1/4 in"},
		{"-2 1/4", Inch, "-2 1/4 in"},
		{"57+1/8in", Millimetre, "57 mm+1/8in"},
		{"2*3 - 4 + 1/8in", Millimetre, "(2*3 - 4) mm + 1/8in"},
		{"2+3", Inch, "(2+3) in"},
		{"-2+3", Inch, "(-2+3) in"},
		{"-2-1/4+3", Inch, "(-2-1/4+3) in"},
		{"-2*3", Inch, "-(2*3) in"},
		{"57mm-(2+3)", Inch, "57mm-(2+3) in"},
	}
	for _, tt := range tests {
		l, err := ParseLength(tt.text, tt.bare)
		if err != nil || l.Typed != tt.typed {
			t.Errorf("ParseLength(%q, %v) = %+v, %v; want typed %q", tt.text, tt.bare, l, err, tt.typed)
		}
	}
}

func TestTooLongOnceUnitsAreWritten(t *testing.T) {
	text := "1mm"
	for len(text) < MaxText-2 {
		text += "+1"
	}
	if l, err := ParseLength(text, Millimetre); err == nil {
		t.Errorf("a text that outgrows the limit was taken, typed text %q", l.Typed)
	}
}

func TestPlain(t *testing.T) {
	tests := []struct {
		mm   float64
		unit Unit
		want string
	}{
		{57.15, Inch, "2.25"}, {57.15, Millimetre, "57.15"}, {-266.7, Inch, "-10.5"}, {3.175, Inch, "0.125"},
		{1200, Millimetre, "1200"}, {0, Inch, "0"}, {1234.5, Metre, "1.2345"}, {914.4, Foot, "3"},
	}
	for _, tt := range tests {
		if got := Plain(tt.mm, tt.unit); got != tt.want {
			t.Errorf("Plain(%v, %v) = %q, want %q", tt.mm, tt.unit, got, tt.want)
		}
	}
}

func TestPlainReadsBackBitForBit(t *testing.T) {
	const seed = 4711
	r := rand.New(rand.NewSource(seed))
	check := func(mm float64) {
		for _, u := range []Unit{Millimetre, Centimetre, Metre, Inch, Foot} {
			text := Plain(mm, u)
			if back, err := Parse(text, u); err != nil || back != mm {
				t.Errorf("seed %d: %v is written %q %v and reads back as %v, %v", seed, mm, text, u, back, err)
			}
		}
	}
	for range 2000 {
		check((r.Float64()*2 - 1) * math.Pow(10, r.Float64()*12-8))
	}
	check(math.SmallestNonzeroFloat64)
	check(math.Nextafter(MaxLength, 0))
	check(-MaxLength)
}
