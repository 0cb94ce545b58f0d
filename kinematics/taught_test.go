package kinematics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// TestTaughtBandsAreThoseOfTheAdjustment: the band of any value is that of the dense
// covariance of all unknowns, the gauge zeros among them, inverted as a whole.
func TestTaughtBandsAreThoseOfTheAdjustment(t *testing.T) {
	r := seeded(t, 951)
	for i, c := range someCorners(t, 95, 12) {
		c.Spring = Spring{}
		w := Evenly(1).Measured(Coordinate{OuterEnd, 2}, 3).Assumed(Coordinate{RackEnd, 0}, 8).Measured(Coordinate{LowerBall, 1}, 0)
		var reads []ToeRead
		for range 5 + r.IntN(20) {
			reads = append(reads, ToeRead{Travel: 50 * (2*r.Float64() - 1), Sigma: 0.0002 + 0.001*r.Float64(), Zero: r.IntN(3) - 1})
		}
		travel := 45 * (2*r.Float64() - 1)
		toes := func(c *Corner) ([]Value, error) {
			m, err := New(c)
			if err != nil {
				return nil, err
			}
			var list []Value
			for _, k := range append(reads, ToeRead{Travel: travel}) {
				p, err := m.At(k.Travel, 0)
				if err != nil {
					return nil, err
				}
				list = append(list, Number(math.Atan2(p.Spin.X, p.Spin.Y)-c.Toe, true))
			}
			p, err := m.At(travel, 0)
			return append(list, p.Values()...), err
		}
		tape, err := Linearise(&c, w, toes)
		if err != nil || tape.Edge != nil {
			continue
		}
		at := w.Coordinates(&c)
		n := len(at) + 2
		info := mat.NewSymDense(n, nil)
		for k, x := range at {
			size := w.Size(x) / math.Sqrt(3)
			info.SetSym(k, k, 1/(size*size))
		}
		for i, read := range reads {
			row := make([]float64, n)
			for k, x := range at {
				row[k] = tape.Slope(i, x)
			}
			if read.Zero >= 0 {
				row[len(at)+read.Zero] = 1
			}
			info.SymRankOne(info, 1/(read.Sigma*read.Sigma), mat.NewVecDense(n, row))
		}
		for k := len(at); k < n; k++ { // a zero that no reading has
			info.SetSym(k, k, info.At(k, k)+1e-12)
		}
		var chol mat.Cholesky
		if !chol.Factorize(info) {
			t.Fatalf("corner %d: no covariance", i)
		}
		taught, err := w.Taught(&c, reads)
		if err != nil {
			t.Fatal(err)
		}
		l, err := Linearise(&c, taught, toes)
		if err != nil {
			t.Fatal(err)
		}
		narrowed := 1.0
		for _, v := range []int{len(reads), len(reads) + 1 + int(Toe), len(reads) + 1 + int(RideToe), len(reads) + 1 + int(Camber), len(reads) + 1 + int(ScrubRadius)} {
			g, s := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
			most := 0.0
			for k, x := range at {
				g.SetVec(k, tape.Slope(v, x))
				most += math.Abs(tape.Slope(v, x)) * w.of(x).most()
			}
			if err := chol.SolveVecTo(s, g); err != nil {
				t.Fatal(err)
			}
			want := min(most, Normal95*math.Sqrt(mat.Dot(g, s)))
			got, ok := l.Half(v)
			before, _ := tape.Half(v)
			if !ok || math.Abs(got-want) > 2e-3*want+1e-9 || got > before*(1+1e-9) {
				t.Errorf("corner %d, value %d: band %g, want %g, by the tape %g", i, v, got, want, before)
			}
			// Draws of the errors, and the quick way, say the same.
			if drawn := l.drawn([]int{v}, func(v []float64) float64 { return v[0] }); math.Abs(drawn-want) > 0.12*want+1e-9 {
				t.Errorf("corner %d, value %d: by draws %g, want %g", i, v, drawn, want)
			}
			narrowed = min(narrowed, got/before)
		}
		m := mustNew(t, c)
		b, err := m.Bands(taught, travel, 0)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := b.Of(Toe)
		want, _ := l.Half(len(reads) + 1 + int(Toe))
		near(t, "band of the quick way", got, want, 1e-9)
		if narrowed > 0.5 {
			t.Errorf("corner %d: the readings narrow nothing below %g", i, narrowed)
		}
		// Joined to another corner, and with a coordinate measured anew, the tape counts.
		both, plain := Beside(&l, &l), Beside(&tape, &tape)
		a, _ := both.Half(len(reads))
		z, _ := plain.Half(len(reads))
		near(t, "band of one of two", a, z, 1e-15)
		if again := taught.Measured(Coordinate{OuterEnd, 2}, 3); again != w {
			t.Error("a coordinate measured anew keeps what readings taught")
		}
	}
}
