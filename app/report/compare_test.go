package report

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"armscribe/app/figures"

	"armscribe/kinematics"
)

func mustCompare(t *testing.T, sources []Source) *Comparison {
	t.Helper()
	c, err := Compare(sources)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func row(t *testing.T, c *Comparison, key string) *CompareRow {
	t.Helper()
	for i := range c.Rows {
		if c.Rows[i].Key == key {
			return &c.Rows[i]
		}
	}
	t.Fatalf("no row %s", key)
	return nil
}

// A fact of the trade (common practice, no source): spacers add to the scrub
// radius what they add to the half track, longer arms leave it.
func TestSpacersAgainstLongerArms(t *testing.T) {
	c := mustCompare(t, sourcesOf(t, frontJob))
	scrub := row(t, c, "scrub_radius")
	near(t, "spacers", scrub.Changes[1].Value, 32, 0.5) // to within the cosines of camber, toe and inclination
	near(t, "longer arms", scrub.Changes[2].Value, 0, 1e-9)
	near(t, "half track", row(t, c, "half_track").Changes[2].Value, 32, 1e-9)
}

func TestChangesAndTheirBands(t *testing.T) {
	sources := sourcesOf(t, frontJob)
	c := mustCompare(t, sources)
	for i, s := range sources {
		r := mustReadings(t, s, figures.Position{})
		first := mustReadings(t, sources[0], figures.Position{})
		for _, l := range r.Lines {
			got := row(t, c, l.Key)
			if got.Lines[i].Value != l.Value {
				t.Errorf("%s of %s: %g, want %g", l.Key, s.Variant, got.Lines[i].Value, l.Value)
			}
			if i == 0 {
				if got.Changes[0].Known {
					t.Error("the first variant has changed against itself")
				}
				continue
			}
			base := find(t, first, l.Key)
			near(t, l.Key, got.Changes[i].Value, l.Value-base.Value, 0)
			if got.Changes[i].HasBand != l.HasBand {
				t.Errorf("%s of %s: change has a band %v, the reading %v", l.Key, s.Variant, got.Changes[i].HasBand, l.HasBand)
			}
		}
	}
}

// A reading that only some variants have stands in its own place.
func TestCompareWithAndWithoutSpring(t *testing.T) {
	sources := sourcesOf(t, frontJob)
	sources[0].Corner.Spring = kinematics.Spring{}
	c := mustCompare(t, sources)
	ratio := row(t, c, "motion_ratio")
	if ratio.Lines[0].Known || ratio.Lines[0].Missing != notGiven || !ratio.Lines[1].Known || ratio.Changes[1].Known {
		t.Errorf("%+v", ratio)
	}
	for i := range c.Rows[1:] {
		if c.Rows[i].Group > c.Rows[i+1].Group {
			t.Errorf("%s stands before %s", c.Rows[i].Key, c.Rows[i+1].Key)
		}
	}
}

func TestCompareManyVariants(t *testing.T) {
	sources := sourcesOf(t, frontJob)
	for range 4 {
		sources = append(sources, sources[1])
	}
	for i := range sources {
		sources[i].Variant = strings.Repeat(string(rune('a'+i)), 30)
	}
	text := mustCompare(t, sources).Sheet().String()
	for i := range sources {
		if !strings.Contains(text, sources[i].Variant) {
			t.Errorf("no variant %d in\n%s", i, text)
		}
	}
	if n := strings.Count(text, "Scrub radius"); n != 3 {
		t.Errorf("%d tables for the first and six others, want 3", n)
	}
	one := mustCompare(t, sources[:1]).Sheet().String()
	if strings.Contains(one, "change  ") || !strings.Contains(one, "Scrub radius") {
		t.Errorf("one variant alone:\n%s", one)
	}
}

func TestCompareErrorsNameEveryVariant(t *testing.T) {
	sources := sourcesOf(t, frontJob)
	sources[0].Corner.Wheel.LoadedRadius = -3
	sources[2].Corner.TieRod.OuterEnd = sources[2].Corner.TieRod.RackEnd
	_, err := Compare(sources)
	if !errors.Is(err, kinematics.ErrGeometry) || !strings.Contains(err.Error(), `"as measured"`) || !strings.Contains(err.Error(), `"longer arms"`) {
		t.Errorf("got %v", err)
	}
}

func TestCompareJSON(t *testing.T) {
	c := mustCompare(t, sourcesOf(t, frontJob))
	var got struct {
		Against  string
		Variants []string
		Readings []struct {
			Key      string
			Variants []struct {
				Variant       string
				Value, Change *float64
				ChangeBand    *float64 `json:"change_band_95"`
			}
		}
	}
	if err := json.Unmarshal([]byte(c.Sheet().JSON()), &got); err != nil {
		t.Fatal(err)
	}
	if got.Against != "as measured" || len(got.Variants) != 3 || len(got.Readings) != len(c.Rows) {
		t.Fatalf("against %q, %d variants, %d readings", got.Against, len(got.Variants), len(got.Readings))
	}
	for _, r := range got.Readings {
		if r.Variants[0].Change != nil || r.Variants[2].Change == nil {
			t.Errorf("%s: changes %v, %v", r.Key, r.Variants[0].Change, r.Variants[2].Change)
		}
	}
	for _, r := range got.Readings {
		if r.Key == "camber_gain" {
			want := row(t, c, "camber_gain").Changes[2]
			near(t, "change", *r.Variants[2].Change, want.Value*deg, 1e-12)
			near(t, "its band", *r.Variants[2].ChangeBand, want.Band*deg, 1e-5*want.Band*deg) // six digits
		}
	}
}

// In roll the left wheel has the readings of the rolled axle, and bands that go over
// into those of the level car.
func TestCompareInRoll(t *testing.T) {
	sources := sourcesOf(t, frontJob)
	const roll = 0.03
	c := CompareAt(sources, 1, figures.Position{Roll: roll})
	almost := CompareAt(sources, 1, figures.Position{Roll: 1e-5})
	level := CompareAt(sources, 1, figures.Position{})
	for i := range sources {
		ax, err := mechanism(t, sources[i].Corner).Roll(roll, 0)
		if err != nil {
			t.Fatal(err)
		}
		left, _ := ax.Readings()
		for r, row := range c.Rows {
			if row.IsReading() {
				near(t, row.Key, row.Lines[i].Value, value(t, left, row.Of), 0)
			}
			was := level.Rows[r].Lines[i].Band
			if was == 0 { // by symmetry, or as typed: only level
				continue
			}
			near(t, "band of "+row.Key, almost.Rows[r].Lines[i].Band, was, 0.01*was+3*row.Kind.Rounding())
		}
	}
	if title := c.Sheet().Title; title != "variants at roll +1.7°, left wheel, changes against spacers only" {
		t.Errorf("%q", title)
	}
}
