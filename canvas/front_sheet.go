package canvas

import (
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// Sheet returns the picture as it is seen, without what the hand adds, for
// files: a sheet as large as the view, on white paper.
func (v *FrontView) Sheet(title string) draw.Sheet {
	l := &draw.List{}
	if v.ready() {
		in := v.in
		in.Selected, in.Hover, in.Focus = scene.NoHandle, scene.NoHandle, scene.NoHandle
		var out scene.Output
		// An out-of-reach position is drawn at the nearest one, as on the screen.
		_ = scene.Build(l, v.view, &in, &out)
	}
	return draw.Sheet{Title: title, List: l, Styles: v.styles, Palette: draw.Print(), View: v.view}
}
