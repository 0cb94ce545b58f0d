package clearance_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

func at(x, y, z float64) job.Position { return job.At(kinematics.Vec{X: x, Y: y, Z: z}) }

func length(mm float64) units.Length { return units.Length{MM: mm} }

// demo is the demo job, with ten obstacles about it.
func demo(t testing.TB) *job.Job {
	t.Helper()
	data, ok := assets.Demo("gravel-estate")
	if !ok {
		t.Fatal("no demo job")
	}
	j, err := job.Read("demo", data)
	if err != nil {
		t.Fatal(err)
	}
	j.Brake = job.Brake{}
	j.Obstacles = []job.Obstacle{
		{Name: "inner wing", Shape: job.PointShape, At: at(-121, 552, 608), Gap: job.Given(length(13))},
		{Name: "rail", Shape: job.LineShape, At: at(-310, 471, 247), To: at(290, 463, 262), Diameter: length(38)},
		{Name: "arch lip", Shape: job.CircleShape, At: at(7, 911, 318), Facing: job.Direction{Y: 1}, Radius: length(347)},
		{Name: "strut cap", Shape: job.CircleShape, At: at(-30, 470, 597), Facing: job.Direction{Z: 1}, Radius: length(61)},
		{Name: "bump stop", Shape: job.PointShape, At: at(11, 561, 402), Diameter: length(44)},
		{Name: "sill", Shape: job.LineShape, At: at(-352, 603, 171), To: at(-361, 744, 178)},
		{Name: "caliper", Shape: job.PointShape, On: job.OnUpright, At: at(-93, 731, 361), Diameter: length(52)},
		{Name: "arm horn", Shape: job.LineShape, On: job.OnUpright, At: at(13, 690, 194), To: at(118, 693, 213), Diameter: length(24)},
		{Name: "damper body", Shape: job.LineShape, On: job.OnDamper, At: at(-29, 470, 517), To: at(-25, 524, 353), Diameter: length(63)},
		{Name: "lip", Shape: job.ArcShape, At: at(351, 921, 322), Via: at(40, 926, 690), To: at(-342, 917, 301)},
		{Name: "inner arch", Shape: job.ArcShape, At: at(3, 560, 312), Facing: job.Direction{Y: 1, Z: 0.1}, Radius: length(372), Angles: job.Angles{From: 11, To: 163}},
		{Name: "front panel", Shape: job.LineShape, At: at(363, 520, 330), To: at(371, 700, 341)},
	}
	if p := j.Problems(); len(p) > 0 {
		t.Fatal(p)
	}
	return j
}

func query(t testing.TB, j *job.Job, variant int) clearance.Query {
	t.Helper()
	c := j.Variants[variant].Corner()
	q, err := clearance.QueryOf(j, variant, &c, 0)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// 205/65R15: 15 in are 381 mm, and a side wall is 65 % of 205, 133 mm rounded. Source: UN Regulation 30, 6.1.2, as in package tyre.
func TestTheBodyFollowsTheCode(t *testing.T) {
	j := demo(t)
	body, ok := clearance.TyreOf(&j.Variants[0])
	if !ok || body.Radius != (381+2*133)/2. || body.Section < 205 || body.Section > 215 || body.Tread >= body.Section {
		t.Fatalf("%+v, %v", body, ok)
	}
	ring, err := clearance.RingOf(&j.Variants[0], body)
	if err != nil || ring.Seat != 381 || ring.Overall <= 6*25.4 || ring.Barrel >= ring.Seat {
		t.Fatalf("%+v, %v", ring, err)
	}
	j.Variants[0].Wheel.Tyre = "two hundred and five"
	if _, ok := clearance.TyreOf(&j.Variants[0]); ok {
		t.Error("words make a tyre")
	}
	c := j.Variants[0].Corner()
	if _, err := clearance.QueryOf(j, 0, &c, 0); !errors.Is(err, clearance.ErrNoTyre) {
		t.Errorf("without a code: %v", err)
	}
}

func TestWhatTheUprightCarriesGoesWithTheHub(t *testing.T) {
	j := demo(t)
	hub := kinematics.Vec{X: 3, Y: 797, Z: 311}
	by := clearance.Carried(j, 2, hub)
	if want := (kinematics.Vec{X: 3, Y: 45, Z: -19}); by != want {
		t.Fatalf("carried by %v, want %v", by, want)
	}
	if clearance.Carried(j, 0, hub) != (kinematics.Vec{}) {
		t.Error("on the car itself they were measured where they stand")
	}
	c, err := clearance.CaseOf(j, 2, hub)
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range c.Obstacles {
		want := j.Obstacles[i].At.Vec()
		if j.Obstacles[i].On == job.OnUpright {
			want = r3.Add(want, by)
		}
		if o.A != want && !j.Obstacles[i].Centred() {
			t.Errorf("%s stands at %v, not %v", o.Name, o.A, want)
		}
	}
	if got := c.Obstacles[7].B; got != (kinematics.Vec{X: 121, Y: 738, Z: 194}) {
		t.Errorf("the other end of a line on the upright stands at %v", got)
	}
	if c.Obstacles[2].B != j.Obstacles[2].Facing.Vec() {
		t.Errorf("a direction moved to %v", c.Obstacles[2].B)
	}
}

// The report's answers are the fine ones: armcalc and the window must not differ.
func TestFineAnswersAreTheReports(t *testing.T) {
	j := demo(t)
	for variant := range j.Variants {
		want, err := report.ClearanceOf(j, variant, 0)
		if err != nil {
			t.Fatal(err)
		}
		q := query(t, j, variant)
		got, err := clearance.Fine(t.Context(), &q, clearance.Gaps)
		if err != nil || got.Fine != clearance.Gaps || len(got.Gaps) != len(want.Result.Answers) {
			t.Fatalf("%v, %d gaps", err, len(got.Gaps))
		}
		for i := range got.Gaps {
			if got.Gaps[i].Answer != want.Result.Answers[i] {
				t.Errorf("variant %d, %s: %+v, the report has %+v", variant, j.Obstacles[i].Name, got.Gaps[i].Answer, want.Result.Answers[i])
			}
		}
	}
}

// coarseGap, mm: by how much a coarse gap passes the fine one at most. The
// coarse grid steps 13 mm of travel and 20.7 mm of rack, but most gaps are least
// at an end of both.
const coarseGap = 1.0

func TestCoarseGapsAreNeverLessAndLittleMoreThanFineOnes(t *testing.T) {
	j := demo(t)
	for variant := range j.Variants {
		q := query(t, j, variant)
		var live clearance.Live
		coarse, err := live.Look(&q, clearance.Gaps)
		if err != nil {
			t.Fatal(err)
		}
		fine, err := clearance.Fine(t.Context(), &q, clearance.Gaps)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for i := range fine.Gaps {
			more := coarse.Gaps[i].Gap - fine.Gaps[i].Gap
			worst = max(worst, more)
			if more < -0.02 || more > coarseGap || fine.Gaps[i].Rest != coarse.Gaps[i].Rest {
				t.Errorf("variant %d, %s: coarse %g, fine %g", variant, j.Obstacles[i].Name, coarse.Gaps[i].Gap, fine.Gaps[i].Gap)
			}
		}
		t.Logf("variant %d: coarse gaps pass by %.2f mm at most", variant, worst)
	}
}

// coarseLine, mm: how far a coarse outline lies off a fine one at most, where
// the wheel's corner goes round between two places of the rack.
const coarseLine = 6.0

func TestCoarseOutlinesLieNearFineOnes(t *testing.T) {
	j := demo(t)
	j.Rack.Left.MM, j.Rack.Right.MM = 52, 52 // to which the wheel turns by 30 degrees
	q := query(t, j, 2)
	var live clearance.Live
	coarse, err := live.Look(&q, clearance.AllParts)
	if err != nil {
		t.Fatal(err)
	}
	fine, err := clearance.Fine(t.Context(), &q, clearance.Front|clearance.Plan)
	if err != nil || fine.Gaps != nil {
		t.Fatalf("%v; gaps were not asked for: %v", err, fine.Gaps)
	}
	for view := range coarse.Swept {
		worst := 0.0
		line := fine.Swept[view]
		for _, p := range coarse.Swept[view] {
			least := math.Inf(1)
			for i, a := range line {
				b := line[(i+1)%len(line)]
				dx, dy := b.X-a.X, b.Y-a.Y
				f := 0.0
				if d := dx*dx + dy*dy; d > 0 {
					f = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/d))
				}
				least = min(least, math.Hypot(a.X+f*dx-p.X, a.Y+f*dy-p.Y))
			}
			worst = max(worst, least)
		}
		if len(coarse.Swept[view]) < 100 || worst > coarseLine {
			t.Errorf("view %d: %d points, off by %.2f mm", view, len(coarse.Swept[view]), worst)
		}
	}
}

func TestLiveAnswersFollowTheQueryAndNothingElse(t *testing.T) {
	j := demo(t)
	q := query(t, j, 2)
	var live clearance.Live
	first, err := live.Look(&q, clearance.Gaps|clearance.Front)
	if err != nil || first.Swept[swept.PlanView] != nil {
		t.Fatalf("%v; the plan was not asked for", err)
	}
	gap, line := first.Gaps[0].Gap, &first.Swept[swept.FrontView][0]
	again, _ := live.Look(&q, clearance.AllParts)
	if &again.Swept[swept.FrontView][0] != line || again.Swept[swept.PlanView] == nil {
		t.Error("the same query was worked out anew, or what was missing was not")
	}
	moved := q.Clone()
	moved.Corner.Hub.Y -= 17
	if after, _ := live.Look(&moved, clearance.Gaps); after.Gaps[0].Gap == gap || after.Swept[swept.FrontView] != nil {
		t.Error("another corner has the former's answers")
	}
	nearer := moved.Clone()
	nearer.Case.Obstacles[0].A.Y += 23
	if after, _ := live.Look(&nearer, clearance.Gaps); after.Gaps[0].Gap >= gap {
		t.Errorf("an obstacle 23 mm nearer has %g, before %g", after.Gaps[0].Gap, gap)
	}
	fine := clearance.Answers{Parts: clearance.Gaps, Fine: clearance.Gaps, Unmet: 5}
	if live.Take(&q, &fine) {
		t.Error("an answer to a former query was taken")
	}
	if !live.Take(&nearer, &fine) {
		t.Error("the answer to the present query was not taken")
	}
	if got, _ := live.Look(&nearer, clearance.AllParts); got.Fine != clearance.Gaps || got.Unmet != 5 || got.Swept[swept.FrontView] == nil {
		t.Errorf("a fine answer does not stay, or what it lacks is not worked out: %b fine", got.Fine)
	}
	var fresh clearance.Live
	if got, _ := fresh.Look(&q, clearance.Gaps); got.Gaps[0].Gap != gap {
		t.Errorf("%g, and %g by a hand that came another way", gap, got.Gaps[0].Gap)
	}
}

func TestAWrongObstacleKeepsItsReasonAndTheOthersTheirGaps(t *testing.T) {
	j := demo(t)
	q := query(t, j, 2)
	var live clearance.Live
	good, _ := live.Look(&q, clearance.Gaps)
	want := good.Gaps[1].Answer
	bad := q.Clone()
	bad.Corner.Spring = kinematics.Spring{}
	bad.Case.Obstacles[0].Wish = -3
	got, err := live.Look(&bad, clearance.Gaps)
	if err != nil {
		t.Fatal(err)
	}
	for i := range got.Gaps {
		wrong := i == 0 || i == 8 // the negative gap, and the damper without one
		if errors.Is(got.Gaps[i].Err, swept.ErrObstacle) != wrong {
			t.Errorf("%s: %v", j.Obstacles[i].Name, got.Gaps[i].Err)
		}
	}
	if got.Gaps[1].Answer != want {
		t.Errorf("a right obstacle beside wrong ones: %+v, alone %+v", got.Gaps[1].Answer, want)
	}
	if text := got.Gaps[8].Words(units.Millimetre, true); !strings.Contains(text, "the corner has none") || strings.Contains(text, "damper body\"") {
		t.Errorf("words %q", text)
	}
}

// A hand that goes on moving while fine answers are worked out, for the race
// detector: what comes out is of the last question, and nothing else.
func TestFineAnswersBehindAMovingHand(t *testing.T) {
	inbox := make(chan func(), 1)
	d := clearance.NewDesk(func(work, then func()) { go func() { work(); inbox <- then }() })
	var live clearance.Live
	taken := 0
	d.Done = func(q *clearance.Query, a *clearance.Answers) {
		if live.Take(q, a) {
			taken++
		}
	}
	q := query(t, demo(t), 2)
	y := q.Corner.Hub.Y
	for n := range 40 {
		q.Corner.Hub.Y = y + float64(n%7)
		q.Case.Obstacles[0].A.Z++
		if _, err := live.Look(&q, clearance.AllParts); err != nil {
			t.Fatal(err)
		}
		d.Ask(&q, clearance.Gaps|clearance.Front)
		select {
		case then := <-inbox:
			then()
		default:
		}
	}
	for d.Waiting() {
		(<-inbox)()
	}
	got, err := live.Look(&q, clearance.AllParts)
	if err != nil || taken == 0 || got.Fine != clearance.Gaps|clearance.Front {
		t.Fatalf("%v; %d answers taken, fine %b", err, taken, got.Fine)
	}
	want, err := clearance.Fine(t.Context(), &q, clearance.Gaps)
	if err != nil || got.Gaps[0].Answer != want.Gaps[0].Answer {
		t.Errorf("%+v, worked out by itself %+v (%v)", got.Gaps[0].Answer, want.Gaps[0].Answer, err)
	}
}

func TestInsideTheRim(t *testing.T) {
	j := demo(t)
	c := j.Variants[2].Corner()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	look := func() clearance.Rim {
		t.Helper()
		r, err := clearance.RimOf(j, 2, &m)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	r := look()
	if len(r.Joints) != 3 || r.HasBrake || r.OffsetErr != nil || r.Barrel < 320 || r.Barrel > 381 {
		t.Fatalf("%+v", r)
	}
	// The outer end by hand, the wheel upright but for its camber: in the middle
	// of the rim it is the distance to the spin axis that counts.
	dx, dz := c.TieRod.OuterEnd.X-c.Hub.X, c.TieRod.OuterEnd.Z-c.Hub.Z
	if want := r.Barrel/2 - math.Hypot(dx, dz) - clearance.HousingsOf(j)[0].Size/2; math.Abs(r.Joints[0].Gap-want) > 1.5 {
		t.Errorf("outer end %g from the barrel, by hand %g", r.Joints[0].Gap, want)
	}
	j.Brake = job.Brake{Diameter: job.Given(length(297)), Gap: job.Given(length(7))}
	if r = look(); !r.HasBrake || r.BrakeErr != nil || r.Brake != (r.Barrel-297)/2 || r.BrakeWish != 7 {
		t.Fatalf("%+v", r)
	}
	j.Brake.Diameter = job.Given(length(r.Barrel - 13))
	if r = look(); !errors.Is(r.BrakeErr, tyre.ErrFit) || !strings.Contains(r.BrakeWords(units.Millimetre), "does not pass") {
		t.Errorf("a brake with 6.5 mm of 7: %v", r.BrakeErr)
	}
	j.Variants[2].Wheel.Offset = length(-171)
	if r = look(); !errors.Is(r.OffsetErr, tyre.ErrFit) || !strings.Contains(r.OffsetWords(units.Millimetre), "outside the rim") {
		t.Errorf("an offset of -171 mm on 6 in: %v", r.OffsetErr)
	}
}

// BenchmarkLive is a frame of a hand that moves: ten obstacles and both coarse
// outlines of a corner that is new each time. Aim: under 5 ms.
func BenchmarkLive(b *testing.B) { benchmarkLive(b, 1) }

// BenchmarkLiveStill is a frame in which only the shown pose moves.
func BenchmarkLiveStill(b *testing.B) { benchmarkLive(b, 0) }

func benchmarkLive(b *testing.B, by float64) {
	q := query(b, demo(b), 2)
	var live clearance.Live
	z, n := q.Corner.TieRod.OuterEnd.Z, 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		q.Corner.TieRod.OuterEnd.Z = z + by*float64(n%9)/4
		if _, err := live.Look(&q, clearance.AllParts); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFine is what follows in the background when the hand lets go.
func BenchmarkFine(b *testing.B) {
	q := query(b, demo(b), 2)
	for b.Loop() {
		if _, err := clearance.Fine(b.Context(), &q, clearance.AllParts); err != nil {
			b.Fatal(err)
		}
	}
}
