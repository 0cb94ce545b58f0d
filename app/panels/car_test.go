package panels

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// garage is a panel of the car on a window, with its owner, who shows every edit.
type garage struct {
	*bench
	car    *Car
	spring *Car
	window fyne.Window
}

func newGarage(t *testing.T, demo string) *garage {
	t.Helper()
	g := &garage{bench: newBench(t, demo), car: NewCar(), spring: NewSpring()}
	for _, c := range []*Car{g.car, g.spring} {
		c.OnEdit = func(name string, change func(j *job.Job)) error {
			g.names = append(g.names, name)
			err := g.doc.EditJob(name, "", change)
			g.show()
			return err
		}
		c.OnVariant = func(name string, change func(v *job.Variant)) error {
			err := g.edit(name, change)
			g.show()
			return err
		}
	}
	g.window = show(t, container.NewGridWithRows(2, g.car, g.spring), look.Light, 248, 1800)
	g.show()
	return g
}

// show shows the job in both panels.
func (g *garage) show() {
	for _, c := range []*Car{g.car, g.spring} {
		c.SetInput(g.input())
	}
}

// row finds a row by its label.
func (g *garage) row(label string) *valueRow {
	g.t.Helper()
	for _, l := range g.car.lines {
		if r, ok := l.row.(*valueRow); ok && r.label.text == label {
			return r
		}
	}
	g.t.Fatalf("no row %q", label)
	return nil
}

func (g *garage) has(label string) bool {
	for _, l := range g.car.lines {
		if r, ok := l.row.(*valueRow); ok && r.label.text == label {
			return true
		}
	}
	return false
}

// enter types over a field and presses Enter.
func (g *garage) enter(f *field, text string) {
	g.window.Canvas().Focus(f)
	for range len([]rune(f.Text)) + 1 {
		press(f, fyne.KeyBackspace)
		press(f, fyne.KeyDelete)
	}
	test.Type(f, text)
	press(f, fyne.KeyReturn)
}

func (g *garage) pick(carrier string) {
	g.spring.spring.carrier.list.SetSelected(carrier)
}

func TestEveryValueOfTheCarIsTyped(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	for _, c := range []struct {
		label, text, edit string
		got               func(j *job.Job) float64
		want              float64
	}{
		{"Bump", "65", "type bump travel", func(j *job.Job) float64 { return j.Travel.Bump.MM }, 65},
		{"Droop", "2 1/4 in", "type droop travel", func(j *job.Job) float64 { return j.Travel.Droop.MM }, 57.15},
		{"To the left", "58.5", "type rack travel to the left", func(j *job.Job) float64 { return j.Rack.Left.MM }, 58.5},
		{"To the right", "57", "type rack travel to the right", func(j *job.Job) float64 { return j.Rack.Right.MM }, 57},
		{"Rack for a turn", "1.75 in", "type rack for a turn", func(j *job.Job) float64 { return j.Steering.RackPerTurn.MM }, 44.45},
		{"Steering wheel", "342", "type steering wheel", func(j *job.Job) float64 { return j.Steering.WheelDiameter.MM }, 342},
		{"Wheelbase", "2.53 m", "type wheelbase", func(j *job.Job) float64 { return j.Wheelbase.MM }, 2530},
		{"Corner weight", "700 lb", "type corner weight", func(j *job.Job) float64 { return j.CornerWeight.Kg }, 317.514659},
		{"Measured within", "1.5", "type measured within", func(j *job.Job) float64 { return j.MeasuredWithin.MM }, 1.5},
		{"This variant", "0.75", "type measured within of the variant", func(j *job.Job) float64 { return j.Variants[2].MeasuredWithin.MM }, 0.75},
		{"Across", "388", "type brake diameter", func(j *job.Job) float64 { return j.Brake.Diameter.MM }, 388},
		{"Wished gap", "3.5", "type brake gap", func(j *job.Job) float64 { return j.Brake.Gap.MM }, 3.5},
		{"Upper ball joint", "22", "type limit of the upper ball joint", func(j *job.Job) float64 { return float64(j.JointLimits.UpperBall.Degrees) }, 22},
		{"Lower ball joint", "23", "type limit of the lower ball joint", func(j *job.Job) float64 { return float64(j.JointLimits.LowerBall.Degrees) }, 23},
		{"Outer tie-rod end", "17 1/2 deg", "type limit of the outer tie-rod end", func(j *job.Job) float64 { return float64(j.JointLimits.OuterEnd.Degrees) }, 17.5},
		{"Rack end", "19", "type limit of the rack end", func(j *job.Job) float64 { return float64(j.JointLimits.RackEnd.Degrees) }, 19},
	} {
		g.names = nil
		g.enter(g.row(c.label).field, c.text)
		if got := c.got(g.doc.Job()); math.Abs(got-c.want) > 1e-9 || strings.Join(g.names, "|") != c.edit {
			t.Errorf("%s: %v, want %v, by %q, under it %q", c.label, got, c.want, g.names, g.row(c.label).under.text)
		}
	}
	if w := g.doc.Job().CornerWeight; w.Text() != "700 lb" || g.row("Corner weight").field.Text != "700 lb" {
		t.Errorf("the weight is kept as %+v, shown as %q", w, g.row("Corner weight").field.Text)
	}
	if l := g.doc.Job().Travel.Droop; l.Typed != "2 1/4 in" {
		t.Errorf("the typed text is %q", l.Typed)
	}
	for name := ""; ; {
		var ok bool
		if name, ok = g.doc.Undo(); !ok {
			break
		}
		if !strings.HasPrefix(name, "type ") {
			t.Errorf("undo takes back %q", name)
		}
	}
	if g.doc.Changed() {
		t.Error("all undone, the job is not what it was")
	}
}

// TestAnEmptyFieldTakesTheValueAway where the job may leave it out, and says
// what holds then; where it must be given that is refused.
func TestAnEmptyFieldTakesTheValueAway(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	for label, hint := range map[string]string{
		"Rack for a turn": "45 mm assumed", "Steering wheel": "360 mm assumed", "Wheelbase": "no turning circle", "Corner weight": "350 kg assumed", "This variant": "as the job's",
		"Across": "not looked at", "Wished gap": "common practice", "Upper ball joint": "no limit", "Lower ball joint": "no limit", "Outer tie-rod end": "no limit", "Rack end": "no limit",
	} {
		g.enter(g.row(label).field, "")
		g.window.Canvas().Unfocus()
		if r := g.row(label); r.field.Text != "" || !strings.Contains(r.under.text, hint) {
			t.Errorf("%s: %q, under it %q", label, r.field.Text, r.under.text)
		}
	}
	j := g.doc.Job()
	if j.Steering.Any() || j.Brake.Any() || j.JointLimits.Any() || j.CornerWeight.Given || j.Wheelbase.Given || j.Variants[2].MeasuredWithin.Given || len(g.names) != 11 {
		t.Errorf("left are %+v %+v %+v %+v, edits %q", j.Steering, j.Brake, j.JointLimits, j.CornerWeight, g.names)
	}
	for _, name := range g.names {
		if !strings.HasPrefix(name, "drop ") {
			t.Errorf("an edit is called %q", name)
		}
	}
	for label, text := range map[string]string{"Bump": "", "To the left": "", "Measured within": ""} {
		g.enter(g.row(label).field, text)
		if !strings.HasPrefix(g.row(label).under.text, "✕ Nothing is entered") {
			t.Errorf("%s: %q", label, g.row(label).under.text)
		}
		press(g.row(label).field, fyne.KeyEscape)
	}
}

func TestReasonsAtTheFieldsOfTheCar(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	before := g.doc.Job()
	for _, c := range []struct{ label, text, reason string }{
		{"Bump", "-70", "below zero"}, {"To the right", "62 deg", "deg is a unit of angle"}, {"Rack for a turn", "0", "between 1 mm and 1000 mm"},
		{"Corner weight", "317,5 kg", "a comma is not read"}, {"Corner weight", "6000", "at most 5000 kg"}, {"Corner weight", "3 kN", "is not a weight"},
		{"Across", "-330", "between 1 mm"}, {"Wished gap", "2 ft", "500 mm"}, {"Rack end", "0", "up to 90 degrees"}, {"Upper ball joint", "12 mm", "unit of length"},
		{"Measured within", "60", "50 mm"}, {"Wheelbase", "0", "above zero"},
	} {
		r := g.row(c.label)
		g.enter(r.field, c.text)
		if !strings.HasPrefix(strings.ToLower(r.under.text), "✕ ") || !strings.Contains(strings.ToLower(r.under.text), strings.ToLower(c.reason)) {
			t.Errorf("%s %q: %q", c.label, c.text, r.under.text)
		}
		g.window.Canvas().Unfocus()
		if r.field.Text != c.text || g.doc.Job() != before {
			t.Errorf("%s: %q became %q, or the job changed", c.label, c.text, r.field.Text)
		}
		g.window.Canvas().Focus(r.field)
		press(r.field, fyne.KeyEscape)
		g.window.Canvas().Unfocus()
		if strings.HasPrefix(r.under.text, "✕") || r.field.Text == c.text {
			t.Errorf("%s: after Esc %q, %q", c.label, r.field.Text, r.under.text)
		}
	}
}

// TestTheCarInInches: what is typed bare is in inches and pounds, echoed in both.
func TestTheCarInInches(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	g.unit = units.Inch
	g.car.SetInput(g.input())
	if got := g.row("Corner weight").field.Text; got != "784.8 lb" { // 356 / 0.45359237
		t.Errorf("356 kg are shown as %q", got)
	}
	if got := g.row("Bump").field.Text; got != "3.543" {
		t.Errorf("90 mm are shown as %q", got)
	}
	g.enter(g.row("Corner weight").field, "695")
	if w := g.doc.Job().CornerWeight; w.Text() != "695 lb" || math.Abs(w.Kg-315.24669715) > 1e-9 {
		t.Errorf("%+v", w)
	}
	if got := g.row("Corner weight").under.text; got != "315.2 kg = 695 lb" {
		t.Errorf("echo %q", got)
	}
	g.enter(g.row("Steering wheel").field, "14")
	if got := g.doc.Job().Steering.WheelDiameter.MM; got != 355.6 {
		t.Errorf("14 in are %v mm", got)
	}
	g.enter(g.row("Rack for a turn").field, "")
	g.window.Canvas().Unfocus()
	if got := g.row("Rack for a turn").under.text; !strings.Contains(got, "1.77 in assumed") {
		t.Errorf("hint %q", got)
	}
}

// TestARearAxleHasNoSteering, and its rods are links.
func TestARearAxleHasNoSteering(t *testing.T) {
	g := newGarage(t, "rear-toe-link")
	for _, label := range []string{"To the left", "To the right", "Rack for a turn", "Steering wheel", "Rack end"} {
		if g.has(label) {
			t.Errorf("a rear axle has %q", label)
		}
	}
	g.enter(g.row("Toe link's body end").field, "21.5")
	if got := g.doc.Job().JointLimits.RackEnd.Degrees; got != 21.5 || g.names[0] != "type limit of the toe link's body end" {
		t.Errorf("%v by %q", got, g.names)
	}
	g.enter(g.row("Corner weight").field, "612 lb")
	if !g.doc.Job().CornerWeight.Given {
		t.Errorf("a rear axle takes no weight: %q", g.row("Corner weight").under.text)
	}
}

// TestASpringIsGivenMovedAndTaken: a new one stands where the program guesses
// and is marked so, end by end, until it is typed over.
func TestASpringIsGivenMovedAndTaken(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	held := func() *job.Variant { return g.doc.Variant() }
	g.pick("no spring")
	if held().Spring != (job.Spring{}) || g.spring.shape.spring || !strings.Contains(g.spring.spring.note.text, "no motion ratio") {
		t.Fatalf("%+v, %q", held().Spring, g.spring.spring.note.text)
	}
	g.pick("upper arm")
	if s := held().Spring; s.CarriedBy != kinematics.OnUpperArm || held().Assumed.Count() != 6 || !strings.Contains(g.spring.spring.note.text, "guess") {
		t.Fatalf("%+v, %d assumed, %q", s, held().Assumed.Count(), g.spring.spring.note.text)
	}
	if row := g.spring.spring.ends[0]; !row.fields[1].assumed || !strings.Contains(row.echo.text+row.under.text, "y assumed ±80 mm") {
		t.Errorf("the moving end is marked %q", row.echo.text+row.under.text)
	}
	// Half way along the upper arm, whose ball joint stands at y 632 and z 529.
	if at := held().Spring.Moving; at.Y.MM < 495 || at.Y.MM > 505 || at.Z.MM < 523 || at.Z.MM > 533 || held().Spring.Body.Z.MM-at.Z.MM != 300 {
		t.Errorf("guessed at %+v", held().Spring)
	}
	g.enter(g.spring.spring.ends[0].fields[1], "531.5")
	if held().Spring.Moving.Y.MM != 531.5 || held().Assumed.Count() != 5 {
		t.Errorf("%+v, %d assumed", held().Spring.Moving, held().Assumed.Count())
	}
	for i, end := range g.spring.spring.ends {
		for axis, f := range end.fields {
			g.enter(f, []string{"−21", "533", "447", "−27", "441", "752"}[3*i+axis])
		}
	}
	if held().Assumed.Count() != 0 || strings.Contains(g.spring.spring.note.text, "guess") || held().Spring.Body.Vec() != (kinematics.Vec{X: -27, Y: 441, Z: 752}) {
		t.Errorf("%+v, %q", held().Spring, g.spring.spring.note.text)
	}
	g.pick("upright")
	if s := held().Spring; s.CarriedBy != kinematics.OnUpright || s.Moving.Y.MM != 533 {
		t.Errorf("%+v", s)
	}
	want := []string{"remove spring", "put spring on the upper arm", "carry spring by the upright"}
	if g.names[0] != want[0] || g.names[1] != want[1] || g.names[len(g.names)-1] != want[2] || g.names[2] != "type spring's moving end y" {
		t.Errorf("edits %q", g.names)
	}
	if len(g.doc.Job().Problems()) != 0 {
		t.Error(g.doc.Job().Problems())
	}
}

// TestEveryCarrierTakesANewSpring that the job accepts.
func TestEveryCarrierTakesANewSpring(t *testing.T) {
	for _, demo := range []string{"gravel-estate", "rear-toe-link", "flat-teaching"} {
		for i, by := range carriers[1:] {
			g := newGarage(t, demo)
			g.pick("no spring")
			g.pick(carrierNames[i+1])
			if got := g.doc.Variant().Spring.CarriedBy; got != by {
				t.Errorf("%s: %s gives %v: %q", demo, carrierNames[i+1], got, g.spring.spring.carrier.under.text)
			}
			if _, ok := g.input().Frame.Now.Readings.Of(kinematics.MotionRatio); !ok {
				t.Errorf("%s: %s has no motion ratio", demo, carrierNames[i+1])
			}
		}
	}
}

// TestARefusedCarrierStays as the job has it, with the reason.
func TestARefusedCarrierStays(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	g.spring.OnVariant = func(string, func(v *job.Variant)) error {
		return job.Problems{{What: "is locked", Cure: "unlock it"}}
	}
	g.pick("upright")
	if c := g.spring.spring.carrier; c.list.Selected != "lower arm" || c.under.text != "✕ Is locked; unlock it." {
		t.Errorf("%q, %q", c.list.Selected, c.under.text)
	}
}

// TestTheSpringFollowsAHand, and goes back when the gesture is dropped.
func TestTheSpringFollowsAHand(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	c := g.doc.Variant().Corner()
	c.Spring.Body.Y += 12.5
	g.spring.Follow(c)
	f := g.spring.spring.ends[1].fields[1]
	if f.Text != "443.5" {
		t.Errorf("in the hand it is at %q", f.Text)
	}
	g.show()
	if f.Text != "431" {
		t.Errorf("dropped it is at %q", f.Text)
	}
}

// TestWhatIsTypedForOneVariantStaysThere: of the job it may be handed in at any.
func TestWhatIsTypedForOneVariantStaysThere(t *testing.T) {
	g := newGarage(t, "gravel-estate")
	end, bump := g.spring.spring.ends[0].fields[2], g.row("Bump").field
	typed := func(f *field, text string) {
		g.window.Canvas().Focus(f)
		f.selectAll()
		test.Type(f, text)
	}
	typed(end, "231")
	g.doc.Show(0)
	g.show()
	g.window.Canvas().Unfocus()
	if g.doc.Variant().Spring.Moving.Z.MM == 231 || !strings.Contains(g.spring.spring.ends[0].under.text, "another variant") {
		t.Errorf("handed in to another variant; it says %q", g.spring.spring.ends[0].under.text)
	}
	g.window.Canvas().Focus(end)
	press(end, fyne.KeyEscape)
	typed(bump, "66")
	g.doc.Show(1)
	g.show()
	g.window.Canvas().Unfocus()
	if g.doc.Job().Travel.Bump.MM != 66 {
		t.Errorf("bump is %v: %q", g.doc.Job().Travel.Bump.MM, g.row("Bump").under.text)
	}
}

// Travel and rack that nobody has measured say so at their fields, until they are
// typed, the same number too.
func TestAssumedTravelIsMarkedAtItsField(t *testing.T) {
	g := newGarage(t, "flat-teaching")
	if err := g.car.OnEdit("assume", func(j *job.Job) { j.Travel.Assumed, j.Rack.Assumed = job.Sides{true, true}, job.Sides{false, true} }); err != nil {
		t.Fatal(err)
	}
	for label, want := range map[string]bool{"Bump": true, "Droop": true, "To the left": false, "To the right": true} {
		if got := g.row(label).under.text; strings.HasPrefix(got, "assumed; ") != want || g.row(label).field.assumed != want {
			t.Errorf("%s: %q", label, got)
		}
	}
	f := g.row("Bump").field
	if err := f.hand(f.Text); err != nil || g.doc.Job().Travel.Assumed != (job.Sides{false, true}) {
		t.Errorf("typed, assumed is %v (%v)", g.doc.Job().Travel.Assumed, err)
	}
}
