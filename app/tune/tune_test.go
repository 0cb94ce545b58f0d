package tune

import (
	"errors"
	"math"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

const (
	frontJob = "../../assets/demo/gravel-estate.armscribe.yaml"
	rearJob  = "../../assets/demo/rear-toe-link.armscribe.yaml"
	richJob  = "../../testdata/job/format-1.2.armscribe.yaml"
)

func setup(t *testing.T, path string) (*job.Job, Setup) {
	t.Helper()
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return j, SetupOf(j, 0)
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s is %.12g, want %.12g", what, got, want)
	}
}

const degree = math.Pi / 180

// The job's words become what package bumpsteer asks for, by hand.
func TestSetup(t *testing.T) {
	_, s := setup(t, richJob)
	if len(s.Spacers) != 5 || len(s.Adjusters) != 4 || len(s.Readings) != 4 || s.FromRim || s.Rear {
		t.Fatalf("%+v", s)
	}
	a := s.Adjusters
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"sixteenth", s.Spacers[2].Thickness, 25.4 / 16}, {"how many", float64(s.Spacers[2].Count), 4}, {"tallest", s.Tallest, 20}, {"grip", s.Grip, 34}, {"bolt", s.Bolt, 63.5},
		{"width", s.Gauge.Width, 457.2}, {"spacing", s.Gauge.Spacing, 400}, {"sigma", s.Sigma(), 0.04 * degree / math.Sqrt(3)},
		{"turns out", a[0].Max, 3}, {"turns in", a[0].Min, -8}, {"a turn", a[0].Per.Longer[kinematics.UpperFrontLeg], 1.5}, {"engaged", a[0].Threads[0].Engaged, 28.5},
		{"turns of a pair", a[1].Max, 2}, {"in", a[1].Min, -3}, {"a turn of a pair", a[1].Per.Longer[kinematics.TieRodLeg], 3}, {"left thread", a[1].Threads[1].Engaged, 22},
		{"eccentric out", a[2].Max, 7.5}, {"in", a[2].Min, -4.5}, {"now", a[2].Now(), -1.5}, {"throw", a[2].Throw, 6},
		{"along y", a[2].Per.Moved[kinematics.LowerFront].Y, 1 / math.Hypot(1, 0.1)}, {"rear stays", a[2].Per.Moved[kinematics.LowerRear].Y, 0},
		{"shims in", a[3].Min, -3}, {"both pivots", a[3].Per.Moved[kinematics.UpperRear].Y - a[3].Per.Moved[kinematics.UpperFront].Y, 0},
		{"down", a[3].Per.Moved[kinematics.UpperFront].Z, -0.2 / math.Hypot(1, 0.2)}, {"not an eccentric", a[3].Now(), 0},
		{"angle", s.Readings[0].Toe, 0.31 * degree}, {"length", s.Readings[1].Toe, 2.5 / 457.2}, {"dials", s.Readings[3].Toe, -1.6 / 400},
	} {
		near(t, c.what, c.got, c.want, 1e-12)
	}
	if !a[0].HasSets || a[0].Sets != kinematics.Caster || a[2].HasSets || s.Readings[1].Side != bumpsteer.RightSide || s.Readings[3].Place != "reading 4" {
		t.Errorf("%+v\n%+v", a, s.Readings)
	}
	_, rear := setup(t, rearJob)
	if !rear.Rear || !rear.FromRim || rear.Unit != units.Inch {
		t.Errorf("%+v", rear)
	}
	near(t, "rim", rear.Gauge.Width, 381, 1e-9)
	near(t, "within", rear.ReadsWithin, 0.06*degree, 1e-15)
}

// A tie rod sets toe unless the job says otherwise.
func TestTieRodSetsToe(t *testing.T) {
	j, _ := setup(t, richJob)
	j.Adjusters[1].Sets = job.SetsNothing
	if a := SetupOf(j, 0).Adjusters[1]; !a.HasSets || a.Sets != kinematics.Toe {
		t.Errorf("%+v", a)
	}
}

func TestMovedKeepsTheJob(t *testing.T) {
	j, s := setup(t, frontJob)
	before := j.Clone()
	c := s.Corner
	c.TieRod.OuterEnd.Z += 7.25
	next := Moved(Moved(j, 0, "tuned", "a", c), 0, "tuned", "b", c)
	if !j.Equal(before) || len(next.Variants) != len(j.Variants)+2 {
		t.Fatal("the job itself was changed")
	}
	v := &next.Variants[len(next.Variants)-1]
	if v.Name != "tuned 2" || v.Notes != "b" || v.Corner() != c || v.Wheel != j.Variants[0].Wheel {
		t.Errorf("%+v", v)
	}
	if p := next.Problems(); p != nil {
		t.Error(p)
	}
}

var gauge = bumpsteer.Gauge{Width: 450, Spacing: 400}

func TestParseReadings(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want []bumpsteer.Reading
	}{
		"degrees": {"travel_mm,toe_deg\n-40,0.25\n\n35,-1/4\n", []bumpsteer.Reading{{Travel: -40, Toe: 0.25 * degree}, {Travel: 35, Toe: -0.25 * degree}}},
		"inches":  {"\ufefftravel_in,toe_in,side\r\n-1 1/2,1/16,left\r\n,,\r\n1.5,\u22120.05,Right\r\n", []bumpsteer.Reading{{Travel: -38.1, Toe: 25.4 / 16 / 450, Side: bumpsteer.LeftSide}, {Travel: 38.1, Toe: -1.27 / 450, Side: bumpsteer.RightSide}}},
		"pasted":  {"Side\ttravel_mm\ttoe_mm\n\t10\t-0.9", []bumpsteer.Reading{{Travel: 10, Toe: -0.002}}},
		"dials":   {"travel_mm; front_dial_mm; rear_dial_mm\n20; 1.5; -0.5\n", []bumpsteer.Reading{{Travel: 20, Toe: -2.0 / 400}}},
	} {
		got, err := ParseReadings("a.csv", c.text, gauge)
		if err != nil || len(got) != len(c.want) {
			t.Errorf("%s: %v, %v", name, got, err)
			continue
		}
		for i := range got {
			near(t, name+" travel", got[i].Travel, c.want[i].Travel, 1e-12)
			near(t, name+" toe", got[i].Toe, c.want[i].Toe, 1e-15)
			if got[i].Side != c.want[i].Side {
				t.Errorf("%s: side %d", name, got[i].Side)
			}
		}
	}
	got, err := ParseReadings("a.csv", "travel_mm,toe_deg\n\n-40,0.25\n", gauge)
	if err != nil || got[0].Place != "line 3" {
		t.Errorf("%+v, %v", got, err)
	}
}

// What leaves something to ask is asked once for the whole page, and then read.
func TestReadingsThatMustBeAsked(t *testing.T) {
	for name, c := range map[string]struct {
		text, toe, asks string
		unit            units.Unit
		want            []bumpsteer.Reading
	}{
		"two columns":    {"-40\t0.25\n\n30\t-0.125\n", "toe_deg", "travel_mm and toe_deg", units.Millimetre, []bumpsteer.Reading{{Travel: -40, Toe: 0.25 * degree}, {Travel: 30, Toe: -0.125 * degree}}},
		"spaces, inches": {"-1.5  0.09\r\n1.5 \u22120.045", "toe_in", "travel_in and toe_in", units.Inch, []bumpsteer.Reading{{Travel: -38.1, Toe: 0.09 * 25.4 / 450}, {Travel: 38.1, Toe: -0.045 * 25.4 / 450}}},
		"commas":         {"-40;0,25\n30;-0,125", "toe_deg", "as in 0,2", units.Millimetre, []bumpsteer.Reading{{Travel: -40, Toe: 0.25 * degree}, {Travel: 30, Toe: -0.125 * degree}}},
		"spaced commas":  {"-40,5 0,25\n30 -0,125", "toe_deg", "comma", units.Millimetre, []bumpsteer.Reading{{Travel: -40.5, Toe: 0.25 * degree}, {Travel: 30, Toe: -0.125 * degree}}},
		"named, commas":  {"travel_mm;toe_mm\n-40;2,25\n", "toe_deg", "comma", units.Millimetre, []bumpsteer.Reading{{Travel: -40, Toe: 2.25 / 450}}},
		"dials":          {"10,1.5,-0.5\n", "", "front_dial_mm", units.Millimetre, []bumpsteer.Reading{{Travel: 10, Toe: -2.0 / 400}}},
	} {
		m, ok := MeantBy(c.text, c.unit, c.toe)
		got, err := m.Parse("pasted", gauge)
		if !ok || err != nil || len(got) != len(c.want) || !strings.Contains(m.Question, c.asks) {
			t.Errorf("%s: asks %q; %v, %v", name, m.Question, got, err)
			continue
		}
		for i := range got {
			near(t, name+" travel", got[i].Travel, c.want[i].Travel, 1e-12)
			near(t, name+" toe", got[i].Toe, c.want[i].Toe, 1e-15)
		}
		if got[0].Place != "line 1" && c.text[0] != 't' {
			t.Errorf("%s: the first reading is on %s", name, got[0].Place)
		}
	}
	for _, text := range []string{"travel_mm,toe_deg\n-40,0.25\n", "", "hello\n", "-40,0,25\n", "1\t2\t3\t4"} {
		if m, ok := MeantBy(text, units.Millimetre, "toe_deg"); ok {
			t.Errorf("%q asks %q", text, m.Question)
		}
	}
}

// No travel stands twice on a sheet, whatever rounding makes of round ones.
func TestNoStationStandsTwice(t *testing.T) {
	for _, step := range []float64{10, 25.4 / 2, 25.4 / 3, 0.1} {
		for n := 1.0; n < 40; n++ {
			from, to := -n*step, (n/2+1)*step+step/1e9
			list := Stations(from, to, step)
			for i := range list[1:] {
				if list[i+1]-list[i] < 0.04*step {
					t.Errorf("step %g: %.12g and %.12g", step, list[i], list[i+1])
				}
			}
			if list[0] != from || list[len(list)-1] != to {
				t.Errorf("step %g, %g to %g: %v", step, from, to, list)
			}
		}
	}
}

func TestParseReadingsRefuses(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"empty":         {" \n", "a.csv: is empty"},
		"binary":        {"travel\x00", "not a text file"},
		"not utf-8":     {"travel_mm,toe_deg\n\xff,1", "not a text file"},
		"large":         {strings.Repeat("1,2\n", 300_000), "larger than 1 MiB"},
		"header only":   {"travel_mm,toe_deg\n", "holds no reading"},
		"no header":     {"-40,0.25\n", `a.csv:1: "-40" is no column`},
		"no unit":       {"travel,toe_deg\n1,2\n", `"travel" is no column`},
		"no travel":     {"toe_deg\n1\n", "no column for the travel"},
		"no toe":        {"travel_mm\n1\n", "no column for the toe"},
		"two ways":      {"travel_mm,toe_deg,toe_mm\n1,1,1\n", "in more than one way"},
		"two travels":   {"travel_mm,travel_in,toe_deg\n1,1,1\n", "travel_in stands beside travel_mm"},
		"one dial":      {"travel_mm,front_dial_mm\n1,1\n", "one dial of two"},
		"blank toe":     {"travel_mm,toe_deg\n-40,0.2\n-20,\n", "a.csv:3: toe_deg is blank; fill it in, or take the line out"},
		"blank travel":  {"travel_mm,toe_deg\n,0.2\n", "travel_mm is blank"},
		"decimal comma": {"travel_mm,toe_deg\n-40,0,2\n", "3 cells under 2 columns"},
		"comma in ;":    {"travel_mm;toe_deg\n-40;0,2\n-20;0,1\n10;0,05\n", `a.csv:2: "0,2" has a decimal comma, and so on 2 more lines`},
		"odd cells":     {"travel_mm,toe_deg\n-40,0,2\n-30,0,1\n", "a.csv:2: 3 cells under 2 columns, and so on 1 more lines"},
		"words":         {"travel_mm,toe_deg\n-40,none\n", "a.csv:2: toe_deg: "},
		"side":          {"travel_mm,toe_deg,side\n-40,0.1,driver\n", `side "driver" is neither left nor right`},
		"steep":         {"travel_mm,toe_deg\n-40,46\n", "not within ±45 degrees"},
		"far":           {"travel_mm,toe_deg\n11000,1\n", "travel_mm: "},
		"quotes":        {"travel_mm,toe_deg\n\"-40,1\n", "without quotes"},
	} {
		got, err := ParseReadings("a.csv", c.text, gauge)
		if got != nil || !errors.Is(err, ErrReadings) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
	_, err := ParseReadings("a.csv", "travel_mm,toe_deg\nx,1\n2,y\n", gauge)
	if err == nil || strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("all problems at once: %v", err)
	}
	for head, want := range map[string]string{"travel_mm,toe_mm": "width", "travel_mm,front_dial_mm,rear_dial_mm": "dial_spacing"} {
		if _, err := ParseReadings("a.csv", head+"\n1,1\n", bumpsteer.Gauge{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", head, err)
		}
	}
}

// FuzzParseReadings: no panic, and all that is taken is finite.
func FuzzParseReadings(f *testing.F) {
	f.Add("travel_mm,toe_deg\n-40,0.25\n")
	f.Add("travel_in\ttoe_in\tside\n1 1/2\t1/16\tleft\n")
	f.Add("travel_mm;front_dial_mm;rear_dial_mm\n20;1;2\n")
	f.Fuzz(func(t *testing.T, text string) {
		list, err := ParseReadings("fuzz", text, gauge)
		if (err == nil) == (len(list) == 0) || err != nil && !errors.Is(err, ErrReadings) {
			t.Fatalf("%v, %v", list, err)
		}
		for _, r := range list {
			if !(math.Abs(r.Toe) <= math.Pi/4 && math.Abs(r.Travel) <= units.MaxLength) {
				t.Fatalf("%+v", r)
			}
		}
	})
}

// taken makes readings of a slope, deg/mm, with a zero, deg.
func taken(slope, zero float64, travel ...float64) []Taken {
	var list []Taken
	for i, h := range travel {
		list = append(list, Taken{bumpsteer.Reading{Travel: h, Toe: (slope*h + zero) * degree}, "line " + string(rune('2'+i))})
	}
	return list
}

func TestDoubts(t *testing.T) {
	_, s := setup(t, frontJob)
	travel := []float64{-50, -35, -20, 15, 30, 45}
	if d := s.Doubts(taken(-0.0086, 0.1, travel...)); len(d) != 0 {
		t.Errorf("good readings: %v", d)
	}
	if d := s.Doubts(taken(-0.0086, 0.1, travel[0], 0, travel[5])); len(d) != 0 {
		t.Errorf("good readings with one at rest: %v", d)
	}
	odd := taken(-0.0086, 0, append([]float64{0}, travel...)...)
	odd[3].Toe *= 25.4
	d := s.Doubts(odd)
	if len(d) != 1 || d[0].Reading != 3 || !errors.Is(&d[0], ErrDoubt) || !strings.Contains(d[0].Question, "line 5, travel −20.0 mm: toe 4.369 deg, where the points predict 0.17 ± 0.06 deg") {
		t.Errorf("one in inches: %v", d)
	}
	twice := taken(-0.0086, 0.1, -50, -35, -20, 15, -35)
	if d := s.Doubts(twice); len(d) != 1 || d[0].Reading != 4 || !strings.Contains(d[0].Question, "the same as line 3") {
		t.Errorf("doubled: %v", d)
	}
	all := taken(-0.0086*25.4, 0.1, travel...)
	if d := s.Doubts(all); len(d) != 1 || d[0].Reading != -1 {
		t.Errorf("all in another unit: %v", d)
	}
}

func TestRemarks(t *testing.T) {
	_, s := setup(t, frontJob)
	for name, c := range map[string]struct {
		list []Taken
		want int
	}{
		"rising": {taken(1, 0, -3, 2, 7), 0}, "falling": {taken(1, 0, 7, 2, -3), 0}, "mixed": {taken(1, 0, 2, 7, -3), 1},
	} {
		if got := s.Remarks(c.list); len(got) != c.want {
			t.Errorf("%s: %q", name, got)
		}
	}
	again := taken(1, 0, -3, 2, 2)
	again[2].Toe += 0.25 * degree
	if got := s.Remarks(again); len(got) != 1 || !strings.Contains(got[0], "line 3 and line 4 are of one travel") || !strings.Contains(got[0], "0.250 deg") {
		t.Errorf("%q", got)
	}
	sides := append(taken(1, 0, -3, 2, 7), taken(1, 0, -3, 2, 7)...)
	for i := range sides[3:] {
		sides[3+i].Side = bumpsteer.RightSide
	}
	if got := s.Remarks(sides); len(got) != 0 {
		t.Errorf("one side after the other: %q", got)
	}
}

// The words follow the signs: by hand, from what a raise and a shift mean.
func TestParts(t *testing.T) {
	_, s := setup(t, frontJob)
	_, rear := setup(t, rearJob)
	sure := bumpsteer.Diagnosis{From: -60, To: 70, Slope: bumpsteer.Banded{Value: -0.0086 * degree, Half: 0.002 * degree}, Bow: bumpsteer.Banded{Value: 3e-5 * degree, Half: 1e-6 * degree},
		Rest: 0.002 * degree, CanRaise: true, Raise: bumpsteer.Banded{Value: 7.5, Half: 2.2}, CanShift: true, Shift: bumpsteer.Banded{Value: -12.8, Half: 2.8}}
	p := s.Parts(&sure, ByTape)
	near(t, "slope at the end", p[0].AtEnd.Value, -0.0086*70*degree, 1e-12)
	near(t, "bow at the end", p[1].AtEnd.Value, 3e-5*4900*degree, 1e-12)
	if !p[0].Decided || !strings.Contains(p[0].Words, "the outer end is 7.5 ± 2.2 mm too low") || !strings.Contains(p[1].Words, "tie rod too short: the rack end is 12.8 ± 2.8 mm too far out") {
		t.Errorf("%+v", p)
	}
	other := sure
	other.From, other.To = -70, 60
	other.Raise.Value, other.Shift.Value = -0.3, 12.8
	p = rear.Parts(&other, ByTape)
	near(t, "slope in droop", p[0].AtEnd.Value, 0.0086*70*degree, 1e-12)
	near(t, "its band", p[0].AtEnd.Half, 0.002*70*degree, 1e-12)
	if !strings.Contains(p[0].Words, "outer end or toe link's inner end") || !strings.Contains(p[0].Words, "too high") || !strings.Contains(p[1].Words, "toe link too long: the toe link's inner end is") || !strings.HasSuffix(p[1].Words, "too far in") {
		t.Errorf("%+v", p)
	}
	open := sure
	open.Slope.Half, open.Bow = 0.009*degree, bumpsteer.Banded{Value: 1e-7 * degree}
	p = s.Parts(&open, ByTape)
	if p[0].Decided || !strings.Contains(p[0].Words, "not decidable at ±1 mm: use a toe gauge") || p[1].Words != "too small to matter" {
		t.Errorf("%+v", p)
	}
	if p = s.Parts(&open, ByGauge); !strings.Contains(p[0].Words, "not decidable by these readings") {
		t.Errorf("%+v", p)
	}
	open.Slope.Half, open.CanRaise = 0, false
	if p = s.Parts(&open, ByTape); !strings.Contains(p[0].Words, "no height of the outer end takes it away here") {
		t.Errorf("%+v", p)
	}
}

func TestFreedomName(t *testing.T) {
	_, front := setup(t, frontJob)
	_, rear := setup(t, rearJob)
	for f := range bumpsteer.FreedomCount {
		if front.FreedomName(f) != f.String() || strings.Contains(rear.FreedomName(f), "rack") {
			t.Errorf("%s: %q, %q", f.Key(), front.FreedomName(f), rear.FreedomName(f))
		}
	}
}
