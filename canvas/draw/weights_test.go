package draw

import "testing"

// Weight tells rank: arms before upright and tie rod, those before outlines, those
// before what helps; what was is chain, what is now is solid.
func TestWeightTellsRank(t *testing.T) {
	s := HouseStyles()
	for role, want := range map[Role]float64{Arm: 4, Upright: 3, TieRod: 3, Outline: 1.8, Obstacle: 1.8} {
		if got := s[role].Pen; got != want {
			t.Errorf("%s is %g points, wanted %g", s[role].Name, got, want)
		}
	}
	for _, role := range []Role{OutlineInner, Construction, ArmLine, Dimension, CentrePlane, Leader, CentreLine, GroundHatch} {
		if got := s[role].Pen; got < 0.8 || got > 1.2 {
			t.Errorf("%s is %g points, wanted 0.8 to 1.2", s[role].Name, got)
		}
	}
	for _, role := range []Role{Arm, Upright, TieRod, Outline, CurveNow, FreePath} {
		if s[role].Dash != Solid {
			t.Errorf("%s is not solid", s[role].Name)
		}
	}
	for _, role := range []Role{Compared, CurveBefore} {
		if s[role].Dash != DoubleChain || s[role].Stroke != Before {
			t.Errorf("%s is no blue double chain", s[role].Name)
		}
	}
	if s[TieRod].Stroke != Now {
		t.Error("the tie rod is not in the colour of now")
	}
	// Filled moves with the wheel, hollow is fixed to the body.
	for role, fill := range map[Role]Token{HandleFixed: Paper, HandleFixedNow: Paper, HandleMoving: Ink, HandleMovingNow: Now} {
		if s[role].Fill != fill || s[role].FillAlpha != 1 {
			t.Errorf("%s is filled with %d", s[role].Name, s[role].Fill)
		}
	}
}
