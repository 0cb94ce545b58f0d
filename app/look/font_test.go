package look

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	gofont "github.com/go-text/typesetting/font"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"armscribe/canvas/draw/font"
)

const wanted = "\u2212\u2248✓✕→▶◂▾"

var faces = []font.Face{font.Regular, font.Bold}

func TestTheWidgetFontHasEverySignForTwoReaders(t *testing.T) {
	for _, f := range faces {
		ttf := widgetFonts[f]().Content()
		a, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		b, err := gofont.ParseTTF(bytes.NewReader(ttf))
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		for _, r := range wanted {
			i, err := a.GlyphIndex(&buf, r)
			if err != nil || i == 0 {
				t.Errorf("face %d: no glyph for %c (%v)", f, r, err)
				continue
			}
			if _, err := a.LoadGlyph(&buf, i, fixed.I(1000), nil); err != nil {
				t.Errorf("face %d, %c: %v", f, r, err)
			}
			j, ok := b.NominalGlyph(r)
			if !ok || int(j) != int(i) {
				t.Errorf("face %d, %c: glyph %d for one reader, %d for the other", f, r, i, j)
			}
			if o, ok := b.GlyphData(j).(gofont.GlyphOutline); !ok || len(o.Segments) < 3 {
				t.Errorf("face %d, %c: no outline", f, r)
			}
		}
	}
}

// All that the font had must be as it was: widths and outlines of every rune.
func TestTheWidgetFontKeepsAllOtherGlyphs(t *testing.T) {
	for _, f := range faces {
		was, err := sfnt.Parse(f.TTF())
		if err != nil {
			t.Fatal(err)
		}
		now, err := sfnt.Parse(widgetFonts[f]().Content())
		if err != nil {
			t.Fatal(err)
		}
		var p, q sfnt.Buffer
		em, known := fixed.I(1000), 0
		for r := rune(0); r < 0xFFFF; r++ {
			i, err := was.GlyphIndex(&p, r)
			if err != nil {
				t.Fatal(err)
			}
			j, err := now.GlyphIndex(&q, r)
			if err != nil {
				t.Fatal(err)
			}
			if i == 0 {
				continue
			}
			known++
			a, _ := was.GlyphAdvance(&p, i, em, xfont.HintingNone)
			b, _ := now.GlyphAdvance(&q, j, em, xfont.HintingNone)
			if i != j || a != b {
				t.Fatalf("%U: glyph %d, width %v became %d, %v", r, i, a, j, b)
			}
			if known%17 != 0 {
				continue
			}
			s, _ := was.LoadGlyph(&p, i, em, nil)
			s = append(sfnt.Segments(nil), s...)
			u, err := now.LoadGlyph(&q, j, em, nil)
			if err != nil || len(s) != len(u) {
				t.Fatalf("%U: outline of %d steps became %d (%v)", r, len(s), len(u), err)
			}
			for k := range s {
				if s[k] != u[k] {
					t.Fatalf("%U: step %d differs", r, k)
				}
			}
		}
		if known < 2000 {
			t.Errorf("only %d runes compared", known)
		}
	}
}

// The minus must stand as high, as wide and as thick as that of the drawings.
func TestTheMinusIsThatOfTheDrawings(t *testing.T) {
	for _, f := range faces {
		now, err := sfnt.Parse(widgetFonts[f]().Content())
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		i, _ := now.GlyphIndex(&buf, '\u2212')
		w, _ := now.GlyphAdvance(&buf, i, fixed.I(1000), xfont.HintingNone)
		if got := float64(w) / 64000; math.Abs(got-f.Advance('\u2212')) > 1e-3 {
			t.Errorf("width %g em, drawn %g", got, f.Advance('\u2212'))
		}
		b, _, err := now.GlyphBounds(&buf, i, fixed.I(1000), xfont.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		x0, x1, y0, y1 := 9.0, -9.0, 9.0, -9.0
		for _, s := range f.Outline(nil, '\u2212') {
			x0, x1 = min(x0, s.P[0][0]), max(x1, s.P[0][0])
			y0, y1 = min(y0, s.P[0][1]), max(y1, s.P[0][1])
		}
		for k, d := range []float64{float64(b.Min.X)/64000 - x0, float64(b.Max.X)/64000 - x1, -float64(b.Max.Y)/64000 - y0, -float64(b.Min.Y)/64000 - y1} {
			if math.Abs(d) > 1e-3 {
				t.Errorf("face %d: edge %d of the minus is off by %g em", f, k, d)
			}
		}
	}
}

// A widget's minus must be one dark bar and not a box or a blank: about as much
// ink as an en dash, in one run of rows.
func TestAWidgetPaintsTheMinus(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(Theme{Mode: Light})
	rows := func(text string) (top, bottom int) {
		x := fynecanvas.NewText(text, color.Black)
		x.TextSize = 40
		w := test.NewTempWindow(t, x)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(60, 70))
		return inkRows(w.Canvas().Capture())
	}
	top, bottom := rows("\u2212")
	if h := bottom - top + 1; h < 2 || h > 6 {
		t.Errorf("the minus is %d px high (rows %d to %d)", h, top, bottom)
	}
	plusTop, plusBottom := rows("+")
	if mid, plus := (top+bottom)/2, (plusTop+plusBottom)/2; mid-plus > 1 || plus-mid > 1 {
		t.Errorf("the minus lies at row %d, the plus at %d", mid, plus)
	}
}

func inkRows(img image.Image) (top, bottom int) {
	top, bottom = 1<<20, -1
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0x7000 {
				top, bottom = min(top, y), max(bottom, y)
			}
		}
	}
	return top, bottom
}
