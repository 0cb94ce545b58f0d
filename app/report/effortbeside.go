package report

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/targets"
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
	Verdict      targets.Trend
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
	pair, k := besides(&out.Before.linear, &out.Now.linear), 0
	for i := range out.Now.Cases {
		now, was := &out.Now.Cases[i], &out.Before.Cases[i]
		c := BesideCase{Key: now.Key, Name: now.Name, Missing: now.Missing}
		if c.Missing == "" && was.Missing != "" {
			c.Missing = fmt.Sprintf("%s: %s", oneLine(out.Before.Source.Variant), was.Missing)
		}
		for n := range now.Lines {
			c.Lines = append(c.Lines, out.line(&now.Lines[n], &was.Lines[n], &pair, k))
			k++
		}
		out.Cases = append(out.Cases, c)
	}
	return out, nil
}

// alike is the share below which a change is none.
const alike = 0.01

// line compares the k-th value of both.
func (b *EffortsBeside) line(now, was *EffortLine, pair *beside, k int) BesideLine {
	l := BesideLine{Now: *now, Before: *was, Change: math.Abs(now.Value) - math.Abs(was.Value)}
	half := pair.sizeChange(k, k, now.kind.Rounding())
	l.Band, l.HasBand = half.half, half.ok
	l.Verdict = targets.Judge(targets.Change{Before: math.Abs(was.Value), After: math.Abs(now.Value), Band: l.Band, HasBand: l.HasBand, Sense: figures.Less,
		Turned: now.HasBand && was.HasBand && targets.SignTurns(was.Value, was.Band, now.Value, now.Band), Rounding: now.kind.Rounding(), Alike: alike})
	return l
}

// change is by how much the size grows.
func (l *BesideLine) change() sheet.Cell {
	return sheet.BandedIf(l.Now.kind, l.Change, l.Band, l.HasBand).Signed()
}

// cells are the other variant's value, the change and the verdict.
func (l *BesideLine) cells() sheet.Row {
	return sheet.Row{l.Before.cell().Marked(sheet.Aside), l.change(), trendCell(l.Verdict)}
}

// sentences say in words what each case comes to beside the other variant.
func (b *EffortsBeside) sentences(rear bool) sheet.Prose {
	p := sheet.Prose{On: sheet.OnWindow}
	if b == nil {
		p.Lines = []sheet.Line{{Text: "This is the measured corner: show a proposal to see what it changes."}}
		return p
	}
	key, what := "rim_pull", "pull at the steering wheel"
	if rear {
		key, what = "left_moment", "moment about the left steering axis"
	}
	for i := range b.Cases {
		c := &b.Cases[i]
		line := sheet.Line{Text: strings.Split(c.Name, ",")[0] + ": "}
		if l := b.Find(c.Key, key); l != nil {
			line.Text += what + " " + l.words(b.Before.Source.Variant)
			line.Mark = trendMarks[l.Verdict]
		} else {
			line.Text += "no answer, " + c.Missing + "."
		}
		p.Lines = append(p.Lines, line)
	}
	return p
}

// words say what a size comes to beside that of another variant.
func (l *BesideLine) words(variant string) string {
	kind := l.Now.kind
	band := sheet.BandedIf(kind, math.Abs(l.Change), l.Band, l.HasBand).Phrase(units.Millimetre)
	text := fmt.Sprintf("%s, “%s” %s: ", l.Now.size().Phrase(units.Millimetre), oneLine(variant), l.Before.size().Phrase(units.Millimetre))
	switch l.Verdict {
	case targets.Turned:
		return text + "it pulls the other way now."
	case targets.Worse, targets.Better:
		return text + l.Verdict.String() + " by " + band + l.shareWords() + "."
	case targets.Kept:
		if l.Band == 0 && l.Change == 0 {
			return text + "kept."
		}
		return text + "kept, " + l.change().Phrase(units.Millimetre) + "."
	case targets.NoTrend:
		return text + "change of " + band + "."
	}
	return text + "no change that the tape could tell, " + l.change().Phrase(units.Millimetre) + "."
}

// shareWords say how large a change is beside what there was, where that is well
// known: beside what nearly cancels out, shares mean nothing.
func (l *BesideLine) shareWords() string {
	was := math.Abs(l.Before.Value)
	const known = 5 // bands
	if was == 0 || was < known*l.Before.Band {
		return ""
	}
	share := math.Abs(l.Change) / was
	if share > 1 {
		return fmt.Sprintf(", to %s times as much", units.FormatNumber(1+share, 1))
	}
	return fmt.Sprintf(", %s %%", units.FormatNumber(100*share, 0))
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
