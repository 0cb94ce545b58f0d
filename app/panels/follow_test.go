package panels

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/kinematics"
)

// While a hand moves a point the fields show where it is, and typed text stays.
func TestTheFieldsFollowTheHand(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	typing := d.field(kinematics.UpperBall, 2)
	d.typeOver(typing, "19 in")
	c := d.doc.Variant().Corner()
	c.Lower.Front.Y, c.Lower.Front.Z = 345.25, 224.5
	c.Upper.Ball.Z = 490
	c.Camber = -2.25 * degree
	d.points.Follow(c)
	if y, z := d.field(kinematics.LowerFront, 1).Text, d.field(kinematics.LowerFront, 2).Text; y != "345.25" || z != "224.5" {
		t.Errorf("the pivot shows %q and %q", y, z)
	}
	if got := d.points.camber.field.Text; got != "−2.25°" {
		t.Errorf("camber %q", got)
	}
	if typing.Text != "19 in" {
		t.Errorf("typed text became %q", typing.Text)
	}
	// The variant again, as after Esc: it is the one that was shown before.
	press(typing, fyne.KeyEscape)
	d.points.SetInput(d.input())
	if y := d.field(kinematics.LowerFront, 1).Text; y != "322" {
		t.Errorf("after the hand let go %q", y)
	}
	if got := d.points.camber.field.Text; got != "−0.7°" {
		t.Errorf("camber %q", got)
	}
}

// What did not move keeps the way it was typed.
func TestFollowingKeepsTypedNumbers(t *testing.T) {
	d := newDesk(t, "rear-toe-link")
	f := d.field(kinematics.UpperFront, 0)
	was := f.Text
	c := d.doc.Variant().Corner()
	c.Upper.Ball.Y += 12.7
	d.points.Follow(c)
	if f.Text != was || !strings.Contains(was, "in") {
		t.Errorf("%q became %q", was, f.Text)
	}
}

func TestARearCornerIsTypedInItsOwnWords(t *testing.T) {
	d := newDesk(t, "rear-toe-link")
	f := d.field(kinematics.OuterEnd, 1)
	d.typeOver(f, "20 m")
	press(f, fyne.KeyReturn)
	press(f, fyne.KeyEscape)
	d.typeOver(f, "601")
	press(f, fyne.KeyReturn)
	d.typeOver(d.points.lengths[2].field, "333")
	press(d.points.lengths[2].field, fyne.KeyReturn)
	if got := strings.Join(d.names, "|"); got != "type toe link's outer end y|type toe link length, same upright" {
		t.Errorf("edits %q", got)
	}
}

// A field with the keyboard shows the whole of a text of some length, and the
// line beside it shows any.
func TestAFieldGrowsWithItsText(t *testing.T) {
	for _, width := range []float32{220, 248, 300} {
		d := newDesk(t, "gravel-estate")
		d.window.Resize(fyne.NewSize(width, 560))
		f := d.field(kinematics.LowerBall, 2)
		rest := f.Size().Width
		row := d.points.points[kinematics.LowerBall]
		d.typeOver(f, "57mm+1/8in")
		if f.Size().Width < f.need() {
			t.Errorf("at %g: %g of %g points", width, f.Size().Width, f.need())
		}
		d.typeOver(f, "57mm+1/8in+3/16in-2.25mm")
		if said := row.echo.text + row.under.text; f.Size().Width < f.need() && !strings.HasPrefix(said, f.Text+" = ") {
			t.Errorf("at %g the text is nowhere whole: %q", width, said)
		}
		end := row.fields[2].Position().X + row.fields[2].Size().Width
		if end > width-margin+0.5 {
			t.Errorf("at %g the row ends at %g", width, end)
		}
		press(f, fyne.KeyEscape)
		d.window.Canvas().Unfocus()
		if f.Size().Width != rest {
			t.Errorf("at %g the field rests at %g, was %g", width, f.Size().Width, rest)
		}
	}
}

func TestASignLooksTheSameTypedAndPrinted(t *testing.T) {
	d := newDesk(t, "rear-toe-link")
	if got := d.field(kinematics.UpperBall, 0).Text; got != "−1/4 in" {
		t.Errorf("at rest %q", got)
	}
	f := d.field(kinematics.UpperBall, 0)
	d.window.Canvas().Focus(f)
	if f.Text != "−1/4 in" || f.owing {
		t.Errorf("while edited %q, owing %v", f.Text, f.owing)
	}
	d.window.Canvas().Unfocus()
	if len(d.names) > 0 {
		t.Errorf("a look made edits: %q", d.names)
	}
}

func BenchmarkPointsFollow(b *testing.B) {
	bench := newBench(b, "gravel-estate")
	p := NewPoints()
	show(b, p, look.Light, 248, 560)
	p.SetInput(bench.input())
	c := bench.doc.Variant().Corner()
	n := 0.0
	b.ReportAllocs()
	for b.Loop() {
		n++
		c.Lower.Ball.Y, c.Lower.Ball.Z = 722+n/8, 191-n/16
		if n > 400 {
			n = 0
		}
		p.Follow(c)
	}
}

func TestBackspacingKeepsItsTypedText(t *testing.T) {
	s := newStand(t, "gravel-estate")
	s.enter(s.wheel.backspacing, "4 1/4 in")
	s.window.Canvas().Unfocus()
	// Half of 6 in and half an inch of flange: 76.2 + 12.7.
	if got := s.held().Offset; got.Typed != "4 1/4 in - 88.9 mm" || got.MM != 19.05 {
		t.Errorf("offset %+v", got)
	}
	if got := s.wheel.backspacing.field.Text; got != "4 1/4 in" {
		t.Errorf("backspacing shown as %q", got)
	}
	if got := s.wheel.offset.field.Text; got != "19.05" {
		t.Errorf("offset shown as %q", got)
	}
	// On another rim the offset stays, and the backspacing is another.
	s.enter(s.wheel.rim, "7 in")
	if got := s.wheel.backspacing.field.Text; got != "120.65" || s.held().Offset.MM != 19.05 {
		t.Errorf("on another rim %q, offset %+v", got, s.held().Offset)
	}
	// A text so long that the file could not hold the rest behind it.
	long := "4 1/4 in" + strings.Repeat(" + 1 mm - 1 mm", 28)
	if echo, err := s.wheel.backspacing.field.check(long); err != nil || !strings.Contains(echo, "too long to keep as typed") {
		t.Errorf("%q, %v", echo, err)
	}
	s.enter(s.wheel.backspacing, long)
	if got := s.held().Offset; got.Typed != "" || got.MM != 107.95-(88.9+12.7) {
		t.Errorf("offset %+v", got)
	}
}

// The width in the code is nominal; the section follows from the rim, by
// S = W + 0.4 (rim - x W), see the tyre rules: 215 + 0.4 (165.1 - 0.7 x 215) =
// 220.8 and 205 + 0.4 (165.1 - 0.7 x 205) = 213.6 on 6.5 in.
func TestTheTyreHintAgreesWithTheSection(t *testing.T) {
	s := newStand(t, "gravel-estate")
	for code, want := range map[string]string{
		"215/60R15": "nominal width 215 mm; section 221 mm on its measuring rim of 6.5 in",
		"205/55R16": "nominal width 205 mm; section 214 mm on its measuring rim of 6.5 in",
	} {
		s.enter(s.wheel.tyre, code)
		s.window.Canvas().Unfocus()
		if got := s.wheel.tyre.under.text; got != want {
			t.Errorf("%s: %q, wanted %q", code, got, want)
		}
	}
}

func TestAnOddRimIsACautionAndNoRefusal(t *testing.T) {
	s := newStand(t, "gravel-estate")
	if got := s.wheel.rim.under.text; strings.Contains(got, "Caution") {
		t.Errorf("6 in under a 205/65R15: %q", got)
	}
	s.enter(s.wheel.tyre, "155/65R14") // measured on 4.5 in
	if got := s.wheel.rim.under.text; s.held().Tyre != "155/65R14" || !strings.Contains(got, "Caution: wide for this tyre, usual rims are 4 to 5.5 in") {
		t.Errorf("%s on 6 in: %q", s.held().Tyre, got)
	}
	s.enter(s.wheel.tyre, "205/55R16") // measured on 6.5 in
	s.enter(s.wheel.rim, "5 in")
	if got := s.wheel.rim.under.text; s.held().RimWidth.MM != 127 || !strings.Contains(got, "narrow") {
		s.window.Canvas().Unfocus()
		if got = s.wheel.rim.under.text; !strings.Contains(got, "narrow") {
			t.Errorf("on %g mm: %q", s.held().RimWidth.MM, got)
		}
	}
}

func TestALoadedRadiusThatFitsNoTyreIsRefused(t *testing.T) {
	s := newStand(t, "gravel-estate")
	s.enter(s.wheel.radius, "100")
	if got := s.wheel.radius.under.text; !strings.Contains(got, "radius of the rim, 190.5 mm") || s.held().LoadedRadius.MM != 308 {
		t.Errorf("%q, held %+v", got, s.held().LoadedRadius)
	}
	if err := s.edit("none", func(v *job.Variant) {}); err != nil {
		t.Fatal(err)
	}
}
