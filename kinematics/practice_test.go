package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// workshopCorner is the corner of testdata/kinematics/practice.yaml: level
// arms of 350 and 290 mm and a scrub radius of 19 mm at no camber.
func workshopCorner() Corner {
	c := Corner{
		Lower:  FlatArm(Vec{Y: 300, Z: 185}, Vec{Y: 650, Z: 185}),
		Upper:  FlatArm(Vec{Y: 325, Z: 445}, Vec{Y: 615, Z: 445}),
		TieRod: TieRod{RackEnd: Vec{X: -128, Y: 300, Z: 185}, OuterEnd: Vec{X: -128, Y: 650, Z: 185}},
		Wheel:  Wheel{LoadedRadius: 302},
		Spring: Spring{Carrier: OnLowerArm, Moving: Vec{Y: 520, Z: 185}, Body: Vec{Y: 520, Z: 590}},
	}
	c.Hub = Vec{Y: c.axisAt(0) + 19, Z: 302}
	return c
}

// axisAt is the y of the line through both ball joints at a height, in the front view.
func (c *Corner) axisAt(z float64) float64 {
	l, u := c.Lower.Ball, c.Upper.Ball
	return l.Y + (u.Y-l.Y)*(z-l.Z)/(u.Z-l.Z)
}

func TestCommonPractice(t *testing.T) {
	var file checkFile
	loadChecks(t, "practice.yaml", &file)
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		switch row.Of {
		case "widening":
			return widened(t, row.Given)
		case "equal arms":
			return map[string]float64{
				"bump_steer":                       bumpSteer(t, row.Given["rack_up"]),
				"bump_steer_more_than_half_degree": map[bool]float64{true: 1}[bumpSteer(t, row.Given["rack_up"]) > 0.5],
			}
		case "spring":
			before, after := workshopCorner(), workshopCorner()
			lengthen(&after, row.Given["longer"])
			mr := func(c Corner) float64 { r := mustRead(t, mustNew(t, c), 0, 0); return value(t, &r, MotionRatio) }
			// The spring carries the wheel load over the motion ratio (virtual work).
			return map[string]float64{"spring_load_gain": mr(before)/mr(after) - 1}
		}
		t.Fatalf("no corner %q", row.Of)
		return nil
	})
}

// lengthen moves the whole upright with the wheel outboard.
func lengthen(c *Corner, mm float64) {
	for _, p := range []Point{UpperBall, LowerBall, OuterEnd, HubFace} {
		c.At(p).Y += mm
	}
}

func widened(t *testing.T, given map[string]float64) map[string]float64 {
	before := workshopCorner()
	before.Camber = rad(given["camber_deg"])
	after := before
	after.Wheel.Spacer += given["spacer"]
	after.Wheel.Offset += given["offset"]
	lengthen(&after, given["longer"])
	mb, ma := mustNew(t, before), mustNew(t, after)
	rb, ra := mustRead(t, mb, 0, 0), mustRead(t, ma, 0, 0)
	gain := func(q Quantity) float64 { return value(t, &ra, q) - value(t, &rb, q) }
	ub, lb := mb.ArmLengths()
	ua, la := ma.ArmLengths()
	return map[string]float64{
		"scrub": value(t, &ra, ScrubRadius), "scrub_gain": gain(ScrubRadius), "half_track_gain": gain(HalfTrack),
		"scrub_by_hand": value(t, &ra, HalfTrack) - after.axisAt(0),
		"upper_gain":    ua - ub, "lower_gain": la - lb, "rod_gain": ma.RodLength() - mb.RodLength(),
	}
}

// bumpSteer is the largest toe, degrees, over ±60 mm with equal parallel arms
// and the rack end raised.
func bumpSteer(t *testing.T, rackUp float64) float64 {
	c := equalArms(rad(-3))
	c.TieRod.RackEnd.Z += rackUp
	m, worst := mustNew(t, c), 0.0
	for h := -60.0; h <= 60; h += 5 {
		r := mustRead(t, m, h, 0)
		worst = max(worst, math.Abs(deg(value(t, &r, Toe))))
	}
	return worst
}

// signChecks moves a corner to the positive side of each term of signs.yaml
// and returns a number that is positive there by plain reasoning, and the
// reading that must agree.
var signChecks = map[string]func(*testing.T) (plain, reading float64){
	"toe": func(t *testing.T) (float64, float64) {
		c := caseB()
		c.Toe = rad(0.8)
		p := mustAt(t, mustNew(t, c), 0, 0)
		r := p.Readings()
		forward, _ := p.Heading()
		return -forward.Y, value(t, &r, Toe) // the front of the wheel comes inboard
	},
	"total toe": func(t *testing.T) (float64, float64) {
		c := caseB()
		c.Toe = rad(0.3)
		s, err := mustNew(t, c).Steering(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		return 2 * c.Toe, s.Right - s.Left
	},
	"steering": func(t *testing.T) (float64, float64) {
		// Rack ahead of the axle: pushing the left wheel's tie rod outboard turns
		// its front outboard, that is to the left.
		m := mustNew(t, caseB())
		s, err := m.Steering(7, 0)
		if err != nil {
			t.Fatal(err)
		}
		forward, _ := func() (Vec, Vec) { p := mustAt(t, m, 0, 7); return p.Heading() }()
		if toe := mustRead(t, m, 0, 7); value(t, &toe, Toe) >= 0 || s.Right <= 0 {
			t.Errorf("a left turn: left wheel toe %g, right wheel %g", value(t, &toe, Toe), s.Right)
		}
		return forward.Y, s.Left
	},
	"camber": func(t *testing.T) (float64, float64) {
		c := caseB()
		c.Camber = rad(1.3)
		p := mustAt(t, mustNew(t, c), 0, 0)
		r := p.Readings()
		return p.WheelCentre.Y - p.Contact.Y, value(t, &r, Camber)
	},
	"camber gain": func(t *testing.T) (float64, float64) {
		// Arms that meet outboard of the wheel lean its top outward in bump.
		c := caseA()
		c.Lower.Front.Z, c.Upper.Front.Z = 120, 500
		r := mustRead(t, mustNew(t, c), 0, 0)
		return -value(t, &r, SwingArm), value(t, &r, CamberGain)
	},
	"travel": func(t *testing.T) (float64, float64) {
		m := mustNew(t, caseB())
		rest, p := mustAt(t, m, 0, 0), mustAt(t, m, 31, 0)
		return rest.springLength - p.springLength, p.WheelCentre.Z - rest.WheelCentre.Z
	},
	"steering-axis inclination": func(t *testing.T) (float64, float64) {
		c := caseB()
		r := mustRead(t, mustNew(t, c), 0, 0)
		return c.Lower.Ball.Y - c.Upper.Ball.Y, value(t, &r, SteeringAxisInclination)
	},
	"caster": func(t *testing.T) (float64, float64) {
		c := caseB()
		r := mustRead(t, mustNew(t, c), 0, 0)
		return c.Lower.Ball.X - c.Upper.Ball.X, value(t, &r, Caster)
	},
	"scrub radius": func(t *testing.T) (float64, float64) {
		c := caseB()
		r := mustRead(t, mustNew(t, c), 0, 0)
		return c.Hub.Y - c.axisAt(0), value(t, &r, ScrubRadius)
	},
	"trail": func(t *testing.T) (float64, float64) {
		c := caseB()
		l, up := c.Lower.Ball, r3.Sub(c.Upper.Ball, c.Lower.Ball)
		r := mustRead(t, mustNew(t, c), 0, 0)
		return l.X - up.X*l.Z/up.Z, value(t, &r, Trail)
	},
	"roll centre": func(t *testing.T) (float64, float64) {
		r := mustRead(t, mustNew(t, caseA()), 0, 0)
		return value(t, &r, InstantCentreZ), value(t, &r, RollCentreHeight)
	},
	"roll": func(t *testing.T) (float64, float64) {
		ax, err := mustNew(t, caseB()).Roll(rad(2), 0)
		if err != nil {
			t.Fatal(err)
		}
		return ax.Left.RackEnd.Z - ax.Right.RackEnd.Z, ax.Roll
	},
}

func TestSigns(t *testing.T) {
	var file struct {
		Terms []struct{ Term, Words, Source string }
	}
	loadChecks(t, "signs.yaml", &file)
	for _, term := range file.Terms {
		t.Run(term.Term, func(t *testing.T) {
			sourced(t, term.Term, term.Source)
			check, ok := signChecks[term.Term]
			if !ok {
				t.Fatalf("nothing checks %q", term.Term)
			}
			if plain, reading := check(t); !(plain > 0 && reading > 0) {
				t.Errorf("%s: %s; plain reasoning gives %g, the reading %g", term.Term, term.Words, plain, reading)
			}
		})
	}
	if len(file.Terms) != len(signChecks) {
		t.Errorf("%d terms, %d checks", len(file.Terms), len(signChecks))
	}
}
