package tyre

import (
	"math"
	"testing"

	"armscribe/kinematics/tyre/internal/checkdata"
)

const tables = "../../testdata/tyres/"

func mustParse(t *testing.T, code string) Tyre {
	t.Helper()
	tyre, err := Parse(code)
	if err != nil {
		t.Fatal(err)
	}
	return tyre
}

// near fails the test unless got is within tol of want.
func near(t *testing.T, row checkdata.Row, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %s: %s %.4f, want %v within %v", row, row.Text("size"), what, got, want, tol)
	}
}

// The real check: a published maker's table. It rounds to 0.1 in and to whole
// turns, and makers round freely: 0.06 in, 1 rev/mile.
func TestLightTruckTable(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"light_truck.csv") {
		tyre := mustParse(t, row.Text("size"))
		rim, ok := tyre.MeasuringRim()
		if !ok {
			t.Fatalf("%s: no measuring rim", row)
		}
		near(t, row, "measuring rim, in,", rim/inch, row.Number("measuring_rim_in"), 1e-9)
		near(t, row, "diameter, in,", tyre.Diameter()/inch, row.Number("diameter_in"), 0.06)
		width, ok := tyre.SectionWidth(rim)
		if !ok {
			t.Fatalf("%s: no section width", row)
		}
		near(t, row, "width, in,", width/inch, row.Number("width_in"), 0.06)
		turns, ok := tyre.RevPerMile()
		if !ok {
			t.Fatalf("%s: no rev/mile", row)
		}
		near(t, row, "rev/mile", turns, row.Number("rev_per_mile"), 1)
	}
}

// Sizes from memory: they test the rule, since memory may follow it.
func TestPassengerTable(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"passenger.csv") {
		tyre := mustParse(t, row.Text("size"))
		near(t, row, "diameter", tyre.Diameter(), row.Number("diameter_mm"), 0)
		// Rounding the rim and twice the height moves the diameter by up to 1.1 mm in these sizes.
		near(t, row, "diameter", tyre.Diameter(), row.Number("unrounded_diameter_mm"), 1.1)
		rim, ok := tyre.MeasuringRim()
		if !ok {
			t.Fatalf("%s: no measuring rim", row)
		}
		near(t, row, "measuring rim, in,", rim/inch, row.Number("measuring_rim_in"), 1e-9)
		width, ok := tyre.SectionWidth(rim)
		if !ok {
			t.Fatalf("%s: no section width", row)
		}
		near(t, row, "width", width, row.Number("width_mm"), 1)
	}
}

// Listings of one sheet, some of which depart from the rule: the package must
// follow the rule, and the tables must keep the departures in sight.
func TestOtherListings(t *testing.T) {
	apart := 0
	for _, row := range checkdata.Read(t, tables+"other_listings.csv") {
		near(t, row, "diameter", mustParse(t, row.Text("size")).Diameter(), row.Number("rule_diameter_mm"), 0)
		if row.Number("rule_diameter_mm") != row.Number("listed_diameter_mm") {
			apart++
		}
	}
	if apart != 2 {
		t.Errorf("%d listings depart from the rule, want 2", apart)
	}
}

func TestRimDiameters(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"rim_diameters.csv") {
		got := mustParse(t, "205/65R"+row.Text("rim_code")).RimDiameter()
		if got != row.Number("diameter_mm") {
			t.Errorf("%s: rim %s is %v mm", row, row.Text("rim_code"), got)
		}
	}
	// Half codes and codes beyond the table: 25.4 mm an inch, worked by hand.
	for code, want := range map[string]float64{"225/70R19.5": 495, "275/35R21": 533, "285/35R22": 559} {
		if got := mustParse(t, code).RimDiameter(); got != want {
			t.Errorf("%s: rim %v mm, want %v", code, got, want)
		}
	}
}

func TestHalfMillimetreOfHeightGoesUp(t *testing.T) {
	for code, want := range map[string]float64{"195/50R15": 98, "255/50R16": 128, "205/55R16": 113, "175/65R14": 114, "155/65R14": 101} {
		if got := mustParse(t, code).SectionHeight(); got != want {
			t.Errorf("%s: section height %v, want %v", code, got, want)
		}
	}
}

// "approximately 5 mm for each 0.5 inch" of rim: a published technical page,
// https://www.tyres4u.com.au/tyres4u/techdata/pass.html; the rule says 5.08.
func TestHalfInchOfRimMakesFiveMillimetres(t *testing.T) {
	tyre := mustParse(t, "205/65R15")
	var first, last float64
	for i := range 11 {
		s, ok := tyre.SectionWidth((5 + float64(i)/2) * inch)
		if !ok {
			t.Fatal("no section width")
		}
		if i == 0 {
			first = s
		}
		last = s
	}
	if got := (last - first) / 10; math.Abs(got-5.08) > 0.1 { // both ends rounded to mm
		t.Errorf("half an inch of rim makes %v mm of section, want 5.08", got)
	}
}

func TestFlotationIsTakenFromTheCode(t *testing.T) {
	tyre := mustParse(t, "31x10.50R15LT")
	if d := tyre.Diameter(); math.Abs(d-787.4) > 1e-9 {
		t.Errorf("diameter %v, want 787.4", d)
	}
	if math.Abs(tyre.Width-266.7) > 1e-9 {
		t.Errorf("width %v, want 266.7", tyre.Width)
	}
	if h := tyre.SectionHeight(); math.Abs(h-203.2) > 1e-9 {
		t.Errorf("section height %v, want 203.2", h)
	}
	if _, ok := tyre.MeasuringRim(); ok {
		t.Error("a measuring rim without a rule")
	}
	if _, ok := tyre.SectionWidth(8 * inch); ok {
		t.Error("a section width without a rule")
	}
}

func TestDiagonalHasNoRollingCircumference(t *testing.T) {
	tyre := mustParse(t, "205/50-10")
	if v, ok := tyre.RollingCircumference(); ok || v != 0 {
		t.Errorf("rolling circumference %v for a diagonal tyre", v)
	}
	if v, ok := tyre.RevPerMile(); ok || v != 0 {
		t.Errorf("%v rev/mile for a diagonal tyre", v)
	}
}

// 205/65R15: D = 381 + 2 x 133 = 647; 323.5 less 10, 15 and 20 % of 133.
func TestEstimateLoadedRadius(t *testing.T) {
	got := mustParse(t, "205/65R15").EstimateLoadedRadius()
	const tol = 1e-9 // mm: a few roundings
	if math.Abs(got.Radius-303.55) > tol || math.Abs(got.Low-296.9) > tol || math.Abs(got.High-310.2) > tol || !got.Estimate {
		t.Errorf("estimate %+v, want 303.55 (296.9 to 310.2), marked", got)
	}
}

func TestSectionWidthPanicsOutOfRange(t *testing.T) {
	tyre := mustParse(t, "205/65R15")
	for _, rim := range []float64{math.NaN(), 10.5, -266.7, math.Inf(1)} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("rim %v: no panic", rim)
				}
			}()
			tyre.SectionWidth(rim)
		}()
	}
}
