package scene

import (
	"strings"
	"testing"

	"armscribe/canvas/draw"
)

// textBoxes returns the boxes of all texts on the sheet.
func textBoxes(l *draw.List, v draw.View, s *draw.Styles) (boxes []draw.Box, items []*draw.Item) {
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Kind != draw.KindText {
			continue
		}
		w, up, down := s.TextSize(it.Role, draw.OnScreen, l.TextOf(it))
		o := v.Sheet(it.Centre).Add(s.TextOrigin(it.Role, draw.OnScreen, it.Align, l.TextOf(it)))
		boxes = append(boxes, draw.Box{Min: draw.Point{X: o.X, Y: o.Y - down}, Max: draw.Point{X: o.X + w, Y: o.Y + up}})
		items = append(items, it)
	}
	return boxes, items
}

// sits tells whether a line of the item runs through box.
func sits(l *draw.List, it *draw.Item, v draw.View, s *draw.Styles, box draw.Box) bool {
	if s[it.Role].Stroke == draw.None {
		return false
	}
	if it.Kind == draw.KindCircle {
		c, r := v.Sheet(it.Centre), it.R*v.Zoom+it.RBy
		inner := clampTo(box, c).Sub(c).Len()
		outer := 0.0
		for _, p := range [4]draw.Point{box.Min, box.Max, {X: box.Min.X, Y: box.Max.Y}, {X: box.Max.X, Y: box.Min.Y}} {
			outer = max(outer, p.Sub(c).Len())
		}
		return inner < r && (outer > r || s[it.Role].Fill != draw.None)
	}
	c := l.Corners(it)
	for i := range c {
		if i == 0 && !it.Closed {
			continue
		}
		a, b := c[(i+len(c)-1)%len(c)], c[i]
		if _, _, hit := draw.SegmentInBox(v.Sheet(a), v.Sheet(b), box); hit {
			return true
		}
	}
	return false
}

// No label covers another label or a line, or leaves the window, in any state
// at any of the usual sizes, with and without the compared variant.
func TestLabelsKeepClear(t *testing.T) {
	for _, d := range demos(t) {
		for _, size := range sizes[:3] {
			for _, view := range []draw.View{fitted(size, d.in), far(fitted(size, d.in))} {
				for _, compare := range []bool{true, false} {
					in := *d.in
					if !compare {
						in.Before = nil
					}
					l, _ := build(t, view, &in)
					keepsClear(t, d.name, l, view)
				}
			}
		}
	}
}

// The same from above.
func TestLabelsKeepClearInPlan(t *testing.T) {
	for _, d := range demos(t) {
		for _, size := range sizes[:3] {
			size.H = size.H / 3
			for _, view := range []draw.View{FitPlan(size, d.in), far(FitPlan(size, d.in))} {
				l, _ := buildPlan(t, view, d.in)
				keepsClear(t, d.name+" in plan", l, view)
			}
		}
	}
}

func keepsClear(t *testing.T, name string, l *draw.List, view draw.View) {
	t.Helper()
	s := draw.HouseStyles()
	boxes, items := textBoxes(l, view, s)
	for i, box := range boxes {
		text := string(l.TextOf(items[i]))
		if !inside(view.Window(), box) {
			t.Errorf("%s at %.0f x %.0f: %q leaves the window", name, view.W, view.H, text)
		}
		for k := range i {
			if box.Overlaps(boxes[k]) {
				t.Errorf("%s at %.0f x %.0f: %q and %q overlap", name, view.W, view.H, text, l.TextOf(items[k]))
			}
		}
		for k := range l.Items() {
			it := &l.Items()[k]
			if it.Kind != draw.KindText && sits(l, it, view, s, box.Grow(-0.5)) {
				t.Errorf("%s at %.0f x %.0f: %q sits on a line (%s)", name, view.W, view.H, text, s[it.Role].Name)
			}
		}
	}
}

// The labels that matter are there: a placer that drops them all would pass the
// test above.
func TestLabelsAreThere(t *testing.T) {
	for _, d := range demos(t) {
		if d.in.Overlays != oneSide {
			continue
		}
		for _, size := range sizes[:3] {
			l, _ := build(t, fitted(size, d.in), d.in)
			want := []string{"centre plane", "scrub ", "roll centre ", "instant centre", "tie-rod arc", "side ", "gap "}
			if d.in.Rear {
				want[4] = "toe-link arc"
			}
			if d.in.Before != nil {
				want = append(want, "before")
			}
			want = append(want, d.in.Note...)
			for _, w := range want {
				if !says(l, w) {
					t.Errorf("%s at %.0f x %.0f: no %q in %q", d.name, size.W, size.H, w, texts(l))
				}
			}
		}
	}
}

// The name of an obstacle whose gap is kept stands beside it or nowhere: no
// leader runs across the corner, unless somebody points at the obstacle. On
// paper, where nothing can be pointed at, all have their names.
func TestNamesOfKeptGapsStandBesideTheirObstacles(t *testing.T) {
	in := *demoNamed(t, "roomy")
	v := draw.View{W: 520, H: 610}
	names := func(in *Input) (texts string, longest float64) {
		l, _ := buildPlan(t, FitPlan(v, in), in)
		for i := range l.Items() {
			switch it := &l.Items()[i]; {
			case it.Kind == draw.KindText:
				texts += string(l.TextOf(it)) + "|"
			case it.Role == draw.Leader:
				c := l.Corners(it)
				longest = max(longest, FitPlan(v, in).Sheet(c[0]).Sub(FitPlan(v, in).Sheet(c[1])).Len())
			}
		}
		return texts, longest
	}
	kept := -1
	for i := range in.Obstacles {
		if !in.Obstacles[i].State.Short() && in.Obstacles[i].Name == "caliper" {
			kept = i
		} else if in.Obstacles[i].State.Short() {
			in.Obstacles[i].State = GapKept
		}
	}
	if kept < 0 {
		t.Fatal("the demo has no caliper that keeps its gap")
	}
	quiet, longest := names(&in)
	if longest > keptReach {
		t.Errorf("a leader of %.0f points though nothing is pointed at: %s", longest, quiet)
	}
	in.Hover = OfObstacle(kept, 0)
	if lit, _ := names(&in); !strings.Contains(lit, "caliper 43.5 mm|") {
		t.Errorf("pointed at, no name and gap: %s", lit)
	}
	in.Hover, in.Medium = NoHandle, draw.OnPaper
	if paper, _ := names(&in); !strings.Contains(paper, "caliper 43.5 mm|") {
		t.Errorf("no name on paper: %s", paper)
	}
}
