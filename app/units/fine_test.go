package units

import (
	"math"
	"math/rand"
	"strings"
	"testing"
)

func TestFine(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{Guessed.Length(57.149, Millimetre), "57 mm"},
		{Guessed.Length(57.149, Inch), "2.2 in"},
		{Rounded.Length(57.149, Inch), "2.25 in"},
		{Taped.Length(-57.149, Millimetre), "−57.1 mm"},
		{Built.Number(57.149, Inch), "2.250"},
		{Gauged.Number(57.149, Millimetre), "57.15"},
		{Gauged.Short(57.1, Millimetre), "57.1"},
		{Gauged.Short(50, Millimetre), "50"},
		{AsTyped(31.75), "31.75"},
		{AsTyped(-1500), "−1\u2009500"},
		{AsTyped(-1.3999999999999999), "−1.4"},
		{AsTyped(0.0000123456), "0.000012"},
		{AsTyped(3e-9), "0.000001"},
		{AsTyped(-3e-9), "−0.000001"},
		{AsTyped(0), "0"},
		{ShortLength(25.4/16, Inch), "1/16 in"},
		{ShortLength(-57.15, Inch), "−2 1/4 in"},
		{ShortLength(1, Inch), "0.039 in"},
		{ShortLength(12.5, Millimetre), "12.5 mm"},
		{ShortLength(100, Millimetre), "100 mm"},
		{ShortLength(0, Inch), "0 in"},
		{Signed("0.0"), "0.0"},
		{Signed("1/16 in"), "+1/16 in"},
		{Signed("−3"), "−3"},
		{Place(-49.438, Millimetre), "−49.4 mm"},
		{Place(60, Millimetre), "+60 mm"},
		{Place(0.001, Millimetre), "0 mm"},
		{Place(63.5, Inch), "+2 1/2 in"},
		{Place(-49.438, Inch), "−1.95 in"},
		{Signed("0 mm"), "0 mm"},
		{Signed("0 ± 5"), "0 ± 5"},
		{Signed("0.2 ± 5"), "+0.2 ± 5"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}

// Whatever finite number comes, words come back, and what is not nought is not
// said to be: nothing that a person types can be refused here.
func TestWordsRefuseNoNumber(t *testing.T) {
	const seed = 4177
	r := rand.New(rand.NewSource(seed))
	for range 20000 {
		v := (r.Float64()*2 - 1) * math.Pow10(r.Intn(40)-20)
		text := AsTyped(v)
		if v != 0 && strings.Trim(text, "0.−") == "" {
			t.Fatalf("seed %d: %g is said to be %q", seed, v, text)
		}
		for decimals := -12; decimals <= 24; decimals++ {
			FormatNumber(v, decimals)
		}
		FormatWithBand(v, math.Abs(r.NormFloat64())*math.Pow10(r.Intn(40)-20))
		for f := Guessed; f <= Gauged; f++ {
			f.Length(v, Inch)
			f.Short(v, Millimetre)
		}
	}
}

// Threads per inch are a pitch, and stay as they were typed.
func TestThreadsPerInch(t *testing.T) {
	for text, mm := range map[string]float64{"20 tpi": 1.27, "18tpi": 25.4 / 18, "11.5 TPI": 25.4 / 11.5} {
		for _, u := range []Unit{Millimetre, Inch} {
			l, err := ParseLength(text, u)
			if err != nil || l.MM != mm || !strings.HasSuffix(l.Text(Millimetre), " tpi") {
				t.Errorf("%q is %+v, %v; want %v", text, l, err, mm)
			}
			if again, err := ParseLength(l.Text(u), u); err != nil || again != l {
				t.Errorf("%q comes back as %+v, %v", text, again, err)
			}
		}
	}
	for _, text := range []string{"tpi", "0 tpi", "-20 tpi", "1/20 tpi", "1 tpi + 1", "0.001 tpi", "1e3 tpi", "20 20 tpi"} {
		if mm, err := Parse(text, Inch); err == nil {
			t.Errorf("%q is %v", text, mm)
		}
	}
	if _, err := ParseAngle("20 tpi"); err == nil {
		t.Error("an angle in threads per inch")
	}
}

// A length that is so many 64ths of an inch is printed as the fraction by whatever
// prints what may be a round length, and as a number by nothing.
func TestSixtyFourthsAreFractions(t *testing.T) {
	const seed = 515
	r := rand.New(rand.NewSource(seed))
	for range 3000 {
		parts := r.Intn(64*60) - 64*30
		mm := float64(parts) * 25.4 / 64
		want := strings.TrimSuffix(must64(mm), " in")
		for name, got := range map[string]string{
			"ShortNumber": ShortNumber(mm, Inch), "TypedNumber": TypedNumber(mm, Inch), "Taped": Taped.Short(mm, Inch),
			"Gauged": strings.TrimSuffix(Gauged.OnTape(mm, Inch), " in"), "Place": strings.TrimPrefix(strings.TrimSuffix(Place(mm, Inch), " in"), "+"),
		} {
			if got != want {
				t.Fatalf("seed %d: %d/64 in by %s is %q, want %q", seed, parts, name, got, want)
			}
		}
	}
}

func must64(mm float64) string {
	text, _ := FormatFraction(mm, 64)
	return text
}
