package bumpsteer

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"armscribe/kinematics"
)

// fit is one fit with some readings left out, and all that is said of it.
func (q *FitRequest) fit(left []bool) (Fitted, error) {
	s := newSystem(q, append([]bool(nil), left...))
	u, err := s.solve()
	if err != nil {
		return Fitted{}, err
	}
	j, err := s.slopes(u)
	if err != nil {
		return Fitted{}, err
	}
	cov, err := s.covariance(j)
	if err != nil {
		return Fitted{}, err
	}
	f := Fitted{Corner: s.corner(u)}
	f.correct(s, u, cov)
	if err := f.compare(s, u, j, cov); err != nil {
		return Fitted{}, err
	}
	f.blame()
	for side, k := range s.zero {
		if k >= 0 {
			f.Zero[side] = Banded{u[k] * q.Sigma, kinematics.Normal95 * q.Sigma * math.Sqrt(cov.At(k, k))}
		}
	}
	return f, f.advise(s)
}

// covariance is that of the whitened unknowns: the inverse of A'A, by way of
// A's triangle so that nothing is squared before it is inverted.
func (s *system) covariance(j *mat.Dense) (*mat.Dense, error) {
	n := s.columns
	var qr mat.QR
	qr.Factorize(s.stacked(j, 0))
	var r mat.Dense
	qr.RTo(&r)
	var inverse mat.TriDense
	upper := mat.NewTriDense(n, mat.Upper, nil)
	for i := range n {
		for k := i; k < n; k++ {
			upper.SetTri(i, k, r.At(i, k))
		}
	}
	if err := inverse.InverseTri(upper); err != nil {
		return nil, fmt.Errorf("the readings fit no corner: %w", err)
	}
	var cov mat.Dense
	cov.Mul(&inverse, inverse.T())
	return &cov, nil
}

// correct fills in the corrections.
func (f *Fitted) correct(s *system, u []float64, cov *mat.Dense) {
	f.Corrections = make([]Correction, len(s.at))
	for k, at := range s.at {
		prior, own := s.prior[k], cov.At(k, k)
		c := Correction{At: at, MM: u[k] * prior, Prior: prior, Sigma: prior * math.Sqrt(min(1, own))}
		// Before the readings the correction is known to be 0 with variance 1;
		// what the readings took from the variance is that of the correction.
		if known := 1 - own; known > checkable && prior > 0 {
			c.Statistic = u[k] / math.Sqrt(known)
			c.Size = Banded{u[k] * prior / known, kinematics.Normal95 * prior * math.Sqrt(own/known)}
		}
		f.Corrections[k] = c
	}
}

// compare fills in the residuals.
func (f *Fitted) compare(s *system, u []float64, j, cov *mat.Dense) error {
	miss := make([]float64, len(s.q.Readings))
	if _, err := s.misses(u, miss); err != nil {
		return err
	}
	f.Residuals = make([]Residual, len(miss))
	for i, r := range s.q.Readings {
		row := j.RowView(i)
		hat := mat.Inner(row, cov, row)
		// A reading left out has its own error and that of the fit; one that is
		// used has drawn the fit its way.
		variance := 1 - hat
		if s.left[i] {
			variance = 1 + hat
		}
		v := Residual{Reading: r, Miss: miss[i] * s.sigma[i]}
		v.Fitted = r.Toe - v.Miss
		if variance > checkable {
			v.Studentised = miss[i] / math.Sqrt(variance)
		}
		f.Residuals[i] = v
	}
	return nil
}

// blame finds the coordinate most likely mis-measured.
func (f *Fitted) blame() {
	for k, c := range f.Corrections {
		if math.Abs(c.Statistic) > math.Abs(f.Corrections[f.Suspect].Statistic) {
			f.Suspect = k
		}
	}
	most := math.Abs(f.Corrections[f.Suspect].Statistic)
	f.Mismeasured = most > Unlikely
	for k, c := range f.Corrections {
		if k != f.Suspect && most > 0 && c.Statistic*c.Statistic >= rivalShare*most*most {
			f.Rivals = append(f.Rivals, k)
		}
	}
}

// advise diagnoses the fitted corner, known as the readings leave it.
func (f *Fitted) advise(s *system) error {
	within, err := s.before().Taught(&f.Corner, s.toeReads())
	if err != nil {
		return err
	}
	f.Advice, err = Diagnose(f.Corner, within, s.q.From, s.q.To)
	return err
}

// before is how well the coordinates were known before the readings.
func (s *system) before() kinematics.Within {
	w := s.q.Within
	for at, sigma := range s.q.Prior {
		w = w.Assumed(at, 0).Measured(at, sigma*math.Sqrt(3))
	}
	return w
}

// toeReads are the readings that are used.
func (s *system) toeReads() []kinematics.ToeRead {
	var list []kinematics.ToeRead
	for i, r := range s.q.Readings {
		if s.left[i] {
			continue
		}
		k := kinematics.ToeRead{Travel: r.Travel, Sigma: s.sigma[i], Zero: -1}
		if s.q.ZeroFree {
			k.Zero = int(r.Side)
		}
		list = append(list, k)
	}
	return list
}
