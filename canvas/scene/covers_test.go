package scene

import (
	"math/rand/v2"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
	"armscribe/kinematics"
)

// linesOnly are the styles without texts, leaders and the fills that texts may
// stand on.
func linesOnly() *draw.Styles {
	s := draw.HouseStyles()
	for r := range s {
		if s[r].Size > 0 {
			s[r].Size, s[r].Stroke = 0.01, draw.Paper
		}
		if s[r].FillAlpha < 1 {
			s[r].Fill, s[r].FillAlpha = draw.None, 0
		}
	}
	for _, r := range [...]draw.Role{draw.Leader, draw.LoupeLead, draw.Highlight, draw.Loupe} {
		s[r] = draw.Style{Name: s[r].Name}
	}
	return s
}

// In random windows on random corners, however near or far: no pixel of a line
// lies under a text, and no line runs under the loupe.
func TestNoTextCoversALine(t *testing.T) {
	const seed, rounds = 20261, 80
	r := rand.New(rand.NewPCG(seed, 1))
	list := demos(t)
	lines, palette := linesOnly(), draw.Light()
	seen, loupes := 0, 0
	for round := range rounds {
		d := list[r.IntN(len(list))]
		in := *d.in
		in.Overlays ^= Overlays(r.IntN(1<<12)) & AllOverlays & Overlays(r.IntN(1<<12))
		if p := kinematics.Point(r.IntN(9)); in.Now.Study.Case.Corner.Has(p) {
			in.Hover, in.Note = OfPoint(p), []string{"Some point of it", "y 738.0 mm  z 219.0 mm"}
		}
		size := draw.View{W: 300 + 900*r.Float64(), H: 260 + 600*r.Float64()}
		about := draw.Point{X: 750 * r.Float64(), Y: 600 * r.Float64()}
		v := fitted(size, &in).ZoomAbout(about, 0.3+3*r.Float64()*r.Float64())
		plan := r.IntN(4) == 0
		l, out := build(t, v, &in)
		if plan {
			v = FitPlan(size, &in).ZoomAbout(draw.Point{X: 600, Y: 0}, 0.5+2*r.Float64())
			l, out = buildPlan(t, v, &in)
		}
		img := raster.New().Paint(l, raster.Frame{View: v, Styles: lines, Palette: palette})
		boxes, items := textBoxes(l, v, houseStyles)
		for i, box := range boxes {
			box = box.Grow(-0.5)
			seen++
			for y := int(v.H/2 - box.Max.Y); y < int(v.H/2-box.Min.Y); y++ {
				for x := int(v.W/2 + box.Min.X); x < int(v.W/2+box.Max.X); x++ {
					if c := img.RGBAAt(x, y); c.R != palette[draw.Paper].R || c.G != palette[draw.Paper].G {
						t.Errorf("seed %d, round %d, %s %.0f x %.0f, plan %v: a line under %q", seed, round, d.name, v.W, v.H, plan, l.TextOf(items[i]))
						x, y = 1<<20, 1<<20
					}
				}
			}
		}
		if out.Loupe.IsEmpty() || count(l, draw.LoupeOpen) > 0 { // an open one wipes nothing out
			continue
		}
		loupes++
		for i := range l.Items() {
			it := &l.Items()[i]
			if it.Layer != draw.LayerLoupe && it.Kind == draw.KindPath && houseStyles[it.Role].Stroke != draw.None && crosses(l, it, out) {
				t.Errorf("seed %d, round %d, %s %.0f x %.0f: the loupe covers a line (%s)", seed, round, d.name, v.W, v.H, houseStyles[it.Role].Name)
			}
		}
	}
	if seen < 5*rounds || loupes < rounds/6 {
		t.Errorf("only %d texts and %d loupes in %d pictures", seen, loupes, rounds)
	}
}

// crosses tells whether a path runs through the loupe.
func crosses(l *draw.List, it *draw.Item, out *Output) bool {
	v := out.work.v
	c, r := v.Sheet(draw.On(out.Loupe.Mid())), out.Loupe.W()/2*v.Zoom
	p := l.Corners(it)
	for i := range p {
		if i == 0 && !it.Closed {
			continue
		}
		if distance(c, v.Sheet(p[(i+len(p)-1)%len(p)]), v.Sheet(p[i])) < r {
			return true
		}
	}
	return false
}
