package scene

import (
	"slices"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Every figure of the picture has the band that was given for the pose shown:
// away from the study's own poses those between are not quite the same.
func TestBandsGivenAreThoseWritten(t *testing.T) {
	in := demoNamed(t, "wide")
	in.Travel = 31.7
	st := in.Now.Study
	bands, err := st.Mechanism.Bands(kinematics.Evenly(3*st.Case.Within.Common()), in.Travel, 0)
	if err != nil {
		t.Fatal(err)
	}
	v := fitted(draw.View{W: 700, H: 800}, in)
	plain, _ := build(t, v, in)
	in.Bands = &bands
	l, out := build(t, v, in)
	for q, words := range map[kinematics.Quantity][2]string{
		kinematics.ScrubRadius:      {"scrub ", ""},
		kinematics.RollCentreHeight: {"roll centre ", " above ground"},
		kinematics.InstantCentreY:   {"instant centre ", " beyond the centre plane"},
	} {
		value, _ := out.Readings.Of(q)
		half, ok := bands.Of(q)
		if q == kinematics.InstantCentreY {
			value = -value
		}
		want := words[0] + string(Millimetres(nil, value, half)) + words[1]
		if !ok || !says(l, want) || says(plain, want) {
			t.Errorf("no %q in %q, or already in %q", want, texts(l), texts(plain))
		}
	}
}

// A figure that rests on what is assumed says so, and no other does.
func TestFiguresSayAssumed(t *testing.T) {
	in := demoNamed(t, "wide")
	st := in.Now.Study
	v := fitted(draw.View{W: 900, H: 800}, in)
	// No band of these is so wide as to lose the figure: the assumption is of 5 mm.
	ball := kinematics.Coordinate{Point: kinematics.LowerBall, Axis: 1}
	bands, err := st.Mechanism.Bands(st.Case.Within.Assumed(ball, 5), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	plain, _ := build(t, v, in)
	in.Bands = &bands
	l, _ := build(t, v, in)
	for _, text := range texts(l) {
		if scrub := strings.HasPrefix(text, "scrub "); scrub != strings.HasSuffix(text, ", assumed") && !strings.Contains(text, "centre") {
			t.Errorf("%q", text)
		}
	}
	if !says(l, ", assumed") || says(plain, ", assumed") {
		t.Errorf("%q, measured %q", texts(l), texts(plain))
	}
}

// A note stands beside its handle or is joined to it by a leader, and covers
// nothing: a label far off would be taken for that of another.
func TestNotesAreBesideTheirHandlesOrLedOut(t *testing.T) {
	for _, size := range sizes[1:3] {
		for p := kinematics.UpperFront; p <= kinematics.SpringBody; p++ {
			in := demoNamed(t, "wide")
			in.Hover, in.Note = OfPoint(p), []string{"Some point of it", "y 738.0 mm  z 219.0 mm"}
			v := fitted(size, in)
			l, out := build(t, v, in)
			spot, ok := out.Spot(in.Hover)
			if !ok {
				continue
			}
			if !says(l, in.Note[0]) {
				t.Errorf("%v at %.0f: no note, left out %q", p, size.W, out.LeftOut)
			}
			a := v.Sheet(draw.On(spot.At))
			boxes, items := textBoxes(l, v, draw.HouseStyles())
			whole := draw.EmptyBox()
			for i, box := range boxes {
				if slices.Contains(in.Note, string(l.TextOf(items[i]))) {
					whole = whole.With(box.Min).With(box.Max)
				}
			}
			if clampTo(whole, a).Sub(a).Len() > leadFrom+2 && !ledTo(l, v, a, whole) {
				t.Errorf("%v at %.0f: the note stands away without a leader", p, size.W)
			}
		}
	}
}

// ledTo tells whether a leader runs from beside a handle to beside a box.
func ledTo(l *draw.List, v draw.View, a draw.Point, box draw.Box) bool {
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Role != draw.Leader {
			continue
		}
		c := l.Corners(it)
		from, to := v.Sheet(c[0]), v.Sheet(c[1])
		if from.Sub(a).Len() < handleGap+1 && clampTo(box, to).Sub(to).Len() < 2*notePad {
			return true
		}
	}
	return false
}

// The loupe's lead runs through no text.
func TestTheLeadRunsThroughNoText(t *testing.T) {
	for _, d := range demos(t) {
		for _, size := range sizes[:3] {
			for _, zoom := range []float64{0.4, 1, 1.7} {
				v := fitted(size, d.in)
				v = v.ZoomAbout(draw.Point{X: 640, Y: 260}, zoom)
				in := *d.in
				in.Hover, in.Note = OfPoint(kinematics.OuterEnd), []string{"Outer tie-rod end", "y 738.0 mm  z 219.0 mm"}
				l, _ := build(t, v, &in)
				boxes, items := textBoxes(l, v, draw.HouseStyles())
				for k := range l.Items() {
					it := &l.Items()[k]
					if it.Role != draw.LoupeLead {
						continue
					}
					c := l.Corners(it)
					for i, box := range boxes {
						_, _, hit := draw.SegmentInBox(v.Sheet(c[0]), v.Sheet(c[1]), box)
						if hit {
							t.Errorf("%s at %.0f, zoomed %g: the lead runs through %q", d.name, size.W, zoom, l.TextOf(items[i]))
						}
					}
				}
			}
		}
	}
}

// In a small window too, loupe and legend cover no figure.
func TestTheLoupeCoversNoText(t *testing.T) {
	for _, d := range demos(t) {
		for _, size := range []draw.View{{W: 400, H: 376}, {W: 426, H: 374}, {W: 520, H: 610}} {
			v := fitted(size, d.in)
			l, out := build(t, v, d.in)
			if out.Loupe.IsEmpty() {
				continue
			}
			legend := out.work.loupe.legend.Grow(notePad)
			boxes, items := textBoxes(l, v, houseStyles)
			for i, box := range boxes {
				if items[i].Layer < draw.LayerLoupe && legend.Overlaps(box) {
					t.Errorf("%s, %gx%g: the legend covers %q", d.name, v.W, v.H, l.TextOf(items[i]))
				}
			}
		}
	}
}
