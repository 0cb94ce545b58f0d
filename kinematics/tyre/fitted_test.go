package tyre

import (
	"errors"
	"math"
	"math/rand"
	"strings"
	"testing"

	"armscribe/kinematics/tyre/internal/checkdata"
)

func mustWheel(t *testing.T, width, offset float64) Wheel {
	t.Helper()
	w, err := NewWheel(width, offset)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// 205/65R15 on 6.5 x 15, offset 20, worked by hand: S = 205 + 0.4 (165.1 -
// 0.7 x 205) = 213.64, rounded 214; middle of the rim 20 inboard of the face,
// and 7 outboard of that with a spacer of 7.
func TestFittedByHand(t *testing.T) {
	f := Fit(mustParse(t, "205/65R15"), mustWheel(t, 6.5*inch, 20))
	check := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	check("section", f.SectionWidth, 214)
	inner, outer := f.ShouldersFromHub(7)
	check("inner side wall", inner, -120)
	check("outer side wall", outer, 94)
	inner, outer = f.LipsFromHub(7)
	check("inner lip", inner, -108.25)
	check("outer lip", outer, 82.25)
	check("outer side wall from the centre plane", FromCentrePlane(741.5, 94), 835.5)
	if f.WidthIsNominal {
		t.Error("a metric size has a width by rule")
	}
	flotation := Fit(mustParse(t, "31x10.50R15LT"), mustWheel(t, 8.5*inch, -5))
	check("flotation section", flotation.SectionWidth, 266.7)
	if !flotation.WidthIsNominal {
		t.Error("a flotation size has no width by rule")
	}
}

// Raising the offset by some mm moves everything inboard by as much.
func TestShouldersFollowOffsetAndSpacer(t *testing.T) {
	const seed = 41
	r := rand.New(rand.NewSource(seed))
	tyre := mustParse(t, "245/40R18")
	for range 200 {
		offset, more, spacer := 60*r.Float64()-20, 30*r.Float64()-11, 40*r.Float64()
		a, b := Fit(tyre, mustWheel(t, 8.5*inch, offset)), Fit(tyre, mustWheel(t, 8.5*inch, offset+more))
		ai, ao := a.ShouldersFromHub(spacer)
		bi, bo := b.ShouldersFromHub(spacer + more)
		if math.Abs(ai-bi) > 1e-9 || math.Abs(ao-bo) > 1e-9 {
			t.Fatalf("seed %d: offset %v and spacer both %v more: %v..%v, was %v..%v", seed, offset, more, bi, bo, ai, ao)
		}
	}
}

// The published circumferences are turns to the mile; their ratio is what the
// speedometer shows. Tables round to whole turns: 1 in 600.
func TestSpeedometerByTheTable(t *testing.T) {
	rows := checkdata.Read(t, tables+"light_truck.csv")
	for i, now := range rows {
		before := rows[(i+3)%len(rows)]
		got, ok := mustParse(t, now.Text("size")).SpeedometerChange(mustParse(t, before.Text("size")))
		if want := before.Number("rev_per_mile")/now.Number("rev_per_mile") - 1; !ok || math.Abs(got-want) > 2.0/600 {
			t.Errorf("%s instead of %s: %.4f, %v; table %.4f", now.Text("size"), before.Text("size"), got, ok, want)
		}
	}
	if _, ok := mustParse(t, "205/50-10").SpeedometerChange(mustParse(t, "205/65R15")); ok {
		t.Error("a diagonal tyre has no rolling circumference")
	}
}

// The estimates keep their order and leave room for each other on every rim in use.
func TestEstimatesAreSane(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"passenger.csv") {
		tyre := mustParse(t, row.Text("size"))
		narrow, wide, ok := tyre.UsualRims()
		if !ok {
			t.Fatal("no usual rims")
		}
		for _, rim := range []float64{narrow, wide} {
			section, _ := tyre.SectionWidth(rim)
			tread, in := tyre.TreadFace(), tyre.RimInside()
			r := tyre.Shoulder(section, tread.Value)
			if !(tread.Low < tread.Value && tread.Value < tread.High && tread.Value+2*r < section && r > 0 &&
				in.Low < in.Value && in.Value < in.High && in.High < tyre.RimDiameter()) {
				t.Errorf("%s on %v: section %v, tread %+v, shoulder %v, inside %+v", row.Text("size"), rim, section, tread, r, in)
			}
		}
	}
	if r := mustParse(t, "205/65R15").Shoulder(250, 256); r != 0 {
		t.Errorf("a tread wider than the section leaves a shoulder of %v", r)
	}
}

// Permitted rims, narrowest and widest in inches, from memory of makers' lists.
// The rule of thumb may miss either end by half an inch.
func TestUsualRims(t *testing.T) {
	for _, row := range checkdata.Read(t, tables+"rim_ranges.csv") {
		narrow, wide, ok := mustParse(t, row.Text("size")).UsualRims()
		if !ok || math.Abs(narrow/inch-row.Number("narrowest_in")) > 0.5+1e-9 || math.Abs(wide/inch-row.Number("widest_in")) > 0.5+1e-9 {
			t.Errorf("%s: %s: %v to %v in", row, row.Text("size"), narrow/inch, wide/inch)
		}
	}
	tyre := mustParse(t, "205/65R15") // measuring rim 6 in: 5.5 to 7
	for rim, want := range map[float64]Seat{5: Pinched, 5.5: SeatUsual, 6.5: SeatUsual, 7: SeatUsual, 7.5: Stretched} {
		if got := tyre.SeatOn(rim * inch); got != want {
			t.Errorf("on %v in: %v, want %v", rim, got, want)
		}
	}
	if got := mustParse(t, "31x10.50R15").SeatOn(7 * inch); got != SeatUnknown {
		t.Errorf("a flotation size: %v", got)
	}
}

func TestWhatDoesNotFit(t *testing.T) {
	tests := []struct {
		name string
		err  error
		says string
	}{
		{"offset inside", mustWheel(t, 7*inch, 101.5).CheckOffset(), ""},
		{"offset outside", mustWheel(t, 7*inch, 101.7).CheckOffset(), "101.7 mm puts the mounting face outside the rim, whose edge stands at 101.6 mm"},
		{"offset outside, other way", mustWheel(t, 7*inch, -140).CheckOffset(), "stands at -101.6 mm"},
		{"brake passes", CheckBrake(386, 379.9, 3), ""},
		{"brake does not", CheckBrake(386, 380.1, 3), "380.1 mm across does not pass through the rim with its gap, which takes at most 380.0 mm"},
		{"negative gap", CheckBrake(386, 355, -2), "-2.0 mm is below"},
		{"gap of a typing error", CheckBrake(386, 355, 1e7), "is more than the most there can be"},
		{"no brake", CheckBrake(386, math.NaN(), 2), "brake diameter: NaN mm is not above zero"},
		{"rim in inches", CheckBrake(-15, 300, 2), "rim inside diameter"},
	}
	for _, tt := range tests {
		if tt.says == "" {
			if tt.err != nil {
				t.Errorf("%s: %v", tt.name, tt.err)
			}
			continue
		}
		var fit *FitError
		if !errors.As(tt.err, &fit) || !errors.Is(tt.err, ErrFit) || !strings.Contains(tt.err.Error(), tt.says) || fit.Cure == "" {
			t.Errorf("%s: %v, want %q", tt.name, tt.err, tt.says)
		}
	}
}
