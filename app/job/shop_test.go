package job_test

import (
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

func sample12(t testing.TB) (*job.Job, string) {
	t.Helper()
	data, err := os.ReadFile(testdata + "/format-1.2.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return reread(t, string(data)), string(data)
}

func TestShopGaugeAndReadingsAreRead(t *testing.T) {
	j, _ := sample12(t)
	r := j.Variants[0].ToeReadings
	if len(j.Spacers.Stock) != 5 || len(j.Adjusters) != 4 || len(r) != 4 {
		t.Fatalf("%+v\n%+v\n%+v", j.Spacers, j.Adjusters, r)
	}
	rod, sleeve, bolt, shims := &j.Adjusters[0], &j.Adjusters[1], &j.Adjusters[2], &j.Adjusters[3]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"stock", j.Spacers.Stock[1].Thickness.MM, 1.5}, {"sixteenth", j.Spacers.Stock[2].Thickness.MM, 1.5875},
		{"count", float64(j.Spacers.Stock[2].Count), 4}, {"as many as wanted", float64(j.Spacers.Stock[3].Count), 0},
		{"tallest", j.Spacers.Tallest.MM, 20}, {"grip", j.Spacers.Grip.MM, 34}, {"bolt", j.Spacers.LongestBolt.MM, 63.5},
		{"width", j.ToeGauge.Width.MM, 457.2}, {"spacing", j.ToeGauge.DialSpacing.MM, 400}, {"within", float64(j.ReadingsWithin()), 0.04},
		{"diameter", rod.Thread.Diameter.MM, 16}, {"engaged", rod.Thread.Engaged.MM, 28.5}, {"out", rod.Out.MM, 4.5}, {"in", rod.In.MM, 12},
		{"left thread", sleeve.LeftThread.Engaged.MM, 22}, {"throw", bolt.Throw.MM, 6}, {"now", bolt.Now.MM, -1.5},
		{"direction", bolt.Direction.X, 0.1}, {"shims out", shims.Out.MM, 4}, {"down", shims.Direction.Z, -0.2},
		{"toe", float64(r[0].Toe.Degrees), 0.31}, {"travel", r[1].Travel.MM, -38.1}, {"length", r[1].ToeLength.MM, 2.5}, {"rear dial", r[3].RearDial.MM, -0.4},
	} {
		if c.got != c.want {
			t.Errorf("%s is %v, want %v", c.what, c.got, c.want)
		}
	}
	if rod.Kind != job.RodEnd || rod.Leg != job.UpperFrontPlace || rod.Sets != job.SetsCaster || sleeve.Kind != job.RightLeft || sleeve.Leg != job.TieRodPlace ||
		bolt.Kind != job.Eccentric || bolt.Pivot != job.LowerFrontPlace || bolt.Sets != job.SetsNothing || shims.Kind != job.ShimPack || shims.Pivot != job.UpperArmPlace {
		t.Errorf("%+v", j.Adjusters)
	}
	if r[0].Side != job.LeftSide || r[1].Side != job.RightSide || r[2].Side != job.NoSide || !r[2].Toe.Given || r[3].Toe.Given {
		t.Errorf("%+v", r)
	}
	j.ToeGauge.ReadsWithin = job.OptionalDegrees{}
	if j.ReadingsWithin() != job.DefaultReadsWithin {
		t.Errorf("within %v unless said", j.ReadingsWithin())
	}
}

func TestShopGaugeAndReadingsAreWritten(t *testing.T) {
	rich, text := sample12(t)
	plain, _ := sample(t)
	plain.Spacers, plain.ToeGauge, plain.Adjusters = rich.Spacers, rich.ToeGauge, rich.Adjusters
	if got := encode(t, plain); !strings.HasPrefix(got, "armscribe: 1.2\n") && !strings.Contains(got, "\narmscribe: 1.2\n") {
		t.Errorf("written as\n%s", got)
	}
	plain.Spacers, plain.ToeGauge, plain.Adjusters = job.Spacers{}, job.ToeGauge{}, nil
	plain.Variants[1].ToeReadings = []job.ToeReading{{Travel: units.Length{MM: 12.5}, Toe: job.OptionalDegrees{Degrees: -0.25, Given: true}, Side: job.RightSide}}
	got := encode(t, plain)
	if !strings.Contains(got, "armscribe: 1.2\n") || !strings.Contains(got, "    toe_readings:\n      - {travel: 12.5, toe: -0.25, side: right}\n") {
		t.Errorf("one reading alone is written as\n%s", got)
	}
	if back := reread(t, got); !back.Equal(plain) {
		t.Error("it reads back otherwise")
	}

	// Text and comments stay with the entries when others come and go.
	c := rich.Clone()
	c.Adjusters = append(c.Adjusters[:0:0], c.Adjusters[1], c.Adjusters[0])
	c.Variants[0].ToeReadings = append(c.Variants[0].ToeReadings[1:], job.ToeReading{Travel: units.Length{MM: 60}, Toe: job.OptionalDegrees{Degrees: -0.5, Given: true}})
	c.Spacers.Stock[4].Count = 2
	got = encode(t, c)
	for _, line := range []string{"  - name: tie rod sleeve # both ends turn\n", "- {travel: -1 1/2 in, toe_length: 2.5 mm, side: right}\n",
		"side: left} # dials on the hub plate\n      - {travel: 60, toe: -0.5}\n", "{thickness: 1/16 in, count: 4}, 3, {thickness: 10, count: 2}]\n"} {
		if !strings.Contains(got, line) {
			t.Errorf("%q is missing in\n%s", line, got)
		}
	}
	if back := reread(t, got); !back.Equal(c) || strings.Contains(got, "eccentric") {
		t.Errorf("it reads back otherwise:\n%s", got)
	}

	c = rich.Clone()
	c.Variants[0].ToeReadings[2].Toe.Degrees = 0.125
	c.Spacers.Stock[0].Thickness = units.Length{MM: 2.25}
	wantLines(t, text, encode(t, c), "- {travel: 0, toe: 0}", "- {travel: 0, toe: 0.125}", "stock: [1, 1.5", "stock: [2.25, 1.5")
	c = rich.Clone()
	c.Units = units.Inch
	if back := reread(t, encode(t, c)); !back.Equal(c) {
		t.Error("in inches it reads back otherwise")
	}
}

// TestAnAdjusterAtItsEndIsWritten: that it can go no further one way is said.
func TestAnAdjusterAtItsEndIsWritten(t *testing.T) {
	rich, _ := sample12(t)
	for i := range rich.Adjusters {
		plain, _ := sample(t)
		a := rich.Adjusters[i]
		if a.Kind != job.Eccentric {
			a.In = units.Length{}
		}
		plain.Adjusters = []job.Adjuster{a}
		got := encode(t, plain)
		if strings.Contains(got, "    in: 0\n") != (a.Kind != job.Eccentric) || !reread(t, got).Equal(plain) {
			t.Errorf("%s is written as\n%s", a.Name, got)
		}
		if a.Kind != job.Eccentric {
			a.In, a.Out = a.Out, a.In
			plain.Adjusters = []job.Adjuster{a}
			if back := reread(t, encode(t, plain)); !back.Equal(plain) {
				t.Errorf("%s, the other way, reads back otherwise", a.Name)
			}
		}
	}
}

// TestListsAreClonedApart: a change of a clone never reaches the job.
func TestListsAreClonedApart(t *testing.T) {
	j, text := sample12(t)
	c := j.Clone()
	for what, change := range map[string]func(){
		"stock":    func() { c.Spacers.Stock[0].Thickness.MM = 4 },
		"adjuster": func() { c.Adjusters[0].In.MM = 2.5 },
		"reading":  func() { c.Variants[0].ToeReadings[1].Travel = units.Length{MM: 3} },
		"gauge":    func() { c.ToeGauge.Width.MM = 500 },
	} {
		c = j.Clone()
		change()
		if c.Equal(j) || j.Equal(c) {
			t.Errorf("a changed %s is not seen", what)
		}
		if encode(t, j) != text {
			t.Fatalf("a changed %s reaches the job", what)
		}
	}
	if p := j.Variants[0].Proposal("next"); p.ToeReadings != nil || len(j.Variants[0].ToeReadings) != 4 {
		t.Error("nobody has read the toe of a proposal")
	}
}

// TestEditedJobsAreChecked: what an edit can spoil and no file can say.
func TestEditedJobsAreChecked(t *testing.T) {
	for what, c := range map[string]struct {
		spoil func(j *job.Job)
		key   string
	}{
		"no width":        {func(j *job.Job) { j.ToeGauge.Width = job.Optional{} }, "variants[0].toe_readings[1].toe_length"},
		"no spacing":      {func(j *job.Job) { j.ToeGauge.DialSpacing = job.Optional{} }, "variants[0].toe_readings[3].front_dial"},
		"two ways":        {func(j *job.Job) { j.Variants[0].ToeReadings[1].Toe.Given = true }, "variants[0].toe_readings[1]"},
		"no stock":        {func(j *job.Job) { j.Spacers.Stock = nil }, "spacers.stock"},
		"no kind":         {func(j *job.Job) { j.Adjusters[2].Kind = 0 }, "adjusters[2].kind"},
		"odd kind":        {func(j *job.Job) { j.Adjusters[2].Kind = 77 }, "adjusters[2].kind"},
		"no leg":          {func(j *job.Job) { j.Adjusters[0].Leg = job.RackEndPlace }, "adjusters[0].leg"},
		"no pivot":        {func(j *job.Job) { j.Adjusters[3].Pivot = job.TieRodPlace }, "adjusters[3].pivot"},
		"no side":         {func(j *job.Job) { j.Variants[0].ToeReadings[0].Side = 9 }, "variants[0].toe_readings[0].side"},
		"fewer than none": {func(j *job.Job) { j.Spacers.Stock[0].Count = -1 }, "spacers.stock[0].count"},
		"no name":         {func(j *job.Job) { j.Adjusters[1].Name = " " }, "adjusters[1].name"},
	} {
		j, _ := sample12(t)
		c.spoil(j)
		p := j.Problems()
		if len(p) != 1 || p[0].Key != c.key {
			t.Errorf("%s: %v, want one problem at %s", what, p, c.key)
		}
		if _, err := j.Encode(); err == nil {
			t.Errorf("%s is written", what)
		}
	}
}

// TestEqualSeesEveryField of job and variant, so that a new one cannot be
// forgotten.
func TestEqualSeesEveryField(t *testing.T) {
	for _, of := range []func(j *job.Job) reflect.Value{
		func(j *job.Job) reflect.Value { return reflect.ValueOf(j).Elem() },
		func(j *job.Job) reflect.Value { return reflect.ValueOf(&j.Variants[0]).Elem() },
	} {
		j := everything(t)
		for i := range of(j).NumField() {
			name := of(j).Type().Field(i).Name
			if !of(j).Type().Field(i).IsExported() {
				continue
			}
			c := j.Clone()
			if !spoil(of(c).Field(i)) {
				t.Errorf("%s holds nothing to change", name)
			}
			if name == "ToeTyped" { // counts only if it comes to the toe
				width, _ := c.ToeWidth(&c.Variants[0])
				c.Variants[0].ToeTyped = fmt.Sprintf("%v mm", width*j.Variants[0].Toe.Radians())
				j.Variants[0].Toe, _, _ = job.ParseToe(c.Variants[0].ToeTyped, width)
				c.Variants[0].Toe = j.Variants[0].Toe
			}
			if c.Equal(j) || j.Equal(c) {
				t.Errorf("a changed %s is not seen", name)
			}
			if !j.Equal(everything(t)) {
				t.Fatalf("a changed %s of a clone reaches the job", name)
			}
		}
	}
}

// everything is a job that uses every section.
func everything(t testing.TB) *job.Job {
	t.Helper()
	j, _ := sample12(t)
	newer, _ := sample13(t)
	newest, _ := sample14(t)
	j.Obstacles = newer.Obstacles
	j.Steering, j.CornerWeight, j.Brake, j.Housings, j.JointLimits, j.Wheels = newest.Steering, newest.CornerWeight, newest.Brake, newest.Housings, newest.JointLimits, newest.Wheels
	latest, _ := sample15(t)
	j.Variants[0].FittedTo, j.Variants[0].Stack, j.Variants[0].Together = latest.Variants[1].FittedTo, latest.Variants[1].Stack, latest.Variants[0].Together
	return j
}

// spoil changes the first thing in v that can be changed.
func spoil(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Uint8, reflect.Uint64:
		v.SetUint(v.Uint() + 1)
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Float64:
		v.SetFloat(v.Float() + 1)
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Slice:
		return v.Len() > 0 && spoil(v.Index(0))
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() && spoil(v.Field(i)) {
				return true
			}
		}
		return false
	default:
		return false
	}
	return true
}
