package scene

import "armscribe/canvas/draw"

// planMargin is kept free above and below what a plan must show, points.
const planMargin = 10.0

// FitPlan returns v showing from above what Fit shows from the front: from the
// centre plane to beyond the tyre, and the tyre from end to end.
func FitPlan(v draw.View, in *Input) draw.View {
	box, half := Fit(in), planHalf(in)
	box.Min.Y, box.Max.Y = PlanMiddle(in)-half, PlanMiddle(in)+half
	return v.Fit(box, draw.Margins{Left: fitLeft, Right: fitRight, Top: planMargin, Bottom: planMargin})
}

// PlanMiddle is the height of the picture from above at which the wheel stands
// at rest, mm.
func PlanMiddle(in *Input) float64 {
	p := restPose(&in.Now.Study.Mechanism)
	return -p.WheelCentre.X
}

// WholeTyre returns the zoom at which a plan in the window of v shows the tyre
// from end to end; 0 if the window is too low to show any.
func WholeTyre(v draw.View, in *Input) float64 {
	return max(0, v.H-2*planMargin) / (2 * planHalf(in))
}

// planHalf is half the length of the tyre.
func planHalf(in *Input) float64 {
	return max(in.Now.Section.OverallDiameter/2, in.Now.Study.Case.Corner.Wheel.LoadedRadius)
}
