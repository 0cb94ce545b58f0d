package canvas

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
	"armscribe/canvas/scene"
	"armscribe/canvas/svg"
)

var sheetPictures = flag.String("sheet-pictures", "", "folder to write sheets to, for a look")

func saveSheet(t *testing.T, name string, s draw.Sheet) {
	t.Helper()
	if *sheetPictures == "" {
		return
	}
	var b bytes.Buffer
	if err := raster.WritePNG(&b, s, 110); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(*sheetPictures, name+".png"), b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// sheetWords returns the texts of a sheet, and fails for those that leave it.
func sheetWords(t *testing.T, s *draw.Sheet) string {
	t.Helper()
	var words []string
	for i := range s.List.Items() {
		it := &s.List.Items()[i]
		if it.Kind != draw.KindText {
			continue
		}
		text := s.List.TextOf(it)
		words = append(words, string(text))
		w, up, down := s.Styles.TextSize(it.Role, draw.OnPaper, text)
		o := s.View.Sheet(it.Centre).Add(s.Styles.TextOrigin(it.Role, draw.OnPaper, it.Align, text))
		if win := s.View.Window().Grow(0.5); !win.Has(draw.Point{X: o.X, Y: o.Y - down}) || !win.Has(draw.Point{X: o.X + w, Y: o.Y + up}) {
			t.Errorf("%q leaves the sheet", text)
		}
	}
	return strings.Join(words, "|")
}

// A sheet tells what it shows: job, variants, which line is which, scale, caution;
// and all of it reaches the files.
func TestSheetsTellWhatTheyShow(t *testing.T) {
	o := newOwner(t, sampleCorner(), 20)
	in := o.view.Input()
	before := in.Now
	before.Name = "as measured, before"
	in.Before, in.Overlays = &before, scene.AllOverlays&^scene.OtherSide
	in.Now.Name = "longer arms <2>"
	o.view.SetInput(in)
	view := o.view.Sheet("Invented estate, front")
	st := NewStrips(travelAxis())
	st.SetInput(sampleInput())
	strips := st.SheetWith(TitleBlock{Job: "Invented estate, front", Now: "longer arms <2>", Before: "as measured, before"}, 520, 400)
	for name, s := range map[string]*draw.Sheet{"view": &view, "strips": &strips} {
		saveSheet(t, name, *s)
		words := sheetWords(t, s)
		for _, want := range []string{"Invented estate, front", "now: longer arms <2>", "before: as measured, before", Caution} {
			if !strings.Contains(words, want) {
				t.Errorf("%s: no %q in %s", name, want, words)
			}
		}
		if has := strings.Contains(words, "|200 mm") || strings.Contains(words, "|100 mm"); has != (name == "view") {
			t.Errorf("%s: a scale bar is %v", name, has)
		}
		var b bytes.Buffer
		if err := svg.Write(&b, *s); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(b.String(), "longer arms &lt;2&gt;") {
			t.Errorf("%s: the file does not name the variant", name)
		}
	}
}

// The scale bar is as long as it says, whatever the zoom.
func TestScaleBarIsTrue(t *testing.T) {
	for _, perMM := range []float64{0.03, 0.41, 1.7, 23} {
		mm := scaleBar(perMM, 180, false)
		if long := mm * perMM; long > 180 || long < 180/2.6 {
			t.Errorf("%g points a mm: a bar of %g mm is %g points", perMM, mm, long)
		}
		var l draw.List
		at := func(x, y float64) draw.Pos { return draw.At(x, -y) }
		drawScaleBar(&l, at, 9, mm, perMM, nil)
		c := l.Corners(&l.Items()[0])
		if d := c[1].At.X - c[0].At.X - mm*perMM; d > 1e-9 || d < -1e-9 {
			t.Errorf("%g points a mm: the bar is off by %g points", perMM, d)
		}
	}
}

// In inches a scale bar is a round length of a tape.
func TestScaleBarInInches(t *testing.T) {
	for _, c := range []struct{ perMM, inches float64 }{{0.03, 120}, {0.1, 60}, {0.3, 12}, {0.41, 12}, {0.7, 6}, {1.7, 4}, {5, 1}, {9, 0.5}, {23, 0.25}} {
		if mm := scaleBar(c.perMM, 180, true); mm != 25.4*c.inches {
			t.Errorf("%g points a mm: a bar of %g in, want %g", c.perMM, mm/25.4, c.inches)
		}
	}
}

// On paper too, the sample of a dashed line of a legend has a gap.
func TestSamplesOnPaperShowTheirDashes(t *testing.T) {
	st := draw.HouseStyles()
	const sample = 22 // points, the shortest in a legend
	for _, role := range []draw.Role{draw.TieRodArc, draw.LowerArmArc} {
		p := st[role].DashOn(draw.OnPaper)
		if p.N < 2 || p.L[0]+p.L[1] > sample {
			t.Errorf("%s: dash and gap of %v points in a sample of %d", st[role].Name, p.L[:p.N], sample)
		}
	}
}
