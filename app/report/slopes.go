package report

import (
	"math"

	"armscribe/kinematics"
)

// fact is a value of a corner in mm, rad, N or N mm; ok is false where there is
// none.
type fact struct {
	value float64
	ok    bool
}

// slopes takes the central differences of facts by every measured coordinate
// of the source's corner. of must return as many facts as base holds.
func (s *Source) slopes(base []fact, of func(m *kinematics.Mechanism) []fact) gradient {
	g := gradient{of: s.Corner.Coordinates(), ok: make([]bool, len(base))}
	for k := range base {
		g.ok[k] = base[k].ok
	}
	for _, coordinate := range g.of {
		plus, okPlus := shifted(s.Corner, coordinate, bandStep, of)
		minus, okMinus := shifted(s.Corner, coordinate, -bandStep, of)
		if !okPlus || !okMinus { // on the very edge of reach
			clear(g.ok)
			g.of = nil
			return g
		}
		by := make([]float64, len(base))
		for k := range by {
			if g.ok[k] = g.ok[k] && plus[k].ok && minus[k].ok; g.ok[k] {
				by[k] = (plus[k].value - minus[k].value) / (2 * bandStep)
			}
		}
		g.by = append(g.by, by)
	}
	return g
}

func shifted(c kinematics.Corner, at kinematics.Coordinate, by float64, of func(m *kinematics.Mechanism) []fact) (list []fact, ok bool) {
	c.Shift(at, by)
	m, err := kinematics.New(&c)
	if err != nil {
		return nil, false
	}
	return of(&m), true
}

// half is the band of one fact by the rule of bands; below least it is rounding.
func (g *gradient) half(within float64, k int, least float64) band {
	if !g.ok[k] {
		return band{}
	}
	sum := 0.0
	for i := range g.of {
		sum += g.by[i][k] * g.by[i][k]
	}
	return band{halfAbove(within*math.Sqrt(sum), least), true}
}

// changeHalf is the band of the change of fact k from one variant to another.
func changeHalf(a, b *Source, ga, gb *gradient, k int, least float64) band {
	if !ga.ok[k] || !gb.ok[k] {
		return band{}
	}
	return band{halfAbove(math.Sqrt(changeSquares(a, b, ga, gb, k, k)), least), true}
}

// halfAbove turns the root of a sum of squares into a 95 % half-width.
func halfAbove(root, least float64) float64 {
	half := normal95 / math.Sqrt(3) * root
	if half < least {
		return 0
	}
	return half
}
