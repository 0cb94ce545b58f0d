package job_test

import (
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// What nobody changed is written as it was typed, however odd, of every kind of
// value: lengths, angles, counts, numbers, lists, the hub beside a track.
func TestOddSpellingsStay(t *testing.T) {
	data, err := os.ReadFile("../../testdata/job/format-1.5.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, c := range [][2]string{
		{`(?m)^travel: .*$`, `travel: {bump: "+70.00", droop: 0060, assumed: [ bump,  droop ]}`},

		{`(?m)camber: .*$`, `camber: "-01.50"`},
	} {
		re := regexp.MustCompile(c[0])
		if !re.MatchString(text) {
			t.Fatalf("the sample has no %s", c[0])
		}
		done := false
		text = re.ReplaceAllStringFunc(text, func(s string) string {
			if done {
				return s
			}
			done = true
			return c[1]
		})
	}
	j, err := job.Read("", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	out, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`bump: "+70.00"`, "droop: 0060", `camber: "-01.50"`} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%s is not kept:\n%s", want, out)
		}
	}
	// A changed one is written plainly, and takes none of its neighbours along.
	j.Travel.Bump = units.Length{MM: 71}
	if out, err = j.Encode(); err != nil || !strings.Contains(string(out), "droop: 0060") || strings.Contains(string(out), "+70.00") {
		t.Errorf("%v\n%s", err, out)
	}
}

// A hub that follows from a track keeps its text as long as it says the same, and has
// that of the track else.
func TestAHubBesideATrackFollows(t *testing.T) {
	j, _ := sample15(t)
	v := &j.Variants[0]
	c := v.Corner()
	v.Track = job.Given(units.Length{MM: 2 * c.RestContact().Y})
	v.PlaceHub()
	y := v.Hub.Y.MM
	out, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	back, err := job.Read("", out)
	if err != nil || math.Abs(back.Variants[0].Hub.Y.MM-y) > 1e-9 {
		t.Fatalf("%v, hub at %g, was %g", err, back.Variants[0].Hub.Y.MM, y)
	}
	at := regexp.MustCompile(`hub: \{y: ([0-9.]+)`).FindStringSubmatch(string(out))
	if at == nil {
		t.Fatalf("no hub in\n%s", out)
	}
	odd := strings.Replace(string(out), at[1], at[1]+"0", 1)
	if back, err = job.Read("", []byte(odd)); err != nil {
		t.Fatal(err)
	}
	if again, err := back.Encode(); err != nil || !strings.Contains(string(again), at[1]+"0") {
		t.Errorf("%v: the same hub is written anew\n%s", err, again)
	}
	back.Variants[0].Track.MM += 8
	back.Variants[0].Track.Typed = ""
	back.Variants[0].PlaceHub()
	if again, err := back.Encode(); err != nil || strings.Contains(string(again), at[1]) {
		t.Errorf("%v: another hub keeps the text\n%s", err, again)
	}
}

// Every direction leads somewhere, however long it is written, and the same way.
func TestDirectionsOfAnyLength(t *testing.T) {
	for _, d := range []job.Direction{{Y: 0.6, Z: 0.8}, {X: 3e300, Y: -4e300}, {Z: 5e-320}, {X: 1e-200, Z: -2e-200}} {
		v := d.Vec()
		most := max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z))
		if !(most >= 0.5 && most < 1) {
			t.Errorf("%+v leads by %+v", d, v)
		}
	}
}

// Keys of a newer MINOR are listed in the order of their lines.
func TestKeptKeysStandInOrder(t *testing.T) {
	data, err := os.ReadFile("../../testdata/job/format-1.5.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "armscribe: 1.5", "armscribe: 1.9", 1)
	text = strings.Replace(text, "  - name: ", "  - wing: 7\n    name: ", 1) + "zebra: 1\napple: 2\n"
	j, err := job.Read("", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	was := 0
	for _, k := range j.Kept() {
		if k.Line <= was {
			t.Errorf("%+v", j.Kept())
		}
		was = k.Line
	}
	if len(j.Kept()) != 3 {
		t.Errorf("%+v", j.Kept())
	}
}

// A fit that is kept binds the points: the toe curve is known as the gauge knew it, and
// better than by the tape; once the corner is another the readings are let go.
func TestAKeptFitIsKnownBetter(t *testing.T) {
	j, _ := sample15(t)
	i := -1
	for k := range j.Variants {
		if len(j.Variants[k].FittedTo) > 0 {
			i = k
		}
	}
	if i < 0 {
		t.Fatal("the sample has no fit")
	}
	v := &j.Variants[i]
	half := func(w kinematics.Within) float64 {
		c := v.Corner()
		l, err := kinematics.Linearise(&c, w, func(c *kinematics.Corner) ([]kinematics.Value, error) {
			m, err := kinematics.New(c)
			if err != nil {
				return nil, err
			}
			p, err := m.At(-40, 0)
			if err != nil {
				return nil, err
			}
			r := p.Readings()
			toe, ok := r.Of(kinematics.Toe)
			return []kinematics.Value{kinematics.Number(toe-c.Toe, ok)}, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		h, _ := l.Half(0)
		return h
	}
	fit := half(j.Known(v))
	list := v.FittedTo
	v.FittedTo = nil
	tape := half(j.Known(v))
	v.FittedTo = list
	j.ToeGauge.ReadsWithin = job.OptionalDegrees{Degrees: 3, Given: true}
	poor := half(j.Known(v))
	if !(fit < 0.9*tape && fit < poor && poor <= tape*(1+1e-9)) {
		t.Errorf("toe at -40 is known within %g by the tape, %g by the fit, %g by a poor gauge", tape, fit, poor)
	}
	former := *v
	v.Measured(&former)
	if len(v.FittedTo) == 0 {
		t.Error("a fit is let go though nothing changed")
	}
	v.TieRod.RackEnd.Z.MM += 2
	if v.Measured(&former); len(v.FittedTo) != 0 {
		t.Error("a fit stays with another corner")
	}
}
