package scene

import (
	"testing"

	"armscribe/canvas/draw"
)

// BenchmarkBuild is one frame of a drag: every overlay and the compared variant.
func BenchmarkBuild(b *testing.B) {
	for _, d := range demos(b) {
		switch d.name {
		case "longer", "roll-before", "roomy":
		default:
			continue
		}
		for _, drag := range []bool{false, true} {
			name := d.name
			if drag {
				name += "-drag" // the corner changes every frame
			}
			b.Run(name, func(b *testing.B) {
				var l draw.List
				var out Output
				v := fitted(draw.View{W: 1400, H: 900}, d.in)
				b.ReportAllocs()
				for b.Loop() {
					if drag {
						out.work.arcs.valid = false
					}
					if err := Build(&l, v, d.in, &out); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// BenchmarkPlan is the same from above, among obstacles and with the outlines.
func BenchmarkPlan(b *testing.B) {
	in := roomy(b)
	var l draw.List
	var out Output
	v := FitPlan(draw.View{W: 1400, H: 320}, in)
	b.ReportAllocs()
	for b.Loop() {
		if err := BuildPlan(&l, v, in, &out); err != nil {
			b.Fatal(err)
		}
	}
}
