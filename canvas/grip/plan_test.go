package grip

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// fromAbove lists the handles of a corner in plan.
func fromAbove(c *kinematics.Corner) (list []scene.Handle) {
	for _, h := range Handles(c) {
		if InPlan(c, h) {
			list = append(list, h)
		}
	}
	return list
}

func TestHandlesInPlan(t *testing.T) {
	two, one := twoBushings(), onePivot()
	if n := len(fromAbove(&two)); n != len(two.Points()) {
		t.Errorf("two bushings: %d handles for %d points", n, len(two.Points()))
	}
	if n := len(fromAbove(&one)); n != len(one.Points())-2 || InPlan(&one, point(kinematics.UpperFront)) || InPlan(&one, scene.UprightBody) {
		t.Errorf("one pivot: %d handles for %d points", n, len(one.Points()))
	}
}

// From above a handle lands under the pointer in every stance, no height
// changes, and nothing else moves.
func TestDragsFromAbove(t *testing.T) {
	for name, c := range map[string]kinematics.Corner{"two bushings": twoBushings(), "one pivot": onePivot()} {
		for _, at := range stances {
			at.Plan = true
			for _, h := range fromAbove(&c) {
				j := job(0, 0)
				j.Stance = at
				d := begin(t, c, h, j)
				hand := free(by(d, 4.37, -7.21))
				r := d.To(hand)
				what := fmt.Sprintf("%s, %s at %+v", name, NameOf(&c, h), at)
				if r.AtEdge {
					t.Errorf("%s: stopped: %s", what, r.Message)
					continue
				}
				if off := seen(t, r.Corner, h, at).Sub(hand.At); off.Len() > 1e-6 {
					t.Errorf("%s: %v off the pointer", what, off)
				}
				own, _ := h.Point()
				for _, p := range c.Points() {
					was, is := *c.At(p), *r.Corner.At(p)
					if was.Z != is.Z || p != own && was != is || p == own && (was.X == is.X || was.Y == is.Y) {
						t.Errorf("%s: %s went from %v to %v", what, p, was, is)
					}
				}
				if r.Corner.Wheel != c.Wheel {
					t.Errorf("%s: the wheel changed", what)
				}
			}
		}
	}
}

func TestTheWayFromAboveDoesNotMatter(t *testing.T) {
	const seed = 17
	rng := rand.New(rand.NewPCG(seed, 5))
	c := twoBushings()
	for _, h := range fromAbove(&c) {
		j := job(29, -6)
		j.Plan = true
		d := begin(t, c, h, j)
		end := by(d, 8.7, 5.1)
		want := d.To(end)
		detour := begin(t, c, h, j)
		for range 6 {
			detour.To(by(detour, rng.NormFloat64()*300, rng.NormFloat64()*300))
		}
		if got := detour.To(end); got.Corner != want.Corner || want.Corner == c {
			t.Errorf("seed %d, %s: another corner after a detour", seed, NameOf(&c, h))
		}
		if back := d.To(by(d, 0, 0)); back.Corner != c {
			t.Errorf("%s: the start does not come back", NameOf(&c, h))
		}
	}
}

func TestSnapsLocksAndWordsFromAbove(t *testing.T) {
	c := twoBushings()
	h := point(kinematics.OuterEnd) // 142, 679, 229.2; the rack end stands at 131
	j := job(0, 0)
	j.Plan = true
	j.Locks = Locks{Height: setOf(kinematics.OuterEnd)}
	d := begin(t, c, h, j)
	r := d.To(by(d, 3.8, 9.5)) // 132.5 along the car: 1.5 from the rack end's
	if v := r.Corner.TieRod.OuterEnd; v.X != 131 || v.Y != 683 || r.Snapped != "abreast of the rack end" || len(r.Guides) != 1 {
		t.Errorf("abreast: %v, %q, guides %v", v, r.Snapped, r.Guides)
	}
	r = d.To(by(d, 3.8, 24.7))
	if v := r.Corner.TieRod.OuterEnd; v.X != 117 || v.Y != 683 {
		t.Errorf("the grid gives %v", v)
	}
	if note := strings.Join(d.Note(&r), "|"); note != "y 683 mm  x 117 mm|out +4 mm  ahead −25 mm" {
		t.Errorf("note %q", note)
	}
	if r = d.By(0, 10); r.Corner.TieRod.OuterEnd.X != 132 || r.Corner.TieRod.OuterEnd.Z != 229.2 {
		t.Errorf("up, toward the rear: %v", r.Corner.TieRod.OuterEnd)
	}
	j.Locks = Locks{TieRod: true}
	d = begin(t, c, h, j)
	r = d.To(by(d, -6, 21))
	if was, is := lengths[2].measure(&c), lengths[2].measure(&r.Corner); !near(was, is, 1e-9) || r.Corner == c {
		t.Errorf("tie rod held: %v to %v", was, is)
	}
	j.Locks = Locks{Side: setOf(kinematics.OuterEnd)}
	d = begin(t, c, h, j)
	if r = d.To(by(d, 14, 21)); r.Corner.TieRod.OuterEnd.Y != 679 || r.Corner.TieRod.OuterEnd.X != 121 {
		t.Errorf("side distance held: %v", r.Corner.TieRod.OuterEnd)
	}
}
