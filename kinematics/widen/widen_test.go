package widen

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"gopkg.in/yaml.v3"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/internal/checkcorner"
)

type vec = kinematics.Vec

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// workshop is the corner of testdata/widen/practice.yaml, with an upright
// steering axis.
func workshop() kinematics.Corner {
	return kinematics.Corner{
		Lower:  kinematics.FlatArm(vec{Y: 300, Z: 185}, vec{Y: 650, Z: 185}),
		Upper:  kinematics.FlatArm(vec{Y: 360, Z: 445}, vec{Y: 650, Z: 445}),
		TieRod: kinematics.TieRod{RackEnd: vec{X: -128, Y: 300, Z: 185}, OuterEnd: vec{X: -128, Y: 650, Z: 185}},
		Hub:    vec{Y: 669, Z: 302},
		Wheel:  kinematics.Wheel{LoadedRadius: 302},
	}
}

// inclined is a corner with everything inclined, camber, toe and a spring on the upright.
func inclined() kinematics.Corner {
	c := checkcorner.Inclined()
	c.Hub, c.Camber, c.Toe = vec{X: 1, Y: 751, Z: 309}, rad(-1.3), rad(0.15)
	c.Wheel = kinematics.Wheel{Offset: 33, Spacer: 5, LoadedRadius: 307}
	c.Spring = kinematics.Spring{Carrier: kinematics.OnUpright, Moving: vec{X: -3, Y: 640, Z: 215}, Body: vec{X: -10, Y: 470, Z: 600}}
	return c
}

func wide() clearance.Tyre {
	return clearance.Tyre{Radius: 314.5, Section: 295, Tread: 241, Shoulder: 19, Widest: 268}
}

func narrow() clearance.Tyre {
	return clearance.Tyre{Radius: 317, Section: 233, Tread: 188, Shoulder: 17, Widest: 270}
}

func reading(t *testing.T, m *kinematics.Mechanism, q kinematics.Quantity) float64 {
	t.Helper()
	p := checkcorner.At(t, m, 0, 0)
	r := p.Readings()
	v, ok := r.Of(q)
	if !ok {
		t.Fatalf("no %v", q)
	}
	return v
}

// arc returns the radius of the circle about the steering axis, square to it,
// on which the contact centre stands, and checks that steering keeps the
// point that was in contact on that circle.
func arc(t *testing.T, m *kinematics.Mechanism) float64 {
	t.Helper()
	off := func(p *kinematics.Pose, q vec) float64 {
		return r3.Norm(r3.Cross(r3.Sub(q, p.LowerBall), p.SteeringAxis()))
	}
	rest := checkcorner.At(t, m, 0, 0)
	radius := off(&rest, rest.Contact)
	for _, rack := range []float64{-37, 22} {
		p := checkcorner.At(t, m, 0, rack)
		// The wheel stands upright in every pose of the workshop corner.
		if got := off(&p, p.Contact); math.Abs(got-radius) > 1e-9 {
			t.Errorf("rack %g: the contact centre is %g off the axis, was %g", rack, got, radius)
		}
	}
	return radius
}

func TestCommonPractice(t *testing.T) {
	text, err := os.ReadFile("../../testdata/widen/practice.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Rows []struct {
			Row, Source   string
			Given, Expect map[string]float64
			Tolerance     float64
		}
	}
	if err := yaml.Unmarshal(text, &file); err != nil || len(file.Rows) == 0 {
		t.Fatal(err, len(file.Rows))
	}
	before := checkcorner.New(t, workshop())
	ub, _ := before.ArmLengths()
	for _, row := range file.Rows {
		after := checkcorner.New(t, Arms(Spacers(workshop(), row.Given["spacers"]), row.Given["arms"]))
		ua, _ := after.ArmLengths()
		got := map[string]float64{
			"scrub":            reading(t, after, kinematics.ScrubRadius),
			"swing_of_contact": arc(t, after),
			"half_track_gain":  reading(t, after, kinematics.HalfTrack) - reading(t, before, kinematics.HalfTrack),
			"rod_gain":         after.RodLength() - before.RodLength(),
			"upper_gain":       ua - ub,
		}
		if row.Source == "" || len(row.Expect) == 0 {
			t.Errorf("%s: no source or nothing expected", row.Row)
		}
		for key, want := range row.Expect {
			if v, ok := got[key]; !ok || !(math.Abs(v-want) <= row.Tolerance) {
				t.Errorf("%s: %s %.9g, want %g", row.Row, key, v, want)
			}
		}
	}
}

// On a corner in space longer arms leave all of scrub radius, trail, caster and
// the swing of each shoulder, to rounding; spacers make the outer
// swing grow.
func TestArmsKeepWhatSpacersSpoil(t *testing.T) {
	c := inclined()
	both, err := By(c, 43.7)
	if err != nil {
		t.Fatal(err)
	}
	m, spacers, arms := checkcorner.New(t, c), checkcorner.New(t, both.Spacers), checkcorner.New(t, both.Arms)
	for _, q := range []kinematics.Quantity{kinematics.ScrubRadius, kinematics.Trail, kinematics.Caster, kinematics.SteeringAxisInclination, kinematics.Camber, kinematics.Toe} {
		if was, is := reading(t, m, q), reading(t, arms, q); math.Abs(was-is) > 1e-9 {
			t.Errorf("longer arms change %v from %g to %g", q, was, is)
		}
	}
	gain := reading(t, spacers, kinematics.ScrubRadius) - reading(t, m, kinematics.ScrubRadius)
	if math.Abs(gain-43.7) > 0.4 {
		t.Errorf("spacers add %g to the scrub radius, want about 43.7", gain)
	}
	swing := func(m *kinematics.Mechanism) clearance.Swing {
		p := checkcorner.At(t, m, 0, 0)
		return clearance.SwingOf(&p, wide())
	}
	was, far, same := swing(m), swing(spacers), swing(arms)
	if math.Abs(same.OuterFront-was.OuterFront) > 1e-6 || math.Abs(same.InnerRear-was.InnerRear) > 1e-6 {
		t.Errorf("longer arms: swing %+v, was %+v", same, was)
	}
	if far.OuterFront < was.OuterFront+10 || far.OuterRear < was.OuterRear+10 {
		t.Errorf("spacers: swing %+v, was %+v", far, was)
	}
	if both.Arms.Spring.Moving.Y != c.Spring.Moving.Y+43.7 || both.Arms.Spring.Body != c.Spring.Body {
		t.Errorf("a spring on the upright: %+v", both.Arms.Spring)
	}
	onArm := c
	onArm.Spring.Carrier = kinematics.OnLowerArm
	if Arms(onArm, 43.7).Spring != onArm.Spring {
		t.Error("a spring on the arm moved")
	}
}

// Four parallel equal links steer nothing in bump; with all arms longer and the
// rod with them they still do, and with the old rod moved out they do not.
func TestRods(t *testing.T) {
	travel := []float64{-55, -41, -27, -13, 4, 18, 33, 47, 61}
	c := workshop()
	c.Upper = kinematics.FlatArm(vec{Y: 300, Z: 445}, vec{Y: 650, Z: 445})
	ride := func(rods Rods) RideToe {
		n, err := WithRods(Arms(c, 50.8), 50.8, rods, travel)
		if err != nil {
			t.Fatal(err)
		}
		r, err := RideToeOver(checkcorner.New(t, n), travel)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if r := ride(RodLengthened); r.Most > 1e-9 || math.Abs(r.Rate) > 1e-12 {
		t.Errorf("rod lengthened with the arms: %+v", r)
	}
	// Rod of 350 and arms of 400.8: at 61 mm of bump the arcs are apart by
	// their sagittas, on a steering arm of 128.
	r := ride(RodKept)
	want := math.Atan((350 - math.Sqrt(350*350-61*61) - (400.8 - math.Sqrt(400.8*400.8-61*61))) / 128)
	if r.At != 61 || math.Abs(r.Most-want) > 0.02*want || math.Abs(r.Rate) > 1e-9 {
		t.Errorf("rod kept: %+v, want %g at 61", r, want)
	}
	spoiled := inclined()
	spoiled.TieRod.RackEnd.Z += 9
	worst, err := RideToeOver(checkcorner.New(t, Arms(spoiled, 38)), travel)
	if err != nil {
		t.Fatal(err)
	}
	fitted, err := WithRods(Arms(spoiled, 38), 38, RackEndFitted, travel)
	if err != nil {
		t.Fatal(err)
	}
	if r, err := RideToeOver(checkcorner.New(t, fitted), travel); err != nil || r.Most > worst.Most/10 {
		t.Errorf("rack end fitted: %+v (%v), was %+v", r, err, worst)
	}
}

func TestByRefuses(t *testing.T) {
	for mm, says := range map[float64]string{
		math.NaN(): "NaN mm a side", 5080: "5080 mm a side is not within ±500 mm", -777: "\u2212777 mm a side is not",
	} {
		if _, err := By(inclined(), mm); !errors.Is(err, ErrWiden) || !strings.Contains(err.Error(), says) {
			t.Errorf("by %g: %v, want %q", mm, err, says)
		}
	}
	if p, err := By(inclined(), -7); err != nil || p.HasSpacers || p.Arms.Hub.Y != inclined().Hub.Y-7 {
		t.Errorf("narrower by more than the spacer: %+v, %v", p, err)
	}
	if p, err := By(inclined(), -4); err != nil || !p.HasSpacers || p.Spacers.Wheel.Spacer != 1 {
		t.Errorf("narrower by 4: %v, %v", p.Spacers.Wheel, err)
	}
	bad := inclined()
	bad.Upper.Ball = bad.Lower.Ball
	if _, err := By(bad, 20); !errors.Is(err, kinematics.ErrGeometry) {
		t.Errorf("a corner that is none: %v", err)
	}
}
