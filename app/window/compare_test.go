package window

import (
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/targets"
	"armscribe/kinematics"
)

func TestEveryVariantStandsInTheComparison(t *testing.T) {
	w := open(t, "gravel-estate")
	w.setTravel(23)
	w.compareWith(1)
	scrub := w.reading(t, kinematics.ScrubRadius)
	c := w.comparison()
	if len(c.Sources) != len(w.doc.Job().Variants) || c.Reference != 1 || c.Shown != w.doc.Current() {
		t.Fatalf("%d variants, against %d, shown %d", len(c.Sources), c.Reference, c.Shown)
	}
	for i := range c.Sources {
		m, err := kinematics.New(&c.Sources[i].Corner)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(23, 0)
		if err != nil {
			t.Fatal(err)
		}
		r := p.Readings()
		for _, row := range c.Rows {
			if row.IsReading() {
				if v, ok := r.Of(row.Of); ok != row.Lines[i].Known || v != row.Lines[i].Value {
					t.Errorf("%s of variant %d is %g, by a single solution %g", row.Key, i, row.Lines[i].Value, v)
				}
			}
			if row.Changes[i].Known && i == 1 {
				t.Errorf("%s of the reference changes", row.Key)
			}
			if row.Is(kinematics.ScrubRadius) && i == w.doc.Current() && row.Lines[i].Value != scrub {
				t.Errorf("scrub radius %g in the table, %g in the window", row.Lines[i].Value, scrub)
			}
		}
	}
	table := c.Sheet().Items[len(c.Sheet().Items)-1].(*sheet.Table)
	if !strings.HasSuffix(table.Title, "at 23.0 mm bump, changes against spacers only") {
		t.Errorf("the table is called %q", table.Title)
	}
}

// What one variant does not reach leaves the others their columns.
func TestAVariantOutOfReachIsSaid(t *testing.T) {
	w := open(t, "gravel-estate")
	sources := w.comparison().Sources
	sources[1].Corner.Wheel.LoadedRadius = -3
	again := w.compareOf(sources)
	if again.Errs[1] == nil || again.Errs[0] != nil || again.Rows[0].Lines[1].Known || !again.Rows[0].Lines[0].Known {
		t.Fatalf("errors %v", again.Errs)
	}
	if notes := again.Sheet().NotesOn(sheet.OnWindow, w.unit); !strings.Contains(strings.Join(notes, "\n"), `"spacers only"`) {
		t.Errorf("nothing is said of it in %q", notes)
	}
}

func TestTheTableSaysWhoComesNearestToATarget(t *testing.T) {
	w := openWith(t, "gravel-estate", noTargets)
	if w.comparison().Targets != nil {
		t.Fatal("lines without a target")
	}
	last := len(w.doc.Job().Variants) - 1
	track := 2 * w.reading(t, kinematics.HalfTrack)
	w.aim(t, func(a *job.Targets) { a.Track = job.LengthRange{Min: length(track - 9), Max: length(track + 9)} })
	a := w.comparison().Targets
	if len(a.Results) != last+1 || len(a.Results[0]) != 1 {
		t.Fatalf("results %+v", a.Results)
	}
	if a.Results[last][0].Verdict != targets.Met || !a.Best[last][0] {
		t.Errorf("the widened one: %+v", a.Results[last][0])
	}
	if a.Results[0][0].Verdict != targets.Missed || a.Best[0][0] {
		t.Errorf("the measured one: %+v", a.Results[0][0])
	}
}

func TestVariantsSideBySideFollowAndLeadToOne(t *testing.T) {
	w := open(t, "gravel-estate")
	w.showCompare()
	if !w.isOpen(handOver, besideSection) {
		t.Fatal("they are not open")
	}
	w.deleteVariant(1)
	if got := len(w.comparison().Sources); got != 2 {
		t.Errorf("%d variants after a deletion", got)
	}
	w.compareView().Act("0", 0)
	if w.doc.Current() != 0 {
		t.Errorf("the button leads to variant %d", w.doc.Current())
	}
}
