package font

import (
	"math"
	"testing"
)

func TestFiguresAreTabular(t *testing.T) {
	for f := Regular; f < faceCount; f++ {
		want := f.Advance('7')
		for _, r := range "0123456789+\u2212" {
			if got := f.Advance(r); got != want {
				t.Errorf("face %d: %q is %g em wide, other figures %g", f, r, got, want)
			}
		}
	}
}

// The widths are those read from the font files' hmtx tables: 572/1000 for a
// figure, 260 for a space, 200 for a thin space.
func TestWidth(t *testing.T) {
	got := Regular.Width("1\u2009169 mm")
	want := 4*0.572 + 0.200 + 0.260 + 2*Regular.Advance('m')
	if math.Abs(got-want) > 1e-12 {
		t.Errorf("width %g em, want %g", got, want)
	}
	if b := Regular.WidthBytes([]byte("1\u2009169 mm")); b != got {
		t.Errorf("WidthBytes %g, Width %g", b, got)
	}
	if n := testing.AllocsPerRun(20, func() { Bold.Width("\u2212169.3 \u2248") }); n != 0 {
		t.Errorf("Width allocates %g times", n)
	}
}

func TestHas(t *testing.T) {
	for _, r := range "A\u2212\u2248±°Δ×½\u2009" {
		if !Bold.Has(r) {
			t.Errorf("%q is missing", r)
		}
	}
	if Regular.Has('漢') {
		t.Error("a rune the font lacks is reported as there")
	}
}

// The built minus must be the bar of the plus: same ends, lying on the axis
// of the sign, as thick as the plus, and nothing above or below.
func TestMinusIsBarOfPlus(t *testing.T) {
	for f := Regular; f < faceCount; f++ {
		box := func(r rune) (x0, x1, y0, y1 float64) {
			x0, y0, x1, y1 = 9, 9, -9, -9
			for _, s := range f.Outline(nil, r) {
				x0, x1 = min(x0, s.P[0][0]), max(x1, s.P[0][0])
				y0, y1 = min(y0, s.P[0][1]), max(y1, s.P[0][1])
			}
			return
		}
		px0, px1, py0, py1 := box('+')
		mx0, mx1, my0, my1 := box(minus)
		if mx0 != px0 || mx1 != px1 {
			t.Errorf("face %d: minus from %g to %g, plus from %g to %g", f, mx0, mx1, px0, px1)
		}
		if d := (my0 + my1) - (py0 + py1); math.Abs(d) > 1e-9 {
			t.Errorf("face %d: minus is %g em off the axis of the plus", f, d/2)
		}
		if thick := my1 - my0; thick < 0.05 || thick > 0.2 {
			t.Errorf("face %d: minus is %g em thick", f, thick)
		}
	}
}

func TestAlmostEqualIsTwoTildes(t *testing.T) {
	tilde, both := Regular.Outline(nil, '~'), Regular.Outline(nil, almostEqual)
	if len(both) != 2*len(tilde) || len(tilde) == 0 {
		t.Fatalf("%d steps for two of %d", len(both), len(tilde))
	}
	if gap := both[0].P[0][1] - both[len(tilde)].P[0][1]; math.Abs(gap-2*almostEqualShift) > 1e-12 {
		t.Errorf("waves %g em apart", gap)
	}
}
