package widen

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// figures is how many figures a number has after the point, written shortly.
func figures(x float64) int {
	_, after, _ := strings.Cut(strconv.FormatFloat(x, 'f', -1, 64), ".")
	return len(after)
}

// Answers are laid out in whole marks, what they say is true of what is laid
// out, limits hold, and no wish is lost to the rounding.
func TestAnswersAreLaidOutInMarks(t *testing.T) {
	const seed = 51
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 3))
	reached, missed, onLimit := 0, 0, 0
	for range 400 {
		w := wish()
		w.ByFace, w.To = r.IntN(2) == 0, 730+120*r.Float64()
		if w.ByFace {
			w.To += 140
		}
		w.ScrubMax, w.HasScrubMax = 90*r.Float64(), r.IntN(4) > 0
		w.ArmsMin, w.ArmsMax, w.Order = -20*r.Float64(), 70*r.Float64(), Order(r.IntN(2))
		if r.IntN(4) == 0 { // the spacer alone has to make up for it
			w.ArmsMin, w.ArmsMax = 0, 0
		}
		exact, err := Reach(inclined(), w, wheels())
		if err != nil {
			t.Fatal(err)
		}
		w.Mark = HundredthOfMM
		list, err := Reach(inclined(), w, wheels())
		if err != nil {
			t.Fatal(err)
		}
		if exact[0].Reaches() && !list[0].Reaches() {
			t.Fatalf("wish %+v is lost: %+v, as computed %+v", w, list[0], exact[0])
		}
		for _, a := range list {
			for _, at := range a.Corner.Coordinates() {
				from, p := inclined(), a.Corner.At(at.Point)
				if was, now := from.At(at.Point).Y, p.Y; at.Axis == 1 && figures(now) > max(2, figures(was)) {
					t.Fatalf("wish %+v: %v at y %v", w, at.Point, now)
				}
			}
			if a.Arms != 0 && math.Abs(a.Arms) < 0.0101 && w.ArmsMin <= 0 && w.ArmsMax >= 0 {
				t.Fatalf("wish %+v: arms of %v", w, a.Arms)
			}
			if figures(a.Spacer) > 2 || figures(a.Arms) > 2 || a.Corner.Wheel.Spacer != a.Spacer {
				t.Fatalf("wish %+v: spacer %v, arms %v", w, a.Spacer, a.Arms)
			}
			got, scrub := measuredAs(t, &w, &a)
			if short := w.To - got; math.Abs(short-a.Short) > 0.01001 || a.Short != 0 && math.Abs(short-a.Short) > 1e-8 {
				t.Fatalf("wish %+v, answer %+v: short %g", w, a, short)
			}
			if a.Arms < w.ArmsMin-sameLength || a.Arms > w.ArmsMax+sameLength || a.Spacer != 0 && (a.Spacer < w.SpacerMin || a.Spacer > w.SpacerMax) {
				t.Fatalf("wish %+v, answer %+v: outside the limits", w, a)
			}
			if a.Reaches() {
				reached++
			} else {
				missed++
			}
			if over := math.Abs(scrub) - w.ScrubMax; a.Reaches() && w.HasScrubMax && math.Abs(over) < 0.01 {
				onLimit++
				if over > sameLength && w.ArmsMax > w.ArmsMin {
					t.Fatalf("wish %+v, answer %+v: scrub radius %g", w, a, scrub)
				}
			}
		}
	}
	if reached < 100 || missed < 100 || onLimit < 50 {
		t.Errorf("%d reached, %d missed, %d on the limit: the wishes test little", reached, missed, onLimit)
	}
}

// By hand: the mark next to a number, inside the first range that holds one,
// printed as shortly as it is meant.
func TestMarksByHand(t *testing.T) {
	wide := interval{-500, 500}
	for _, tt := range []struct {
		mark   Mark
		x      float64
		ranges []interval
		want   float64
	}{
		{NoMark, 10.1016397079, []interval{wide}, 10.1016397079},
		{HundredthOfMM, 10.1016397079, []interval{wide}, 10.1},
		{HundredthOfMM, -7.0351, []interval{wide}, -7.04},
		{HundredthOfMM, 18.8751, []interval{{3, 18.8755}}, 18.87}, // the next one is outside
		{HundredthOfMM, 18.8751, []interval{{18.8749, 18.8752}, wide}, 18.88},
		{HundredthOfMM, 18.8751, []interval{{18.8749, 18.8752}}, 18.8751},
		{HundredthOfMM, 0.29, []interval{{0, 0.29 - 1e-15}}, 0.29},  // an end but for rounding
		{HundredthOfMM, 0.281, []interval{{0.29 + 1e-15, 5}}, 0.29}, // likewise
		{HundredthOfMM, 7, []interval{{0.285, 0.295}}, 0.29},        // the only one
		{ThousandthOfInch, 37.2511, []interval{wide}, 37.2618},      // 1.467 in
		{ThousandthOfInch, 37.2511, []interval{{0, 37.24}}, 37.2364},
		{ThousandthOfInch, 10, []interval{{37.24, 500}}, 37.2618},
		{ThousandthOfInch, -25.39, []interval{wide}, -25.4},
	} {
		if got := tt.mark.into(tt.x, tt.ranges...); got != tt.want {
			t.Errorf("mark %d of %v within %v is %v, want %v", tt.mark, tt.x, tt.ranges, got, tt.want)
		}
	}
}

// What moves out has no more figures than what was measured and the amount have,
// and what is no decimal is moved as it is.
func TestMovingLeavesNoTrace(t *testing.T) {
	for _, tt := range [][3]float64{{611.3, 37.27, 648.57}, {0.1, 0.2, 0.3}, {612.775, 37.2618, 650.0368}, {5.03, -5.01, 0.02}, {-611.3, -37.27, -648.57}, {math.Pi, 37.25, math.Pi + 37.25}, {1e-9, 700, 700 + 1e-9}} {
		if got := sum(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%v and %v make %v, want %v", tt[0], tt[1], got, tt[2])
		}
	}
	c := inclined()
	c.Hub.Y, c.Wheel.Spacer = 751.1, 0.1
	if got := Arms(c, 37.27).Hub.Y; got != 788.37 {
		t.Errorf("the hub is at %v", got)
	}
	if got := Spacers(c, 0.2).Wheel.Spacer; got != 0.3 {
		t.Errorf("the spacer is %v", got)
	}
	c.Spring.Moving.Y = 640.06
	if got := Arms(c, 0.07).Spring.Moving.Y; got != 640.13 {
		t.Errorf("the spring's end is at %v", got)
	}
}
