package kinematics

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gopkg.in/yaml.v3"
)

// checkRow is one row of a file of check values.
type checkRow struct {
	Row       string
	Of        string // the mechanism it is about, where a file has several
	Source    string
	Given     map[string]float64
	Expect    map[string]float64
	Tolerance float64
}

// sources are the ways in which a check value may name where it comes from.
var sources = []string{"found: ", "from memory: ", "own: ", "common practice, no source"}

func sourced(t *testing.T, row, source string) {
	t.Helper()
	for _, s := range sources {
		if strings.HasPrefix(source, s) {
			return
		}
	}
	t.Errorf("row %q: source %q begins with none of %q", row, source, sources)
}

// loadChecks reads a file of testdata/kinematics, strictly.
func loadChecks(t *testing.T, name string, into any) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "kinematics", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d := yaml.NewDecoder(f)
	d.KnownFields(true)
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// runChecks compares every expected value of every row with what answer gives.
func runChecks(t *testing.T, rows []checkRow, answer func(*testing.T, checkRow) map[string]float64) {
	t.Helper()
	if len(rows) == 0 {
		t.Fatal("no rows")
	}
	for _, row := range rows {
		t.Run(row.Row+" "+row.Of, func(t *testing.T) {
			sourced(t, row.Row, row.Source)
			got := answer(t, row)
			if len(row.Expect) == 0 {
				t.Error("the row expects nothing")
			}
			for key, want := range row.Expect {
				v, ok := got[key]
				if !ok {
					t.Errorf("nothing gives %s", key)
				}
				near(t, key, v, want, row.Tolerance)
			}
		})
	}
}

type checkFile struct{ Rows []checkRow }

// readingsOf names all readings of a pose as the files of check values do.
func readingsOf(p *Pose) map[string]float64 {
	r := p.Readings()
	out := map[string]float64{
		"lower_arm_deg": deg(math.Atan2(p.driveSine, p.driveCosine)),
		"contact_y":     p.Contact.Y,
	}
	for key, q := range map[string]Quantity{
		"camber_deg": Camber, "toe_deg": Toe, "caster_deg": Caster, "inclination_deg": SteeringAxisInclination,
		"scrub": ScrubRadius, "trail": Trail, "half_track": HalfTrack, "swing_arm": SwingArm,
		"instant_centre_y": InstantCentreY, "instant_centre_z": InstantCentreZ, "roll_centre": RollCentreHeight,
		"camber_gain_deg": CamberGain, "ride_toe_deg": RideToe, "motion_ratio": MotionRatio, "spring": SpringLength,
	} {
		v, ok := r.Of(q)
		if !ok {
			continue
		}
		if strings.HasSuffix(key, "_deg") {
			v = deg(v)
		}
		out[key] = v
	}
	return out
}

func TestPublishedCaseA(t *testing.T) {
	var file checkFile
	loadChecks(t, "casea.yaml", &file)
	m := mustNew(t, caseA())
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		p := mustAt(t, m, row.Given["travel"], 0)
		return readingsOf(&p)
	})
}

func TestPublishedCaseB(t *testing.T) {
	var file checkFile
	loadChecks(t, "caseb.yaml", &file)
	m := mustNew(t, caseB())
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		p := mustAt(t, m, row.Given["travel"], row.Given["rack"])
		return readingsOf(&p)
	})
}

func TestPublishedBumpSteer(t *testing.T) {
	var file checkFile
	loadChecks(t, "bumpsteer.yaml", &file)
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		c := caseA()
		c.TieRod = TieRod{RackEnd: Vec{X: 120, Y: row.Given["y"], Z: row.Given["z"]}, OuterEnd: Vec{X: 120, Y: 670, Z: 240}}
		m := mustNew(t, c)
		ideal, ok := m.RackEndFlat()
		if !ok || ideal.AtInfinity {
			t.Fatalf("no ideal rack end: %+v, %v", ideal, ok)
		}
		toe := func(h float64) float64 { r := mustRead(t, m, h, 0); return deg(value(t, &r, Toe)) }
		rate := func(h float64) float64 { r := mustRead(t, m, h, 0); return deg(value(t, &r, RideToe)) }
		return map[string]float64{
			"ideal_y": ideal.At.X, "ideal_z": ideal.At.Y, "rod": m.RodLength(),
			"toe_droop_60": toe(-60), "toe_droop_20": toe(-20), "toe_bump_20": toe(20), "toe_bump_60": toe(60),
			"rate": rate(0), "bend": (rate(0.01) - rate(-0.01)) / 0.02,
		}
	})
}

func TestPublishedIdentities(t *testing.T) {
	var file checkFile
	loadChecks(t, "identities.yaml", &file)
	runChecks(t, file.Rows, func(t *testing.T, row checkRow) map[string]float64 {
		m := mustNew(t, identityCorner(t, row))
		rest, p := mustAt(t, m, 0, 0), mustAt(t, m, row.Given["travel"], 0)
		got := readingsOf(&p)
		got["shift_y"] = p.WheelCentre.Y - rest.WheelCentre.Y
		if ic, ok := got["instant_centre_z"]; ok {
			got["contact_rate_y"] = contactRate(t, m, row.Given["travel"])
			got["roll_centre_by_half_track"] = got["roll_centre"] / got["half_track"]
			near(t, "z_IC above ground / swing arm", (ic-p.Contact.Z)/got["swing_arm"], got["roll_centre"]/got["half_track"], 1e-12)
		}
		got["camber_gain_deg_per_inch"] = got["camber_gain_deg"] * 25.4
		v, ok := m.move(&rest)
		if !ok {
			t.Error("the resting position is a dead point")
		}
		got["ball_speed"] = r3.Norm(v.lower)
		return got
	})
}

// contactRate is the sideways rate of the contact point by central difference.
func contactRate(t *testing.T, m *Mechanism, h float64) float64 {
	const step = 1e-3
	up, down := mustAt(t, m, h+step, 0), mustAt(t, m, h-step, 0)
	return (up.Contact.Y - down.Contact.Y) / (2 * step)
}

func identityCorner(t *testing.T, row checkRow) Corner {
	switch row.Of {
	case "level arms":
		return equalArms(0)
	case "sloping arms":
		return equalArms(rad(row.Given["slope_deg"]))
	case "arms to a centre":
		c := caseA()
		centre := Flat{X: c.Hub.Y - row.Given["swing_arm"], Y: row.Given["height"]}
		for _, a := range []*Arm{&c.Upper, &c.Lower} { // pivots onto the lines to the centre
			toward := r2.Sub(centre, Front(a.Ball))
			a.Front.Z = a.Ball.Z + (a.Front.Y-a.Ball.Y)*toward.Y/toward.X
		}
		return c
	case "case A":
		return caseA()
	case "case A, rod as upper arm":
		c := caseA()
		c.TieRod = TieRod{RackEnd: Vec{X: -133, Y: 320, Z: 430}, OuterEnd: Vec{X: -133, Y: 640, Z: 460}}
		return c
	case "case A, rod to the instant centre":
		c := caseA()
		centre := InstantCentre(Front(c.Lower.Front), Front(c.Lower.Ball), Front(c.Upper.Front), Front(c.Upper.Ball)).At
		c.TieRod.OuterEnd = Vec{X: 120, Y: 670, Z: 240}
		c.TieRod.RackEnd = Vec{X: 120, Y: 290, Z: 240 + (290-670)*(centre.Y-240)/(centre.X-670)}
		return c
	case "case A, long form":
		c := caseA()
		for _, a := range []*Arm{&c.Upper, &c.Lower} {
			a.Flat, a.Front.X, a.Rear = false, 170, r3.Add(a.Front, Vec{X: -140})
		}
		return c
	case "arm of 360":
		c := caseA()
		c.Lower = FlatArm(Vec{Y: 330, Z: 180}, Vec{Y: 690, Z: 180})
		return c
	}
	t.Fatalf("no corner %q", row.Of)
	return Corner{}
}
