package panels

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics/tyre"
)

// stand is a wheel panel on a window, with its owner, who shows every edit.
type stand struct {
	*bench
	wheel  *Wheel
	window fyne.Window
}

func newStand(t *testing.T, demo string) *stand {
	t.Helper()
	s := &stand{bench: newBench(t, demo), wheel: NewWheel()}
	s.wheel.OnEdit = func(name string, change func(v *job.Variant)) error {
		err := s.edit(name, change)
		s.wheel.SetInput(s.input())
		return err
	}
	s.window = show(t, s.wheel, look.Light, 248, 560)
	s.wheel.SetInput(s.input())
	return s
}

// enter types over a field and presses Enter.
func (s *stand) enter(r *valueRow, text string) {
	s.window.Canvas().Focus(r.field)
	for range len([]rune(r.field.Text)) + 1 {
		press(r.field, fyne.KeyBackspace)
		press(r.field, fyne.KeyDelete)
	}
	test.Type(r.field, text)
	press(r.field, fyne.KeyReturn)
}

func (s *stand) held() *job.Wheel { return &s.doc.Variant().Wheel }

func TestOffsetAndBackspacingSetEachOther(t *testing.T) {
	s := newStand(t, "gravel-estate")
	// Rim 152.4 between the seats and 12.7 of flange: the back edge stands
	// 76.2 + 12.7 + 18 = 106.9 mm inboard of the face.
	if s.wheel.backspacing.field.Text != "106.9" {
		t.Errorf("backspacing shown as %q", s.wheel.backspacing.field.Text)
	}
	s.enter(s.wheel.backspacing, "4 in")
	if got := s.held().Offset; math.Abs(got.MM-12.7) > 1e-9 || got.Typed != "4 in - 88.9 mm" {
		t.Errorf("4 in of backspacing set the offset %+v", got)
	}
	if s.wheel.offset.field.Text != "12.7" {
		t.Errorf("offset shown as %q", s.wheel.offset.field.Text)
	}
	s.enter(s.wheel.offset, "-12.5")
	if got := s.wheel.backspacing.field.Text; got != "76.4" {
		t.Errorf("backspacing shown as %q", got)
	}
	if got := s.wheel.offset.under.text; got != "face inboard of the rim's middle" && got != "−12.50 mm = −0.492 in" {
		t.Errorf("hint %q", got)
	}
	want := []string{"type wheel backspacing", "type wheel offset"}
	if strings.Join(s.names, "|") != strings.Join(want, "|") {
		t.Errorf("edits %q", s.names)
	}
}

// Whatever backspacing is typed must come back as the backspacing of the wheel.
func TestBackspacingRoundTrip(t *testing.T) {
	s := newStand(t, "gravel-estate")
	for _, mm := range []float64{31.7, 88.9, 123.456, 201.25} {
		s.enter(s.wheel.backspacing, units.Plain(mm, units.Millimetre))
		w, err := tyre.NewWheel(s.held().RimWidth.MM, s.held().Offset.MM)
		if err != nil {
			t.Fatal(err)
		}
		if off := w.Backspacing() - mm; math.Abs(off) > 1e-6 {
			t.Errorf("%g came back %g off", mm, off)
		}
	}
}

func TestANewRimKeepsTheOffset(t *testing.T) {
	s := newStand(t, "gravel-estate")
	s.enter(s.wheel.rim, "7 1/2 in")
	if s.held().RimWidth.MM != 190.5 || s.held().Offset.MM != 18 {
		t.Errorf("rim %g, offset %g", s.held().RimWidth.MM, s.held().Offset.MM)
	}
	if got := s.wheel.backspacing.field.Text; got != "125.95" {
		t.Errorf("backspacing %q", got)
	}
	if s.held().RimWidth.Typed != "7 1/2 in" {
		t.Errorf("typed text %q", s.held().RimWidth.Typed)
	}
}

func TestLoadedRadiusGivenAndEstimated(t *testing.T) {
	s := newStand(t, "gravel-estate")
	if s.wheel.radius.field.Text != "308" || strings.Contains(s.wheel.radius.under.text, "estimate") {
		t.Errorf("%q, %q", s.wheel.radius.field.Text, s.wheel.radius.under.text)
	}
	s.enter(s.wheel.radius, "")
	if s.held().LoadedRadius.Given {
		t.Error("an empty field left a radius")
	}
	// 205/65R15: height 133 (205 x 0.65 = 133.25), diameter 381 + 266 = 647;
	// estimate 323.5 - 0.15 x 133 = 303.55, span 323.5 - 26.6 to 323.5 - 13.3.
	if s.wheel.radius.field.PlaceHolder != "≈ 303.6" {
		t.Errorf("placeholder %q", s.wheel.radius.field.PlaceHolder)
	}
	if got := s.wheel.radius.under.text; got != "estimate from 205/65R15, 297 to 310 mm; better measured" {
		t.Errorf("hint %q", got)
	}
	s.enter(s.wheel.radius, "11 7/8 in")
	if got := s.held().LoadedRadius; !got.Given || got.MM != 11.875*25.4 {
		t.Errorf("radius %+v", got)
	}
}

func TestWhatFollowsFromTheWheel(t *testing.T) {
	s := newStand(t, "gravel-estate")
	s.enter(s.wheel.gap, "25.33")
	for name, f := range map[string]struct {
		row  *factRow
		want string
	}{
		"diameter":  {s.wheel.diameter, "647.0 mm"},
		"section":   {s.wheel.section, "209.0 mm"}, // 205 + 0.4 (152.4 - 0.7 x 205) = 208.6
		"inboard":   {s.wheel.inboard, "81.6 mm"},  // 106.9 - 25.33
		"outboard":  {s.wheel.outboard, "96.2 mm"}, // 76.2 + 12.7 - 18 + 25.33
		"over both": {s.wheel.across, "177.8 mm"},
	} {
		if got := f.row.value.text; got != f.want {
			t.Errorf("%s: %q, wanted %q", name, got, f.want)
		}
	}
}

func TestReasonsAtTheWheelsFields(t *testing.T) {
	s := newStand(t, "gravel-estate")
	for _, c := range []struct {
		row          *valueRow
		text, reason string
	}{
		{s.wheel.tyre, "205/65-", "✕ "},
		{s.wheel.rim, "6.5", "50.8 mm"}, // inches meant, millimetres on display
		{s.wheel.offset, "401", "300 mm"},
		{s.wheel.backspacing, "24 in", "offset 520.7 mm"},
		{s.wheel.gap, "-3", "below zero"},
		{s.wheel.radius, "0", "above zero"},
	} {
		was := *s.held()
		s.enter(c.row, c.text)
		if !strings.HasPrefix(c.row.under.text, "✕ ") || !strings.Contains(c.row.under.text, c.reason) {
			t.Errorf("%s %q: %q", c.row.field.name, c.text, c.row.under.text)
		}
		if *s.held() != was {
			t.Errorf("%s %q was taken", c.row.field.name, c.text)
		}
		s.window.Canvas().Unfocus()
		if c.row.field.Text != c.text {
			t.Errorf("%s: %q became %q", c.row.field.name, c.text, c.row.field.Text)
		}
		s.window.Canvas().Focus(c.row.field)
		press(c.row.field, fyne.KeyEscape)
		s.window.Canvas().Unfocus()
		if strings.HasPrefix(c.row.under.text, "✕") {
			t.Errorf("%s: the reason stays after Esc", c.row.field.name)
		}
	}
}

func TestAReasonAtTheWheelMakesRoomForItself(t *testing.T) {
	s := newStand(t, "gravel-estate")
	before := s.wheel.gap.field.Position().Y
	s.enter(s.wheel.backspacing, "24 in")
	lines := float32(len(s.wheel.backspacing.under.wrapped(248 - 2*margin)))
	if got := s.wheel.gap.field.Position().Y - before; lines < 2 || got != (lines-1)*hintHeight {
		t.Errorf("%g lines of reason moved the next field by %g", lines, got)
	}
	press(s.wheel.backspacing.field, fyne.KeyEscape)
	if got := s.wheel.gap.field.Position().Y; got != before+(lines-1)*hintHeight {
		t.Errorf("after Esc the next field moves away under the hand: to %g", got)
	}
}

func TestAFlotationSizeHasNoSectionWidth(t *testing.T) {
	s := newStand(t, "gravel-estate")
	s.enter(s.wheel.tyre, "31x10.50r15lt")
	if got := s.held().Tyre; got != "31x10.50r15lt" {
		t.Fatalf("the job holds %q, reason %q", got, s.wheel.tyre.under.text)
	}
	if got := s.wheel.section.value.text; got != "no rule for this form" {
		t.Errorf("section %q", got)
	}
	if got := s.wheel.diameter.value.text; got != "787.4 mm" {
		t.Errorf("diameter %q", got)
	}
}

func TestWheelTextsStayInside(t *testing.T) {
	for _, width := range []float32{220, 248, 400} {
		s := newStand(t, "rear-toe-link")
		s.window.Resize(fyne.NewSize(width, 560))
		s.unit = units.Inch
		s.wheel.SetInput(s.input())
		for _, o := range s.wheel.content.Objects {
			n, ok := o.(*note)
			if !ok {
				continue
			}
			lines := n.wrapped(n.Size().Width)
			for _, line := range lines {
				if n.measure(line) > float64(n.Size().Width)+0.5 {
					t.Errorf("at %g: %q needs %g of %g points", width, line, n.measure(line), n.Size().Width)
				}
			}
			if float32(len(lines))*n.step > n.Size().Height+0.5 && n.text != "" {
				t.Errorf("at %g: %q takes %d lines in %g points", width, n.text, len(lines), n.Size().Height)
			}
		}
	}
}

func TestAnotherThemeRecoloursThePanel(t *testing.T) {
	s := newStand(t, "gravel-estate")
	dark := look.Theme{Mode: look.Dark}
	fyne.CurrentApp().Settings().SetTheme(dark)
	s.wheel.Refresh()
	if s.wheel.back.FillColor != dark.Color(look.ColorPanel, 0) {
		t.Error("the ground stays light")
	}
	for _, l := range s.wheel.rim.label.lines {
		if l.Color != dark.Color("foreground", 0) {
			t.Error("a name stays dark")
		}
	}
}

// What cannot be put on the car is said where it is typed, and goes when it is
// mended; a brake changed elsewhere is heard of.
func TestAWheelThatDoesNotFitIsSaid(t *testing.T) {
	s := newStand(t, "gravel-estate")
	if got := s.wheel.brake.text; !strings.HasPrefix(got, "✓ 7.0 mm all round") {
		t.Errorf("brake: %q", got)
	}
	s.enter(s.wheel.offset, "-171")
	if got := s.wheel.offset.hint; !strings.HasPrefix(got, "✕ wheel offset of −171.0 mm puts the mounting face outside the rim") {
		t.Errorf("offset of −171 mm on 6 in: %q", got)
	}
	s.enter(s.wheel.offset, "20")
	if got := s.wheel.offset.hint; got != "face outboard of the rim's middle" {
		t.Errorf("mended, yet %q", got)
	}
	err := s.doc.EditJob("type brake", "", func(j *job.Job) { j.Brake.Diameter = job.Given(units.Length{MM: 431.8}) })
	if err != nil {
		t.Fatal(err)
	}
	s.wheel.SetInput(s.input())
	if got := s.wheel.brake.text; !strings.HasPrefix(got, "✕ ") || !strings.Contains(got, "431.8 mm") {
		t.Errorf("a brake of 431.8 mm: %q", got)
	}
}

// Another tyre makes a measured radius an estimate by the same squash, here and in
// the readings, and the first one makes it what was measured again. 205/65R15 is
// 323.5 free and 133 high, 308 is 15.5 below; 195/60R15 is 307.5 and 117.
func TestAnotherTyreMakesTheRadiusAnEstimate(t *testing.T) {
	b := newBench(t, "gravel-estate")
	w := NewWheel()
	w.OnEdit = func(name string, change func(v *job.Variant)) error { return b.doc.Edit(name, "", change) }
	window := test.NewWindow(w)
	defer window.Close()
	show := func(code string) *Readings {
		t.Helper()
		w.SetInput(b.input())
		w.tyre.field.SetText(code)
		if err := w.tyre.field.hand(code); err != nil {
			t.Fatal(err)
		}
		w.SetInput(b.input())
		return arranged(t, b)
	}
	readings := show("195/60R15")
	if got := w.radius.field.PlaceHolder; w.radius.field.Text != "" || got != "≈ 293.9" {
		t.Errorf("radius %q, %q", w.radius.field.Text, got)
	}
	if got := w.radius.under.text; got != "estimate from 195/60R15 by the 308.0 mm measured with 205/65R15, 288 to 300 mm; better measured" {
		t.Error(got)
	}
	if got := words(t, readings, "Scrub radius"); !strings.HasSuffix(got, " est.") {
		t.Errorf("scrub radius not marked: %q", got)
	}
	readings = show("205/65R15")
	if w.radius.field.Text != "308" || strings.HasSuffix(words(t, readings, "Scrub radius"), " est.") {
		t.Errorf("radius %q, %q", w.radius.field.Text, words(t, readings, "Scrub radius"))
	}
	show("155R13")
	if got := w.diameter.value.text; got != "≈ 584.0 mm" || !strings.Contains(w.tyre.under.text, "the code does not give the diameter: estimate, 575 mm to 590 mm") {
		t.Errorf("%q, %q", got, w.tyre.under.text)
	}
}

// With the keyboard in it or not, the radius' field gives the span of the
// estimate that it shows.
func TestTheRadiusFieldGivesTheSpanOfItsOwnEstimate(t *testing.T) {
	s := newStand(t, "gravel-estate")
	s.enter(s.wheel.radius, "311")
	s.enter(s.wheel.tyre, "195/60R15")
	if !s.held().Loaded().Estimate || s.held().RadiusTyre == "" {
		t.Fatalf("%+v", s.held())
	}
	s.window.Canvas().Unfocus()
	want := s.wheel.radius.under.text
	s.window.Canvas().Focus(s.wheel.radius.field)
	if got := s.wheel.radius.under.text; got != want || !strings.Contains(got, "measured with") {
		t.Errorf("with the keyboard %q, without %q", got, want)
	}
}
