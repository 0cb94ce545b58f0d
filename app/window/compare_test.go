package window

import (
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/panels"
	"armscribe/kinematics"
)

func TestEveryVariantHasItsColumn(t *testing.T) {
	w := open(t, "gravel-estate")
	w.setTravel(23)
	w.compareWith(1)
	scrub := w.reading(t, kinematics.ScrubRadius)
	columns := w.compareColumns()
	if len(columns) != len(w.doc.Job().Variants) {
		t.Fatalf("%d columns", len(columns))
	}
	for i, c := range columns {
		m, err := kinematics.New(&c.Input.Frame.Now.Study.Case.Corner)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(23, 0)
		if err != nil || p.Readings() != c.Input.Frame.Now.Readings {
			t.Errorf("column %d does not have the readings of a single solution (%v)", i, err)
		}
		if c.Reference != (i == 1) || c.Shown != (i == w.doc.Current()) || !c.Input.Frame.HasBefore {
			t.Errorf("column %d: %+v", i, c)
		}
	}
	if v, _ := columns[w.doc.Current()].Input.Frame.Now.Readings.Of(kinematics.ScrubRadius); v != scrub {
		t.Errorf("scrub radius %g in the table, %g in the window", v, scrub)
	}
}

func TestTheTableSaysWhoComesNearestToATarget(t *testing.T) {
	w := openWith(t, "gravel-estate", noAims)
	if w.compareTargets() != nil {
		t.Fatal("lines without a target")
	}
	last := len(w.doc.Job().Variants) - 1
	track := 2 * w.reading(t, kinematics.HalfTrack)
	w.aim(t, func(a *job.Targets) { a.Track = job.LengthRange{Min: length(track - 9), Max: length(track + 9)} })
	lines := w.compareTargets()
	if len(lines) != 1 || len(lines[0].Cells) != last+1 {
		t.Fatalf("lines %+v", lines)
	}
	if c := lines[0].Cells[last]; c.Verdict != panels.Met || !c.Best {
		t.Errorf("the widened one: %+v", c)
	}
	if c := lines[0].Cells[0]; c.Verdict != panels.NotMet || c.Best {
		t.Errorf("the measured one: %+v", c)
	}
}

func TestTheComparePageFollowsAndLeadsToAVariant(t *testing.T) {
	w := open(t, "gravel-estate")
	w.showCompare()
	if w.page == nil || w.win.Canvas().Focused() == nil {
		t.Fatal("no page, or nothing for the keyboard")
	}
	w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	w.deleteVariant(1)
	if got := len(w.compareColumns()); got != 2 || w.page == nil {
		t.Errorf("%d columns after a deletion", got)
	}
	w.compareColumns()[0].Go()
	if w.page != nil || w.doc.Current() != 0 {
		t.Errorf("the button leads to variant %d, page %v", w.doc.Current(), w.page)
	}
}
