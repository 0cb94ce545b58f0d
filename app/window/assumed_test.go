package window

import (
	"testing"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/jobcard"
	"armscribe/app/newjob"
	"armscribe/app/panels"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// The card's line about assumed values goes through all of them, one a press,
// each at a field of its own, and round again.
func TestCardStepsThroughWhatIsAssumed(t *testing.T) {
	w := open(t, "flat-teaching")
	f := newjob.Form{Axle: job.Front, Units: units.Millimetre, TwoPivots: [2]bool{true, false}}
	f.Typed[newjob.Track] = "1502"
	r, err := newjob.Make(f)
	if err != nil {
		t.Fatal(err)
	}
	w.use(document.New(r.Job, "", false))
	n := len(w.doc.Variant().Assumptions())
	seen := map[any]bool{}
	for i := range n + 1 {
		w.goTo(jobcard.Line{Place: jobcard.Points, Assumed: true})
		at := w.win.Canvas().Focused()
		if at == nil || seen[at] != (i == n) {
			t.Fatalf("press %d of %d: the keyboard is at %v, seen %v", i+1, n, at, seen[at])
		}
		seen[at] = true
	}
}

func TestPivotsFromTheMenu(t *testing.T) {
	w := open(t, "flat-teaching")
	for _, at := range []kinematics.Point{kinematics.UpperFront, kinematics.LowerFront} {
		for _, flat := range []bool{false, true} {
			c, ok := panels.PivotChangeOf(w.doc.Variant(), at)
			if !ok {
				t.Fatalf("nothing is offered for %s", at)
			}
			w.changePivots(c)
			if v := w.doc.Variant(); at == kinematics.UpperFront && v.UpperArm.Flat != flat || at == kinematics.LowerFront && v.LowerArm.Flat != flat {
				t.Errorf("%s: one pivot %v, want %v; %s", at, !flat, flat, w.status.Text)
			}
		}
	}
	if _, ok := panels.PivotChangeOf(w.doc.Variant(), kinematics.LowerBall); ok {
		t.Error("a ball joint is offered pivots")
	}
}

// The curve of what rests on an assumption says so over its strip.
func TestStripsSayAssumed(t *testing.T) {
	w := open(t, "flat-teaching")
	if err := w.edit("assume", func(v *job.Variant) { v.Assumed = v.Assumed.With(job.CamberValue, true) }); err != nil {
		t.Fatal(err)
	}
	w.refresh()
	var p plots
	titles := map[string]bool{}
	for _, s := range p.fill(&w.frame, curveChoice{Curves: firstStrips[atAGlance]}, &w.doc.Job().Targets, w.unit) {
		titles[s.Title] = true
	}
	if !titles["camber, assumed"] || !titles["toe"] || titles["toe, assumed"] {
		t.Errorf("%v", titles)
	}
}
