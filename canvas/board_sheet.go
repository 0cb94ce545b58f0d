package canvas

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// Sheet returns the picture as it is seen, without what the hand adds, for
// files: as wide as the view, on white paper, with a title block at the foot
// that names the job, the variants and the scale.
func (v *board) Sheet(job string) draw.Sheet {
	t := TitleBlock{Job: job, Now: v.in.Now.Name, Inches: v.inInches()}
	if v.in.Before != nil && v.in.Overlays&scene.BeforeOutline != 0 {
		t.Before = v.in.Before.Name
	}
	return v.SheetWith(t)
}

// inInches tells by the step of the keys whether lengths are in inches.
func (v *board) inInches() bool { return v.step != millimetre }

// SheetWith is Sheet with a title block of the caller's.
func (v *board) SheetWith(t TitleBlock) draw.Sheet {
	l := &draw.List{}
	s := draw.Sheet{Title: t.Job, List: l, Styles: v.styles, Palette: draw.Print(), View: v.view}
	if !v.ready() {
		return s
	}
	in := v.in
	in.Selected, in.Hover, in.Focus = scene.NoHandle, scene.NoHandle, scene.NoHandle
	in.Medium = draw.OnPaper
	var out scene.Output
	// An out-of-reach position is drawn at the nearest one, as on the screen.
	_ = v.drawing()(l, v.view, &in, &out)
	t.addTo(&s, legend{draw.Arm, draw.Compared}, v.view.Zoom, v.in.Format)
	return s
}
