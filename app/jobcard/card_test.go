package jobcard

import (
	"strings"
	"testing"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

const here = Places(1<<placeCount - 1)

func input(t *testing.T) Input {
	t.Helper()
	data, ok := assets.Demo("gravel-estate")
	if !ok {
		t.Fatal("no demo")
	}
	j, err := job.Read("demo", data)
	if err != nil {
		t.Fatal(err)
	}
	in := Input{Job: j, Variant: 2, Saved: true, Unit: j.Units, Places: here &^ PlacesOf(Papers)}
	var f frame.Frame
	if err := f.Update(car.StudyOf(j, in.variant()), nil, frame.Position{}); err != nil {
		t.Fatal(err)
	}
	in.Advice, in.HasAdvice = f.Advise(&tune.Setup{Unit: units.Millimetre})
	return in
}

// aim gives the job targets and sets the variant against them.
func (in *Input) aimAt(a job.Targets) {
	in.Job.Targets = a
	in.Results = targets.Evaluate(car.Of(in.Job, in.variant()), &a)
}

func mm(v float64) job.Optional { return job.Given(units.Length{MM: v}) }

func step(t *testing.T, card []Entry, s Step) *Entry {
	t.Helper()
	for i := range card {
		if card[i].Step == s {
			return &card[i]
		}
	}
	t.Fatalf("no step %s", s)
	return nil
}

func want(t *testing.T, e *Entry, status Status, next string) {
	t.Helper()
	if e.Status != status || !strings.Contains(e.Next, next) || (e.Next == "") != (status == Met) {
		t.Errorf("%s is %s, next %q; want %s, %q", e.Step, e.Status, e.Next, status, next)
	}
}

func TestCardOfTheDemo(t *testing.T) {
	in := input(t)
	card := Card(in)
	want(t, step(t, card, Measure), Met, "")
	want(t, step(t, card, Fit), Open, "track or scrub radius")
	want(t, step(t, card, Arms), Open, "camber gain or roll centre")
	want(t, step(t, card, Steering), Open, "mm spacer that raises it")
	want(t, step(t, card, Ride), Open, "choose a spring")
	want(t, step(t, card, Check), Open, "what you aim at")
	want(t, step(t, card, HandOver), Open, "track or scrub radius")
	if Done(card) != 1 || len(card) != 7 {
		t.Errorf("%d of %d steps done", Done(card), len(card))
	}
}

// Lines turn with the targets: met, not met, not decidable.
func TestTargetsTurnTheirLines(t *testing.T) {
	in := input(t)
	in.aimAt(job.Targets{
		Track: job.LengthRange{Min: mm(1530), Max: mm(1545)}, ScrubRadius: job.LengthRange{Max: mm(40)},
		RollCentreHeight: job.LengthRange{Min: mm(108), Max: mm(140)}, SwingArm: job.LengthRange{Min: mm(1500)},
		RideToe: job.AngleOver{Max: job.OptionalDegrees{Degrees: 0.1, Given: true}, Over: job.Travel{Bump: units.Length{MM: 40}, Droop: units.Length{MM: 40}}},
	})
	card := Card(in)
	want(t, step(t, card, Fit), Met, "")
	want(t, step(t, card, Arms), Undecided, "not decidable at ±0.5 mm")
	want(t, step(t, card, Steering), Missed, "mm spacer that raises it")
	want(t, step(t, card, Check), Missed, "1 not met")
	steering := step(t, card, Steering).Lines[0]
	if steering.Place != Toe || !steering.HasTarget || steering.Target != targets.RideToe || !strings.Contains(steering.What, "at most 0.1 deg") {
		t.Errorf("%+v", steering)
	}
	in.aimAt(job.Targets{ScrubRadius: job.LengthRange{Min: mm(60)}})
	card = Card(in)
	want(t, step(t, card, Fit), Missed, "bring scrub radius to at least 60 mm")
	// The raised outer end meets what the former did not.
	in = input(t)
	in.variant().TieRod.OuterEnd.Z.MM += 6.5
	in.aimAt(job.Targets{RideToe: job.AngleOver{Max: job.OptionalDegrees{Degrees: 0.15, Given: true}, Over: job.Travel{Bump: units.Length{MM: 40}, Droop: units.Length{MM: 40}}}})
	want(t, step(t, Card(in), Steering), Met, "")
	want(t, step(t, Card(in), Check), Met, "")
}

func TestWhatIsStillToMeasure(t *testing.T) {
	in := input(t)
	in.Job.Variants[0].Assumed = job.Assumed(0).With(job.CamberValue, true).With(job.OffsetValue, true)
	in.Job.Variants = in.Job.Variants[:1]
	in.Variant, in.Saved = 0, false
	in.Job.Variants[0].Wheel.LoadedRadius = job.Optional{}
	in.Job.Variants[0].Notes = " "
	in.Job.Variants[0].Spring = job.Spring{}
	in.Job.Travel.Bump = units.Length{MM: 400}
	card := Card(in)
	measure := step(t, card, Measure)
	want(t, measure, Open, "type over")
	if measure.Lines[0].What != "Points: 2 values are assumed, not measured" {
		t.Errorf("%+v", measure.Lines[0])
	}
	if measure.Lines[1].Status != Undecided || !strings.Contains(measure.Lines[1].Need, "down to the ground") {
		t.Errorf("%+v", measure.Lines[1])
	}
	want(t, step(t, card, Fit), Open, "make a variant")
	want(t, step(t, card, Ride), Open, "both ends of the spring")
	in.Job.Variants[0].Spring = input(t).Job.Variants[0].Spring
	in.Job.Variants[0].Assumed = job.Assumed(0).With(job.Coordinate(kinematics.Coordinate{Point: kinematics.SpringBody, Axis: 1}), true)
	want(t, step(t, Card(in), Ride), Open, "both ends of the spring and type over")
	want(t, step(t, card, Check), Missed, "lower arm is")
	want(t, step(t, card, HandOver), Open, "write down")
}

// A tyre that touches or a brake that does not pass is no job to hand over.
func TestGapsAreChecked(t *testing.T) {
	in := input(t)
	in.Places |= PlacesOf(Room)
	in.Job.Housings = job.Housings{} // nobody has typed them
	in.Results = []targets.Result{{Verdict: targets.Met}}
	gap := func(name string, least, rest float64) clearance.Gap {
		return clearance.Gap{Obstacle: swept.Obstacle{Name: name}, Answer: swept.Answer{Gap: least, Rest: rest, Wish: 10, Travel: 70, Rack: 41}}
	}
	judge := func(rim clearance.Rim, gaps ...clearance.Gap) { in.Clear = rim.Judge(in.Job, gaps, 0) }
	last := func() Line {
		s := step(t, Card(in), HandOver)
		return s.Lines[len(s.Lines)-2] // after it comes the step before
	}
	judge(clearance.Rim{}, gap("rail", 31.5, 88), gap("wing lip", 4.2, 61))
	check := step(t, Card(in), Check)
	want(t, check, Missed, "4.2 mm, wished 10")
	if l := check.Lines[1]; l.What != "wing lip too near to the tyre" || l.Place != Room {
		t.Errorf("%+v", l)
	}
	open := step(t, Card(in), HandOver).Status
	judge(clearance.Rim{}, gap("rail", 31.5, 88), gap("wing lip", 12.5, 61))
	want(t, step(t, Card(in), Check), Met, "")
	judge(clearance.Rim{}, gap("rail", -2.4, 88), gap("wing lip", 12.5, 61))
	want(t, step(t, Card(in), Check), Missed, "TOUCHES")
	if s := step(t, Card(in), HandOver); s.Status == Met || last().What != "Tyre or wheel in the way" {
		t.Errorf("a tyre that touches: %+v, before %v", s, open)
	}
	// A joint counts like an obstacle; one whose housing is assumed is a question.
	joint := gap(kinematics.LowerBall.String(), -1.3, -1.3)
	joint.Obstacle.Carrier = swept.OnUpright
	judge(clearance.Rim{Joints: []clearance.Gap{joint}})
	want(t, step(t, Card(in), Check), Open, "type its size")
	if last().What != "Room of the wheel not known" {
		t.Errorf("%+v", last())
	}
	stated := *in.Job
	in.Job, stated.Housings.OuterEnd = &stated, mm(38) // the first of the joints
	judge(clearance.Rim{Joints: []clearance.Gap{joint}})
	want(t, step(t, Card(in), Check), Missed, "TOUCHES lower ball joint, 1.3 mm deep")
	if last().What != "Tyre or wheel in the way" {
		t.Errorf("%+v", last())
	}
	v := in.variant().Corner()
	tyreless := *in.Job
	in.Job, tyreless.Variants = &tyreless, append([]job.Variant{}, tyreless.Variants...)
	in.variant().Wheel.Tyre = ""
	in.Clear = clearance.JudgementOf(in.Job, in.Variant, &v)
	want(t, step(t, Card(in), Check), Open, "size is not known")
	if last().What != "Room of the wheel not known" || last().Status != Open {
		t.Errorf("gaps not known: %+v", last())
	}
	in = input(t)
	in.Results = []targets.Result{{Verdict: targets.Met}}
	in.Unit = units.Inch
	in.Job.Brake.Diameter = job.Given(units.Length{MM: 431.8})
	in.Clear = clearance.JudgementOf(in.Job, in.Variant, &v)
	want(t, step(t, Card(in), Check), Missed, "17.00 in across")
	judge(clearance.Rim{OffsetErr: &tyre.FitError{Place: "wheel offset", Value: -170, Limit: -146.05, Problem: "lies outside", Cure: "check it"}})
	check = step(t, Card(in), Check)
	want(t, check, Missed, "−6.69 in")
	if l := check.Lines[1]; l.Place != Offset {
		t.Errorf("%+v", l)
	}
	if last().What != "Tyre or wheel in the way" {
		t.Errorf("a wheel that cannot be put on: %+v", last())
	}
}

// What the program does not have is not on the card.
func TestOnlyWhatThereIs(t *testing.T) {
	in := input(t)
	in.Places = PlacesOf(Points, Papers)
	card := Card(in)
	if len(card) != 2 || card[0].Step != Measure || len(card[0].Lines) != 1 || card[1].Step != HandOver || card[1].Lines[0].Place != Papers {
		t.Errorf("%+v", card)
	}
	in.Places = 0
	if card := Card(in); len(card) != 0 {
		t.Errorf("%+v", card)
	}
}

func TestWithoutAdviceOrTarget(t *testing.T) {
	in := input(t)
	in.HasAdvice = false
	want(t, step(t, Card(in), Steering), Open, "how much toe may change")
	in.Advice, in.HasAdvice = frame.Advice{Fault: frame.Undecided, What: "Toe changes."}, true
	want(t, step(t, Card(in), Steering), Open, "how much toe may change")
	if l := step(t, Card(in), Steering).Lines[0]; l.Status != Undecided || !strings.Contains(l.Need, "gauge") {
		t.Errorf("%+v", l)
	}
	in.Advice = frame.Advice{Fault: frame.Bow, What: "It bows."}
	want(t, step(t, Card(in), Steering), Open, "rack end")
}

// done is a job with every step met.
func done(t *testing.T) Input {
	t.Helper()
	in := input(t)
	in.Places, in.Drawn = here, true
	over := job.Travel{Bump: units.Length{MM: 40}, Droop: units.Length{MM: 40}}
	in.aimAt(job.Targets{
		Track: job.LengthRange{Min: mm(1000)}, RollCentreHeight: job.LengthRange{Max: mm(900)},
		RideToe:     job.AngleOver{Max: job.OptionalDegrees{Degrees: 20, Given: true}, Over: over},
		MotionRatio: job.RatioRange{Min: job.OptionalRatio{Value: 0.1, Given: true}},
	})
	in.HasAdvice = false
	return in
}

// undone is what is taken from a job that is all done.
var undone = map[string]struct {
	take func(in *Input)
	step Step
	is   Status
	next string
}{
	"assumed": {func(in *Input) { in.Job.Variants[0].Assumed = job.Assumed(0).With(job.CamberValue, true) }, Measure, Open, "measure them"},
	"radius":  {func(in *Input) { in.variant().Wheel.LoadedRadius = job.Optional{} }, Measure, Undecided, "down to the ground"},
	"unchanged": {func(in *Input) {
		name := in.variant().Name
		*in.variant() = in.Job.Variants[0]
		in.variant().Name = name
	}, Fit, Open, "change what"},
	"no track":    {func(in *Input) { in.aimAgain(func(a *job.Targets) { a.Track = job.LengthRange{} }) }, Fit, Open, "track or scrub"},
	"track":       {func(in *Input) { in.aimAgain(func(a *job.Targets) { a.Track.Min = mm(2000) }) }, Fit, Missed, "bring track"},
	"only caster": {func(in *Input) { in.aimAgain(onlyCaster) }, Arms, Open, "camber gain"},
	"toe":         {func(in *Input) { in.aimAgain(func(a *job.Targets) { a.RideToe = job.AngleOver{} }) }, Steering, Open, "how much toe"},
	"straight": {func(in *Input) {
		in.aimAgain(func(a *job.Targets) { a.RideToe = job.AngleOver{} })
		in.Advice, in.HasAdvice = frame.Advice{Fault: frame.NoFault, What: "Toe changes by little."}, true
	}, Steering, Open, "how much toe"},
	"ratio lost": {func(in *Input) { in.aimAgain(func(a *job.Targets) { a.MotionRatio = job.RatioRange{} }) }, Ride, Open, "choose a spring"},
	"ratio":      {func(in *Input) { in.aimAgain(func(a *job.Targets) { a.MotionRatio.Min.Value = 4 }) }, Ride, Missed, "bring motion ratio"},
	"notes":      {func(in *Input) { in.variant().Notes = "" }, HandOver, Open, "write down"},
	"file":       {func(in *Input) { in.Saved = false }, HandOver, Open, "save the job"},
	"paper":      {func(in *Input) { in.Drawn = false }, HandOver, Open, "picture"},
}

func onlyCaster(a *job.Targets) {
	a.RollCentreHeight, a.Caster = job.LengthRange{}, job.AngleRange{Max: job.OptionalDegrees{Degrees: 20, Given: true}}
}

func (in *Input) aimAgain(change func(a *job.Targets)) {
	a := in.Job.Targets
	change(&a)
	in.aimAt(a)
}

// A step is ticked for what is done in it, and not for what there is: whatever is
// taken from a job that is all done takes the tick of its step and of the last, and
// of no other.
func TestATickIsForWhatIsDone(t *testing.T) {
	in := done(t)
	if card := Card(in); Done(card) != len(card) {
		t.Fatalf("all is done, and yet %+v", card)
	}
	for name, c := range undone {
		t.Run(name, func(t *testing.T) {
			in := done(t)
			c.take(&in)
			card := Card(in)
			for i := range card {
				e := &card[i]
				switch {
				case e.Step == c.step:
					want(t, e, c.is, c.next)
				case e.Step == HandOver:
					want(t, e, Open, c.next)
				case e.Status != Met && e.Step != Check: // which counts the targets
					t.Errorf("%s is %s, next %q", e.Step, e.Status, e.Next)
				}
			}
		})
	}
}

// How well the points are known is said as short as it was typed, in either unit.
func TestTheMeasuringErrorIsShort(t *testing.T) {
	in := input(t)
	for _, c := range []struct {
		mm   float64
		unit units.Unit
		says string
	}{{1, units.Inch, "±0.039 in"}, {25.4 / 32, units.Inch, "±1/32 in"}, {0.5, units.Millimetre, "±0.5 mm"}} {
		in.Unit, in.Job.MeasuredWithin, in.variant().MeasuredWithin = c.unit, units.Length{MM: c.mm}, job.Optional{}
		if got := step(t, Card(in), Measure).Lines[0].What; got != "Points within "+c.says {
			t.Errorf("%g mm: %q", c.mm, got)
		}
	}
}
