package job_test

import (
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func sample15(t testing.TB) (*job.Job, string) {
	t.Helper()
	data, err := os.ReadFile(testdata + "/format-1.5.armscribe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return reread(t, string(data)), string(data)
}

func TestOwnWithinIsReadAndWritten(t *testing.T) {
	j, text := sample15(t)
	if plain := j.Clone(); !j.Invented {
		t.Error("not read as invented")
	} else if plain.Invented = false; reread(t, encode(t, plain)).Invented {
		t.Error("still invented after it was taken back")
	}
	v := &j.Variants[0]
	for _, c := range []struct {
		at   kinematics.Coordinate
		want float64
		own  bool
	}{
		{kinematics.Coordinate{Point: kinematics.UpperFront, Axis: 1}, 3, true}, {kinematics.Coordinate{Point: kinematics.LowerFront, Axis: 0}, 12.5, true},
		{kinematics.Coordinate{Point: kinematics.LowerFront, Axis: 1}, 0, false}, {kinematics.Coordinate{Point: kinematics.LowerFront, Axis: 2}, 6.35, true},
		{kinematics.Coordinate{Point: kinematics.LowerRear, Axis: 2}, 6, true}, {kinematics.Coordinate{Point: kinematics.RackEnd, Axis: 0}, 0, false},
	} {
		if got, ok := v.OwnWithin(c.at); got != c.want || ok != c.own {
			t.Errorf("%v: ±%v, own %v; want ±%v, %v", c.at, got, ok, c.want, c.own)
		}
	}
	camber := kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.CamberAtRest}
	known := j.Known(v)
	if got := known.Size(camber); math.Abs(got-0.35*math.Pi/180) > 1e-12 {
		t.Errorf("camber known within %g rad", got)
	}
	toe := kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.ToeAtRest}
	if got := known.Size(toe); math.Abs(got-0.07*math.Pi/180) > 1e-12 {
		t.Errorf("toe known within %g rad", got)
	}
	other := j.Clone()
	other.Variants[0].Camber, other.Variants[0].Toe = -1.25, 0.11
	other.Travel.Droop.MM, other.Rack.Right.MM = 66, 58
	other.Measured(j)
	if other.Travel.Assumed != (job.Sides{}) || other.Rack.Assumed != (job.Sides{true, false}) || j.Travel.Assumed != (job.Sides{false, true}) {
		t.Errorf("assumed %v of the travel and %v of the rack", other.Travel.Assumed, other.Rack.Assumed)
	}
	if known = other.Known(&other.Variants[0]); known.Size(camber) != 0 || other.Variants[0].CamberWithin != 0 {
		t.Errorf("typed camber known within %g rad", known.Size(camber))
	}
	if known.Size(toe) != 0 || other.Variants[0].ToeWithin != 0 {
		t.Errorf("typed toe known within %g rad", known.Size(toe))
	}
	// A number that changes is no longer known as the old one was; one that is set
	// with its own error is.
	c := j.Clone()
	n := &c.Variants[0]
	n.LowerArm.Rear.Z.MM = 207.5
	n.TieRod.OuterEnd.Y.MM, n.TieRod.OuterEnd.Within = 688.5, job.All(units.Length{MM: 4})
	n.TieRod.RackEnd.Within = job.Within{1: job.Given(units.Length{MM: 2})}
	n.Measured(v)
	wantLines(t, text, encode(t, c), "z: 205, within: 6}", "z: 207.5, within: {x: 6, y: 6}}", "y: 690, z: 214, within: 0.5}", "y: 688.5, z: 214, within: 4}",
		"rack_end: {x: 118, y: 345, z: 232}\n      outer_end: {x: 126, y: 688.5", "rack_end: {x: 118, y: 345, z: 232, within: {y: 2}}\n      outer_end: {x: 126, y: 688.5")
	if back := reread(t, encode(t, c)); !back.Equal(c) {
		t.Error("reads back otherwise")
	}
	if plain, old := sample(t); strings.Contains(encode(t, plain), "within: {") || encode(t, plain) != old {
		t.Error("a file without any is written otherwise")
	}
}

// Known holds each number with its own error before the job's, and the range of an
// assumption before both.
func TestKnown(t *testing.T) {
	j, _ := sample15(t)
	v := &j.Variants[1]
	rear, upper := kinematics.Coordinate{Point: kinematics.LowerFront, Axis: 2}, kinematics.Coordinate{Point: kinematics.UpperBall, Axis: 0}
	v.TieRod.OuterEnd.Within = job.Within{1: job.Given(units.Length{MM: 0.5})}
	v.LowerArm.Front.Within = job.All(units.Length{MM: 6})
	v.Assumed = v.Assumed.With(job.Coordinate(rear), true).With(job.CamberValue, true).With(job.RimWidthValue, true)
	k := j.Known(v)
	corner := v.Corner()
	if got, want := len(k.Coordinates(&corner)), len(corner.Coordinates())+1; got != want {
		t.Errorf("%d numbers may be off, want %d", got, want)
	}
	camber := kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.CamberAtRest}
	for _, c := range []struct {
		at      kinematics.Coordinate
		want    float64
		assumed bool
	}{
		{rear, job.Coordinate(rear).Range(), true}, {upper, 1, false}, {kinematics.Coordinate{Point: kinematics.OuterEnd, Axis: 1}, 0.5, false},
		{kinematics.Coordinate{Point: kinematics.LowerFront, Axis: 1}, 6, false}, {camber, job.CamberValue.Range() * math.Pi / 180, true},
		{kinematics.Coordinate{Point: kinematics.AtRest, Axis: kinematics.WheelOffset}, 0, false},
	} {
		if math.Abs(k.Size(c.at)-c.want) > 1e-15 || k.RestsOn(c.at) != c.assumed {
			t.Errorf("%v: ±%v, assumed %v; want ±%v, %v", c.at, k.Size(c.at), k.RestsOn(c.at), c.want, c.assumed)
		}
	}
	// An error of the camber moves no contact of a track that was measured, that of
	// the variant itself or of the one it came from, and else it does.
	p := v.Proposal("proposal")
	j.Variants = []job.Variant{*v, p}
	other := p
	other.Hub.Y.MM += 12.5
	for _, c := range []struct {
		v    *job.Variant
		held bool
	}{{&j.Variants[0], true}, {&j.Variants[1], true}, {&other, false}} {
		k, corner := j.Known(c.v), c.v.Corner()
		was := corner.RestContact().Y
		k.Shift(&corner, camber, 0.01)
		if moved := math.Abs(corner.RestContact().Y - was); (moved < 1e-9) != c.held {
			t.Errorf("the contact of %s moves by %g, held %v", c.v.Name, moved, c.held)
		}
	}
}

// TestTrackHolds: whatever is typed of the wheel, and in whichever order, a
// measured track stays and the same corner comes out.
func TestTrackHolds(t *testing.T) {
	j, _ := sample15(t)
	const seed = 20261
	r := rand.New(rand.NewPCG(seed, 1))
	for range 200 {
		track, toe, camber := 1200+600*r.Float64(), r.Float64()-0.5, 8*r.Float64()-5
		offset, spacer, radius := 120*r.Float64()-60, 30*r.Float64(), 295+20*r.Float64()
		changes := []func(v *job.Variant){
			func(v *job.Variant) { v.Track = job.Given(units.Length{MM: track}) },
			func(v *job.Variant) { v.Camber = job.Degrees(camber) }, func(v *job.Variant) { v.Toe = job.Degrees(toe) },
			func(v *job.Variant) { v.Wheel.Offset.MM = offset }, func(v *job.Variant) { v.Wheel.Spacer.MM = spacer },
			func(v *job.Variant) { v.Wheel.LoadedRadius = job.Given(units.Length{MM: radius}) },
		}
		var first kinematics.Corner
		for n := range 3 {
			v := j.Variants[1]
			for _, i := range r.Perm(len(changes)) {
				former := v
				changes[i](&v)
				v.Measured(&former)
			}
			c := v.Corner()
			if off := math.Abs(c.RestContact().Y - track/2); off > 1e-9 {
				t.Fatalf("seed %d: half track is %g off", seed, off)
			}
			m, err := kinematics.New(&c)
			if err != nil {
				t.Fatal(err)
			}
			p, err := m.At(0, 0)
			if err != nil {
				t.Fatal(err)
			}
			if at := c.RestContact(); math.Hypot(p.Contact.X-at.X, p.Contact.Z-at.Z) > 1e-9 || math.Abs(p.Contact.Y-at.Y) > 1e-9 {
				t.Fatalf("seed %d: contact %v of the mechanism, %v of the corner", seed, p.Contact, at)
			}
			if n == 0 {
				first = c
			} else if d := math.Abs(first.Hub.Y - c.Hub.Y); d > 1e-9 {
				t.Fatalf("seed %d: another order puts the hub %g elsewhere", seed, d)
			}
		}
	}
}

func TestTrackAndHub(t *testing.T) {
	j, text := sample15(t)
	for i := range j.Variants {
		c := j.Variants[i].Corner()
		if got, want := 2*c.RestContact().Y, j.Variants[i].Track.MM; math.Abs(got-want) > 1e-9 || j.Variants[i].TrackMM() != want {
			t.Errorf("track %v, want %v", got, want)
		}
	}
	// The hub typed or moved is what is known then; a proposal keeps its hub.
	v := j.Variants[0]
	v.Hub.Y.MM += 3
	v.Measured(&j.Variants[0])
	if v.Track.Given || math.Abs(v.TrackMM()-1437.5) > 1e-9 {
		t.Errorf("the hub moved by 3: track %v, given %v", v.TrackMM(), v.Track.Given)
	}
	p := j.Variants[0].Proposal("spaced")
	former := p
	p.Wheel.Spacer.MM = 10
	if p.Measured(&former); p.Track.Given || p.Hub != j.Variants[0].Hub || p.TrackMM() < 1451 {
		t.Errorf("a spacer on a proposal: track %v, hub %v", p.TrackMM(), p.Hub)
	}
	// Known by the track, the hub is assumed no longer, even at the same place.
	v = j.Variants[0]
	side := job.Coordinate(kinematics.Coordinate{Point: kinematics.HubFace, Axis: 1})
	v.Track, v.Assumed = job.Optional{}, v.Assumed.With(side, true)
	former = v
	v.Track = j.Variants[0].Track
	if v.Measured(&former); v.Assumed.Has(side) {
		t.Error("the track is typed, and the hub still assumed")
	}
	for old, edit := range map[string][2]string{
		"hub: {y: 742.806, z: 305}": {"hub: {y: 745.2, z: 305}", "variants[0].hub.y (as measured) = 745.2 mm: is not where track = 1431.5 mm puts it, 7"},
		"track: 56 1/2 in":          {"notes: none", "variants[1].hub.y (hub known): is missing"},
		"track: 1431.5 #":           {"track: 0 #", "variants[0].track (as measured) = 0 mm: must be above zero"},
		"within: 0.5":               {"within: 51", "variants[0].tie_rod.outer_end.within (as measured) = 51 mm: is not between"},
		"within: {x: 12.5,":         {"within: {x: -1,", "variants[0].lower_arm.front_pivot.within.x (as measured) = -1 mm: is not between"},
	} {
		if _, err := job.Read("a", []byte(strings.Replace(text, old, edit[0], 1))); err == nil || !strings.Contains(err.Error(), edit[1]) {
			t.Errorf("%s: %v, want %q", edit[0], err, edit[1])
		}
	}
}

// What one error moves at once is read, held beside each coordinate's own error, and kept
// with a copy; a number that is typed over no longer moves with the rest, and an error that
// moves nothing any more is gone. One of the same name is the same error in each variant.
func TestErrorsTogetherAreReadAndForgotten(t *testing.T) {
	j, _ := sample15(t)
	v := &j.Variants[0]
	if len(v.Together) != 2 || v.Together[1].Name != "level" {
		t.Fatalf("%+v", v.Together)
	}
	at := kinematics.Coordinate{Point: kinematics.UpperFront, Axis: 1}
	known := j.Known(v)
	if got, want := known.Size(at), math.Hypot(3, 3.2); math.Abs(got-want) > 1e-12 || known.Own(at) != 3 {
		t.Errorf("known within %g, want %g; its own %g", got, want, known.Own(at))
	}
	if mm, ok := v.WithinOf(at); !ok || math.Abs(mm-math.Hypot(3, 3.2)) > 1e-12 {
		t.Errorf("said to be within %g", mm)
	}
	next := j.Clone()
	next.Variants = append(next.Variants, next.Variants[0].Proposal("next"))
	p := &next.Variants[len(next.Variants)-1]
	former := next.Clone()
	p.LowerArm.Rear.Y.MM++
	p.UpperArm.Front.Y = units.Length{MM: 402}
	next.Measured(former)
	if len(p.Together) != 1 || len(next.Variants[0].Together) != 2 || p.Together[0].By == v.Together[0].By {
		t.Errorf("typed over, %+v moves together", p.Together)
	}
	back := reread(t, encode(t, next))
	if !back.Equal(next) {
		t.Error("it reads back otherwise")
	}
	own := next.Known(p)
	if got := own.Size(kinematics.Coordinate{Point: kinematics.LowerFront, Axis: 2}); math.Abs(got-math.Hypot(6.35, 1.4)) > 1e-12 || own.Size(at) != own.Common() {
		t.Errorf("the rest is known within %g, what was typed within %g", got, own.Size(at))
	}
}
