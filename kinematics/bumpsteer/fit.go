package bumpsteer

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"armscribe/kinematics"
)

// Sizes of the fit.
const (
	fitSteps = 40
	// fitEnd is the step, in prior deviations, at which the fit has settled.
	fitEnd = 1e-7
	// Damping of Levenberg and Marquardt: none until a step fails.
	firstDamping, mostDamping = 1e-3, 1e9
	// Unlikely is the size of a standardised residual or correction beyond
	// which it is flagged: a right one gets there once in 1000 times (normal
	// distribution, both sides; the level used in Baarda 1968).
	Unlikely = 3.290526731491895
	// checkable is the least share of variance by which something must be
	// checked by the rest for its statistic to mean anything.
	checkable = 1e-6
)

// FitRequest is what Fit is asked for.
type FitRequest struct {
	Corner   kinematics.Corner // as measured
	Within   kinematics.Within // of every coordinate
	Readings []Reading
	Sigma    float64 // rad, standard deviation of one reading
	// ZeroFree lets the gauge's zero be off by an unknown angle, one for each
	// side. It is right whenever the change from rest was taken from a resting
	// reading, which has an error of its own.
	ZeroFree bool
	// Prior gives other standard deviations, mm, than Within / sqrt(3): more
	// for a point that was hard to reach, 0 for one that is exact.
	Prior map[kinematics.Coordinate]float64
	// LeaveOutBad fits once more without the readings that are flagged as bad.
	LeaveOutBad bool
	From, To    float64 // mm, travel range of the diagnosis; holds rest
}

// Correction is the most likely correction of one measured coordinate.
type Correction struct {
	At    kinematics.Coordinate
	MM    float64 // corrected less measured
	Prior float64 // mm, standard deviation before the readings
	Sigma float64 // mm, standard deviation after; never above Prior
	// Statistic is the correction over the standard deviation that it would
	// have if all measuring errors were as stated: beyond ±Unlikely it was
	// probably mis-measured. It equals the root of what the misfit would lose
	// if this coordinate alone were freed of its prior (Baarda's test of a
	// single observation, A testing procedure for use in geodetic networks,
	// 1968, from memory). 0 where the readings say nothing of it.
	Statistic float64
	// Size is the correction, mm, and its 95 % half-width, if this coordinate
	// alone had no prior, so that the readings alone place it.
	Size Banded
}

// Residual is one reading against the fitted corner.
type Residual struct {
	Reading Reading
	Fitted  float64 // rad, toe change by the fitted corner, gauge zero included
	Miss    float64 // rad, reading less fitted
	// Studentised is Miss over its own standard deviation; 0 where nothing else
	// checks this reading.
	Studentised float64
	Bad         bool // beyond ±Unlikely, and likelier wrong than any point
	LeftOut     bool // bad, and not used
}

// Fitted is the most likely corner behind the readings.
type Fitted struct {
	Corner      kinematics.Corner // corrected
	Corrections []Correction      // in the order of Corner.Coordinates, the spring's left out
	Residuals   []Residual        // in the order given
	Zero        [sideCount]Banded // rad, gauge zero by Side; only with ZeroFree, 0 where unused
	// Suspect is the index in Corrections of the coordinate most likely
	// mis-measured, by Statistic; Mismeasured tells whether it is beyond
	// Unlikely. Rivals are others that explain the readings nearly as well: the
	// readings cannot tell them apart, so measure all of them again.
	Suspect     int
	Mismeasured bool
	Rivals      []int
	// Advice is the diagnosis of the fitted corner with the bands that are left.
	Advice Diagnosis
}

// rivalShare of the largest statistic, squared, that still makes a rival:
// the misfits differ by less than a quarter.
const rivalShare = 0.75

// Fit finds the corrections of the measured points that the readings make most
// likely (maximum a posteriori): least squares of the misses, each over its
// standard deviation, together with the corrections, each over its own. The
// given angles, wheel sizes and travels are taken as exact. Gauss-Newton steps
// on the exact mechanism, damped after Levenberg and Marquardt where one fails,
// each solved by QR of the whitened system; the priors keep it of full rank
// whatever the readings are. Standard deviations come from the same matrix at
// the end, to first order.
//
// Errors match ErrReading, ErrTooFewReadings, ErrRange or ErrGauge (a standard
// deviation of zero), or are those of kinematics.New and Mechanism.At.
func Fit(q FitRequest) (Fitted, error) {
	if err := q.check(); err != nil {
		return Fitted{}, err
	}
	left := make([]bool, len(q.Readings))
	f, err := q.fit(left)
	if err != nil {
		return Fitted{}, err
	}
	all, used := f, len(left)
	for range len(left) / 3 {
		worst := f.worstReading(left)
		if worst < 0 || used <= minReadings {
			break
		}
		left[worst] = true
		used--
		if f, err = q.fit(left); err != nil {
			return Fitted{}, err
		}
	}
	if !q.LeaveOutBad {
		f = all
	}
	for i := range f.Residuals {
		f.Residuals[i].Bad = left[i]
		f.Residuals[i].LeftOut = left[i] && q.LeaveOutBad
	}
	return f, nil
}

func (q *FitRequest) check() error {
	g := Goal{From: q.From, To: q.To}
	if err := g.check(); err != nil {
		return err
	}
	for at, sigma := range q.Prior {
		if !(sigma >= 0 && sigma <= kinematics.MaxLength) {
			panic(fmt.Sprintf("kinematics: prior of %v is %g mm", at, sigma))
		}
	}
	if !(q.Sigma > 0 && q.Sigma <= math.Pi) {
		return fmt.Errorf("standard deviation of the toe gauge %g rad: must be above zero: %w", q.Sigma, ErrGauge)
	}
	return checkReadings(&q.Corner, q.Readings)
}

// worstReading is the bad reading to leave out next, or -1: beyond Unlikely
// and farther than any coordinate.
func (f *Fitted) worstReading(left []bool) int {
	worst, limit := -1, max(Unlikely, math.Abs(f.Corrections[f.Suspect].Statistic))
	for i, r := range f.Residuals {
		if v := math.Abs(r.Studentised); !left[i] && v > limit {
			worst, limit = i, v
		}
	}
	return worst
}

// system is the whitened problem: unknowns are the corrections in prior
// deviations, then the gauge zeros in deviations of the gauge.
type system struct {
	q       *FitRequest
	at      []kinematics.Coordinate
	prior   []float64
	zero    [sideCount]int // column of the gauge zero, -1 where there is none
	columns int
	sigma   []float64 // of each reading
	left    []bool
}

func newSystem(q *FitRequest, left []bool) *system {
	s := &system{q: q, left: left, zero: [sideCount]int{-1, -1, -1}}
	for _, at := range q.Corner.Coordinates() {
		if at.Point == kinematics.SpringMoving || at.Point == kinematics.SpringBody {
			continue // no toe depends on them
		}
		sigma, given := q.Prior[at]
		if !given {
			sigma = q.Within.Size(at) / math.Sqrt(3)
		}
		s.at, s.prior = append(s.at, at), append(s.prior, sigma)
	}
	s.columns = len(s.at)
	for i, r := range q.Readings {
		if q.ZeroFree && s.zero[r.Side] < 0 && !left[i] {
			s.zero[r.Side] = s.columns
			s.columns++
		}
		sigma := r.Sigma
		if sigma == 0 {
			sigma = q.Sigma
		}
		s.sigma = append(s.sigma, sigma)
	}
	return s
}

// corner applies corrections.
func (s *system) corner(u []float64) kinematics.Corner {
	c := s.q.Corner
	for k, at := range s.at {
		c.Shift(at, u[k]*s.prior[k])
	}
	return c
}

// predict writes the toe change of every reading.
func (s *system) predict(c kinematics.Corner, dst []float64) error {
	m, err := kinematics.New(&c)
	if err != nil {
		return err
	}
	for i, r := range s.q.Readings {
		p, err := m.At(r.Travel, 0)
		if err != nil {
			return err
		}
		dst[i] = math.Atan2(p.Spin.X, p.Spin.Y) - c.Toe
	}
	return nil
}

// zeroOf is the gauge zero of a reading, rad.
func (s *system) zeroOf(u []float64, side Side) float64 {
	if s.zero[side] < 0 {
		return 0
	}
	return u[s.zero[side]] * s.q.Sigma
}

// misses writes the whitened misses and returns the sum of squares with the
// corrections.
func (s *system) misses(u, dst []float64) (float64, error) {
	if err := s.predict(s.corner(u), dst); err != nil {
		return 0, err
	}
	sum := 0.0
	for i, r := range s.q.Readings {
		dst[i] = (r.Toe - dst[i] - s.zeroOf(u, r.Side)) / s.sigma[i]
		if !s.left[i] {
			sum += dst[i] * dst[i]
		}
	}
	for k := range s.at {
		sum += u[k] * u[k]
	}
	return sum, nil
}

// unknown marks the coordinates that the fit may correct, for their slopes.
func (s *system) unknown() kinematics.Within {
	w := s.q.Within
	for k, at := range s.at {
		w = w.Measured(at, min(1, s.prior[k]))
	}
	return w
}

// slopes returns the whitened derivative of every prediction by every unknown,
// by central differences on the exact mechanism.
func (s *system) slopes(u []float64) (*mat.Dense, error) {
	n := len(s.q.Readings)
	j := mat.NewDense(n, s.columns, nil)
	here := s.corner(u)
	l, err := kinematics.Linearise(&here, s.unknown(), func(c *kinematics.Corner) ([]kinematics.Value, error) {
		toe, list := make([]float64, n), make([]kinematics.Value, n)
		err := s.predict(*c, toe)
		for i := range list {
			list[i] = kinematics.Number(toe[i], true)
		}
		return list, err
	})
	if err == nil {
		err = l.Edge
	}
	if err != nil {
		return nil, err
	}
	for k, at := range s.at {
		for i := range n {
			j.Set(i, k, l.Slope(i, at)*s.prior[k]/s.sigma[i])
		}
	}
	for i, r := range s.q.Readings {
		if k := s.zero[r.Side]; k >= 0 {
			j.Set(i, k, s.q.Sigma/s.sigma[i])
		}
	}
	return j, nil
}

// stacked is the matrix of the least-squares problem: readings above priors.
// Readings left out have empty rows.
func (s *system) stacked(j *mat.Dense, damping float64) *mat.Dense {
	n, rows := s.columns, len(s.q.Readings)
	a := mat.NewDense(rows+2*n, n, nil)
	for i := range rows {
		if !s.left[i] {
			a.SetRow(i, j.RawRowView(i))
		}
	}
	for k := range n {
		if k < len(s.at) {
			a.Set(rows+k, k, 1)
		}
		a.Set(rows+n+k, k, math.Sqrt(damping))
	}
	return a
}

// solve goes down to the most likely corrections.
func (s *system) solve() ([]float64, error) {
	n, rows := s.columns, len(s.q.Readings)
	u, miss := make([]float64, n), make([]float64, rows)
	sum, err := s.misses(u, miss)
	if err != nil {
		return nil, err
	}
	damping := 0.0
	var j *mat.Dense
	for range fitSteps {
		if j == nil {
			if j, err = s.slopes(u); err != nil {
				return nil, err
			}
		}
		b := mat.NewVecDense(rows+2*n, nil)
		for i := range rows {
			if !s.left[i] {
				b.SetVec(i, miss[i])
			}
		}
		for k := range s.at {
			b.SetVec(rows+k, -u[k])
		}
		var qr mat.QR
		var d mat.VecDense
		qr.Factorize(s.stacked(j, damping))
		if err := qr.SolveVecTo(&d, false, b); err != nil {
			return nil, fmt.Errorf("the readings fit no corner: %w", err)
		}
		next, trial := make([]float64, n), make([]float64, rows)
		for k := range next {
			next[k] = u[k] + d.AtVec(k)
		}
		got, err := s.misses(next, trial)
		switch {
		case mat.Norm(&d, 2) < fitEnd:
			return u, nil
		case err == nil && got <= sum:
			u, miss, sum, j = next, trial, got, nil
			damping /= 10
			if damping < firstDamping {
				damping = 0
			}
		case damping >= mostDamping:
			return u, nil
		default:
			damping = max(firstDamping, damping*10)
		}
	}
	return u, nil
}
