package kinematics

import (
	"math"
	"math/rand"
	"testing"
)

// The decision is that of the reciprocal: it moves evenly with the points, and a
// band of it that holds nought holds parallel arms.
func TestFarIsDecidedByTheReciprocal(t *testing.T) {
	const seed = 6113
	r := rand.New(rand.NewSource(seed))
	for range 20000 {
		arm := math.Copysign(math.Pow10(2)*math.Exp(r.Float64()*9), r.Float64()-0.4)
		half := math.Abs(arm) * math.Exp(r.NormFloat64()*2)
		low, high := 1/arm-half/(arm*arm), 1/arm+half/(arm*arm)
		got := FarOf(arm, true, half, true)
		want := Near
		switch {
		case low <= 0 && high >= 0:
			want = FarEither
			in, out := FarLimits(arm, half)
			if math.Abs(1/in-high) > 1e-12 || out < math.MaxFloat64 && math.Abs(1/out+low) > 1e-12 {
				t.Fatalf("seed %d: arm %g ± %g lies beyond %g and %g, not 1/%g and 1/%g", seed, arm, half, in, out, high, -low)
			}
		case arm >= FarArm:
			want = FarInboard
		case arm <= -FarArm:
			want = FarOutboard
		}
		if got != want {
			t.Fatalf("seed %d: arm %g ± %g: %d, want %d", seed, arm, half, got, want)
		}
	}
	if FarOf(0, false, 0, false) != FarEither || FarOf(2e5, true, 0, false) != FarInboard || FarOf(1300, true, 0, false) != Near {
		t.Error("an arm without a band is misjudged")
	}
}
