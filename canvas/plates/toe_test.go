package plates

import "testing"

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
