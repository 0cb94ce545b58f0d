package job_test

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

func sample14(t testing.TB) (*job.Job, string) {
	t.Helper()
	data, err := os.ReadFile(testdata + "/format-1.4.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return reread(t, string(data)), string(data)
}

func TestFittingsAndWheelsAreRead(t *testing.T) {
	j, _ := sample14(t)
	if len(j.Wheels) != 2 {
		t.Fatalf("%+v", j.Wheels)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"rack per turn", j.Steering.RackPerTurn.MM, 44.45}, {"steering wheel", j.Steering.WheelDiameter.MM, 355},
		{"weight", j.CornerWeight.Kg, 350.400105825}, // 772.5 x 0.45359237
		{"brake", j.Brake.Diameter.MM, 332}, {"gap", j.Brake.Gap.MM, 4.5},
		{"outer end", j.Housings.OuterEnd.MM, 33.5}, {"lower ball", j.Housings.LowerBall.MM, 44.45}, {"upper ball", j.Housings.UpperBall.MM, 41},
		{"upper", float64(j.JointLimits.UpperBall.Degrees), 25}, {"lower", float64(j.JointLimits.LowerBall.Degrees), 27.5},
		{"outer", float64(j.JointLimits.OuterEnd.Degrees), 18.5}, {"rack", float64(j.JointLimits.RackEnd.Degrees), 22},
		{"rim", j.Wheels[0].RimWidth.MM, 152.4}, {"radius", j.Wheels[0].LoadedRadius.MM, 312}, {"offset", j.Wheels[1].Offset.MM, -6},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s is %v, want %v", c.what, c.got, c.want)
		}
	}
	if j.CornerWeight.Text() != "772.5 lb" || j.Wheels[1].LoadedRadius.Given || j.Wheels[1].Tyre != "205/60R15" || j.Wheels[1].Name != "for tarmac, less offset" {
		t.Errorf("%+v\n%+v", j.CornerWeight, j.Wheels)
	}
	on := j.Wheels[1].On(&job.Wheel{}, units.Length{MM: 3})
	if on.Tyre != "205/60R15" || on.RimWidth.MM != 165.1 || on.Offset.MM != -6 || on.Spacer.MM != 3 || on.LoadedRadius.Given {
		t.Errorf("on the hub: %+v", on)
	}
}

func TestFittingsAndWheelsAreWritten(t *testing.T) {
	rich, text := sample14(t)
	plain, _ := sample(t)
	plain.Steering, plain.Brake, plain.Housings, plain.JointLimits, plain.Wheels = rich.Steering, rich.Brake, rich.Housings, rich.JointLimits, rich.Wheels
	plain.CornerWeight = job.Kilograms(351.25)
	got := encode(t, plain)
	for _, line := range []string{"armscribe: 1.4\n", "\nsteering: {rack_per_turn: 1 3/4 in, wheel_diameter: 355}\n", "\ncorner_weight: 351.25 kg\n", "\nbrake: {diameter: 332, gap: 4.5}\n", "\nhousings: {outer_end: 33.5, lower_ball: 1 3/4 in, upper_ball: 41}\n",
		"\njoint_limits: {upper_ball: 25, lower_ball: 27.5, outer_end: 18.5, rack_end: 22}\n", "\nwheels:\n  - {name: as driven, tyre: 205/65R15, rim_width: 6 in, offset: 20, loaded_radius: 312}\n"} {
		if !strings.Contains(got, line) {
			t.Errorf("%q is missing in\n%s", line, got)
		}
	}

	// Each key alone asks for the new format, and none of them leaves the old one.
	for what, give := range map[string]func(j *job.Job){
		"steering":      func(j *job.Job) { j.Steering.WheelDiameter = job.Given(units.Length{MM: 380}) },
		"corner_weight": func(j *job.Job) { j.CornerWeight = job.Kilograms(299) },
		"brake":         func(j *job.Job) { j.Brake.Gap = job.Given(units.Length{MM: 3.5}) },
		"housings":      func(j *job.Job) { j.Housings.UpperBall = job.Given(units.Length{MM: 39}) },
		"joint_limits": func(j *job.Job) {
			j.JointLimits.OuterEnd = job.OptionalDegrees{Degrees: 17, Given: true}
		},
		"wheels": func(j *job.Job) { j.Wheels = rich.Wheels[:1] },
	} {
		j, old := sample(t)
		if got := encode(t, j); got != old || strings.Contains(got, "armscribe: 1.4") {
			t.Errorf("without %s it is written as\n%s", what, got)
		}
		give(j)
		got := encode(t, j)
		if !strings.Contains(got, "armscribe: 1.4\n") || !strings.Contains(got, "\n"+what+":") {
			t.Errorf("%s alone is written as\n%s", what, got)
		}
		if back := reread(t, got); !back.Equal(j) {
			t.Errorf("%s reads back otherwise", what)
		}
	}

	// What is changed changes, and the comments beside it stay.
	c := rich.Clone()
	c.CornerWeight = job.Kilograms(348.5)
	c.Steering.WheelDiameter = job.Given(units.Length{MM: 340})
	c.Wheels[1].Offset.MM = -8
	wantLines(t, text, encode(t, c), "772.5 lb # scales", "348.5 kg # scales", "wheel_diameter: 355} # the", "wheel_diameter: 340} # the", "offset: -6} # two", "offset: -8} # two")
	c.Steering, c.CornerWeight, c.Brake, c.Housings, c.JointLimits, c.Wheels = job.Steering{}, job.Weight{}, job.Brake{}, job.Housings{}, job.JointLimits{}, nil
	if got := encode(t, c); strings.Contains(got, "steering") || strings.Contains(got, "weight") || strings.Contains(got, "brake") || strings.Contains(got, "housings") || strings.Contains(got, "joint_l") || strings.Contains(got, "wheels") {
		t.Errorf("without them:\n%s", got)
	}
	if len(rich.Wheels) != 2 || rich.Wheels[1].Offset.MM != -6 {
		t.Error("the copy shares its wheels")
	}
}

// TestWeightsAreReadAsTyped, and mean the same in a file of other units.
func TestWeightsAreReadAsTyped(t *testing.T) {
	for _, row := range []struct {
		text  string
		unit  units.Unit
		kg    float64
		typed string
	}{
		{"350", units.Millimetre, 350, "350 kg"}, {"771.5", units.Inch, 349.946513455, "771.5 lb"}, {" 351.5kg ", units.Inch, 351.5, "351.5kg"},
		{"770 LB", units.Millimetre, 349.2661249, "770 LB"}, {".5 kg", units.Millimetre, 0.5, ".5 kg"},
	} {
		w, err := job.ParseWeight(row.text, row.unit)
		if err != nil || math.Abs(w.Kg-row.kg) > 1e-9 || w.Text() != row.typed || !w.Given {
			t.Errorf("%q: %+v %v", row.text, w, err)
		}
		if again, err := job.ParseWeight(w.Text(), units.Millimetre); err != nil || again != w {
			t.Errorf("%q comes back as %+v %v", row.text, again, err)
		}
	}
	for text, want := range map[string]string{
		"": "is not a weight", "kg": "is not a weight", "350 mm": "is not a weight", "3e2": "is not a weight", "0x9": "is not a weight", "352,5 kg": "a comma is not read", "nan": "is not a weight", "5 kg kg": "is not a weight", "7 stone": "is not a weight",
	} {
		var entry *units.EntryError
		if w, err := job.ParseWeight(text, units.Millimetre); !errors.As(err, &entry) || !strings.Contains(entry.Problem, want) || w != (job.Weight{}) {
			t.Errorf("%q: %+v %v", text, w, err)
		}
	}

	_, text := sample14(t)
	text = strings.Replace(text, "772.5 lb #", "352.5 #", 1)
	j := reread(t, text)
	if got := encode(t, j); got != text || j.CornerWeight.Kg != 352.5 {
		t.Errorf("a plain number, %+v, is written as\n%s", j.CornerWeight, got)
	}
	j.Units = units.Inch
	got := encode(t, j)
	if back := reread(t, got); !back.Equal(j) || back.CornerWeight.Kg != 352.5 || !strings.Contains(got, "corner_weight: 352.5 kg #") {
		t.Errorf("in inches %+v:\n%s", back.CornerWeight, got)
	}
}

// TestFittingProblems: what an edit can spoil is named with its limit.
func TestFittingProblems(t *testing.T) {
	mm := func(v float64) job.Optional { return job.Given(units.Length{MM: v}) }
	for want, spoil := range map[string]func(*job.Job){
		"steering: does not belong to a rear axle, which is not steered; remove it, or write 'axle: front'": func(j *job.Job) { j.Axle = job.Rear },
		"steering.rack_per_turn = 1001 mm: is not between 1 mm and 1000 mm":                                 func(j *job.Job) { j.Steering.RackPerTurn = mm(1001) },
		"steering.wheel_diameter = -355 mm: is not between 1 mm and 1000 mm":                                func(j *job.Job) { j.Steering.WheelDiameter = mm(-355) },
		"corner_weight = 0 kg: is not above zero and at most 5000 kg on one wheel":                          func(j *job.Job) { j.CornerWeight = job.Kilograms(0) },
		"corner_weight = 5000.5 kg: is not above":                                                           func(j *job.Job) { j.CornerWeight = job.Kilograms(5000.5) },
		"corner_weight = NaN kg: is not above":                                                              func(j *job.Job) { j.CornerWeight.Kg, j.CornerWeight.Typed = math.NaN(), "" },
		"brake.diameter = 0 mm: is not between":                                                             func(j *job.Job) { j.Brake.Diameter = mm(0) },
		"brake.gap = -0.5 mm: is not between 0 mm and 500 mm":                                               func(j *job.Job) { j.Brake.Gap = mm(-0.5) },
		"housings.outer_end = 0.5 mm: is not between 1 mm and 200 mm":                                       func(j *job.Job) { j.Housings.OuterEnd = mm(0.5) },
		"housings.lower_ball = 201 mm: is not between 1 mm and 200 mm":                                      func(j *job.Job) { j.Housings.LowerBall = mm(201) },
		"joint_limits.outer_end = 0 deg: is not above zero and up to 90 degrees":                            func(j *job.Job) { j.JointLimits.OuterEnd.Degrees = 0 },
		"joint_limits.rack_end = 91 deg: is not above":                                                      func(j *job.Job) { j.JointLimits.RackEnd.Degrees = 91 },
		"joint_limits.upper_ball = NaN deg: is not above":                                                   func(j *job.Job) { j.JointLimits.UpperBall.Degrees = job.Degrees(math.NaN()) },
		"wheels[1].name = as driven: is the name of wheels[0] too; give each wheel its own name":            func(j *job.Job) { j.Wheels[1].Name = "as driven" },
		"wheels[0].name: is empty":                                                                          func(j *job.Job) { j.Wheels[0].Name = " " },
		"wheels[1].tyre = 205/60Q15":                                                                        func(j *job.Job) { j.Wheels[1].Tyre = "205/60Q15" },
		"wheels[1].rim_width = 700 mm: is not between":                                                      func(j *job.Job) { j.Wheels[1].RimWidth = units.Length{MM: 700} },
		"wheels[1].offset = 301 mm: is not between":                                                         func(j *job.Job) { j.Wheels[1].Offset.MM = 301 },
		"wheels[0].loaded_radius = 97 mm: is less than the radius of the rim":                               func(j *job.Job) { j.Wheels[0].LoadedRadius = mm(97) },
	} {
		j, _ := sample14(t)
		spoil(j)
		p := j.Problems()
		if len(p) != 1 || !strings.Contains(p[0].Error(), want) {
			t.Errorf("%v, want %q", p, want)
		}
		if _, err := j.Encode(); err == nil {
			t.Errorf("%q is written", want)
		}
	}
	j, _ := sample14(t)
	for len(j.Wheels) <= job.MaxWheels {
		j.Wheels = append(j.Wheels, j.Wheels[0])
	}
	if p := j.Problems(); len(p) != 1 || !strings.Contains(p[0].Error(), "holds 61 wheels, more than 60") {
		t.Errorf("too many: %v", p)
	}
	j, _ = sample14(t)
	j.Axle, j.Steering = job.Rear, job.Steering{}
	if p := j.Problems(); p != nil {
		t.Errorf("a rear axle without steering: %v", p)
	}
}
