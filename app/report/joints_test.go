package report

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/jointangle"
	"armscribe/kinematics/widen"
)

func mustJoints(t *testing.T, j *job.Job, variant int) *Joints {
	t.Helper()
	a, err := JointsOf(j, variant)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The rack end's tilt is the angle between two directions of the tie rod, and no
// pose of a sample of its own tilts any joint more, but for what lies between places.
func TestJointsAreTheMost(t *testing.T) {
	j := opened(t, frontJob)
	j.Rack.Right = units.Length{MM: 44}
	a := mustJoints(t, j, 1)
	m := mechanism(t, j.Variants[1].Corner())
	rest, err := m.At(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	rod := r3.Sub(rest.OuterEnd, rest.RackEnd)
	most := 0.0
	for _, h := range places(-70, 90, 53) {
		for _, k := range places(-44, 60, 47) {
			p, err := m.At(h, k)
			if err != nil {
				t.Fatal(err)
			}
			most = max(most, math.Acos(min(1, r3.Cos(rod, r3.Sub(p.OuterEnd, p.RackEnd)))))
			tilts, err := jointangle.Of(m, h, k)
			if err != nil {
				t.Fatal(err)
			}
			for i, tilt := range tilts {
				if tilt > a.List[i].Tilt+1e-4 {
					t.Fatalf("%s: %.5f at %v, %v; the most is %.5f", a.List[i].Name, tilt, h, k, a.List[i].Tilt)
				}
			}
		}
	}
	near(t, "inner tie-rod end", a.List[jointangle.RackEnd].Tilt, most, 1e-6)
}

// The joints of a comparison tilt as the joints alone do, to the last bit.
func TestWidenFindsTheTiltsOfJoints(t *testing.T) {
	j := opened(t, frontJob)
	j.Rack.Right = units.Length{MM: 44}
	a := mustJoints(t, j, 1)
	w, err := WidenOf(j, 1, WidenSpec{By: 37})
	if err != nil {
		t.Fatal(err)
	}
	for joint, measure := range map[jointangle.Joint]widen.Measure{jointangle.UpperBall: widen.UpperBallTilt, jointangle.LowerBall: widen.LowerBallTilt,
		jointangle.OuterEnd: widen.OuterEndTilt, jointangle.RackEnd: widen.RackEndTilt} {
		if got := w.Table[measure].Before; !got.OK || got.Value != a.List[joint].Tilt {
			t.Errorf("%v: %v in the comparison, %v by joints", joint, got, a.List[joint].Tilt)
		}
	}
}

// The bands against a sample of corners measured wrong.
func TestJointBands(t *testing.T) {
	j := opened(t, frontJob)
	a := mustJoints(t, j, 0)
	next := newRandom()
	const n = 1500
	var sum, squares [jointangle.JointCount]float64
	for range n {
		c := j.Variants[0].Corner()
		for _, at := range c.Coordinates() {
			c.Shift(at, 2*next()-1)
		}
		m, err := kinematics.New(&c)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.List {
			tilts, err := jointangle.Of(&m, a.List[i].Travel, a.List[i].Rack)
			if err != nil {
				t.Fatal(err)
			}
			sum[i] += tilts[i]
			squares[i] += tilts[i] * tilts[i]
		}
	}
	for i := range a.List {
		mean := sum[i] / n
		near(t, "band of "+a.List[i].Name+" against the sample", a.List[i].Band/(kinematics.Normal95*math.Sqrt(squares[i]/n-mean*mean)), 1, 0.06)
	}
}

// newRandom returns numbers from 0 to 1, the same in every run: a linear
// congruential generator with the factor of Knuth's MMIX, from memory.
func newRandom() func() float64 {
	state := uint64(20_241)
	return func() float64 {
		state = state*6364136223846793005 + 1442695040888963407
		return float64(state>>11) / (1 << 53)
	}
}

func TestJointLimits(t *testing.T) {
	j := opened(t, frontJob)
	j.JointLimits = job.JointLimits{}
	free := mustJoints(t, j, 0)
	deg := func(i jointangle.Joint, more float64) job.OptionalDegrees {
		return job.OptionalDegrees{Degrees: job.Degrees(degrees(free.List[i].Tilt) + more), Given: true}
	}
	j.JointLimits = job.JointLimits{UpperBall: deg(jointangle.UpperBall, 3.25), LowerBall: deg(jointangle.LowerBall, -1.5), OuterEnd: deg(jointangle.OuterEnd, 0.01)}
	a := mustJoints(t, j, 0)
	for i, want := range []string{"kept", "OVER ITS LIMIT", "open: within its band", "no limit stated"} {
		if a.List[i].Word() != want {
			t.Errorf("%s: %s, want %s", a.List[i].Name, a.List[i].Word(), want)
		}
	}
	near(t, "margin", degrees(a.List[1].Margin()), -1.5, 1e-9)
	if strings.Contains(a.Sheet(nil).String(), "states no limits") || !strings.Contains(free.Sheet(nil).String(), "states no limits") {
		t.Errorf("with limits:\n%s\nwithout:\n%s", a.Sheet(nil).String(), free.Sheet(nil).String())
	}
	var read struct {
		Joints []struct {
			Joint   string
			Travel  float64  `json:"travel_mm"`
			Limit   *float64 `json:"limit_deg"`
			Margin  *float64 `json:"margin_deg"`
			Verdict *string
		}
	}
	if err := json.Unmarshal([]byte(a.Sheet(nil).JSON()), &read); err != nil {
		t.Fatal(err)
	}
	if k := read.Joints[1]; k.Joint != "lower_ball" || *k.Verdict != "over" || k.Travel != a.List[1].Travel {
		t.Errorf("%+v", k)
	}
	near(t, "margin in JSON", *read.Joints[1].Margin, -1.5, 1e-9)
	if read.Joints[3].Limit != nil || read.Joints[3].Verdict != nil {
		t.Errorf("a limit that nobody stated: %+v", read.Joints[3])
	}
}

// A rear axle has no rack, and its rod is a toe link.
func TestJointsOfARearAxle(t *testing.T) {
	a := mustJoints(t, opened(t, rearJob), 0)
	text := a.Sheet(nil).String()
	for _, k := range a.List {
		if k.Rack != 0 || k.Tilt == 0 {
			t.Errorf("%+v", k)
		}
	}
	if !strings.Contains(text, "inner toe-link end") || strings.Contains(text, "tie-rod") || strings.Contains(text, "rack 0") {
		t.Errorf("\n%s", text)
	}
}
