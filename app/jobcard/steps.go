package jobcard

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"armscribe/app/car"
	"armscribe/app/clearance"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func (in *Input) variant() *job.Variant { return &in.Job.Variants[in.Variant] }

// within is how well the points of the variant are known, in words.
func (in *Input) within() string {
	c := car.Of(in.Job, in.variant())
	k := c.Known()
	return "±" + k.Text(in.Unit)
}

func (in *Input) measure() []Line {
	points := Line{What: "Points within " + in.within(), Status: Met, Place: Points}
	if n := in.Job.Variants[0].Assumed.Count(); n > 0 {
		points.Status, points.Assumed = Open, true
		points.What = fmt.Sprintf("Points: %d values are assumed, not measured", n)
		points.Need = "measure them on the car and type over what stands there"
	}
	radius := Line{What: "Loaded radius measured", Status: Met, Place: Wheel}
	for _, v := range []*job.Variant{&in.Job.Variants[0], in.variant()} {
		if _, estimated := v.LoadedRadius(); estimated {
			radius.Status = Undecided
			radius.What = "Loaded radius of " + v.Name + " estimated"
			radius.Need = "measure from the wheel centre down to the ground, on the tyre that it is to have"
			break
		}
	}
	travel := Line{What: "Travel that the car uses", Status: Met, Place: Travel}
	if in.Job.Travel.Bump.MM == 0 || in.Job.Travel.Droop.MM == 0 {
		travel.Status, travel.Need = Open, "type how far the wheel goes up and down from rest"
	}
	return []Line{points, radius, travel}
}

func (in *Input) fit() []Line {
	proposal := Line{What: "A proposal beside what was measured", Status: Met, Place: Variants}
	if len(in.Job.Variants) == 1 {
		proposal.Status, proposal.Need = Open, "make a variant from the measured one, and change that"
	} else if in.Variant > 0 && in.variant().Corner() == in.Job.Variants[0].Corner() {
		proposal.What, proposal.Status = in.variant().Name+" is still as measured", Open
		proposal.Need = "change what is to be built otherwise"
	}
	return append([]Line{proposal}, in.aims("track or scrub radius", targets.Track, targets.ScrubRadius)...)
}

func (in *Input) arms() []Line {
	list := in.aims("camber gain or roll centre", targets.CamberGain, targets.SwingArm, targets.RollCentreHeight, targets.RollCentreMovement)
	for _, k := range [...]targets.Kind{targets.Camber, targets.Caster} {
		list = append(list, in.targetsOf(k)...)
	}
	return list
}

// aims has a line for each of these targets that the job has, or one that asks
// for some.
func (in *Input) aims(some string, kinds ...targets.Kind) []Line {
	if list := in.targetsOf(kinds...); len(list) > 0 {
		return list
	}
	return []Line{noTarget("say what you aim at: " + some)}
}

func noTarget(need string) Line {
	return Line{What: "No target yet", Status: Open, Need: need, Place: Targets}
}

// targetsOf has a line for each of these targets that the job has.
func (in *Input) targetsOf(kinds ...targets.Kind) []Line {
	var list []Line
	for _, k := range kinds {
		for i := range in.Results {
			if in.Results[i].Kind == k {
				list = append(list, in.aim(&in.Results[i]))
			}
		}
	}
	return list
}

func (in *Input) aim(r *targets.Result) Line {
	unit := in.Unit
	l := Line{
		What:  fmt.Sprintf("%s, %s: %s", r.Kind.About().Name, r.Asked.Text(r.Kind, unit), r.Stands(unit)),
		Place: placeOf(r.Kind), Target: r.Kind, HasTarget: true, Status: Met,
	}
	words := r.Words(unit)
	switch r.Verdict {
	case targets.Missed:
		l.Status, l.Need = Missed, "bring "+lowerFirst(r.Kind.About().Name)+" to "+r.Asked.Text(r.Kind, unit)
	case targets.Undecided:
		l.Status, l.Need = Undecided, words
	}
	return l
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// placeOf is where a target is worked on.
func placeOf(k targets.Kind) Place {
	switch k {
	case targets.Track, targets.ScrubRadius:
		return Wheel
	case targets.RideToe:
		return Toe
	case targets.MotionRatio:
		return Spring
	}
	return Points
}

// steering goes by the target for ride toe; without one the advice says how toe
// stands, and the target is asked for.
func (in *Input) steering() []Line {
	for i := range in.Results {
		if in.Results[i].Kind == targets.RideToe {
			l := in.aim(&in.Results[i])
			if l.Status == Missed && in.HasAdvice && in.Advice.Cure != "" {
				l.Need = in.Advice.Cure
			}
			return []Line{l}
		}
	}
	ask := noTarget("say how much toe may change, and over which travel")
	if !in.HasAdvice {
		return []Line{ask}
	}
	l := Line{What: in.Advice.What, Status: Met, Place: Toe}
	switch in.Advice.Fault {
	case frame.Slope, frame.Bow:
		l.Status, l.Need = Open, in.Advice.Cure
		if l.Need == "" {
			l.Need = "move the rack end or the outer end"
		}
	case frame.Undecided:
		l.Status, l.Need = Undecided, "measure the toe curve with a gauge"
	}
	return []Line{l, ask}
}

// ride goes by the target for the motion ratio; without one it is to be kept.
func (in *Input) ride() []Line {
	l := Line{What: "Spring's ends, for the motion ratio", Status: Met, Place: Spring}
	if in.variant().Spring.CarriedBy == kinematics.NoSpring {
		l.Status, l.Need = Open, "measure both ends of the spring and say what carries it"
	} else if a := in.variant().Assumed; a.HasPoint(kinematics.SpringMoving) || a.HasPoint(kinematics.SpringBody) {
		l.What, l.Status, l.Need = "Spring's ends are assumed", Open, "measure both ends of the spring and type over what stands there"
	}
	if l.Status != Met {
		return []Line{l}
	}
	if aims := in.targetsOf(targets.MotionRatio); len(aims) > 0 {
		return append([]Line{l}, aims...)
	}
	return append([]Line{l}, in.ratio()...)
}

// ratioKept is the share by which a motion ratio may change and count as kept: 2 %
// of the rate at the wheel, less than a spring is made to. Common practice, no source.
const ratioKept = 0.01

// ratio has a line on the motion ratio against the measured one.
func (in *Input) ratio() []Line {
	was, okWas := motionRatio(&in.Job.Variants[0])
	now, ok := motionRatio(in.variant())
	if !ok || !okWas {
		return nil
	}
	l := Line{What: "Motion ratio kept", Status: Met, Place: Targets}
	if change := now/was - 1; math.Abs(change) > ratioKept {
		more := "more"
		if change < 0 {
			more = "less"
		}
		l.What = fmt.Sprintf("Motion ratio %s %% %s than as measured", units.Shares.Number(100*math.Abs(change)), more)
		l.Status = Open
		l.Need = "move the spring's ends, or choose a spring for it and set the motion ratio that it needs as a target"
	}
	return []Line{l}
}

func motionRatio(v *job.Variant) (float64, bool) {
	c := v.Corner()
	m, err := kinematics.New(&c)
	if err != nil {
		return 0, false
	}
	p, err := m.At(0, 0)
	if err != nil {
		return 0, false
	}
	r := p.Readings()
	return r.Of(kinematics.MotionRatio)
}

// check looks whether travel and lock of the job are within reach.
func (in *Input) check() []Line {
	l := Line{What: "Travel and lock are within reach", Status: Met, Place: Travel}
	source := report.SourceOf(in.Job, in.Variant)
	if err := report.Check([]report.Source{source}); err != nil {
		first, _, more := strings.Cut(err.Error(), "\n")
		l.What, l.Status = "Travel or lock out of reach", Missed
		l.Need = first
		if more {
			l.Need += "; and more"
		}
	}
	lines := append([]Line{l}, in.room()...)
	switch n := targets.TallyOf(in.Results); {
	case len(in.Results) > 0:
		all := Line{What: fmt.Sprintf("%d of %d targets met", n.Met, len(in.Results)), Status: Met, Place: Targets}
		switch {
		case n.Missed > 0:
			all.Status, all.Need = Missed, fmt.Sprintf("%d not met: see the steps above", n.Missed)
		case n.Undecided > 0:
			all.Status, all.Need = Undecided, fmt.Sprintf("%d not decidable: see the steps above", n.Undecided)
		}
		lines = append(lines, all)
	case !slices.ContainsFunc(lines, func(l Line) bool { return l.Status != Met }):
		lines = append(lines, noTarget("say what you aim at")) // only then nothing hides behind it
	}
	return lines
}

// room has a line for each gap that is too small or not known, for a brake that
// does not pass and for an offset outside the rim, or one that says that all is
// well.
func (in *Input) room() []Line {
	v := &in.Clear
	if v.Err == nil && v.Unknown == 0 && v.Verdict() == clearance.Kept {
		l := Line{What: "Wheel keeps its wished gaps", Status: Met, Place: Room}
		if v.Stated == 0 {
			l.What = "Joints and brake keep their gaps in the rim"
		}
		return []Line{l}
	}
	var list []Line
	if v.Err != nil {
		list = append(list, Line{What: "Gaps of the wheel not known", Status: Open, Need: v.Err.Error(), Place: Room})
	}
	for i := range v.Items {
		if it := &v.Items[i]; it.Err != nil || it.Verdict != clearance.Kept {
			list = append(list, itemLine(it, in.Unit))
		}
	}
	return list
}

// itemLine is that of something whose gap is not kept or not known.
func itemLine(it *clearance.Item, u units.Unit) Line {
	l := Line{What: it.Obstacle.Name + " too near to the " + nearTo[it.Place], Status: Missed, Need: it.Long(u), Place: Room}
	switch {
	case it.Err != nil:
		l.What, l.Status = it.Obstacle.Name+": gap not known", Open
	case it.Place == clearance.Face:
		l.What, l.Place = "Wheel's mounting face outside the rim", Offset
	case it.Place == clearance.Brake && it.Wrong != nil:
		l.What = "Brake does not pass through the rim"
	case it.Verdict == clearance.Inside:
		l.What = it.Obstacle.Name + " stands inside tyre or rim"
	case it.Verdict == clearance.Touches:
		l.What = it.Obstacle.Name + " touches the " + nearTo[it.Place]
	}
	if it.Err == nil && it.Assumed {
		l.Status = Open
		l.What += ", if its housing is as assumed"
		l.Need += "; measure it and type its size"
	}
	return l
}

var nearTo = [...]string{clearance.Around: "tyre", clearance.InRim: "rim", clearance.Brake: "rim", clearance.Face: "rim"}

func (in *Input) handOver() []Line {
	l := Line{Need: "see the step before this", Place: Room}
	switch v := &in.Clear; {
	case v.Problem() != nil:
		l.What, l.Status = "Tyre or wheel in the way", Missed
	case v.InTheWay() || v.Err != nil || v.Unknown > 0: // a housing that is only assumed too
		l.What, l.Status = "Room of the wheel not known", Open
	default:
		return in.papers()
	}
	return append(in.papers(), l)
}

// papers are what is handed over.
func (in *Input) papers() []Line {
	saved := Line{What: "File saved", Status: Met, Place: Save}
	if !in.Saved {
		saved.What, saved.Status, saved.Need = "File not saved yet", Open, "save the job"
	}
	notes := Line{What: "Notes on " + in.variant().Name, Status: Met, Place: Notes}
	if strings.TrimSpace(in.variant().Notes) == "" {
		notes.What, notes.Status, notes.Need = "No notes on "+in.variant().Name+" yet", Open, "write down what is to be done, for whoever welds it"
	}
	drawing := Line{What: "Drawing of " + in.variant().Name + " saved", Status: Met, Place: Papers}
	if !in.Drawn {
		drawing.What, drawing.Status = "No drawing yet of "+in.variant().Name+" as it is", Open
		drawing.Need = "save the view as a picture, print it and check its scale bar"
	}
	return []Line{notes, saved, drawing}
}
