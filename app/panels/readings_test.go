package panels

import (
	"math"
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
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// arranged returns readings laid out at 248 x 560.
func arranged(t *testing.T, b *bench) *Readings {
	t.Helper()
	r := NewReadings()
	show(t, r, look.Light, 248, 560)
	r.SetInput(b.input())
	r.arrange()
	return r
}

// words returns the texts of a line: name, value, band, change, right.
func words(t *testing.T, r *Readings, name string) string {
	t.Helper()
	for i := range r.table.lines {
		if l := &r.table.lines[i]; l.label == name {
			text := strings.Join([]string{l.value, l.band, l.delta, l.right}, " | ")
			text += l.mark
			return text
		}
	}
	t.Errorf("no line %q", name)
	return ""
}

func TestReadingsInMillimetresAndInches(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := arranged(t, b)
	// Camber, toe and hub are typed: -0.7 and 0.08 degrees; the arms differ by 32 mm
	// in y from the variant compared with, so the half track does.
	for name, want := range map[string]string{
		"Camber":        "−0.70° | as typed | 0.00 | ",
		"Toe, in +":     "0.08° | as typed | 0.00 | ",
		"Half track":    "769.8 mm | ± 0.5 | +32.0 | ",
		"Tie-rod error": "0.00 mm | ± 0 | 0.00 | ",
	} {
		if got := words(t, r, name); got != want {
			t.Errorf("%s: %q, wanted %q", name, got, want)
		}
	}
	// Half track by hand: hub 784, spacer 0, offset 18 along the spin axis of
	// camber -0.7 and toe 0.08, then the loaded radius of 308 down the leaning plane.
	camber, toe := -0.7*degree, 0.08*degree
	half := 784 - 18*math.Cos(camber)*math.Cos(toe) + 308*(-math.Sin(camber))*math.Cos(toe)
	if v, _ := r.shown.now.Of(kinematics.HalfTrack); math.Abs(v-half) > 1e-3 {
		t.Errorf("half track %.4f, by hand %.4f", v, half)
	}
	b.unit = units.Inch
	r.SetInput(b.input())
	r.arrange()
	if got, want := words(t, r, "Half track"), "30.31 in | ± 0.02 | +1.26 | "; got != want {
		t.Errorf("in inches: %q, wanted %q", got, want)
	}
	if got := words(t, r, "Ride toe"); !strings.Contains(got, "°/in") {
		t.Errorf("ride toe in inches: %q", got)
	}
}

// A slope per inch is 25.4 times the slope per mm.
func TestASlopeIsConvertedTheOtherWay(t *testing.T) {
	mm := scaleOfKind(sheet.Slope, units.Millimetre).figures(0.0123*degree, -1, 0, false).value
	in := scaleOfKind(sheet.Slope, units.Inch).figures(0.0123*degree, -1, 0, false).value
	if mm != "0.0123 °/mm" || in != "0.312 °/in" {
		t.Errorf("%q and %q", mm, in)
	}
}

func TestFiguresKeepTheDigitsOfTheirBand(t *testing.T) {
	mm := scaleOfKind(sheet.Length, units.Millimetre)
	for _, row := range []struct {
		v, half, change      float64
		value, band, changes string
	}{
		{1168.63, 112, -158.2, "1\u2009170 mm", "± 110", "−160"},
		{34.68, 1.83, 1.25, "34.7 mm", "± 1.8", "+1.2"},
		{-12.34, 0.02, -0.04, "−12.3 mm", "± 0.1", "0.0"},
		{5.51, 0, 3, "5.5 mm", "± 0", "+3.0"},
		{5.51, -1, 3, "5.5 mm", "", "+3.0"},
	} {
		f := mm.figures(row.v, row.half, row.change, true)
		if f.value != row.value || f.band != row.band || f.delta != row.changes {
			t.Errorf("%g ± %g: %+v", row.v, row.half, f)
		}
	}
}

func TestReadingsInRoll(t *testing.T) {
	b := newBench(t, "gravel-estate")
	b.at = frame.Position{Roll: 0.037}
	r := arranged(t, b)
	left, _ := b.frame.Now.Readings.Of(kinematics.Camber)
	right, _ := b.frame.Now.Right.Of(kinematics.Camber)
	want := units.FormatDegrees(left, 2) + " |  |  | " + units.FormatDegrees(right, 2)
	if got := words(t, r, "Camber"); got != want || left == right {
		t.Errorf("camber %q, wanted %q", got, want)
	}
	if got := words(t, r, "Roll centre, to the left"); !strings.HasSuffix(got, "|  |  | ") {
		t.Errorf("the axle has one roll centre, shown %q", got)
	}
	if r.shown.place() != "at roll +2.1°" {
		t.Errorf("place %q", r.shown.place())
	}
	if text := r.shown.sentence(items[0]); !strings.Contains(text, "left ") || !strings.Contains(text, "In roll no band") {
		t.Errorf("sentence %q", text)
	}
	b.at = frame.Position{}
	r.SetInput(b.input())
	r.arrange()
	for i := range r.table.lines {
		if r.table.lines[i].Of == kinematics.RollCentreY {
			t.Error("roll centre aside shown without roll")
		}
	}
}

func TestAtInfinityIsSaidInWords(t *testing.T) {
	b := newBench(t, "flat-teaching")
	r := arranged(t, b)
	for _, name := range []string{"Inst. centre, on this side", "Inst. centre, up", "Swing arm"} {
		if got := words(t, r, name); got != "at infinity |  |  | " {
			t.Errorf("%s: %q", name, got)
		}
	}
	for i := range r.table.lines {
		if q := r.table.lines[i].Of; q == kinematics.SpringLength || q == kinematics.MotionRatio {
			t.Error("a spring line without a spring")
		}
	}
}

func TestMotionRatioStandsBothWaysRound(t *testing.T) {
	b := newBench(t, "gravel-estate")
	b.at = frame.Position{Travel: 17}
	r := arranged(t, b)
	v, _ := b.frame.Now.Readings.Of(kinematics.MotionRatio)
	if got := words(t, r, "Spring / wheel"); !strings.HasPrefix(got, units.FormatNumber(v, 3)) {
		t.Errorf("%q, wanted %.3f", got, v)
	}
	if got := words(t, r, "Wheel / spring"); !strings.HasPrefix(got, units.FormatNumber(1/v, 3)) || v == 1 {
		t.Errorf("%q, wanted %.3f", got, 1/v)
	}
}

func TestOutOfReachIsSaidInTheUnitOnDisplay(t *testing.T) {
	b := newBench(t, "gravel-estate")
	b.at = frame.Position{Travel: 508}
	b.unit = units.Inch
	r := arranged(t, b)
	text := strings.Join(r.table.warning, " ")
	for _, part := range []string{"Out of reach: the ", " at 20.00 in bump.", "It binds at 15.", "Shown at 3.54 in bump."} {
		if !strings.Contains(text, part) {
			t.Errorf("%q lacks %q", text, part)
		}
	}
	if got := words(t, r, "Camber"); !strings.HasSuffix(got, "|  | ") {
		t.Errorf("a change against another position: %q", got)
	}
	if s := r.shown.sentence(items[0]); !strings.Contains(s, "Not compared") {
		t.Errorf("sentence %q", s)
	}
}

func TestAnEstimatedLoadedRadiusIsMarked(t *testing.T) {
	b := newBench(t, "gravel-estate")
	if err := b.doc.Edit("estimate", "", func(v *job.Variant) { v.Wheel.LoadedRadius = job.Optional{} }); err != nil {
		t.Fatal(err)
	}
	r := arranged(t, b)
	if got := words(t, r, "Scrub radius"); !strings.HasSuffix(got, " est.") {
		t.Errorf("scrub radius not marked: %q", got)
	}
	if got := words(t, r, "Caster"); strings.HasSuffix(got, " est.") {
		t.Errorf("caster marked: %q", got)
	}
}

// Ground must name just what moves with the radius.
func TestWhatRestsOnTheRadius(t *testing.T) {
	b := newBench(t, "gravel-estate")
	in := b.input()
	c := in.Frame.Now.Study.Case.Corner
	read := func(radius float64) kinematics.Readings {
		c.Wheel.LoadedRadius = radius
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		return p.Readings()
	}
	low, high := read(290), read(310)
	for q := range kinematics.QuantityCount {
		v, _ := low.Of(q)
		w, _ := high.Of(q)
		// The contact moves by a hair in x with toe and camber, and the centre with it.
		moved := math.Abs(v-w) > 0.05
		if moved != figures.Of(q).Ground && q != kinematics.RollCentreY {
			t.Errorf("%v moves by %g over 20 mm of radius", q, w-v)
		}
	}
}

func TestToeSaysItsDiameter(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := arranged(t, b)
	// 0.08 degrees across 381 mm, the rim of code 15.
	if s := r.shown.sentence(items[1]); !strings.Contains(s, "Across the rim of 381 mm diameter: 0.5 mm.") {
		t.Errorf("sentence %q", s)
	}
}

func TestTheSentenceSaysWhenASignIsOpen(t *testing.T) {
	b := newBench(t, "gravel-estate")
	b.at = frame.Position{Travel: 1.5}
	if err := b.doc.Edit("worse", "", func(v *job.Variant) {
		v.Toe = 0
		v.MeasuredWithin = job.Given(units.Length{MM: 9})
	}); err != nil {
		t.Fatal(err)
	}
	r := arranged(t, b)
	if s := r.shown.sentence(items[1]); !strings.Contains(s, "within ±9 mm") || !strings.Contains(s, "not decidable") {
		t.Errorf("sentence %q", s)
	}
	if s := r.shown.sentence(items[0]); strings.Contains(s, "not decidable") {
		t.Errorf("camber of -1.4 is decidable: %q", s)
	}
}

func TestPointerAndKeysLightALine(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := NewReadings()
	w := show(t, r, look.Light, 248, 300)
	var lit []string
	said := ""
	r.OnLit = func(lights scene.Overlays) {
		if r.lit == nil {
			lit = append(lit, "none")
			return
		}
		if lights != r.lit.Lights {
			t.Errorf("%s lights %x, not %x", r.lit.Key, lights, r.lit.Lights)
		}
		lit = append(lit, r.lit.Key)
	}
	r.OnSentence = func(text string) { said = text }
	r.SetInput(b.input())
	r.arrange()
	third := &r.table.lines[2]
	r.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(40, float32(r.table.top+third.y+third.h/2))}})
	if got := strings.Join(lit, " "); got != "half_track" || !strings.HasPrefix(said, "Half track: from the car's centre plane") {
		t.Fatalf("lit %q, said %q", got, said)
	}
	r.MouseOut()
	if said != "" {
		t.Errorf("said %q with nothing lit", said)
	}
	w.Canvas().Focus(r)
	for range 40 {
		r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		i := r.table.find(r.cursor)
		if l := r.table.lines[i]; r.table.top+l.y+l.h-r.scroll > 300.5 || l.y < r.scroll-0.5 {
			t.Fatalf("line %d is out of sight at scroll %g", i, r.scroll)
		}
	}
	if r.cursor.Of != kinematics.RideToe || lit[len(lit)-1] != "ride_toe" {
		t.Errorf("the last line is not reached: %v", lit)
	}
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	if r.cursor.Of != kinematics.Camber || r.scroll != 0 {
		t.Errorf("Home: %v at scroll %g", r.cursor.Of, r.scroll)
	}
	// With the pointer resting on a line, the keyboard still leads.
	r.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(40, float32(r.table.top+third.y+third.h/2))}})
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if lit[len(lit)-1] != "toe" {
		t.Errorf("lit %v after Down from camber", lit[len(lit)-1])
	}
	w.Canvas().Unfocus()
	if lit[len(lit)-1] != "none" {
		t.Error("still lit without focus")
	}
}

func TestEveryLineIsAtLeast24PointsHigh(t *testing.T) {
	for _, h := range []float32{180, 300, 560, 900} {
		b := newBench(t, "gravel-estate")
		r := NewReadings()
		show(t, r, look.Light, 248, h)
		r.SetInput(b.input())
		r.arrange()
		for i := range r.table.lines {
			if r.table.lines[i].h < 24 {
				t.Errorf("at %g points line %d is %g high", h, i, r.table.lines[i].h)
			}
		}
		// Nothing is lost: scrolled to the end, the last line ends inside.
		r.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -5000)})
		last := r.table.lines[len(r.table.lines)-1]
		if end := r.table.top + last.y + last.h - r.scroll; end > float64(h) {
			t.Errorf("at %g points the last line ends at %g", h, end)
		}
	}
}

func TestTheSameInputIsNoWork(t *testing.T) {
	b := newBench(t, "gravel-estate")
	r := NewReadings()
	show(t, r, look.Light, 248, 560)
	r.SetInput(b.input())
	r.arrange()
	r.SetInput(b.input())
	if r.table.stale {
		t.Error("an equal input laid the table out again")
	}
	b.at.Travel = 3
	r.SetInput(b.input())
	if !r.table.stale {
		t.Error("another position left the table as it was")
	}
}

func BenchmarkReadingsShow(b *testing.B) {
	bench := newBench(b, "gravel-estate")
	r := NewReadings()
	show(b, r, look.Light, 248, 560)
	inputs := make([]Input, 2)
	frames := make([]frame.Frame, 2)
	for i := range inputs {
		bench.at.Travel = 7 + float64(i)
		inputs[i] = bench.input()
		frames[i] = bench.frame
		inputs[i].Frame = &frames[i]
	}
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		r.SetInput(inputs[n%2])
		r.arrange()
	}
}
