package kinematics

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// ToeRead is one reading of a toe gauge, as far as a band depends on it.
type ToeRead struct {
	Travel float64 // mm
	Sigma  float64 // rad, standard deviation, above zero
	// Zero numbers the gauge zero, unknown, that it shares with others, from 0 on;
	// below 0 for a zero that is known.
	Zero int
}

const (
	// mostTaught is how many combinations of the coordinates readings teach at
	// most: slope and bow of a toe curve, and what little more it can show.
	mostTaught = 6
	// leastTaught is the share of a combination's variance below which readings
	// have taught nothing of it.
	leastTaught = 1e-6
)

// taught are the combinations of errors, each in its coordinate's own size, that
// readings bound: orthogonal, each as long as the root of the share of its variance
// that the readings take away. The rest stays as the tape left it.
type taught [mostTaught][errorRows][3]float64

// Taught returns w for a corner that was fitted to toe readings, or that agrees with
// them: they bound no coordinate much, but closely the combinations that turn the
// wheel. It is the covariance of a least-squares fit to measured coordinates and
// readings (any textbook of adjustment), in the directions of the singular vectors
// of the readings. Measured and Assumed, used on the result, forget it. Errors are
// those of New and Mechanism.At.
func (w Within) Taught(c *Corner, readings []ToeRead) (Within, error) {
	w.taught = taught{}
	l, err := Linearise(c, w, func(c *Corner) ([]Value, error) {
		m, err := New(c)
		if err != nil {
			return nil, err
		}
		list := make([]Value, len(readings))
		for i, r := range readings {
			p, err := m.At(r.Travel, 0)
			if err != nil {
				return nil, err
			}
			list[i] = Number(math.Atan2(p.Spin.X, p.Spin.Y)-c.Toe, true)
		}
		return list, nil
	})
	if err == nil {
		err = l.Edge
	}
	if err != nil || len(readings) == 0 || len(l.errors) == 0 {
		return w, err
	}
	rows := mat.NewDense(len(readings), len(l.errors), nil)
	for i, r := range readings {
		for k, e := range l.errors {
			rows.Set(i, k, l.tangent(k, i)*e.size.root()/math.Sqrt(3)/r.Sigma)
		}
	}
	withoutZeros(rows, readings)
	var svd mat.SVD
	if !svd.Factorize(rows, mat.SVDThin) {
		return w, nil // no combination is known better than the tape has it
	}
	var v mat.Dense
	svd.VTo(&v)
	for i, s := range svd.Values(nil) {
		share := s * s / (1 + s*s)
		if i == mostTaught || share < leastTaught {
			break
		}
		for k, e := range l.errors {
			w.taught[i][e.at.Point][e.at.Axis] = math.Sqrt(share) * v.At(k, i)
		}
	}
	return w, nil
}

// withoutZeros takes out of the rows, each over its standard deviation, what the
// unknown zero that some share could be.
func withoutZeros(rows *mat.Dense, readings []ToeRead) {
	_, columns := rows.Dims()
	sum, weight := map[int][]float64{}, map[int]float64{}
	for i, r := range readings {
		if r.Zero < 0 {
			continue
		}
		if sum[r.Zero] == nil {
			sum[r.Zero] = make([]float64, columns)
		}
		weight[r.Zero] += 1 / (r.Sigma * r.Sigma)
		for k := range columns {
			sum[r.Zero][k] += rows.At(i, k) / r.Sigma
		}
	}
	for i, r := range readings {
		if r.Zero < 0 {
			continue
		}
		for k := range columns {
			rows.Set(i, k, rows.At(i, k)-sum[r.Zero][k]/weight[r.Zero]/r.Sigma)
		}
	}
}

// AnyTaught tells whether readings bound it.
func (w *Within) AnyTaught() bool { return w.taught != taught{} }
