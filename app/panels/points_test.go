package panels

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// desk is a table of points on a window, with its owner, who shows every edit.
type desk struct {
	*bench
	points *Points
	window fyne.Window
}

func newDesk(t *testing.T, demo string) *desk {
	t.Helper()
	d := &desk{bench: newBench(t, demo), points: NewPoints()}
	d.points.OnEdit = func(name string, change func(v *job.Variant)) error {
		err := d.edit(name, change)
		d.points.SetInput(d.input())
		return err
	}
	d.window = show(t, d.points, look.Light, 248, 560)
	d.points.SetInput(d.input())
	return d
}

// typeOver puts the keyboard on a field and types, as if over what was there.
func (d *desk) typeOver(f *field, text string) {
	d.window.Canvas().Focus(f)
	for range len([]rune(f.Text)) + 1 {
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	}
	test.Type(f, text)
}

func press(f *field, name fyne.KeyName) { f.TypedKey(&fyne.KeyEvent{Name: name}) }

func (d *desk) field(p kinematics.Point, axis int) *field { return d.points.points[p].fields[axis] }

func TestTypingACoordinate(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	f := d.field(kinematics.LowerBall, 2)
	if f.Text != "221" {
		t.Fatalf("shown %q", f.Text)
	}
	d.typeOver(f, "57mm+1/8in")
	row := d.points.points[kinematics.LowerBall]
	if got := row.echo.text; got != "60.17 mm = 2.369 in" {
		t.Errorf("echo %q", got)
	}
	if d.doc.Variant().LowerArm.Ball.Z.MM != 221 {
		t.Error("set before Enter")
	}
	press(f, fyne.KeyReturn)
	if got := d.doc.Variant().LowerArm.Ball.Z; got.MM != 57+25.4/8 || got.Typed != "57mm+1/8in" {
		t.Errorf("the job holds %+v", got)
	}
	if len(d.names) != 1 || d.names[0] != "type lower ball joint z" {
		t.Errorf("edits %q", d.names)
	}
	d.window.Canvas().Unfocus()
	if f.Text != "60.17" || row.echo.text != "" {
		t.Errorf("at rest the field shows %q, echo %q", f.Text, row.echo.text)
	}
	d.window.Canvas().Focus(f)
	if f.Text != "57mm+1/8in" {
		t.Errorf("the typed text is lost: %q", f.Text)
	}
	d.window.Canvas().Unfocus()
	if len(d.names) != 1 {
		t.Errorf("looking into a field is no edit: %q", d.names)
	}
}

func TestABareNumberIsInTheUnitOnDisplay(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	d.unit = units.Inch
	d.points.SetInput(d.input())
	f := d.field(kinematics.UpperBall, 1)
	if f.Text != "24.882" {
		t.Errorf("632 mm shown as %q", f.Text)
	}
	d.typeOver(f, "26 1/2")
	d.window.Canvas().Unfocus() // leaving sets it too
	if got := d.doc.Variant().UpperArm.Ball.Y.MM; got != 673.1 {
		t.Errorf("26 1/2 in set %g mm", got)
	}
	if f.Text != "26 1/2" {
		t.Errorf("shown %q", f.Text)
	}
}

func TestAWrongEntryStaysWithItsReason(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	f := d.field(kinematics.UpperBall, 2)
	row := d.points.points[kinematics.UpperBall]
	for _, c := range []struct{ text, reason string }{
		{"5,2", "comma"},
		{"12 parsec", "unknown unit"},
		{"20 m", "10 m"},
		{"", "nothing"},
		{"150", "not above the lower one"}, // below the lower ball joint: the job refuses
	} {
		d.typeOver(f, c.text)
		press(f, fyne.KeyReturn)
		if !strings.HasPrefix(row.under.text, "✕ ") || !strings.Contains(strings.ToLower(row.under.text), c.reason) {
			t.Errorf("%q: reason %q lacks %q", c.text, row.under.text, c.reason)
		}
		d.window.Canvas().Unfocus()
		if f.Text != c.text {
			t.Errorf("%q became %q", c.text, f.Text)
		}
		if got := d.doc.Variant().UpperArm.Ball.Z.MM; got != 529 {
			t.Fatalf("%q set %g", c.text, got)
		}
	}
	d.window.Canvas().Focus(f)
	press(f, fyne.KeyEscape)
	if f.Text != "529" || row.under.text != "" {
		t.Errorf("Esc leaves %q, reason %q", f.Text, row.under.text)
	}
}

// A refusal stays said while the keyboard goes on to the other coordinates of the
// point, until what was refused is typed anew or dropped.
func TestARefusalStaysWhileTheKeyboardGoesOn(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	x, y := d.field(kinematics.UpperBall, 0), d.field(kinematics.UpperBall, 1)
	row := d.points.points[kinematics.UpperBall]
	d.typeOver(x, "12 parsec")
	d.window.Canvas().Focus(y) // as Tab does
	d.points.SetInput(d.input())
	if !strings.Contains(row.under.text, "nknown unit") || x.Text != "12 parsec" {
		t.Errorf("%q stands there, and of it is said %q", x.Text, row.under.text)
	}
	d.typeOver(y, "671")
	press(y, fyne.KeyReturn)
	if !strings.Contains(row.under.text, "nknown unit") {
		t.Errorf("after the next one was taken, of %q is said %q", x.Text, row.under.text)
	}
	d.window.Canvas().Focus(x)
	press(x, fyne.KeyEscape)
	d.window.Canvas().Focus(y)
	if strings.Contains(row.under.text, "nknown unit") {
		t.Errorf("dropped, and still said: %q", row.under.text)
	}
}

func TestAReasonMakesRoomForItself(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	f, next := d.field(kinematics.UpperFront, 0), d.field(kinematics.UpperRear, 0)
	before := next.Position().Y
	d.typeOver(f, "1 furlong")
	press(f, fyne.KeyReturn)
	row := d.points.points[kinematics.UpperFront]
	if got := next.Position().Y - before; got < 15 || got != row.under.Size().Height {
		t.Errorf("the next row moved by %g, the reason is %g high", got, row.under.Size().Height)
	}
	for _, line := range wrap(row.under.measure, row.under.text, 224) {
		if row.under.measure(line) > 224 {
			t.Errorf("%q is wider than the panel", line)
		}
	}
}

func TestShowingDoesNotOverwriteWhatIsTyped(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	f := d.field(kinematics.RackEnd, 2)
	d.typeOver(f, "21")
	if err := d.doc.Edit("move", "", func(v *job.Variant) {
		v.TieRod.RackEnd.Z.MM = 260
		v.TieRod.RackEnd.Y.MM = 333
	}); err != nil {
		t.Fatal(err)
	}
	d.points.SetInput(d.input())
	if f.Text != "21" || d.field(kinematics.RackEnd, 1).Text != "333" {
		t.Errorf("fields %q and %q", f.Text, d.field(kinematics.RackEnd, 1).Text)
	}
	press(f, fyne.KeyEscape)
	if f.Text != "260" {
		t.Errorf("Esc gives %q", f.Text)
	}
}

// A text typed for one variant must not slip into another.
func TestAnotherVariantDoesNotGetWhatWasTyped(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	f := d.field(kinematics.RackEnd, 2)
	d.typeOver(f, "219")
	d.doc.Show(1)
	d.points.SetInput(d.input())
	row := d.points.points[kinematics.RackEnd]
	if !strings.Contains(row.under.text, "another variant") {
		t.Errorf("reason %q", row.under.text)
	}
	d.window.Canvas().Unfocus()
	if got := d.doc.Variant().TieRod.RackEnd.Z.MM; got != 281 || f.Text != "219" || len(d.names) != 0 {
		t.Fatalf("leaving set %g, field %q, edits %q", got, f.Text, d.names)
	}
	d.window.Canvas().Focus(f)
	press(f, fyne.KeyReturn) // by the person's own will
	if got := d.doc.Variant().TieRod.RackEnd.Z.MM; got != 219 {
		t.Errorf("Enter set %g", got)
	}
	if row.under.text != "" {
		t.Errorf("the reason stays: %q", row.under.text)
	}
}

// A length typed is that part longer on the same upright, put together again at
// the same ride height: the shape of the upright stays, and the other lengths.
func TestTypedLengthsKeepTheUpright(t *testing.T) {
	shape := func(c *kinematics.Corner) (d []float64) {
		b := [...]kinematics.Vec{c.Upper.Ball, c.Lower.Ball, c.TieRod.OuterEnd, c.Hub}
		for i := range b {
			for k := range i {
				d = append(d, r3.Norm(r3.Sub(b[i], b[k])))
			}
		}
		return d
	}
	lengths := func(c kinematics.Corner) [3]float64 {
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		upper, lower := m.ArmLengths()
		return [...]float64{upper, lower, m.RodLength()}
	}
	for i, mm := range []float64{333.3, 422.5, 371.25} {
		for _, cut := range []bool{true, false} {
			d := newDesk(t, "gravel-estate")
			before := d.doc.Variant().Corner()
			if !d.points.cutRod.check.Checked {
				t.Fatal("the rod is not cut by default")
			}
			d.points.cutRod.check.SetChecked(cut)
			r := d.points.lengths[i]
			text := units.Trimmed(mm, 2)
			if cut {
				text = fmt.Sprintf("%+.12f", mm-links[i].length(&before)) // by how much
			}
			d.typeOver(r.field, text)
			if echo := r.under.text; !strings.Contains(echo, "camber ") && i < 2 || strings.Contains(echo, "toe ") == (cut && i < 2) {
				t.Errorf("%s, rod cut %v: echo %q", links[i].name, cut, echo)
			}
			press(r.field, fyne.KeyReturn)
			after := d.doc.Variant().Corner()
			was, is := shape(&before), shape(&after)
			for k := range was {
				if math.Abs(was[k]-is[k]) > 1e-9 {
					t.Errorf("%s: a distance on the upright goes from %.9f to %.9f", links[i].name, was[k], is[k])
				}
			}
			if by := after.RestContact().Z - before.RestContact().Z; math.Abs(by) > 1e-8 {
				t.Errorf("%s: the contact rises by %g", links[i].name, by)
			}
			old := lengths(before)
			for k, l := range lengths(after) {
				want := old[k]
				switch {
				case k == i:
					want = mm
				case k == 2 && cut:
					want = l
				}
				if math.Abs(l-want) > 1e-9 {
					t.Errorf("%s typed as %g, rod cut %v: length %d is %.12g, want %.12g", links[i].name, mm, cut, k, l, want)
				}
			}
			if kept := math.Abs(after.Toe-before.Toe) < 1e-12; kept != (cut && i < 2) {
				t.Errorf("%s, rod cut %v: toe from %g to %g", links[i].name, cut, before.Toe, after.Toe)
			}
			if known := d.doc.Variant().CamberWithin; known > 0 != (after.Camber != before.Camber) || known > 0.5 {
				t.Errorf("%s: camber from %g to %g known within %g", links[i].name, before.Camber, after.Camber, known)
			}
			if known := d.doc.Variant().ToeWithin; known > 0 == (cut && i < 2) || known > 2 {
				t.Errorf("%s, rod cut %v: toe from %g to %g known within %g", links[i].name, cut, before.Toe, after.Toe, known)
			}
			if r.field.Text != units.Trimmed(mm, 2) || d.names[0] != "type "+links[i].name+", same upright" {
				t.Errorf("%s shows %q, edits %q", links[i].name, r.field.Text, d.names)
			}
		}
	}
}

// Parts that do not go together are refused in words.
func TestALengthThatDoesNotGoTogetherIsRefused(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	r := d.points.lengths[0]
	d.typeOver(r.field, "90")
	press(r.field, fyne.KeyReturn)
	if !strings.Contains(r.under.text, "Upper arm is ") || !strings.Contains(r.under.text, " mm short: with these parts") || len(d.names) != 0 {
		t.Errorf("%q, edits %q", r.under.text, d.names)
	}
}

// The shown length must be the mechanism's own, also of a flat arm.
func TestLengthsAreTheMechanisms(t *testing.T) {
	for _, demo := range []string{"gravel-estate", "flat-teaching", "rear-toe-link"} {
		c := newBench(t, demo).doc.Variant().Corner()
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		upper, lower := m.ArmLengths()
		for i, want := range []float64{upper, lower, m.RodLength()} {
			if got := links[i].length(&c); math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: %s %.12g, the mechanism has %.12g", demo, links[i].name, got, want)
			}
		}
	}
}

func TestALengthWithoutLengthIsRefused(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	r := d.points.lengths[1]
	for _, text := range []string{"-400", "0", "0.5 mm"} {
		d.typeOver(r.field, text)
		if r.under.text != r.hint {
			t.Errorf("%q in the making is explained by %q", text, r.under.text)
		}
		press(r.field, fyne.KeyReturn)
		if !strings.Contains(r.under.text, "at least 1 mm") || len(d.names) != 0 {
			t.Errorf("%q: %q, edits %q", text, r.under.text, d.names)
		}
	}
}

func TestAnglesAtRest(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	if d.points.camber.field.Text != "−0.7°" || d.points.camber.under.text != "top leans inboard by 0.70°" {
		t.Errorf("camber %q, %q", d.points.camber.field.Text, d.points.camber.under.text)
	}
	d.typeOver(d.points.camber.field, "-2.3")
	if got := d.points.camber.under.text; got != "top leans inboard by 2.30°" {
		t.Errorf("echo %q", got)
	}
	press(d.points.camber.field, fyne.KeyReturn)
	d.typeOver(d.points.toe.field, "−1/4 deg")
	press(d.points.toe.field, fyne.KeyReturn)
	v := d.doc.Variant()
	if v.Camber != -2.3 || v.Toe != -0.25 {
		t.Errorf("camber %v, toe %v", v.Camber, v.Toe)
	}
	d.typeOver(d.points.toe.field, "46")
	press(d.points.toe.field, fyne.KeyReturn)
	if got := d.points.toe.under.text; !strings.Contains(got, "±45") {
		t.Errorf("46 degrees: %q", got)
	}
}

// Degrees must come through radians as they were typed.
func TestTypedDegreesAreKept(t *testing.T) {
	for i := -4500; i <= 4500; i++ {
		want := float64(i) / 100
		got, err := job.ParseDegrees(strconv.FormatFloat(want, 'f', 2, 64))
		if err != nil || float64(got) != want {
			t.Fatalf("%.2f became %v (%v)", want, got, err)
		}
	}
}

func TestFocusOpensThePointsField(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	for _, p := range d.points.corner.Points() {
		if !d.points.Focus(p) || d.window.Canvas().Focused() != fyne.Focusable(d.field(p, 0)) {
			t.Fatalf("no focus on %v", p)
		}
		f, s := d.field(p, 0), d.points.scroll
		if y := f.Position().Y; y < s.Offset.Y || y+f.Size().Height > s.Offset.Y+s.Size().Height {
			t.Errorf("%v is out of sight: at %g, scrolled to %g", p, y, s.Offset.Y)
		}
	}
	flat := newDesk(t, "flat-teaching")
	if !flat.points.Focus(kinematics.LowerFront) || flat.window.Canvas().Focused() != fyne.Focusable(flat.field(kinematics.LowerFront, 1)) {
		t.Error("the pivot of a flat arm has no x; its y must be opened")
	}
	if flat.points.Focus(kinematics.LowerRear) || flat.points.Focus(kinematics.SpringBody) {
		t.Error("focus on a point that is not there")
	}
}

func TestTabWalksAllFields(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	d.points.Focus(kinematics.UpperFront)
	seen := map[string]bool{}
	for range 60 {
		switch f := d.window.Canvas().Focused().(type) {
		case *field:
			seen[f.name] = true
		case *keyed.Check:
			seen[f.Text] = true
		case *keyed.Select:
			seen[fmt.Sprintf("%p", f)] = true
		default:
			t.Fatalf("focus on %T", f)
		}
		d.window.Canvas().FocusNext()
	}
	if len(seen) != 11*3+3+1+2+2 {
		t.Errorf("%d fields reached", len(seen))
	}
}

// The wheel must scroll the panel with the pointer over a field, which would
// keep it to itself.
func TestTheWheelScrollsOverAField(t *testing.T) {
	d := newDesk(t, "gravel-estate")
	f := d.field(kinematics.LowerFront, 1)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(f).Add(fyne.NewPos(20, 12))
	test.Scroll(d.window.Canvas(), at, 0, -120)
	if got := d.points.scroll.Offset.Y; got != 120 {
		t.Errorf("scrolled to %g", got)
	}
}

func TestFieldsAreLargeEnoughAndInside(t *testing.T) {
	for _, width := range []float32{220, 248, 300, 640} {
		d := newDesk(t, "rear-toe-link")
		d.window.Resize(fyne.NewSize(width, 560))
		for _, o := range d.points.content.Objects {
			if o.Position().X < 0 || o.Position().X+o.Size().Width > width {
				t.Errorf("at %g: %T runs from %g to %g", width, o, o.Position().X, o.Position().X+o.Size().Width)
			}
			if f, ok := o.(*field); ok && (f.Size().Height < 24 || f.Size().Width < 48) {
				t.Errorf("at %g: field %s is %v", width, f.name, f.Size())
			}
		}
	}
}

// What a text means must not run into the name beside it, nor get lost.
func TestEchoAndNameStandApart(t *testing.T) {
	for _, width := range []float32{220, 248} {
		d := newDesk(t, "gravel-estate")
		d.window.Resize(fyne.NewSize(width, 560))
		for p, r := range d.points.points {
			d.typeOver(r.fields[0], "-9999.99 mm")
			name, echo := float32(r.label.measure(r.label.text)), float32(r.echo.measure(r.echo.text))
			if name+fieldGap+echo > width-2*margin {
				t.Errorf("%g, %v: name %g and echo %q of %g points", width, p, name, r.echo.text, echo)
			}
			if got := r.echo.text + r.under.text; got != "−9\u2009999.99 mm = −393.700 in" {
				t.Errorf("%g, %v: echo %q", width, p, got)
			}
			press(r.fields[0], fyne.KeyEscape)
		}
	}
}

var _ fyne.Widget = (*Points)(nil)

// What is said of a length names no millimetre where lengths are in inches.
func TestLengthsAreSpokenOfInTheirUnit(t *testing.T) {
	for i := range links {
		l := &links[i]
		if text := l.hinted(units.Inch); strings.Contains(text, "mm") || !strings.Contains(text, "/8 in") {
			t.Errorf("%s: %q", l.name, text)
		}
		if text := l.hinted(units.Millimetre); !strings.Contains(text, " mm") {
			t.Errorf("%s: %q", l.name, text)
		}
	}
	if text := units.Said(lengthError{}, units.Inch).Error(); strings.Contains(text, "mm") || lengthError.Error(lengthError{}) != "a length is at least 1 mm; with a sign it is how much longer or shorter" {
		t.Errorf("%q, %q", text, lengthError{})
	}
}
