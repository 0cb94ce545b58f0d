package raster

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/draw/font"
)

// The area of a filled polygon, also one that reaches far out of the window.
func TestFillArea(t *testing.T) {
	f := plainFrame(300, 200, 0.5, 1, draw.Solid, false)
	f.Styles[draw.Construction] = draw.Style{Name: "test", Fill: draw.Ink, FillAlpha: 1}
	shoelace := func(c []draw.Point) float64 {
		s := 0.0
		for i, p := range c {
			q := c[(i+1)%len(c)]
			s += p.X*q.Y - q.X*p.Y
		}
		return math.Abs(s) / 2
	}
	var l draw.List
	inside := []draw.Point{pt(-201, -131), pt(117, -88), pt(230, 92), pt(-33, 177)}
	l.Polygon(draw.Construction, inside...)
	got := area(New().Paint(&l, f))
	if want := shoelace(inside) / 4; math.Abs(got/want-1) > 0.002 {
		t.Errorf("%g px, want %g", got, want)
	}
	// Half plane below y = x/3 + 20, cut by the window of 600 x 400 mm.
	l.Reset()
	l.Polygon(draw.Construction, pt(-90000, -30000+20), pt(90000, 30000+20), pt(90000, -1e6), pt(-90000, -1e6))
	got = area(New().Paint(&l, f))
	if want := (600*400/2 + 600*20) / 4.0; math.Abs(got/want-1) > 0.002 {
		t.Errorf("half plane: %g px, want %g", got, want)
	}
	// An open line has no inside.
	l.Reset()
	l.Polyline(draw.Construction, inside...)
	if got = area(New().Paint(&l, f)); got != 0 {
		t.Errorf("an open line is filled: %g px", got)
	}
	l.Reset()
	l.Polygon(draw.Construction, pt(-90000, -30000+20), pt(90000, 30000+20), pt(90000, -1e6), pt(-90000, -1e6))
	// Thinned fill.
	f.Styles[draw.Construction].FillAlpha = 0.16
	img := New().Paint(&l, f)
	if c := coverage(img, 150, 180); math.Abs(c-0.16) > 1./255 {
		t.Errorf("a fill of 0.16 covers %g", c)
	}
}

// Layers decide what lies on top, not the order of adding.
func TestLayersOrder(t *testing.T) {
	f := plainFrame(80, 60, 1, 1, draw.Solid, false)
	f.Palette[draw.Now] = color.NRGBA{R: 200, A: 255}
	var l draw.List
	l.On(draw.LayerHandles)
	l.Handle(draw.HandleMovingNow, pt(3, 2))
	l.On(draw.LayerLinks)
	l.Line(draw.Arm, pt(-30, 2), pt(30, 2))
	img := New().Paint(&l, f)
	if c := img.RGBAAt(43, 28); c != (color.RGBA{R: 200, A: 255}) {
		t.Errorf("the handle's middle is %v", c)
	}
	if c := img.RGBAAt(20, 28); c != (color.RGBA{A: 255}) {
		t.Errorf("the arm is %v", c)
	}
}

// The ink of a text keeps within the extent that TextSize gives, whatever the
// anchor, and fills it: labels are placed by it.
func TestTextExtent(t *testing.T) {
	text := "\u22128.0 | 1\u2009169 mm Åg"
	for _, a := range []draw.Align{draw.Left, draw.Centre | draw.Middle, draw.Right | draw.Top, draw.Centre | draw.Bottom} {
		for _, scale := range []float64{1, 2} {
			f := plainFrame(300, 120, 1, 1, draw.Solid, false)
			f.Scale = scale
			var l draw.List
			l.Text(draw.TextBody, draw.At(4, 3).Off(2, 1), a, text)
			img := New().Paint(&l, f)
			box := draw.EmptyBox()
			for y := range img.Rect.Dy() {
				for x := range img.Rect.Dx() {
					if coverage(img, x, y) > 0.1 {
						box = box.With(pt(float64(x), float64(y))).With(pt(float64(x+1), float64(y+1)))
					}
				}
			}
			w, up, down := f.Styles.TextSize(draw.TextBody, draw.OnScreen, []byte(text))
			o := f.Styles.TextOrigin(draw.TextBody, draw.OnScreen, a, []byte(text))
			x0, base := 150+6+o.X, 60-4-o.Y
			if box.Min.X < scale*x0-1 || box.Max.X > scale*(x0+w)+1 || box.W() < scale*(w-3) {
				t.Errorf("align %d scale %g: ink from %g to %g, text from %g to %g", a, scale, box.Min.X, box.Max.X, scale*x0, scale*(x0+w))
			}
			const room = 2.2 // points: rounding of the baseline, and the ring of Å
			if box.Min.Y < scale*(base-up)-room*scale || box.Max.Y > scale*(base+down)+room || box.H() < scale*(up+down)*0.8 {
				t.Errorf("align %d scale %g: ink from %g to %g, text from %g to %g", a, scale, box.Min.Y, box.Max.Y, scale*(base-up), scale*(base+down))
			}
		}
	}
}

// The ink of a letter is the area of its outline: an I of the face is a bar.
func TestGlyphArea(t *testing.T) {
	for face := font.Regular; face <= font.Bold; face++ {
		box := draw.EmptyBox()
		for _, s := range face.Outline(nil, '\u2212') {
			box = box.With(pt(s.P[0][0], s.P[0][1]))
		}
		f := plainFrame(80, 60, 1, 1, draw.Solid, false)
		f.Styles[draw.TextBody].Face = face
		f.Scale = 3
		var l draw.List
		l.Text(draw.TextBody, draw.At(0, 0), draw.Centre, "\u2212")
		em := 13 * 3.0
		got, want := area(New().Paint(&l, f)), box.W()*box.H()*em*em
		if math.Abs(got/want-1) > 0.03 {
			t.Errorf("face %d: the minus has %g px of ink, want %g", face, got, want)
		}
	}
}

func TestPaintKeepsMemory(t *testing.T) {
	var l draw.List
	drawScene(&l)
	drawStrips(&l)
	p := New()
	f := Frame{View: sceneView(700, 500), Styles: draw.HouseStyles(), Palette: draw.Dark()}
	first := p.Paint(&l, f)
	old := append([]uint8(nil), first.Pix...)
	if n := testing.AllocsPerRun(5, func() { p.Paint(&l, f) }); n != 0 {
		t.Errorf("painting allocates %g times", n)
	}
	if again := p.Paint(&l, f); again != first || !bytes.Equal(again.Pix, old) {
		t.Error("the same list painted again differs")
	}
	for i := 3; i < len(old); i += 4 {
		if old[i] != 0xFF {
			t.Fatalf("pixel %d is not opaque", i/4)
		}
	}
}

// Whatever the zoom, painting ends and stays inside the image.
func TestExtremeViews(t *testing.T) {
	var l draw.List
	drawScene(&l)
	drawStrips(&l)
	l.Line(draw.Compared, pt(-4e6, 1e6), pt(7e6, -2e6))
	l.Circle(draw.Compared, draw.At(3e5, 2), 3e5, 0)
	p := New()
	for _, z := range []float64{draw.MinZoom, 0.05, 50, draw.MaxZoom} {
		v := sceneView(311, 217)
		v.Zoom = z
		p.Paint(&l, Frame{View: v, Styles: draw.HouseStyles(), Palette: draw.Light()})
	}
}

func TestWritePNG(t *testing.T) {
	var l draw.List
	l.Line(draw.Outline, pt(-50, 0), pt(50, 0))
	s := draw.Sheet{List: &l, Styles: draw.HouseStyles(), Palette: draw.Print(), View: draw.PaperView(127, 50.8, 1, pt(0, 0))}
	var b bytes.Buffer
	if err := WritePNG(&b, s, 254); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if r := img.Bounds(); r.Dx() != 1270 || r.Dy() != 508 {
		t.Fatalf("127 x 50.8 mm at 10 px a mm is %v", r)
	}
	// 100 mm are 1000 px, 0.5 mm are 5.
	ink := 0.0
	for y := range 508 {
		for x := range 1270 {
			r, _, _, _ := img.At(x, y).RGBA()
			ink += (1 - float64(r)/0xFFFF) / (1 - float64(0x1B)/0xFF)
		}
	}
	if math.Abs(ink/5000-1) > 0.01 {
		t.Errorf("a line of 100 x 0.5 mm has %g px of ink, want 5000", ink)
	}
	for dpi, word := range map[float64]string{0: "more than 0", 1e5: "fewer dots"} {
		if err := WritePNG(&b, s, dpi); err == nil || !strings.Contains(err.Error(), word) {
			t.Errorf("%g dots an inch: %v", dpi, err)
		}
	}
}
