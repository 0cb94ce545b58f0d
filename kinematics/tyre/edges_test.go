package tyre

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// What a code may just be is read as it stands, and a step beyond is refused by that limit.
func TestLimitsOfCodesAreTaken(t *testing.T) {
	for _, c := range []struct{ last, beyond, of string }{
		{"100/65R15", "99/65R15", "section width"}, {"500/65R15", "501/65R15", "section width"}, {"500R15", "501R15", "section width"},
		{"205/20R15", "205/19R15", "aspect"}, {"205/100R15", "205/101R15", "aspect"},
		{"205/65R8", "205/65R7", "rim diameter"}, {"205/65R30", "205/65R30.5", "rim diameter"},
		{"15X4.00-13", "15X3.99-13", "width"}, {"60X25.00-15", "60X25.01-15", "width"}, {"60X10.50-15", "60.01X10.50-15", "overall diameter"},
		{"17X10.50-15", "16.99X10.50-15", "side wall"},
	} {
		if _, err := Parse(c.last); err != nil {
			t.Error(err)
		}
		if _, err := Parse(c.beyond); err == nil || !strings.Contains(err.Error(), c.of) {
			t.Errorf("%s: %v, want a refusal for its %s", c.beyond, err, c.of)
		}
	}
	if got := mustParse(t, "205/100R15"); got.Aspect != 100 || got.SectionHeight() != 205 {
		t.Errorf("a square section: aspect %d, height %g", got.Aspect, got.SectionHeight())
	}
}

// A long text is refused for its length from one character more than may be, and
// repeated as far as the error has room.
func TestLengthOfACode(t *testing.T) {
	for n, long := range map[int]bool{maxCode: false, maxCode + 1: true} {
		if _, err := Parse(strings.Repeat("k", n)); err == nil || strings.Contains(err.Error(), "characters") != long {
			t.Errorf("%d characters: %v", n, err)
		}
	}
	for n, cut := range map[int]bool{shownCode: false, shownCode + 1: true} {
		if text := (&CodeError{Code: strings.Repeat("k", n)}).Error(); strings.Contains(text, "…") != cut || strings.Count(text, "k") != shownCode {
			t.Errorf("%d characters are shown as %s", n, text)
		}
	}
}

// 155R13, whose code has no aspect, is 155 wide on a rim of 0.7 x 155 = 108.5; 5.8 more
// of rim adds 0.4 of that: 157.32, rounded.
func TestSectionWidthWithoutAspect(t *testing.T) {
	if w, ok := mustParse(t, "155R13").SectionWidth(114.3); !ok || w != 157 {
		t.Errorf("%g, %v", w, ok)
	}
}

// A limit itself is taken; the number next to it beyond is refused, by its limits.
func TestLimitsOfWheelsAreTaken(t *testing.T) {
	far := func(v float64) float64 { return math.Nextafter(v, math.Copysign(math.Inf(1), v)) }
	for _, c := range []struct {
		rim, offset float64
		ok          bool
	}{
		{MinRimWidth, 0, true}, {math.Nextafter(MinRimWidth, 0), 0, false}, {MaxRimWidth, 0, true}, {far(MaxRimWidth), 0, false},
		{152.4, MaxOffset, true}, {152.4, far(MaxOffset), false}, {152.4, -MaxOffset, true}, {152.4, far(-MaxOffset), false},
	} {
		_, err := NewWheel(c.rim, c.offset)
		var bad *WheelError
		if (err == nil) != c.ok || err != nil && (!errors.As(err, &bad) || bad.Min >= bad.Max || bad.Value >= bad.Min && bad.Value <= bad.Max) {
			t.Errorf("%+v: %v", c, err)
		}
		if c.offset == 0 && c.ok {
			if _, ok := mustParse(t, "205/65R15").SectionWidth(c.rim); !ok {
				t.Errorf("no section on a rim of %g", c.rim)
			}
		}
	}
	w, err := NewWheel(152.4, 0)
	if err != nil {
		t.Fatal(err)
	}
	edge := w.OverallWidth() / 2
	for _, offset := range []float64{edge, -edge, far(edge), far(-edge)} {
		w, err := NewWheel(152.4, offset)
		if err != nil {
			t.Fatal(err)
		}
		if err := w.CheckOffset(); (err == nil) != (math.Abs(offset) <= edge) {
			t.Errorf("offset %g, edge %g: %v", offset, edge, err)
		}
	}
	for _, c := range []struct {
		inside, brake, gap float64
		ok                 bool
	}{
		{336, 328, 4, true}, {336, far(328), 4, false}, {336, 336, 0, true}, {336, 300, math.Nextafter(0, -1), false}, {0, 300, 0, false},
		{maxBarrel, maxBarrel, 0, true}, {far(maxBarrel), 300, 0, false}, {336, 0, 0, false}, {336, 5e-324, 0, true}, {336, 300, far(maxBarrel), false},
	} {
		if err := CheckBrake(c.inside, c.brake, c.gap); (err == nil) != c.ok {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

// Estimates by hand: a tread of 0.75 of a width in inches, or of the measuring rim's
// share of a metric one, 0.06 less to 0.08 more; a shoulder of 0.3 of the section's
// height where there is room, else 0.95 of half of what the tread leaves.
func TestEstimatesByHand(t *testing.T) {
	inches, low, metric := mustParse(t, "7.50-16"), mustParse(t, "195/45R15"), mustParse(t, "205/65R15")
	for _, c := range []struct {
		t            Tyre
		width, share float64
	}{{inches, 7.5 * 25.4, 0.75}, {low, 195, low.measuringShare()}} {
		got := c.t.TreadFace()
		for name, v := range map[string][2]float64{"value": {got.Value, c.share * c.width}, "low": {got.Low, (c.share - 0.06) * c.width}, "high": {got.High, (c.share + 0.08) * c.width}} {
			if math.Abs(v[0]-v[1]) > 1e-9 {
				t.Errorf("%s of the tread of %v: %g, want %g", name, c.t, v[0], v[1])
			}
		}
	}
	if low.measuringShare() == 0.75 {
		t.Fatal("both shares are one: nothing is told apart")
	}
	for _, c := range []struct{ section, tread, want float64 }{{209, 153.75, 0.95 * 55.25 / 2}, {260, 100, 0.3 * 133}, {180, 180, 0}} {
		if got := metric.Shoulder(c.section, c.tread); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("shoulder of %g with a tread of %g: %g, want %g", c.section, c.tread, got, c.want)
		}
	}
	if got, want := inches.SectionHeight(), math.Floor(7.5*25.4*inchProfile+0.5); got != want {
		t.Errorf("height of %v: %g, want %g", inches, got, want)
	}
	least, most := metric.LoadedLimits()
	if least != 15*25.4/2 || math.Abs(most-MostLoaded*metric.Diameter()/2) > 1e-9 {
		t.Errorf("loaded radius from %g to %g", least, most)
	}
	// The share of the measuring rim changes below 50, not at it.
	for code, share := range map[string]float64{"195/50R15": 0.70, "195/45R15": 0.85} {
		want := math.Floor(195 + widthPerRim*(152.4-share*195) + 0.5)
		if got, ok := mustParse(t, code).SectionWidth(152.4); !ok || got != want {
			t.Errorf("%s on 6 in: %g, want %g", code, got, want)
		}
	}
}
