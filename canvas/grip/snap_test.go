package grip

import (
	"math"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

func TestSnapToTheGridOfRestingCoordinates(t *testing.T) {
	c := twoBushings()
	for _, travel := range []float64{0, 47} {
		d := begin(t, c, point(kinematics.LowerBall), job(travel, 0))
		r := d.To(by(d, -4.4, -47.3))
		v := r.Corner.Lower.Ball
		if v.Y != math.Trunc(v.Y) || v.Z != math.Trunc(v.Z) || r.At.Sub(d.From().Add(draw.Point{X: -4.4, Y: -47.3})).Len() > 1 {
			t.Errorf("at travel %v: %v, seen at %v", travel, v, r.At)
		}
		f := d.To(free(by(d, -4.4, -47.3)))
		if v := f.Corner.Lower.Ball; v.Y == math.Trunc(v.Y) || v.Z == math.Trunc(v.Z) {
			t.Errorf("at travel %v without snapping: %v", travel, v)
		}
		// Magnified, the grid takes hold only near its lines.
		hand := by(d, -4.4, -47.3)
		hand.Zoom = 200
		if v := d.To(hand).Corner.Lower.Ball; v.Y == math.Trunc(v.Y) {
			t.Errorf("at travel %v a line %v points away took hold: %v", travel, 200*0.4, v)
		}
	}
}

// A wheel is on the grid by its spacer, and once that is gone by its offset, be
// the spacer on the grid or not.
func TestTheWheelSnapsByWhatMoves(t *testing.T) {
	for _, row := range []struct{ was, dy, spacer, offset float64 }{
		{12.4, 3.2, 16, 35.3}, {12.4, -3.1, 9, 35.3}, {12.4, -12.3, 0, 35.3}, {12.4, -17.2, 0, 40},
		{-2.4, -4.1, -2.4, 39}, {-2.4, 4.6, 2, 35.3}, {-2.4, 1.3, -1, 35.3},
	} {
		c := twoBushings()
		c.Wheel.Spacer, c.Wheel.Offset = row.was, 35.3
		d := begin(t, c, scene.WheelOutline, job(0, 0))
		r := d.To(by(d, row.dy, 0))
		if got := r.Corner.Wheel; !near(got.Spacer, row.spacer, 1e-9) || !near(got.Offset, row.offset, 1e-9) {
			t.Errorf("spacer %v pulled by %v: spacer %v, offset %v; want %v, %v", row.was, row.dy, got.Spacer, got.Offset, row.spacer, row.offset)
		}
		if least := min(0, row.was); d.gridded(least) != math.Round(least) { // just there the spacer is what moves
			t.Errorf("spacer %v: the grid takes %v to %v", row.was, least, d.gridded(least))
		}
	}
}

func TestSnapInThirtySeconds(t *testing.T) {
	c := twoBushings()
	j := job(0, 0)
	j.Step = 25.4 / 32
	d := begin(t, c, point(kinematics.SpringBody), j)
	v := d.To(by(d, 3.1, 7.7)).Corner.Spring.Body
	for _, x := range []float64{v.Y, v.Z} {
		if n := x / 25.4 * 32; !near(n, math.Round(n), 1e-9) {
			t.Errorf("%v mm is %v thirty-seconds", x, n)
		}
	}
}

func TestSnapToHeights(t *testing.T) {
	c := twoBushings()
	for _, row := range []struct {
		h      kinematics.Point
		travel float64
		to     draw.Point
		text   string
	}{
		{kinematics.OuterEnd, 0, draw.Point{X: 690, Y: 236 + 2.2}, "tie rod level"},
		{kinematics.RackEnd, 0, draw.Point{X: 321, Y: 229.2 - 2.2}, "tie rod level"},
		{kinematics.RackEnd, 0, draw.Point{X: 321, Y: 178 + 2.2}, "level with the lower ball joint"},
		{kinematics.UpperBall, 31, draw.Point{X: 640, Y: 603 - 1.1}, "level with the spring body end"},
	} {
		d := begin(t, c, point(row.h), job(row.travel, 0))
		r := d.To(Hand{At: row.to, Zoom: 1.3})
		if row.text == "" || r.Snapped != row.text || len(r.Guides) != 1 || !r.Guides[0].Level {
			t.Errorf("%s to %v: snapped %q, guides %v; want %q", row.h, row.to, r.Snapped, r.Guides, row.text)
			continue
		}
		if !near(r.At.Y, r.Guides[0].Z, 1e-6) {
			t.Errorf("%s: seen at %v, guide at %v", row.h, r.At.Y, r.Guides[0].Z)
		}
		if f := d.To(free(Hand{At: row.to, Zoom: 1.3})); f.Snapped != "" || len(f.Guides) != 0 || !near(f.At.Y, row.to.Y, 1e-6) {
			t.Errorf("%s: suspended, and yet %q at %v", row.h, f.Snapped, f.At)
		}
	}
	// The arm of two bushings is level when its ball joint is as high as the
	// pivot axis beside it: at x 9 between 191 at x 151 and 185 at x -172.
	d := begin(t, c, point(kinematics.LowerBall), job(0, 0))
	r := d.To(Hand{At: draw.Point{X: 700, Y: 188.5}, Zoom: 3})
	if want := 185 + 6*(9+172)/323.0; r.Snapped != "lower arm level" || !near(r.Corner.Lower.Ball.Z, want, 1e-9) {
		t.Errorf("%q at %v, want %v", r.Snapped, r.Corner.Lower.Ball.Z, want)
	}
}

func TestNudgesAreExact(t *testing.T) {
	c := twoBushings()
	for n, at := 0, c; n < 50; n++ {
		d := begin(t, at, point(kinematics.LowerBall), job(29, 0))
		at = d.By(0.1, -0.1).Corner
		if want := math.Round((691.3+0.1*float64(n+1))*10) / 10; at.Lower.Ball.Y != want {
			t.Fatalf("after %d nudges %v, want %v", n+1, at.Lower.Ball.Y, want)
		}
	}
	d := begin(t, c, scene.WheelOutline, job(0, 0))
	if w := d.By(-15, 8).Corner.Wheel; w.Spacer != 0 || w.Offset != 38 || w.LoadedRadius != 309 {
		t.Errorf("wheel nudged 15 mm in: %+v", w)
	}
	d = begin(t, c, scene.GroundLine, job(0, 0))
	if w := d.By(-15, 2).Corner.Wheel; w.LoadedRadius != 307 || w.Spacer != 12 {
		t.Errorf("ground nudged 2 mm up: %+v", w)
	}
}
