package newjob

import (
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/app/car"
	"armscribe/app/figures"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/tune"
	"armscribe/kinematics"
)

// What rests on assumptions says so, in window and terminal alike, with a band that
// holds what the car may turn out to be: other values within their ranges, drawn
// at random, the track as it was measured.
func TestAssumedIsNotTyped(t *testing.T) {
	f := form(job.Front)
	for field, text := range map[Field]string{
		Track: "1459", HubHeight: "308", LowerPivotSide: "312", LowerPivotHeight: "184", LowerBallSide: "640", LowerBallHeight: "191",
		UpperPivotSide: "374", UpperPivotHeight: "443", UpperBallSide: "592", UpperBallHeight: "481",
	} {
		f.Typed[field] = text
	}
	r, err := Make(f)
	if err != nil {
		t.Fatal(err)
	}
	j := r.Job
	v := &j.Variants[0]
	list, err := report.ReadingsOf(report.SourceOf(j, 0), figures.Position{})
	if err != nil {
		t.Fatal(err)
	}
	var now frame.Frame
	if err := now.Update(car.StudyOf(j, v), nil, frame.Position{}); err != nil {
		t.Fatal(err)
	}
	setup := tune.SetupOf(j, 0)
	if a, ok := now.Advise(&setup); !ok || !strings.HasPrefix(a.What, "Rests on assumed values. ") {
		t.Errorf("the advice: %q", a.What)
	}
	table := list.Sheet().String()
	if !strings.Contains(table, "(what is assumed, by more)") {
		t.Errorf("the head:\n%s", table)
	}
	for key, want := range map[kinematics.Quantity]string{
		kinematics.Camber: "camber", kinematics.Toe: "toe", kinematics.Caster: "_arm.ball_joint.x", kinematics.Trail: "_arm.ball_joint.x",
		kinematics.ScrubRadius: "", kinematics.HalfTrack: "-", kinematics.SteeringAxisInclination: "-",
	} {
		l := list.Find(key.String())
		switch rests := len(l.Assumed) > 0; {
		case rests != now.Now.Bands.Assumed(key):
			t.Errorf("%s: the terminal says %v, the window %v", key, rests, now.Now.Bands.Assumed(key))
		case want == "-" && rests, want != "-" && want != "" && (!rests || !strings.HasSuffix(l.Assumed[0], want)):
			t.Errorf("%s rests on %v, want %q", key, l.Assumed, want)
		}
	}
	// What may be anything says what it needs, in window and terminal alike.
	for key, want := range map[kinematics.Quantity]string{kinematics.Camber: "needs camber", kinematics.Toe: "needs toe",
		kinematics.Caster: "needs x of", kinematics.SteeringAxisInclination: ""} {
		l := list.Find(key.String())
		at, ok := now.Now.Bands.Needs(key)
		corner := v.Corner()
		if _, full := job.NeedsWords(&corner, at); !strings.HasPrefix(l.Needs, want) || want == "" && l.Needs != "" || ok != (l.Needs != "") || ok && full != l.Needs {
			t.Errorf("%s %v: the terminal says %q, want %q; the window %v %q", key, l.Value, l.Needs, want, ok, full)
		}
	}
	if !strings.Contains(table, "needs camber") || !strings.Contains(table, "assumed: ") || strings.Contains(table, "taken as typed") {
		t.Errorf("the table:\n%s", table)
	}
	// Every number may be off as the job knows it; the readings then lie within
	// their bands as often as a band says.
	const seed, trials = 415, 500
	rnd := rand.New(rand.NewPCG(seed, 2))
	known := j.Known(v)
	inside := map[kinematics.Quantity]int{}
	quantities := []kinematics.Quantity{kinematics.Camber, kinematics.Caster, kinematics.ScrubRadius, kinematics.Trail, kinematics.HalfTrack}
	for range trials {
		c := v.Corner()
		for _, at := range known.Coordinates(&c) {
			known.Shift(&c, at, known.Size(at)*(2*rnd.Float64()-1))
		}
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		rest := p.Readings()
		for _, q := range quantities {
			x, _ := rest.Of(q)
			l := list.Find(q.String())
			if x >= l.Value-l.Band && x <= l.Value+l.Band {
				inside[q]++
			}
		}
	}
	for _, q := range quantities {
		if share := float64(inside[q]) / trials; share < 0.92 {
			t.Errorf("seed %d: %s lies within its band %.3f of the time", seed, q, share)
		}
	}
}
