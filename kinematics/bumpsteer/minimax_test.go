package bumpsteer

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// Chebyshev: the best odd line to x^3 on -1..1 is 3x/4 and misses by 1/4.
// A step over either limit comes back as far inside as it went beyond.
func TestReflect(t *testing.T) {
	for u, want := range map[float64]float64{0.3: 0.3, 1: 1, 1.2: 0.8, -0.35: 0.35, 2.6: 0.6, -1.7: 0.3, 3.1: 0.9} {
		if got := reflect(u); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g becomes %g, want %g", u, got, want)
		}
	}
}

func TestMinimaxOfACubic(t *testing.T) {
	const n = 2001
	r, slope, level := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range r {
		x := -1 + 2*float64(i)/(n-1)
		r[i], slope[i], level[i] = -x*x*x, x, 1
	}
	d, miss := minimaxStep(r, [][]float64{slope, level}, []float64{-3, -2}, []float64{5, 7})
	if math.Abs(d[0]-0.75) > 1e-6 || math.Abs(d[1]) > 1e-6 || math.Abs(miss-0.25) > 1e-6 {
		t.Errorf("line %v misses by %.9f", d, miss)
	}
	// Held below the best slope, the ends miss most: 1 - 0.4.
	d, miss = minimaxStep(r, [][]float64{slope, level}, []float64{-3, 0}, []float64{0.4, 0})
	if math.Abs(d[0]-0.4) > 1e-12 || d[1] != 0 || math.Abs(miss-0.6) > 1e-12 {
		t.Errorf("held line %v misses by %.9f", d, miss)
	}
}

// Against gonum's simplex method for programmes in standard form.
func TestMinimaxAgainstGonum(t *testing.T) {
	const seed = 5150
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 4))
	for range 60 {
		n, m := 1+rng.IntN(3), 4+rng.IntN(9)
		r, j := make([]float64, m), make([][]float64, n)
		for i := range r {
			r[i] = rng.NormFloat64()
		}
		lo, hi := make([]float64, n), make([]float64, n)
		for k := range j {
			j[k] = make([]float64, m)
			for i := range j[k] {
				j[k][i] = rng.NormFloat64()
			}
			lo[k], hi[k] = -rng.Float64(), rng.Float64()
		}
		d, got := minimaxStep(r, j, lo, hi)
		for k := range d {
			if d[k] < lo[k] || d[k] > hi[k] {
				t.Fatalf("step %v leaves %v to %v", d, lo, hi)
			}
		}
		// Unknowns u, t and a slack for each row.
		rows := 2*m + n
		a, b, c := mat.NewDense(rows, n+1+rows, nil), make([]float64, rows), make([]float64, n+1+rows)
		c[n] = 1
		for i := range m {
			q := r[i]
			for k := range n {
				q += j[k][i] * lo[k]
				a.Set(2*i, k, j[k][i])
				a.Set(2*i+1, k, -j[k][i])
			}
			a.Set(2*i, n, -1)
			a.Set(2*i+1, n, -1)
			b[2*i], b[2*i+1] = -q, q
		}
		for k := range n {
			a.Set(2*m+k, k, 1)
			b[2*m+k] = hi[k] - lo[k]
		}
		for i := range rows {
			a.Set(i, n+1+i, 1)
		}
		want, _, err := lp.Simplex(c, a, b, 1e-12, nil)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got-want) > 1e-8 {
			t.Errorf("misses by %.10f, gonum by %.10f", got, want)
		}
	}
}
