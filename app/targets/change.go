package targets

import (
	"math"

	"armscribe/app/figures"
)

// Trend tells how a change does: this is the one rule by which anything is called better
// or worse.
type Trend uint8

// The trends.
const (
	NoTrend Trend = iota // it is what was asked for, or a value or its band is not known
	Kept                 // nothing changes but by how well it is built
	AsGood               // both within the aim, or equally far off it or from nought
	Better
	Worse
	Open    // the change is smaller than its band
	Turned  // the sign has changed for sure: neither better nor worse by itself
	Changed // it changes for sure; no aim says which way is better
	TrendCount
)

var trendWords = [TrendCount]string{"", "kept", "as good", "better", "worse", "not decidable", "sign turns", "changes"}

// String returns the trend in words, empty for NoTrend.
func (v Trend) String() string { return trendWords[v] }

// Change is a figure before and after.
type Change struct {
	Before, After float64
	Band          float64 // 95 %, of the change; only if HasBand
	HasBand       bool
	Sense         figures.Sense
	Target        Range // instead of the sense; only if HasTarget
	HasTarget     bool
	Turned        bool    // see SignTurns; for a figure whose sign is felt
	Rounding      float64 // up to this nothing changes
	Alike         float64 // share of the figure below which a change matters to nobody
}

// asBuilt is the share of its band up to which a change is none: its band is that of
// points which have been made anew.
const asBuilt = 0.1

// Judge says how a change does.
func Judge(c Change) Trend {
	d := math.Abs(c.After - c.Before)
	switch {
	case c.Sense == figures.Wished && !c.HasTarget:
		return NoTrend
	case d <= c.Rounding:
		return Kept
	case !c.HasBand:
		return NoTrend
	case d <= asBuilt*c.Band:
		return Kept
	case c.HasTarget:
		return toward(c.Target.miss(c.Before), c.Target.miss(c.After), d > c.Band, c.Rounding)
	case c.Turned:
		return Turned
	case d < c.Alike*math.Abs(c.Before):
		return Kept
	case d <= c.Band:
		return Open
	case c.Sense == figures.NoSense:
		return Changed
	case c.Sense == figures.More:
		return toward(-math.Abs(c.Before), -math.Abs(c.After), true, c.Rounding)
	}
	return toward(math.Abs(c.Before), math.Abs(c.After), true, c.Rounding)
}

// toward judges how far a figure is off its aim, before and after.
func toward(before, after float64, sure bool, rounding float64) Trend {
	switch {
	case math.Abs(before-after) <= rounding:
		return AsGood
	case !sure:
		return Open
	case after < before:
		return Better
	}
	return Worse
}

// SignTurns tells whether a figure's sign has changed for sure, by both bands.
func SignTurns(before, beforeBand, after, afterBand float64) bool {
	return before*after < 0 && math.Abs(before) > beforeBand && math.Abs(after) > afterBand
}
