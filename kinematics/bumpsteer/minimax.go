package bumpsteer

import "math"

// Tolerances of the linear programme; its numbers are scaled to about 1.
const (
	pivotTolerance = 1e-11 // smaller pivots are rounding
	costTolerance  = 1e-10 // smaller gains are rounding
	maxPivots      = 2000  // far more than a programme of this size takes
	// plainPivots is how long the steepest gain is followed; after that Bland's
	// rule (Math. of Operations Research 2, 1977) keeps it from going round.
	plainPivots = 300
)

// minimaxStep returns the step d with lo <= d <= hi that makes the largest
// |r[i] + J[i].d| least, and that value. j holds one column per unknown:
// j[k][i]. It is a linear programme in d and the bound t, solved by the simplex
// method on the condensed tableau (Dantzig, Linear Programming and Extensions,
// 1963): unknowns u = d - lo >= 0 and t >= 0, rows
//
//	J[i].u - t <= -q[i],   -J[i].u - t <= q[i],   u <= hi - lo,   q = r + J lo
//
// lo = hi is allowed and keeps an unknown where it is. All must be finite.
func minimaxStep(r []float64, j [][]float64, lo, hi []float64) (d []float64, largest float64) {
	n, m := len(j), len(r)
	d = make([]float64, n)
	scale := 0.0
	for _, v := range r {
		scale = max(scale, math.Abs(v))
	}
	if scale == 0 {
		return d, 0
	}
	t := newTableau(n+1, 2*m+n)
	for i := range m {
		q := r[i]
		for k := range n {
			q += j[k][i] * lo[k]
		}
		for k := range n {
			t.a[2*i][k], t.a[2*i+1][k] = j[k][i]/scale, -j[k][i]/scale
		}
		t.a[2*i][n], t.a[2*i+1][n] = -1, -1
		t.b[2*i], t.b[2*i+1] = -q/scale, q/scale
	}
	for k := range n {
		t.a[2*m+k][k], t.b[2*m+k] = 1, hi[k]-lo[k]
	}
	t.cost[n] = 1
	// With t in the basis in place of the row that misses most, all others hold.
	worst := 0
	for i := range 2 * m {
		if t.b[i] < t.b[worst] {
			worst = i
		}
	}
	if t.b[worst] < 0 {
		t.pivot(worst, n)
	}
	t.run()
	for k := range n {
		d[k] = lo[k]
	}
	for i, label := range t.basic {
		if label < n {
			d[label] = min(hi[label], lo[label]+max(0, t.b[i]))
		}
	}
	for i := range m {
		v := r[i]
		for k := range n {
			v += j[k][i] * d[k]
		}
		largest = max(largest, math.Abs(v))
	}
	return d, largest
}

// tableau is a linear programme: basic + a . free = b, cost . free least, all
// variables at least zero. Labels below the number of columns are unknowns.
type tableau struct {
	a           [][]float64
	b, cost     []float64
	basic, free []int
}

func newTableau(columns, rows int) *tableau {
	t := &tableau{a: make([][]float64, rows), b: make([]float64, rows), cost: make([]float64, columns),
		basic: make([]int, rows), free: make([]int, columns)}
	cells := make([]float64, rows*columns)
	for i := range t.a {
		t.a[i] = cells[i*columns : (i+1)*columns]
		t.basic[i] = columns + i
	}
	for k := range t.free {
		t.free[k] = k
	}
	return t
}

func (t *tableau) pivot(row, col int) {
	p, r := 1/t.a[row][col], t.a[row]
	for k := range r {
		r[k] *= p
	}
	t.b[row] *= p
	r[col] = p
	for i, a := range t.a {
		if f := a[col]; i != row && f != 0 {
			for k := range a {
				a[k] -= f * r[k]
			}
			a[col] = -f * p
			t.b[i] -= f * t.b[row]
		}
	}
	f := t.cost[col]
	for k := range t.cost {
		t.cost[k] -= f * r[k]
	}
	t.cost[col] = -f * p
	t.basic[row], t.free[col] = t.free[col], t.basic[row]
}

// run pivots until nothing is to be gained. The bound t keeps it from going on
// for ever in one direction.
func (t *tableau) run() {
	for n := range maxPivots {
		col := t.entering(n >= plainPivots)
		if col < 0 {
			return
		}
		row := t.leaving(col)
		if row < 0 {
			return
		}
		t.pivot(row, col)
	}
}

func (t *tableau) entering(bland bool) int {
	col := -1
	for k, c := range t.cost {
		if c >= -costTolerance {
			continue
		}
		if col < 0 || bland && t.free[k] < t.free[col] || !bland && c < t.cost[col] {
			col = k
		}
	}
	return col
}

func (t *tableau) leaving(col int) int {
	row, least := -1, 0.0
	for i, a := range t.a {
		if a[col] <= pivotTolerance {
			continue
		}
		q := t.b[i] / a[col]
		if row < 0 || q < least || q == least && t.basic[i] < t.basic[row] {
			row, least = i, q
		}
	}
	return row
}
