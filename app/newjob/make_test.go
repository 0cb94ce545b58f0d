package newjob

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func form(axle job.Axle) Form { return Form{Axle: axle, Units: units.Millimetre} }

// sound checks what every job made must be: it assembles over its travel, has
// the track asked for, comes back from its file, and looks like a car.
func sound(t *testing.T, what string, r *Result) {
	t.Helper()
	if err := report.Check(report.SourcesOf(r.Job)); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	data, err := r.Job.Encode()
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if back, err := job.Read("back", data); err != nil || !back.Equal(r.Job) {
		t.Fatalf("%s: it reads back otherwise: %v", what, err)
	}
	corner := r.Job.Variants[0].Corner()
	m, err := kinematics.New(&corner)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	p, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	rest := p.Readings()
	if half, _ := rest.Of(kinematics.HalfTrack); math.Abs(2*half-r.Values[Track]) > 0.05 || !r.Default[Track] && math.Abs(half-r.Values[Track]/2) > 1e-9 {
		t.Errorf("%s: track %g, want %g", what, 2*half, r.Values[Track])
	}
	if contact := corner.RestContact(); math.Abs(contact.Z) > 0.006 {
		t.Errorf("%s: the tyre stands %g mm above the floor", what, contact.Z)
	}
	camber, _ := rest.Of(kinematics.Camber)
	toe, _ := rest.Of(kinematics.Toe)
	if math.Abs(camber-r.Values[Camber]*deg) > 1e-9 || math.Abs(toe-r.Values[Toe]*deg) > 1e-9 {
		t.Errorf("%s: camber %g, toe %g, want %g and %g", what, camber/deg, toe/deg, r.Values[Camber], r.Values[Toe])
	}
	if behind := r.Job.Variants[0].TieRod.OuterEnd.X.MM < 0; r.Values[RodAhead] != 0 && behind != r.rodBehind {
		t.Errorf("%s: tie rod behind %v, want %v", what, behind, r.rodBehind)
	}
}

func TestNothingTyped(t *testing.T) {
	for _, axle := range []job.Axle{job.Front, job.Rear} {
		r, err := Make(form(axle))
		if err != nil {
			t.Fatal(err)
		}
		sound(t, axle.String(), r)
		for f := range FieldCount {
			if !r.Default[f] {
				t.Errorf("%s counts as typed", f.About().Name)
			}
		}
		v := &r.Job.Variants[0]
		c := v.Corner()
		// The hub's x is that of the axle line.
		if want := len(c.Coordinates()) + 3; v.Assumed.Count() != want || !r.TyreDefault {
			t.Errorf("%d values are assumed, want all %d", v.Assumed.Count(), want)
		}
		// Plausible: these are ranges that road cars keep. Common practice, no source.
		s := report.SourceOf(r.Job, 0)
		list, err := report.ReadingsOf(s, figures.Position{})
		if err != nil {
			t.Fatal(err)
		}
		for key, within := range map[string][2]float64{
			"scrub_radius": {-30, 80}, "caster": {2 * deg, 8 * deg}, "steering_axis_inclination": {5 * deg, 14 * deg},
			"roll_centre_height": {-20, 150}, "swing_arm": {700, 9000}, "camber_gain": {-0.08 * deg, 0}, "ride_toe": {-0.006 * deg, 0.006 * deg},
		} {
			if l := list.Find(key); l == nil || !l.Known || l.Value < within[0] || l.Value > within[1] {
				t.Errorf("%s axle: %s is %+v, want within %v", axle, key, l, within)
			}
		}
		if r.Job.Travel.Bump.MM != usualTravel || (r.Job.Rack.Left.MM == usualRack) != (axle == job.Front) {
			t.Errorf("travel %+v, rack %+v", r.Job.Travel, r.Job.Rack)
		}
	}
}

const deg = math.Pi / 180

// The fewest numbers that a builder has at once; what he typed stays as typed
// and is not assumed.
func TestTheFewestNumbers(t *testing.T) {
	f := form(job.Front)
	f.Name, f.Tyre = "Gravel estate", "205/65R15"
	for field, text := range map[Field]string{
		Track: "1459", Offset: "20", HubHeight: "12 in", LowerPivotSide: "312", LowerPivotHeight: "184", LowerBallHeight: "191",
		UpperPivotSide: "374", UpperPivotHeight: "443", UpperBallHeight: "481",
	} {
		f.Typed[field] = text
	}
	r, err := Make(f)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "estate", r)
	v := &r.Job.Variants[0]
	if math.Abs(v.Hub.Z.MM-304.8-20*math.Sin(1*deg)) > 0.06 || v.Wheel.LoadedRadius.MM != 304.8 || v.LowerArm.Front.Y.MM != 312 || v.UpperArm.Ball.Z.MM != 481 || r.Job.Name != "Gravel estate" {
		t.Errorf("%+v", v)
	}
	assumed := func(p kinematics.Point, axis int) bool {
		return v.Assumed.Has(job.Coordinate(kinematics.Coordinate{Point: p, Axis: axis}))
	}
	if assumed(kinematics.LowerFront, 1) || assumed(kinematics.HubFace, 1) || assumed(kinematics.HubFace, 2) || assumed(kinematics.UpperBall, 2) ||
		!assumed(kinematics.UpperBall, 1) || !assumed(kinematics.UpperBall, 0) || !assumed(kinematics.RackEnd, 2) ||
		v.Assumed.Has(job.OffsetValue) || !v.Assumed.Has(job.CamberValue) {
		t.Errorf("assumed %b", v.Assumed)
	}
	if r.Default[Track] || !r.Default[RackEndSide] || r.TyreDefault {
		t.Errorf("defaults %v", r.Default)
	}
}

func TestErrorsInWords(t *testing.T) {
	for _, c := range []struct {
		set  func(*Form)
		want []string
	}{
		{func(f *Form) { f.Typed[Track] = "5 feet 3 stones" }, []string{`Track = "5 feet 3 stones": `}},
		{func(f *Form) { f.Typed[Track] = "150" }, []string{`Track = "150": is less than 300 mm; check the number and its unit`}},
		{func(f *Form) { f.Tyre = "round" }, []string{`Tyre = "round": `}},
		{func(f *Form) { f.Typed[LowerPivotSide], f.Typed[LowerBallSide] = "700", "690" },
			[]string{`Lower ball joint, from the middle = "690": the lower arm would have no length: lower ball joint, from the middle is 690 mm, lower pivot, from the middle 700 mm; measure both again`}},
		{func(f *Form) { f.Typed[UpperBallHeight], f.Typed[LowerBallHeight] = "190", "480" }, []string{"Upper ball joint height = \"190\": the upper ball joint must stand above"}},
		{func(f *Form) { f.Typed[Bump] = "800" }, []string{`Bump = "800": the linkage does not go so far: variant "as measured":`}},
		{func(f *Form) { f.Typed[Droop], f.Typed[RimWidth], f.Typed[Offset] = "-5", "1 in", "9 m" },
			[]string{`Rim width = "1 in": is less than 50.8 mm`, `Droop = "-5": is less than 0 mm`}},
		{func(f *Form) { f.Typed[Offset] = "9 m" }, []string{"variants[0].wheel.offset: is not between"}},
	} {
		f := form(job.Front)
		c.set(&f)
		r, err := Make(f)
		var ps Problems
		if r != nil || !errors.As(err, &ps) {
			t.Errorf("%v: taken (%v)", c.want, err)
			continue
		}
		lines := strings.Split(err.Error(), "\n")
		if len(lines) < len(c.want) {
			t.Errorf("got %q, want %q", lines, c.want)
			continue
		}
		for i, want := range c.want {
			if !strings.HasPrefix(lines[i], want) {
				t.Errorf("%q does not say %q", lines[i], want)
			}
		}
	}
}

// Whatever is typed of what a car may have, the answer is a sound job or names
// a field.
func TestAnyPlausibleNumbersAssemble(t *testing.T) {
	const seed, trials = 20261125, 1500
	rnd := rand.New(rand.NewPCG(seed, 11))
	plausible := map[Field][2]float64{
		Track: {1150, 2100}, HubHeight: {250, 480}, Offset: {-60, 60}, LowerPivotSide: {150, 480}, LowerPivotHeight: {120, 420}, LowerBallSide: {520, 900},
		LowerBallHeight: {120, 330}, UpperPivotSide: {200, 520}, UpperPivotHeight: {330, 700}, UpperBallSide: {500, 850}, UpperBallHeight: {380, 800},
		RackEndSide: {200, 450}, RackEndHeight: {120, 500}, OuterEndSide: {500, 850}, OuterEndHeight: {120, 450},
		Camber: {-4, 2}, Toe: {-0.4, 0.4}, RodAhead: {80, 160}, LowerFrontAhead: {60, 220}, LowerRearBehind: {60, 300}, UpperFrontAhead: {60, 200},
		UpperRearBehind: {60, 200}, LowerRearSide: {150, 480}, LowerRearHeight: {120, 420}, UpperRearSide: {200, 520}, UpperRearHeight: {330, 700},
	}
	tyres := []string{"", "155/80R13", "205/55R16", "205/65R15", "31x10.50R15", "315/35R20"}
	made, shorter := 0, 0
	for n := range trials {
		f := form([]job.Axle{job.Front, job.Rear}[n%2])
		f.Tyre, f.Rod = tyres[rnd.IntN(len(tyres))], RodSide(rnd.IntN(3))
		f.TwoPivots = [2]bool{rnd.IntN(4) == 0, rnd.IntN(4) == 0}
		for field := range FieldCount {
			if span, ok := plausible[field]; ok && rnd.IntN(3) == 0 {
				f.Typed[field] = fmt.Sprintf("%.1f", span[0]+(span[1]-span[0])*rnd.Float64())
			}
		}
		r, err := Make(f)
		if err != nil {
			for _, line := range strings.Split(err.Error(), "\n") {
				if !strings.Contains(line, "; ") {
					t.Errorf("seed %d, %d: no cure in %q", seed, n, line)
				}
			}
			continue
		}
		made++
		if at := r.Job.Travel; (r.Shortened != "") != (r.Default[Bump] && at.Bump.MM < usualTravel || r.Default[Droop] && at.Droop.MM < usualTravel ||
			f.Axle == job.Front && (r.Job.Rack.Left.MM < usualRack || r.Job.Rack.Right.MM < usualRack)) {
			t.Errorf("seed %d, %d: %+v, %+v, and it says %q", seed, n, at, r.Job.Rack, r.Shortened)
		}
		if r.Shortened != "" {
			shorter++
		}
		sound(t, fmt.Sprintf("seed %d, %d, %+v", seed, n, f), r)
	}
	if shorter == 0 {
		t.Errorf("seed %d: no job is shortened", seed)
	}
	if made < trials*3/4 {
		t.Errorf("seed %d: only %d of %d forms make a job", seed, made, trials)
	}
}

// Points dropped on a picture are typed numbers.
func TestPointsFromAPicture(t *testing.T) {
	f := form(job.Front)
	for p, at := range map[kinematics.Point][2]float64{
		kinematics.LowerFront: {312.04, 184.3}, kinematics.LowerBall: {672.2, 191}, kinematics.UpperFront: {374, 443}, kinematics.UpperBall: {624, 481.26},
	} {
		if !f.Place(p, at[0], at[1]) {
			t.Errorf("%s is not asked for", p)
		}
	}
	if f.Place(kinematics.SpringBody, 1, 2) {
		t.Error("the spring is asked for")
	}
	f.Units = units.Inch // what is dropped is in mm whatever the job is in
	r, err := Make(f)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "dropped", r)
	if v := &r.Job.Variants[0]; math.Abs(v.UpperArm.Ball.Z.MM-481.3) > 1e-9 || math.Abs(v.LowerArm.Front.Y.MM-312) > 1e-9 {
		t.Errorf("%+v", v)
	}
}

// In a job in inches every default is one that stands on a tape in inches, and
// the points are known as well as such a tape is read.
func TestInchDefaultsStandOnTheTape(t *testing.T) {
	for _, axle := range []job.Axle{job.Front, job.Rear} {
		f := form(axle)
		f.Units = units.Inch
		f.TwoPivots = [2]bool{true, true}
		r, err := Make(f)
		if err != nil {
			t.Fatal(err)
		}
		j := r.Job
		lengths := map[string]float64{"measured within": j.MeasuredWithin.MM, "rack, left": j.Rack.Left.MM, "rack, right": j.Rack.Right.MM}
		for f := range FieldCount {
			if !f.IsAngle() {
				lengths[f.About().Name] = r.Values[f]
			}
		}
		v := &j.Variants[0]
		for i, p := range []job.Position{v.UpperArm.Ball, v.LowerArm.Ball, v.TieRod.RackEnd, v.TieRod.OuterEnd} {
			lengths[fmt.Sprintf("x of point %d", i)] = p.X.MM
		}
		for name, mm := range lengths {
			if n := mm / (25.4 / 32); math.Abs(n-math.Round(n)) > 1e-9 {
				t.Errorf("%v: %s is %g in", axle, name, mm/25.4)
			}
		}
	}
}

func TestEveryFieldSaysWhereToMeasure(t *testing.T) {
	seen := map[string]bool{}
	for f := range FieldCount {
		a := f.About()
		if a.Name == "" || a.Hint == "" || seen[a.Name] {
			t.Errorf("field %d: %+v", f, a)
		}
		seen[a.Name] = true
	}
}

// What was measured stays as typed, and what is not asked for is not taken.
func TestMeasuredStaysMeasured(t *testing.T) {
	f := form(job.Front)
	f.Typed[Track], f.Typed[Camber], f.Typed[Toe], f.Typed[RodAhead] = "4 ft 11 in", "-1 1/2", "0.1", "5 1/4 in"
	f.Rod, f.TwoPivots[0] = RodBehindAxle, true
	f.Typed[LowerRearBehind], f.Typed[UpperRearHeight] = "8 1/2 in", "nonsense" // the upper arm has one pivot
	r, err := Make(f)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "measured", r)
	v := &r.Job.Variants[0]
	if v.Track.Typed != "4 ft 11 in" || v.Camber != -1.5 || v.TieRod.RackEnd.X.Typed != "-5 1/4 in" || v.LowerArm.Rear.X.Typed != "-8 1/2 in" || v.LowerArm.Flat || !v.UpperArm.Flat {
		t.Errorf("%+v", v)
	}
	for key, want := range map[job.Value]bool{
		job.CamberValue: false, job.ToeValue: false, job.OffsetValue: true,
		at(kinematics.HubFace, 0): false, at(kinematics.HubFace, 1): false, at(kinematics.HubFace, 2): true, at(kinematics.RackEnd, 0): false, at(kinematics.OuterEnd, 0): false,
		at(kinematics.LowerFront, 0): true, at(kinematics.LowerRear, 0): false, at(kinematics.LowerRear, 1): true,
	} {
		if v.Assumed.Has(key) != want {
			t.Errorf("%s: assumed %v, want %v", v.KeyOf(key), !want, want)
		}
	}
	if !v.Track.Given {
		t.Error("the track is not kept")
	}
	// Camber typed first or last, the same corner comes out.
	later := f
	later.Typed[Camber] = ""
	r2, err := Make(later)
	if err != nil {
		t.Fatal(err)
	}
	n := r2.Job.Variants[0]
	former := n
	n.Camber = -1.5
	n.Measured(&former)
	if a, b := v.Corner(), n.Corner(); math.Abs(a.Hub.Y-b.Hub.Y) > 1e-9 {
		t.Errorf("hub %v at once, %v later", a.Hub, b.Hub)
	}
}

func at(p kinematics.Point, axis int) job.Value {
	return job.Coordinate(kinematics.Coordinate{Point: p, Axis: axis})
}
