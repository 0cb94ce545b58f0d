package canvas

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
)

var barPictures = flag.String("bar-pictures", "", "folder to write painted bars and strips to, for a look")

func saveBar(t testing.TB, name string, img image.Image) {
	t.Helper()
	if *barPictures == "" {
		return
	}
	f, err := os.Create(filepath.Join(*barPictures, name+".png"))
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

const degree = math.Pi / 180

func travelAxis() Axis {
	return Axis{Name: "travel", Min: -63, Max: 71, MinName: "droop", MaxName: "bump"}
}

// unitFigure writes decimals and a unit, and the band if known.
func unitFigure(perUnit float64, decimals int, unit string) func([]byte, float64, float64) []byte {
	return func(dst []byte, v, half float64) []byte {
		v, half = v/perUnit, half/perUnit
		if v < 0 {
			dst = append(dst, "\u2212"...)
		}
		dst = strconv.AppendFloat(dst, math.Abs(v), 'f', decimals, 64)
		dst = append(dst, unit...)
		if half > 0 {
			dst = append(dst, " ± "...)
			dst = strconv.AppendFloat(dst, half, 'f', decimals, 64)
		}
		return dst
	}
}

// bent is an invented curve: value at rest, slope, bow and S over the travel.
func bent(at []float64, rest, slope, bow, s, unit, half float64) StripCurve {
	var c StripCurve
	for _, v := range at {
		x := v / 60
		c.Value = append(c.Value, unit*(rest+slope*x+bow*x*x+s*x*x*x))
		c.OK = append(c.OK, true)
		c.Half = append(c.Half, unit*half*(0.4+x*x))
	}
	return c
}

func stations(from, to float64) []float64 {
	at := make([]float64, 161)
	for i := range at {
		at[i] = from + (to-from)*float64(i)/160
	}
	return at
}

// sampleInput is an invented corner: four strips over travel.
func sampleInput() StripsInput {
	at, before := stations(-63, 71), stations(-63, 71)
	return StripsInput{
		Axis: travelAxis(), Value: 20, At: at, BeforeAt: before,
		Strips: []StripSpec{
			{
				Title: "toe", Unit: "deg, in +", PerUnit: degree, Format: unitFigure(degree, 2, "°"),
				Now: bent(at, 0.02, -0.62, -0.02, 0.08, degree, 0.07), Before: bent(before, -0.05, -0.31, 0.06, 0.02, degree, 0),
				Target: &StripTarget{Low: -0.05 * degree, High: 0.15 * degree, From: -30, To: 30},
			},
			{
				Title: "camber", Unit: "deg", PerUnit: degree, Format: unitFigure(degree, 2, "°"),
				Now: bent(at, -1.6, -1.3, -0.4, 0, degree, 0.06), Before: bent(before, -1.5, -1.6, -0.2, 0, degree, 0),
			},
			{
				Title: "tie-rod error", Unit: "mm", Format: unitFigure(1, 1, " mm"),
				Now: bent(at, 0, -1.3, 0.2, 0.1, 1, 0.3), Before: bent(before, 0, -0.8, 0.25, 0, 1, 0),
			},
			{
				Title: "roll centre height", Unit: "mm above ground", Format: unitFigure(1, 0, " mm"),
				Now: bent(at, 78, -64, 3, 0, 1, 5), Before: bent(before, 84, -58, 0, 0, 1, 0),
			},
		},
	}
}

func palettes() map[string]*draw.Palette {
	return map[string]*draw.Palette{"light": draw.Light(), "dark": draw.Dark()}
}

func paintStrips(s *Strips, w, h, scale int) *image.RGBA {
	s.Resize(fyne.NewSize(float32(w), float32(h)))
	return s.paintAt(float64(w), float64(h), w*scale, h*scale)
}

// Pictures for a look; what can be checked of them is that light and dark, one
// and two pixels a point, have ink in the same places.
func TestStripsPictures(t *testing.T) {
	for name, pal := range palettes() {
		for scale := 1; scale <= 2; scale++ {
			s := NewStrips(travelAxis())
			s.SetInput(sampleInput())
			s.SetPalette(pal)
			img := paintStrips(s, 470, 610, scale)
			saveBar(t, fmt.Sprintf("strips-%s-%dx", name, scale), img)
			if img.Rect.Dx() != 470*scale {
				t.Errorf("%d px wide", img.Rect.Dx())
			}
			s.point(stripPointer{in: true, x: 130, y: 450})
			s.FocusGained()
			saveBar(t, fmt.Sprintf("strips-hover-%s-%dx", name, scale), paintStrips(s, 470, 610, scale))
			s.point(stripPointer{})
			in := sampleInput()
			in.Axis.From, in.Axis.To = -57, 48.2
			in.Axis.FromWhy, in.Axis.ToWhy = "tie rod binds", "upper arm binds"
			in.At = stations(-57, 48.2)
			for i := range in.Strips {
				for k, v := range in.At {
					in.Strips[i].Now.OK[k] = v < 40 || i != 1
				}
			}
			in.Value = 48
			s.SetInput(in)
			saveBar(t, fmt.Sprintf("strips-reach-%s-%dx", name, scale), paintStrips(s, 400, 520, scale))
			b := NewBar(Axis{Name: "rack", Min: -61, Max: 61, MinName: "right", MaxName: "left", To: 44, From: -70, ToWhy: "tie rod binds"})
			b.SetPalette(pal)
			b.SetValue(12.3)
			b.FocusGained()
			b.Resize(fyne.NewSize(470, 40))
			saveBar(t, fmt.Sprintf("bar-%s-%dx", name, scale), b.paintAt(470, 40, 470*scale, 40*scale))
		}
	}
}

// Strips at a scale set from outside, narrow, and on paper.
func TestStripsOtherPictures(t *testing.T) {
	s := NewStrips(travelAxis())
	s.SetInput(sampleInput())
	s.SetScale(250, 2.4)
	saveBar(t, "strips-scale-tight", paintStrips(s, 330, 620, 2))
	s.SetScale(300, 7)
	s.SetValue(-60)
	saveBar(t, "strips-scale-wide", paintStrips(s, 330, 620, 2))
	if y := s.gripY(); y != s.bottom {
		t.Errorf("the grip of a value off the strips stands at %g, not at the edge %g", y, s.bottom)
	}
	s.FitScale()
	sheet := s.Sheet("Curves", 520, 500)
	saveBar(t, "strips-sheet", raster.New().Paint(sheet.List, raster.Frame{
		View: sheet.View, Styles: sheet.Styles, Palette: sheet.Palette, Medium: draw.OnPaper, Scale: 2,
	}))
}
