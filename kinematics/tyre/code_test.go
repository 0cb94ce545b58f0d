package tyre

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParseReadsCodes(t *testing.T) {
	tests := []struct {
		code string
		want Tyre
		text string
	}{
		{"205/65R15", Tyre{Metric, Radial, Unmarked, 205, 65, 15, "", "", 0}, "205/65R15"},
		{"205/65ZR15 97Y", Tyre{Metric, Radial, Unmarked, 205, 65, 15, "Z", "97Y", 0}, "205/65ZR15"},
		{" 205 / 65 zr 15 (97y) xl ", Tyre{Metric, Radial, Unmarked, 205, 65, 15, "Z", "(97Y) XL", 0}, "205/65ZR15"},
		{"p205/55r16", Tyre{Metric, Radial, Passenger, 205, 55, 16, "", "", 0}, "P205/55R16"},
		{"LT235/85R16 120/116R E", Tyre{Metric, Radial, LightTruck, 235, 85, 16, "", "120/116R E", 0}, "LT235/85R16"},
		{"205/50-10", Tyre{Metric, Diagonal, Unmarked, 205, 50, 10, "", "", 0}, "205/50-10"},
		{"205/50 D 10", Tyre{Metric, Diagonal, Unmarked, 205, 50, 10, "", "", 0}, "205/50-10"},
		{"225/70R19.5", Tyre{Metric, Radial, Unmarked, 225, 70, 19.5, "", "", 0}, "225/70R19.5"},
		{"31x10.50R15", Tyre{Flotation, Radial, Unmarked, 10.5 * 25.4, 0, 15, "", "", 31}, "31x10.50R15"},
		{"31X10.50R15LT", Tyre{Flotation, Radial, LightTruck, 10.5 * 25.4, 0, 15, "", "", 31}, "31x10.50R15LT"},
		{"31×10.5 r15lt 109q", Tyre{Flotation, Radial, LightTruck, 10.5 * 25.4, 0, 15, "", "109Q", 31}, "31x10.50R15LT"},
		{"155R13", Tyre{Metric, Radial, Unmarked, 155, 0, 13, "", "", 0}, "155R13"},
		{"165 SR 13", Tyre{Metric, Radial, Unmarked, 165, 0, 13, "S", "", 0}, "165SR13"},
		{"185R14C 102/100R", Tyre{Metric, Radial, Unmarked, 185, 0, 14, "", "C 102/100R", 0}, "185R14"},
		{"195/75R16C 107/105R", Tyre{Metric, Radial, Unmarked, 195, 75, 16, "", "C 107/105R", 0}, "195/75R16"},
		{"235/45vr17", Tyre{Metric, Radial, Unmarked, 235, 45, 17, "V", "", 0}, "235/45VR17"},
		{"205/60 HR 15 91H", Tyre{Metric, Radial, Unmarked, 205, 60, 15, "H", "91H", 0}, "205/60HR15"},
		{"7.50-16", Tyre{Inches, Diagonal, Unmarked, 7.5 * 25.4, 0, 16, "", "", 0}, "7.50-16"},
		{"7.50R16 LT 116/114N", Tyre{Inches, Radial, LightTruck, 7.5 * 25.4, 0, 16, "", "116/114N", 0}, "7.50R16LT"},
		{"6.50-13 4PR", Tyre{Inches, Diagonal, Unmarked, 6.5 * 25.4, 0, 13, "", "4PR", 0}, "6.50-13"},
		{"33x12.50-15", Tyre{Flotation, Diagonal, Unmarked, 12.5 * 25.4, 0, 15, "", "", 33}, "33x12.50-15"},
	}
	for _, tt := range tests {
		got, err := Parse(tt.code)
		if err != nil || got != tt.want {
			t.Errorf("Parse(%q) = %+v, %v; want %+v", tt.code, got, err, tt.want)
			continue
		}
		if got.String() != tt.text {
			t.Errorf("Parse(%q) prints %q, want %q", tt.code, got, tt.text)
		}
	}
}

func TestParseRefusesByName(t *testing.T) {
	tests := []struct{ code, says string }{
		{"", "no size"},
		{"   ", "no size"},
		{"205", "205/65R15"},
		{"205/65Q15", "not a size"},
		{"205/65R15 banana", "not a size"},
		{"P205/65R15LT", "P before the size and LT behind"},
		{"31x10,50R15", "use a point"},
		{"2050/65R15", "section width 2050 mm is not between 100 and 500 mm"},
		{"205/3R15", "aspect ratio 3 % is not between 20 and 100 %"},
		{"205/65R1597", "rim diameter 1597 in is not between 8 and 30 in"},
		{"225/47R17", "aspect ratio 47"},
		{"750-16", "a width in inches has a point, as 7.50-16"},
		{"205/65BR15", "not a size"},
		{"2.5-16", "width 2.5 in"},
		{"7.50-66", "rim diameter 66 in"},
		{"15x10.50R31", "rim diameter 31 in"},
		{"16x10.50R15", "leaves no side wall"},
		{"3x10.50R15", "overall diameter 3 in"},
		{"31x105R15", "width 105 in"},
		{strings.Repeat("9", 50) + "/65R15", "section width"},
		{strings.Repeat("9", 70), "at most 60 characters"},
		{"205/65\xffR15", "not a size code"},
	}
	for _, tt := range tests {
		got, err := Parse(tt.code)
		var code *CodeError
		if !errors.As(err, &code) || got != (Tyre{}) {
			t.Errorf("Parse(%q) = %+v, %v; want a CodeError", tt.code, got, err)
			continue
		}
		line := err.Error()
		if !strings.Contains(line, tt.says) || code.Code != tt.code || code.Cure == "" || strings.ContainsAny(line, "\n\r") {
			t.Errorf("Parse(%q): %s; want one line with %q", tt.code, line, tt.says)
		}
	}
}

func TestZeroTyrePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("Diameter of the zero Tyre did not panic")
		}
	}()
	Tyre{}.Diameter()
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"205/65ZR15 97Y", "LT235/85R16", "205/50-10", "31x10.50R15LT", "31×9.5 d16.5", "p205/55r16 (91v)", "155SR13", "7.50-16 6PR", "185R14C 102/100R", "225/47R17", "999999999999/1R1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, code string) {
		tyre, err := Parse(code)
		if err != nil {
			if tyre != (Tyre{}) || strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("Parse(%q) = %+v, %q", code, tyre, err)
			}
			return
		}
		e := tyre.EstimateLoadedRadius()
		for name, v := range map[string]float64{
			"width": tyre.Width, "rim": tyre.RimDiameter(), "height": tyre.SectionHeight(), "diameter": tyre.Diameter(),
			"radius": e.Radius, "low": e.Low - tyre.RimDiameter()/2, "span": e.High - e.Low, "free": tyre.Diameter()/2 - e.High,
		} {
			if !(v > 0 && v < math.MaxInt32) {
				t.Fatalf("Parse(%q): %s is %v", code, name, v)
			}
		}
		if rim, ok := tyre.MeasuringRim(); ok {
			if s, ok := tyre.SectionWidth(rim); !ok || !(s > 0) {
				t.Fatalf("Parse(%q): width %v on %v", code, s, rim)
			}
		}
		again, err := Parse(tyre.String())
		again.Service = tyre.Service
		if err != nil || again != tyre {
			t.Fatalf("%q prints %q and reads back as %+v, %v; want %+v", code, tyre, again, err, tyre)
		}
	})
}
