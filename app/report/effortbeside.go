package report

import (
	"fmt"
	"math"

	"armscribe/app/job"
	"armscribe/app/units"
)

// EffortsBeside are the forces of one variant beside those of another, under
// the same conditions.
type EffortsBeside struct {
	Now, Before *Efforts
	Cases       []BesideCase
}

// BesideCase is one case of both.
type BesideCase struct {
	Key, Name string
	Missing   string // why one of both has no answer; empty when both have
	Lines     []BesideLine
}

// BesideLine is one value of both, in N or N mm. Change is by how much its size
// has grown; it says nothing of the sign. The same is what changes by less than a
// hundredth: load and grip are never known so well.
type BesideLine struct {
	Now, Before  EffortLine
	Change, Band float64 // 95 %
	HasBand      bool
	Verdict      WayVerdict
}

// EffortsBesideOf works out both variants of a job without problems; errors as
// of EffortsOf.
func EffortsBesideOf(j *job.Job, variant, before int, l Loading) (*EffortsBeside, error) {
	out := &EffortsBeside{}
	var err error
	if out.Now, err = EffortsOf(j, variant, l); err != nil {
		return nil, err
	}
	if out.Before, err = EffortsOf(j, before, l); err != nil {
		return nil, err
	}
	k := 0
	for i := range out.Now.Cases {
		now, was := &out.Now.Cases[i], &out.Before.Cases[i]
		c := BesideCase{Key: now.Key, Name: now.Name, Missing: now.Missing}
		if c.Missing == "" && was.Missing != "" {
			c.Missing = fmt.Sprintf("%s: %s", oneLine(out.Before.Source.Variant), was.Missing)
		}
		for n := range now.Lines {
			c.Lines = append(c.Lines, out.line(&now.Lines[n], &was.Lines[n], k))
			k++
		}
		out.Cases = append(out.Cases, c)
	}
	return out, nil
}

// alike is the share below which a change is none.
const alike = 0.01

// line compares the k-th value of both.
func (b *EffortsBeside) line(now, was *EffortLine, k int) BesideLine {
	l := BesideLine{Now: *now, Before: *was, Change: math.Abs(now.Value) - math.Abs(was.Value), Verdict: WayOpen}
	half := changeHalf(&b.Before.Source, &b.Now.Source, &b.Before.gradient, &b.Now.gradient, k, now.amount.rounding())
	l.Band, l.HasBand = half.half, half.ok
	switch size := math.Abs(l.Change); {
	case !half.ok:
		l.Verdict = WayNone
	case turned(now, was):
		l.Verdict = WayTurned
	case size <= now.amount.rounding() && half.half == 0, size > half.half && size < alike*math.Abs(was.Value):
		l.Verdict = WaySame
	case size <= half.half:
	case l.Change < 0:
		l.Verdict = WayBetter
	default:
		l.Verdict = WayWorse
	}
	return l
}

// turned tells whether the sign has changed for sure.
func turned(now, was *EffortLine) bool {
	return now.Value*was.Value < 0 && now.HasBand && was.HasBand && math.Abs(now.Value) > now.Band && math.Abs(was.Value) > was.Band
}

// Cells are the change of the size and its band as they are printed.
func (l *BesideLine) Cells() (change, band string) {
	d, _ := l.Now.amount.inUnit(l.Change, units.Millimetre)
	if l.Verdict == WaySame && math.Abs(l.Change) <= l.Now.amount.rounding() {
		return "0", ""
	}
	if !l.HasBand {
		return units.Signed(units.FormatNumber(d, 1)), notKnown
	}
	half, _ := l.Now.amount.inUnit(l.Band, units.Millimetre)
	change, band = splitForce(d, half)
	return units.Signed(change), band
}

// Find returns a value of a case by its keys; nil where there is none.
func (b *EffortsBeside) Find(inCase, key string) *BesideLine {
	for i := range b.Cases {
		c := &b.Cases[i]
		if c.Key != inCase || c.Missing != "" {
			continue
		}
		for n := range c.Lines {
			if c.Lines[n].Now.Key == key {
				return &c.Lines[n]
			}
		}
	}
	return nil
}
