package units

import (
	"math/big"
	"strings"
	"testing"
)

func TestFractionsOfTheTapeAreThoseOfATape(t *testing.T) {
	for _, n := range []int{2, 64} {
		if text, off := FormatFraction(12.7, n); text != "1/2 in" || off != 0 {
			t.Errorf("1/%d: %s, %g", n, text, off)
		}
	}
	for _, n := range []int{1, 128, 24} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("a tape of 1/%d", n)
				}
			}()
			FormatFraction(12.7, n)
		}()
	}
}

func TestWhatIsTypedAtTheEdges(t *testing.T) {
	long := strings.Repeat("0", MaxText-3) + "7mm"
	for _, c := range []struct {
		text string
		want float64
	}{
		{"12\u2009mm", 12}, {"1\u2009234", 1234}, {long, 7}, {"0.00254 tpi", MaxLength},
	} {
		if got, err := Parse(c.text, Millimetre); err != nil || got-c.want > 1e-9 || c.want-got > 1e-9 {
			t.Errorf("%q: %g, %v, want %g", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"2 4/4", "1234\u2009567", "1\u20092345", "1\u200923\u2009456", "0" + long, "0.00253 tpi", `5'-10 1/2"`, `5'-1/2"`} {
		if got, err := Parse(text, Inch); err == nil {
			t.Errorf("%q is read as %g", text, got)
		}
	}
	// What takes the unit on display is kept with it, and must not grow too long by it.
	const around = len("(") + len(") mm")
	for _, more := range []int{0, 1} {
		text := strings.Repeat("0", MaxText-around-2+more) + "+1"
		if l, err := ParseLength(text, Millimetre); (err == nil) != (more == 0) {
			t.Errorf("%d characters with units: %v", len(l.Typed), err)
		}
	}
	if _, err := ParseAngle("3 furlongs"); err == nil || !strings.Contains(err.Error(), "the unit is deg or °") {
		t.Errorf("%v", err)
	}
}

func TestShortDecimals(t *testing.T) {
	for _, c := range []struct{ v, want string }{
		{"123456789012", "123456789012"}, {"1234567890123", "1234… (13 digits)"}, {"-1234567890123", "-123… (13 digits)"}, {"2.5", "2.5"},
	} {
		v, _ := new(big.Rat).SetString(c.v)
		if got := shortDecimal(v); got != c.want {
			t.Errorf("%s: %s, want %s", c.v, got, c.want)
		}
	}
}

func TestSignificantDigits(t *testing.T) {
	for digits, want := range map[int]string{1: "0.3", 3: "0.333", 5: "0.33333"} {
		if got := significant(big.NewRat(1, 3), digits); got != want {
			t.Errorf("a third to %d digits: %s", digits, got)
		}
	}
}
