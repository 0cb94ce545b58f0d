package jobcard

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
	swept "armscribe/kinematics/clearance"
)

// crowded is a job with random wheels, housings, brake and obstacles.
func crowded(t *testing.T, r *rand.Rand) *job.Job {
	t.Helper()
	j := input(t).Job.Clone()
	span := func(a, b float64) units.Length { return units.Length{MM: a + (b-a)*r.Float64()} }
	maybe := func(o *job.Optional, a, b float64) {
		if *o = (job.Optional{}); r.IntN(2) == 0 {
			*o = job.Given(span(a, b))
		}
	}
	maybe(&j.Housings.OuterEnd, 20, 110)
	maybe(&j.Housings.LowerBall, 30, 60)
	maybe(&j.Housings.UpperBall, 20, 50)
	j.Brake = job.Brake{}
	maybe(&j.Brake.Diameter, 280, 400)
	maybe(&j.Brake.Gap, 2, 8)
	sizes := []string{"225/45R18", "215/50R18", "235/45R18", "215/55R17", "slick"}
	for i := range j.Variants {
		w := &j.Variants[i].Wheel
		w.Tyre, w.RimWidth, w.Offset, w.LoadedRadius = sizes[min(r.IntN(12), 11)%5], units.Length{MM: 25.4 * float64(6+r.IntN(2))}, span(-10, 45), job.Given(span(286, 306))
	}
	hub := j.Variants[0].Hub.Vec()
	j.Obstacles = nil
	for i := range r.IntN(4) {
		near := func() job.Position {
			return job.At(kinematics.Vec{X: hub.X + span(-650, 650).MM, Y: hub.Y + span(-360, 260).MM, Z: hub.Z + span(-150, 620).MM})
		}
		o := job.Obstacle{Name: string(rune('a' + i)), Shape: job.PointShape, At: near(), Diameter: span(0, 40)}
		switch r.IntN(4) {
		case 0:
			o.Shape, o.To = job.LineShape, near()
		case 1:
			o.Shape, o.Facing, o.Radius = job.CircleShape, job.Direction{Y: 1}, span(330, 480)
			if r.IntN(3) > 0 {
				o.Shape, o.Angles = job.ArcShape, job.Angles{From: job.Degrees(90 * r.Float64()), To: job.Degrees(100 + 90*r.Float64())}
			}
		case 2:
			o.On = job.OnUpright
		}
		maybe(&o.Gap, 0, 30)
		j.Obstacles = append(j.Obstacles, o)
	}
	if p := j.Problems(); len(p) > 0 {
		return crowded(t, r)
	}
	return j
}

// told is what the gaps of a variant come to, counted here one by one from what
// armcalc clearance has measured.
type told struct{ touches, touchesIfAssumed, short, unknown bool }

func toldBy(j *job.Job, c *report.Clearance) (n told) {
	gap := func(a *swept.Answer, assumed bool) {
		touches := min(a.Gap, a.Rest) < 0
		n.touches = n.touches || touches && !assumed
		n.touchesIfAssumed = n.touchesIfAssumed || touches
		n.short = n.short || a.Gap < a.Wish
	}
	for i := range c.Result.Answers {
		gap(&c.Result.Answers[i], false)
	}
	stated := []bool{j.Housings.OuterEnd.Given, j.Housings.LowerBall.Given, j.Housings.UpperBall.Given}
	for i := range c.Rim.Joints {
		gap(&c.Rim.Joints[i].Answer, !stated[i])
	}
	if b := j.Brake.Diameter; b.Given && c.Rim.Barrel-b.MM < 2*c.Rim.BrakeWish {
		n.touches, n.touchesIfAssumed, n.short = true, true, true
	}
	n.unknown = c.Result.Unmet > 0
	return n
}

// Whoever is asked how a wheel stands to what is around it says the same: check,
// clearance, the card, and the rows of stacks and ways.
func TestEveryFaceSaysTheSameOfAWheel(t *testing.T) {
	const seed, jobs = 20261201, 60
	r := rand.New(rand.NewPCG(seed, 10))
	seen := map[told]int{}
	for n := range jobs {
		j := crowded(t, r)
		i := r.IntN(len(j.Variants))
		v, lines, problem := report.Room(j, i)
		health := report.HealthOf(&v, problem)
		in := Input{Job: j, Variant: i, Saved: true, Results: []targets.Result{{Verdict: targets.Met}}, Unit: j.Units, Places: PlacesOf(Room), Clear: v}
		check, over := step(t, Card(in), Check), in.handOver()
		missed := over[len(over)-1].What == "Tyre or wheel in the way"
		c, err := report.ClearanceOf(j, i, 0)
		if err != nil {
			if health != report.Doubtful && problem == nil || check.Status == Met || !strings.Contains(lines[0], clearance.NotKnown) {
				t.Errorf("seed %d, job %d: clearance says %v, check %d %q, the card %v", seed, n, err, health, lines, check.Status)
			}
			continue
		}
		is := toldBy(j, c)
		seen[is]++
		if is.touches != (problem != nil) || is.touches != (c.Problem() != nil) || is.touches != (health == report.NotFine) || is.touches != missed ||
			is.touchesIfAssumed != v.InTheWay() || (is.short || is.unknown) != (health != report.IsFine) || is.short != (check.Status != Met) ||
			is.touches && check.Status == Met || lines[0] != "wheel of "+j.Variants[i].Name+": "+c.Judged.Words(j.Units) {
			t.Errorf("seed %d, job %d: %+v; check %d %v %q; clearance %v %q; card %v, in the way %t", seed, n, is, health, problem, lines, c.Problem(), c.Judged.Words(j.Units), check.Status, missed)
		}
		table := c.Sheet().String()
		if says := strings.Contains(table, clearance.Touches.String()) || strings.Contains(table, clearance.Inside.String()); !says && is.touchesIfAssumed && c.Rim.BrakeErr == nil {
			t.Errorf("seed %d, job %d: touches, and clearance prints\n%s", seed, n, table)
		}
		if n%6 == 0 {
			agreeOnStacks(t, n, j, i)
		}
		if n%20 == 0 {
			agreeOnWays(t, n, j, i)
		}
	}
	if len(seen) < 4 || seen[told{}] == 0 {
		t.Errorf("not much was met: %v", seen)
	}
}

// alike compares a row with what armcalc clearance says of the corner kept.
func alike(t *testing.T, n int, j *job.Job, i int, v *clearance.Judgement) {
	t.Helper()
	c, err := report.ClearanceOf(j, i, 0)
	if err != nil {
		if v.Known() {
			t.Errorf("job %d: a row knows what clearance does not: %v", n, err)
		}
		return
	}
	if v.Words(j.Units) != c.Judged.Words(j.Units) || v.InTheWay() != toldBy(j, c).touchesIfAssumed {
		t.Errorf("job %d: a row says %q, clearance %q", n, v.Words(j.Units), c.Judged.Words(j.Units))
	}
}

func agreeOnStacks(t *testing.T, n int, j *job.Job, i int) {
	t.Helper()
	spec := report.TuneSpec{Free: []bumpsteer.Free{{Freedom: bumpsteer.OuterEndHeight, Min: -12, Max: 12}},
		Goal: bumpsteer.Goal{From: -40, To: 40}, Spacers: []bumpsteer.Spacer{{Thickness: 1.5}, {Thickness: 4}}}
	// An outer end as large as it may be where toe is best, in half of the jobs with
	// nothing else that touches.
	if j = j.Clone(); n%12 == 6 {
		j.Obstacles, j.Housings, j.Brake = nil, job.Housings{}, job.Brake{}
	}
	first, err := report.TuneOf(context.Background(), j, i, spec)
	if err != nil {
		t.Fatal(err)
	}
	best := j.Variants[i].Corner()
	best.TieRod.OuterEnd.Z += first.Result.Moves[0].By()
	m, err := kinematics.New(&best)
	if err != nil {
		t.Fatal(err)
	}
	rim, err := clearance.RimOf(j, i, &m)
	if err == nil {
		if size := 2 * (rim.Joints[0].Answer.Gap + rim.Joints[0].Obstacle.Thick); size > 1 && size < job.MaxHousing {
			j.Housings.OuterEnd = job.Given(units.Length{MM: size})
		}
	}
	a, err := report.TuneOf(context.Background(), j, i, spec)
	if err != nil {
		t.Fatal(err)
	}
	text := a.Sheet().String()
	if !strings.Contains(text, a.Clear.Words(j.Units)) {
		t.Errorf("job %d: %v; the moves say %q, not in\n%s", n, err, a.Clear.Words(j.Units), text)
	}
	behind, none := false, clearance.JudgesOf(j, i).Of(j.Variants[i].Corner())
	for k := range a.Plan {
		next := j.Clone()
		end := next.Variants[i].Point(kinematics.OuterEnd)
		end.Z += a.Plan[k].Raise
		next.Variants[i].SetPoint(kinematics.OuterEnd, end)
		alike(t, n, next, i, a.PlanClear[k])
		if touches := a.PlanClear[k].InTheWay(); touches {
			behind = true
			if !strings.Contains(text, a.PlanClear[k].Row(j.Units)) {
				t.Errorf("job %d: stack %d touches and its row does not say so:\n%s", n, k+1, text)
			}
		} else if behind && !none.InTheWay() { // else no stack is to blame
			t.Errorf("job %d: stack %d goes free and stands behind one that touches:\n%s", n, k+1, text)
		}
	}
}

func agreeOnWays(t *testing.T, n int, j *job.Job, i int) {
	t.Helper()
	spec := report.ReachSpec{Wish: report.UsualReach(j.Units)}
	corner := j.Variants[i].Corner()
	spec.To = corner.Hub.Y + 40
	a, err := report.ReachOf(j, i, spec)
	if err != nil {
		t.Fatal(err)
	}
	behind, text := false, a.Sheet(0).String()
	for k := range a.Answers {
		w := &a.Answers[k]
		next := j.Clone()
		next.Variants = append(next.Variants, a.Variant(j, i, k))
		alike(t, n, next, len(next.Variants)-1, &w.Room)
		_, own, found := strings.Cut(text, "  "+a.WheelWords(k)+"  ")
		line, rest, _ := strings.Cut(own, "\n")
		if text = rest; !found || !strings.Contains(line, w.Room.Row(j.Units)) {
			t.Errorf("job %d: way %d: %q does not say %q", n, k+1, line, w.Room.Row(j.Units))
		}
		if !w.Leads() {
			continue
		}
		if behind = behind || w.Room.InTheWay(); behind && !w.Room.InTheWay() {
			t.Errorf("job %d: way %d goes free and stands behind one that touches", n, k+1)
		}
	}
}
