package grip

import (
	"strings"
	"testing"

	"armscribe/kinematics"
)

// A message of the edge is one clause after its one colon, in short numbers.
func TestEdgeMessagesReadAsSentences(t *testing.T) {
	for _, row := range []struct {
		h      kinematics.Point
		dy, dz float64
		travel float64
		want   string
	}{
		{kinematics.UpperBall, 7, -300, 0, "Stops at the edge: the upper ball joint is not above the lower one (z "},
		{kinematics.UpperFront, 300, 7, 66, " of bump"},
		{kinematics.OuterEnd, -300, 7, -60, " of droop"},
	} {
		c := onePivot()
		d := begin(t, c, point(row.h), job(row.travel, 0))
		r := d.To(free(by(d, row.dy, row.dz)))
		if !r.AtEdge || !strings.Contains(r.Message, row.want) || strings.Count(r.Message, ":") != 1 {
			t.Errorf("%v: %q, want %q and one colon", row.h, r.Message, row.want)
		}
		for _, number := range strings.FieldsFunc(r.Message, func(c rune) bool { return (c < '0' || c > '9') && c != '.' }) {
			if digits := strings.Trim(strings.ReplaceAll(number, ".", ""), "0"); len(digits) > 4 {
				t.Errorf("%v: the number %s in %q", row.h, number, r.Message)
			}
		}
	}
}

func TestShortNumbers(t *testing.T) {
	for text, want := range map[string]string{
		"z 229.87654 and 12.5 mm":  "z 229.9 and 12.5 mm",
		"285.7321 mm. Then":        "285.7 mm. Then",
		"0.00012345678 off":        "0.0001235 off",
		"10000 and 1234567.25 mm":  "10000 and 1234567 mm",
		"no number.":               "no number.",
		"−0.5 mm, rack 3.25000001": "−0.5 mm, rack 3.250",
	} {
		if got := shortNumbers(text); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
}

func TestLocksSayWhatTheyHold(t *testing.T) {
	c := onePivot()
	ball, end := point(kinematics.LowerBall), point(kinematics.OuterEnd)
	l := Locks{Height: setOf(kinematics.LowerBall)}
	if got := l.Words(&c, ball); got != "height held" {
		t.Errorf("%q", got)
	}
	if got := l.Words(&c, end); got != "" {
		t.Errorf("nothing holds the outer end, yet %q", got)
	}
	l.LowerArm, l.Side = true, setOf(kinematics.LowerBall)
	if got := l.Words(&c, ball); got != "height, side distance and length of the lower arm held" {
		t.Errorf("%q", got)
	}
}

func TestRearWords(t *testing.T) {
	got := ForRear("Rack end: the tie rod is short; the outer tie-rod end stops, tie-rod error")
	if want := "Body end of the toe link: the toe link is short; the outer toe-link end stops, toe-link error"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
