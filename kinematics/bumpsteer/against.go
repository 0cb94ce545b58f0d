package bumpsteer

import (
	"math"
	"slices"

	"armscribe/kinematics"
)

// Against is a reading of the toe gauge beside what the points predict.
type Against struct {
	Predicted Banded  // rad, toe change from rest, with the band of the points
	Zero      float64 // rad, of its side's gauge: the middle one of what its readings have beyond the prediction
	// Times is how far the reading, less the zero, is from the prediction, in
	// measure of what the errors of points and gauge allow.
	Times float64
	// Odd: far beyond what the errors allow, and the others are not.
	Odd bool
}

// Sizes of what is odd about readings.
const (
	// standsOut: an inch is 25 mm, a degree on a rim is 8 mm.
	standsOut = 6.0
	// allOff: readings that are so many times as large, in the middle, as the
	// points predict with their errors are in another unit.
	allOff = 8.0
)

// CompareReadings holds readings against the points' own prediction and its
// band, every coordinate known within, and every reading within ±reads rad.
// However strongly a toe curve bends, readings of the corner itself are not odd.
// all is how many times larger than predicted the readings are as a whole,
// where that is more than allOff and no single one is odd; else 0. Errors are
// those of GaugeSheet.
func CompareReadings(c kinematics.Corner, within kinematics.Within, reads float64, list []Reading) (each []Against, all float64, err error) {
	travel := make([]float64, len(list))
	for i := range list {
		travel[i] = list[i].Travel
	}
	sheet, err := GaugeSheet(c, within, travel, Gauge{})
	if err != nil {
		return nil, 0, err
	}
	var beyond [sideCount][]float64
	for i, r := range list {
		beyond[r.Side] = append(beyond[r.Side], r.Toe-sheet[i].Change.Value)
	}
	each = make([]Against, len(list))
	times, sizes, could := make([]float64, len(list)), make([]float64, len(list)), make([]float64, len(list))
	for i, r := range list {
		p := sheet[i].Change
		each[i] = Against{Predicted: p, Zero: median(beyond[r.Side])}
		off := r.Toe - each[i].Zero
		sizes[i], could[i] = math.Abs(off), math.Abs(p.Value)+p.Half
		if allowed := p.Half + reads; allowed > 0 {
			each[i].Times = math.Abs(off-p.Value) / allowed
		}
		times[i] = each[i].Times
	}
	odd := false
	for i := range each {
		others := append(append([]float64(nil), times[:i]...), times[i+1:]...)
		each[i].Odd = len(others) >= minReadings-1 && times[i] > standsOut*max(1, median(others))
		odd = odd || each[i].Odd
	}
	if got, want := median(sizes), max(median(could), reads); !odd && len(list) >= minReadings && want > 0 && got > allOff*want {
		all = got / want
	}
	return each, all, nil
}

// median of a list, 0 for an empty one.
func median(list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(list))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
