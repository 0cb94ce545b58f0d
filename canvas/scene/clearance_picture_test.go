package scene

import (
	"fmt"
	"math"
	"testing"

	"armscribe/canvas/draw"
)

func TestClearancePictures(t *testing.T) {
	for i := range 4 {
		in := roomy(t)
		switch i {
		case 1:
			o := in.Obstacles[0]
			in.Travel, in.Rack = o.Travel, o.Rack
			in.Overlays = Clearance
			in.Hover, in.Note = OfObstacle(0, 0), []string{"Inner wing", "y 541 mm  z 596 mm"}
		case 2:
			in.Travel, in.Rack, in.Selected, in.Focus = -43, 37, OfObstacle(4, 1), OfObstacle(4, 1)
		case 3:
			in.Roll = 2.7 * math.Pi / 180
		}
		for _, size := range []draw.View{{W: 900, H: 600}, {W: 500, H: 420}} {
			var l draw.List
			var out Output
			v := fitted(size, in)
			if err := Build(&l, v, in, &out); err != nil {
				t.Fatal(err)
			}
			savePicture(t, fmt.Sprintf("clear%d-front", i), &l, v)
			v.H = math.Round(size.H / 2)
			v.Centre.Y = 0
			if err := BuildPlan(&l, v, in, &out); err != nil {
				t.Fatal(err)
			}
			savePicture(t, fmt.Sprintf("clear%d-plan", i), &l, v)
		}
	}
}
