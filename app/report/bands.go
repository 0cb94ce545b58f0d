package report

import (
	"math"
	"slices"

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

// gradient is how every figure of a corner moves with every measured
// coordinate.
type gradient struct {
	of []kinematics.Coordinate
	by [][]float64 // by[i][k] is figure k by coordinate i, per mm
	ok []bool      // of figure k: there is a band
}

// gradient takes central differences.
func (s *Source) gradient(at Position, base []figure) gradient {
	g := gradient{of: s.Corner.Coordinates(), ok: make([]bool, len(base))}
	for k := range base {
		g.ok[k] = base[k].ok && !base[k].noBand
	}
	for _, coordinate := range g.of {
		c := s.Corner
		c.Shift(coordinate, bandStep)
		plus, err := evaluate(s, &c, at)
		c.Shift(coordinate, -2*bandStep)
		minus, err2 := evaluate(s, &c, at)
		if err != nil || err2 != nil { // on the very edge of reach
			clear(g.ok)
			g.of = nil
			return g
		}
		by := make([]float64, len(base))
		for k := range by {
			by[k] = (plus[k].value - minus[k].value) / (2 * bandStep)
			g.ok[k] = g.ok[k] && plus[k].ok && minus[k].ok
		}
		g.by = append(g.by, by)
	}
	return g
}

// bands applies the rule of kinematics' Mechanism.SweepBands to every figure:
// independent errors, uniform within ±within mm on each measured coordinate,
// to first order: 1.96 * within / sqrt(3) * |gradient|.
func (g *gradient) bands(within float64, base []figure) []band {
	list := make([]band, len(base))
	for k := range list {
		if !g.ok[k] {
			continue
		}
		sum := 0.0
		for i := range g.of {
			sum += g.by[i][k] * g.by[i][k]
		}
		list[k] = band{halfWidth(within, sum, base[k].Kind), true}
	}
	return list
}

// halfWidth turns a sum of squares of slopes into the 95 % band.
func halfWidth(within, squares float64, kind kinematics.Kind) float64 {
	half := normal95 * within / math.Sqrt(3) * math.Sqrt(squares)
	if half < rounding(kind) {
		return 0
	}
	return half
}

// changeBand is the band of the change of one figure from variant a, where it
// is figure ka, to b; see kinematics.ChangeBands for the rule.
func changeBand(a, b *solved, ka, kb int) band {
	if !a.gradient.ok[ka] || !b.gradient.ok[kb] {
		return band{}
	}
	squares := changeSquares(a.source, b.source, &a.gradient, &b.gradient, ka, kb)
	return band{halfWidth(1, squares, a.lines[ka].Kind), true} // within is in the sum
}

// changeSquares is the sum of squares behind the band of a change, the measuring
// error of both variants included: a coordinate that both share was measured once.
func changeSquares(a, b *Source, ga, gb *gradient, ka, kb int) float64 {
	ca, cb := &a.Corner, &b.Corner
	common := max(a.Within, b.Within)
	sum := 0.0
	add := func(d float64) { sum += d * d }
	for i, at := range ga.of {
		if !ca.Shares(cb, at) {
			add(a.Within * ga.by[i][ka])
			continue
		}
		add(common * (gb.by[slices.Index(gb.of, at)][kb] - ga.by[i][ka]))
	}
	for i, at := range gb.of {
		if !ca.Shares(cb, at) {
			add(b.Within * gb.by[i][kb])
		}
	}
	return sum
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
