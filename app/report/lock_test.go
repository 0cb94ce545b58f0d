package report

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"armscribe/app/clearance"
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

func opened(t *testing.T, path string) *job.Job {
	t.Helper()
	j, err := job.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func mustLock(t *testing.T, j *job.Job, variant int, step float64) *Lock {
	t.Helper()
	l, err := LockOf(j, variant, step)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// What the left wheel does in a left turn the right one does in a right turn,
// with its bands; the stops need not be alike.
func TestLockIsItsMirrorImage(t *testing.T) {
	j := opened(t, frontJob)
	j.Rack = job.Rack{Left: units.Length{MM: 47.3}, Right: units.Length{MM: 58.9}}
	l := mustLock(t, j, 0, 13)
	var racks []float64
	at := map[float64]*LockRow{}
	for i := range l.Rows {
		racks = append(racks, l.Rows[i].Rack)
		at[l.Rows[i].Rack] = &l.Rows[i]
	}
	if want := []float64{-58.9, -52, -39, -26, -13, 0, 13, 26, 39, 47.3}; !slices.Equal(racks, want) {
		t.Fatalf("rack at %v, want %v", racks, want)
	}
	for _, rack := range []float64{13, 26, 39} {
		a, b := at[rack], at[-rack]
		near(t, "angle", a.Left, -b.Right, 1e-12)
		near(t, "angle", a.Right, -b.Left, 1e-12)
		near(t, "Ackermann error", a.AckermannError, b.AckermannError, 1e-12)
		near(t, "band of an angle", a.LeftBand, b.RightBand, 1e-12)
		near(t, "band of the error", a.ErrorBand, b.ErrorBand, 1e-12)
		if math.Abs(a.Left-a.Right) < 1e-4 || a.LeftBand == a.RightBand {
			t.Errorf("rack %v: both wheels turn alike, so that this shows nothing", rack)
		}
	}
	if l.Ways[0].AtEnd.Rack != -58.9 || l.Ways[1].AtEnd.Rack != 47.3 || l.Ways[0].AtEnd.Circle.WallToWall >= l.Ways[1].AtEnd.Circle.WallToWall {
		t.Errorf("more rack to the right, but ways %+v", l.Ways)
	}
}

// The bands are those that the readings give by a way of their own.
func TestLockBandsAreThoseOfTheReadings(t *testing.T) {
	j := opened(t, frontJob)
	l := mustLock(t, j, 1, 17)
	for _, i := range []int{0, 2, len(l.Rows) - 2} {
		row := &l.Rows[i]
		r := mustReadings(t, l.Source, figures.Position{Rack: row.Rack, Steering: true})
		for key, got := range map[string][2]float64{"steering_angle_left": {row.Left, row.LeftBand}, "steering_angle_right": {row.Right, row.RightBand},
			"ackermann_error": {row.AckermannError, row.ErrorBand}} {
			want := find(t, r, key)
			near(t, key, got[0], want.Value, 1e-12)
			near(t, "band of "+key, got[1], want.Band, 1e-7)
			if want.Band < 1e-5 {
				t.Errorf("%s has no band, so that this shows nothing", key)
			}
		}
	}
}

// The band of both circles is that of the kerb's: the whole change of the wall's
// circle by every measured coordinate, one after the other.
func TestWallCircleMovesAsTheKerbCircle(t *testing.T) {
	j := opened(t, frontJob)
	j.Rack.Left.MM = 52
	e := mustLock(t, j, 2, 0).Ways[1].AtEnd
	body, _ := clearance.TyreOf(&j.Variants[2])
	sum := 0.0
	base := j.Variants[2].Corner()
	for _, at := range base.Coordinates() {
		circle := func(by float64) float64 {
			c := base
			c.Shift(at, by)
			r, err := swept.TurningCircleAt(mechanism(t, c), body, e.Rack, j.Wheelbase.MM)
			if err != nil {
				t.Fatal(err)
			}
			return r.WallToWall
		}
		const step = 0.02
		slope := (circle(step) - circle(-step)) / (2 * step)
		sum += slope * slope
	}
	full := 1.959964 / math.Sqrt(3) * 0.5 * math.Sqrt(sum) // within 0.5 mm
	near(t, "band of the circle, to the full one", e.CircleBand/full, 1, 0.01)
}

// Where the axes of both wheels, drawn in plan from the solved poses, meet on
// the other axle's line, the Ackermann error is nought, both wheels have one turn
// centre, and the kerb-to-kerb circle is twice the way from there to the outer tyre.
func TestNoAckermannErrorWhereTheAxesMeet(t *testing.T) {
	j := opened(t, frontJob)
	const rack = 53.7
	j.Rack = job.Rack{Left: units.Length{MM: rack}, Right: units.Length{MM: rack}}
	j.Variants[0].TieRod.OuterEnd.Y.MM += 22 // outboard of the steering axis, as ahead of the axle it must be
	m := mechanism(t, j.Variants[0].Corner())
	left, err := m.At(0, rack)
	if err != nil {
		t.Fatal(err)
	}
	right, err := m.At(0, -rack)
	if err != nil {
		t.Fatal(err)
	}
	// The right corner's mirror image: y and the axis' y turn their signs.
	ax, ay, dx, dy := left.Contact.X, left.Contact.Y, left.Spin.X, left.Spin.Y
	bx, by, ex, ey := right.Contact.X, -right.Contact.Y, right.Spin.X, -right.Spin.Y
	k := ((bx-ax)*ey - (by-ay)*ex) / (dx*ey - dy*ex)
	x, y := ax+k*dx, ay+k*dy
	if x > -1000 {
		t.Fatalf("the axes meet at x %.0f, not behind the car", x)
	}
	j.Wheelbase = job.Given(units.Length{MM: -x})
	l := mustLock(t, j, 0, rack)
	row := l.Rows[len(l.Rows)-1]
	if !row.HasError {
		t.Fatal("no Ackermann error")
	}
	near(t, "Ackermann error", row.AckermannError, 0, 1e-9)
	end := l.Ways[1].AtEnd
	near(t, "spread of the turn centres", end.Circle.Spread, 0, 1e-5)
	near(t, "kerb to kerb", end.Circle.KerbToKerb, 2*math.Hypot(x-bx, y-by), 1e-5)
	ideal, outerLeft, ok := row.Ideal()
	if !ok || outerLeft {
		t.Fatal("in a left turn the right wheel is the outer one")
	}
	near(t, "ideal angle", ideal, row.Right, 1e-9)

	// The ideal angle by the textbook's condition, for another wheelbase.
	const wheelbase = 2431.0
	j.Wheelbase = job.Given(units.Length{MM: wheelbase})
	l = mustLock(t, j, 0, rack)
	for _, i := range []int{0, len(l.Rows) - 1} {
		r := &l.Rows[i]
		angle, outerLeft, ok := r.Ideal()
		if !ok || outerLeft != (r.Rack < 0) {
			t.Fatalf("rack %v: ideal %v, left %v, known %v", r.Rack, angle, outerLeft, ok)
		}
		inner, ci, co := math.Abs(r.Left), left.Contact, right.Contact
		if r.Rack < 0 {
			inner = math.Abs(r.Right)
		}
		// (wheelbase + x) cot(angle) is the way from either contact to the turn centre.
		near(t, "textbook's condition", (wheelbase+co.X)/math.Tan(math.Abs(angle))-(wheelbase+ci.X)/math.Tan(inner), ci.Y+co.Y, 1e-6)
	}
}

// The lock ends where the least gap over the travel is the wished one, and then
// where it is nought; to the other side it is the other wheel.
func TestLockEndsAtTheWishedGap(t *testing.T) {
	j := opened(t, frontJob)
	const wish = 7.5
	j.Obstacles = []job.Obstacle{
		{Name: "caliper", Shape: job.PointShape, On: job.OnUpright, At: job.Position{X: units.Length{MM: -96}, Y: units.Length{MM: 741}, Z: units.Length{MM: 402}}},
		{Name: "rail", Shape: job.PointShape, At: job.Position{X: units.Length{MM: -263}, Y: units.Length{MM: 568}, Z: units.Length{MM: 356}}, Gap: job.Given(units.Length{MM: wish})},
	}
	l := mustLock(t, j, 2, 0)
	m := mechanism(t, j.Variants[2].Corner())
	body, _ := clearance.TyreOf(&j.Variants[2])
	rail := swept.Case{Tyre: body, Obstacles: []swept.Obstacle{clearance.ObstacleOf(&j.Obstacles[1], kinematics.Vec{})}}
	least := func(rack float64) float64 {
		gap := math.Inf(1)
		for _, h := range places(-70, 90, lockTravels) {
			g, err := swept.GapAt(m, rail, h, rack)
			if err != nil {
				t.Fatal(err)
			}
			gap = min(gap, g[0])
		}
		return gap
	}
	if l.Obstacles != 1 {
		t.Errorf("%d obstacles, but the caliper turns with the wheel", l.Obstacles)
	}
	for i, w := range l.Ways {
		sign := [2]float64{-1, 1}[i]
		for _, e := range []struct {
			LockEnd
			gap float64
		}{{w.Kept, wish}, {w.Touch, 0}} {
			if e.By != ByObstacle || e.Obstacle != "rail" || e.Rack*sign <= 0 {
				t.Fatalf("to the %s: %+v", wayNames[i], e.LockEnd)
			}
			own := e.Rack // of the wheel that comes near, as the left one
			if e.Wheel == "right" {
				own = -own
			}
			near(t, "gap at the lock", least(own), e.gap, 1e-3)
		}
		if math.Abs(w.Touch.Rack) <= math.Abs(w.Kept.Rack) || math.Abs(w.Touch.Rack) >= 60 {
			t.Errorf("to the %s: gaps kept to %v, touches at %v", wayNames[i], w.Kept.Rack, w.Touch.Rack)
		}
	}
	a, b := l.Ways[0].Kept, l.Ways[1].Kept
	near(t, "lock to both sides", a.Rack, -b.Rack, 1e-3)
	near(t, "circle to both sides", a.Circle.WallToWall, b.Circle.WallToWall, 1)
	if a.Wheel == b.Wheel || a.Travel != b.Travel {
		t.Errorf("to the right the %s wheel at %v, to the left the %s wheel at %v", a.Wheel, a.Travel, b.Wheel, b.Travel)
	}

	j.Obstacles[1].Gap = job.Given(units.Length{MM: 200})
	if w := mustLock(t, j, 2, 0).Ways[0]; w.Kept.Rack != 0 || w.Kept.Wheel != "either" {
		t.Errorf("a gap that no lock keeps: %+v", w.Kept)
	}
}

// Beyond the reach of the linkage the way ends, and says at which link.
func TestLockEndsWithTheLinkage(t *testing.T) {
	j := opened(t, frontJob)
	j.Rack.Left = units.Length{MM: 291}
	l := mustLock(t, j, 0, 0)
	w := l.Ways[1]
	if w.AtEnd.By != ByLinkage || !strings.Contains(w.AtEnd.Words(units.Millimetre), "tie rod") || w.AtEnd.Rack <= 60 || w.AtEnd.Rack >= 291 {
		t.Fatalf("%+v: %s", w.AtEnd, w.AtEnd.Words(units.Millimetre))
	}
	m := mechanism(t, j.Variants[0].Corner())
	if _, err := m.Steering(w.AtEnd.Rack+0.01, 0); !errors.Is(err, kinematics.ErrUnreachable) {
		t.Errorf("a little farther: %v", err)
	}
	if last := l.Rows[len(l.Rows)-1]; last.Missing == "" || !strings.Contains(l.Sheet(nil, 0).String(), "out of reach: ") {
		t.Errorf("row %+v in\n%s", last, l.Sheet(nil, 0).String())
	}
}

func TestLockSaysWhatIsMissing(t *testing.T) {
	if _, err := LockOf(opened(t, rearJob), 0, 0); !errors.Is(err, ErrNoSteering) {
		t.Errorf("a rear axle: %v", err)
	}
	j := opened(t, frontJob)
	if _, err := LockOf(j, 0, 1e-4); !errors.Is(err, ErrSpec) {
		t.Errorf("a million rows: %v", err)
	}
	j.Wheelbase = job.Optional{}
	j.Variants[0].Wheel.Tyre = ""
	l := mustLock(t, j, 0, 0)
	text := l.Sheet(nil, 0).String()
	for _, word := range []string{"need the wheelbase", "tyre's size is not known", "not known", "rack stop"} {
		if !strings.Contains(text, word) {
			t.Errorf("it does not say %q:\n%s", word, text)
		}
	}
	if l.Ways[0].AtEnd.HasCircle || l.Rows[0].HasError {
		t.Error("a circle or an error without wheelbase")
	}
	j.Wheelbase = job.Given(units.Length{MM: 2460})
	if e := mustLock(t, j, 0, 0).Ways[0].AtEnd; !e.HasCircle || e.HasWall || e.Circle.KerbToKerb < 5000 || e.CircleBand <= 0 {
		t.Errorf("without the tyre's size, but with a wheelbase: %+v", e.Circle)
	}
}

// What the programs read is what the table says.
func TestLockFiles(t *testing.T) {
	l := mustLock(t, opened(t, frontJob), 0, 31)
	records, err := csv.NewReader(strings.NewReader(l.Sheet(nil, 0).CSV())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(records) != 1+5 || records[5][0] != "60.000000000" || records[3][3] != "" || !strings.HasPrefix(records[5][1], "31.9") {
		t.Errorf("%q", records)
	}
	var read struct {
		Rows []struct {
			Left  *float64 `json:"left_deg"`
			Error *float64 `json:"ackermann_error_deg"`
		} `json:"angles"`
		Ways []struct {
			Way  string
			Ends []struct {
				Ends     string `json:"ends_at"`
				Obstacle *string
				Wall     *float64 `json:"wall_to_wall_mm"`
			}
		} `json:"locks"`
	}
	if err := json.Unmarshal([]byte(l.Sheet(nil, 0).JSON()), &read); err != nil {
		t.Fatal(err)
	}
	near(t, "left wheel", *read.Rows[4].Left, degrees(l.Rows[4].Left), 1e-9)
	near(t, "wall to wall", *read.Ways[1].Ends[0].Wall, l.Ways[1].AtEnd.Circle.WallToWall, 1e-6)
	if read.Rows[2].Error != nil || read.Ways[1].Way != "left" || read.Ways[1].Ends[0].Ends != "stop" || read.Ways[1].Ends[0].Obstacle != nil {
		t.Errorf("%+v", read)
	}
}

func TestRoundStep(t *testing.T) {
	for _, c := range []struct {
		way  float64
		unit units.Unit
		want float64
	}{{62, units.Millimetre, 20}, {57, units.Millimetre, 10}, {114, units.Millimetre, 20}, {7.3, units.Millimetre, 2}, {62, units.Inch, 12.7}, {0, units.Millimetre, 1}} {
		near(t, "step", roundStep(c.way, c.unit), c.want, 1e-9)
	}
}

// Beside the measured corner: spacers lose rack and a small circle, the same
// variant loses nothing, and the band of a change is smaller than either band, for
// both share their points.
func TestLockBeside(t *testing.T) {
	j := opened(t, frontJob)
	first, spacers, arms := mustLock(t, j, 0, 0), mustLock(t, j, 1, 0), mustLock(t, j, 2, 0)
	find := func(list []LockMeasure, name string) *LockMeasure {
		t.Helper()
		for i := range list {
			if list[i].Name == name {
				return &list[i]
			}
		}
		t.Fatalf("no %q", name)
		return nil
	}
	const left = 1
	for _, l := range first.Beside(first, left) {
		if l.Change.Text(units.Millimetre) != "0" || l.Verdict != targets.Kept && l.Verdict != targets.NoTrend {
			t.Errorf("beside itself: %+v", l)
		}
	}
	list := spacers.Beside(first, left)
	for name, want := range map[string]targets.Trend{"rack until it touches or ends": targets.NoTrend, "rack with wished gaps kept": targets.NoTrend, "wall to wall": targets.Worse, "kerb to kerb": targets.Worse} {
		l := find(list, name)
		if l.Verdict != want || (l.Change.Half(units.Millimetre) == notKnown) != (want == targets.NoTrend) || strings.HasPrefix(l.Change.Text(units.Millimetre), "0") {
			t.Errorf("spacers: %+v, want %v", l, want)
		}
	}
	if l := find(list, "Ackermann error"); l.Verdict != targets.NoTrend {
		t.Errorf("errors at different places of the rack: %+v", l)
	}
	list = arms.Beside(first, left)
	l := find(list, "wall to wall")
	if l.Verdict != targets.Worse || l.Change.Half(units.Millimetre) == "" || l.Now.Value(units.Millimetre) != "11.54 m" || l.Before.Value(units.Millimetre) != "11.46 m" {
		t.Errorf("longer arms: %+v", l)
	}
	exact := j.Clone() // so that the tape leaves no doubt
	exact.MeasuredWithin.MM, exact.Variants[2].MeasuredWithin = 0.1, job.Given(units.Length{MM: 0.1})
	list = mustLock(t, exact, 2, 0).Beside(mustLock(t, exact, 0, 0), left)
	if l := find(list, "Ackermann error"); l.Verdict != targets.Worse {
		t.Errorf("longer arms at the same rack: %+v", l)
	}
	j.Wheelbase = job.Optional{}
	if l := find(mustLock(t, j, 1, 0).Beside(mustLock(t, j, 0, 0), left), "wall to wall"); !l.Now.Empty() || !l.Change.Empty() || l.Verdict != targets.NoTrend {
		t.Errorf("without wheelbase: %+v", l)
	}
}

// Where the measuring error may put the place out of reach, no band is known;
// it is not nought. With an Ackermann error the circles are between two centres,
// and it says so.
func TestLockSaysWhatItDoesNotKnow(t *testing.T) {
	j := opened(t, frontJob)
	j.Rack.Left.MM, j.Rack.Right.MM = 150, 150
	l, err := LockOf(j, 0, 50)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range l.Ways {
		if w.AtEnd.By != ByLinkage || w.AtEnd.HasBands {
			t.Errorf("at the end of the linkage: by %d, bands known %v", w.AtEnd.By, w.AtEnd.HasBands)
		}
	}
	var mid *LockRow
	for i := range l.Rows {
		if l.Rows[i].Rack == 50 {
			mid = &l.Rows[i]
		}
	}
	if mid == nil || !mid.HasBands || !(mid.LeftBand > 0) {
		t.Errorf("halfway: %+v", mid)
	}
	table := l.Sheet(nil, 0).String()
	if strings.Count(table, "not known") != 8 {
		t.Errorf("four angles and four circles without a band are wanted:\n%s", table)
	}
	if !strings.Contains(l.Sheet(nil, 0).JSON(), `"turn_centres_apart_mm": `) || !strings.Contains(table, "turn centres lie up to") {
		t.Errorf("nothing of the two centres:\n%s", table)
	}
}

// With tie rods behind the axles the rack moves to the right for a left turn.
// The ways are what the wheels do, and the circle's wheels are drawn from them.
func TestTheWaysOfARackBehindTheAxles(t *testing.T) {
	j := opened(t, frontJob)
	tie := &j.Variants[0].TieRod
	tie.RackEnd.X.MM, tie.OuterEnd.X.MM = -147, -139
	j.Rack.Left.MM, j.Rack.Right.MM = 51, 44
	l := mustLock(t, j, 0, 0)
	for i, want := range [...]struct{ rack, sign float64 }{{51, -1}, {-44, 1}} {
		if e := &l.Ways[i].AtEnd; e.Rack != want.rack || !(e.Left*want.sign > 0.3 && e.Right*want.sign > 0.3) {
			t.Errorf("turning %s: rack %+.1f, wheels %+.2f and %+.2f rad", wayNames[i], e.Rack, e.Left, e.Right)
		}
	}
}
