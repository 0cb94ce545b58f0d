package kinematics

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Value is a number that follows from a corner; OK is false where the corner has
// no such number. It is a ratio, so that one which goes through infinity moves
// evenly with the coordinates nevertheless: the OK of a ratio stays true where Den
// is nought, as of the swing arm of parallel arms.
type Value struct {
	Num, Den float64
	OK       bool
	Root     Root // of what is in Num and bends
}

// Number is a value that never goes through infinity.
func Number(v float64, ok bool) Value { return Value{Num: v, Den: 1, OK: ok} }

func (v *Value) infinite() bool { return math.Abs(v.Den) <= beyondInfinity*math.Abs(v.Num) }

func (v *Value) number() float64 { return v.Num / v.Den }

// Of returns the number; false where there is none, or none but infinity.
func (v Value) Of() (float64, bool) {
	if !v.OK || v.infinite() {
		return 0, false
	}
	return v.number(), true
}

// Inverse is 1 over the value.
func (v Value) Inverse() Value { return Value{Num: v.Den, Den: v.Num, OK: v.OK} }

// Values returns every reading as a value of Linearise, in the order of the
// Quantity constants.
func (p *Pose) Values() []Value { return p.AppendValues(make([]Value, 0, QuantityCount)) }

// AppendValues appends Values to a list.
func (p *Pose) AppendValues(to []Value) []Value {
	var v poseValues
	v.read(p)
	for q := range QuantityCount {
		to = append(to, Number(v.readings.Of(q)))
	}
	list := to[len(to)-int(QuantityCount):]
	for k, q := range centreQuantities {
		r := v.ratios[k]
		list[q] = Value{Num: r.num, Den: r.den, OK: r != ratio{}}
	}
	return to
}

// Linear is how values that follow from one or two corners move with the errors
// of the measured coordinates, to first order. It is read only.
type Linear struct {
	Base   []Value
	Edge   error // why a neighbouring corner has no values at all; nil when all have
	corner Corner
	within Within
	errors []coordinateError
	by     [][]slope      // by[i][k]: value k by errors[i], per mm
	roots  map[int][]Root // roots[k][i]: what is in Base[k].Root by errors[i]
	known  []bool         // value k has slopes
}

type coordinateError struct {
	at   Coordinate
	size errorSize
}

type slope struct{ num, den float64 }

// Linearise takes the central differences of all values of a corner by every
// coordinate that is not exact. of computes the values of the corner and of its
// neighbours, always as many and in the same order; its error on the corner
// itself is the answer, and on a neighbour leaves all values without a band. The values
// of the corner itself, asked for first, are kept; those of a neighbour are done with
// when the next but one is asked for: of may use that memory again.
//
// The rule of all bands. Every coordinate carries errors as Within says, all
// independent; values move with them to first order. A band is 1.96 standard
// deviations of the root sum of squares, which a sum of many small errors stays
// within 95 times in 100, but never more than all errors together can do.
func Linearise(c *Corner, within Within, of func(*Corner) ([]Value, error)) (Linear, error) {
	base, err := of(c)
	if err != nil {
		return Linear{}, err
	}
	l := Linear{Base: base, corner: *c, within: within, known: make([]bool, len(base))}
	for k := range base {
		l.known[k] = base[k].OK
	}
	list := within.coordinates(c, make([]Coordinate, 0, maxCoordinates))
	l.errors, l.by = make([]coordinateError, 0, len(list)), make([][]slope, 0, len(list))
	all := make([]slope, len(list)*len(base)) // one piece of memory: a drag frame asks each time
	for i, at := range list {
		size := within.of(at)
		by := all[i*len(base) : (i+1)*len(base) : (i+1)*len(base)]
		if err := l.slopes(by, at, of); err != nil {
			l.Edge = fmt.Errorf("%s: a corner %g mm away: %w", c.NameOf(at.Point), within.step(at), err)
			clear(l.known)
			l.errors, l.by, l.roots = nil, nil, nil
			return l, nil
		}
		l.errors, l.by = append(l.errors, coordinateError{at, size}), append(l.by, by)
	}
	return l, nil
}

// slopes puts those of all values by one coordinate into by.
func (l *Linear) slopes(by []slope, at Coordinate, of func(*Corner) ([]Value, error)) error {
	c, step := l.corner, l.within.step(at)
	l.within.Shift(&c, at, step)
	plus, err := of(&c)
	if err != nil {
		return err
	}
	c = l.corner
	l.within.Shift(&c, at, -step)
	minus, err := of(&c)
	if err != nil {
		return err
	}
	if len(plus) != len(l.Base) || len(minus) != len(l.Base) {
		panic(fmt.Sprintf("kinematics: %d values of a corner, %d and %d of its neighbours", len(l.Base), len(plus), len(minus)))
	}
	for k := range by {
		if l.known[k] = l.known[k] && plus[k].OK && minus[k].OK; l.known[k] {
			by[k] = slope{(plus[k].Num - minus[k].Num) / (2 * step), (plus[k].Den - minus[k].Den) / (2 * step)}
			l.addRoot(k, plus[k].Root, minus[k].Root, 2*step)
		} else {
			delete(l.roots, k) // a value without slopes has none of its root either
		}
	}
	return nil
}

// Beside joins the values of two corners, those of b after those of a. A
// coordinate that both share was measured once and carries one error, the larger
// of both; all others are independent.
func Beside(a, b *Linear) Linear {
	l := Linear{Base: append(a.Base[:len(a.Base):len(a.Base)], b.Base...), corner: a.corner,
		known: append(a.known[:len(a.known):len(a.known)], b.known...)}
	if l.Edge = a.Edge; l.Edge == nil {
		l.Edge = b.Edge
	}
	// What readings have taught belongs to the corner that they were taken on.
	shared := make(map[Coordinate]int, len(b.errors))
	for i, e := range b.errors {
		if a.corner.Shares(&b.corner, e.at) {
			shared[e.at] = i
		}
	}
	var from [][2]int // of each error, those of a and b that it is, or -1
	for i, e := range a.errors {
		from = append(from, [2]int{i, -1})
		row := make([]slope, len(l.Base))
		copy(row, a.by[i])
		if j, ok := shared[e.at]; ok {
			from[i][1] = j
			copy(row[len(a.Base):], b.by[j])
			e.size = e.size.larger(b.errors[j].size)
			delete(shared, e.at)
		}
		e.size = e.size.untaught()
		l.errors, l.by = append(l.errors, e), append(l.by, row)
	}
	for j, e := range b.errors {
		if _, ok := shared[e.at]; ok || !a.corner.Shares(&b.corner, e.at) {
			row := make([]slope, len(l.Base))
			copy(row[len(a.Base):], b.by[j])
			e.size = e.size.untaught()
			l.errors, l.by = append(l.errors, e), append(l.by, row)
			from = append(from, [2]int{-1, j})
		}
	}
	l.joinRoots(a, b, from)
	return l
}

// Slope is the derivative of value k by a coordinate, per mm; nought for one that
// is exact.
func (l *Linear) Slope(k int, at Coordinate) float64 {
	for i, e := range l.errors {
		if e.at == at {
			return l.tangent(i, k)
		}
	}
	return 0
}

// tangent is the derivative of the ratio itself.
func (l *Linear) tangent(i, k int) float64 {
	v, by := &l.Base[k], &l.by[i][k]
	if v.Den == 1 && by.den == 0 {
		return by.num
	}
	return (by.num - v.Num/v.Den*by.den) / v.Den
}

// Interval returns where value k lies; false where that is not known.
func (l *Linear) Interval(k int) (Interval, bool) {
	v := &l.Base[k]
	if !l.known[k] || v.Num == 0 && v.Den == 0 {
		return Interval{}, false
	}
	if v.infinite() { // taken the other way round
		s := l.sums(k, v.Num, v.Den, func(e slope) (num, den float64) { return e.den, e.num })
		return s.interval(v.Den/v.Num, v.Num).reciprocal(), true
	}
	s := l.sums(k, v.Den, v.Num, func(e slope) (num, den float64) { return e.num, e.den })
	return s.interval(v.number(), v.Den), true
}

func (l *Linear) sums(k int, den, num float64, of func(slope) (num, den float64)) (s ratioSpread) {
	for i, e := range l.errors {
		n, d := of(l.by[i][k])
		s.add(n-num/den*d, d, e.size)
	}
	return s
}

// Half returns the 95 % half-width of value k; false where it is not known or the value may be infinite.
func (l *Linear) Half(k int) (half float64, ok bool) {
	v := &l.Base[k]
	switch {
	case !l.known[k] || v.infinite():
		return 0, false
	case l.rootBends(k):
		return l.drawn([]int{k}, func(v []float64) float64 { return v[0] }), true
	case !l.bends(k):
		return l.combined([]int{k}, []float64{1}), true
	}
	i, ok := l.Interval(k)
	if !ok {
		return 0, false
	}
	return i.Half()
}

// bends tells of a ratio whose denominator moves.
func (l *Linear) bends(k int) bool {
	for i := range l.by {
		if l.by[i][k].den != 0 {
			return true
		}
	}
	return false
}

// Change returns the 95 % half-width of the change from one value to another, of
// two corners joined by Beside; false where either has none.
func (l *Linear) Change(from, to int) (half float64, ok bool) {
	for _, k := range [...]int{from, to} {
		if _, ok := l.Half(k); !ok {
			return 0, false
		}
	}
	if l.bentFar(from) || l.bentFar(to) {
		return l.drawn([]int{from, to}, func(v []float64) float64 { return v[1] - v[0] }), true
	}
	return l.combined([]int{from, to}, []float64{-1, 1}), true
}

// Assumed lists the assumptions that value k rests on, the one that moves it most
// first.
func (l *Linear) Assumed(k int) []Coordinate {
	var list []Coordinate
	var sizes []float64
	all := 0.0
	for i, e := range l.errors {
		d := l.tangent(i, k)
		all += d * d * e.size.squares()
		if e.size.assumed > 0 {
			list, sizes = append(list, e.at), append(sizes, math.Abs(d)*e.size.assumed)
		}
	}
	order := make([]int, 0, len(list))
	for i, size := range sizes {
		if restsOn(size*size, all) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(sizes[b], sizes[a]) })
	out := make([]Coordinate, len(order))
	for n, i := range order {
		out[n] = list[i]
	}
	return out
}

// combined is the half-width of a sum of values with weights.
func (l *Linear) combined(of []int, weights []float64) float64 {
	var s spread
	for i, e := range l.errors {
		sum := 0.0
		for n, k := range of {
			sum += weights[n] * l.tangent(i, k)
		}
		s.add(sum, e.size)
	}
	return s.half()
}

// bentShare of a ratio's denominator is what its band may come to before the ratio
// counts as bent over the band: the second order is then a tenth of the first.
const bentShare = 0.1

func (l *Linear) bentFar(k int) bool {
	if l.rootBends(k) {
		return true
	}
	var s spread
	for i, e := range l.errors {
		s.add(l.by[i][k].den, e.size)
	}
	return s.half() > bentShare*math.Abs(l.Base[k].Den)
}
