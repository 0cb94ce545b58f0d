package trackpage

import (
	"math"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/pages/pagetest"
	"armscribe/canvas/draw"
)

func pull(t *testing.T, s *bench, inCase string) float64 {
	t.Helper()
	if s.effort.answer == nil {
		t.Fatalf("no answer: %s", s.effort.note.Text)
	}
	l := s.effort.answer.Find(inCase, "rim_pull")
	if l == nil {
		t.Fatalf("no pull in %s", inCase)
	}
	return l.Now.Value
}

// The corner weight, the rack and the steering wheel are the job's; forces follow
// them by the rules of statics.
func TestConditionsOfTheJobAreTyped(t *testing.T) {
	s := openAt(t, frontDemo, spacersOnly, "Effort")
	e := s.effort
	was := pull(t, s, "parking")
	old := s.Doc.Job()
	pagetest.Enter(e.weight, "770 lb")
	if got := s.Doc.Job().CornerWeight; got.Text() != "770 lb" || s.Doc.UndoName() != "type the corner weight" {
		t.Errorf("the job holds %q, Undo %q", got.Text(), s.Doc.UndoName())
	}
	share := 770 * job.KgPerPound / old.CornerWeight.Kg
	if got := pull(t, s, "parking") / was; math.Abs(got-share) > 1e-9 {
		t.Errorf("pull grew by %.6f, the weight by %.6f", got, share)
	}
	pagetest.Enter(e.turn.Field, "41")
	pagetest.Enter(e.wheel.Field, "13 in")
	if got, want := pull(t, s, "parking")/was, share*41/old.Steering.RackPerTurn.MM*old.Steering.WheelDiameter.MM/330.2; math.Abs(got-want) > 1e-9 {
		t.Errorf("pull grew by %.6f, want %.6f", got, want)
	}
	pagetest.Enter(e.weight, "heavy")
	if !strings.Contains(e.note.Text, "corner weight: ") || s.Doc.Job().CornerWeight.Text() != "770 lb" {
		t.Errorf("a weight in words: %q", e.note.Text)
	}
	pagetest.Enter(e.weight, "")
	if s.Doc.Job().CornerWeight.Given || math.Abs(pull(t, s, "braking")) < 1 || !strings.Contains(pagetest.Foot(e.view), "Assumed, not of this car: 350 kg on each wheel.") {
		t.Errorf("without a weight it says %s", pagetest.Foot(e.view))
	}
	if strings.Contains(pagetest.Foot(e.view), "--") {
		t.Error("the window speaks of flags")
	}
}

// Grips and bump are the page's own, and wrong ones are said by name.
func TestGripsAreTyped(t *testing.T) {
	s := openAt(t, frontDemo, longerArms, "Effort")
	e := s.effort
	was := pull(t, s, "braking")
	e.shares[rightGrip].SetText("0.8")
	if got := pull(t, s, "braking"); math.Abs(got) > 1e-6 || math.Abs(was) < 1 {
		t.Errorf("the same grip on both sides pulls %v, was %v", got, was)
	}
	said := pagetest.Said(e.view)
	for text, word := range map[string]string{"0,7": "a comma", "": "is blank", "much": "is not a number", "-0.1": "not between", "NaN": "is not a number", "0x1p-1": "is not a number"} {
		e.shares[parkingGrip].SetText(text)
		if !strings.Contains(e.note.Text, "grip for parking: ") || !strings.Contains(e.note.Text, word) {
			t.Errorf("%q: %q", text, e.note.Text)
		}
		if !isMarked(&e.lastGood, e.picture.Plate.Draw, "“longer arms” under the last conditions") || pagetest.Said(e.view) != said {
			t.Errorf("%q: the last answer is not kept or not marked: %q", text, e.whose.Text)
		}
	}
	e.usual.OnTapped()
	if got := pull(t, s, "braking"); got != was || s.Doc.Changed() && s.Doc.UndoName() != "" {
		t.Errorf("back to the usual: %v, was %v, Undo %q", got, was, s.Doc.UndoName())
	}
}

// The bars are as long as what they stand for, on one scale each.
func TestBarsAreToScale(t *testing.T) {
	s := openAt(t, frontDemo, spacersOnly, "Effort")
	var l draw.List
	s.effort.picture.Plate.Draw(&l, 560, 690)
	var lengths []float64
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Role == draw.DimensionNow && it.Kind == draw.KindPath {
			c := l.Corners(it)
			lengths = append(lengths, c[1].At.X-c[0].At.X)
		}
	}
	lengths = lengths[1:] // the legend's sample
	var want []float64
	for _, c := range []string{"parking", "braking", "bump"} {
		for _, k := range []string{"left_moment", "right_moment", "rack", "rim_pull"} {
			want = append(want, math.Abs(s.effort.answer.Find(c, k).Now.Value))
		}
	}
	if len(lengths) != len(want) {
		t.Fatalf("%d bars, want %d", len(lengths), len(want))
	}
	for _, pair := range [][2]int{{0, 1}, {0, 4}, {4, 9}, {2, 6}, {6, 10}, {3, 7}, {3, 11}} {
		a, b := pair[0], pair[1]
		if got, want := lengths[a]/lengths[b], want[a]/want[b]; math.Abs(got-want) > 1e-6*want {
			t.Errorf("bars %d and %d: %.5f to one, want %.5f", a, b, got, want)
		}
	}
}

// Words tell better from worse, and leave out shares of what nearly cancels out.
func TestEffortSentences(t *testing.T) {
	s := openAt(t, frontDemo, spacersOnly, "Effort")
	if text := pagetest.Said(s.effort.view); strings.Count(text, ": worse by ") != 3 || strings.Count(text, "✕ ") != 3 || !strings.Contains(text, "%") {
		t.Errorf("spacers: %s", text)
	}
	s.Doc.Show(longerArms)
	s.Show()
	if text := pagetest.Said(s.effort.view); strings.Contains(text, "worse") || strings.Count(text, ": kept, ") != 3 {
		t.Errorf("longer arms: %s", text)
	}
	s.Doc.Show(asMeasured)
	s.Show()
	if text := pagetest.Said(s.effort.view); !strings.Contains(text, "This is the measured corner") {
		t.Errorf("as measured: %s", text)
	}
}

// Long names stand whole in the legend, in a row of their own where the picture is
// narrow, and are cut where even that does not hold them.
func TestTheLegendOfTheBarsKeepsNames(t *testing.T) {
	b := open(t, rearDemo)
	if err := b.Doc.AddVariant("inner end raised by a quarter", nil); err != nil {
		t.Fatal(err)
	}
	b.section(t, "Effort")
	for _, c := range []struct {
		wide float64
		now  string
		rows int
	}{{620, "now: inner end raised by a quarter", 1}, {290, "now: inner end raised by a quarter", 2}, {200, "now: inner end raised b…", 2}} {
		var l draw.List
		b.effort.picture.Plate.Draw(&l, c.wide, 690)
		at := map[string]float64{}
		for i := range l.Items() {
			if it := &l.Items()[i]; it.Kind == draw.KindText {
				at[string(l.TextOf(it))] = it.Centre.At.Y
			}
		}
		now, ok := at[c.now]
		if !ok {
			t.Errorf("%g wide: no %q among %v", c.wide, c.now, at)
		}
		if before, ok := at["before: as measured"]; !ok || (before < now) != (c.rows == 2) {
			t.Errorf("%g wide: %q at %g, before at %g, want %d rows", c.wide, c.now, now, before, c.rows)
		}
	}
}

// A rear axle has neither steering wheel nor parking.
func TestEffortOfARearAxle(t *testing.T) {
	s := openAt(t, rearDemo, asMeasured, "Effort")
	texts := picturedTexts(s.effort.picture.Plate.Draw, 540, 690)
	if strings.Contains(texts, "hand\n") || !strings.Contains(texts, "link, left") || strings.Contains(pagetest.Foot(s.effort.view), "steering wheel") {
		t.Errorf("%s\n%s", texts, pagetest.Foot(s.effort.view))
	}
}
