package canvas

import (
	"fmt"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
)

// TestRoomPictures paints the front view with the plan under it, for a look.
func TestRoomPictures(t *testing.T) {
	for _, size := range []struct{ w, front, plan int }{{760, 480, 270}, {1010, 560, 330}, {500, 300, 220}} {
		for theme, palette := range map[string]*draw.Palette{"light": draw.Light(), "dark": draw.Dark()} {
			o := newRoomOwner(t, 22)
			amongObstacles(t, &o.in, o.in.Obstacles)
			o.in.Overlays = scene.AllOverlays &^ (scene.OtherSide | scene.ErrorMarks)
			o.show()
			o.view.SetPalette(palette)
			o.plan.SetPalette(palette)
			o.view.Resize(sizeOf(float32(size.w), float32(size.front)))
			o.plan.Resize(sizeOf(float32(size.w), float32(size.plan)))
			o.plan.Select(scene.OfObstacle(1, 1))
			name := fmt.Sprintf("room-%d-%s", size.w, theme)
			saveBar(t, name+"-1front", o.view.paint(size.w, size.front))
			saveBar(t, name+"-2plan", o.plan.paint(size.w, size.plan))
		}
	}
}
