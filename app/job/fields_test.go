package job

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// TestSampleUsesEveryKey keeps the sample of the format complete: what is not
// in it would not be known to open for ever.
func TestSampleUsesEveryKey(t *testing.T) {
	files, err := filepath.Glob("../../testdata/job/format-*.armscribe.yaml")
	if err != nil || len(files) < Minor+1 {
		t.Fatalf("%d samples for the MINORs up to %d (%v)", len(files), Minor, err)
	}
	var text string
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text += string(data)
	}
	n := 0
	for _, s := range []section{&Job{}, &Travel{}, &Rack{}, &Variant{}, &Arm{}, &TieRod{}, &Wheel{}, &Spring{}, &Position{}, &Within{},
		&Targets{}, &LengthRange{}, &AngleRange{}, &SlopeRange{}, &AngleOver{}, &LengthOver{},
		&Spacers{}, &Stock{}, &ToeGauge{}, &ToeReading{}, &Adjuster{}, &Thread{}, &Direction{}, &Obstacle{},
		&Steering{}, &Brake{}, &Housings{}, &JointLimits{}, &WheelChoice{},
		&Photo{}, &Calibration{}, &Level{}, &Anchor{}, &Pixel{}} {
		for _, f := range s.fields() {
			n++
			if !strings.Contains(text, f.key+": ") && !strings.Contains(text, f.key+":\n") {
				t.Errorf("no sample has %s of %v", f.key, reflect.TypeOf(s))
			}
		}
	}
	if n < 60 {
		t.Errorf("only %d keys", n)
	}
}

// TestSlips has the distances of published examples: kitten and sitting, 3
// (Levenshtein's distance in textbooks, from memory), and own ones.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3}, {"", "toe", 3}, {"toe", "", 3}, {"toe", "toe", 0},
		{"ball_jiont", "ball_joint", 2}, {"hubb", "hub", 1}, {"camer", "camber", 1},
	} {
		if got := slips(c.a, c.b); got != c.want {
			t.Errorf("%s to %s: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	fields := (&Variant{}).fields()
	for word, want := range map[string]string{
		"Camber": "camber", "tie-rod": "tie_rod", "upper arm": "upper_arm", "wheels": "wheel", "notez": "notes",
		"colour": "", "x": "", strings.Repeat("w", 100000): "",
	} {
		if got := nearest(word, fields); got != want {
			t.Errorf("%.20s: %q, want %q", word, got, want)
		}
	}
}

// A text is shown whole up to so many characters, and of a longer one as many.
func TestLongTextsAreShortened(t *testing.T) {
	for _, n := range []int{shownText - 1, shownText, shownText + 1, 3 * shownText} {
		got, want := shorten(strings.Repeat("ä", n)), strings.Repeat("ä", min(n, shownText))
		if n > shownText {
			want += "…"
		}
		if got != want {
			t.Errorf("%d characters become %q", n, got)
		}
	}
}
