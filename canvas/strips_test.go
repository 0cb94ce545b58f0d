package canvas

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
	"armscribe/canvas/svg"
)

// scaledStrips is 470 x 610 with rest 371.5 points down and 3.25 points a mm.
func scaledStrips(c *barCalls, mods *fyne.KeyModifier) *Strips {
	s := NewStrips(travelAxis())
	s.OnValue = func(v float64) { c.values = append(c.values, v) }
	s.OnEnded = func(v float64) { c.ended = append(c.ended, v) }
	s.Modifiers = func() fyne.KeyModifier { return *mods }
	s.SetInput(sampleInput())
	s.SetScale(371.5, 3.25)
	s.Resize(fyne.NewSize(470, 610))
	return s
}

func TestStripsDrag(t *testing.T) {
	for name, x := range map[string]float64{"grip": 60, "tag": 20, "first strip": 90, "last strip": 466} {
		var c barCalls
		var mods fyne.KeyModifier
		s := scaledStrips(&c, &mods)
		level := 371.5 - 3.25*20
		barDown(s, x, level-7.5, 0)
		barNear(t, name+": a press above the line", s.Value(), 20, 0)
		barMove(s, x+40, level-7.5-26)
		barNear(t, name+": 26 points up", s.Value(), 28, 1e-5)
		first := s.Value()
		barMove(s, x, level+2000)
		barNear(t, name+": past the end", s.Value(), -63, 0)
		barMove(s, x-9, level-7.5-26)
		barNear(t, name+": there again", s.Value(), first, 0)
		barUp(s)
		if len(c.ended) != 1 || c.ended[0] != first || len(c.values) != 3 {
			t.Errorf("%s: told %v, ended %v", name, c.values, c.ended)
		}
	}
}

func TestStripsPress(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	s := scaledStrips(&c, &mods)
	s.place()
	barDown(s, s.gripX+11, 371.5+3.25*31, 0)
	barNear(t, "a click on the track", s.Value(), -31, 1e-5)
	barUp(s)
	barDown(s, 300, 371.5+3.25*31+20, 0)
	barUp(s)
	barDown(s, 5, 200, 0)
	barUp(s)
	barNear(t, "clicks off line and track", s.Value(), -31, 1e-5)
	if len(c.ended) != 1 {
		t.Errorf("ended %v", c.ended)
	}
	barDown(s, 300, 371.5+3.25*31+11, 0)
	barMove(s, 300, 371.5+11+2.9)
	barNear(t, "near rest", s.Value(), 0, 0)
	mods = fyne.KeyModifierAlt
	barMove(s, 300, 371.5+11+2.5)
	barNear(t, "near rest with Alt", s.Value(), -2.5/3.25, 1e-5)
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	barNear(t, "Escape", s.Value(), -31, 1e-5)
}

func TestStripsKeys(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	s := scaledStrips(&c, &mods)
	in := sampleInput()
	in.Axis.From, in.Axis.To = -57, 48.2
	s.SetInput(in)
	for _, p := range []struct {
		key  fyne.KeyName
		mods fyne.KeyModifier
		want float64
	}{
		{fyne.KeyUp, 0, 21}, {fyne.KeyDown, fyne.KeyModifierShift, 11}, {fyne.KeyPageUp, 0, 48.2},
		{fyne.KeyUp, 0, 48.2}, {fyne.KeyPageDown, 0, -57}, {fyne.KeyHome, 0, 0},
	} {
		mods = p.mods
		s.TypedKey(&fyne.KeyEvent{Name: p.key})
		barNear(t, string(p.key), s.Value(), p.want, 1e-12)
	}
	s.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierControl})
	barNear(t, "Ctrl", s.Value(), -0.1, 1e-12)
}

// The scale that fits runs from end to end, and the strips use that of the bar.
func TestStripsScale(t *testing.T) {
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	s.Resize(fyne.NewSize(470, 610))
	zero, per := s.Scale()
	barNear(t, "bump", zero-71*per, s.top, 1e-9)
	barNear(t, "droop", zero+63*per, s.bottom, 1e-9)
	s.SetScale(301.25, 3.75)
	zero, per = s.Scale()
	if zero != 301.25 || per != 3.75 {
		t.Errorf("scale %g, %g", zero, per)
	}
	var l draw.List
	s.drawOn(&l, 470, 610, draw.OnScreen)
	for i := range s.count {
		for _, v := range []float64{-29.5, 0, 37.25} {
			y := 610 - s.data[i].chart.At(v, s.data[i].scale.Min).Y
			barNear(t, fmt.Sprintf("strip %d at %g", i, v), y, 301.25-3.75*v, 1e-9)
		}
	}
	s.FitScale()
	if z, _ := s.Scale(); z == 301.25 {
		t.Error("the set scale stays")
	}
	barPanics(t, "scale", func() { s.SetScale(math.NaN(), 2.5) })
	barPanics(t, "no scale", func() { s.SetScale(200, 0) })
}

func TestStripsDropOnNarrowWidths(t *testing.T) {
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	last := -1
	for w := float32(40); w < 700; w++ {
		s.Resize(fyne.NewSize(w, 400))
		n, given := s.Shown()
		if n < last || given != 4 || n > 4 {
			t.Fatalf("%g wide: %d of %d after %d", w, n, given, last)
		}
		if n > 0 && s.width < stripLeast {
			t.Fatalf("%g wide: strips of %g", w, s.width)
		}
		last = n
	}
	if last != 4 {
		t.Errorf("%d strips in the end", last)
	}
	s.Resize(fyne.NewSize(330, 620))
	if n, _ := s.Shown(); n != 3 {
		t.Errorf("%d strips in 330 points", n)
	}
}

// hardInput has long words and figures and curves far from zero.
func hardInput() StripsInput {
	in := sampleInput()
	in.Axis.From, in.Axis.To = -57.5, 66.5
	in.Axis.FromWhy, in.Axis.ToWhy = "lower control arm binds", "outer end of the tie rod binds"
	in.Axis.Format = func(dst []byte, v float64) []byte {
		return append(signedFigure(dst, v), " mm"...)
	}
	in.Strips[0].Title, in.Strips[0].Unit = "instantaneous centre of the wheel", "mm, outboard of the centre plane is positive"
	in.Strips[0].PerUnit, in.Strips[0].Target = 1, nil
	in.Strips[0].Now = bent(in.At, -123456, -2345, 678, 0, 1, 900)
	in.Strips[0].Before = bent(in.BeforeAt, -121212, -345, 0, 0, 1, 0)
	in.Strips[1].Now = bent(in.At, -0.00123, -0.00045, 0, 0, degree, 0)
	in.Strips[1].Before = StripCurve{}
	in.Strips[1].Least = 1e-6
	return in
}

func TestStripsTexts(t *testing.T) {
	for name, in := range map[string]StripsInput{"sample": sampleInput(), "hard": hardInput()} {
		s := NewStrips(travelAxis())
		s.SetInput(in)
		for _, w := range []float64{110, 330, 470, 900} {
			for _, h := range []float64{260, 400, 620} {
				for _, v := range []float64{-63, -54.25, 0, 20, 61, 66.5, 71} {
					s.SetValue(v)
					for _, m := range []draw.Medium{draw.OnScreen, draw.OnPaper} {
						var l draw.List
						s.drawOn(&l, w, h, m)
						checkBarTexts(t, fmt.Sprintf("%s, %g x %g at %g, medium %d", name, w, h, v, m), &l, s.styles, m, w, h)
					}
				}
			}
		}
		saveBar(t, "strips-texts-"+name, paintStrips(s, 470, 400, 2))
	}
}

// wordsOf joins the texts of the strips as painted now.
func wordsOf(s *Strips, w, h float64) string {
	var l draw.List
	s.drawOn(&l, w, h, draw.OnScreen)
	_, words := barTexts(&l, s.styles, draw.OnScreen, w, h)
	return strings.Join(words, "|")
}

func TestStripsSayWhatBinds(t *testing.T) {
	s := NewStrips(travelAxis())
	in := sampleInput()
	s.SetInput(in)
	if words := wordsOf(s, 470, 610); strings.Contains(words, "binds") {
		t.Errorf("binds without a bound: %s", words)
	}
	in.Axis.From, in.Axis.To = -90, 48.2
	in.Axis.FromWhy, in.Axis.ToWhy = "tie rod binds", "upper arm binds"
	s.SetInput(in)
	for _, v := range []float64{-20, 48.2, 45} { // the tag must not hide it
		s.SetValue(v)
		words := wordsOf(s, 470, 610)
		if !strings.Contains(words, "upper") || strings.Contains(words, "tie rod") {
			t.Errorf("at %g: %s", v, words)
		}
	}
	for w, want := range map[float64]string{
		200: "3 curves hidden: widen the window", 400: "1 curve hidden: widen the window", 130: "4 curves hidden", 76: "4 hidden",
	} {
		if words := wordsOf(s, w, 610); !strings.Contains(words, want) || strings.Contains(words, "\u2026") {
			t.Errorf("%g wide: no %q in %s", w, want, words)
		}
	}
	if words := wordsOf(s, 470, 610); strings.Contains(words, "hidden") {
		t.Errorf("all have room, and yet: %s", words)
	}
}

func TestStripsHover(t *testing.T) {
	s := NewStrips(travelAxis())
	in := sampleInput()
	in.Strips[1].Now.OK[60], in.Strips[1].Now.Value[60] = false, math.NaN()
	s.SetInput(in)
	s.SetScale(371.5, 3.25)
	s.Resize(fyne.NewSize(470, 610))
	hover := func(x, y float64) string {
		s.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))}})
		return s.HoverText()
	}
	// At -26 mm x is -26/60: toe 0.02 + 0.62*0.4333 - 0.02*0.1878 - 0.08*0.0814
	// = 0.2784, half 0.07*(0.4 + 0.1878) = 0.0411.
	if got, want := hover(100, 371.5+26*3.25), "at \u221226.0 mm: 0.28° ± 0.04"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// Station 60 stands at -63 + 134*60/160 = -12.75.
	if got, want := hover(s.left(1)+30, 371.5+12.75*3.25), "at \u221212.8 mm: none"; got != want && got != "at \u221212.7 mm: none" {
		t.Errorf("in a gap %q, want %q", got, want)
	}
	for name, got := range map[string]string{"bar": hover(20, 500), "level line": hover(200, 371.5-65), "head": hover(200, 12)} {
		if got != "" {
			t.Errorf("over the %s: %q", name, got)
		}
	}
	hover(200, 371.5-60)
	if s.Cursor() != desktop.VResizeCursor {
		t.Error("no cursor on the level line")
	}
	s.MouseOut()
	if s.Cursor() != desktop.DefaultCursor || s.HoverText() != "" {
		t.Error("the pointer is not forgotten")
	}
}

func TestStripsMenu(t *testing.T) {
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	s.Resize(fyne.NewSize(470, 610))
	s.place()
	got := map[int]int{}
	s.OnMenu = func(_ fyne.Position, strip int) { got[strip]++ }
	for _, x := range []float64{10, s.left(0) + 1, s.left(2) + 50, 469} {
		s.MouseDown(&desktop.MouseEvent{
			PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), 300)}, Button: desktop.MouseButtonSecondary,
		})
	}
	if fmt.Sprint(got) != "map[-1:1 0:1 2:1 3:1]" {
		t.Errorf("menus %v", got)
	}
}

func TestStripsWantWholeInput(t *testing.T) {
	for name, change := range map[string]func(*StripsInput){
		"too few values":    func(in *StripsInput) { in.Strips[2].Now.Value = in.Strips[2].Now.Value[:40] },
		"too few marks":     func(in *StripsInput) { in.Strips[0].Now.OK = in.Strips[0].Now.OK[:12] },
		"too few bands":     func(in *StripsInput) { in.Strips[0].Before.Half = in.Strips[0].Before.Half[:12] },
		"stations fall":     func(in *StripsInput) { in.At[30] = 70 },
		"station no number": func(in *StripsInput) { in.BeforeAt[30] = math.NaN() },
		"target back":       func(in *StripsInput) { in.Strips[0].Target.Low = 3 },
		"unit":              func(in *StripsInput) { in.Strips[3].PerUnit = -2.5 },
		"value":             func(in *StripsInput) { in.Value = math.NaN() },
	} {
		in := sampleInput()
		change(&in)
		barPanics(t, name, func() { NewStrips(travelAxis()).SetInput(in) })
	}
}

// A curve with values that are none, or with none at all, leaves a picture.
func TestStripsWithoutValues(t *testing.T) {
	s := NewStrips(travelAxis())
	paintStrips(s, 300, 400, 1)
	in := sampleInput()
	for i := range in.Strips {
		for k := range in.At {
			in.Strips[i].Now.Value[k] = math.Inf(k%2*2 - 1)
			in.Strips[i].Now.Half[k] = math.NaN()
		}
		in.Strips[i].Before = StripCurve{}
	}
	s.SetInput(in)
	paintStrips(s, 470, 400, 1)
	for _, size := range [][2]int{{1, 1}, {30, 10}, {470, 60}, {95, 500}, {5000, 90}} {
		paintStrips(s, size[0], size[1], 1)
	}
	in.At, in.Strips = nil, in.Strips[:1]
	in.Strips[0].Now = StripCurve{}
	s.SetInput(in)
	s.SetStrips(nil)
	paintStrips(s, 470, 400, 1)
}

func TestStripsOverRoll(t *testing.T) {
	s := NewStrips(travelAxis())
	at := []float64{-4 * degree, -1.5 * degree, 0, 2 * degree, 4.5 * degree}
	s.SetInput(StripsInput{
		Axis: Axis{
			Name: "roll", PerUnit: degree, Step: 0.1 * degree, Min: -4 * degree, Max: 4.5 * degree,
			MinName: "to the right", MaxName: "to the left",
		},
		Value: 1 * degree, At: at,
		Strips: []StripSpec{{
			Title: "camber", Unit: "deg to the ground", PerUnit: degree,
			Now: StripCurve{Value: []float64{3 * degree, 1.1 * degree, -0.5 * degree, -2 * degree, -3.5 * degree}},
		}},
	})
	s.Modifiers = func() fyne.KeyModifier { return 0 }
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	barNear(t, "a tenth of a degree up", s.Value(), 1.1*degree, 1e-12)
	words := wordsOf(s, 300, 500)
	for _, w := range []string{"+1.1", "to the left", "to the right", "|0|"} {
		if !strings.Contains(words, w) {
			t.Errorf("no %q in %s", w, words)
		}
	}
	saveBar(t, "strips-roll", paintStrips(s, 300, 500, 2))
}

// Equal inputs give equal pictures, wherever the hand has been.
func TestStripsSamePictures(t *testing.T) {
	var c barCalls
	var mods fyne.KeyModifier
	a, b := scaledStrips(&c, &mods), scaledStrips(&c, &mods)
	barDown(a, 60, 371.5-65, 0)
	for i := range 50 {
		barMove(a, 60, 300+float64(i*37%200))
	}
	barMove(a, 60, 371.5-65+39)
	barUp(a)
	b.SetValue(a.Value())
	first := append([]uint8(nil), paintStrips(a, 470, 610, 1).Pix...)
	if !bytes.Equal(first, paintStrips(b, 470, 610, 1).Pix) {
		t.Error("the pictures differ")
	}
}

func TestStripsToFiles(t *testing.T) {
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	s.Resize(fyne.NewSize(300, 300))
	before := append([]uint8(nil), paintStrips(s, 300, 300, 1).Pix...)
	sheet := s.Sheet("Curves", 560, 620)
	var svgFile, pngFile bytes.Buffer
	if err := svg.Write(&svgFile, sheet); err != nil {
		t.Fatal(err)
	}
	if err := raster.WritePNG(&pngFile, sheet, 150); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"roll centre", "+20.0", "before", "bump"} {
		if !strings.Contains(svgFile.String(), want) {
			t.Errorf("no %q in the SVG", want)
		}
	}
	if pngFile.Len() < 10000 {
		t.Errorf("PNG of %d bytes", pngFile.Len())
	}
	if !bytes.Equal(before, paintStrips(s, 300, 300, 1).Pix) {
		t.Error("writing a file changes the picture on screen")
	}
}

func TestStripsInAWindow(t *testing.T) {
	test.NewTempApp(t)
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(470, 610))
	img := w.Canvas().Capture()
	inked := 0
	for x := range img.Bounds().Dx() {
		if r, _, _, _ := img.At(x, int(s.track.at(20))).RGBA(); r < 0x6000 {
			inked++
		}
	}
	if inked < 350 {
		t.Errorf("the level line has %d dark px", inked)
	}
	barDown(s, 60, s.track.at(20), 0)
	barUp(s)
	if w.Canvas().Focused() != fyne.Focusable(s) || !s.focused {
		t.Error("a press gives no focus")
	}
}

// Whatever a hand does and whatever the size, the value is a number in the
// limits and the picture can be drawn.
func TestStripsRandomHand(t *testing.T) {
	const seed = 90210
	r := rand.New(rand.NewPCG(seed, 5))
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	s.Modifiers = func() fyne.KeyModifier { return fyne.KeyModifier(r.IntN(16)) }
	keys := []fyne.KeyName{fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyEscape, fyne.KeyTab}
	for i := range 3000 {
		x, y := r.Float64()*600-40, r.Float64()*700-40
		switch r.IntN(9) {
		case 0:
			s.Resize(fyne.NewSize(float32(r.IntN(600)), float32(r.IntN(700))))
		case 1:
			barDown(s, x, y, 0)
		case 2, 3:
			barMove(s, x, y)
		case 4:
			barUp(s)
		case 5:
			s.TypedKey(&fyne.KeyEvent{Name: keys[r.IntN(len(keys))]})
		case 6:
			s.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))}})
		case 7:
			s.SetScale(y, 0.5+r.Float64()*8)
		case 8:
			s.FitScale()
		}
		if v := s.Value(); !(v >= -63 && v <= 71) {
			t.Fatalf("seed %d, event %d: value %g", seed, i, v)
		}
		if i%20 == 0 {
			s.paint(int(s.Size().Width), int(s.Size().Height))
		}
	}
}

func benchmarkStrips(b *testing.B, w, scale int) {
	s := NewStrips(travelAxis())
	in := sampleInput()
	s.SetInput(in)
	paintStrips(s, w, 620, scale)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		in.Value = float64(i%100) - 50
		s.SetInput(in)
		s.paintAt(float64(w), 620, w*scale, 620*scale)
	}
	b.ReportMetric(float64(s.count), "strips")
}

// BenchmarkStripsPaint is a frame of a drag: new curves taken, drawn, painted.
func BenchmarkStripsPaint(b *testing.B)       { benchmarkStrips(b, 410, 1) }
func BenchmarkStripsPaintNarrow(b *testing.B) { benchmarkStrips(b, 330, 1) }
func BenchmarkStripsPaintDouble(b *testing.B) { benchmarkStrips(b, 410, 2) }
