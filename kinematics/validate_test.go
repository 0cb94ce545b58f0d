package kinematics

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// broken are corners with one thing wrong each, by the words that must name it.
var broken = []struct {
	what  string
	spoil func(*Corner)
	point Point
	place string
	says  []string // in problem or value
}{
	{"coordinate too large", func(c *Corner) { c.Lower.Ball.Z = 18000 }, LowerBall, "lower ball joint", []string{"z is not within ±10 m", "18000 mm"}},
	{"coordinate no number", func(c *Corner) { c.TieRod.OuterEnd.X = math.NaN() }, OuterEnd, "outer tie-rod end", []string{"x is not within", "NaN"}},
	{"coordinate infinite", func(c *Corner) { c.Upper.Rear.Y = math.Inf(-1) }, UpperRear, "upper arm rear pivot", []string{"y is not within", "-Inf"}},
	{"offset too large", func(c *Corner) { c.Wheel.Offset = -10500 }, HubFace, "wheel offset", []string{"-10500 mm"}},
	{"spacer no number", func(c *Corner) { c.Wheel.Spacer = math.NaN() }, HubFace, "wheel spacer", []string{"NaN"}},
	{"radius infinite", func(c *Corner) { c.Wheel.LoadedRadius = math.Inf(1) }, HubFace, "loaded radius", []string{"+Inf"}},
	{"radius zero", func(c *Corner) { c.Wheel.LoadedRadius = 0 }, HubFace, "loaded radius", []string{"must be above zero", "0 mm"}},
	{"radius negative", func(c *Corner) { c.Wheel.LoadedRadius = -310 }, HubFace, "loaded radius", []string{"must be above zero", "-310 mm"}},
	{"camber too large", func(c *Corner) { c.Camber = rad(-46) }, HubFace, "camber at rest", []string{"±45 degrees", "-46 degrees"}},
	{"toe no number", func(c *Corner) { c.Toe = math.NaN() }, HubFace, "toe at rest", []string{"NaN"}},
	{"upper pivots in one place", func(c *Corner) { c.Upper.Rear = r3.Add(c.Upper.Front, Vec{X: 0.3}) }, UpperFront, "upper arm, front and rear pivot", []string{"in one place", "0.3 mm apart"}},
	{"lower pivots in one place", func(c *Corner) { c.Lower.Rear = c.Lower.Front }, LowerFront, "lower arm, front and rear pivot", []string{"in one place", "0 mm apart"}},
	{"upper ball joint on its axis", func(c *Corner) {
		c.Upper.Ball = r3.Add(r3.Scale(0.3, c.Upper.Front), r3.Scale(0.7, c.Upper.Rear))
	}, UpperBall, "upper arm", []string{"too short to reach"}},
	{"lower ball joint on a flat arm's pivot", func(c *Corner) {
		c.Lower.Flat, c.Lower.Front = true, r3.Add(c.Lower.Ball, Vec{X: 211, Z: 0.4})
	}, LowerBall, "lower arm", []string{"too short to reach", "0.4 mm"}},
	{"ball joints in one place", func(c *Corner) { c.Upper.Ball = r3.Add(c.Lower.Ball, Vec{Z: 0.2}) }, UpperBall, "upper and lower ball joint", []string{"in one place", "0.2 mm apart"}},
	{"ball joints exchanged", func(c *Corner) { c.Upper.Ball, c.Lower.Ball = c.Lower.Ball, c.Upper.Ball }, UpperBall, "upper and lower ball joint", []string{"not above", "180", "455"}},
	{"no steering arm", func(c *Corner) {
		c.TieRod.OuterEnd = r3.Add(r3.Scale(0.8, c.Lower.Ball), r3.Scale(0.2, c.Upper.Ball))
	}, OuterEnd, "outer tie-rod end", []string{"no steering arm"}},
	{"rack end on the steering axis", func(c *Corner) {
		c.TieRod.RackEnd = r3.Sub(r3.Scale(1.3, c.Lower.Ball), r3.Scale(0.3, c.Upper.Ball))
	}, RackEnd, "rack end", []string{"cannot steer"}},
	{"lower ball joint on the upper arm's axis", func(c *Corner) {
		c.Lower.Ball = r3.Add(r3.Add(r3.Scale(3, c.Upper.Front), r3.Scale(-2, c.Upper.Rear)), Vec{Z: 0.4})
		c.Upper.Ball.Z = c.Lower.Ball.Z + 90
	}, LowerBall, "lower ball joint", []string{"upper arm's pivot axis", "0.4 mm"}},
	{"tie rod without length", func(c *Corner) { c.TieRod.RackEnd = r3.Add(c.TieRod.OuterEnd, Vec{Y: -0.7}) }, OuterEnd, "tie rod", []string{"in one place", "0.7 mm apart"}},
	{"steering axis along the spin axis", func(c *Corner) {
		c.Upper.Ball = r3.Add(c.Lower.Ball, r3.Scale(-160, spinAxis(rad(44), 0)))
		c.Camber, c.Upper.Ball.Z = rad(44), c.Lower.Ball.Z+160*math.Sin(rad(44))
	}, UpperBall, "ball joints and hub", []string{"along the wheel's spin axis"}},
	{"spring without length", func(c *Corner) { c.Spring.Body = c.Spring.Moving }, SpringMoving, "spring", []string{"in one place"}},
	{"spring end no number", func(c *Corner) { c.Spring.Body.Z = math.NaN() }, SpringBody, "spring body end", []string{"z is not within"}},
	{"lower arm on its dead point", func(c *Corner) {
		*c = equalArms(0)
		c.Lower.Front = Vec{Y: c.Lower.Ball.Y, Z: c.Lower.Ball.Z - 170}
		c.Upper.Front = Vec{Y: c.Upper.Ball.Y, Z: c.Upper.Ball.Z - 170}
		c.TieRod.RackEnd = r3.Add(c.TieRod.OuterEnd, Vec{Z: -170})
	}, LowerBall, "lower arm", []string{"dead point", "per radian"}},
}

// TestGeometryErrors: each thing that can be wrong is named, with the point,
// the part, what was found and a cure, and New refuses it with the same words.
func TestGeometryErrors(t *testing.T) {
	for _, b := range broken {
		t.Run(b.what, func(t *testing.T) {
			c := caseB()
			b.spoil(&c)
			err := c.Validate()
			var found *GeometryError
			for _, e := range parts(err) {
				if g, ok := e.(*GeometryError); ok && g.Place == b.place && g.Point == b.point {
					found = g
				}
			}
			if found == nil || !errors.Is(err, ErrGeometry) || errors.Is(err, ErrUnreachable) {
				t.Fatalf("Validate: %v", err)
			}
			for _, words := range b.says {
				if !strings.Contains(found.Error(), words) {
					t.Errorf("%q does not say %q", found, words)
				}
			}
			if found.Cure == "" || strings.Contains(found.Error(), "\n") {
				t.Errorf("error %q", found)
			}
			m, again := New(&c)
			if again == nil || again.Error() != err.Error() || m != (Mechanism{}) {
				t.Errorf("New: %v\nValidate: %v", again, err)
			}
		})
	}
}

// parts returns what errors.Join joined.
func parts(err error) []error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		return j.Unwrap()
	}
	return nil
}

// TestGeometryErrorsTogether: all problems of a corner come in one answer.
func TestGeometryErrorsTogether(t *testing.T) {
	c := caseB()
	c.Lower.Rear = c.Lower.Front
	c.TieRod.RackEnd = c.TieRod.OuterEnd
	c.Wheel.LoadedRadius = -3
	c.Spring.Body = c.Spring.Moving
	if err := c.Validate(); len(parts(err)) != 4 {
		t.Errorf("4 problems, reported:\n%v", err)
	}
	c.Upper.Ball.X, c.Toe, c.Wheel.Spacer = math.NaN(), 3, 1e6
	if err := c.Validate(); len(parts(err)) != 3 {
		t.Errorf("3 wild numbers, reported:\n%v", err)
	}
}

// TestNewAcceptsWhatValidateAccepts: for sound corners, spoilt ones, and ones
// right on a limit.
func TestNewAcceptsWhatValidateAccepts(t *testing.T) {
	r := seeded(t, 121)
	accepted, refused := 0, 0
	agree := func(c Corner) {
		t.Helper()
		want := c.Validate()
		_, err := New(&c)
		if (err == nil) != (want == nil) || err != nil && err.Error() != want.Error() {
			t.Fatalf("New: %v\nValidate: %v\n%+v", err, want, c)
		}
		if err == nil {
			accepted++
		} else {
			refused++
		}
	}
	for range 3000 {
		c := randomCorner(r)
		for range r.IntN(3) {
			if s := broken[r.IntN(len(broken))].spoil; r.IntN(2) == 0 {
				s(&c)
			}
		}
		agree(c)
		agree(onLimit(r.IntN(7), 1+float64(r.IntN(9)-4)*0x1p-52, randomCorner(r)))
	}
	t.Logf("%d accepted, %d refused", accepted, refused)
	if min(accepted, refused) < 1000 {
		t.Error("too few of one kind")
	}
}

// onLimit puts one part of a corner, times k, on a limit of Validate.
func onLimit(which int, k float64, c Corner) Corner {
	span := MinSpan * k
	off := func(p, on, along Vec) Vec { // p brought within span of the line
		foot := r3.Add(on, r3.Scale(r3.Dot(r3.Sub(p, on), along)/r3.Dot(along, along), along))
		return r3.Add(foot, r3.Scale(span, r3.Unit(r3.Sub(p, foot))))
	}
	toward := func(p, from Vec) Vec { return r3.Add(from, r3.Scale(span, r3.Unit(r3.Sub(p, from)))) }
	axis := r3.Sub(c.Upper.Ball, c.Lower.Ball)
	switch which {
	case 0:
		on, along := c.Upper.axis()
		c.Upper.Ball = off(c.Upper.Ball, on, along)
	case 1:
		c.TieRod.OuterEnd = off(c.TieRod.OuterEnd, c.Lower.Ball, axis)
	case 2:
		c.TieRod.RackEnd = off(c.TieRod.RackEnd, c.Lower.Ball, axis)
	case 3:
		c.TieRod.RackEnd = toward(c.TieRod.RackEnd, c.TieRod.OuterEnd)
	case 4:
		c.Lower.Rear = toward(c.Lower.Rear, c.Lower.Front)
	case 5:
		c.Wheel.LoadedRadius = span
	case 6:
		on, along := c.Upper.axis()
		c.Lower.Ball = off(c.Lower.Ball, on, along)
	}
	return c
}

// TestRearPivotOfFlatArm: what a flat arm does not use is not looked at.
func TestRearPivotOfFlatArm(t *testing.T) {
	c := caseA()
	c.Lower.Rear = Vec{X: math.NaN(), Y: math.Inf(1), Z: 1e30}
	c.Lower.Front.X = 4321
	c.Spring.Moving.X = math.NaN() // no spring
	if err := c.Validate(); err != nil {
		t.Error(err)
	}
	near(t, "camber", deg(reading(t, c, 60, Camber)), -1.88883194, 1e-7)
}

func reading(t *testing.T, c Corner, travel float64, q Quantity) float64 {
	t.Helper()
	r := mustRead(t, mustNew(t, c), travel, 0)
	return value(t, &r, q)
}

// TestPoints: names, places and coordinates of the points of a corner.
func TestPoints(t *testing.T) {
	long, flat := caseB(), caseA()
	if n := len(long.Points()); n != 11 {
		t.Errorf("%d points of the long form with a spring", n)
	}
	if n := len(flat.Points()); n != 7 {
		t.Errorf("%d points of the flat form without a spring", n)
	}
	if n, want := len(long.Coordinates()), 33; n != want {
		t.Errorf("%d coordinates, want %d", n, want)
	}
	if n, want := len(flat.Coordinates()), 7*3-2; n != want {
		t.Errorf("%d coordinates, want %d: the x of flat pivots does not count", n, want)
	}
	names := map[string]bool{}
	for p := range pointCount {
		names[long.NameOf(p)] = true
		*long.At(p) = Vec{X: float64(p) + 0.25}
	}
	for p := range pointCount {
		if long.At(p).X != float64(p)+0.25 {
			t.Errorf("%v shares its place with another point", p)
		}
	}
	if len(names) != int(pointCount) {
		t.Errorf("names %v", names)
	}
	if s := flat.NameOf(LowerFront); s != "lower arm pivot" {
		t.Errorf("the pivot of a flat arm is called %q", s)
	}
	// The points on the body stay when the wheel travels; the others move.
	c := caseB()
	m := mustNew(t, c)
	p := mustAt(t, m, 30, 0)
	for point, at := range map[Point]Vec{UpperBall: p.UpperBall, LowerBall: p.LowerBall, OuterEnd: p.OuterEnd,
		HubFace: p.Hub, SpringMoving: p.SpringMoving, SpringBody: p.SpringBody, RackEnd: p.RackEnd} {
		if moved := at != *c.At(point); moved == point.OnBody() {
			t.Errorf("%v moves: %v", point, moved)
		}
	}
}

// TestShift moves one coordinate and nothing else.
func TestShift(t *testing.T) {
	c := caseB()
	for _, at := range c.Coordinates() {
		moved := c
		moved.Shift(at, 7.25)
		back := moved
		back.Shift(at, -7.25)
		if moved == c || back != c {
			t.Errorf("shift of %v axis %d", at.Point, at.Axis)
		}
	}
}

// TestCallerBugsPanic: what cannot come from a file is a caller's bug.
func TestCallerBugsPanic(t *testing.T) {
	c := caseB()
	carrier := c
	carrier.Spring.Carrier = OnUpright + 1
	for what, f := range map[string]func(){
		"point name": func() { _ = pointCount.String() },
		"point":      func() { c.At(pointCount) },
		"axis":       func() { c.Shift(Coordinate{RackEnd, 3}, 1) },
		"quantity":   func() { _ = QuantityCount.String() },
		"carrier":    func() { _, _ = New(&carrier) },
	} {
		func() {
			defer func() {
				if s, _ := recover().(string); !strings.HasPrefix(s, "kinematics: ") {
					t.Errorf("%s: panics with %q", what, s)
				}
			}()
			f()
		}()
	}
}

// TestQuantityKeys: every quantity has a name in files that no other has.
func TestQuantityKeys(t *testing.T) {
	keys := map[string]bool{}
	for q := range QuantityCount {
		if key := q.String(); key == "" || keys[key] || strings.ToLower(key) != key {
			t.Errorf("%d: %q", uint8(q), key)
		}
		keys[q.String()] = true
	}
}

// TestGeometryValuesAreShort: a number that the hand dragged has 17 digits, and
// none of them is worth more than the first five.
func TestGeometryValuesAreShort(t *testing.T) {
	seen := 0
	for _, spoil := range []func(c *Corner){
		func(c *Corner) { c.Wheel.LoadedRadius = 0.123456789012345 },
		func(c *Corner) { c.Wheel.LoadedRadius = 12345.678901234 },
		func(c *Corner) { c.Wheel.Spacer = -34567.8901234567 },
		func(c *Corner) { c.Lower.Ball.Y = 12345.6789012345 },
		func(c *Corner) { c.Camber = 1.23456789012345 },
		func(c *Corner) { c.Upper.Ball.Z = c.Lower.Ball.Z - 12.3456789012345 },
	} {
		c := caseB()
		spoil(&c)
		for _, e := range parts(c.Validate()) {
			var g *GeometryError
			if !errors.As(e, &g) {
				t.Fatalf("%v", e)
			}
			for _, word := range strings.Fields(g.Value) {
				if digits := strings.Trim(word, "-"); len(strings.ReplaceAll(digits, ".", "")) > 6 && digits[0] <= '9' {
					t.Errorf("%s: %q", g.Place, g.Value)
				}
				seen++
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d words looked at", seen)
	}
}
