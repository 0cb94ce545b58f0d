package widen

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/internal/checkcorner"
)

func wheels() []Choice {
	return []Choice{{Offset: 20, Tyre: wide()}, {Offset: 44, Tyre: narrow(), LoadedRadius: 309}, {Offset: -12, Tyre: wide()}, {Offset: 33, Tyre: narrow()}}
}

func wish() Wish {
	return Wish{To: 793, ScrubMax: 45, HasScrubMax: true, SpacerMin: 3, SpacerMax: 35, ArmsMin: 0, ArmsMax: 60}
}

// measured returns half track, face and scrub radius of a corner as it is.
func measured(t *testing.T, c kinematics.Corner, tyre clearance.Tyre) (track, face, scrub float64) {
	t.Helper()
	m := checkcorner.New(t, c)
	p := checkcorner.At(t, m, 0, 0)
	return reading(t, m, kinematics.HalfTrack), tyre.Face(&p), reading(t, m, kinematics.ScrubRadius)
}

// measuredAs returns what an answer's corner has of what was wished, and its scrub
// radius, and fails where the answer says otherwise.
func measuredAs(t *testing.T, w *Wish, a *Answer) (got, scrub float64) {
	t.Helper()
	track, face, scrub := measured(t, a.Corner, wheels()[a.Choice].Tyre)
	if math.Abs(track-a.HalfTrack) > 1e-8 || math.Abs(face-a.Face) > 1e-8 || math.Abs(scrub-a.ScrubRadius) > 1e-8 {
		t.Fatalf("answer %+v measures %g, %g, %g", a, track, face, scrub)
	}
	if w.ByFace {
		return face, scrub
	}
	return track, scrub
}

// What an answer says is what its corner has, limits are kept, and one that
// misses says by how much.
func TestAnswersAreTrue(t *testing.T) {
	const seed = 50
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 8))
	reached, missed := 0, 0
	for range 300 {
		w := wish()
		w.ByFace = r.IntN(2) == 0
		w.To = 730 + 120*r.Float64()
		if w.ByFace {
			w.To += 140
		}
		w.ScrubMax, w.HasScrubMax = 90*r.Float64(), r.IntN(4) > 0
		w.ArmsMin, w.ArmsMax, w.Order = -20*r.Float64(), 70*r.Float64(), Order(r.IntN(2))
		list, err := Reach(inclined(), w, wheels())
		if err != nil {
			t.Fatal(err)
		}
		last := true
		for _, a := range list {
			got, scrub := measuredAs(t, &w, &a)
			over := 0.0
			if w.HasScrubMax {
				over = max(0, math.Abs(scrub)-w.ScrubMax)
			}
			if math.Abs(w.To-got-a.Short) > 1e-5 || math.Abs(over-a.OverScrub) > 1e-5 {
				t.Fatalf("wish %+v, answer %+v: short %g, over %g", w, a, w.To-got, over)
			}
			const rounding = 1e-6
			if a.Arms < w.ArmsMin-rounding || a.Arms > w.ArmsMax+rounding || a.Spacer != 0 && (a.Spacer < w.SpacerMin-rounding || a.Spacer > w.SpacerMax+rounding) {
				t.Fatalf("wish %+v, answer %+v: outside the limits", w, a)
			}
			if a.Reaches() && !last {
				t.Fatal("an answer that reaches stands behind one that does not")
			}
			if last = a.Reaches(); last {
				reached++
			} else {
				missed++
			}
		}
	}
	if reached < 100 || missed < 100 {
		t.Errorf("%d reached, %d missed: the wishes test little", reached, missed)
	}
}

// Every combination of spacer and arms, tried one by one: none that keeps the
// limits has a lesser scrub radius than the first answer or, in the other
// order, shorter arms; and where none reaches, none comes nearer.
func TestReachAgainstAllCombinations(t *testing.T) {
	for _, tt := range []struct {
		to, scrubMax float64
		order        Order
	}{{793, 45, LeastScrub}, {793, 45, LeastArms}, {812, 60, LeastArms}, {861, 52, LeastScrub}, {783, 3, LeastScrub}} {
		w := wish()
		w.To, w.ScrubMax, w.Order = tt.to, tt.scrubMax, tt.order
		list, err := Reach(inclined(), w, wheels())
		if err != nil {
			t.Fatal(err)
		}
		first := list[0]
		leastScrub, leastArms, nearest := math.Inf(1), math.Inf(1), math.Inf(1)
		for _, wheel := range wheels() {
			c := inclined()
			c.Wheel.Offset = wheel.Offset
			if wheel.LoadedRadius != 0 {
				c.Wheel.LoadedRadius = wheel.LoadedRadius
			}
			for spacer := 0.0; spacer <= 35; spacer += 0.25 {
				if spacer > 0 && spacer < 3 {
					continue
				}
				c.Wheel.Spacer = spacer
				track, _, scrub := measured(t, c, wheel.Tyre)
				if math.Abs(scrub) > w.ScrubMax {
					continue
				}
				arms := max(0, min(w.To-track, 60))
				nearest = min(nearest, math.Abs(w.To-track-arms))
				if math.Abs(w.To-track-arms) < 1e-9 {
					leastScrub, leastArms = min(leastScrub, math.Abs(scrub)), min(leastArms, arms)
				}
			}
		}
		if first.Reaches() != (nearest < 1e-9) {
			t.Errorf("%+v: reaches %v, all combinations come to %g", tt, first.Reaches(), nearest)
		}
		switch {
		case !first.Reaches() && !math.IsInf(nearest, 1):
			if first.OverScrub != 0 || math.Abs(first.Short) > nearest+0.01 || math.Abs(first.Short) < nearest-0.3 {
				t.Errorf("%+v: %g short, %g over; all combinations %g", tt, first.Short, first.OverScrub, nearest)
			}
		case first.Reaches() && tt.order == LeastScrub:
			if math.Abs(first.ScrubRadius) > leastScrub+likeScrub {
				t.Errorf("%+v: scrub radius %g, all combinations %g", tt, first.ScrubRadius, leastScrub)
			}
		case first.Reaches():
			if first.Arms > leastArms+1e-6 || first.Arms < leastArms-0.3 {
				t.Errorf("%+v: arms %g, all combinations %g", tt, first.Arms, leastArms)
			}
		}
	}
}

// By hand: 19 mm of scrub radius and 669 of half track. 730 with at most 45 of
// scrub and no longer arms leaves 26 for the spacer and is 35 short; with 40
// of arms it takes 21 of spacer at least, and 26 at most.
func TestReachByHand(t *testing.T) {
	w := Wish{To: 730, ScrubMax: 45, HasScrubMax: true, SpacerMax: 60}
	list, err := Reach(workshop(), w, []Choice{{}})
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	if a := list[0]; math.Abs(a.Spacer-26) > 1e-9 || math.Abs(a.Short-35) > 1e-9 || a.OverScrub != 0 || a.Reaches() || a.HasFace {
		t.Errorf("without arms: %+v", a)
	}
	w.ArmsMax = 40
	list, err = Reach(workshop(), w, []Choice{{}})
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	for i, want := range []float64{21, 26} {
		if a := list[i]; math.Abs(a.Spacer-want) > 1e-9 || math.Abs(a.Arms-(61-want)) > 1e-9 || !a.Reaches() {
			t.Errorf("answer %d: %+v, want a spacer of %g", i, a, want)
		}
	}
	// Narrower than it was, and arms that grow by 10 at least.
	for _, tt := range []struct{ to, least, spacer, arms float64 }{{660, -15, 0, -9}, {690, 10, 0, 21}, {675, 10, 0, 10}} {
		n := Wish{To: tt.to, SpacerMax: 60, ArmsMin: tt.least, ArmsMax: 40}
		list, err := Reach(workshop(), n, []Choice{{}})
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range list {
			if a.Reaches() != (tt.to != 675) {
				t.Errorf("%+v: among the answers %+v", tt, a)
			}
		}
		if a := list[0]; math.Abs(a.Spacer-tt.spacer) > 1e-9 || math.Abs(a.Arms-tt.arms) > 1e-9 {
			t.Errorf("%+v: %+v", tt, a)
		}
	}
	// An offset that alone is too much scrub: what is over is said.
	list, err = Reach(workshop(), w, []Choice{{Offset: -30}})
	if a := list[0]; err != nil || math.Abs(a.OverScrub-4) > 1e-9 || a.Spacer != 0 || math.Abs(a.Short) > 0 || math.Abs(a.Arms-31) > 1e-9 {
		t.Errorf("too much offset: %+v, %v", a, err)
	}
}

func TestReachRefuses(t *testing.T) {
	for says, edit := range map[string]func(*Wish){
		"the wished place, NaN mm":                        func(w *Wish) { w.To = math.NaN() },
		"the thinnest spacer, 40 mm":                      func(w *Wish) { w.SpacerMin = 40 },
		"the thickest spacer, 3500 mm":                    func(w *Wish) { w.SpacerMax = 3500 },
		"the most the arms may grow":                      func(w *Wish) { w.ArmsMax = math.Inf(1) },
		"the shortest the arms may grow":                  func(w *Wish) { w.ArmsMin = 61 },
		"the largest scrub radius, −2 mm, is not between": func(w *Wish) { w.ScrubMax = -2 },
	} {
		w := wish()
		edit(&w)
		if _, err := Reach(inclined(), w, wheels()); !errors.Is(err, ErrWiden) || !strings.Contains(err.Error(), says) {
			t.Errorf("%v, want %q", err, says)
		}
	}
	w := wish()
	w.ByFace = true
	var tyre *clearance.TyreError
	if _, err := Reach(inclined(), w, []Choice{{Offset: 20}}); !errors.As(err, &tyre) || !strings.Contains(err.Error(), "wheel 1: ") {
		t.Errorf("a face without a tyre: %v", err)
	}
	if _, err := Reach(inclined(), wish(), []Choice{{Offset: math.NaN()}}); !errors.Is(err, kinematics.ErrGeometry) {
		t.Errorf("an offset that is none: %v", err)
	}
}

// dense is the least scrub radius and the least change of the arms, mm, of all ways
// within the limits that a walk along every spacer finds, each assembled anew.
func dense(t *testing.T, c kinematics.Corner, w Wish, wheels []Choice) (scrub, arms float64) {
	t.Helper()
	const step = 0.2
	scrub, arms = math.Inf(1), math.Inf(1)
	for _, wheel := range wheels {
		for n := 0; ; n++ {
			spacer := w.SpacerMin + step*float64(n-1)
			if n == 0 {
				spacer = 0
			} else if spacer > w.SpacerMax {
				break
			}
			on := c
			on.Wheel.Offset, on.Wheel.Spacer = wheel.Offset, spacer
			if wheel.LoadedRadius != 0 {
				on.Wheel.LoadedRadius = wheel.LoadedRadius
			}
			p := checkcorner.At(t, checkcorner.New(t, on), 0, 0)
			readings := p.Readings()
			track, _ := readings.Of(kinematics.HalfTrack)
			s, _ := readings.Of(kinematics.ScrubRadius)
			longer := w.To - track
			if longer < w.ArmsMin || longer > w.ArmsMax || w.HasScrubMax && math.Abs(s) > w.ScrubMax {
				continue
			}
			scrub, arms = min(scrub, math.Abs(s)), min(arms, math.Abs(longer))
		}
	}
	return scrub, arms
}

// Whatever is asked, no way within the limits has less scrub radius, or needs less
// change of the arms, than the first row by that order.
func TestTheFirstRowIsTheBestOfAll(t *testing.T) {
	const seed = 41
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 5))
	shrunk, negative := 0, 0
	for range 60 {
		c := inclined()
		c.Wheel.Spacer, c.Wheel.LoadedRadius = 0, 290+20*r.Float64()
		wheels := []Choice{{Offset: 130*r.Float64() - 15}, {Offset: 130*r.Float64() - 15, LoadedRadius: 285 + 30*r.Float64()}}
		w := Wish{To: 640 + 150*r.Float64(), SpacerMin: 10 * r.Float64(), SpacerMax: 20 + 40*r.Float64(), ArmsMin: -60 * r.Float64(), ArmsMax: 50 * r.Float64(),
			ScrubMax: 20 + 60*r.Float64(), HasScrubMax: r.IntN(2) == 0, Mark: Mark(r.IntN(3))}
		scrub, arms := dense(t, c, w, wheels)
		for _, w.Order = range []Order{LeastScrub, LeastArms} {
			list, err := Reach(c, w, wheels)
			if err != nil {
				t.Fatal(err)
			}
			first := &list[0]
			if math.IsInf(scrub, 1) {
				continue // what just misses a step of the walk is for another test
			}
			const rounded = likeScrub + 0.03 // and a mark
			if w.Order == LeastScrub && (!first.Reaches() || math.Abs(first.ScrubRadius) > scrub+rounded) {
				t.Errorf("%+v: least scrub %.2f, the first row has %+v", w, scrub, first)
			}
			if w.Order == LeastArms && (!first.Reaches() || math.Abs(first.Arms) > arms+0.06) {
				t.Errorf("%+v: least arms %.2f, the first row has %+v", w, arms, first)
			}
			if first.Arms < 0 {
				shrunk++
			}
			if first.ScrubRadius < -1 {
				negative++
			}
		}
	}
	if shrunk < 10 || negative < 5 {
		t.Errorf("%d with shorter arms, %d with the axis outboard: the wishes test little", shrunk, negative)
	}
}

// Every limit of a wish is itself allowed, and the next number is not.
func TestWishesAtTheirLimits(t *testing.T) {
	const most = kinematics.MaxLength
	up := func(x float64) float64 { return math.Nextafter(x, math.Inf(1)) }
	down := func(x float64) float64 { return math.Nextafter(x, math.Inf(-1)) }
	for what, row := range map[string]struct{ at, past func(*Wish) }{
		"no place":           {func(w *Wish) { w.To = 0 }, func(w *Wish) { w.To = down(0) }},
		"the farthest place": {func(w *Wish) { w.To = most }, func(w *Wish) { w.To = up(most) }},
		"no spacer":          {func(w *Wish) { w.SpacerMin = 0 }, func(w *Wish) { w.SpacerMin = down(0) }},
		"one spacer":         {func(w *Wish) { w.SpacerMin = w.SpacerMax }, func(w *Wish) { w.SpacerMin = up(w.SpacerMax) }},
		"the thickest":       {func(w *Wish) { w.SpacerMax = MaxBy }, func(w *Wish) { w.SpacerMax = up(MaxBy) }},
		"arms much shorter":  {func(w *Wish) { w.ArmsMin = -MaxBy }, func(w *Wish) { w.ArmsMin = down(-MaxBy) }},
		"arms of one length": {func(w *Wish) { w.ArmsMin = w.ArmsMax }, func(w *Wish) { w.ArmsMin = up(w.ArmsMax) }},
		"arms much longer":   {func(w *Wish) { w.ArmsMax = MaxBy }, func(w *Wish) { w.ArmsMax = up(MaxBy) }},
		"no scrub":           {func(w *Wish) { w.ScrubMax = 0 }, func(w *Wish) { w.ScrubMax = down(0) }},
		"any scrub":          {func(w *Wish) { w.ScrubMax = most }, func(w *Wish) { w.ScrubMax = up(most) }},
	} {
		w := wish()
		if row.at(&w); w.check() != nil {
			t.Errorf("%s: %v", what, w.check())
		}
		if row.past(&w); !errors.Is(w.check(), ErrWiden) {
			t.Errorf("past %s: %v", what, w.check())
		}
	}
	for _, by := range []float64{-MaxBy, MaxBy} {
		if _, err := By(inclined(), by); errors.Is(err, ErrWiden) {
			t.Errorf("by %g: %v", by, err)
		}
		if _, err := By(inclined(), math.Nextafter(by, 2*by)); !errors.Is(err, ErrWiden) {
			t.Errorf("past %g: %v", by, err)
		}
	}
}

// What is better in a first matter goes first whatever the later ones say, and what
// differs by less than counts does not count.
func TestOrderOfAnswers(t *testing.T) {
	base := Answer{OverScrub: 12 * likeScrub, Short: -7 * likeScrub, ScrubRadius: -9 * likeScrub, Spacer: 11, Arms: -21}
	better := map[string]func(a *Answer){
		"over":  func(a *Answer) { a.OverScrub -= 2 * likeScrub },
		"short": func(a *Answer) { a.Short += 2 * likeScrub },
		"scrub": func(a *Answer) { a.ScrubRadius += 2 * likeScrub }, "spacer": func(a *Answer) { a.Spacer -= 2 }, "arms": func(a *Answer) { a.Arms += 3 },
	}
	alike := func(a *Answer) {
		a.OverScrub, a.Short, a.ScrubRadius = a.OverScrub+0.3*likeScrub, a.Short-0.3*likeScrub, a.ScrubRadius-0.3*likeScrub
	}
	for order, list := range map[Order][]string{LeastScrub: {"over", "short", "scrub", "spacer", "arms"}, LeastArms: {"over", "short", "arms", "scrub", "spacer"}} {
		w := wish()
		w.Order = order
		for i, first := range list {
			a, b := base, base
			better[first](&a)
			alike(&a)
			for _, later := range list[i+1:] {
				better[later](&b)
			}
			if w.compare(a, b) != -1 || w.compare(b, a) != 1 {
				t.Errorf("order %v: better in %s alone compares as %d and %d", order, first, w.compare(a, b), w.compare(b, a))
			}
		}
		if a := base; w.compare(a, base) != 0 {
			t.Error("equals are not alike")
		}
	}
}
