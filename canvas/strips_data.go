package canvas

import (
	"fmt"
	"math"
	"sort"

	"armscribe/canvas/chart"
)

// stripLine is a curve in units on display, with its gaps.
type stripLine struct {
	at, value, low, high, half []float64
	ok, banded                 []bool
	any, hasBand               bool
}

// stripData is a strip in units on display and the chart that draws it.
type stripData struct {
	now, before stripLine
	scale       chart.Range
	targets     [1]chart.Target
	hasTarget   bool
	chart       chart.Chart
	fitted      struct { // what the scale is of
		title, unit string
		change      bool
	}
	change bool // now is the change from before
}

// takeStrips turns the strips of the input into units on display.
func (s *Strips) takeStrips() {
	for len(s.data) < len(s.in.Strips) {
		s.data = append(s.data, stripData{})
	}
	s.data = s.data[:len(s.in.Strips)]
	for i := range s.data {
		spec := &s.in.Strips[i]
		if spec.PerUnit == 0 {
			spec.PerUnit = 1
		}
		if !(spec.PerUnit > 0) || !(spec.Least >= 0) {
			panic(fmt.Sprintf("canvas: strip %q has the unit %g and the least width %g", spec.Title, spec.PerUnit, spec.Least))
		}
		d := &s.data[i]
		d.now.take(spec, &spec.Now, s.in.At, s.axis.PerUnit)
		d.before.take(spec, &spec.Before, s.in.BeforeAt, s.axis.PerUnit)
		d.takeTarget(spec, s.axis.PerUnit)
		if d.change = s.in.Change && d.now.any && d.before.any; d.change {
			d.now.minus(&d.before)
			d.before.take(spec, &StripCurve{}, nil, 1)
			d.hasTarget = false // it is one of values, not of changes
		}
		if f := &d.fitted; !s.frozen || f.title != spec.Title || f.unit != spec.Unit || f.change != d.change {
			d.fit(spec)
		}
	}
}

// minus makes the line the change from another: known where both are. The band of
// a change is not that of either, so it has none.
func (n *stripLine) minus(before *stripLine) {
	n.any, n.hasBand = false, false
	for i := range n.at {
		was, _, ok := before.read(n.at[i])
		n.ok[i], n.banded[i] = n.ok[i] && ok, false
		if n.value[i] = n.value[i] - was; !n.ok[i] {
			n.value[i] = 0
		}
		n.low[i], n.high[i], n.half[i] = n.value[i], n.value[i], 0
		n.any = n.any || n.ok[i]
	}
}

// take fills the line from a curve.
func (n *stripLine) take(spec *StripSpec, c *StripCurve, at []float64, axisUnit float64) {
	if c.Value != nil && len(c.Value) != len(at) || c.OK != nil && len(c.OK) != len(c.Value) || c.Half != nil && len(c.Half) != len(c.Value) {
		panic(fmt.Sprintf("canvas: strip %q has %d stations, %d values, %d marks of gaps, %d bands",
			spec.Title, len(at), len(c.Value), len(c.OK), len(c.Half)))
	}
	n.at, n.value, n.low, n.high, n.half = n.at[:0], n.value[:0], n.low[:0], n.high[:0], n.half[:0]
	n.ok, n.banded = n.ok[:0], n.banded[:0]
	n.any, n.hasBand = false, false
	for i, v := range c.Value {
		ok := (c.OK == nil || c.OK[i]) && v-v == 0
		half := 0.0
		if c.Half != nil && c.Half[i] > 0 && !math.IsInf(c.Half[i], 0) {
			half = c.Half[i]
		}
		if !ok {
			v, half = 0, 0
		}
		v, half = v/spec.PerUnit, half/spec.PerUnit
		n.at = append(n.at, at[i]/axisUnit)
		n.value = append(n.value, v)
		n.low = append(n.low, v-half)
		n.high = append(n.high, v+half)
		n.half = append(n.half, half)
		n.ok = append(n.ok, ok)
		n.banded = append(n.banded, ok && half > 0)
		n.any = n.any || ok
		n.hasBand = n.hasBand || half > 0
	}
}

// read returns the value and half-width at a place of the axis, straight between
// the stations; false in a gap and off the ends. Units on display.
func (n *stripLine) read(at float64) (v, half float64, ok bool) {
	if len(n.at) == 0 || at < n.at[0] || at > n.at[len(n.at)-1] {
		return 0, 0, false
	}
	i := sort.SearchFloat64s(n.at, at)
	if n.at[i] == at {
		return n.value[i], n.half[i], n.ok[i]
	}
	if !n.ok[i-1] || !n.ok[i] {
		return 0, 0, false
	}
	f := (at - n.at[i-1]) / (n.at[i] - n.at[i-1])
	return n.value[i-1]*(1-f) + n.value[i]*f, n.half[i-1]*(1-f) + n.half[i]*f, true
}

func (d *stripData) takeTarget(spec *StripSpec, axisUnit float64) {
	t := spec.Target
	d.hasTarget = t != nil
	if t == nil {
		return
	}
	if sum := t.Low + t.High + t.From + t.To; t.Low > t.High || t.From > t.To || sum-sum != 0 {
		panic(fmt.Sprintf("canvas: strip %q has no target in %g to %g over %g to %g", spec.Title, t.Low, t.High, t.From, t.To))
	}
	d.targets[0] = chart.Target{
		Val: chart.Range{Min: t.Low / spec.PerUnit, Max: t.High / spec.PerUnit},
		Var: chart.Range{Min: t.From / axisUnit, Max: t.To / axisUnit},
	}
}

// Parts of the reach of the curves.
const (
	// bandShare is how far a band may widen the scale on each side; what is
	// wider is cut, since the curve is what one reads.
	bandShare = 0.15
	// targetShare is the same for a target, which is to be seen if near.
	targetShare = 0.5
)

// fit finds the scale of the values: around the curves, some of the band and a
// target that is near.
func (d *stripData) fit(spec *StripSpec) {
	d.fitted.title, d.fitted.unit, d.fitted.change = spec.Title, spec.Unit, d.change
	lo, hi := math.Inf(1), math.Inf(-1)
	around := func(n *stripLine, low, high []float64) {
		for i, ok := range n.ok {
			if ok {
				lo, hi = min(lo, low[i]), max(hi, high[i])
			}
		}
	}
	around(&d.now, d.now.value, d.now.value)
	around(&d.before, d.before.value, d.before.value)
	least := spec.Least / spec.PerUnit
	if least == 0 {
		least = 0.2
	}
	if lo > hi {
		lo, hi = 0, 0
	}
	lo0, hi0 := lo, hi
	width := max(least, hi0-lo0)
	reach := func(low, high, share float64) {
		lo = min(lo, max(low, lo0-share*width))
		hi = max(hi, min(high, hi0+share*width))
	}
	for i, ok := range d.now.banded {
		if ok {
			reach(d.now.low[i], d.now.high[i], bandShare)
		}
	}
	if d.hasTarget {
		reach(d.targets[0].Val.Min, d.targets[0].Val.Max, targetShare)
	}
	if d.scale = chart.NiceRange(lo, hi, least); inches(spec.PerUnit) {
		d.scale = chart.NiceInches(lo, hi, least)
	}
}
