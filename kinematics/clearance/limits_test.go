package clearance

import (
	"math"
	"testing"

	"armscribe/kinematics"
)

func above(x float64) float64 { return math.Nextafter(x, math.Inf(1)) }
func below(x float64) float64 { return math.Nextafter(x, math.Inf(-1)) }

// Every limit of an obstacle is itself allowed, and the next number is not.
func TestObstaclesAtTheirLimits(t *testing.T) {
	const most, least = kinematics.MaxLength, kinematics.MinSpan
	c := ahead()
	line := Obstacle{Name: "rail", Shape: Line, A: Vec{X: 310, Y: 480, Z: 277}, B: Vec{X: -20, Y: 500, Z: 300}}
	ring := Obstacle{Name: "hoop", Shape: Circle, A: Vec{Y: 480}, B: Vec{X: 1}, Radius: 200}
	arc := Obstacle{Name: "lip", Shape: Arc, A: Vec{X: 356, Y: 872, Z: 352}, B: Vec{X: -356, Y: 872, Z: 352}, C: Vec{Y: 872, Z: 708}}
	for _, row := range []struct {
		of       Obstacle
		in, past func(*Obstacle)
	}{
		{line, func(o *Obstacle) { o.A.X = most }, func(o *Obstacle) { o.A.X = above(most) }},
		{line, func(o *Obstacle) { o.A.Y = -most }, func(o *Obstacle) { o.A.Y = below(-most) }},
		{line, func(o *Obstacle) { o.A.Z = most }, func(o *Obstacle) { o.A.Z = above(most) }},
		{line, func(o *Obstacle) { o.B.Y = most }, func(o *Obstacle) { o.B.Y = above(most) }},
		{arc, func(o *Obstacle) {}, func(o *Obstacle) { o.C.Z = below(-most) }},
		{line, func(o *Obstacle) { o.Wish = 0 }, func(o *Obstacle) { o.Wish = below(0) }},
		{line, func(o *Obstacle) { o.Wish = maxWish }, func(o *Obstacle) { o.Wish = above(maxWish) }},
		{line, func(o *Obstacle) { o.Thick = 0 }, func(o *Obstacle) { o.Thick = below(0) }},
		{line, func(o *Obstacle) { o.Thick = maxWish }, func(o *Obstacle) { o.Thick = above(maxWish) }},
		{line, func(o *Obstacle) { o.A, o.B = Vec{Y: 700}, Vec{X: least, Y: 700} }, func(o *Obstacle) { o.B.X = below(least) }},
		{ring, func(o *Obstacle) { o.Radius = least }, func(o *Obstacle) { o.Radius = below(least) }},
		{ring, func(o *Obstacle) { o.Radius = most }, func(o *Obstacle) { o.Radius = above(most) }},
		{ring, func(o *Obstacle) { o.B = Vec{Z: 1e-9} }, func(o *Obstacle) { o.B = Vec{} }},
	} {
		o := row.of
		if row.in(&o); len(o.check(0, &c, true)) > 0 {
			t.Errorf("%+v: %v", o, o.check(0, &c, true))
		}
		if row.past(&o); len(o.check(0, &c, true)) != 1 {
			t.Errorf("%+v: %v", o, o.check(0, &c, true))
		}
	}
	// A point has no other places, a line no third: what stands there does not count.
	o := line
	o.C = Vec{X: 2 * most}
	if len(o.check(0, &c, true)) > 0 {
		t.Errorf("the third place of a line counts: %v", o.check(0, &c, true))
	}
	o.Shape, o.B = Point, o.C
	if len(o.check(0, &c, true)) > 0 {
		t.Errorf("the second place of a point counts: %v", o.check(0, &c, true))
	}
}

// Likewise of a tyre, whose limits follow from each other.
func TestTyresAtTheirLimits(t *testing.T) {
	for _, row := range []struct {
		of   Tyre
		past func(*Tyre)
	}{
		{Tyre{Radius: 20, Section: 40, Tread: 10, Shoulder: 5}, func(t *Tyre) { t.Radius = below(20) }},
		{Tyre{Radius: 1000, Section: 400, Tread: 100, Shoulder: 50}, func(t *Tyre) { t.Radius = above(1000) }},
		{Tyre{Radius: 300, Section: 10, Tread: 0, Shoulder: 5}, func(t *Tyre) { t.Section = below(10) }},
		{Tyre{Radius: 300, Section: 2000, Tread: 100, Shoulder: 50}, func(t *Tyre) { t.Section = above(2000) }},
		{Tyre{Radius: 300, Section: 200, Tread: 0, Shoulder: 50}, func(t *Tyre) { t.Tread = below(0) }},
		{Tyre{Radius: 300, Section: 200, Tread: 190, Shoulder: 5}, func(t *Tyre) { t.Tread = above(190) }},
		{Tyre{Radius: 300, Section: 200, Tread: 110, Shoulder: 45}, func(t *Tyre) { t.Shoulder = above(45) }},
		{Tyre{Radius: 300, Section: 700, Tread: 110, Shoulder: 150}, func(t *Tyre) { t.Shoulder = above(150) }},
		{Tyre{Radius: 300, Section: 200, Tread: 110, Shoulder: 5}, func(t *Tyre) { t.Shoulder = below(5) }},
		{Tyre{Radius: 300, Section: 200, Tread: 110, Shoulder: 25, Widest: 275}, func(t *Tyre) { t.Widest = above(275) }},
		{Tyre{Radius: 300, Section: 200, Tread: 110, Shoulder: 25, Widest: 0}, func(t *Tyre) { t.Widest = below(0) }},
	} {
		tyre := row.of
		if err := tyre.Validate(); err != nil {
			t.Errorf("%+v: %v", tyre, err)
		}
		if row.past(&tyre); tyre.Validate() == nil {
			t.Errorf("%+v is taken", tyre)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a turn without a wheelbase")
		}
	}()
	_, _, _ = turnAt(nil, 10, 0)
}

// Likewise of a rim in its tyre, and of a gap that is just as wished.
func TestRingsAtTheirLimits(t *testing.T) {
	tyre := Tyre{Radius: 300, Section: 200, Tread: 110, Shoulder: 25}
	for _, row := range []struct {
		of   Ring
		past func(*Ring)
	}{
		{Ring{Seat: 550, Barrel: 400, Overall: 220}, func(r *Ring) { r.Seat = above(550) }},
		{Ring{Seat: 10, Barrel: 7, Overall: 220}, func(r *Ring) { r.Seat = below(10) }},
		{Ring{Seat: 457, Barrel: 457, Overall: 220}, func(r *Ring) { r.Barrel = above(457) }},
		{Ring{Seat: 457, Barrel: 5, Overall: 220}, func(r *Ring) { r.Barrel = below(5) }},
		{Ring{Seat: 457, Barrel: 400, Overall: 5}, func(r *Ring) { r.Overall = below(5) }},
		{Ring{Seat: 457, Barrel: 400, Overall: 2000}, func(r *Ring) { r.Overall = above(2000) }},
	} {
		ring := row.of
		if err := ring.Validate(tyre); err != nil {
			t.Errorf("%+v: %v", ring, err)
		}
		if row.past(&ring); ring.Validate(tyre) == nil {
			t.Errorf("%+v is taken", ring)
		}
	}
	for gap, keeps := range map[float64]bool{8: true, below(8): false} {
		if a := (Answer{Gap: gap, Wish: 8}); a.Keeps() != keeps {
			t.Errorf("a gap of %v where 8 is wished: keeps %v", gap, a.Keeps())
		}
	}
	for rest, inside := range map[float64]bool{0: false, below(0): true} {
		if a := (Answer{Rest: rest}); (a.Err() != nil) != inside {
			t.Errorf("%v at rest: %v", rest, a.Err())
		}
	}
}
