package scene

import (
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/study"
)

func count(l *draw.List, roles ...draw.Role) (n int) {
	for i := range l.Items() {
		for _, r := range roles {
			if l.Items()[i].Role == r {
				n++
			}
		}
	}
	return n
}

// signs are the roles by which each overlay shows.
var signs = map[Overlays][]draw.Role{
	ArmLines:      {draw.ArmLine},
	RollCentre:    {draw.RollCentreLine, draw.RollCentre},
	ScrubAxis:     {draw.SteeringAxis},
	TieRodArcs:    {draw.TieRodArc, draw.FreePath, draw.LowerArmArc, draw.Loupe},
	TravelGhosts:  {draw.TravelGhost},
	BeforeOutline: {draw.Compared},
	OtherSide:     {draw.Mirrored},
}

func TestOverlaysSwitch(t *testing.T) {
	in := demoNamed(t, "longer")
	v := draw.View{Centre: draw.Point{X: 300, Y: 300}, Zoom: 0.5, W: 1000, H: 700}
	for overlay, roles := range signs {
		for _, r := range roles {
			in.Overlays = overlay
			if l, _ := build(t, v, in); count(l, r) == 0 {
				t.Errorf("overlay %b draws no %v", overlay, draw.HouseStyles()[r].Name)
			}
			in.Overlays = AllOverlays &^ overlay
			if l, _ := build(t, v, in); count(l, r) != 0 {
				t.Errorf("without overlay %b there is still %v", overlay, draw.HouseStyles()[r].Name)
			}
		}
	}
	in.Overlays = IdealRackEnd
	if l, _ := build(t, v, in); !says(l, "ideal rack end") {
		t.Error("no ideal rack end")
	}
	in.Overlays = ScrubAxis | RollCentre
	plain, _ := build(t, v, in)
	in.Overlays |= ErrorMarks
	marked, _ := build(t, v, in)
	if count(plain, draw.BandNow, draw.BandGood) != 0 || count(marked, draw.BandNow) != 1 || count(marked, draw.BandGood) != 1 {
		t.Error("the 95 % marks do not follow their switch")
	}
}

// What is lit shows, highlighted, even when its overlay is off.
func TestLit(t *testing.T) {
	in := demoNamed(t, "wide")
	in.Overlays = 0
	v := fitted(draw.View{W: 700, H: 800}, in)
	for _, lit := range []Overlays{ArmLines, RollCentre, ScrubAxis, TieRodArcs, CamberLine, SpringLine} {
		in.Lit = lit
		l, _ := build(t, v, in)
		for _, r := range signs[lit] {
			if count(l, r) == 0 {
				t.Errorf("%x lit draws no %v", lit, draw.HouseStyles()[r].Name)
			}
		}
		if count(l, draw.Highlight) == 0 {
			t.Errorf("%x: nothing stands out", lit)
		}
	}
	in.Lit = HalfTrackLine
	if l, _ := build(t, v, in); count(l, draw.Dimension) == 0 || !says(l, "half track 72") {
		t.Error("the half track is not dimensioned")
	}
}

// The bands drawn are those of the study.
func TestErrorMarks(t *testing.T) {
	in := demoNamed(t, "steep")
	l, out := build(t, fitted(draw.View{W: 1400, H: 900}, in), in)
	want := map[draw.Role]kinematics.Quantity{
		draw.BandNow: kinematics.ScrubRadius, draw.BandGood: kinematics.RollCentreHeight, draw.BandQuiet: kinematics.InstantCentreY,
	}
	for role, q := range want {
		half, ok := in.Now.Study.BandAt(q, out.Travel)
		if !ok {
			t.Fatal(q)
		}
		found := false
		for i := range l.Items() {
			it := &l.Items()[i]
			if it.Role != role {
				continue
			}
			found = true
			box := draw.EmptyBox()
			for _, p := range l.Corners(it) {
				box = box.With(p.At)
			}
			for _, p := range l.Corners(it) {
				off := []float64{p.At.X - box.Mid().X, p.At.Y - box.Mid().Y}
				if role != draw.BandQuiet && math.Abs(math.Abs(off[0])+math.Abs(off[1])-half) > 1e-9 {
					t.Errorf("%v: a corner of the mark stands off by %v, the band is ± %g", q, off, half)
				}
			}
			size := box.W()
			if role == draw.BandGood {
				size = box.H()
			}
			if d := size - 2*half; d > 1e-9 || d < -1e-9 {
				t.Errorf("%v: the mark is %g mm, the band ± %g", q, size, half)
			}
		}
		if !found {
			t.Errorf("%v: no mark", q)
		}
	}
	for _, c := range []struct {
		zoom   float64
		arrows int
	}{{1, 2}, {12, 0}} {
		in := demoNamed(t, "wide")
		_, rest := build(t, fitted(draw.View{W: 500, H: 500}, in), in)
		foot, _ := rest.Readings.Of(kinematics.RollCentreHeight)
		v := fitted(draw.View{W: 500, H: 500}, in)
		if c.zoom > 1 {
			v = draw.View{Centre: draw.Point{Y: rest.Ground + foot}, Zoom: c.zoom, W: 500, H: 500}
		}
		l, _ := build(t, v, in)
		found := 0
		for i := range l.Items() {
			if it := &l.Items()[i]; it.Role == draw.ArrowGood {
				found++
			}
		}
		if found != c.arrows {
			t.Errorf("zoomed %g times, %d arrows point at the error mark of the roll centre, not %d", c.zoom, found, c.arrows)
		}
	}
}

// The mirrored corner stands at mirrored places.
func TestOtherSideMirrors(t *testing.T) {
	in := demoNamed(t, "wide-bump")
	in.Overlays = AllOverlays
	l, out := build(t, draw.View{Centre: draw.Point{Y: 300}, Zoom: 0.4, W: 1000, H: 700}, in)
	rods := lines(l, draw.Mirrored)
	want := [2]draw.Point{front(-1, out.Left.RackEnd), front(-1, out.Left.OuterEnd)}
	found := false
	for _, e := range rods {
		found = found || apart(e[0], want[0]) < near && apart(e[1], want[1]) < near
	}
	if !found {
		t.Errorf("no tie rod at %v among %v", want, rods)
	}
}

// Handles show how they are: filled or hollow, held, focused, pointed at.
func TestMarks(t *testing.T) {
	in := demoNamed(t, "wide")
	v := fitted(draw.View{W: 700, H: 800}, in)
	plain, _ := build(t, v, in)
	if n := count(plain, draw.HandleFixed); n != 5 { // four bushings and the spring
		t.Errorf("%d hollow points", n)
	}
	if n := count(plain, draw.HandleMoving); n != 4 { // ball joints, hub, spring
		t.Errorf("%d filled points", n)
	}
	if count(plain, draw.HandleFixedNow) != 1 || count(plain, draw.HandleMovingNow) != 1 || count(plain, draw.HandleHeld, draw.Focus) != 0 {
		t.Error("the tie rod's ends, or rings without cause")
	}
	in.Held = []Handle{OfPoint(kinematics.UpperBall), OfPoint(kinematics.LowerRear)}
	in.Focus, in.Hover = GroundLine, UprightBody
	marked, _ := build(t, v, in)
	if count(marked, draw.HandleHeld) != 2 || count(marked, draw.Focus) != 1 {
		t.Error("rings are missing")
	}
	if count(marked, draw.HandleMoving) != 5 || count(marked, draw.HandleFixed) != 6 || count(marked, draw.Highlight) == 0 {
		t.Error("the bodies pointed at have no mark")
	}
}

// Whatever corner and view come along, every coordinate is finite: the list
// panics otherwise.
func TestAnyCornerAnyView(t *testing.T) {
	const seed = 3107
	r := rand.New(rand.NewPCG(seed, 5))
	var l draw.List
	var out Output
	drawn := 0
	for range 400 {
		c := wide()
		if r.IntN(2) == 0 {
			c = steep()
		}
		for _, at := range c.Coordinates() {
			c.Shift(at, r.NormFloat64()*60)
		}
		s := Subject{Study: new(study.Study), Section: wideSection}
		if r.IntN(5) == 0 {
			s.Section = Section{}
		}
		span := study.Span{Bump: 70, Droop: 60}
		if s.Study.Update(study.Case{Corner: c, Within: kinematics.Evenly(1), Span: span}, 0) != nil {
			continue // no mechanism
		}
		drawn++
		in := inputOf(s)
		in.Travel, in.Rack = r.NormFloat64()*50, r.NormFloat64()*20
		if r.IntN(2) == 0 {
			in.Roll = r.NormFloat64() * 4 * degree
		}
		in.Obstacles = anyObstacles(r)
		v := fitted(draw.View{W: 60 + r.Float64()*1500, H: 60 + r.Float64()*1000}, in)
		v = v.ZoomAbout(draw.Point{X: r.NormFloat64() * 500, Y: r.NormFloat64() * 500}, []float64{1, 0.05, 0.4, 3, 40}[r.IntN(5)])
		_ = Build(&l, v, in, &out) // out of reach is an answer too
		if len(out.Spots) < 9 || len(out.Tyre) < 3 {
			t.Errorf("seed %d: %d spots, %d corners of the tyre", seed, len(out.Spots), len(out.Tyre))
		}
		if _ = BuildPlan(&l, v, in, &out); len(out.Spots) < 5 {
			t.Errorf("seed %d: %d spots in plan", seed, len(out.Spots))
		}
	}
	if drawn < 200 {
		t.Errorf("seed %d: only %d of 400 corners were mechanisms", seed, drawn)
	}
}

// anyObstacles are some of every shape and carrier, sound or not.
func anyObstacles(r *rand.Rand) (list []Obstacle) {
	near := func(by float64) kinematics.Vec {
		return at(r.NormFloat64()*by, 560+r.NormFloat64()*by, 390+r.NormFloat64()*by)
	}
	for range r.IntN(7) {
		o := Obstacle{Obstacle: clearance.Obstacle{Name: "thing", A: near(300), B: near(300), Radius: 400 * r.Float64(), Wish: 11,
			Shape: clearance.Shape(r.IntN(3)), Carrier: clearance.Carrier(r.IntN(3))}, State: GapState(r.IntN(5)), Gap: r.NormFloat64() * 40, At: near(200)}
		o.HasGap = o.State != GapUnknown
		switch r.IntN(4) {
		case 0:
			o.Thick = 60 * r.Float64()
		case 1:
			o.B = kinematics.Vec{}
		case 2:
			o.B = at(0, 0, 1)
		}
		list = append(list, o)
	}
	return list
}

// A warm frame allocates next to nothing.
func TestWarmBuildKeepsItsMemory(t *testing.T) {
	for _, name := range []string{"longer", "roomy"} {
		in := demoNamed(t, name)
		v := fitted(draw.View{W: 700, H: 800}, in)
		for _, d := range drawings {
			var l draw.List
			var out Output
			n := testing.AllocsPerRun(20, func() {
				if err := d.draw(&l, v, in, &out); err != nil {
					t.Fatal(err)
				}
			})
			if n > 2 { // HeldPath returns its answer in new memory
				t.Errorf("%s, %s: %g allocations a frame", name, d.name, n)
			}
		}
	}
}

func TestMillimetres(t *testing.T) {
	for _, c := range []struct {
		mm, half float64
		want     string
	}{
		{32.21, 1.84, "32.2 ± 1.8 mm"},
		{69.6, 5.3, "70 ± 5 mm"},
		{-1932.7, 110.2, "−1\u2009930 ± 110 mm"},
		{0.6, 0.31, "0.6 ± 0.3 mm"},
		{12.345, 0, "12.3 mm"},
		{70, 0, "70 mm"},
		{-0.004, 0.2, "0.0 ± 0.2 mm"},
		{1234567.8, 0, "1\u2009234\u2009567.8 mm"},
		{5, 1e-9, "5.00 ± 0.00 mm"},
	} {
		if got := string(Millimetres(nil, c.mm, c.half)); got != c.want {
			t.Errorf("%g ± %g: %q, not %q", c.mm, c.half, got, c.want)
		}
	}
}

// All that a fitted window should show is in it, at rest and at both ends.
func TestFitHoldsTheWheel(t *testing.T) {
	for _, d := range demos(t) {
		if d.in.Rack != 0 && d.in.Roll == 0 {
			continue // steered, the tyre sweeps wider than at rest
		}
		in := *d.in
		for _, size := range sizes {
			v := fitted(size, &in)
			for _, travel := range []float64{in.Now.Study.From, 0, in.Now.Study.To} {
				in.Travel = travel
				_, out := build(t, v, &in)
				for _, p := range out.Tyre {
					if q := (draw.Point{X: -p.X, Y: p.Y}); in.Overlays&OtherSide != 0 && !v.Window().Has(v.Sheet(draw.On(q))) {
						t.Fatalf("%s at %.0f x %.0f: the other side leaves the window at %v", d.name, size.W, size.H, q)
					}
					if !v.Window().Has(v.Sheet(draw.On(p))) {
						t.Fatalf("%s at %.0f x %.0f, travel %g: the tyre leaves the window at %v", d.name, size.W, size.H, travel, p)
					}
				}
				if !v.Window().Has(v.Sheet(draw.At(0, out.Ground))) {
					t.Errorf("%s at %.0f x %.0f: no centre plane", d.name, size.W, size.H)
				}
			}
		}
	}
}
