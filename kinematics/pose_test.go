package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// Heading and outboard are horizontal unit vectors, square to each other, outboard
// along the spin axis as seen from above; toe turns the heading from straight ahead.
func TestHeading(t *testing.T) {
	const tolerance = 1e-12
	m := mustNew(t, caseB())
	for _, at := range [][2]float64{{0, 0}, {37, -41}, {-48, 29}} {
		p := mustAt(t, m, at[0], at[1])
		f, l := p.Heading()
		for i, v := range []Vec{f, l} {
			if v.Z != 0 || math.Abs(r3.Norm(v)-1) > tolerance {
				t.Errorf("at %v: vector %d is %v, of length %g", at, i, v, r3.Norm(v))
			}
		}
		if math.Abs(r3.Dot(f, l)) > tolerance || math.Abs(r3.Dot(f, p.Spin)) > tolerance || r3.Dot(l, p.Spin) <= 0 {
			t.Errorf("at %v: heading %v and outboard %v beside the spin axis %v", at, f, l, p.Spin)
		}
		r := p.Readings()
		if toe, ok := r.Of(Toe); !ok || math.Abs(math.Atan2(-f.Y, f.X)-toe) > tolerance {
			t.Errorf("at %v: heading %v, toe %g", at, f, toe)
		}
	}
}
