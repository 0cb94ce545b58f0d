package raster

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/canvas/draw"
)

// plainFrame is a window of w by h points that shows 1 mm as zoom points, and a
// table in which Construction has the given pen: black on white, so that the
// darkness of a pixel is its coverage.
func plainFrame(w, h, zoom, pen float64, dash draw.Dash, round bool) Frame {
	st := draw.HouseStyles()
	st[draw.Construction] = draw.Style{Name: "test", Stroke: draw.Ink, Pen: pen, Dash: dash, Round: round}
	pal := &draw.Palette{}
	for i := range pal {
		pal[i] = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	}
	pal[draw.Ink] = color.NRGBA{A: 255}
	return Frame{View: draw.View{Zoom: zoom, W: w, H: h}, Styles: st, Palette: pal}
}

func coverage(img *image.RGBA, x, y int) float64 {
	return 1 - float64(img.Pix[img.PixOffset(x, y)+1])/255
}

func area(img *image.RGBA) float64 {
	sum := 0.0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			sum += coverage(img, x, y)
		}
	}
	return sum
}

// inkAt returns the coverage at a place given in points from the middle, y up,
// summed over the pixels across a line of direction u: its inked width there.
func inkAt(img *image.RGBA, x, y float64) float64 {
	ix, iy := int(math.Floor(x+float64(img.Rect.Dx())/2)), int(math.Floor(float64(img.Rect.Dy())/2-y))
	if !(image.Point{X: ix, Y: iy}).In(img.Rect) {
		return 0
	}
	return coverage(img, ix, iy)
}

// The ink of a straight stroke with straight ends is its length times its width.
func TestStrokeArea(t *testing.T) {
	const seed = 8
	r := rand.New(rand.NewPCG(seed, 1))
	for i := range 150 {
		pen := 0.6 + 6*r.Float64()
		a, b := r.Float64()*2*math.Pi, 90+60*r.Float64()
		m := pt(r.Float64()*9, r.Float64()*9)
		d := pt(math.Cos(a), math.Sin(a)).Mul(b)
		f := plainFrame(400, 380, 1, pen, draw.Solid, false)
		var l draw.List
		// In three pieces: joints must add nothing.
		l.Polyline(draw.Construction, m.Sub(d), m.Sub(d.Mul(0.31)), m.Add(d.Mul(0.47)), m.Add(d))
		got, want := area(New().Paint(&l, f)), 2*b*pen
		if math.Abs(got/want-1) > 0.01 {
			t.Errorf("seed %d, step %d: %g px long and %g wide has %g px of ink, want %g", seed, i, 2*b, pen, got, want)
		}
	}
}

// The ink of a round thing: a closed circle by its mid length, with the large
// and small ways of painting; a handle's disc by its outer radius.
func TestCircleArea(t *testing.T) {
	for _, rad := range []float64{9.3, 47, 49, 151.7} {
		var l draw.List
		l.Circle(draw.Construction, draw.At(3.3, -2.1), rad, 0)
		got := area(New().Paint(&l, plainFrame(360, 350, 1, 2.3, draw.Solid, false)))
		if want := 2 * math.Pi * rad * 2.3; math.Abs(got/want-1) > 0.01 {
			t.Errorf("radius %g: %g px of ink, want %g", rad, got, want)
		}
	}
	var l draw.List
	l.Handle(draw.HandleMoving, pt(7.3, 4.9))
	got := area(New().Paint(&l, plainFrame(60, 50, 1.7, 1, draw.Solid, false)))
	out := draw.HandleRadius + draw.HouseStyles()[draw.HandleMoving].Pen/2
	if want := math.Pi * out * out; math.Abs(got/want-1) > 0.01 {
		t.Errorf("handle has %g px of ink, want %g", got, want)
	}
}

// A joint must be as dark as its line: with a pen thinner than a pixel any
// double painting would show as more than its width.
func TestJointIsNotDarker(t *testing.T) {
	f := plainFrame(200, 120, 1, 0.5, draw.Solid, true)
	f.View.Centre = pt(0, 0)
	var l draw.List
	var pts []draw.Point
	for i := range 41 {
		x := float64(i)*4 - 80
		pts = append(pts, pt(x+0.3, 0.13*x))
	}
	l.Polyline(draw.Construction, pts...)
	img := New().Paint(&l, f)
	most := 0.0
	for y := range 120 {
		for x := range 200 {
			most = max(most, coverage(img, x, y))
		}
	}
	if most > 0.5+1./255 {
		t.Errorf("a line half a pixel wide has a pixel of coverage %g", most)
	}
	if most < 0.45 {
		t.Errorf("the line is as thin as %g", most)
	}
}

// dashRuns walks along an arc of radius rad about the middle and returns the
// lengths along it that are inked and bare, the first and last left out.
func dashRuns(img *image.RGBA, rad, from, to float64) (on, off []float64) {
	const step = 0.02 // px along the arc
	last, start := -1.0, 0.0
	n := int((to - from) * rad / step)
	for i := range n {
		a := from + float64(i)*step/rad
		ink := bilinear(img, rad*math.Cos(a), rad*math.Sin(a))
		now := 0.0
		if ink >= 0.5 {
			now = 1
		}
		if now != last {
			s := float64(i) * step
			if last == 1 {
				on = append(on, s-start)
			} else if last == 0 {
				off = append(off, s-start)
			}
			last, start = now, s
		}
	}
	return on[1:], off[1:]
}

// bilinear reads the coverage between pixels, at points from the middle, y up.
func bilinear(img *image.RGBA, x, y float64) float64 {
	u, v := x+float64(img.Rect.Dx())/2-0.5, float64(img.Rect.Dy())/2-y-0.5
	x0, y0 := math.Floor(u), math.Floor(v)
	fx, fy := u-x0, v-y0
	c := func(dx, dy int) float64 { return coverage(img, int(x0)+dx, int(y0)+dy) }
	return (c(0, 0)*(1-fx)+c(1, 0)*fx)*(1-fy) + (c(0, 1)*(1-fx)+c(1, 1)*fx)*fy
}

// Dashes along a curve of many short chords must have the lengths of the table,
// in its order, to half a pixel; on the whole arc the average must fit to 1 %.
func TestDashesAlongCurve(t *testing.T) {
	for _, dash := range []draw.Dash{draw.Dashed, draw.DoubleChain} {
		for _, zoom := range []float64{0.05, 1, 50} {
			const rad = 170.0
			f := plainFrame(400, 390, zoom, 3, dash, false)
			var l draw.List
			l.Arc(draw.Construction, pt(0, 0), rad/zoom, 0.11, 2.9)
			img := New().Paint(&l, f)
			savePicture(t, fmt.Sprintf("dash-%d-%g", dash, zoom), img)
			pattern := f.Styles[draw.Construction].DashOn(draw.OnScreen)
			on, off := dashRuns(img, rad, 0.11, 3.0)
			sum := 0.0
			for i := range on {
				// The first dash is left out, so the walk begins with the second.
				wantOn := pattern.L[(2*(i+1))%pattern.N]
				wantOff := pattern.L[(2*(i+1)+1)%pattern.N]
				if math.Abs(on[i]-wantOn) > 0.5 {
					t.Errorf("dash %d zoom %g: dash %d is %.2f px, want %g", dash, zoom, i, on[i], wantOn)
				}
				if i < len(off) && math.Abs(off[i]-wantOff) > 0.5 {
					t.Errorf("dash %d zoom %g: gap %d is %.2f px, want %g", dash, zoom, i, off[i], wantOff)
				}
				sum += on[i]
			}
			if len(on) < 20 {
				t.Fatalf("dash %d zoom %g: only %d dashes found", dash, zoom, len(on))
			}
			ink, share := area(img), 0.0
			for i := 0; i < pattern.N; i += 2 {
				share += pattern.L[i]
			}
			want := dashedLength(&pattern, rad*2.9) * 3
			if math.Abs(ink/want-1) > 0.01 {
				t.Errorf("dash %d zoom %g: %g px of ink, want %g", dash, zoom, ink, want)
			}
		}
	}
}

// dashedLength returns how much of a line of length n is inked, by counting
// thousandths of a pixel.
func dashedLength(p *draw.Pattern, n float64) float64 {
	const step = 0.001
	sum, i, left := 0.0, 0, p.L[0]
	for s := 0.0; s < n; s += step {
		if i&1 == 0 {
			sum += step
		}
		if left -= step; left <= 0 {
			i = (i + 1) % p.N
			left += p.L[i]
		}
	}
	return sum
}

// At any zoom a line is whole: walking along a curve, the ink never falls away.
func TestNoGapsAtAnyZoom(t *testing.T) {
	for _, zoom := range []float64{0.05, 0.31, 1, 4.7, 50} {
		for _, pen := range []float64{0.8, 1.6, 4} {
			const rad = 8000.0 // px: mostly outside the window
			f := plainFrame(500, 320, zoom, pen, draw.Solid, false)
			var l draw.List
			c := pt(-rad/zoom, 3/zoom)
			l.Arc(draw.Construction, c, rad/zoom, -1.3, 2.9)
			img := New().Paint(&l, f)
			want := min(1, pen)
			for y := -155.0; y < 155; y++ {
				// The curve crosses each row once; the ink across is the pen,
				// widened by the slope.
				sum := 0.0
				for x := -249.0; x < 249; x++ {
					sum += inkAt(img, x+0.5, y+0.5)
				}
				if sum < want*0.95 || sum > 1.08*pen {
					t.Fatalf("zoom %g, pen %g: row %g has %.3f px of ink", zoom, pen, y, sum)
				}
			}
		}
	}
}

// The pattern runs on where the line is out of sight: panning by whole pixels
// must move the picture and change nothing else.
func TestDashesStandStillWhenPanned(t *testing.T) {
	var l draw.List
	l.Polyline(draw.Construction, pt(-2000, -777), pt(913, 404), pt(960, -3000))
	f := plainFrame(300, 260, 1, 2, draw.Dashed, false)
	a := New().Paint(&l, f)
	f.View = f.View.Pan(-37, -16)
	b := New().Paint(&l, f)
	for y := 0; y < 260-16; y++ {
		for x := 37; x < 300; x++ {
			if d := coverage(a, x, y) - coverage(b, x-37, y+16); math.Abs(d) > 0.02 {
				t.Fatalf("pixel %d,%d changed by %g", x, y, d)
			}
		}
	}
	if area(a) < 200 {
		t.Errorf("only %g px of ink: the line is not in the window", area(a))
	}
}

// A crisp hairline covers whole pixels, wherever it lies.
func TestCrispLines(t *testing.T) {
	for _, y := range []float64{0, 0.2, 0.5, 0.77} {
		var l draw.List
		l.Line(draw.Grid, pt(-20.3, y), pt(31.4, y))
		f := plainFrame(90, 70, 1, 1, draw.Solid, false)
		f.Palette[draw.Hairline] = color.NRGBA{A: 255}
		img := New().Paint(&l, f)
		for i := range 90 * 70 {
			if c := coverage(img, i%90, i/90); c != 0 && c != 1 {
				t.Fatalf("y %g: pixel %d,%d has coverage %g", y, i%90, i/90, c)
			}
		}
		if got := area(img); got != 51 && got != 52 {
			t.Errorf("y %g: %g px of ink", y, got)
		}
	}
}
