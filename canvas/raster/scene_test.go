package raster

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"armscribe/canvas/draw"
)

// The scene is an invented corner, drawn as the front view draws one.
var pictures = flag.String("pictures", "", "folder to write the painted scenes to, for a look")

func pt(x, y float64) draw.Point { return draw.Point{X: x, Y: y} }

func sceneView(w, h float64) draw.View {
	v := draw.View{Zoom: 1, W: w, H: h}
	return v.Fit(draw.Box{Min: pt(-60, -70), Max: pt(960, 720)}, draw.Margins{Left: 20, Right: 20, Top: 20, Bottom: 20})
}

// tyre returns the corners of an outline leaning by lean radians.
func tyre(x, y, half, radius, lean float64) []draw.Point {
	s, c := math.Sincos(lean)
	turn := func(dx, dy float64) draw.Point { return pt(x+dx*c-dy*s, y+dx*s+dy*c) }
	return []draw.Point{turn(-half, -radius), turn(half, -radius), turn(half, radius), turn(-half, radius)}
}

func drawScene(l *draw.List) {
	upIn, upOut, loIn, loOut := pt(395, 470), pt(655, 492), pt(330, 210), pt(705, 196)
	rackEnd, outer := pt(345, 232), pt(690, 214)
	l.On(draw.LayerGround)
	l.Line(draw.Ground, pt(-60, 0), pt(960, 0))
	for x := -50.0; x < 950; x += 45 {
		l.Line(draw.GroundHatch, pt(x, -1), pt(x-14, -14))
	}
	l.Line(draw.CentrePlane, pt(0, -60), pt(0, 720))
	l.On(draw.LayerConstruction)
	l.Line(draw.ArmLine, upIn, pt(-1500, 322))
	l.Line(draw.ArmLine, loIn, pt(-1500, 280))
	l.Line(draw.RollCentreLine, pt(0, 70), pt(800, 0))
	l.Line(draw.SteeringAxis, pt(640, 580), pt(732, -2))
	l.On(draw.LayerTravel)
	for i := -5; i <= 5; i++ {
		d := float64(i) * 14
		l.Polyline(draw.TravelGhost, upIn, pt(655-d/9, 492+d), pt(705+d/19, 196+d), loIn)
	}
	l.On(draw.LayerCompared)
	l.Polygon(draw.Compared, tyre(690, 315, 130, 318, 0.02)...)
	l.Polyline(draw.Compared, upIn, pt(610, 495), pt(640, 200), loIn)
	l.Arc(draw.Compared, loIn, 310, -0.5, 1)
	l.On(draw.LayerOutlines)
	l.Polygon(draw.Outline, tyre(772, 318, 142, 320, 0.03)...)
	l.Polygon(draw.OutlineInner, tyre(772, 318, 133, 232, 0.03)...)
	l.On(draw.LayerLinks)
	l.Line(draw.Upright, upOut, loOut)
	l.Line(draw.Arm, upIn, upOut)
	l.Line(draw.Arm, loIn, loOut)
	l.Line(draw.TieRod, rackEnd, outer)
	l.On(draw.LayerDimensions)
	l.DimensionLine(draw.DimensionNow, draw.ArrowNow, pt(732, 0), pt(764, 0), 24, 60)
	drawLoupe(l, outer)
	l.On(draw.LayerHandles)
	for _, p := range []draw.Point{upIn, loIn} {
		l.Handle(draw.HandleFixed, p)
	}
	l.Handle(draw.HandleMoving, upOut)
	l.Handle(draw.HandleMoving, loOut)
	l.Handle(draw.HandleFixedNow, rackEnd)
	l.Handle(draw.HandleMovingNow, outer)
	l.Held(draw.HandleHeld, outer)
	l.Diamond(draw.RollCentre, pt(0, 70))
}

func drawLoupe(l *draw.List, outer draw.Point) {
	c := pt(200, 600)
	l.On(draw.LayerLoupe)
	l.Line(draw.LoupeLead, c, outer)
	l.Circle(draw.Loupe, draw.On(c), 100, 0)
	for i, role := range []draw.Role{draw.LowerArmArc, draw.TieRodArc, draw.FreePath} {
		var path [61]draw.Point
		for k := range path {
			y := -130 + 260*float64(k)/60
			path[k] = pt(c.X+float64(i)*7-y*y/400+y/8, c.Y+y)
		}
		l.PolylineInCircle(role, c, 99, path[:])
	}
}

// drawStrips adds dense curves, bands and grids beside the view, as the strip
// charts do.
func drawStrips(l *draw.List) {
	for s := range 3 {
		x0 := 980 + float64(s)*130
		l.On(draw.LayerGrid)
		l.Rect(draw.Frame, draw.Box{Min: pt(x0, 40), Max: pt(x0+110, 660)})
		for g := 1; g < 4; g++ {
			x := x0 + float64(g)*28
			l.Line(draw.Grid, pt(x, 40), pt(x, 660))
		}
		curve := func(k float64, add func(draw.Point)) {
			for i := range 61 {
				t := float64(i)/30 - 1
				add(pt(x0+55+t*k*40+t*t*12, 350+t*290))
			}
		}
		l.On(draw.LayerBands)
		l.Rect(draw.BandTarget, draw.Box{Min: pt(x0+40, 200), Max: pt(x0+60, 480)})
		curve(-1, func(p draw.Point) { l.Add(draw.On(p.Add(pt(-9, 0)))) })
		for i := 60; i >= 0; i-- {
			t := float64(i)/30 - 1
			l.Add(draw.At(x0+64-t*40+t*t*12, 350+t*290))
		}
		l.End(draw.BandNow, true)
		l.On(draw.LayerCurves)
		curve(-1, func(p draw.Point) { l.Add(draw.On(p)) })
		l.End(draw.CurveNow, false)
		curve(-0.6, func(p draw.Point) { l.Add(draw.On(p)) })
		l.End(draw.CurveBefore, false)
		l.On(draw.LayerNotes)
		l.Line(draw.Level, pt(x0, 420), pt(x0+110, 420))
		l.Text(draw.TextBold, draw.At(x0, 685), draw.Left, "camber")
	}
}

var sceneNames = [][]byte{
	[]byte("upper pivot"), []byte("upper ball joint"), []byte("lower pivot"), []byte("lower ball joint"),
	[]byte("rack end"), []byte("outer end 678.0 | 214.0"), []byte("roll centre 70 ± 5 above ground"),
	[]byte("instant centre 1\u2009169 mm inboard"), []byte("scrub 32.2 ± 1.8"), []byte("moved 0.0 | \u22128.0"),
}

func label(l *draw.List, p *draw.Placer, v draw.View, st *draw.Styles, n int) {
	at := [...]draw.Point{pt(395, 470), pt(655, 492), pt(330, 210), pt(705, 196), pt(345, 232), pt(690, 214), pt(0, 70), pt(0, 300), pt(748, -40), pt(690, 214)}
	roles := [...]draw.Role{draw.TextBody, draw.TextSmall, draw.TextBody, draw.TextSmall, draw.TextNow, draw.TextNow, draw.TextGood, draw.TextQuiet, draw.TextNow, draw.TextQuiet}
	p.Reset(v, st, draw.OnScreen)
	p.Avoid(l)
	l.On(draw.LayerNotes)
	for i := range n {
		k := i % len(at)
		p.PlaceAndDraw(l, &draw.Label{
			Role: roles[k], Text: sceneNames[k], Anchor: draw.On(at[k].Add(pt(0, float64(i/len(at))*37))),
			Clear: draw.HandleRadius + 2,
		})
	}
}

func savePicture(t testing.TB, name string, img image.Image) {
	t.Helper()
	if *pictures == "" {
		return
	}
	f, err := os.Create(filepath.Join(*pictures, name+".png"))
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// Light and dark paint the same drawing: wherever one differs from its paper,
// the other does too, but for the Tag of a reading, which has none here.
func TestScenePalettesPaintTheSame(t *testing.T) {
	var l draw.List
	var pl draw.Placer
	v, st := sceneView(1000, 800), draw.HouseStyles()
	drawScene(&l)
	label(&l, &pl, v, st, 10)
	inked := map[string][]bool{}
	for name, pal := range map[string]*draw.Palette{"light": draw.Light(), "dark": draw.Dark()} {
		for _, scale := range []float64{1, 2} {
			img := New().Paint(&l, Frame{View: v, Styles: st, Palette: pal, Scale: scale})
			savePicture(t, fmt.Sprintf("scene-%s-%gx", name, scale), img)
			if scale == 1 {
				for i := 0; i < len(img.Pix); i += 4 {
					d := 0
					for k, c := range []uint8{pal[draw.Paper].R, pal[draw.Paper].G, pal[draw.Paper].B} {
						d += int(math.Abs(float64(img.Pix[i+k]) - float64(c)))
					}
					inked[name] = append(inked[name], d > 24)
				}
			}
		}
	}
	both, either := 0, 0
	for i, a := range inked["light"] {
		b := inked["dark"][i]
		if a && b {
			both++
		}
		if a || b {
			either++
		}
	}
	if either < 5000 || float64(both) < 0.9*float64(either) {
		t.Errorf("%d px differ from both papers, %d from one at least", both, either)
	}
}

func benchmarkPaint(b *testing.B, scale float64) {
	var l draw.List
	var pl draw.Placer
	st, pal := draw.HouseStyles(), draw.Light()
	v := draw.View{Zoom: 1, W: 1400, H: 900}.Fit(draw.Box{Min: pt(-60, -70), Max: pt(1380, 720)}, draw.Margins{Left: 10, Right: 10, Top: 10, Bottom: 10})
	drawScene(&l)
	drawStrips(&l)
	label(&l, &pl, v, st, 40)
	p := New()
	f := Frame{View: v, Styles: st, Palette: pal, Scale: scale}
	savePicture(b, "bench", p.Paint(&l, f))
	segments, texts := 0, 0
	for i := range l.Items() {
		switch it := &l.Items()[i]; it.Kind {
		case draw.KindPath:
			segments += len(l.Corners(it)) - 1
		case draw.KindText:
			texts++
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		p.Paint(&l, f)
	}
	b.ReportMetric(float64(segments), "segments")
	b.ReportMetric(float64(texts), "texts")
}

func BenchmarkPaint(b *testing.B)       { benchmarkPaint(b, 1) }
func BenchmarkPaintDouble(b *testing.B) { benchmarkPaint(b, 2) }

// BenchmarkFrame is all of a frame: building the list, placing labels, painting.
func BenchmarkFrame(b *testing.B) {
	var l draw.List
	var pl draw.Placer
	p := New()
	v := sceneView(1400, 900)
	f := Frame{View: v, Styles: draw.HouseStyles(), Palette: draw.Light()}
	b.ReportAllocs()
	for b.Loop() {
		l.Reset()
		drawScene(&l)
		drawStrips(&l)
		label(&l, &pl, v, f.Styles, 10)
		p.Paint(&l, f)
	}
}
