package draw

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

type placerScene struct {
	view   View
	styles *Styles
	list   List
	labels []Label
}

// randomScene makes n lines and m labels, with anchors on line ends as in a
// real drawing.
func randomScene(r *rand.Rand, n, m int) *placerScene {
	s := &placerScene{styles: HouseStyles()}
	s.view = View{Centre: Point{430, 260}, Zoom: 0.9 + r.Float64(), W: 1400, H: 900}
	b := s.view.Visible()
	spot := func() Point {
		return Point{b.Min.X + r.Float64()*b.W(), b.Min.Y + r.Float64()*b.H()}
	}
	var ends []Point
	for range n {
		p := spot()
		q := p.Add(Point{r.NormFloat64() * 60, r.NormFloat64() * 40})
		s.list.Line(Outline, p, q)
		ends = append(ends, p)
	}
	s.list.Circle(Construction, On(spot()), 80, 0)
	for i := range m {
		s.labels = append(s.labels, Label{
			Role: TextSmall, Text: fmt.Appendf(nil, "point %d: %.1f mm", i, r.Float64()*700),
			Anchor: On(ends[i*len(ends)/m]), Clear: HandleRadius,
			Prefer: []Direction{Direction(r.IntN(8) * 2), East},
		})
	}
	return s
}

func (s *placerScene) place(p *Placer) (out []Placement) {
	p.Reset(s.view, s.styles, OnScreen)
	p.Avoid(&s.list)
	for i := range s.labels {
		if pl, ok := p.Place(&s.labels[i]); ok {
			out = append(out, pl)
		}
	}
	return out
}

// segmentsOf returns the lines of a scene on the sheet.
func (s *placerScene) segmentsOf() (segs [][2]Point) {
	for i := range s.list.Items() {
		it := &s.list.Items()[i]
		if it.Kind == KindPath {
			c := s.list.Corners(it)
			segs = append(segs, [2]Point{s.view.Sheet(c[0]), s.view.Sheet(c[1])})
			continue
		}
		c, rad := s.view.Sheet(it.Centre), it.R*s.view.Zoom
		for k := range 720 {
			a, b := float64(k)*math.Pi/360, float64(k+1)*math.Pi/360
			segs = append(segs, [2]Point{
				{c.X + rad*math.Cos(a), c.Y + rad*math.Sin(a)},
				{c.X + rad*math.Cos(b), c.Y + rad*math.Sin(b)},
			})
		}
	}
	return segs
}

func TestLabelsNeverCover(t *testing.T) {
	var p Placer
	placed, led := 0, 0
	for seed := uint64(1); seed <= 60; seed++ {
		s := randomScene(rand.New(rand.NewPCG(seed, 11)), 60+int(seed)*6, 40)
		got := s.place(&p)
		segs := s.segmentsOf()
		for i, a := range got {
			for _, sg := range segs {
				if _, _, hit := SegmentInBox(sg[0], sg[1], a.Box); hit {
					t.Fatalf("seed %d: label %d at %v covers the line %v", seed, i, a.Box, sg)
				}
			}
			for k, b := range got[:i] {
				if a.Box.Overlaps(b.Box) {
					t.Fatalf("seed %d: labels %d and %d overlap", seed, k, i)
				}
			}
			for k, b := range got {
				if k != i && b.Leader {
					f, to := s.view.Sheet(b.From), s.view.Sheet(b.To)
					if _, _, hit := SegmentInBox(f, to, a.Box); hit {
						t.Fatalf("seed %d: the leader of %d runs over label %d", seed, k, i)
					}
				}
			}
			if w := s.view.Window(); !w.Has(a.Box.Min) || !w.Has(a.Box.Max) {
				t.Fatalf("seed %d: label %d leaves the window", seed, i)
			}
			placed++
			if a.Leader {
				led++
			}
		}
	}
	if placed < 60*40*95/100 {
		t.Errorf("only %d of %d labels found a place", placed, 60*40)
	}
	if led == 0 || led == placed {
		t.Errorf("%d of %d labels have a leader: the scenes try only one way", led, placed)
	}
}

func TestPlacerIsDeterministic(t *testing.T) {
	const seed = 47
	s := randomScene(rand.New(rand.NewPCG(seed, 2)), 300, 40)
	var p, q Placer
	first := s.place(&p)
	s.place(&q)
	if again := s.place(&q); !slices.Equal(first, again) {
		t.Errorf("seed %d: the same scene was labelled differently", seed)
	}
	if n := testing.AllocsPerRun(20, func() {
		p.Reset(s.view, s.styles, OnScreen)
		p.Avoid(&s.list)
		for i := range s.labels {
			p.Place(&s.labels[i])
		}
	}); n != 0 {
		t.Errorf("placing allocates %g times", n)
	}
}

func TestLabelPrefersAndKeeps(t *testing.T) {
	var p Placer
	v := View{Centre: Point{100, 70}, Zoom: 2, W: 800, H: 600}
	lab := Label{Role: TextBody, Text: []byte("outer end"), Anchor: At(110, 75), Clear: 5, Prefer: []Direction{North}}
	p.Reset(v, HouseStyles(), OnScreen)
	a := v.Sheet(lab.Anchor)
	north, ok := p.Place(&lab)
	if !ok || north.Leader || north.Box.Min.Y < a.Y+5 || math.Abs(north.Box.Mid().X-a.X) > 1e-9 {
		t.Fatalf("in an empty window the label stands at %+v", north)
	}
	p.Reset(v, HouseStyles(), OnScreen)
	p.AvoidBox(north.Box)
	moved, ok := p.Place(&lab)
	if !ok || moved.Slot == north.Slot {
		t.Fatalf("the place was taken, label at %+v", moved)
	}
	p.Reset(v, HouseStyles(), OnScreen)
	lab.Keep = moved.Slot
	if kept, _ := p.Place(&lab); kept.Slot != moved.Slot {
		t.Errorf("slot %d, want %d kept", kept.Slot, moved.Slot)
	}
	p.AvoidBox(v.Window())
	if _, ok := p.Place(&lab); ok {
		t.Error("a full window took a label")
	}
}

// Text that the list already holds is as good an obstacle as a line.
func TestLabelKeepsOffText(t *testing.T) {
	var p Placer
	var l List
	v := View{Centre: Point{100, 70}, Zoom: 2, W: 800, H: 600}
	l.Text(TextBold, At(110, 75).Off(8, -4), Left, "already here")
	p.Reset(v, HouseStyles(), OnScreen)
	p.Avoid(&l)
	pl, ok := p.PlaceAndDraw(&l, &Label{Role: TextBody, Text: []byte("newcomer"), Anchor: At(110, 75), Prefer: []Direction{East}})
	w, up, down := HouseStyles().TextSize(TextBold, OnScreen, []byte("already here"))
	o := v.Sheet(At(110, 75).Off(8, -4))
	if old := (Box{Point{o.X, o.Y - down}, Point{o.X + w, o.Y + up}}); !ok || pl.Box.Overlaps(old) {
		t.Errorf("label at %v covers the text at %v", pl.Box, old)
	}
	if got := string(l.TextOf(&l.Items()[len(l.Items())-1])); got != "newcomer" {
		t.Errorf("the last text is %q", got)
	}
}

func BenchmarkPlace40LabelsOn400Lines(b *testing.B) {
	s := randomScene(rand.New(rand.NewPCG(9, 9)), 400, 40)
	var p Placer
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(s.view, s.styles, OnScreen)
		p.Avoid(&s.list)
		for i := range s.labels {
			p.Place(&s.labels[i])
		}
	}
}
