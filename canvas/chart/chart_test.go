package chart

import (
	"flag"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

var pictures = flag.String("pictures", "", "folder to write the charts to, for a look")

// strip returns an invented toe curve with band, aim and a gap at full droop.
func strip() *Chart {
	c := &Chart{
		Box:  draw.Box{Min: draw.Point{X: 10, Y: 15}, Max: draw.Point{X: 42, Y: 165}},
		Zoom: draw.PerMM, Styles: draw.HouseStyles(),
		Title: "toe", Unit: "deg, in +",
		Var: Range{-60, 70}, Val: Range{-0.8, 0.8},
		Targets:  []Target{{Val: Range{-0.05, 0.15}, Var: Range{-30, 30}}},
		HasLevel: true, Level: 20,
	}
	var now, before Curve
	var band Band
	for i := range 66 {
		v := -60 + 2*float64(i)
		toe := -0.11*v/10 + v*v/22000
		now.Var, now.Val, now.OK = append(now.Var, v), append(now.Val, toe), append(now.OK, v > -55)
		before.Var, before.Val = append(before.Var, v), append(before.Val, -0.0075*v+v*v/30000-0.1)
		w := 0.03 + math.Abs(v)/500
		band.Lo, band.Hi = append(band.Lo, toe-w), append(band.Hi, toe+w)
	}
	now.Role, now.Label, now.Text = draw.CurveNow, "now", draw.TextNow
	before.Role, before.Label, before.Text = draw.CurveBefore, "before", draw.TextBefore
	band.Var, band.OK, band.Role = now.Var, now.OK, draw.BandNow
	c.Curves, c.Bands = []Curve{now, before}, []Band{band}
	return c
}

func ofRole(l *draw.List, r draw.Role) (out []*draw.Item) {
	for i := range l.Items() {
		if it := &l.Items()[i]; it.Role == r {
			out = append(out, it)
		}
	}
	return out
}

// The variable runs up in a strip and across in the usual chart; both map and
// map back.
func TestOrientation(t *testing.T) {
	c := strip()
	for _, across := range []bool{false, true} {
		c.Across = across
		p, q, r := c.At(-20, 0.3), c.At(40, 0.3), c.At(-20, 0.5)
		dv, dval := q.Sub(p), r.Sub(p)
		if across {
			dv, dval = draw.Point{X: dv.Y, Y: dv.X}, draw.Point{X: dval.Y, Y: dval.X}
		}
		b := c.Plot()
		wantV, wantVal := 60./130*b.H(), 0.2/1.6*b.W()
		if across {
			wantV, wantVal = 60./130*b.W(), 0.2/1.6*b.H()
		}
		if math.Abs(dv.Y-wantV) > 1e-9 || math.Abs(dv.X) > 1e-9 || math.Abs(dval.X-wantVal) > 1e-9 || math.Abs(dval.Y) > 1e-9 {
			t.Errorf("across %v: 60 mm of travel is %v, 0.2 deg is %v", across, dv, dval)
		}
		if v := c.VarAt(q); math.Abs(v-40) > 1e-9 {
			t.Errorf("across %v: 40 came back as %g", across, v)
		}
		if v := c.VarAt(draw.Point{X: 1e4, Y: 1e4}); v != 70 {
			t.Errorf("across %v: far out is %g", across, v)
		}
	}
}

// Curves stay in the plot and break where there is no value.
func TestCurvesClipAndGap(t *testing.T) {
	c := strip()
	c.Curves[0].OK[30] = false
	var l draw.List
	c.Draw(&l)
	runs := ofRole(&l, draw.CurveNow)
	if len(runs) != 2 {
		t.Fatalf("%d runs, want 2 about the gap", len(runs))
	}
	plot := c.Plot().Grow(1e-9)
	for _, it := range append(runs, ofRole(&l, draw.CurveBefore)...) {
		for _, p := range l.Corners(it) {
			if !plot.Has(p.At) {
				t.Fatalf("curve leaves the plot at %v", p.At)
			}
		}
	}
	hole := c.At(c.Curves[0].Var[30], c.Curves[0].Val[30])
	for _, it := range runs {
		for _, p := range l.Corners(it) {
			if p.At == hole {
				t.Error("the value that is none was drawn")
			}
		}
	}
	if n := len(ofRole(&l, draw.BandNow)); n != 2 {
		t.Errorf("%d bands, want 2 about the gap", n)
	}
}

// The names stand in the plot, off both curves, the level line and each other.
func TestLabelsStandFree(t *testing.T) {
	c := strip()
	for _, level := range []float64{20, -41.5, 63} {
		c.Level = level
		var l draw.List
		c.Draw(&l)
		var boxes []draw.Box
		for _, it := range append(ofRole(&l, draw.TextNow), ofRole(&l, draw.TextBefore)...) {
			w, up, down := c.Styles.TextSize(it.Role, draw.OnScreen, l.TextOf(it))
			o := it.Centre.At.Add(it.Centre.By.Mul(1 / c.Zoom))
			boxes = append(boxes, draw.Box{
				Min: draw.Point{X: o.X, Y: o.Y - down/c.Zoom},
				Max: draw.Point{X: o.X + w/c.Zoom, Y: o.Y + up/c.Zoom},
			})
		}
		if len(boxes) != 2 || boxes[0].Overlaps(boxes[1]) {
			t.Fatalf("level %g: names at %v", level, boxes)
		}
		for _, role := range []draw.Role{draw.CurveNow, draw.CurveBefore, draw.Level, draw.Grid} {
			for _, it := range ofRole(&l, role) {
				p := l.Corners(it)
				for k := 1; k < len(p); k++ {
					for _, b := range boxes {
						if _, _, hit := draw.SegmentInBox(p[k-1].At, p[k].At, b); hit {
							t.Fatalf("level %g: a name at %v stands on a line of role %d", level, b, role)
						}
					}
				}
			}
		}
	}
}

// Steady, the names go with their curves and nowhere else, whatever crosses them;
// then they stand free again.
func TestSteadyNamesGoWithTheirCurves(t *testing.T) {
	c := strip()
	names := func() (at [2]draw.Point) {
		var l draw.List
		c.Draw(&l)
		for i, role := range []draw.Role{draw.TextNow, draw.TextBefore} {
			for _, it := range ofRole(&l, role) {
				at[i] = it.Centre.At.Add(it.Centre.By.Mul(1 / c.Zoom))
			}
		}
		return at
	}
	first := names()
	for _, steady := range []bool{true, false} {
		moved := 0
		c.Steady = steady
		for level := -55.0; level < 65; level += 5 {
			if c.Level = level; names() != first {
				moved++
			}
		}
		if moved > 0 == steady {
			t.Errorf("steady %v: names elsewhere at %d levels", steady, moved)
		}
	}
	c.Level = 20
	first = names()
	c.Steady = true
	const more = 0.07 // of the curve of now
	for i := range c.Curves[0].Val {
		c.Curves[0].Val[i] += more
	}
	at := names()
	want := c.At(0, more).Sub(c.At(0, 0))
	if got := at[0].Sub(first[0]); got.Sub(want).Len() > 1e-9 || at[1] != first[1] {
		t.Errorf("the curve went %v, its name %v, the other %v", want, got, at[1].Sub(first[1]))
	}
}

func TestTickTexts(t *testing.T) {
	c := strip()
	var l draw.List
	c.Draw(&l)
	var got []string
	for _, it := range ofRole(&l, draw.TextTick) {
		got = append(got, string(l.TextOf(it)))
		if at := it.Centre.At.X - c.At(0, 0).X; string(l.TextOf(it)) == "0" && math.Abs(at) > 1e-9 {
			t.Errorf("the zero stands %g mm off", at)
		}
	}
	if s := strings.Join(got, " "); s != "\u22120.8 0 0.8" {
		t.Errorf("tick labels %q", s)
	}
}

// However narrow the strip: the labels are evenly spaced, none touch, zero is among
// them unless only two fit, there are two wherever the ends leave room for them, and the line at zero is the stronger one.
func TestNarrowTicksAreEven(t *testing.T) {
	for _, rg := range []Range{{-0.25, 0.75}, {-1.5, 1.5}, {-0.4, 0.2}, {-9, 1}, {-3, 0}, {0, 7}, {0.45, 0.65}, {-27000, 34000}} {
		for wide := 60.0; wide < 200; wide += 7 {
			c := strip()
			c.Zoom, c.Val = 1, rg
			c.Insets = draw.Margins{Left: 12, Right: 12, Top: 48, Bottom: 36}
			c.Box = draw.Box{Max: draw.Point{X: wide, Y: 400}}
			var l draw.List
			c.Draw(&l)
			var at []float64
			zero, end := false, math.Inf(-1)
			for _, it := range ofRole(&l, draw.TextTick) {
				text := string(l.TextOf(it))
				half := c.Styles[draw.TextTick].Face.Width(text) * c.Styles[draw.TextTick].Size / 2
				x := it.Centre.At.X
				if x-half < end+labelAir-1e-9 || x-half < 0 || x+half > wide {
					t.Fatalf("%v, %g wide: the label %q at %g touches", rg, wide, text, x)
				}
				end, zero = x+half, zero || text == "0"
				v, err := strconv.ParseFloat(strings.NewReplacer("\u2212", "-", "\u2009", "").Replace(text), 64)
				if err != nil {
					t.Fatal(err)
				}
				at = append(at, v)
			}
			if rg.Has(0) && !zero && len(at) != 2 || len(at) == 0 || len(at) < 2 && wide > 100 {
				t.Errorf("%v, %g wide: labels %v", rg, wide, at)
			}
			for i := 2; i < len(at); i++ {
				if d := at[i] - 2*at[i-1] + at[i-2]; math.Abs(d) > 1e-9*(rg.Max-rg.Min) {
					t.Errorf("%v, %g wide: uneven labels %v", rg, wide, at)
				}
			}
			checkZeroLine(t, c, &l)
		}
	}
}

// checkZeroLine wants an upright line of the axis at zero, if zero is in the range.
func checkZeroLine(t *testing.T, c *Chart, l *draw.List) {
	t.Helper()
	found := false
	for _, it := range ofRole(l, draw.Axis) {
		p := l.Corners(it)
		found = found || p[0].At.X == c.At(0, 0).X && p[1].At.X == p[0].At.X
	}
	if found != c.Val.Has(0) {
		t.Errorf("%v: a line at zero is %v", c.Val, found)
	}
}

// Two flat curves close together in a narrow strip leave no free place beside
// them: both are named all the same, off each other.
func TestNamesAreNeverMissing(t *testing.T) {
	for wide := 60.0; wide < 110; wide += 5 {
		c := strip()
		c.Zoom = 1
		c.Insets = draw.Margins{Left: 12, Right: 12, Top: 48, Bottom: 36}
		c.Box = draw.Box{Max: draw.Point{X: wide, Y: 400}}
		for i := range c.Curves {
			for k := range c.Curves[i].Val {
				c.Curves[i].Val[k] = 0.07 - 0.11*float64(i) + c.Curves[i].Var[k]/900
				c.Curves[i].OK = nil
			}
		}
		var l draw.List
		c.Draw(&l)
		names := append(ofRole(&l, draw.TextNow), ofRole(&l, draw.TextBefore)...)
		if len(names) != 2 {
			t.Fatalf("%g wide: %d names", wide, len(names))
		}
		if d := names[0].Centre.At.Add(names[0].Centre.By).Sub(names[1].Centre.At.Add(names[1].Centre.By)); math.Abs(d.Y) < 12 && math.Abs(d.X) < 20 {
			t.Errorf("%g wide: the names stand on each other", wide)
		}
	}
}

func TestDrawKeepsMemory(t *testing.T) {
	c := strip()
	var l draw.List
	c.Draw(&l)
	n := testing.AllocsPerRun(20, func() {
		l.Reset()
		c.Draw(&l)
	})
	if n != 0 {
		t.Errorf("drawing allocates %g times", n)
	}
}

func TestChartRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Chart){
		"range":   func(c *Chart) { c.Val = Range{1, 1} },
		"lengths": func(c *Chart) { c.Curves[0].Val = c.Curves[0].Val[1:] },
		"gaps":    func(c *Chart) { c.Bands[0].OK = c.Bands[0].OK[2:] },
		"room":    func(c *Chart) { c.Box.Max.Y = c.Box.Min.Y + 5 },
		"NaN":     func(c *Chart) { c.Curves[1].Val[7] = math.NaN() },
	} {
		func() {
			c := strip()
			spoil(c)
			defer func() {
				if recover() == nil {
					t.Errorf("%s: drawn", name)
				}
			}()
			c.Draw(&draw.List{})
		}()
	}
}

// Strips and an ordinary chart, painted in both palettes: the aim's green, the
// curve's orange and the grid must all be in the picture.
func TestPaintedCharts(t *testing.T) {
	v := draw.PaperView(250, 180, 1, draw.Point{X: 125, Y: 90})
	for name, pal := range map[string]*draw.Palette{"light": draw.Light(), "dark": draw.Dark()} {
		var l draw.List
		for i := range 3 {
			c := strip()
			c.Box.Min.X += 32 * float64(i)
			c.Box.Max.X += 32 * float64(i)
			c.Title = []string{"toe", "camber", "tie-rod error"}[i]
			c.Val = Range{-0.8 - float64(i), 0.8 + float64(i)*0.7}
			c.Draw(&l)
		}
		c := strip()
		c.Across, c.VarLabels = true, true
		c.Box = draw.Box{Min: draw.Point{X: 120, Y: 60}, Max: draw.Point{X: 235, Y: 165}}
		c.Draw(&l)
		img := raster.New().Paint(&l, raster.Frame{View: v, Styles: draw.HouseStyles(), Palette: pal})
		for _, tok := range []draw.Token{draw.Now, draw.Before, draw.Hairline, draw.Ink} {
			n := 0
			for y := range img.Rect.Dy() {
				for x := range img.Rect.Dx() {
					p := img.RGBAAt(x, y)
					if p.R == pal[tok].R && p.G == pal[tok].G && p.B == pal[tok].B {
						n++
					}
				}
			}
			if n < 40 {
				t.Errorf("%s: only %d px of token %d", name, n, tok)
			}
		}
		if *pictures != "" {
			f, err := os.Create(filepath.Join(*pictures, "chart-"+name+".png"))
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
	}
}

func BenchmarkDraw(b *testing.B) {
	c := strip()
	var l draw.List
	b.ReportAllocs()
	for b.Loop() {
		l.Reset()
		c.Draw(&l)
	}
}
