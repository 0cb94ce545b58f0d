package grip

import (
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// picture builds the scene of a corner at a travel, as a widget has it.
func picture(t *testing.T, c kinematics.Corner, travel, roll, zoom float64) *scene.Output {
	t.Helper()
	st := &study.Study{}
	if err := st.Update(study.Case{Corner: c, Within: kinematics.Evenly(1), Span: study.Span{Bump: 71, Droop: 63}}, 0); err != nil {
		t.Fatal(err)
	}
	in := scene.Input{Now: scene.Subject{Study: st, Section: section}, Travel: travel, Roll: roll,
		Selected: scene.NoHandle, Hover: scene.NoHandle, Focus: scene.NoHandle}
	var l draw.List
	out := &scene.Output{}
	v := draw.View{Centre: draw.Point{X: 430, Y: 320}, Zoom: zoom, W: 900, H: 700}
	if err := scene.Build(&l, v, &in, out); err != nil {
		t.Fatal(err)
	}
	return out
}

// What the hand computes with must stand where the picture has it.
func TestPointsStandWhereTheyAreDrawn(t *testing.T) {
	for _, c := range []kinematics.Corner{twoBushings(), onePivot()} {
		for _, at := range []Stance{{}, {Travel: 39}, {Roll: 0.041}} {
			out := picture(t, c, at.Travel, at.Roll, 1)
			j := job(0, 0)
			j.Stance = at
			for _, p := range c.Points() {
				d := begin(t, c, point(p), j)
				spot, ok := out.Spot(point(p))
				if !ok || spot.At.Sub(d.From()).Len() > 1e-9 {
					t.Errorf("%s at %+v: drawn at %v, computed at %v", p, at, spot.At, d.From())
				}
			}
		}
	}
}

func TestTheKeyboardsOrderIsThePictures(t *testing.T) {
	c := twoBushings()
	out := picture(t, c, 12, 0, 1)
	hs := Handles(&c)
	if len(hs) != len(out.Spots) {
		t.Fatalf("%d handles, %d spots", len(hs), len(out.Spots))
	}
	for k, h := range hs {
		if out.Spots[k].Handle != h {
			t.Errorf("%d: handle %v, spot %v", k, h, out.Spots[k].Handle)
		}
	}
}

func TestHitsNearestFirst(t *testing.T) {
	c := onePivot()
	for _, zoom := range []float64{0.02, 0.7, 35} {
		out := picture(t, c, 21, 0, zoom)
		for _, s := range out.Spots {
			at := s.At.Add(draw.Point{X: 0.9, Y: -1.1}.Mul(1 / zoom))
			hits := Hits(out, at, zoom)
			_, isPoint := s.Handle.Point()
			if out.Loupe.Has(at) {
				continue
			}
			if len(hits) == 0 || isPoint && zoom > 0.5 && hits[0] != s.Handle {
				t.Errorf("%s at zoom %v: hits %v", NameOf(&c, s.Handle), zoom, hits)
			}
		}
	}
	out := picture(t, c, 21, 0, 1)
	out.Loupe = draw.EmptyBox()
	spot, _ := out.Spot(point(kinematics.RackEnd))
	if h := Hits(out, spot.At.Add(draw.Point{X: 11.9}), 1); len(h) != 1 || h[0] != point(kinematics.RackEnd) {
		t.Errorf("11.9 points beside: %v", h)
	}
	if h := Hits(out, spot.At.Add(draw.Point{X: -12.1}), 1); len(h) != 0 {
		t.Errorf("12.1 points beside: %v", h)
	}
	mid, _ := out.Spot(scene.UprightBody)
	for _, row := range []struct {
		at   draw.Point
		want scene.Handle
	}{
		{mid.At.Add(draw.Point{X: 4}), scene.UprightBody},
		{out.Tyre[len(out.Tyre)/3], scene.WheelOutline},
		{draw.Point{X: 77, Y: out.Ground - 5}, scene.GroundLine},
	} {
		if h := Hits(out, row.at, 1); len(h) == 0 || h[0] != row.want {
			t.Errorf("at %v: %v, want %v", row.at, h, row.want)
		}
	}
}

func TestTheLoupeCoversWhatLiesUnderIt(t *testing.T) {
	c := onePivot()
	out := picture(t, c, 21, 0, 1)
	spot, _ := out.Spot(point(kinematics.LowerBall))
	out.Loupe = draw.EmptyBox().With(spot.At).Grow(9)
	if h := Hits(out, spot.At, 1); len(h) != 0 {
		t.Errorf("met %v under the loupe", h)
	}
}

func TestStackAndPick(t *testing.T) {
	c := onePivot()
	c.TieRod.RackEnd.Y, c.TieRod.RackEnd.Z = c.Lower.Front.Y+1, c.Lower.Front.Z+2
	rack, pivot := point(kinematics.RackEnd), point(kinematics.LowerFront)
	out := picture(t, c, 0, 0, 1)
	spot, _ := out.Spot(pivot)
	hits := Hits(out, spot.At, 1)
	if s := Stack(out, hits, 1); len(s) != 2 || s[0] != pivot || s[1] != rack {
		t.Errorf("stack %v of %v", s, hits)
	}
	if s := Stack(out, hits, 9); len(s) != 1 {
		t.Errorf("magnified they stand apart, yet %v", s)
	}
	for _, row := range []struct{ selected, want scene.Handle }{
		{scene.NoHandle, pivot}, {rack, rack}, {point(kinematics.OuterEnd), pivot},
	} {
		if got := Pick(out, hits, 1, row.selected); got != row.want {
			t.Errorf("with %v selected: %v, want %v", row.selected, got, row.want)
		}
	}
	if got := Pick(out, nil, 1, rack); got != scene.NoHandle {
		t.Errorf("nothing met gives %v", got)
	}
}
