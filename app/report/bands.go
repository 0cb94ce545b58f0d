package report

import (
	"math"

	"armscribe/kinematics"
)

// Constants of the bands.
const (
	// bandStep is half the central difference by each coordinate, mm: small
	// against a corner, large against the rounding of a slope in roll, which
	// is itself a difference (about 1e-9).
	bandStep = 1e-2
	// normal95 is the 97.5 % point of the normal distribution; any table of it.
	normal95 = 1.959963984540054
)

// rounding is the band below which a figure is exact and what is left is
// rounding: camber at rest, for example, is taken as typed. All are far below
// what is printed; the slopes in roll are the roughest figures.
func rounding(k kinematics.Kind) float64 {
	switch k {
	case kinematics.Length:
		return 1e-6 // mm
	case kinematics.Angle:
		return 1e-9 // rad
	case kinematics.Slope:
		return 1e-11 // rad/mm
	}
	return 1e-5
}

// band is the 95 % half-width of one figure; ok is false where it does not exist.
type band struct {
	half float64
	ok   bool
}

// bands applies the rule of kinematics' Mechanism.SweepBands to every figure:
// independent errors, uniform within ±within mm on each measured coordinate,
// to first order: 1.96 * within / sqrt(3) * |gradient|.
func (s *Source) bands(at Position, base []figure) []band {
	list := make([]band, len(base))
	for i := range list {
		list[i].ok = base[i].ok && !base[i].noBand
	}
	for _, coordinate := range s.Corner.Coordinates() {
		c := s.Corner
		c.Shift(coordinate, bandStep)
		plus, err := evaluate(s, &c, at)
		c.Shift(coordinate, -2*bandStep)
		minus, err2 := evaluate(s, &c, at)
		if err != nil || err2 != nil {
			return make([]band, len(base)) // on the very edge of reach
		}
		for i := range list {
			d := (plus[i].value - minus[i].value) / (2 * bandStep)
			list[i].half += d * d
			list[i].ok = list[i].ok && plus[i].ok && minus[i].ok
		}
	}
	for i := range list {
		list[i].half = normal95 * s.Within / math.Sqrt(3) * math.Sqrt(list[i].half)
		if !list[i].ok || list[i].half < rounding(base[i].Kind) {
			list[i].half = 0
		}
	}
	return list
}

// spread is what an estimated loaded radius does to one figure: half of what
// the figure moves over the radius' likely span.
type spread struct {
	half float64
	ok   bool // the figure rests on the estimate
}

// shownShare of a band is less than the last digit printed with it.
const shownShare = 0.01

// spreads tells which figures move with the loaded radius, when that is an
// estimate, and by how much. What moves by less than shownShare of its band
// does not show in any digit and is left unmarked. Where a figure ceases to exist within the span it
// rests on the estimate with a spread of nought.
func (s *Source) spreads(at Position, base []figure, bands []band) []spread {
	list := make([]spread, len(base))
	if s.RadiusFrom == "" {
		return list
	}
	c := s.Corner
	c.Wheel.LoadedRadius = s.RadiusLow
	low, err := evaluate(s, &c, at)
	c.Wheel.LoadedRadius = s.RadiusHigh
	high, err2 := evaluate(s, &c, at)
	for i := range list {
		if err != nil || err2 != nil || low[i].ok != high[i].ok {
			list[i].ok = true
			continue
		}
		list[i].half = math.Abs(high[i].value-low[i].value) / 2
		list[i].ok = list[i].half > max(rounding(base[i].Kind), shownShare*bands[i].half)
	}
	return list
}
