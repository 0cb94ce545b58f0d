// Package peak finds the largest value of a function between places at which it
// has been looked at. For packages of kinematics whose largest value stands
// between stations.
package peak

// golden divides a stretch so that one of its inner places serves again.
const golden = 0.6180339887498949

// Between returns where f is largest between two places, both included, and its
// value there, by golden section down to a tolerance: f has one largest value
// there. An end counts as it stands.
func Between(f func(float64) float64, a, b, tolerance float64) (at, most float64) {
	at, most = a, f(a)
	if v := f(b); v > most {
		at, most = b, v
	}
	x1, x2 := b-golden*(b-a), a+golden*(b-a)
	f1, f2 := f(x1), f(x2)
	for b-a > tolerance {
		if f1 >= f2 {
			b, x2, f2 = x2, x1, f1
			x1 = b - golden*(b-a)
			f1 = f(x1)
		} else {
			a, x1, f1 = x1, x2, f2
			x2 = a + golden*(b-a)
			f2 = f(x2)
		}
	}
	if f1 > most {
		at, most = x1, f1
	}
	if f2 > most {
		at, most = x2, f2
	}
	return at, most
}

// nudge is the share of a stretch by which an end is left to see whether f falls
// from it.
const nudge = 1e-3

// About goes on from a place among neighbours, where f is v and no neighbour has
// more, to where it is largest between these; a missing neighbour is the place
// itself. At an end from which f falls nothing more is looked at.
func About(f func(float64) float64, low, place, high, v, tolerance float64) (at, most float64) {
	switch {
	case low == high,
		low == place && f(place+nudge*(high-place)) <= v,
		high == place && f(place-nudge*(place-low)) <= v:
		return place, v
	}
	if x, y := Between(f, low, high, tolerance); y > v {
		return x, y
	}
	return place, v
}
