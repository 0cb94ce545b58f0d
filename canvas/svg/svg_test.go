package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"armscribe/canvas/draw"
)

var update = flag.Bool("update", false, "write the golden file anew; look at it before committing")

func pt(x, y float64) draw.Point { return draw.Point{X: x, Y: y} }

func sheet() draw.Sheet {
	var l draw.List
	l.On(draw.LayerLinks)
	l.Line(draw.Arm, pt(395, 470), pt(655, 492))
	l.Line(draw.TieRod, pt(345, 232), pt(690, 214))
	l.On(draw.LayerCompared)
	l.Polygon(draw.Compared, pt(560, 3), pt(820, 8), pt(814, 633), pt(554, 628))
	l.Arc(draw.Compared, pt(330, 210), 375, -0.4, 2.6)
	l.Arc(draw.TieRodArc, pt(345, 232), 345.5, 0.3, -0.7)
	l.On(draw.LayerBands)
	l.Rect(draw.BandTarget, draw.Box{Min: pt(700, 40), Max: pt(735, 90)})
	l.On(draw.LayerHandles)
	l.Handle(draw.HandleFixed, pt(395, 470))
	l.Circle(draw.Loupe, draw.At(180, 560), 70, 0)
	l.On(draw.LayerNotes)
	l.Text(draw.TextBold, draw.At(520, 480).Off(0, 8), draw.Centre|draw.Bottom, "upper < arm & \u2212ball")
	l.Text(draw.TextQuiet, draw.At(690, 214).Off(11, 0), draw.Left|draw.Middle, "outer end")
	return draw.Sheet{
		Title: "Corner <1:5>", List: &l, Styles: draw.HouseStyles(), Palette: draw.Print(),
		View: draw.PaperView(210, 148, 5, pt(450, 300)),
	}
}

func TestGolden(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sheet()); err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/sheet.svg"
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	got, lines := strings.Split(b.String(), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(got), len(lines)) {
		g, w := "(no line)", "(no line)"
		if i < len(got) {
			g = got[i]
		}
		if i < len(lines) {
			w = lines[i]
		}
		if g != w {
			t.Fatalf("line %d:\n got %s\nwant %s", i+1, g, w)
		}
	}
}

// The file is XML, states its size in mm, and one unit is one millimetre.
func TestTrueMillimetres(t *testing.T) {
	var l draw.List
	l.Line(draw.Outline, pt(10, 20), pt(110, 37))
	s := draw.Sheet{List: &l, Styles: draw.HouseStyles(), Palette: draw.Print(), View: draw.PaperView(297, 210, 1, pt(60, 40))}
	var b bytes.Buffer
	if err := Write(&b, s); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Width   string `xml:"width,attr"`
		Height  string `xml:"height,attr"`
		ViewBox string `xml:"viewBox,attr"`
		G       struct {
			ID   string `xml:"id,attr"`
			Path struct {
				D string `xml:"d,attr"`
			} `xml:"path"`
		} `xml:"g"`
	}
	if err := xml.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	if doc.Width != "297mm" || doc.Height != "210mm" || doc.ViewBox != "0 0 297 210" {
		t.Errorf("size %s by %s, viewBox %s", doc.Width, doc.Height, doc.ViewBox)
	}
	if doc.G.ID != "bands" || doc.G.Path.D != "M98.5,125 L198.5,108" {
		t.Errorf("group %q, path %q", doc.G.ID, doc.G.Path.D)
	}
}

// An arc written in parts must end where it should and turn the right way: the
// first part of an anticlockwise quarter starting at the right ends at the top.
func TestArcDirection(t *testing.T) {
	for _, c := range []struct {
		sweep float64
		want  string
	}{
		{math.Pi / 2, "M150,60 A30,30 0 0 0 120,30"},
		{-math.Pi / 2, "M150,60 A30,30 0 0 1 120,90"},
		{math.Pi, "M150,60 A30,30 0 0 0 120,30 A30,30 0 0 0 90,60"},
	} {
		var l draw.List
		l.Arc(draw.Outline, pt(20, -10), 30, 0, c.sweep)
		s := draw.Sheet{List: &l, Styles: draw.HouseStyles(), Palette: draw.Print(), View: draw.PaperView(200, 100, 1, pt(0, 0))}
		var b bytes.Buffer
		if err := Write(&b, s); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(b.String(), `d="`+c.want+`"`) {
			t.Errorf("sweep %g: no %q in\n%s", c.sweep, c.want, b.String())
		}
	}
}

type fullDisk struct{ room int }

var errFull = errors.New("disk full")

func (d *fullDisk) Write(p []byte) (int, error) {
	if len(p) > d.room {
		n := d.room
		d.room = 0
		return n, errFull
	}
	d.room -= len(p)
	return len(p), nil
}

// A failing writer is reported wherever the failure falls.
func TestWriteErrors(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sheet()); err != nil {
		t.Fatal(err)
	}
	for room := 0; room < b.Len(); room += 137 {
		if err := Write(&fullDisk{room}, sheet()); !errors.Is(err, errFull) {
			t.Errorf("room for %d bytes: error %v", room, err)
		}
	}
	if err := Write(io.Discard, sheet()); err != nil {
		t.Error(err)
	}
}
