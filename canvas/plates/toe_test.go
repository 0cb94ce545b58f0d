package plates

import (
	"math/rand/v2"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/plates/platetest"
	"armscribe/kinematics/bumpsteer"
)

func TestNamesAtTheEndsOfCurvesNeverTouch(t *testing.T) {
	names := []endName{{x: 47, half: 21}, {x: 44, half: 19}, {x: 52, half: 33}, {x: 230, half: 17}, {x: 296, half: 23}}
	spread(names, 3, 310)
	edge := 3.0
	const rounding = 1e-9
	for i, n := range names {
		if n.x-n.half < edge-rounding || n.x+n.half > 310+rounding {
			t.Errorf("name %d from %g to %g, the one before ends at %g", i, n.x-n.half, n.x+n.half, edge)
		}
		edge = n.x + n.half
	}
	if names[3].x != 230 {
		t.Errorf("a name with room about it was moved to %g", names[3].x)
	}
}

// Words of a chart stand clear at any size that holds a chart, and none is too small.
func TestToeOfAnySize(t *testing.T) {
	const seed = 20261224
	rnd := rand.New(rand.NewPCG(seed, 7))
	curve := bumpsteer.Curve{At: []float64{-61, -17, 0, 23, 58}, Toe: []float64{-0.011, -0.003, 0, 0.005, 0.013}}
	for i := range 200 {
		p := Toe{Inch: i%3 == 0, From: -61, To: 58, Ends: i%2 == 0, Caption: "readings less the one at rest, of both wheels",
			Curves: []ToeCurve{BeforeCurve(curve, "as measured"), NowCurve(curve, "so set")}, Points: []ToePoint{{-17, 0.002, true}, {23, 0.004, false}}}
		w, h := 40+700*rnd.Float64(), 40+500*rnd.Float64()
		if w < 250 || h < 200 {
			p.Draw(&draw.List{}, w, h)
			continue
		}
		platetest.Look(t, "toe", p.Draw, w, h)
	}
}
