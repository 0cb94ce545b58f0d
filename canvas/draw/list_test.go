package draw

import (
	"image/color"
	"math"
	"strings"
	"testing"
)

func buildList(l *List) {
	l.Reset()
	l.On(LayerLinks)
	l.Line(Arm, Point{395, 470}, Point{655, 492})
	l.Polyline(Construction, Point{1, 2}, Point{3, 5}, Point{8, 13})
	l.On(LayerHandles)
	l.Handle(HandleFixed, Point{395, 470})
	l.Arc(TieRodArc, Point{345, 232}, 347, -0.2, 0.5)
	l.Arrowhead(Arrow, At(30, 40), Point{3, -1})
	l.DimensionLine(Dimension, Arrow, Point{700, 0}, Point{732, 0}, 20, 50)
	l.On(LayerNotes)
	l.Text(TextBody, At(5, 7).Off(3, 4), Centre|Top, "32.2 ± 1.8")
}

func TestListKeepsMemory(t *testing.T) {
	var l List
	buildList(&l)
	n := len(l.Items())
	if a := testing.AllocsPerRun(50, func() { buildList(&l) }); a != 0 {
		t.Errorf("rebuilding a list allocates %g times", a)
	}
	if len(l.Items()) != n {
		t.Errorf("%d items after Reset, %d before", len(l.Items()), n)
	}
	last := &l.Items()[n-1]
	if got := string(l.TextOf(last)); got != "32.2 ± 1.8" || last.Layer != LayerNotes {
		t.Errorf("text %q on layer %v", got, last.Layer)
	}
	if c := l.Corners(&l.Items()[1]); len(c) != 3 || c[2].At != (Point{8, 13}) {
		t.Errorf("polyline has corners %v", c)
	}
}

func TestListDropsNothings(t *testing.T) {
	var l List
	l.Polyline(Arm, Point{3, 4})
	l.Text(TextBody, At(1, 2), Left, "")
	l.Rect(BandTarget, EmptyBox())
	if len(l.Items()) != 0 {
		t.Errorf("%d items", len(l.Items()))
	}
	l.Line(Arm, Point{1, 2}, Point{3, 5})
	if c := l.Corners(&l.Items()[0]); len(c) != 2 {
		t.Errorf("a dropped corner turned up again: %v", c)
	}
}

func TestListRefusesNaN(t *testing.T) {
	cases := map[string]func(*List){
		"corner":   func(l *List) { l.Line(Arm, Point{1, 2}, Point{math.NaN(), 3}) },
		"offset":   func(l *List) { l.Circle(Arm, At(1, 2).Off(math.Inf(1), 0), 1, 0) },
		"radius":   func(l *List) { l.Circle(Arm, At(1, 2), -1, 0) },
		"sweep":    func(l *List) { l.Arc(Arm, Point{1, 2}, 3, 0, math.Inf(-1)) },
		"text":     func(l *List) { l.Text(TextBody, At(1, math.NaN()), Left, "x") },
		"arrow":    func(l *List) { l.Arrowhead(Arrow, At(1, 2), Point{}) },
		"equal":    func(l *List) { l.DimensionLine(Dimension, Arrow, Point{1, 2}, Point{1, 2}, 3, 0) },
		"overflow": func(l *List) { l.Line(Arm, Point{math.Inf(1), math.Inf(-1)}, Point{3, 4}) },
	}
	for name, f := range cases {
		func() {
			defer func() {
				msg, _ := recover().(string)
				if !strings.HasPrefix(msg, "draw: ") {
					t.Errorf("%s: panic %q", name, msg)
				}
			}()
			f(&List{})
			t.Errorf("%s: taken", name)
		}()
	}
}

func TestBounds(t *testing.T) {
	var l List
	if !l.Bounds().IsEmpty() {
		t.Error("an empty list has a box")
	}
	l.Line(Arm, Point{395, 470}, Point{655, 492})
	l.Circle(Outline, At(100, 50), 30, 5)
	l.Text(TextBody, At(700, 60).Off(90, 90), Left, "note")
	if got, want := l.Bounds(), (Box{Point{70, 20}, Point{700, 492}}); got != want {
		t.Errorf("bounds %v, want %v", got, want)
	}
}

func TestEveryRoleHasAStyle(t *testing.T) {
	s := HouseStyles()
	names := map[string]bool{}
	for r := range s {
		st := &s[r]
		switch {
		case st.Name == "":
			t.Errorf("role %d has no style", r)
		case names[st.Name]:
			t.Errorf("two roles are called %s", st.Name)
		case st.Stroke == None && st.Fill == None:
			t.Errorf("%s is invisible", st.Name)
		case st.Stroke != None && st.Pen == 0 && st.Size == 0:
			t.Errorf("%s has neither pen nor text size", st.Name)
		}
		if st.Size == 0 && st.PaperPen != 0 && st.PaperPen != narrow && st.PaperPen != wide && st.PaperPen != extraWide {
			t.Errorf("%s has a pen of %g mm, none of 1 : 2 : 4", st.Name, st.PaperPen)
		}
		names[st.Name] = true
	}
}

// Contrast of at least 3 : 1 for lines and 4.5 : 1 for small text on paper,
// WCAG 2.2, 1.4.11 and 1.4.3; luminance after its definition of relative
// luminance. Hairlines carry no meaning of their own.
func TestContrast(t *testing.T) {
	for name, p := range map[string]*Palette{"light": Light(), "dark": Dark(), "print": Print()} {
		for _, c := range []struct {
			token Token
			least float64
		}{{Ink, 4.5}, {Quiet, 4.5}, {Now, 3}, {Before, 4.5}, {Good, 4.5}} {
			if got := contrast(p[c.token], p[Paper]); got < c.least {
				t.Errorf("%s: token %d has %.2f : 1 on paper, want %g", name, c.token, got, c.least)
			}
		}
	}
}

func contrast(a, b color.NRGBA) float64 {
	l := func(c color.NRGBA) float64 {
		f := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
	}
	x, y := l(a), l(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// The chords of an arc must not leave it by more than the tolerance, nor be
// many more than needed.
func TestArcSteps(t *testing.T) {
	for _, r := range []float64{0.3, 4, 347, 56000} {
		for _, sweep := range []float64{0.4, -2.9, 2 * math.Pi} {
			n := ArcSteps(r, sweep, 0.1)
			sag := func(n int) float64 { return r * (1 - math.Cos(math.Abs(sweep)/float64(n)/2)) }
			if s := sag(n); s > 0.1000001 {
				t.Errorf("radius %g, sweep %g: %d chords are %g off", r, sweep, n, s)
			}
			if n > 1 && r > 0.3 && sag(n-1) <= 0.1 {
				t.Errorf("radius %g, sweep %g: %d chords, one fewer would do", r, sweep, n)
			}
		}
	}
}
