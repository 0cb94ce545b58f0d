package draw

import (
	"math"
	"testing"
)

// What is appended stands where the view shows it, offsets and texts kept, and circles
// as large as they are seen.
func TestAppendedStandsWhereItIsSeen(t *testing.T) {
	var from, to List
	from.On(LayerLinks)
	at := At(317, -43).Off(5, -7)
	from.Path(Arm, true, at, At(-21, 89), At(4, 6).Off(-3, 2))
	from.On(LayerNotes)
	from.Text(TextSmall, at, Right|Middle, "spacer 31.7 mm")
	from.Circle(HandleFixed, at, 23, 3.5)
	from.Arc(TieRodArc, Point{11, 13}, 57, 0.3, -1.1)
	to.Text(TextQuiet, At(2, 3), Left, "first")
	v, p := View{Centre: Point{105, 61}, Zoom: 0.37, W: 291, H: 187}, Point{19, 410}
	to.Append(&from, v, p)
	if n := len(to.Items()); n != 5 {
		t.Fatalf("%d items", n)
	}
	same := func(what string, got, was Pos) {
		t.Helper()
		x, y := v.Place(was)
		want := Point{p.X + x, p.Y + v.H - y}
		if off := got.At.Add(got.By).Sub(want).Len(); off > 1e-9 || got.By != was.By {
			t.Errorf("%s at %v, want %v", what, got, want)
		}
	}
	for i := range from.Items() {
		was, got := &from.Items()[i], &to.Items()[i+1]
		if got.Kind != was.Kind || got.Role != was.Role || got.Layer != was.Layer || got.Closed != was.Closed || got.Align != was.Align ||
			math.Abs(got.R-v.Zoom*was.R) > 1e-9 || got.RBy != was.RBy || got.From != was.From || got.Sweep != was.Sweep {
			t.Errorf("%+v became %+v", was, got)
		}
		if was.Kind != KindPath {
			same("centre", got.Centre, was.Centre)
			continue
		}
		for k, c := range from.Corners(was) {
			same("corner", to.Corners(got)[k], c)
		}
	}
	if got := string(to.TextOf(&to.Items()[2])); got != "spacer 31.7 mm" {
		t.Errorf("the text is %q", got)
	}
}

// The place of a text is the same however it is anchored there.
func TestTheBoxOfATextIsWhereItStands(t *testing.T) {
	s := HouseStyles()
	var l List
	l.Text(TextBold, At(100, 50), Left, "half track")
	b := s.TextBox(&l, &l.Items()[0], OnScreen)
	if b.Min != (Point{100, 50}) || b.W() < 40 || b.H() < 8 || b.H() > s[TextBold].Size {
		t.Errorf("it stands at %v", b)
	}
	for _, a := range []Align{Right, Centre, Right | Middle, Left | Top, Centre | Bottom} {
		o := s.TextOrigin(TextBold, OnScreen, a, []byte("half track"))
		l.Reset()
		l.Text(TextBold, At(97, 48).Off(3-o.X, 2-o.Y), a, "half track")
		if got := s.TextBox(&l, &l.Items()[0], OnScreen); got.Min.Sub(b.Min).Len() > 1e-9 || got.Max.Sub(b.Max).Len() > 1e-9 {
			t.Errorf("%d: %v, want %v", a, got, b)
		}
	}
}
