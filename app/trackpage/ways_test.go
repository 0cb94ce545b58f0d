package trackpage

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/pages/pagetest"
	"armscribe/app/report"
	"armscribe/app/sheet"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// What the table shows is what armcalc widen prints, in either unit.
func TestWaysShowWhatTheReportSays(t *testing.T) {
	for demo, by := range map[string]string{"gravel-estate": "37", "rear-toe-link": "1 3/8"} {
		b := open(t, demo)
		b.Select(waysAt)
		retype(b.ways.by.Field, by)
		retype(b.ways.scrub.Field, "2 in")
		for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
			b.Unit = unit
			b.Show()
			mm, err := units.Parse(by, b.Doc.Job().Units)
			if err != nil {
				t.Fatal(err)
			}
			w, err := report.WidenOf(b.Doc.Job(), 0, report.WidenSpec{By: mm, ScrubMax: 50.8, HasScrubMax: true})
			if err != nil {
				t.Fatal(err)
			}
			w.Source.Unit = unit
			shown := headings(b.ways.view)
			lines := 0
			for _, p := range w.Parts() {
				for _, l := range p.Lines {
					want := []string{l.Name, l.Before.Unit(unit)}
					for i, c := range []sheet.Cell{l.Before, l.Spacers.Value, l.Spacers.Change} {
						number, _ := strings.CutSuffix(c.Value(unit), " "+c.Unit(unit))
						want = append(want, number)
						if i != 1 { // the value by a way is shown without its band
							want = append(want, c.Half(unit))
						}
					}
					text := strings.Join(slices.DeleteFunc(want, func(s string) bool { return s == "" }), "\n")
					_, rest, found := strings.Cut(shown, text+"\n")
					if !found {
						t.Errorf("%s: %q is not in\n%s", demo, text, shown)
						continue
					}
					if v := l.Spacers.Verdict; v != targets.NoTrend && !strings.HasSuffix(strings.SplitN(rest, "\n", 2)[0], v.String()) {
						t.Errorf("%s %s: verdict %.30q, want %s", demo, l.Name, rest, v)
					}
					lines, shown = lines+1, rest
				}
			}
			if lines < 15 {
				t.Errorf("%d lines", lines)
			}
			said, all := pagetest.Said(b.ways.view)+headings(b.ways.view), 0
			for _, item := range w.Sheet().Items {
				p, ok := item.(sheet.Prose)
				if !ok || p.On != sheet.OnText {
					continue
				}
				for _, text := range append([]sheet.Line{{Text: p.Title}}, p.Lines...) {
					if all++; !strings.Contains(said, text.Text) {
						t.Errorf("%q is not in\n%s", text.Text, said)
					}
				}
			}
			if foot := pagetest.Foot(b.ways.view); all < 6 || !strings.Contains(foot, " refitted for the longer arms: ") || strings.Contains(foot, "--") {
				t.Errorf("%d sentences; the foot says %q", all, foot)
			}
		}
		if !drawn(t, b) {
			t.Error("no picture")
		}
	}
}

func TestWaysOfWrongInput(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(waysAt)
	w := b.ways
	retype(w.by.Field, "37")
	retype(w.scrub.Field, "") // that of the job's target
	good := headings(w.view)
	for _, c := range []struct{ by, scrub, says string }{
		{"", "", "wider by: is blank"},
		{"0", "", "0 changes nothing"},
		{"wide", "", "wider by: "},
		{"60 in", "", "is not within ±500 mm"},
		{"-600", "", "\u2212600 mm a side is not within ±500 mm"},
		{"37", "0", "a scrub radius of at most 0 mm"},
		{"37", "-45", "at most −45 mm"},
		{"37", "x", "scrub radius of at most: "},
		{"", "y", "✕ scrub radius of at most: "},
	} {
		w.by.SetText(c.by)
		w.scrub.SetText(c.scrub)
		if w.note.Hidden || !strings.Contains(w.note.Text, c.says) {
			t.Errorf("%+v: %q", c, w.note.Text)
		}
		if !isMarked(&w.lastGood, w.picture.Plate.Draw, "“as measured”, wider a side by 37 mm") || headings(w.view) != good {
			t.Errorf("%+v: the last answer is not kept or not marked: %q", c, w.whose.Text)
		}
		for _, k := range w.keeps {
			if !k.Disabled() {
				t.Errorf("%+v: it can be kept", c)
			}
		}
		w.scrub.SetText("")
		w.by.SetText("37")
		if !w.note.Hidden || !w.whose.Hidden || w.stale || w.keeps[keepArms].Disabled() {
			t.Errorf("%+v: it is still wrong: %q", c, w.note.Text)
		}
	}
}

// Each button keeps the corner that was compared, and both are one undo.
func TestWaysAreKept(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(waysAt)
	w, first := b.ways, b.Doc.Job()
	retype(w.by.Field, "37")
	retype(w.scrub.Field, "41")
	tail := func(n int) []string { return b.Doc.Job().Names()[len(first.Variants):][:n] }
	corner := func(name string) kinematics.Corner {
		v, ok := b.Doc.Job().Find(name)
		if !ok {
			t.Fatalf("no variant %q in %q", name, b.Doc.Job().Names())
		}
		return v.Corner()
	}
	for button, want := range map[int][]string{keepSpacers: {"spacers +37 mm"}, keepArms: {"arms +37 mm"}, keepBoth: {"spacers +37 mm", "arms +37 mm"}, keepMix: {w.answer.VariantName(report.ByBoth)}} {
		test.Tap(w.keeps[button])
		if got := tail(len(want)); !slices.Equal(got, want) || len(b.Doc.Job().Variants) != len(first.Variants)+len(want) {
			t.Errorf("button %d kept %q, want %q", button, got, want)
		}
		for _, name := range want {
			way := map[string]report.Way{"spacers +37 mm": report.BySpacers, "arms +37 mm": report.ByArms, w.answer.VariantName(report.ByBoth): report.ByBoth}[name]
			if corner(name) != w.answer.Corner(way) {
				t.Errorf("%s is not the corner compared", name)
			}
		}
		if !strings.Contains(w.after.Text, "Kept as “"+want[0]+"”") && !strings.Contains(w.after.Text, strings.Join(want, "” and “")) {
			t.Errorf("button %d said %q", button, w.after.Text)
		}
		b.Doc.Undo()
		b.Show()
		if !b.Doc.Job().Equal(first) {
			t.Errorf("button %d takes more than one undo", button)
		}
	}
}

// The mix is asked for with a limit of the scrub radius: without one nothing is
// said of it.
func TestTheMixNeedsALimit(t *testing.T) {
	b := open(t, frontDemo)
	b.Select(waysAt)
	mix := b.ways.keeps[keepMix]
	retype(b.ways.scrub.Field, "") // that of the job's target
	if mix.Visible() {
		t.Error("it is offered without a limit")
	}
	retype(b.ways.scrub.Field, "45")
	if !mix.Visible() || mix.Disabled() {
		t.Errorf("with a limit it is visible %v, off %v", mix.Visible(), mix.Disabled())
	}
	retype(b.ways.scrub.Field, "0.3")
	if !mix.Visible() || !mix.Disabled() {
		t.Errorf("with a limit out of reach it is visible %v, off %v", mix.Visible(), mix.Disabled())
	}
}

// Another variant to start from is compared instead of the measured one.
func TestWaysFromAnotherVariant(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(waysAt)
	b.ways.from.SetSelected("spacers only")
	if b.ways.answer.Source.Variant != "spacers only" || !strings.Contains(pagetest.Said(b.ways.view), "“spacers only”, wider a side by 50 mm") {
		t.Errorf("compared %q: %q", b.ways.answer.Source.Variant, pagetest.Said(b.ways.view))
	}
	b.Show()
	if b.ways.from.Selected != "spacers only" {
		t.Errorf("after showing again: %q", b.ways.from.Selected)
	}
	retype(b.ways.by.Field, "-13")
	if b.ways.keeps[keepArms].Text != "Keep shorter arms as a variant" || !strings.Contains(pagetest.Said(b.ways.view), "narrower a side by 13 mm") {
		t.Errorf("narrower: %q, %q", b.ways.keeps[keepArms].Text, pagetest.Said(b.ways.view))
	}
}

// Farther in than the spacer is thick the arms alone are shown and kept, and it
// says why.
func TestNarrowerThanTheSpacer(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(waysAt)
	w := b.ways
	retype(w.by.Field, "-10")
	if w.answer == nil || !w.keeps[keepSpacers].Disabled() || !w.keeps[keepBoth].Disabled() || w.keeps[keepArms].Disabled() {
		t.Fatalf("answer %v: %s", w.answer != nil, w.note.Text)
	}
	if want := "Thinner spacers: not possible. There is no spacer to take away"; !strings.Contains(pagetest.Said(w.view), want) {
		t.Errorf("%q does not say %q", pagetest.Said(w.view), want)
	}
	if !drawn(t, b) {
		t.Error("no picture")
	}
	test.Tap(w.keeps[keepArms])
	names := b.Doc.Job().Names()
	if got := names[len(names)-1]; got != "arms \u221210 mm" {
		t.Errorf("kept %q", got)
	}
}
