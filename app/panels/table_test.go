package panels

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/app/figures"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// drawn returns all texts of the readings with their places.
func drawn(r *Readings, w, h float64) []string {
	var l draw.List
	r.draw(&l, w, h)
	var list []string
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Kind == draw.KindText {
			list = append(list, strings.Join([]string{units.FormatNumber(it.Centre.At.X, 2), units.FormatNumber(it.Centre.At.Y, 2), string(l.TextOf(it))}, " "))
		}
	}
	return list
}

// However the hand got there, the same positions make the same picture.
func TestTheTableForgetsTheWayToIt(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := arranged(t, b)
	fresh := drawn(r, 248, 705)
	b.at = frame.Position{Travel: 57.3}
	if err := b.doc.Edit("move", "", func(v *job.Variant) { v.LowerArm.Ball.Z.MM += 87; v.LowerArm.Ball.Y.MM += 61 }); err != nil {
		t.Fatal(err)
	}
	r.SetInput(b.input())
	if slices.Equal(drawn(r, 248, 705), fresh) {
		t.Fatal("a large move shows nothing")
	}
	b.doc.Undo()
	b.at = frame.Position{}
	r.SetInput(b.input())
	if got := drawn(r, 248, 705); !slices.Equal(got, fresh) {
		t.Errorf("after the way there and back\n%q\nfresh\n%q", got, fresh)
	}
}

// All values of a table end at one edge, beside their names or under them.
func TestValuesEndAtOneEdge(t *testing.T) {
	for _, demo := range []string{"gravel-estate", "rear-toe-link"} {
		for _, unit := range []units.Unit{units.Millimetre, units.Inch} {
			b := newBench(t, demo)
			b.unit = unit
			r := arranged(t, b)
			for _, travel := range []float64{-47, 0, 3, 38} {
				b.at.Travel = travel
				r.SetInput(b.input())
				r.arrange()
				for i := range r.table.lines {
					l := &r.table.lines[i]
					if l.valueRight != r.table.valueEdge {
						t.Errorf("%s in %v at %g: %q of %s ends at %.1f, not at %.1f", demo, unit, travel, l.value, l.label, l.valueRight, r.table.valueEdge)
					}
				}
			}
		}
	}
}

// A change smaller than its own band says so; one that the points decide does
// not, however wide the bands of both values are.
func TestAChangeWithinItsBandIsMarked(t *testing.T) {
	b := newBench(t, "gravel-estate")
	for i, v := range b.doc.Job().Variants {
		if v.Name == "as measured" {
			b.doc.Show(i)
		}
	}
	if err := b.doc.Edit("hub", "", func(v *job.Variant) { v.Hub.Y.MM++ }); err != nil {
		t.Fatal(err)
	}
	b.doc.Compare(len(b.doc.Job().Variants) - 1)
	r := arranged(t, b)
	v, _ := r.shown.now.Of(kinematics.Caster)
	was, _ := r.shown.before.Of(kinematics.Caster)
	half, ok := r.shown.change.Of(kinematics.Caster)
	if !r.shown.hasChange || !ok {
		t.Fatal("no band of the change")
	}
	seen := 0
	for i := range r.table.lines {
		l := &r.table.lines[i]
		if strings.HasPrefix(l.delta, nearMark) {
			seen++
			v, _ := l.At(&r.shown.now)
			was, _ := l.At(&r.shown.before)
			if h, _ := r.shown.change.Of(l.Of); l.IsReading() && (v-was >= h || was-v >= h) {
				t.Errorf("%s: a change of %g marked, its band is %g", l.label, v-was, h)
			}
		}
	}
	got := words(t, r, "Half track")
	if seen == 0 || strings.Contains(got, nearMark) {
		t.Errorf("%d marked, half track %q, caster %g from %g within %g", seen, got, v, was, half)
	}
}

// An instant centre names its side, and the figure has no sign.
func TestTheInstantCentreNamesItsSide(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := arranged(t, b)
	v, _ := r.shown.now.Of(kinematics.InstantCentreY)
	if v >= 0 {
		t.Fatalf("the instant centre stands at %g; the test needs another corner", v)
	}
	want := scaleOfKind(sheet.Length, units.Millimetre)
	want.plain--
	half, _ := r.shown.bands.Of(kinematics.InstantCentreY)
	if got := words(t, r, "Inst. centre, beyond centre plane"); !strings.HasPrefix(got, want.figures(-v, half, 0, false).value) || strings.HasPrefix(got, "−") {
		t.Errorf("%q at %g", got, v)
	}
	if s := r.shown.sentence(figures.Of(kinematics.InstantCentreY)); !strings.Contains(s, "other side of the car") || strings.Contains(s, "Positive") {
		t.Errorf("sentence %q", s)
	}
}

func TestADirectionIsAWordAndNotASign(t *testing.T) {
	b := newBench(t, "gravel-estate")
	for _, row := range []struct {
		at   frame.Position
		want string
	}{
		{frame.Position{Travel: -15.8}, "at 15.8 mm droop"},
		{frame.Position{Travel: 20}, "at 20.0 mm bump"},
		{frame.Position{Rack: 35.7}, "at rack 35.7 mm left"},
		{frame.Position{Travel: 3, Rack: -4.25}, "at 3.0 mm bump, rack 4.2 mm right"},
	} {
		b.at = row.at
		r := arranged(t, b)
		if got := r.shown.place(); got != row.want {
			t.Errorf("%q, wanted %q", got, row.want)
		}
	}
}

// The sentence is read whole in the panel, under the table.
func TestTheSentenceStandsUnderTheTable(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := NewReadings()
	show(t, r, look.Light, 248, 705)
	r.SetInput(b.input())
	r.arrange()
	for i := range r.table.lines {
		l := &r.table.lines[i]
		r.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(40, float32(r.table.top+l.y+5-r.scroll))}})
		if r.lit == nil || r.lit != l.item {
			t.Fatalf("%s is not lit", l.label)
		}
		if got := strings.Join(r.underText(248-2*margin, underRows(705)), " "); got != r.said || got == "" {
			t.Errorf("%s: shown %q\nof %q", l.label, got, r.said)
		}
	}
	r.MouseOut()
	if got := strings.Join(drawn(r, 248, 705), " "); !strings.Contains(got, "95 times") {
		t.Errorf("no legend in %q", got)
	}
	// A short panel keeps its height for the table.
	if underHeight(560) != 0 || underHeight(605) < 5*underStep {
		t.Errorf("%g and %g", underHeight(560), underHeight(605))
	}
}

// A rear axle has no rack and no tie rod.
func TestARearCornerHasAToeLink(t *testing.T) {
	b := newBench(t, "rear-toe-link")
	r := arranged(t, b)
	if got := words(t, r, "Toe-link error"); got == "" {
		t.Error("no toe-link error")
	}
	for i := range r.table.lines {
		s := r.shown.sentence(r.table.lines[i].item)
		for _, word := range []string{"tie rod", "tie-rod", "Tie-rod", " rack"} {
			if strings.Contains(s, word) {
				t.Errorf("%q in %q", word, s)
			}
		}
	}
}
