package bumppage

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/pages/pagetest"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/canvas/plates/platetest"
	"armscribe/kinematics/bumpsteer"
)

// bench is a page on a demo job.
type bench struct {
	*Page
	*pagetest.Bench
}

// The sections by their place.
const (
	diagnosisAt = iota
	cureAt
	spacersAt
	fanAt
	gaugeAt
	fitAt
	adjustersAt
)

// open makes a page on a demo job.
func open(t testing.TB, demo string) *bench {
	t.Helper()
	b := &bench{Bench: pagetest.New(t, pagetest.Demo(t, demo))}
	b.Page = New(b.Host())
	b.Put(b.Object(), 1240, 720, b.Page.Show)
	return b
}

func TestACureIsFoundAndKeptAndMakesTheDiagnosisFine(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(cureAt)
	b.cure.rows[bumpsteer.RackEndSide].tick.SetChecked(true)
	test.Tap(b.cure.find)
	r := b.cure.found
	if r == nil {
		t.Fatalf("no cure: %s", b.cure.note.Text)
	}
	const small = 0.05 / pages.Degree
	if r.Result.Before.Change < 8*small || r.Result.After.Change > small/2 {
		t.Fatalf("toe change %.4f deg before, %.4f after", r.Result.Before.Change*pages.Degree, r.Result.After.Change*pages.Degree)
	}
	was := b.Doc.Variant().Name
	test.Tap(b.cure.keep)
	v := b.Doc.Variant()
	if v.Name != was+", tuned" || !strings.Contains(v.Notes, "outer end height +") || b.Doc.UndoName() != "add "+v.Name {
		t.Fatalf("kept %q, notes %q, undo %q", v.Name, v.Notes, b.Doc.UndoName())
	}
	if got := v.Corner(); got != r.Result.Corner {
		t.Fatalf("kept %v, found %v", got, r.Result.Corner)
	}
	b.Select(diagnosisAt)
	d, err := bumpsteer.Diagnose(b.setup.Corner, b.setup.Within, -b.setup.Droop, b.setup.Bump)
	words := pagetest.Said(b.sections[diagnosisAt].(*diagnosis).view)
	if err != nil || d.Change > small/2 || d.Slope.Decided() && !strings.Contains(words, "slope: too small to matter") ||
		d.Bow.Decided() && !strings.Contains(words, "bow: too small to matter") {
		t.Fatalf("the kept variant's toe changes by %g deg, its diagnosis says %q (%v)", d.Change*pages.Degree, words, err)
	}
	b.Select(cureAt)
	if f := b.cure.found; f == nil || f.Source.Corner != b.Doc.Variant().Corner() {
		t.Fatal("the cure is not that of the variant shown")
	}
}

func TestASearchGivenUpChangesNothing(t *testing.T) {
	b := open(t, "gravel-estate")
	first := b.File(t)
	var searches []func()
	b.Apart = func(f func()) { searches = append(searches, f) }
	b.Select(cureAt) // which looks unasked
	if b.cure.cancel == nil || !b.cure.halt.Visible() || !b.cure.find.Disabled() {
		t.Fatal("no search runs")
	}
	test.Tap(b.cure.halt)
	if b.cure.cancel != nil || b.cure.halt.Visible() || b.cure.find.Disabled() || !strings.HasPrefix(b.cure.note.Text, "Cancelled") {
		t.Fatalf("after Cancel the page says %q", b.cure.note.Text)
	}
	test.Tap(b.cure.find)
	said := b.cure.note.Text
	searches[0]() // what it has still to say is not heard
	if b.cure.found != nil || b.cure.cancel == nil || b.cure.note.Text != said || b.File(t) != first {
		t.Fatalf("a search that was given up left something behind: %q", b.cure.note.Text)
	}
	searches[1]()
	if b.cure.found == nil || b.cure.cancel != nil || b.File(t) != first {
		t.Fatalf("the search after it finds nothing: %s", b.cure.note.Text)
	}
}

func TestWrongLimitsAreNamed(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(c *cure)
		says   string
	}{
		{"nothing freed", func(c *cure) { c.rows[bumpsteer.OuterEndHeight].tick.SetChecked(false) }, "nothing is free"},
		{"reversed", func(c *cure) { c.rows[bumpsteer.OuterEndHeight].low.SetText("31") }, "outer end height"},
		{"no number", func(c *cure) { c.rows[bumpsteer.OuterEndHeight].high.SetText("5,2") }, "outer end height, to: "},
		{"blank range", func(c *cure) { c.from[bumpsteer.OverTravel].SetText("") }, "range, from: is blank"},
		{"range without rest", func(c *cure) { c.from[bumpsteer.OverTravel].SetText("11") }, "rest"},
		{"far too far", func(c *cure) { c.to[bumpsteer.OverTravel].SetText("700") }, "short"},
		{"slope of words", func(c *cure) { c.goal.SetSelected(slopeTravel); c.slope.SetText("steep") }, "slope: "},
	} {
		b := open(t, "gravel-estate")
		b.Select(cureAt)
		c.change(b.cure)
		test.Tap(b.cure.find)
		if b.cure.found != nil || !strings.Contains(b.cure.note.Text, c.says) {
			t.Errorf("%s: the page says %q", c.name, b.cure.note.Text)
		}
	}
}

func TestTheUnitOnDisplayChangesNoLimit(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(cureAt)
	before, err := b.cure.request()
	if err != nil {
		t.Fatal(err)
	}
	b.Unit = units.Inch
	b.Show()
	after, err := b.cure.request()
	if err != nil {
		t.Fatal(err)
	}
	const rounding = 0.0127 // mm: half a thousandth of an inch
	if d := after.Free[0].Max - before.Free[0].Max; math.Abs(d) > rounding || b.cure.rows[0].high.Text != "0.984" {
		t.Fatalf("limit %g mm, in inches %q, off by %g mm", before.Free[0].Max, b.cure.rows[0].high.Text, d)
	}
	if d := after.Goal.To - before.Goal.To; math.Abs(d) > rounding {
		t.Fatalf("range off by %g mm", d)
	}
}

func TestUndoWhileThePageIsOpenDropsTheCure(t *testing.T) {
	b := open(t, "gravel-estate")
	if err := b.Doc.Edit("raise", "", func(v *job.Variant) { v.TieRod.RackEnd.Z = units.Length{MM: 217.3} }); err != nil {
		t.Fatal(err)
	}
	b.Select(cureAt)
	test.Tap(b.cure.find)
	b.Doc.Undo()
	b.Show()
	if f := b.cure.found; f == nil || f.Source.Corner != b.Doc.Variant().Corner() {
		t.Fatalf("the cure is not that of the corner undone; the page says %q", b.cure.note.Text)
	}
}

func TestAChosenSlopeInRollIsReached(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(cureAt)
	b.cure.goal.SetSelected(slopeRoll)
	b.cure.slope.SetText("0.07")
	b.cure.rows[bumpsteer.RackEndSide].tick.SetChecked(true)
	test.Tap(b.cure.find)
	r := b.cure.found
	if r == nil {
		t.Fatal(b.cure.note.Text)
	}
	toe := r.Result.After.ToeChange
	const near = 0.02 / pages.Degree
	last := len(toe.At) - 1
	if r.Spec.Goal.Over != bumpsteer.OverRoll || math.Abs(toe.Toe[last]-0.07*toe.At[last]) > near || r.Result.After.Largest > near {
		t.Fatalf("at %g deg of roll toe changes by %g deg", toe.At[last]*pages.Degree, toe.Toe[last]*pages.Degree)
	}
	if n := len(b.cure.picture().Curves); n != 3 {
		t.Fatalf("%d curves: before, after and the wanted line are due", n)
	}
}

func TestStacksComeFromTheShopsList(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(spacersAt)
	s := b.sections[spacersAt].(*spacers)
	first := b.File(t)
	s.stock.SetText("1,5, 2")
	s.stock.Hand()
	if !strings.Contains(s.note.Text, "two readings") || b.File(t) != first || s.stock.Text != "1,5, 2" {
		t.Fatalf("“1,5” was taken: %q, the page says %q", s.stock.Text, s.note.Text)
	}
	s.stock.SetText("1.5, 2 (4), 6.5")
	s.stock.Hand()
	want := []job.Stock{{Thickness: units.Length{MM: 1.5}}, {Thickness: units.Length{MM: 2}, Count: 4}, {Thickness: units.Length{MM: 6.5}}}
	got := b.Doc.Job().Spacers.Stock
	if len(got) != 3 || got[0].Thickness.MM != 1.5 || got[1].Count != 4 || got[2].Thickness.MM != 6.5 {
		t.Fatalf("stock %v, want %v", got, want)
	}
	if len(s.found.Plan) != 5 || !slices.Equal(s.found.Plan[0].Pieces, []float64{6.5}) || s.found.Plan[0].Bolt != 37.5 {
		t.Fatalf("best stack %v", s.found.Plan)
	}
	s.keep(0)
	c := b.Doc.Variant().Corner()
	if b.Doc.Variant().Name != "longer arms, stack 6.5" || c.TieRod.OuterEnd.Z != 246+6.5 {
		t.Fatalf("kept %q, outer end at %g", b.Doc.Variant().Name, c.TieRod.OuterEnd.Z)
	}
	if !strings.Contains(b.Doc.Variant().Notes, "qualified") {
		t.Fatal("the kept variant has no word of caution")
	}
	// The kept stack stands there now: the same stack is best, and as tall.
	if there := b.Doc.Variant().Stack; there.Over || there.Raise() != 6.5 || s.standing.Text != "6.5" {
		t.Fatalf("%+v stands there, the page says %q", there, s.standing.Text)
	}
	if k := &s.found.Plan[0]; !slices.Equal(k.Pieces, []float64{6.5}) || k.Bolt != 37.5 || !b.setup.StandsAlready(k) {
		t.Fatalf("best stack %+v where it stands already", k)
	}
	if best, ok := b.setup.BestStack(b.setup.Corner, 0, bumpsteer.Goal{From: -b.setup.Droop, To: b.setup.Bump}); ok {
		t.Fatalf("%+v is advised in place of the best", best)
	}
	// Typed, it is counted, and no point moves; over the joint it counts the other way.
	for _, k := range []struct {
		text string
		mm   float64
	}{{"5, 2 (2)", 9}, {"over 2, 1.5", -3.5}, {"", 0}} {
		s.standing.SetText(k.text)
		s.standing.Hand()
		v := b.Doc.Variant()
		if v.Stack.Raise() != k.mm || v.Corner() != c || b.setup.Stands() != k.mm {
			t.Fatalf("%q: %+v, the page says %q", k.text, v.Stack, s.note.Text)
		}
	}
}

// A job in inches is asked and answered in the fractions that washers, tapes and
// bolts have, and what a field shows is what it comes to when read again.
func TestInInchesTheBumpPageSpeaksInFractions(t *testing.T) {
	b := open(t, "rear-toe-link")
	b.Select(cureAt)
	if low, high := b.cure.rows[0].low.Text, b.cure.rows[0].high.Text; low != "−5/8" || high != "1" {
		t.Errorf("limits %q to %q", low, high)
	}
	b.Select(spacersAt)
	s := b.sections[spacersAt].(*spacers)
	if s.stock.PlaceHolder != "1/32, 1/16, 1/8 (4), 1/4" {
		t.Errorf("the example of spacers is %q", s.stock.PlaceHolder)
	}
	s.grip.SetText("1 3/8")
	s.grip.Hand()
	s.stock.SetText("1/16 (4), 3/16, 1/4")
	s.stock.Hand()
	if s.stock.Text != "1/16 (4), 3/16, 1/4" || s.grip.Text != "1 3/8" || len(s.found.Plan) == 0 {
		t.Fatalf("stock %q, grip %q, %d stacks", s.stock.Text, s.grip.Text, len(s.found.Plan))
	}
	s.keep(0)
	if name := b.Doc.Variant().Name; strings.Contains(name, ".") || !strings.Contains(name, "/") {
		t.Errorf("kept as %q", name)
	}
	if !strings.Contains(pagetest.Foot(s.view), "already") {
		t.Errorf("nothing says that the stack kept is not counted: %q", pagetest.Foot(s.view))
	}
	b.Select(fanAt)
	if step := b.sections[fanAt].(*fan).step.Text; step != "1/4" {
		t.Errorf("the rack moves in steps of %q", step)
	}
	b.Select(diagnosisAt)
	if text := pagetest.Said(b.sections[diagnosisAt].(*diagnosis).view); strings.Contains(text, "000 in") {
		t.Errorf("the diagnosis says %q", text)
	}
}

// Where the outer end stands best, no stack is called the best one.
func TestNoStackIsAdvisedWhereNoneIsNeeded(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(cureAt)
	test.Tap(b.cure.find)
	test.Tap(b.cure.keep)
	b.Select(spacersAt)
	s := b.sections[spacersAt].(*spacers)
	s.stock.SetText("0.5 (1), 3, 5")
	s.stock.Hand()
	if !strings.Contains(s.says.String(), "no stack betters it") {
		t.Errorf("wish %g mm, the page says %q", s.found.Wish, s.says.String())
	}
	for _, c := range s.picture().Curves {
		if c.Label == "best stack" {
			t.Error("a stack is called best")
		}
	}
}

func TestATallStackIsWarnedOf(t *testing.T) {
	b := open(t, "gravel-estate")
	if err := b.Doc.Edit("lower", "", func(v *job.Variant) { v.TieRod.OuterEnd.Z = units.Length{MM: 238} }); err != nil {
		t.Fatal(err)
	}
	b.Select(spacersAt)
	s := b.sections[spacersAt].(*spacers)
	if !s.found.Plan[0].Tall || !strings.Contains(pagetest.Foot(s.view), tune.TallWarning) {
		t.Fatalf("best stack %v, the page says %q", s.found.Plan[0].Pieces, pagetest.Foot(s.view))
	}
}

func TestTheFanHoldsThePresentCurve(t *testing.T) {
	b := open(t, "rear-toe-link")
	b.Select(fanAt)
	f := b.sections[fanAt].(*fan)
	if f.moved == nil || len(f.moved.Curves) != 7 {
		t.Fatalf("no family of 7 curves; the page says %q", f.note.Text)
	}
	middle, present := f.moved.Curves[3].Curve, b.present()
	if last := len(middle.Toe) - 1; f.moved.By(3) != 0 || math.Abs(middle.Toe[0]-present.Toe[0]) > 1e-9 || math.Abs(middle.Toe[last]-present.Toe[len(present.Toe)-1]) > 1e-9 {
		t.Fatalf("the fan's middle, moved by %g, ends at %g and %g rad, the present curve at %g and %g", f.moved.By(3), middle.Toe[0], middle.Toe[last], present.Toe[0], present.Toe[len(present.Toe)-1])
	}
	if words := f.view.Sheet().String(); !strings.Contains(words, "as it stands") || strings.Contains(words, " rack") {
		t.Errorf("the page says %q", words)
	}
	if f.which.Options[0] != "toe link's inner end height" {
		t.Fatalf("a toe link has no rack: %q", f.which.Options[0])
	}
	f.step.SetText("0")
	b.Show()
	if f.moved != nil || !strings.Contains(f.note.Text, "above zero") {
		t.Fatalf("a step of nought: %q", f.note.Text)
	}
}

func TestAWishedCamberAndCasterAreReachedTogether(t *testing.T) {
	b := open(t, "gravel-estate")
	b.Select(adjustersAt)
	a := b.sections[adjustersAt].(*adjusters)
	a.camber.SetText("-1.9")
	a.caster.SetText("4.8")
	b.Show()
	s := a.found.Setting
	if s == nil || !s.Met {
		t.Fatalf("not met: %s", pagetest.Said(a.view))
	}
	if !strings.Contains(a.view.Sheet().String(), "deg left") {
		t.Fatalf("it says %q", pagetest.Said(a.view))
	}
	test.Tap(a.keep)
	// Rod ends go by half turns: what is kept is what can be made, and the words say how far off that is.
	got, camber := float64(b.Doc.Variant().Camber), s.Advised().Reached[0]*pages.Degree
	if math.Abs(got-camber) > 1e-6 || math.Abs(got+1.9) > 0.08 {
		t.Fatalf("camber of the kept variant %g, of the setting %g", got, camber)
	}
	a.caster.SetText("40")
	b.Show()
	if !strings.Contains(pagetest.Said(a.view), "Not met") {
		t.Fatalf("caster of 40 degrees: %q", pagetest.Said(a.view))
	}
	a.caster.SetText("4,8")
	b.Show()
	if !strings.Contains(a.note.Text, "caster") {
		t.Fatalf("4,8 was taken: %q", a.note.Text)
	}
}

// Every section of every demo job shows without a fault, in both units.
func TestEverySectionOfEveryDemo(t *testing.T) {
	for _, demo := range assets.DemoNames() {
		b := open(t, demo)
		for _, u := range []units.Unit{units.Millimetre, units.Inch} {
			b.Unit = u
			for i, s := range b.sections {
				b.Select(i)
				for _, size := range platetest.Sizes {
					platetest.Look(t, strings.ReplaceAll(fmt.Sprintf("%s-%s-%s", demo, s.Name(), u), " ", "-"), b.chart.Plate.Draw, size[0], size[1])
				}
			}
		}
	}
}
