package report

import (
	"math"

	"armscribe/app/figures"
	"armscribe/kinematics"
)

// band is the 95 % band of one figure; ok is false where it has no half-width.
type band struct {
	half float64
	ok   bool
	// lies is where the figure lies, only if placed: it may be known to go through
	// infinity where there is no half-width.
	lies   kinematics.Interval
	placed bool
}

// linearise takes how every figure of a corner moves with every measured
// coordinate.
func (s *Source) linearise(at figures.Position) (kinematics.Linear, error) {
	return kinematics.Linearise(&s.Corner, s.Within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		values, err := figures.Evaluate(&s.Car, c, at)
		list := make([]kinematics.Value, len(values))
		for k := range list {
			list[k] = values[k].Linear()
		}
		return list, err
	})
}

// bands are those of all figures.
func bands(l *kinematics.Linear, base []figures.Value) []band {
	list := make([]band, len(base))
	for k := range list {
		b := bandAbove(base[k].Kind.Rounding())(l.Half(k))
		b.lies, b.placed = l.Interval(k)
		list[k] = b
	}
	return list
}

// bandAbove is a band from its half-width, which below least is rounding.
func bandAbove(least float64) func(half float64, ok bool) band {
	return func(half float64, ok bool) band {
		if half < least {
			half = 0
		}
		return band{half: half, ok: ok}
	}
}

// beside joins two variants for the bands of changes: those of b follow those of a.
type beside struct {
	linear kinematics.Linear
	second int
}

func besides(a, b *kinematics.Linear) beside {
	return beside{kinematics.Beside(a, b), len(a.Base)}
}

// change is the band of the change from value ka of the first to value kb of the
// second; see kinematics.Beside for the rule.
func (p *beside) change(ka, kb int, least float64) band {
	return bandAbove(least)(p.linear.Change(ka, p.second+kb))
}

// sizeChange is the band of the change of a size, whose sign may be open.
func (p *beside) sizeChange(ka, kb int, least float64) band {
	return bandAbove(least)(p.linear.LargestChange([]int{ka}, []int{p.second + kb}))
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
func (s *Source) spreads(at figures.Position, base []figures.Value, bands []band) []spread {
	list := make([]spread, len(base))
	if s.RadiusFrom == "" {
		return list
	}
	c := s.Corner
	c.Wheel.LoadedRadius = s.RadiusLow
	low, err := figures.Evaluate(&s.Car, &c, at)
	c.Wheel.LoadedRadius = s.RadiusHigh
	high, err2 := figures.Evaluate(&s.Car, &c, at)
	for i := range list {
		if err != nil || err2 != nil || low[i].OK != high[i].OK {
			list[i].ok = true
			continue
		}
		list[i].half = math.Abs(high[i].V-low[i].V) / 2
		list[i].ok = list[i].half > max(base[i].Kind.Rounding(), shownShare*bands[i].half)
	}
	return list
}
