package scene

import (
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
)

func TestHandlesOfObstacles(t *testing.T) {
	seen := map[Handle]bool{NoHandle: true, UprightBody: true, WheelOutline: true, GroundLine: true}
	for p := kinematics.UpperFront; p <= kinematics.SpringBody; p++ {
		seen[OfPoint(p)] = true
	}
	for h := range seen {
		if _, _, ok := h.Obstacle(); ok {
			t.Errorf("handle %d is one of an obstacle", h)
		}
	}
	for i := range MaxObstacles {
		for end := range 2 {
			h := OfObstacle(i, end)
			if seen[h] {
				t.Fatalf("handle %d of obstacle %d is taken", h, i)
			}
			seen[h] = true
			if k, e, ok := h.Obstacle(); !ok || k != i || e != end {
				t.Fatalf("obstacle %d end %d came back as %d end %d", i, end, k, e)
			}
			if _, ok := h.Point(); ok {
				t.Fatalf("obstacle %d end %d is a point of the linkage", i, end)
			}
		}
	}
}

func TestStatesOfGaps(t *testing.T) {
	o := clearance.Obstacle{Name: "inner wing", Wish: 10}
	for _, tt := range []struct {
		rest, gap float64
		want      GapState
	}{{34, 10, GapKept}, {34, 9.99, GapLess}, {34, -4.1, GapTouches}, {-0.1, -7, GapInside}} {
		a := clearance.Answer{Rest: tt.rest, Gap: tt.gap, Wish: o.Wish, Travel: 37, Rack: -21, At: at(-120, 560, 610)}
		got := ObstacleOf(o, &a)
		if got.State != tt.want || !got.HasGap || got.Gap != tt.gap || got.Travel != 37 || got.Rack != -21 || got.At != a.At {
			t.Errorf("rest %g, least %g: %+v", tt.rest, tt.gap, got)
		}
		if got.State.Short() != (tt.gap < 10) {
			t.Errorf("%v is short: %v", got.State, got.State.Short())
		}
	}
	if got := ObstacleOf(o, nil); got.HasGap || got.State != GapUnknown || got.State.Short() {
		t.Errorf("without an answer: %+v", got)
	}
}
