package trackpage

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/pages/pagetest"
	"armscribe/app/report"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// What the table shows is what armcalc reach prints, in either unit.
func TestReachShowsWhatTheReportSays(t *testing.T) {
	b := open(t, "gravel-estate")
	small := job.WheelChoice{Name: "small", Tyre: "185/60R14", RimWidth: units.Length{Typed: "5.5 in", MM: 139.7}, Offset: units.Length{MM: 20}}
	if err := b.Doc.EditJob("add a small wheel", "", func(j *job.Job) {
		j.Wheels = append(j.Wheels[:len(j.Wheels):len(j.Wheels)], small)
		j.Obstacles[3].At.X.MM += 12 // nearer to the tyre
		j.Obstacles[3].To.X.MM += 12
	}); err != nil {
		t.Fatal(err)
	}
	b.Select(reachAt)
	r := b.reach
	retype(r.to.Field, "783")
	retype(r.scrub.Field, "43")
	retype(r.spacer[1].Field, "26")
	retype(r.arms[0].Field, "-7")
	for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
		b.Unit = unit
		b.Show()
		spec := report.ReachSpec{Wish: report.UsualReach(b.Doc.Job().Units)}
		spec.To, spec.ScrubMax, spec.HasScrubMax, spec.SpacerMax, spec.ArmsMin = 783, 43, true, 26, -7
		want, err := report.ReachOf(b.Doc.Job(), 0, spec)
		if err != nil {
			t.Fatal(err)
		}
		want.Source.Unit = unit
		if len(r.answer.Answers) != len(want.Answers) || len(want.Answers) < 4 {
			t.Fatalf("%d answers, want %d", len(r.answer.Answers), len(want.Answers))
		}
		shown := headings(r.view)
		for i := range want.Answers {
			a := &want.Answers[i]
			track := sheet.Banded(sheet.Length, a.HalfTrack, a.TrackBand)
			number, _ := strings.CutSuffix(track.Value(unit), " "+unit.String())
			row := strings.Join([]string{sheet.Number(sheet.LaidOut, a.Spacer).Text(unit), sheet.Number(sheet.LaidOut, a.Arms).Signed().Text(unit), number, track.Half(unit)}, "\n")
			_, rest, found := strings.Cut(shown, " "+want.WheelWords(i)+"\n"+row+"\n")
			if !found {
				t.Errorf("%s, %q is not in\n%s", want.WheelWords(i), row, shown)
				continue
			}
			shown = rest
		}
		touching := 0
		for i := range want.Answers {
			if a := &want.Answers[i]; a.Leads() && a.Room.InTheWay() {
				touching++
			}
		}
		if says := fmt.Sprintf("ways lead there, ▲ %d of them touch something; 2 more would, but the brake does not pass.", touching); touching < 2 || !strings.Contains(pagetest.Said(r.view), says) {
			t.Errorf("said %q", pagetest.Said(r.view))
		}
	}
	if !drawn(t, b) {
		t.Error("no picture")
	}
}

// A picked way is kept, one undo, and has the face that was wished.
func TestAWayIsKept(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(reachAt)
	r, first := b.reach, b.Doc.Job()
	r.wish.SetSelected(wishFace)
	retype(r.to.Field, "911")
	for pick := range r.answer.Answers {
		r.pick(pick)
		wanted := r.answer.Answers[pick]
		test.Tap(r.keep)
		j := b.Doc.Job()
		if len(j.Variants) != len(first.Variants)+1 {
			t.Fatalf("variants %q: %s", j.Names(), r.after.Text)
		}
		v := &j.Variants[len(j.Variants)-1]
		body, ok := clearance.TyreOf(v)
		if !ok || v.Wheel.Tyre != wanted.Wheel.Wheel.Tyre || v.Wheel.Offset.MM != wanted.Wheel.Wheel.Offset.MM {
			t.Errorf("%s stands on %+v", v.Name, v.Wheel)
		}
		c := v.Corner()
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		pose, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		if face := body.Face(&pose); math.Abs(face+wanted.Short-911) > 0.01 {
			t.Errorf("%s: face at %g", v.Name, face)
		}
		if r.answer.picked != pick {
			t.Errorf("way %d is drawn after keeping way %d", r.answer.picked, pick)
		}
		b.Doc.Undo()
		b.Show()
		if !b.Doc.Job().Equal(first) {
			t.Errorf("%s takes more than one undo", v.Name)
		}
	}
}

func TestReachSaysWhatCannotBe(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(reachAt)
	r := b.reach
	r.scrub.SetText("") // of the job's target
	retype(r.to.Field, "871")
	if !strings.Contains(pagetest.Said(r.view), "✕ The wished track is not reached: the nearest in the track is “less offset”") || !strings.Contains(headings(r.view), "NOT REACHED: half track") {
		t.Errorf("said %q", pagetest.Said(r.view))
	}
	good := headings(r.view)
	for _, c := range []struct {
		name, says string
		put        func()
	}{
		{"no track", "a half track of 0 mm is not above 0", func() { r.to.SetText("0") }},
		{"blank", "the wished place: is blank", func() { r.to.SetText("") }},
		{"spacer below zero", "the thinnest spacer, −4 mm, is not between 0 mm and 30 mm", func() { r.spacer[0].SetText("-4") }},
		{"spacer in words", "spacer, to: ", func() { r.spacer[1].SetText("thick") }},
		{"arms crossed", "the shortest the arms may grow", func() { r.arms[0].SetText("61") }},
		{"limit of nothing", "a scrub radius of at most 0 mm", func() { r.scrub.SetText("0") }},
	} {
		c.put()
		if r.note.Hidden || !strings.Contains(r.note.Text, c.says) {
			t.Errorf("%s: %q", c.name, r.note.Text)
		}
		if !isMarked(&r.lastGood, r.picture.Plate.Draw, "from “as measured”: half track of 871 mm.") || headings(r.view) != good {
			t.Errorf("%s: the last answer is not kept or not marked: %q", c.name, r.whose.Text)
		}
		r.pick(len(r.answer.Answers) - 1) // looking is free
		if !r.keep.Disabled() {
			t.Errorf("%s: it can be kept", c.name)
		}
		r.pick(0)
		r.to.SetText("871")
		r.spacer[0].SetText("0")
		r.spacer[1].SetText("30")
		r.arms[0].SetText("0")
		r.scrub.SetText("")
	}
	if !r.note.Hidden || !r.whose.Hidden || r.keep.Disabled() {
		t.Errorf("it is still wrong: %q", r.note.Text)
	}
}

// Wheels are added to the job and taken out of it, each one undo, and are
// looked at.
func TestWheelsThatCanBeHad(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(reachAt)
	l, first := b.reach.wheels, b.Doc.Job()
	put := func(texts ...string) {
		for i, text := range texts {
			l.fields[i].SetText(text)
		}
	}
	put("deep dish", "215/60R15", "7 1/2 in", "-14", "305")
	test.Tap(l.add)
	list := b.Doc.Job().Wheels
	k := list[len(list)-1]
	if len(list) != len(first.Wheels)+1 || k.Name != "deep dish" || k.RimWidth.Typed != "7 1/2 in" || k.Offset.MM != -14 || k.LoadedRadius.MM != 305 || b.Doc.UndoName() != "add wheel deep dish" {
		t.Errorf("added %+v under %q: %s", k, b.Doc.UndoName(), l.note.Text)
	}
	if !strings.Contains(headings(b.reach.view), "deep dish: 215/60R15 on 7.5 in, offset") {
		t.Error("it is not looked at")
	}
	if l.fields[wheelName].Text != "" {
		t.Error("the fields still hold it")
	}
	held := b.Doc.Job()
	for _, c := range []struct {
		texts []string
		says  string
	}{
		{[]string{"", "round", "10 in", "20", ""}, "round"},
		{[]string{"", "205/65R15", "6", "20", ""}, "rim_width"},
		{[]string{"", "205/65R15", "", "20", ""}, "rim width: is blank"},
		{[]string{"", "", "10 in", "x", ""}, "tyre: is blank"},
		{[]string{"deep dish", "205/65R15", "6 in", "20", ""}, "deep dish"},
	} {
		put(c.texts...)
		test.Tap(l.add)
		if b.Doc.Job() != held || l.note.Hidden || !strings.Contains(l.note.Text, c.says) {
			t.Errorf("%q: %q", c.texts, l.note.Text)
		}
	}
	b.Doc.Undo()
	b.Show()
	if !b.Doc.Job().Equal(first) {
		t.Error("one undo does not take it back")
	}
	l.remove(1)
	if got := b.Doc.Job().Wheels; len(got) != len(first.Wheels)-1 || got[1].Name != first.Wheels[2].Name || first.Wheels[1].Name == first.Wheels[2].Name {
		t.Errorf("left: %+v", got)
	}
}
