package kinematics

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"
)

// Largest returns the 95 % half-width of the largest size among values, such as
// the toe change over a travel, about that size as it stands. Every place that may
// be the largest within the measuring error counts, either way. It is false where
// one of them has no band.
func (l *Linear) Largest(group []int) (half float64, ok bool) { return l.LargestChange(nil, group) }

// LargestChange returns the 95 % half-width of the change from the largest size
// of one group to that of another, of two corners joined by Beside.
func (l *Linear) LargestChange(from, to []int) (half float64, ok bool) {
	for _, k := range slices.Concat(from, to) {
		if _, ok := l.Half(k); !ok {
			return 0, false
		}
	}
	a, b := l.rivals(from), l.rivals(to)
	bent := slices.ContainsFunc(slices.Concat(a, b), func(p piece) bool { return l.rootBends(p.k) })
	if len(a) <= 1 && len(b) <= 1 && !bent { // nothing else may be the largest
		var of []int
		var weights []float64
		for _, p := range a {
			of, weights = append(of, p.k), append(weights, -p.sign)
		}
		for _, p := range b {
			of, weights = append(of, p.k), append(weights, p.sign)
		}
		return l.combined(of, weights), true
	}
	var of []int
	for _, p := range slices.Concat(a, b) {
		of = append(of, p.k)
	}
	largest := func(list []piece, v []float64) float64 {
		most := 0.0
		for i, p := range list {
			most = max(most, p.sign*v[i])
		}
		return most
	}
	return l.drawn(of, func(v []float64) float64 { return largest(b, v[len(a):]) - largest(a, v) }), true
}

// piece is a value that may be the largest of its group with one sign.
type piece struct {
	k    int
	sign float64
}

// rivalDeviations is how many standard deviations a place may be behind and still
// be looked at.
const rivalDeviations = 4

// rivals lists the pieces that may be the largest of a group, the one that is
// first.
func (l *Linear) rivals(group []int) []piece {
	if len(group) == 0 {
		return nil
	}
	value := func(k int) float64 { return l.Base[k].number() }
	worst := piece{k: group[0]}
	for _, k := range group {
		if math.Abs(value(k)) > math.Abs(value(worst.k)) {
			worst.k = k
		}
	}
	worst.sign = math.Copysign(1, value(worst.k))
	list := []piece{worst}
	for _, k := range group {
		for _, sign := range [...]float64{1, -1} {
			p := piece{k, sign}
			if p == worst {
				continue
			}
			var s spread
			for i, e := range l.errors {
				s.add(sign*l.tangent(i, k)-worst.sign*l.tangent(i, worst.k), e.size)
			}
			reach := min(s.most, rivalDeviations*math.Sqrt(s.left()/3))
			if sign*value(k)+reach > math.Abs(value(worst.k)) {
				list = append(list, p)
			}
		}
	}
	return list
}

const (
	// draws of the errors behind a band that no formula gives. Laid out evenly in
	// each error, they leave a half-width uncertain by about 2 %.
	draws    = 1000
	drawSeed = 20261201
	// maxErrors bounds the errors of two corners, two on each coordinate.
	maxErrors = 4 * maxCoordinates
)

// drawTable holds the draws of every error, from -1 to 1: the middles of as many
// even strata in an order of its own.
var drawTable = sync.OnceValue(func() *[maxErrors][draws]float64 {
	table := new([maxErrors][draws]float64)
	for i := range table {
		r := rand.New(rand.NewPCG(drawSeed, uint64(i)))
		for d, at := range r.Perm(draws) {
			table[i][d] = (2*float64(at)+1)/draws - 1
		}
	}
	return table
})

// drawn is the 95 % half-width of what f makes of some values, about what it
// makes of them as they stand, from draws of the errors. The same values give the
// same bits.
func (l *Linear) drawn(of []int, f func(v []float64) float64) float64 {
	v := make([]float64, len(of))
	tracks := make([]track, 0, 2*len(of))
	from := make([]int, len(of)) // first track of a value
	for n, k := range of {
		v[n], from[n] = l.Base[k].number(), len(tracks)
		tracks = append(tracks, trackOf(l.Base[k].Num, func(i int) float64 { return l.by[i][k].num }), trackOf(l.Base[k].Den, func(i int) float64 { return l.by[i][k].den }))
		if by := l.rootBy(k); by != nil {
			r := l.Base[k].Root
			tracks = append(tracks, trackOf(r.Gain, func(i int) float64 { return by[i].Gain }), trackOf(r.X, func(i int) float64 { return by[i].X }), trackOf(r.Y, func(i int) float64 { return by[i].Y }))
		}
	}
	now := f(v)
	l.run(tracks)
	away := make([]float64, draws)
	for d := range away {
		for n, k := range of {
			t := tracks[from[n]:]
			v[n] = t[0].at[d] / t[1].at[d]
			if l.rootBy(k) != nil {
				r := l.Base[k].Root
				v[n] += r.beyond(Root{t[2].at[d], r.Base, t[3].at[d], t[4].at[d]})
			}
		}
		away[d] = math.Abs(f(v) - now)
	}
	slices.Sort(away)
	const last = draws * 95 / 100
	return (away[last-1] + away[last]) / 2
}

// track is a number that moves evenly with the errors, over all draws.
type track struct {
	at [draws]float64
	by func(i int) float64 // by an error
}

func trackOf(start float64, by func(i int) float64) track {
	t := track{by: by}
	for d := range t.at {
		t.at[d] = start
	}
	return t
}

// run moves tracks by the draws of all errors.
func (l *Linear) run(tracks []track) {
	table, column := drawTable(), 0
	var along [mostTaught][draws]float64 // of each draw, the combinations that were taught
	for i, e := range l.errors {
		whole := e.size
		for _, size := range [...]float64{whole.measured, whole.assumed} {
			e := &table[column]
			column++
			if size == 0 {
				continue
			}
			for n := range tracks {
				add(&tracks[n].at, e, size*tracks[n].by(i))
			}
			for t, part := range whole.taught {
				add(&along[t], e, part*size/whole.root())
			}
		}
	}
	for t := range along {
		share := 0.0
		for _, e := range l.errors {
			share += e.size.taught[t] * e.size.taught[t]
		}
		if share == 0 {
			break
		}
		// Along a combination of which readings took a share of the variance, the
		// draws become so much narrower.
		narrower := -(1 - math.Sqrt(max(0, 1-share))) / share
		for n := range tracks {
			sum := 0.0
			for i, e := range l.errors {
				sum += tracks[n].by(i) * e.size.root() * e.size.taught[t]
			}
			add(&tracks[n].at, &along[t], narrower*sum)
		}
	}
}

// add adds a multiple of the draws of one error.
func add(to, e *[draws]float64, by float64) {
	if by == 0 {
		return
	}
	for d := range to {
		to[d] += by * e[d]
	}
}
