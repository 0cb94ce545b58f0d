package grip

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

var stances = []Stance{{}, {Travel: 47}, {Travel: -51, Rack: 7}, {Rack: -13}, {Roll: 0.031}, {Roll: -0.052, Rack: 4}}

func TestTheHandleStandsUnderThePointer(t *testing.T) {
	for name, c := range map[string]kinematics.Corner{"two bushings": twoBushings(), "one pivot": onePivot()} {
		for _, at := range stances {
			for _, h := range Handles(&c) {
				j := job(0, 0)
				j.Stance = at
				d := begin(t, c, h, j)
				dy, dz := 4.37, -3.21
				_, free2 := movedBy(&c, h)
				hand := free(by(d, dy, dz))
				r := d.To(hand)
				what := fmt.Sprintf("%s, %s at %+v", name, NameOf(&c, h), at)
				if r.AtEdge {
					t.Errorf("%s: stopped: %s", what, r.Message)
					continue
				}
				p := seen(t, r.Corner, h, at)
				if free2[0] && !near(p.X, hand.At.X, 1e-6) || free2[1] && !near(p.Y, hand.At.Y, 1e-6) {
					t.Errorf("%s: seen at %v, pointer at %v", what, p, hand.At)
				}
				if p != r.At {
					t.Errorf("%s: says %v, is seen at %v", what, r.At, p)
				}
			}
		}
	}
}

// Only what belongs to the handle may change, and x never.
func TestADragLeavesTheRestAlone(t *testing.T) {
	c := onePivot()
	belongs := map[scene.Handle]PointSet{
		scene.UprightBody: setOf(kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd,
			kinematics.HubFace, kinematics.SpringMoving),
		scene.WheelOutline: 0, scene.GroundLine: 0,
	}
	for _, h := range Handles(&c) {
		d := begin(t, c, h, job(33, 0))
		got := d.To(free(by(d, 5.5, 6.5))).Corner
		if got == c {
			t.Errorf("%s: nothing moved", NameOf(&c, h))
		}
		moves := belongs[h]
		if p, ok := h.Point(); ok {
			moves = setOf(p)
		}
		for _, p := range c.Points() {
			was, is := *c.At(p), *got.At(p)
			if was.X != is.X || !moves.Has(p) && was != is || moves.Has(p) && was == is {
				t.Errorf("%s: %s went from %v to %v", NameOf(&c, h), p, was, is)
			}
		}
		was, is := c.Wheel, got.Wheel
		if h == scene.WheelOutline != (was.Spacer != is.Spacer) || h == scene.GroundLine != (was.LoadedRadius != is.LoadedRadius) || was.Offset != is.Offset {
			t.Errorf("%s: wheel went from %+v to %+v", NameOf(&c, h), was, is)
		}
	}
}

func TestTheUprightKeepsItsShape(t *testing.T) {
	c := twoBushings()
	d := begin(t, c, scene.UprightBody, job(0, 0))
	r := d.To(by(d, 24.6, -2.8))
	for _, p := range []kinematics.Point{kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd, kinematics.HubFace} {
		was, is := c.At(p), r.Corner.At(p)
		if !near(is.Y-was.Y, 25, 1e-9) || !near(is.Z-was.Z, -3, 1e-9) {
			t.Errorf("%s went by %v, %v; want 25, -3 on the grid", p, is.Y-was.Y, is.Z-was.Z)
		}
	}
	if r.Corner.Spring.Moving != c.Spring.Moving {
		t.Error("a spring end on the arm went with the upright")
	}
}

func TestTheWheelTakesSpacerBeforeOffset(t *testing.T) {
	c := twoBushings() // spacer 12, offset 35
	for _, row := range []struct{ dy, spacer, offset float64 }{
		{7.3, 19, 35}, {-5.2, 7, 35}, {-12, 0, 35}, {-19.8, 0, 43}, {0.2, 12, 35},
	} {
		d := begin(t, c, scene.WheelOutline, job(0, 0))
		r := d.To(by(d, row.dy, 11))
		if r.Corner.Wheel.Spacer != row.spacer || r.Corner.Wheel.Offset != row.offset {
			t.Errorf("pulled by %v: spacer %v, offset %v; want %v, %v", row.dy, r.Corner.Wheel.Spacer, r.Corner.Wheel.Offset, row.spacer, row.offset)
		}
	}
	d := begin(t, c, scene.WheelOutline, job(0, 0))
	r := d.To(by(d, -19.8, 0))
	if note := strings.Join(d.Note(&r), "; "); note != "spacer 0 mm, offset 43 mm; spacer −12 mm, offset +8 mm" {
		t.Errorf("note %q", note)
	}
}

func TestTheAnswerDependsOnThePlaceOnly(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 71))
	c := twoBushings()
	for _, h := range Handles(&c) {
		d := begin(t, c, h, job(38, -5))
		end := by(d, 17.7, 9.1)
		want := d.To(end)
		for range 5 {
			detour := begin(t, c, h, job(38, -5))
			for range 9 {
				detour.To(by(detour, rng.NormFloat64()*400, rng.NormFloat64()*400))
			}
			if got := detour.To(end); got.Corner != want.Corner || got.At != want.At {
				t.Fatalf("%s: another corner after a detour", NameOf(&c, h))
			}
		}
		if back := d.To(by(d, 0, 0)); back.Corner != c {
			t.Errorf("%s: the start does not come back at the starting place", NameOf(&c, h))
		}
	}
}

func TestAnUnreachablePlaceStopsAtTheEdge(t *testing.T) {
	for _, row := range []struct {
		h            kinematics.Point
		dy, dz       float64
		travel, rack float64
		says         string
	}{
		{kinematics.UpperFront, 300, 7, 66, 0, "upper arm is "},
		{kinematics.UpperRear, 7, 300, -60, 20, "upper arm is "},
		{kinematics.OuterEnd, -300, 7, 66, 0, "tie rod is "},
		{kinematics.LowerBall, 4, 200, -60, 20, "tie rod is "},
		{kinematics.UpperBall, 7, -300, 0, 0, "not above the lower one"},
	} {
		c := onePivot()
		if row.h == kinematics.UpperRear {
			c = twoBushings()
		}
		d := begin(t, c, point(row.h), job(row.travel, row.rack))
		hand := free(by(d, row.dy, row.dz))
		r := d.To(hand)
		if !r.AtEdge {
			t.Errorf("%s: %v does not stop", row.h, hand.At)
			continue
		}
		if !strings.HasPrefix(r.Message, "Stops at the edge: ") || !strings.Contains(r.Message, row.says) || !strings.Contains(r.Message, "mm") {
			t.Errorf("%s: message %q, want %q and millimetres", row.h, r.Message, row.says)
		}
		p := seen(t, r.Corner, point(row.h), Stance{Travel: row.travel, Rack: row.rack}) // solves, or fails the test
		way := hand.At.Sub(d.From())
		u := way.Mul(1 / way.Len())
		along := p.Sub(d.From())
		if off := math.Abs(along.X*u.Y - along.Y*u.X); off > 1e-6 {
			t.Errorf("%s: %v mm off the straight line to the pointer", row.h, off)
		}
		beyond := p.Add(u.Mul(2 * edgeTolerance))
		if q, err := d.seek(spot{d.q0, d.from}, beyond, &bound{free: [2]bool{true, true}}); err == nil {
			t.Errorf("%s: a hair beyond the edge, %v, it still assembles", row.h, q)
		}
	}
}

// How much is short is told for the pointer, so it grows as the hand pulls on.
func TestTheMessageTellsHowMuchIsShort(t *testing.T) {
	c := onePivot()
	d := begin(t, c, point(kinematics.LowerBall), job(-60, 20))
	last := 0.0
	for _, dz := range []float64{190, 200, 210} {
		r := d.To(free(by(d, 4, dz)))
		var mm float64
		at := strings.Index(r.Message, "the tie rod is ")
		if at < 0 {
			t.Fatalf("at %v: message %q", dz, r.Message)
		}
		if _, err := fmt.Sscanf(r.Message[at:], "the tie rod is %f mm too long", &mm); err != nil {
			t.Fatalf("message %q: %v", r.Message, err)
		}
		if mm < last+0.5 {
			t.Errorf("at %v: %v mm, before %v", dz, mm, last)
		}
		last = mm
	}
}

func TestALostTravelIsSaid(t *testing.T) {
	c := onePivot()
	for dy := 20.0; dy < 300; dy += 20 {
		d := begin(t, c, point(kinematics.UpperFront), job(0, 0))
		r := d.To(free(by(d, dy, 0)))
		m, err := kinematics.New(&r.Corner)
		if err != nil {
			t.Fatal(err)
		}
		_, down := m.At(-63, 0)
		_, up := m.At(71, 0)
		if (errors.Join(down, up) != nil) != (r.Message != "") {
			t.Fatalf("by %v: %v, %v, but message %q", dy, down, up, r.Message)
		}
		if r.Message != "" {
			if !strings.Contains(r.Message, "is out of reach now") || !strings.Contains(r.Message, "arm") {
				t.Errorf("message %q", r.Message)
			}
			return
		}
	}
	t.Error("no pull lost any travel: the test shows nothing")
}

func TestNoHandMakesANaN(t *testing.T) {
	const seed = 90
	rng := rand.New(rand.NewPCG(seed, 5))
	c := twoBushings()
	for n := range 800 {
		at := stances[rng.IntN(len(stances))]
		j := job(0, 0)
		j.Stance = at
		j.Locks = Locks{UpperArm: rng.IntN(6) == 0, LowerArm: rng.IntN(6) == 0, TieRod: rng.IntN(6) == 0,
			Height: setOf(kinematics.Point(rng.IntN(11))), Side: setOf(kinematics.Point(rng.IntN(11)))}
		hs := Handles(&c)
		d := begin(t, c, hs[rng.IntN(len(hs))], j)
		far := math.Pow(10, rng.Float64()*5-1)
		hand := Hand{At: d.From().Add(draw.Point{X: rng.NormFloat64() * far, Y: rng.NormFloat64() * far}),
			Zoom: math.Pow(10, rng.Float64()*3-1), Free: rng.IntN(2) == 0, Axis: rng.IntN(4) == 0}
		r := d.To(hand)
		for _, at := range r.Corner.Coordinates() {
			v := *r.Corner.At(at.Point)
			if s := v.X + v.Y + v.Z; s-s != 0 {
				t.Fatalf("seed %d, %d: %s at %v", seed, n, at.Point, v)
			}
		}
		if s := r.At.X + r.At.Y; s-s != 0 {
			t.Fatalf("seed %d, %d: seen at %v", seed, n, r.At)
		}
		if p := seen(t, r.Corner, d.Handle(), at); p != r.At {
			t.Fatalf("seed %d, %d: seen at %v, told %v", seed, n, p, r.At)
		}
	}
}

func BenchmarkDrag(b *testing.B) {
	c := twoBushings()
	d, err := Begin(c, point(kinematics.OuterEnd), job(47, 0))
	if err != nil {
		b.Fatal(err)
	}
	hand := by(d, 3.3, 7.1)
	for b.Loop() {
		d.To(hand)
	}
}

func BenchmarkDragToTheEdge(b *testing.B) {
	c := onePivot()
	d, err := Begin(c, point(kinematics.UpperFront), job(66, 0))
	if err != nil {
		b.Fatal(err)
	}
	hand := by(d, 241, 10)
	for b.Loop() {
		d.To(hand)
	}
}
