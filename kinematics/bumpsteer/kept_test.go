package bumpsteer

import (
	"math"
	"math/rand/v2"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

// TestKeptFitHoldsTheTruth: of random cars, each measured wrong and read with sheets
// of any kind, the corner that was fitted and kept with its readings says of the toe
// curve what is true 95 times in 100, and no more than the fit itself said.
func TestKeptFitHoldsTheTruth(t *testing.T) {
	const seed, sigma = 77, 0.0004
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	var slope, bow, toe, ride, n int
	for range checkcorner.Trials(t, 250, 3000) {
		car := checkcorner.Random(r)
		measured := checkcorner.MeasuredWrong(r, car, 1)
		m, err := kinematics.New(&car)
		if err != nil {
			continue
		}
		q := FitRequest{Corner: measured, Within: kinematics.Evenly(1), Sigma: sigma, ZeroFree: true, From: -40, To: 45}
		var kept []kinematics.ToeRead
		zero := [sideCount]float64{0.001 * r.NormFloat64(), 0.001 * r.NormFloat64(), 0.001 * r.NormFloat64()}
		for range 4 + r.IntN(14) {
			h, side := -40+85*r.Float64(), Side(r.IntN(int(sideCount)))
			p, err := m.At(h, 0)
			if err != nil {
				break
			}
			q.Readings = append(q.Readings, Reading{Travel: h, Side: side, Toe: math.Atan2(p.Spin.X, p.Spin.Y) - car.Toe + zero[side] + sigma*r.NormFloat64()})
			kept = append(kept, kinematics.ToeRead{Travel: h, Sigma: sigma, Zero: int(side)})
		}
		f, err := Fit(q)
		truth, errTruth := Diagnose(car, kinematics.Evenly(0), q.From, q.To)
		if err != nil || errTruth != nil {
			continue // out of reach
		}
		within, err := q.Within.Taught(&f.Corner, kept)
		if err != nil {
			continue
		}
		d, err := Diagnose(f.Corner, within, q.From, q.To)
		if err != nil {
			continue
		}
		if d != f.Advice {
			t.Fatalf("kept: %+v, fitted: %+v", d, f.Advice)
		}
		h := -35 + 75*r.Float64()
		sheet, err := GaugeSheet(f.Corner, within, []float64{h}, Gauge{})
		p, errAt := m.At(h, 0)
		fm, errFitted := kinematics.New(&f.Corner)
		if err != nil || errAt != nil || errFitted != nil {
			continue
		}
		bands, err := fm.Bands(within, h, 0)
		if err != nil {
			continue
		}
		read := p.Readings()
		trueToe, _ := read.Of(kinematics.Toe)
		trueRide, _ := read.Of(kinematics.RideToe)
		i, _ := bands.Interval(kinematics.RideToe)
		count := func(to *int, in bool) {
			if in {
				*to++
			}
		}
		n++
		count(&slope, math.Abs(d.Slope.Value-truth.Slope.Value) <= d.Slope.Half)
		count(&bow, math.Abs(d.Bow.Value-truth.Bow.Value) <= d.Bow.Half)
		count(&toe, math.Abs(sheet[0].Change.Value-(trueToe-car.Toe)) <= sheet[0].Change.Half)
		count(&ride, i.Holds(trueRide))
	}
	checkcorner.Covered(t, "slope", slope, n)
	checkcorner.Covered(t, "bow", bow, n)
	checkcorner.Covered(t, "toe change", toe, n)
	checkcorner.Covered(t, "ride toe", ride, n)
}
