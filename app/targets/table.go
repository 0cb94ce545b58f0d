package targets

import (
	"math"

	"armscribe/app/car"
	"armscribe/app/job"
)

// Table sets several variants against the targets side by side. Each list is
// by variant, then by target in the order of Evaluate.
type Table struct {
	Results [][]Result
	Trends  [][]Trend // against the first variant, whose own are none
	// Best marks those that come nearest to a target, or within it; where all
	// do equally well nobody is marked.
	Best [][]bool
}

// TableOf evaluates the variants; the zero Table without targets.
func TableOf(sources []car.Car, t *job.Targets) Table {
	p := planOf(t)
	if len(p.rows) == 0 {
		return Table{}
	}
	var table Table
	list := make([]*solved, len(sources))
	for i := range sources {
		list[i] = solve(&sources[i], p)
		table.Results = append(table.Results, resultsOf(list[i], t))
		table.Trends = append(table.Trends, make([]Trend, len(p.rows)))
		table.Best = append(table.Best, make([]bool, len(p.rows)))
	}
	pairs := make([]pair, len(list))
	for i := range pairs {
		pairs[i] = pairOf(list[0], list[i])
	}
	for k, r := range p.rows {
		asked, _ := Asked(t, r.kind)
		for i := 1; i < len(list); i++ {
			table.Trends[i][k] = trend(list[0], list[i], &pairs[i], r, asked)
		}
		markBest(list, table.Best, k, r, asked)
	}
	return table
}

func markBest(list []*solved, best [][]bool, k int, r row, asked Range) {
	least, most := math.MaxFloat64, 0.0
	misses := make([]float64, len(list))
	for i, v := range list {
		misses[i] = v.miss(r, asked)
		least, most = min(least, misses[i]), max(most, misses[i])
	}
	const even = 1 + rounding
	if most <= least*even {
		return
	}
	for i := range list {
		best[i][k] = misses[i] <= least*even
	}
}

// miss is how far a variant lies off a target; beyond every number where the
// figure does not exist.
func (v *solved) miss(r row, asked Range) float64 {
	if !v.exists(r) {
		return math.MaxFloat64
	}
	x, _ := r.size(v.linear.Base)
	if r.kind == SwingArm {
		asked = reciprocal(asked)
	}
	return asked.miss(x)
}
