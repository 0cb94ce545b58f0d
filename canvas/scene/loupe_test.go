package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// In the loupe the path with the wheel held straight is a straight plumb line, and
// the tie rod's arc stands off it by the side distance, times the factor that the
// legend gives, at every height.
func TestTheLoupeShowsTheGapAlone(t *testing.T) {
	for _, name := range []string{"wide", "longer", "rear", "steep"} {
		in := demoNamed(t, name)
		v := fitted(draw.View{W: 1400, H: 900}, in)
		l, out := build(t, v, in)
		if out.Loupe.IsEmpty() {
			t.Fatalf("%s: no loupe", name)
		}
		factor := 0.0
		for _, text := range texts(l) {
			if _, err := fmt.Sscanf(text, "side distance × %g", &factor); err == nil {
				break
			}
		}
		var straight, arc []draw.Pos
		for i := range l.Items() {
			it := &l.Items()[i]
			if it.Layer == draw.LayerLoupe && it.Kind == draw.KindPath && out.Loupe.Has(l.Corners(it)[0].At) {
				switch it.Role {
				case draw.FreePath:
					straight = l.Corners(it)
				case draw.TieRodArc:
					if len(l.Corners(it)) > 2 {
						arc = l.Corners(it)
					}
				}
			}
		}
		if len(straight) != 2 || math.Abs(straight[0].At.X-straight[1].At.X) > 1e-9 {
			t.Fatalf("%s: the straight path is %v", name, straight)
		}
		// Independently: the sphere about the rack end, cut at the height of the path.
		m, c := &in.Now.Study.Mechanism, &in.Now.Study.Case.Corner
		tall := straight[1].At.Y - straight[0].At.Y
		ends, err := m.HeldPath([]float64{0, in.Now.Study.To})
		if err != nil {
			t.Fatal(err)
		}
		low, err := m.HeldPath([]float64{0, in.Now.Study.From})
		if err != nil {
			t.Fatal(err)
		}
		perMM := math.Abs(tall) / (ends[1].Z - low[1].Z)
		for _, travel := range []float64{in.Now.Study.From, 0.4 * in.Now.Study.From, 0, 0.7 * in.Now.Study.To, in.Now.Study.To} {
			held, err := m.HeldPath([]float64{0, travel})
			if err != nil {
				t.Fatal(err)
			}
			p, e := held[1], c.TieRod.RackEnd
			rod := m.RodLength()
			aside := e.Y + math.Sqrt(rod*rod-(p.X-e.X)*(p.X-e.X)-(p.Z-e.Z)*(p.Z-e.Z)) - p.Y
			y := straight[0].At.Y + (p.Z-low[1].Z)*perMM
			if straight[0].At.Y > straight[1].At.Y {
				y = straight[1].At.Y + (p.Z-low[1].Z)*perMM
			}
			seen := math.NaN()
			for i := 1; i < len(arc); i++ {
				a, b := arc[i-1].At, arc[i].At
				if (a.Y-y)*(b.Y-y) <= 0 && a.Y != b.Y {
					seen = a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
				}
			}
			if math.IsNaN(seen) {
				continue // an end, cut at the last chord
			}
			if want := aside * perMM * factor; math.Abs(seen-straight[0].At.X-want) > 0.02*math.Abs(want)+0.05 {
				t.Errorf("%s at travel %.1f: %.3f aside in the loupe, wanted %.3f", name, travel, seen-straight[0].At.X, want)
			}
		}
	}
}

// The loupe tells what it shows at the height of the pointer: what the readings say
// of the gap at that travel.
func TestTheLoupeIsRead(t *testing.T) {
	in := demoNamed(t, "wide")
	_, out := build(t, fitted(draw.View{W: 1400, H: 900}, in), in)
	mid, r := out.Loupe.Mid(), out.Loupe.W()/2
	for _, up := range []float64{-0.7, 0.1, 0.74} {
		text := out.ReadLoupe(mid.Add(draw.Point{X: 0.2 * r, Y: up * r}))
		var way string
		var travel, gap float64
		if _, err := fmt.Sscanf(strings.ReplaceAll(text, "gap ", ""), "at %s %g mm: %g", &way, &travel, &gap); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if way == "droop" {
			travel = -travel
		}
		if (up > 0) != (travel > 0) {
			t.Errorf("%.2f up: %q", up, text)
		}
		pose, err := in.Now.Study.Mechanism.At(travel, 0)
		if err != nil {
			t.Fatal(err)
		}
		readings := pose.Readings()
		if want, _ := readings.Of(kinematics.TieRodError); math.Abs(math.Abs(want)-gap) > 0.06 {
			t.Errorf("%q, the readings say %.3f", text, want)
		}
	}
	if text := out.ReadLoupe(mid.Add(draw.Point{X: 1.1 * r})); text != "" {
		t.Errorf("beside the loupe: %q", text)
	}
}
