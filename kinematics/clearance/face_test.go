package clearance

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics/internal/checkcorner"
)

// The face against the highest y among surface points above the spin axis, with
// the top of the wheel leaning either way and the wheel steered.
func TestFaceAgainstTheSurface(t *testing.T) {
	for _, camber := range []float64{-3.1, -0.2, 2.7} {
		corner := ahead()
		corner.Camber = rad(camber)
		m := checkcorner.New(t, corner)
		for _, rack := range []float64{0, -31, 28} {
			p := checkcorner.At(t, m, 8, rack)
			forward, _ := p.Heading()
			up := r3.Cross(forward, p.Spin)
			if up.Z < 0 {
				up = r3.Scale(-1, up)
			}
			for _, tyre := range []Tyre{wide(), plain()} {
				far := math.Inf(-1)
				surface(tyre, &p, 400_000, func(s Vec) {
					if r3.Dot(r3.Sub(s, p.WheelCentre), up) >= 0 {
						far = max(far, s.Y)
					}
				})
				if got := tyre.Face(&p); got < far-1e-9 || got > far+0.1 {
					t.Errorf("camber %g, rack %g: face %.4f, sample %.4f", camber, rack, got, far)
				}
			}
		}
	}
}
