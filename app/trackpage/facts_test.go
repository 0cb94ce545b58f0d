package trackpage

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/pages/pagetest"
	"armscribe/app/report"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas/plates"
)

// What the table shows is what the report, and so armcalc, says of the wheel
// typed, in either unit, the measured wheel beside it.
func TestFactsShowWhatTheReportSays(t *testing.T) {
	b := open(t, "gravel-estate")
	f := b.facts
	retype(f.tyre, "225/65R15")
	retype(f.rim.Field, "7 in")
	retype(f.offset.Field, "-23")
	retype(f.space.Field, "7")
	for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
		b.Unit = unit
		b.Show()
		spec := report.WheelSpecOf(b.Doc.Job(), b.Doc.Current())
		wheel := b.Doc.Variant().Wheel
		wheel.SetTyre("225/65R15")
		spec.Tyre, spec.Rim, spec.Offset, spec.Spacer, spec.Loaded = "225/65R15", 7*25.4, -23, 7, wheel.Loaded()
		now, err := report.WheelOf(spec)
		if err != nil {
			t.Fatal(err)
		}
		measured, err := report.WheelOf(report.WheelSpecOf(b.Doc.Job(), 0))
		if err != nil {
			t.Fatal(err)
		}
		shown := headings(f.view)
		lines := 0
		for _, p := range now.Parts() {
			for _, l := range p.Lines {
				want := l.Name + "\n" + sheet.Number(sheet.Taped, l.MM).Text(unit) + "\n" + sheet.Number(sheet.Taped, measured.Find(l.Key).MM).Text(unit) + "\n"
				_, rest, found := strings.Cut(shown, want)
				if !found {
					t.Errorf("%q is not in\n%s", want, shown)
					continue
				}
				shown = rest // names come again under the next heading
				lines++
			}
		}
		if lines < 18 {
			t.Errorf("%d lines", lines)
		}
		if text := pagetest.Said(f.view); !strings.Contains(text, strings.Join(now.Against(measured, unit), "; ")) || !strings.Contains(text, pages.UpperFirst(now.SpeedometerWords())) ||
			!strings.Contains(text, now.BrakeWords(unit)) {
			t.Errorf("beside the measured one: %q", text)
		}
		kept, err := report.KeepScrub(b.Doc.Job(), b.Doc.Current(), spec)
		if err != nil || !strings.Contains(pagetest.Said(f.view), strings.Join(kept.Words(unit), " ")) {
			t.Errorf("scrub: %q, %v", pagetest.Said(f.view), err)
		}
	}
	if f.rim.Text != "7 in" {
		t.Errorf("the rim's width became %q", f.rim.Text)
	}
	if !drawn(t, b) {
		t.Error("no picture")
	}
}

// Offset and backspacing lead to each other: a rim of 9 in is 10 in overall, so
// that the face at 41 mm stands 127 + 41 from the back edge.
func TestOffsetAndBackspacing(t *testing.T) {
	b := open(t, "gravel-estate")
	f := b.facts
	retype(f.rim.Field, "9 in")
	retype(f.offset.Field, "41")
	if f.back.Text != "168" {
		t.Errorf("backspacing %q", f.back.Text)
	}
	retype(f.back.Field, "6 in") // 152.4
	if f.offset.Text != "25.4" || math.Abs(f.answer.now.Spec.Offset-25.4) > 1e-9 {
		t.Errorf("offset %q, computed %v", f.offset.Text, f.answer.now.Spec.Offset)
	}
	retype(f.rim.Field, "8 in") // the backspacing was typed last: it stays
	if f.back.Text != "6 in" || f.offset.Text != "38.1" {
		t.Errorf("on a narrower rim: backspacing %q, offset %q", f.back.Text, f.offset.Text)
	}
	retype(f.offset.Field, "-11")
	retype(f.rim.Field, "10 in")
	if f.offset.Text != "-11" || f.back.Text != "128.7" {
		t.Errorf("offset %q, backspacing %q", f.offset.Text, f.back.Text)
	}
}

// Wrong input says what is wrong, keeps the last good answer and marks it.
func TestFactsOfWrongInput(t *testing.T) {
	b := open(t, "gravel-estate")
	f := b.facts
	good := headings(f.view)
	for _, c := range []struct {
		name string
		put  func()
		says string
	}{
		{"no code", func() { retype(f.tyre, "round") }, `tyre "round": not a size`},
		{"rim in the wrong unit", func() { retype(f.rim.Field, "6.5") }, "rim width 6.5 mm is not between"},
		{"rim in words", func() { retype(f.rim.Field, "wide") }, "rim width: "},
		{"blank rim", func() { f.rim.SetText("") }, "rim width: is blank"},
		{"offset outside the rim", func() { retype(f.offset.Field, "-100") }, "puts the mounting face outside the rim"},
		{"spacer below zero", func() { retype(f.space.Field, "-4") }, "spacer -4 mm is not between 0 and 300 mm"},
		{"decimal comma", func() { retype(f.offset.Field, "20,5") }, "comma"},
	} {
		c.put()
		if f.note.Hidden || !strings.Contains(f.note.Text, c.says) || !strings.HasPrefix(f.note.Text, "✕ ") {
			t.Errorf("%s: %q", c.name, f.note.Text)
		}
		if !isMarked(&f.lastGood, f.picture.Plate.Draw, "205/65R15 on 6 in, offset 18 mm.") || headings(f.view) != good {
			t.Errorf("%s: the last answer is not kept or not marked: %q", c.name, f.whose.Text)
		}
		if !f.use.Disabled() || !f.keep.Disabled() || !f.list.Disabled() {
			t.Errorf("%s: it can be used", c.name)
		}
		test.Tap(f.reset)
		if !f.note.Hidden || !f.whose.Hidden || f.use.Disabled() {
			t.Errorf("%s: it cannot be put back: %q", c.name, f.note.Text)
		}
	}
}

func TestTheWheelGoesOnTheVariant(t *testing.T) {
	b := open(t, "gravel-estate")
	f, first := b.facts, b.Doc.Job()
	retype(f.tyre, "195/70R15")
	retype(f.rim.Field, "5 1/2 in")
	retype(f.space.Field, "3/8 in")
	test.Tap(f.use)
	w := b.Doc.Variant().Wheel
	if w.Tyre != "195/70R15" || w.RimWidth.Typed != "5 1/2 in" || w.Offset.MM != 18 || w.Spacer.MM != 9.525 || w.LoadedRadius.MM != 308 || w.RadiusTyre != "205/65R15" || !w.Loaded().Estimate {
		t.Errorf("the variant stands on %+v", w)
	}
	if !strings.Contains(f.after.Text, "loaded radius is an estimate: 195/70R15 by the 308.0 mm measured with 205/65R15.") {
		t.Errorf("said: %q", f.after.Text)
	}
	if name := b.Doc.UndoName(); !strings.HasPrefix(name, "use wheel 195/70R15 on 5.5 in, offset 18 mm") {
		t.Errorf("undo %q", name)
	}
	b.Doc.Undo()
	b.Show()
	if !b.Doc.Job().Equal(first) || f.tyre.Text != "205/65R15" || f.rim.Text != "6 in" {
		t.Errorf("after undo the fields hold %q on %q", f.tyre.Text, f.rim.Text)
	}
	// The same tyre in another spelling keeps its measured radius.
	retype(f.tyre, "205/65 r15")
	retype(f.offset.Field, "33")
	test.Tap(f.keep)
	last := &b.Doc.Job().Variants[len(b.Doc.Job().Variants)-1]
	if last.Name != "longer arms, 205/65 r15 on 6 in, offset 33 mm" || last.Wheel.LoadedRadius.MM != 308 || last.Wheel.Offset.MM != 33 {
		t.Errorf("kept %q: %+v", last.Name, last.Wheel)
	}
}

// A wheel without a size has nothing to set beside, and breaks nothing.
func TestFactsBesideAWheelWithoutASize(t *testing.T) {
	j := open(t, "gravel-estate").Doc.Job().Clone()
	j.Variants[0].Wheel.Tyre = "bespoke"
	b := openJob(t, j)
	if text := pagetest.Said(b.facts.view); !strings.Contains(text, "has no size that can be read") {
		t.Error(text)
	}
	if !drawn(t, b) {
		t.Error("no picture")
	}
}

// A wheel that was worked out is listed in the job, and looked at by Find a way.
func TestAWheelIsListed(t *testing.T) {
	b := open(t, "gravel-estate")
	f := b.facts
	retype(f.offset.Field, "-27")
	test.Tap(f.list)
	list := b.Doc.Job().Wheels
	k := list[len(list)-1]
	if k.Name != "205/65R15 on 6 in, offset -27 mm" && k.Name != "205/65R15 on 6 in, offset −27 mm" || k.Offset.MM != -27 || k.RimWidth.Typed != "6 in" || k.LoadedRadius.MM != 308 {
		t.Errorf("listed %+v: %s", k, f.after.Text)
	}
	b.Select(reachAt)
	if !strings.Contains(headings(b.reach.view), k.Name) {
		t.Error("it is not looked at")
	}
}

// The section names upright and arm by what they are joined by, and everything near
// the wheel with its gap.
func TestTheSectionNamesWhatStandsAround(t *testing.T) {
	b := open(t, frontDemo)
	if err := b.Doc.EditJob("lower the lip", "", func(j *job.Job) { j.Obstacles[2].Via.Z.MM -= 60 }); err != nil {
		t.Fatal(err)
	}
	b.Show()
	f := b.facts
	texts := picturedTexts(f.picture.Plate.Draw, 620, 660)
	named := 0
	for _, p := range f.picture.Plate.(*plates.Section).Parts {
		if strings.Contains(texts, p.Words) {
			named++
		}
	}
	if named < 4 {
		t.Errorf("%d parts around the wheel are named", named)
	}
	for _, name := range []string{"arch lip", "inner wing", "upper ball joint"} {
		if !strings.Contains(texts, name) {
			t.Errorf("no %s in %q", name, texts)
		}
	}
}
