package kinematics

import "math"

// Root is a part of a value that bends: Gain times the root of Base² + X² + Y², as of
// friction about an axis that meets the ground X and Y away. Where the errors are as large
// as the root itself, no slope says what they do.
type Root struct{ Gain, Base, X, Y float64 }

// Value is what it comes to.
func (r Root) Value() float64 { return r.Gain * r.root() }

func (r Root) root() float64 { return math.Sqrt(r.Base*r.Base + r.X*r.X + r.Y*r.Y) }

// Times is one that much larger.
func (r Root) Times(gain float64) Root {
	r.Gain *= gain
	return r
}

// beyond is by how much the value at another place differs from what its slopes at
// this one say.
func (r Root) beyond(at Root) float64 {
	root := r.root()
	straight := at.Gain * root
	if root > 0 {
		straight += r.Gain * (r.X*(at.X-r.X) + r.Y*(at.Y-r.Y)) / root
	}
	return at.Value() - straight
}

// addRoot keeps the slopes of a root by the error that comes next.
func (l *Linear) addRoot(k int, plus, minus Root, step float64) {
	if l.Base[k].Root == (Root{}) {
		return
	}
	if l.roots == nil {
		l.roots = map[int][]Root{}
	}
	l.roots[k] = append(l.roots[k], Root{Gain: (plus.Gain - minus.Gain) / step, X: (plus.X - minus.X) / step, Y: (plus.Y - minus.Y) / step})
}

// joinRoots takes over the roots of two corners; from says which error of either one
// of both together is.
func (l *Linear) joinRoots(a, b *Linear, from [][2]int) {
	for side, of := range [...]*Linear{a, b} {
		for k, was := range of.roots {
			if l.roots == nil {
				l.roots = map[int][]Root{}
			}
			list := make([]Root, len(from))
			for i, f := range from {
				if f[side] >= 0 {
					list[i] = was[f[side]]
				}
			}
			l.roots[k+side*len(a.Base)] = list
		}
	}
}

// rootBy are the slopes of a value's root by all errors; nil where there is none.
func (l *Linear) rootBy(k int) []Root {
	if by := l.roots[k]; len(by) == len(l.errors) {
		return by
	}
	return nil
}

// rootShare of a value's band is what the second order of its root may come to before it
// counts as bent.
const rootShare = 0.2

// rootBends tells of a value whose root bends over its band.
func (l *Linear) rootBends(k int) bool {
	by, r := l.rootBy(k), l.Base[k].Root
	if by == nil {
		return false
	}
	var x, y spread
	for i, e := range l.errors {
		x.add(by[i].X, e.size)
		y.add(by[i].Y, e.size)
	}
	bend := math.Abs(r.Gain) * (x.half()*x.half() + y.half()*y.half())
	return bend > 2*rootShare*r.root()*l.combined([]int{k}, []float64{1})
}
