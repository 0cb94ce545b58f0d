package scene

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

var update = flag.Bool("update", false, "rewrite the markup in testdata; look at it before committing")

// markup writes a list as text, one thing a line, coordinates with the given
// verb: mm of the world, and after a slash points of the sheet.
func markup(l *draw.List, number string) string {
	var w bytes.Buffer
	styles := draw.HouseStyles()
	num := func(v float64) string {
		s := fmt.Sprintf(number, v)
		if s == "-0.00" {
			return "0.00"
		}
		return s
	}
	pos := func(p draw.Pos) {
		fmt.Fprintf(&w, " %s,%s", num(p.At.X), num(p.At.Y))
		if p.By != (draw.Point{}) {
			fmt.Fprintf(&w, "/%s,%s", num(p.By.X), num(p.By.Y))
		}
	}
	for layer := range draw.Layers {
		fmt.Fprintf(&w, "%s\n", draw.Layer(layer))
		for i := range l.Items() {
			it := &l.Items()[i]
			if int(it.Layer) != layer {
				continue
			}
			fmt.Fprintf(&w, "  %s", styles[it.Role].Name)
			switch it.Kind {
			case draw.KindText:
				fmt.Fprintf(&w, " %q align %d", l.TextOf(it), it.Align)
				pos(it.Centre)
			case draw.KindPath:
				if it.Closed {
					w.WriteString(" closed")
				}
				for _, p := range l.Corners(it) {
					pos(p)
				}
			default:
				fmt.Fprintf(&w, " round %s/%s from %s over %s at", num(it.R), num(it.RBy), num(it.From), num(it.Sweep))
				pos(it.Centre)
			}
			w.WriteByte('\n')
		}
	}
	return w.String()
}

func exact(l *draw.List) string { return markup(l, "%x") }

func build(t testing.TB, v draw.View, in *Input) (*draw.List, *Output) {
	t.Helper()
	l, out := new(draw.List), new(Output)
	if err := Build(l, v, in, out); err != nil {
		t.Fatal(err)
	}
	return l, out
}

func demoNamed(t testing.TB, name string) *Input {
	t.Helper()
	for _, d := range demos(t) {
		if d.name == name {
			return d.in
		}
	}
	t.Fatalf("no demo %q", name)
	return nil
}

func TestMarkup(t *testing.T) {
	for _, name := range []string{"longer", "roll-before", "level", "roomy", "roomy-plan"} {
		in := demoNamed(t, strings.TrimSuffix(name, "-plan"))
		in.Swept = [2][]r2.Vec{} // hundreds of corners, tested apart
		v := draw.View{W: 520, H: 610}
		l, _ := build(t, fitted(v, in), in)
		if strings.HasSuffix(name, "-plan") {
			l, _ = buildPlan(t, FitPlan(v, in), in)
		}
		got := markup(l, "%.2f")
		file := filepath.Join("testdata", name+"-520x610.txt")
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got == string(want) {
			continue
		}
		failed := filepath.Join(t.TempDir(), filepath.Base(file))
		g, w := bytes.Split([]byte(got), []byte("\n")), bytes.Split(want, []byte("\n"))
		for i := range max(len(g), len(w)) {
			if i >= len(g) || i >= len(w) || !bytes.Equal(g[i], w[i]) {
				t.Errorf("%s, line %d differs", failed, i+1)
				if i < len(w) {
					t.Errorf("want %s", w[i])
				}
				if i < len(g) {
					t.Errorf("got  %s", g[i])
				}
				break
			}
		}
	}
}

// The picture depends on view and input alone: not on what was drawn before, in
// which order, or into which memory.
func TestSameInputSamePicture(t *testing.T) {
	list := demos(t)
	v := draw.View{W: 700, H: 800}
	want := make([]string, len(list))
	for i, d := range list {
		l, _ := build(t, fitted(v, d.in), d.in)
		p, _ := buildPlan(t, fitted(v, d.in), d.in)
		want[i] = exact(l) + exact(p)
	}
	var l draw.List
	var out Output
	for step := 1; step < len(list); step += 3 {
		for i := range 2 * len(list) {
			k := i * step % len(list)
			d := list[k]
			if err := Build(&l, fitted(v, d.in), d.in, &out); err != nil {
				t.Fatal(err)
			}
			got := exact(&l)
			if err := BuildPlan(&l, fitted(v, d.in), d.in, &out); err != nil {
				t.Fatal(err)
			}
			if got+exact(&l) != want[k] {
				t.Fatalf("%s differs after step %d of history %d", d.name, i, step)
			}
		}
	}
}

// Two ways to one position give one picture.
func TestDragHistoryLeavesNoTrace(t *testing.T) {
	v := draw.View{Centre: draw.Point{X: 420, Y: 330}, Zoom: 0.62, W: 520, H: 610}
	drag := func(ys ...float64) string {
		s := subject(t, "drag", wide(), wideSection, 1)
		in := inputOf(s)
		in.Travel = -17
		var l draw.List
		var out Output
		for _, y := range ys {
			c := s.Study.Case
			c.Corner.TieRod.OuterEnd.Y = y
			if err := s.Study.Update(c, 0); err != nil {
				t.Fatal(err)
			}
			in.Selected = OfPoint(kinematics.OuterEnd)
			if err := Build(&l, v, in, &out); err != nil {
				t.Fatal(err)
			}
		}
		return exact(&l)
	}
	if drag(688, 701.5, 677, 683.25) != drag(683.25) {
		t.Error("the way there shows in the picture")
	}
}
