package jobcard_test

import (
	"fmt"
	"math"
	"math/rand"
	"os"
	"regexp"
	"strings"
	"testing"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/jobcard"
	"armscribe/app/report"
	"armscribe/app/targets"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics"
)

// anyJobs is how many random jobs are shown in every face; ARMSCRIBE_LONG, as of
// make long, makes it thousands.
func anyJobs() int {
	if os.Getenv("ARMSCRIBE_LONG") != "" {
		return 6000
	}
	return 110
}

// draw makes up what a person may type.
type draw struct {
	*rand.Rand
	t *testing.T
}

// number is typed with up to seven decimals.
func (d draw) number(least, most float64) string {
	return fmt.Sprintf("%.*f", d.Intn(8), least+(most-least)*d.Float64())
}

func (d draw) length(least, most float64, bare units.Unit) job.Optional {
	var text string
	switch d.Intn(5) {
	case 0:
		text = d.number(least/25.4, most/25.4) + " in"
	case 1:
		text = d.number(least, most) + " mm"
	case 2:
		text = fmt.Sprintf("%d/%d in", 1+d.Intn(int(most/2)), 16<<d.Intn(3))
	default:
		text = d.number(units.In(least, bare), units.In(most, bare))
	}
	l, err := units.ParseLength(text, bare)
	if err != nil {
		d.t.Fatalf("%q: %v", text, err)
	}
	return job.Given(l)
}

func (d draw) optional(o job.Optional) job.Optional {
	if d.Intn(3) == 0 {
		return job.Optional{}
	}
	return o
}

func (d draw) lengths(least, most float64, bare units.Unit) job.LengthRange {
	r := job.LengthRange{Min: d.length(least, most, bare), Max: d.optional(d.length(least, most, bare))}
	if r.Max.Given && r.Max.MM < r.Min.MM {
		r.Min, r.Max = r.Max, r.Min
	}
	return r
}

func (d draw) degrees(least, most float64) job.OptionalDegrees {
	var v float64
	fmt.Sscan(d.number(least, most), &v)
	return job.OptionalDegrees{Degrees: job.Degrees(v), Given: true}
}

func (d draw) slopes() job.SlopeRange {
	per := units.Millimetre
	if d.Intn(2) == 0 {
		per = units.Inch
	}
	v := d.degrees(-0.05, 0.02)
	return job.SlopeRange{Min: job.OptionalSlope{Slope: job.Slope{Degrees: v.Degrees, Per: per}, Given: true}}
}

// anyJob is a demo with its points moved, a random band, and aims of every kind.
func (d draw) anyJob() *job.Job {
	names := assets.DemoNames()
	data, _ := assets.Demo(names[d.Intn(len(names))])
	j, err := job.Read("demo", data)
	if err != nil {
		d.t.Fatal(err)
	}
	j.Units = [...]units.Unit{units.Millimetre, units.Inch}[d.Intn(2)]
	u := j.Units
	j.Variants = j.Variants[:min(2, len(j.Variants))]
	for i := range j.Variants {
		v := &j.Variants[i]
		v.MeasuredWithin = job.Given(units.Length{MM: 3 * d.Float64()})
		if d.Intn(8) == 0 {
			v.MeasuredWithin.MM = 0
		}
		for p := kinematics.Point(0); p < kinematics.HubFace; p++ {
			at := v.Point(p)
			at.Z += 12 * d.NormFloat64()
			at.Y += 6 * d.NormFloat64()
			v.SetPoint(p, at)
		}
		if d.Intn(6) == 0 { // arms that may be parallel
			d.level(v)
		}
	}
	over := job.Travel{Bump: d.length(10, 60, u).Length, Droop: d.length(10, 50, u).Length}
	j.Targets = job.Targets{
		ScrubRadius: d.lengths(1, 60, u), CamberGain: d.slopes(),
		RideToe:          job.AngleOver{Max: d.degrees(0.001, 1), Over: over},
		RollCentreHeight: d.lengths(1, 120, u), RollCentreMovement: job.LengthOver{Max: d.length(1, 90, u), Over: over},
		SwingArm: d.lengths(900, 9000, u), Track: d.lengths(1200, 1700, u),
		Camber: job.AngleRange{Min: d.degrees(-3, -1)}, Caster: job.AngleRange{Max: d.degrees(1, 9)},
	}
	return j
}

// level lays both arms level in the front view, or within a hair.
func (d draw) level(v *job.Variant) {
	off := d.NormFloat64() * math.Pow10(-d.Intn(8))
	for _, arm := range [...][3]kinematics.Point{
		{kinematics.UpperFront, kinematics.UpperRear, kinematics.UpperBall},
		{kinematics.LowerFront, kinematics.LowerRear, kinematics.LowerBall},
	} {
		z := v.Point(arm[2]).Z
		for _, p := range arm[:2] {
			at := v.Point(p)
			at.Z = z + off
			v.SetPoint(p, at)
		}
		off = 0
	}
}

// faces are all texts that show one job, by name.
func faces(j *job.Job, clear bool) (map[string]string, error) {
	texts := map[string]string{}
	sources := report.SourcesOf(j)
	if err := report.Check(sources); err != nil {
		return nil, err
	}
	aims := report.TargetsOf(j)
	var v clearance.Judgement
	var lines []string
	var problem error
	if clear { // a wheel carried through travel takes long
		v, lines, problem = report.Room(j, 0)
	}
	if missed := aims.Missed(0); missed != nil {
		texts["missed"] = missed.Error()
	}
	texts["check"] = report.Summary(sources, report.HealthOf(&v, problem), aims, lines...).String()
	c, err := report.Compare(sources)
	if err != nil {
		return nil, err
	}
	c.Targets = aims
	texts["compare"], texts["compare JSON"] = c.Sheet().String(), c.Sheet().JSON()
	for i := range sources {
		s := &sources[i]
		for _, at := range [...]figures.Position{{}, {Travel: s.Bump / 3}} {
			r, err := report.ReadingsOf(*s, at)
			if err != nil {
				return nil, err
			}
			texts[fmt.Sprintf("readings %d at %g", i, at.Travel)], texts["readings JSON"] = r.Sheet().String(), r.Sheet().JSON()
		}
		w, err := report.SweepOf(*s, report.Spec{From: -s.Droop, To: s.Bump, Step: (s.Droop + s.Bump) / 7})
		if err != nil {
			return nil, err
		}
		texts[fmt.Sprintf("sweep %d", i)], texts["sweep CSV"], texts["sweep JSON"] = w.Sheet().String(), w.Sheet().CSV(), w.Sheet().JSON()
		var f frame.Frame
		if err := f.Update(car.StudyOf(j, &j.Variants[i]), nil, frame.Position{}); err != nil {
			return nil, err
		}
		in := jobcard.Input{Job: j, Variant: i, Unit: j.Units, Results: targets.Evaluate(car.Of(j, &j.Variants[i]), &j.Targets),
			Places: jobcard.Places(math.MaxUint16), Clear: v}
		shop := tune.SetupOf(j, i)
		in.Advice, in.HasAdvice = f.Advise(&shop)
		texts["advice"] = in.Advice.What + in.Advice.Cure
		texts["card"] = fmt.Sprintf("%v", jobcard.Card(in))
	}
	return texts, nil
}

// nonsense is what no face may say: no number, a band of a hundred metres or a
// kilometre of inches, a band that is nought in several digits.
var nonsense = regexp.MustCompile(`NaN|[+\-−]Inf|± \d{1,3}(\x{2009}\d{3}){2,}|\(PANIC|%!`)

// Whatever a person may have typed and measured, every face answers, and an
// instant centre that may be at infinity is said to be there in all of them.
func TestEveryFaceOfAnyJob(t *testing.T) {
	const seed = 20117
	shown, far := 0, 0
	for n := range anyJobs() {
		d := draw{rand.New(rand.NewSource(seed + int64(n))), t}
		j := d.anyJob()
		data, err := j.Encode()
		if err != nil {
			continue // points that no job may have
		}
		if j, err = job.Read("any", data); err != nil {
			continue
		}
		texts, err := facesOf(t, seed+n, data, j)
		if err != nil {
			if nonsense.MatchString(err.Error()) {
				t.Errorf("seed %d: %v", seed+n, err)
			}
			continue // out of reach somewhere
		}
		shown++
		for name, text := range texts {
			if m := nonsense.FindStringIndex(text); m != nil {
				t.Errorf("seed %d, %s says %q", seed+n, name, text[max(0, m[0]-60):min(len(text), m[1]+20)])
			}
		}
		far += checkFar(t, seed+n, j, texts)
	}
	if shown < anyJobs()/4 || far < anyJobs()/20 {
		t.Errorf("only %d of %d jobs were shown, %d with an instant centre at infinity", shown, anyJobs(), far)
	}
	t.Logf("%d jobs shown, %d with an instant centre at infinity", shown, far)
}

// facesOf is faces, with the job that a panic came from.
func facesOf(t *testing.T, seed int, data []byte, j *job.Job) (map[string]string, error) {
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("seed %d: %v\n%s", seed, p, data)
		}
	}()
	return faces(j, seed%8 == 0)
}

// checkFar holds the words of each variant at rest against its own bands.
func checkFar(t *testing.T, seed int, j *job.Job, texts map[string]string) (far int) {
	for i := range j.Variants {
		s := report.SourceOf(j, i)
		bend, half := bendOf(t, &s)
		line := lineOf(texts[fmt.Sprintf("readings %d at 0", i)], "Swing arm")
		said := strings.Contains(line, "at infinity")
		if size := math.Abs(bend); size > 1.3*half && size > 2/kinematics.FarArm && said {
			t.Errorf("seed %d: an arm of 1/(%g ± %g) mm is said to be %q", seed, bend, half, line)
		} else if (size < 0.7*half || size < 0.5/kinematics.FarArm) && !said {
			t.Errorf("seed %d: an arm of 1/(%g ± %g) mm is said to be %q", seed, bend, half, line)
		}
		if value := regexp.MustCompile(`Swing arm +−?0(\.0+)? `).FindString(line); value != "" {
			t.Errorf("seed %d: an arm of 1/%g mm is said to be nought: %q", seed, bend, line)
		}
		if !said {
			continue
		}
		far++
		for _, name := range [...]string{"Instant centre, out", "Instant centre, up"} {
			if line := lineOf(texts[fmt.Sprintf("readings %d at 0", i)], name); !strings.Contains(line, "at infinity") {
				t.Errorf("seed %d: the swing arm is at infinity, but %q", seed, line)
			}
		}
	}
	return far
}

// bendOf is one over the swing arm at rest, 1/mm, with its band, by differences.
func bendOf(t *testing.T, s *report.Source) (bend, half float64) {
	t.Helper()
	at := func(c kinematics.Corner) float64 {
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		p, err := m.At(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		r := p.Readings()
		if arm, known := r.Of(kinematics.SwingArm); known {
			return 1 / arm
		}
		return 0
	}
	const step = 0.02 // mm
	squares := 0.0
	for _, k := range s.Corner.Coordinates() {
		up, down := s.Corner, s.Corner
		up.Shift(k, step)
		down.Shift(k, -step)
		slope := (at(up) - at(down)) / (2 * step)
		squares += slope * slope
	}
	return at(s.Corner), 1.96 * s.Within.Common() / math.Sqrt(3) * math.Sqrt(squares)
}

func lineOf(text, name string) string {
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), name) {
			return line
		}
	}
	return ""
}
