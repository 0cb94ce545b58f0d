package draw

import (
	"math"
	"math/rand/v2"
	"testing"
)

func testView() View {
	return View{Centre: Point{412.5, 287.25}, Zoom: 0.73, W: 1403, H: 877}
}

// A view shows the world point in its middle at the middle, larger x further
// right and larger y further UP, which is a smaller number on the screen.
func TestViewAxes(t *testing.T) {
	v := testView()
	if s := v.ToScreen(Point{412.5, 287.25}); s != (Screen{701.5, 438.5}) {
		t.Errorf("middle at %v", s)
	}
	s := v.ToScreen(Point{422.5, 317.25})
	if math.Abs(float64(s.X)-(701.5+7.3)) > 1e-4 || math.Abs(float64(s.Y)-(438.5-21.9)) > 1e-4 {
		t.Errorf("10 mm right and 30 mm up of the middle at %v", s)
	}
}

func TestViewRoundTrip(t *testing.T) {
	const seed = 20251
	r := rand.New(rand.NewPCG(seed, 3))
	for i := range 5000 {
		v := View{
			Centre: Point{r.NormFloat64() * 900, r.NormFloat64() * 400},
			Zoom:   math.Exp(r.Float64()*math.Log(MaxZoom/MinZoom)) * MinZoom,
			W:      300 + r.Float64()*2500, H: 200 + r.Float64()*1200,
		}
		s := Screen{float32(r.Float64() * v.W), float32(r.Float64() * v.H)}
		back := v.ToScreen(v.ToWorld(s))
		// float32 holds a place on a screen of 2800 points to 2^-12 points.
		if dx, dy := math.Abs(float64(back.X-s.X)), math.Abs(float64(back.Y-s.Y)); dx > 1./4096 || dy > 1./4096 {
			t.Fatalf("seed %d, step %d: %v came back as %v in %+v", seed, i, s, back, v)
		}
		p := v.ToWorld(s)
		if q := v.ToWorld(v.ToScreen(p)); q.Sub(p).Len()*v.Zoom > 1./2048 {
			t.Fatalf("seed %d, step %d: %v came back as %v in %+v", seed, i, p, q, v)
		}
	}
}

func TestOffsetIsUpAndIgnoresZoom(t *testing.T) {
	for _, zoom := range []float64{0.05, 0.73, 50} {
		v := testView()
		v.Zoom = zoom
		x0, y0 := v.Place(At(371, 190))
		x1, y1 := v.Place(At(371, 190).Off(11, 7))
		if math.Abs(x1-x0-11) > 1e-9 || math.Abs(y0-y1-7) > 1e-9 {
			t.Errorf("zoom %g: offset 11 right and 7 up came out as %g, %g down", zoom, x1-x0, y1-y0)
		}
	}
}

func TestZoomAboutKeepsThePoint(t *testing.T) {
	p := Point{655, 492}
	v := testView()
	x0, y0 := v.Place(On(p))
	for _, f := range []float64{1.1, 1 / 1.1, 7.3, 1e6, 1e-9} {
		w := v.ZoomAbout(p, f)
		x, y := w.Place(On(p))
		if math.Hypot(x-x0, y-y0) > 1e-6 {
			t.Errorf("factor %g moved the point by %g, %g", f, x-x0, y-y0)
		}
		if want := max(MinZoom, min(v.Zoom*f, MaxZoom)); math.Abs(w.Zoom/want-1) > 1e-12 {
			t.Errorf("factor %g gave zoom %g, want %g", f, w.Zoom, want)
		}
	}
	if w := v.ZoomAbout(p, 1.7).ZoomAbout(p, 1/1.7); w.Centre.Sub(v.Centre).Len() > 1e-9 {
		t.Errorf("in and out again went from %v to %v", v.Centre, w.Centre)
	}
}

func TestPan(t *testing.T) {
	v := testView()
	p := Point{705, 196}
	x0, y0 := v.Place(On(p))
	x1, y1 := v.Pan(13, 29).Place(On(p))
	if math.Abs(x1-x0-13) > 1e-9 || math.Abs(y0-y1-29) > 1e-9 {
		t.Errorf("pan 13 right, 29 up moved by %g, %g down", x1-x0, y1-y0)
	}
	a, b := Screen{100, 250}, Screen{137, 211}
	w := v.PanScreen(a, b)
	if d := w.ToWorld(b).Sub(v.ToWorld(a)).Len(); d > 1e-9 {
		t.Errorf("the point under the pointer ran away by %g mm", d)
	}
}

func TestFit(t *testing.T) {
	v := testView()
	m := Margins{Left: 31, Right: 12, Top: 57, Bottom: 8}
	box := Box{Point{-40, 3}, Point{861, 655}}
	w := v.Fit(box, m)
	x0, y1 := w.Place(On(box.Min))
	x1, y0 := w.Place(On(box.Max))
	const eps = 1e-9
	if x0 < m.Left-eps || x1 > v.W-m.Right+eps || y0 < m.Top-eps || y1 > v.H-m.Bottom+eps {
		t.Errorf("box reaches from %g,%g to %g,%g", x0, y0, x1, y1)
	}
	if math.Abs((x0-m.Left)-(v.W-m.Right-x1)) > eps || math.Abs((y0-m.Top)-(v.H-m.Bottom-y1)) > eps {
		t.Errorf("box is not in the middle: %g,%g to %g,%g", x0, y0, x1, y1)
	}
	touches := math.Abs(x0-m.Left) < eps || math.Abs(y0-m.Top) < eps
	if !touches {
		t.Error("box could be larger")
	}
	if got := v.Fit(EmptyBox(), m); got != v {
		t.Errorf("an empty box changed the view to %+v", got)
	}
	if got := v.Fit(Box{Point{77, 5}, Point{77, 305}}, Margins{}); math.Abs(got.Zoom-v.H/300) > eps {
		t.Errorf("an upright line was fitted at zoom %g", got.Zoom)
	}
}

func TestPaperView(t *testing.T) {
	s := Sheet{View: PaperView(297, 210, 5, Point{412, 287})}
	x, y := s.Millimetres(At(412+100, 287+35))
	if math.Abs(x-(148.5+20)) > 1e-9 || math.Abs(y-(105-7)) > 1e-9 {
		t.Errorf("at 1:5 the point lies at %g, %g mm", x, y)
	}
}
