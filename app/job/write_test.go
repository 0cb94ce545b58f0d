package job_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func sample(t testing.TB) (*job.Job, string) {
	t.Helper()
	data, err := os.ReadFile(testdata + "/format-1.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Read("format-1", data)
	if err != nil {
		t.Fatal(err)
	}
	return j, string(data)
}

func encode(t testing.TB, j *job.Job) string {
	t.Helper()
	data, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func reread(t testing.TB, text string) *job.Job {
	t.Helper()
	j, err := job.Read("reread", []byte(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return j
}

// TestUntouchedFileStays: nothing changed, nothing written otherwise, with
// every comment, typed unit and optional key.
func TestUntouchedFileStays(t *testing.T) {
	j, text := sample(t)
	if got := encode(t, j); got != text {
		t.Errorf("--- got\n%s--- want\n%s", got, text)
	}
}

// wantLines compares line by line: the text must be was with these lines
// changed, given as old and new.
func wantLines(t *testing.T, was, got string, changes ...string) {
	t.Helper()
	want := was
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(want, changes[i]) {
			t.Fatalf("the file has no %q", changes[i])
		}
		want = strings.Replace(want, changes[i], changes[i+1], 1)
	}
	if got != want {
		t.Errorf("--- got\n%s--- want\n%s", got, want)
	}
}

func TestChangedValueDropsTypedText(t *testing.T) {
	j, text := sample(t)
	v := &j.Variants[1]
	p := v.Point(kinematics.LowerBall)
	p.X, p.Y = 4.125, 755.7
	v.SetPoint(kinematics.LowerBall, p)
	hub := v.Point(kinematics.HubFace)
	hub.X = -2
	v.SetPoint(kinematics.HubFace, hub)
	v.SetPoint(kinematics.UpperBall, v.Point(kinematics.UpperBall)) // to where it is
	v.Camber = -1.25
	j.Travel.Droop = units.Length{MM: 57}
	wantLines(t, text, encode(t, j),
		`{x: 4, y: 29-3/4", z: 196}`, `{x: 4.125, y: 755.7, z: 196}`,
		"hub: {y: 812, z: 315}", "hub: {x: -2, y: 812, z: 315}",
		"camber: -1 1/2 deg", "camber: -1.25",
		"droop: 2 1/4 in", "droop: 57")
}

func TestOptionalKeysComeAndGo(t *testing.T) {
	j, text := sample(t)
	v := &j.Variants[0]
	v.Wheel.LoadedRadius = job.Optional{}
	v.Notes = ""
	v.Spring = job.Spring{}
	v.MeasuredWithin = job.Given(units.Length{MM: 0.5, Typed: "1/2mm"})
	j.Wheelbase = job.Optional{}
	got := encode(t, j)
	wantLines(t, text, got,
		", loaded_radius: 312", "",
		"    notes: |-\n      Left front, wheel off.\n      Ride height set with spacers under the arms.\n", "    measured_within: 1/2mm\n",
		"    spring:\n      carried_by: lower_arm\n      moving_end: {x: -22, y: 566, z: 224}\n      body_end: {x: -30, y: 456, z: 560}\n", "",
		"wheelbase: 8' 4 1/2\"\n", "")
	back := reread(t, got)
	if !back.Equal(j) || back.Variants[0].Wheel.LoadedRadius.Given || back.Wheelbase.Given {
		t.Error("it reads back otherwise")
	}
}

func TestVariantsComeGoAndMove(t *testing.T) {
	j, text := sample(t)
	p := j.Variants[0].Proposal("lower, wider: 2nd try")
	p.Wheel.Spacer = units.Length{MM: 50}
	j.Variants = []job.Variant{j.Variants[1], p, j.Variants[0]}
	got := encode(t, j)
	head, rest, _ := strings.Cut(text, "  # Taped")
	first, second, _ := strings.Cut(rest, "  - name: longer arms")
	for _, part := range []string{head, "  # Taped" + first, "  - name: longer arms" + second,
		"  - name: 'lower, wider: 2nd try'\n", "offset: 20, spacer: 50, loaded_radius: 312}"} {
		if !strings.Contains(got, part) {
			t.Errorf("%q is missing in\n%s", part, got)
		}
	}
	if n := strings.Count(got, "# Taped"); n != 1 {
		t.Errorf("the comment on the measured variant stands there %d times", n)
	}
	back := reread(t, got)
	if !back.Equal(j) || strings.Join(back.Names(), "|") != "longer arms|lower, wider: 2nd try|as measured" {
		t.Errorf("it reads back otherwise: %q", back.Names())
	}
}

// TestUnitsOfTheFileChange: the same lengths to the last bit, in other units.
func TestUnitsOfTheFileChange(t *testing.T) {
	j, _ := sample(t)
	was := j.Clone()
	j.Units = units.Inch
	got := encode(t, j)
	for _, line := range []string{"units: in # mm or in", `y: 29-3/4"`, "y: 655mm+50mm", "bump: 2.7559055118110236"} {
		if !strings.Contains(got, line) {
			t.Errorf("%q is missing in\n%s", line, got)
		}
	}
	back := reread(t, got)
	if !back.Equal(j) {
		t.Error("it reads back otherwise")
	}
	back.Units = units.Millimetre
	if !back.Equal(was) {
		t.Error("the way through inches has changed a length")
	}
}

func fresh() *job.Job {
	at := func(x, y, z float64) job.Position { return job.At(kinematics.Vec{X: x, Y: y, Z: z}) }
	mm := func(v float64) units.Length { return units.Length{MM: v} }
	return &job.Job{
		Name: "fresh", Axle: job.Rear, Units: units.Inch, MeasuredWithin: mm(1), Travel: job.Travel{Bump: mm(63.5), Droop: mm(51)},
		Variants: []job.Variant{{
			Name:     "as measured",
			UpperArm: job.Arm{Front: at(0, 395, 466), Ball: at(-14, 655, 492), Flat: true},
			LowerArm: job.Arm{Front: at(160, 330, 211), Rear: at(-175, 331, 208), Ball: at(4, 705, 196)},
			TieRod:   job.TieRod{RackEnd: at(-118, 345, 232), OuterEnd: at(-126, 690, 214)},
			Hub:      at(0, 762, 315), Camber: -1.5, Toe: 0.05,
			Wheel: job.Wheel{Tyre: "205/65R15", RimWidth: units.Length{MM: 165.1, Typed: "6 1/2 in"}, Offset: mm(20)},
		}},
	}
}

// TestFreshJob writes a job that was in no file, without the keys it may lack.
func TestFreshJob(t *testing.T) {
	j := fresh()
	j.Variants[0].LowerArm.Front = job.At(kinematics.Vec{X: 25.4, Y: 50.8, Z: 76.2})
	got := encode(t, j)
	want := `armscribe: 1
name: fresh
axle: rear
units: in
travel: {bump: 2.5, droop: 2.0078740157480315}
variants:
  - name: as measured
    upper_arm:
      pivot: {y: 15.551181102362205, z: 18.346456692913386}
      ball_joint: {x: -0.5511811023622047, y: 25.78740157480315, z: 19.37007874015748}
    lower_arm:
      front_pivot: {x: 1, y: 2, z: 3}
`
	if !strings.HasPrefix(got, want) {
		t.Errorf("--- got\n%s--- want at the top\n%s", got, want)
	}
	for _, absent := range []string{"measured_within", "rack:", "wheelbase", "notes", "spacer", "loaded_radius", "spring", "rear_pivot: {x: 0"} {
		if strings.Contains(got, absent) {
			t.Errorf("%q need not stand in\n%s", absent, got)
		}
	}
	if back := reread(t, got); !back.Equal(j) {
		t.Error("it reads back otherwise")
	}
}

// TestEveryBitComesBack moves points to random places, down to the smallest
// numbers there are, in both units.
func TestEveryBitComesBack(t *testing.T) {
	const seed = 20260611
	t.Logf("seed %d", seed)
	rnd := rand.New(rand.NewPCG(seed, 1))
	j, _ := sample(t)
	for range 60 {
		for i := range j.Variants {
			v := &j.Variants[i]
			c := v.Corner()
			for _, p := range c.Points() {
				at := v.Point(p)
				at.X += (rnd.Float64() - 0.5) * math.Pow(10, float64(rnd.IntN(4)-3))
				at.Y += rnd.NormFloat64() * 0.01
				at.Z = math.Nextafter(at.Z, 1000)
				v.SetPoint(p, at)
			}
			v.Camber = job.Degrees(rnd.Float64() * math.Pow(10, -float64(rnd.IntN(300))))
			v.Toe = job.DegreesOf(rnd.NormFloat64() / 100)
		}
		j.Rack.Left.MM = 61.7 * math.Pow(10, -float64(rnd.IntN(320)))
		j.Units = []units.Unit{units.Millimetre, units.Inch}[rnd.IntN(2)]
		if back := reread(t, encode(t, j)); !back.Equal(j) {
			t.Fatal("it reads back otherwise")
		}
	}
}

// TestNamesAndNotesComeBack tries texts that could be taken for something else.
func TestNamesAndNotesComeBack(t *testing.T) {
	j := fresh()
	for _, text := range []string{"911", "no", "null", "~", "1.50", "- a", "a: b", "# a", "a # b", "'a", `"a"`, `\`, "{a}", "&a", "*a", "!a", "%a",
		"@a", "|", "> a", "?", " a ", "Größe 5/8″", "車", "0x1F", "<<", "2026-01-02", "---", "a,b", "[", "=", strings.Repeat("long ", 20)} {
		j.Name, j.Variants[0].Name = text, text
		for _, notes := range []string{text, text + "\n" + text, "\n" + text, text + "\n", "a\n\n  " + text + "\n\tb \n\n", strings.Repeat(text+" ", 30)} {
			j.Variants[0].Notes = notes
			if back := reread(t, encode(t, j)); !back.Equal(j) {
				t.Errorf("%q comes back as %q", notes, back.Variants[0].Notes)
			}
		}
	}
}

func TestEncodeRefusesABadJob(t *testing.T) {
	for _, c := range []struct {
		spoil func(*job.Job)
		want  string
	}{
		{func(j *job.Job) { j.Name = " " }, "name: is empty; write a name"},
		{func(j *job.Job) { j.Axle = 0 }, "axle: is none; choose front or rear"},
		{func(j *job.Job) { j.Units = units.Foot }, "units: are none; choose mm or in"},
		{func(j *job.Job) { j.Variants = nil }, "variants: holds no variant; add one, as measured"},
		{func(j *job.Job) { j.Variants = append(j.Variants, j.Variants[0]) },
			"variants[1].name = as measured: is the name of variants[0] too; give each variant its own name"},
		{func(j *job.Job) { j.Variants[0].Hub.Y.MM = math.NaN() },
			"variants[0].hub.y (as measured) = NaN in: is not within ±393.7 in; check the number and its unit"},
		{func(j *job.Job) { j.Variants[0].UpperArm.Front.X.MM = math.Inf(-1) },
			"variants[0].upper_arm.pivot.x (as measured) = -Inf in: is not within ±393.7 in; check the number and its unit"},
		{func(j *job.Job) { j.Variants[0].Toe = job.Degrees(math.NaN()) },
			"variants[0].toe (as measured) = NaN deg: is not within ±45 degrees; check the number"},
		{func(j *job.Job) { j.Wheelbase = job.Given(units.Length{MM: math.NaN()}) },
			"wheelbase = NaN in: must be above zero; check the number and its unit"},
		{func(j *job.Job) { j.Variants[0].TieRod.OuterEnd = j.Variants[0].LowerArm.Ball },
			"variants[0].tie_rod.outer_end (as measured): outer tie-rod end: stands on the steering axis, so there is no steering arm " +
				"(0 in off the axis); check the outer end and both ball joints"},
	} {
		j := fresh()
		c.spoil(j)
		if data, err := j.Encode(); err == nil || err.Error() != c.want || data != nil {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}

// TestEncodeNoticesATypedTextThatLies: the text must mean the value held.
func TestEncodeNoticesATypedTextThatLies(t *testing.T) {
	j := fresh()
	j.Variants[0].Wheel.RimWidth = units.Length{MM: 254, Typed: "10 1/2 in"}
	if _, err := j.Encode(); err == nil || !strings.Contains(err.Error(), "would read back with other values") {
		t.Errorf("%v, want that it would read back otherwise", err)
	}
}

// TestLineEndsAndMarkOfOtherSystems: what an editor on another system makes of
// the file is the same job, comments and all, and ends its lines as it did.
func TestLineEndsAndMarkOfOtherSystems(t *testing.T) {
	j, text := sample(t)
	for name, other := range map[string]string{
		"carriage returns": strings.ReplaceAll(text, "\n", "\r\n"),
		"byte order mark":  "\ufeff" + text,
		"document start":   "---\n" + text,
		"no last line end": strings.TrimSuffix(text, "\n"),
	} {
		back := reread(t, other)
		if !back.Equal(j) {
			t.Errorf("%s: read otherwise", name)
		}
		want := text
		if strings.Contains(other, "\r") {
			want = other
		}
		if got := encode(t, back.Clone()); got != want {
			t.Errorf("%s: written otherwise:\n%s", name, got)
		}
	}
}

// TestCommentsStayWithTheirKeys puts a comment behind and above every line of
// a job and changes values all over.
func TestCommentsStayWithTheirKeys(t *testing.T) {
	data := encode(t, fresh())
	var b strings.Builder
	n := 0
	for _, line := range strings.SplitAfter(strings.TrimSpace(data)+"\n", "\n") {
		if line == "" {
			continue
		}
		n++
		indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
		fmt.Fprintf(&b, "%s# above %d.\n%s # behind %d.\n", indent, n, strings.TrimSuffix(line, "\n"), n)
	}
	fmt.Fprint(&b, "# the end.\n")
	j := reread(t, b.String())
	v := &j.Variants[0]
	v.Toe, v.Hub.Z.MM, v.Wheel.RimWidth, j.Name = 0.3, 317.5, units.Length{MM: 254}, "other"
	got := encode(t, j)
	for i := 1; i <= n; i++ {
		for _, where := range []string{"above", "behind"} {
			if c := fmt.Sprintf("# %s %d.", where, i); strings.Count(got, c) != 1 {
				t.Errorf("%q stands there %d times", c, strings.Count(got, c))
			}
		}
	}
	if !strings.Contains(got, "# the end.") || t.Failed() {
		t.Errorf("from\n%s--- to\n%s", b.String(), got)
	}
}
