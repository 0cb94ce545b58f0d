package tune

import "math"

// Stations are the round places of a range with both ends and rest, rising. A
// round place next to an end, as rounding makes of the end itself, is left out.
func Stations(from, to, step float64) []float64 {
	list := []float64{from}
	for k := math.Ceil(from / step); k*step < to; k++ {
		if at := k * step; at > from+step*stationSlack && at < to-step*stationSlack {
			list = append(list, at+0) // no negative nought
		}
	}
	return append(list, to)
}

// stationSlack is the share of a step by which a place keeps away from the ends.
const stationSlack = 0.05
