package chart

import (
	"math"
	"math/rand/v2"
	"testing"
)

func labels(r Range) (out []string) {
	for _, t := range Ticks(r) {
		if t.Label != "" {
			out = append(out, t.Label)
		}
	}
	return out
}

func TestTickLabels(t *testing.T) {
	for _, c := range []struct {
		r    Range
		want []string
	}{
		{Range{-0.7, 0.62}, []string{"\u22120.5", "0", "0.5"}},
		{Range{-4.9, 1.1}, []string{"\u22124", "\u22122", "0"}},
		{Range{-60, 70}, []string{"\u221250", "0", "50"}},
		{Range{0.011, 0.052}, []string{"0.02", "0.03", "0.04", "0.05"}},
		{Range{1.288, 3.642}, []string{"1.5", "2.5", "3.5"}},
		{Range{-2.6e4, 3.1e4}, []string{"\u221225\u2009000", "0", "25\u2009000"}},
	} {
		got := labels(c.r)
		if len(got) != len(c.want) {
			t.Errorf("%v: labels %q, want %q", c.r, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v: labels %q, want %q", c.r, got, c.want)
				break
			}
		}
	}
}

// Whatever the range: at least two labels, rising evenly, inside, all different.
func TestTicksOfAnyRange(t *testing.T) {
	const seed = 5150
	r := rand.New(rand.NewPCG(seed, 4))
	for i := range 3000 {
		w := math.Pow(10, r.Float64()*8-3)
		lo := r.NormFloat64() * w
		rg := Range{lo, lo + w}
		seen := map[string]bool{}
		var vals []float64
		for _, k := range Ticks(rg) {
			if !rg.Has(k.Value) {
				t.Fatalf("seed %d, step %d: tick %g outside %v", seed, i, k.Value, rg)
			}
			if k.Label == "" {
				continue
			}
			if seen[k.Label] {
				t.Fatalf("seed %d, step %d: %q twice in %v", seed, i, k.Label, rg)
			}
			seen[k.Label] = true
			vals = append(vals, k.Value)
		}
		if len(vals) < 2 || len(vals) > 7 {
			t.Fatalf("seed %d, step %d: %d labels in %v", seed, i, len(vals), rg)
		}
		for k := 2; k < len(vals); k++ {
			if d := (vals[k] - vals[k-1]) - (vals[1] - vals[0]); math.Abs(d) > 1e-9*w {
				t.Fatalf("seed %d, step %d: uneven ticks %v", seed, i, vals)
			}
		}
	}
}

// A range that holds zero has it as a labelled tick.
func TestZeroIsATick(t *testing.T) {
	const seed = 718
	r := rand.New(rand.NewPCG(seed, 28))
	for i := range 3000 {
		w := math.Pow(10, r.Float64()*7-3)
		lo := -w * r.Float64()
		for _, rg := range []Range{{lo, lo + w}, NiceRange(lo, lo+w, w/50)} {
			found := false
			for _, k := range Ticks(rg) {
				found = found || k.Value == 0 && k.Label == "0"
			}
			if !found {
				t.Fatalf("seed %d, step %d: no zero in the labels %q of %v", seed, i, labels(rg), rg)
			}
		}
	}
}

func TestTicksRefuseNoRange(t *testing.T) {
	for _, r := range []Range{{3, 3}, {5, 2}, {0, math.Inf(1)}, {math.NaN(), 7}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%v was taken", r)
				}
			}()
			Ticks(r)
		}()
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		v    float64
		d    int
		want string
	}{
		{-0.234, 2, "\u22120.23"}, {-0.004, 2, "0"}, {1169.4, 0, "1\u2009169"},
		{-1234567.25, 2, "\u22121\u2009234\u2009567.25"}, {999, 1, "999.0"}, {0, 3, "0"},
	} {
		if got := Number(c.v, c.d); got != c.want {
			t.Errorf("%g with %d decimals is %q, want %q", c.v, c.d, got, c.want)
		}
	}
}

func TestNiceRange(t *testing.T) {
	const seed = 91
	r := rand.New(rand.NewPCG(seed, 6))
	for i := range 3000 {
		w := math.Pow(10, r.Float64()*6-3)
		a := r.NormFloat64() * w * 3
		b := a + w*(r.Float64()-0.5)
		n := NiceRange(a, b, w/7)
		lo, hi := min(a, b), max(a, b)
		width := max(hi-lo, w/7)
		if n.Min > lo+1e-9*w || n.Max < hi-1e-9*w || n.Max-n.Min < width*(1-1e-9) {
			t.Fatalf("seed %d, step %d: %g..%g became %v", seed, i, lo, hi, n)
		}
		if n.Max-n.Min > 1.6*width {
			t.Fatalf("seed %d, step %d: %g..%g became as wide as %v", seed, i, lo, hi, n)
		}
	}
	if n := NiceRange(-0.62, 0.48, 0.1); math.Abs(n.Min+0.8) > 1e-12 || math.Abs(n.Max-0.6) > 1e-12 {
		t.Errorf("-0.62..0.48 became %v", n)
	}
}
