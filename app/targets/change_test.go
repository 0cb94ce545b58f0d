package targets

import (
	"math/rand/v2"
	"testing"

	"armscribe/app/figures"
)

// The one rule, case by case; 17 ± 3 is what there was.
func TestJudge(t *testing.T) {
	was := func(after, band float64, sense figures.Sense) Change {
		return Change{Before: 17, After: after, Band: band, HasBand: true, Sense: sense, Rounding: 1e-6, Alike: 0.01}
	}
	aim := func(after float64, low, high float64) Change {
		c := was(after, 0.2, figures.Less)
		c.Target, c.HasTarget = Range{Min: low, Max: high, HasMin: true, HasMax: true}, true
		return c
	}
	turned := was(-9, 1, figures.Less)
	turned.Turned = true
	unknown := was(12, 0, figures.Less)
	unknown.HasBand = false
	for name, row := range map[string]struct {
		c    Change
		want Trend
	}{
		"less":                   {was(12, 3, figures.Less), Better},
		"more":                   {was(22, 3, figures.Less), Worse},
		"more is better":         {was(22, 3, figures.More), Better},
		"less is worse":          {was(12, 3, figures.More), Worse},
		"no sense":               {was(22, 3, figures.NoSense), Changed},
		"within its band":        {was(19, 3, figures.Less), Open},
		"as built":               {was(17.2, 3, figures.Less), Kept},
		"nothing":                {was(17, 0, figures.Less), Kept},
		"nothing, band unknown":  {Change{Before: 17, After: 17, Rounding: 1e-6}, Kept},
		"too little to matter":   {was(17.1, 0.01, figures.Less), Kept},
		"what is wished":         {was(22, 3, figures.Wished), NoTrend},
		"band unknown":           {unknown, NoTrend},
		"sign turned":            {turned, Turned},
		"into the aim":           {aim(22, 20, 30), Better},
		"out of the aim":         {aim(22, 10, 18), Worse},
		"within the aim":         {aim(22, 10, 30), AsGood},
		"nearer, not for sure":   {aim(17.1, 20, 30), Open},
		"an aim beats the sense": {aim(25, 20, 30), Better},
	} {
		if got := Judge(row.c); got != row.want {
			t.Errorf("%s: %v, want %v", name, got, row.want)
		}
	}
}

// Where a change is as large as what it is held against, to the bit, the words of Change
// decide: up to its rounding, its band, a tenth of it, nothing is for sure; a share of the
// figure counts from there on. Sizes that are the same are neither better nor worse.
func TestJudgeOnTheEdge(t *testing.T) {
	edge := func(change func(*Change)) Change {
		c := Change{Before: 16, After: 18, Band: 1, HasBand: true, Sense: figures.Less}
		change(&c)
		return c
	}
	aim := Range{Min: 20, Max: 30, HasMin: true, HasMax: true}
	for name, row := range map[string]struct {
		c    Change
		want Trend
	}{
		"plain":           {edge(func(*Change) {}), Worse},
		"rounding":        {edge(func(c *Change) { c.Rounding = 2 }), Kept},
		"a tenth of band": {edge(func(c *Change) { c.Band = 20 }), Kept},
		"band":            {edge(func(c *Change) { c.Band = 2 }), Open},
		"band, aimed at":  {edge(func(c *Change) { c.Band, c.Target, c.HasTarget = 2, aim, true }), Open},
		"share":           {edge(func(c *Change) { c.Alike = 0.125 }), Worse},
		"other side":      {edge(func(c *Change) { c.After = -16 }), AsGood},
		"the more, alike": {edge(func(c *Change) { c.After, c.Sense = -16, figures.More }), AsGood},
	} {
		if got := Judge(row.c); got != row.want {
			t.Errorf("%s: %v, want %v", name, got, row.want)
		}
	}
}

// Laws: undone, better is worse and the rest stays; the mirror image of a figure
// and of its aim is judged alike.
func TestLawsOfJudge(t *testing.T) {
	const seed = 12
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	back := map[Trend]Trend{Better: Worse, Worse: Better}
	seen := map[Trend]int{}
	for range 4000 {
		c := Change{Before: r.NormFloat64(), After: r.NormFloat64(), Band: 0.3 * r.Float64(), HasBand: true, Sense: figures.Sense(r.IntN(4)), HasTarget: r.IntN(2) == 0,
			Target: Range{Min: -0.5 * r.Float64(), Max: 0.7 * r.Float64(), HasMin: r.IntN(2) == 0, HasMax: true}}
		got := Judge(c)
		seen[got]++
		undone := c
		undone.Before, undone.After = c.After, c.Before
		want, turns := back[got]
		if !turns {
			want = got
		}
		if is := Judge(undone); is != want {
			t.Errorf("%+v: %v, undone %v", c, got, is)
		}
		mirror := c
		mirror.Before, mirror.After = -c.Before, -c.After
		mirror.Target = Range{Min: -c.Target.Max, Max: -c.Target.Min, HasMin: c.Target.HasMax, HasMax: c.Target.HasMin}
		if is := Judge(mirror); is != got {
			t.Errorf("%+v: %v, mirrored %v", c, got, is)
		}
	}
	for _, v := range []Trend{NoTrend, Kept, AsGood, Better, Worse, Open, Changed} {
		if seen[v] < 20 {
			t.Errorf("%v only %d times", v, seen[v])
		}
	}
}
