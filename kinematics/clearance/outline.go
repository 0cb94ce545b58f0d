package clearance

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"armscribe/kinematics"
)

// View is a picture plane.
type View uint8

// The views, by the axes of package kinematics: from the front X is y and Y is
// z; in plan X is y and Y is -x. A plan is seen from above with the car's nose
// pointing down, so that it stands plumb under the view from the front as first
// angle projection has it (ISO 5456-2, from memory).
const (
	FrontView View = iota
	PlanView
)

// flat projects a point into the view.
func (v View) flat(p Vec) r2.Vec {
	if v == PlanView {
		return r2.Vec{X: p.Y, Y: -p.X}
	}
	return r2.Vec{X: p.Y, Y: p.Z}
}

// Sizes of an outline. The union of what the tyre covers is drawn as seen from
// a point inside all of it, one ray after the other. Together they keep the
// outline outside of the tyre and within OutlineExcess of it, for a shoulder
// from 5 mm up and a wheel up to 1 m across that steers ±50 degrees.
const (
	outlineRays = 4096 // 0.5 mm apart at 350 mm
	// outlineSag, mm: by how much a chord of one hull may cut it.
	outlineSag = 0.01
	// outlineMargin, mm, makes up for what chords of hulls, between rays and
	// between poses cut off.
	outlineMargin = 0.06
	// OutlineExcess is by how much, mm, an outline may pass the tyre.
	OutlineExcess = 0.2

	coarseRays, coarseSag = 360, 0.5
	// outlineSlack, mm: a hull that adds no more than this to the poses it joins
	// is taken as it is, and else its poses are put closer together.
	outlineSlack  = 0.08
	outlineSplits = 12 // of one cell of the grid, by then 0.1 mm of travel
	// Poses that an outline begins with.
	outlineTravels, outlineRacks             = 13, 33
	coarseOutlineTravels, coarseOutlineRacks = 5, 11
	outlineFirst                             = 24 // directions before any is put between
)

// ErrOutline: the poses lie so far apart that no point is inside the tyre in
// all of them, so that the swept shape has no outline as seen from one point.
var ErrOutline = errors.New("the swept tyre has no point that is inside in every pose")

// Outline is the edge of what the tyre covers in a view over all poses between
// those of a span: a closed polygon, counter-clockwise, its first point not
// repeated.
//
// Fine outlines hold every point of the tyre and pass it by OutlineExcess at
// most; coarse ones, for a hand that still moves, may be off by a few mm either
// way. Roll adds nothing (see Grid). Poses out of reach are left out, and
// between two neighbours of which one is out of reach the shape ends at the
// other.
//
// Errors: *TyreError, ErrUnreachable as of kinematics if nothing assembles,
// ErrOutline.
func Outline(m *kinematics.Mechanism, t Tyre, s Span, view View, fine bool) ([]r2.Vec, error) {
	if err := t.Validate(); err != nil {
		return nil, err
	}
	o := outliner{m: m, view: view, sag: coarseSag, profile: t.profile(), first: around(outlineFirst)}
	travels, racks, rays := coarseOutlineTravels, coarseOutlineRacks, coarseRays
	if fine {
		travels, racks, rays = outlineTravels, outlineRacks, outlineRays
		o.sag, o.splits = outlineSag, outlineSplits
		o.profile.inflate(outlineMargin)
	}
	o.radius, o.ray = make([]float64, rays), around(rays)
	return o.run(spread(-s.Droop, s.Bump, travels), spread(-s.Right, s.Left, racks))
}

// around returns n unit directions, evenly spaced.
func around(n int) []r2.Vec {
	list := make([]r2.Vec, n)
	for j := range list {
		sin, cos := math.Sincos(2 * math.Pi * float64(j) / float64(n))
		list[j] = r2.Vec{X: cos, Y: sin}
	}
	return list
}

// inflate makes a profile larger all round in what it reaches, which is all
// that an outline asks for; distances are then wrong.
func (p *profile) inflate(mm float64) {
	p.r += mm
	p.half += mm
	p.widest += mm
}

type outliner struct {
	m          *kinematics.Mechanism
	profile    profile
	view       View
	sag        float64
	splits     int
	centre     r2.Vec
	ray, first []r2.Vec
	radius     []float64 // of the swept shape on each ray
	hull       []*shadow // of neighbouring poses
	corners    []r2.Vec  // of their hull, from the centre
}

// shadow is a pose seen in the view: wheel centre, from the outline's, and the
// spin axis' projection.
type shadow struct {
	travel, rack float64
	centre, spin r2.Vec
	known        bool // the linkage reaches it
}

// shadow solves a pose; err tells why it is not known.
func (o *outliner) shadow(travel, rack float64) (shadow, error) {
	p, err := o.m.At(travel, rack)
	if err != nil {
		return shadow{travel: travel, rack: rack}, err
	}
	return shadow{travel, rack, r2.Sub(o.view.flat(p.WheelCentre), o.centre), o.view.flat(p.Spin), true}, nil
}

func (o *outliner) run(travel, rack []float64) ([]r2.Vec, error) {
	grid, err := o.solve(travel, rack)
	if err != nil {
		return nil, err
	}
	for i := range grid {
		if _, err := o.cover(&grid[i]); err != nil {
			return nil, err
		}
	}
	nr := len(rack)
	for i := range max(len(travel)-1, 1) {
		for k := range max(nr-1, 1) {
			up, on := min(i+1, len(travel)-1), min(k+1, nr-1)
			c := cell{grid[i*nr+k], grid[i*nr+on], grid[up*nr+k], grid[up*nr+on]}
			if err := o.join(c, o.splits); err != nil {
				return nil, err
			}
		}
	}
	line := make([]r2.Vec, len(o.radius))
	for j, r := range o.radius {
		line[j] = r2.Add(o.centre, r2.Scale(r, o.ray[j]))
	}
	return line, nil
}

// solve returns the shadow of every pose of a grid, and sets the outline's
// centre to the mean of all wheel centres.
func (o *outliner) solve(travel, rack []float64) ([]shadow, error) {
	grid := make([]shadow, 0, len(travel)*len(rack))
	n, first, mean := 0.0, error(nil), r2.Vec{}
	for _, h := range travel {
		for _, k := range rack {
			s, err := o.shadow(h, k)
			if err != nil {
				first = err
			} else {
				mean = r2.Add(mean, s.centre)
				n++
			}
			grid = append(grid, s)
		}
	}
	if n == 0 {
		return nil, fmt.Errorf("no outline: %w", first)
	}
	o.centre = r2.Scale(1/n, mean)
	for i := range grid {
		grid[i].centre = r2.Sub(grid[i].centre, o.centre)
	}
	return grid, nil
}

// cell is four neighbouring poses: low and high of the rack (or one twice) at
// the lower travel, then at the higher.
type cell [4]shadow

// join puts what lies between the poses of a cell into the swept shape: their
// hull, if it adds hardly anything to what is there and the poses half way add
// hardly anything to it, and else the same for two halves.
func (o *outliner) join(c cell, splits int) error {
	o.hull = o.hull[:0]
	for i := range c {
		if c[i].known {
			o.hull = append(o.hull, &c[i])
		}
	}
	if len(o.hull) < 2 {
		return nil
	}
	if err := o.wrap(); err != nil {
		return err
	}
	gain := o.spread(false)
	if splits == 0 || gain <= outlineSlack {
		o.spread(true)
	}
	if splits == 0 {
		return nil
	}
	// Across the way on which the wheel moves farther.
	a, b, p, q := 0, 1, 2, 3
	if o.moves(&c[0], &c[2])+o.moves(&c[1], &c[3]) > o.moves(&c[0], &c[1])+o.moves(&c[2], &c[3]) {
		b, p = 2, 1
	}
	// Unknown poses say so by themselves: the error of shadow is theirs.
	low, _ := o.shadow((c[a].travel+c[b].travel)/2, (c[a].rack+c[b].rack)/2)
	high, _ := o.shadow((c[p].travel+c[q].travel)/2, (c[p].rack+c[q].rack)/2)
	bulge := 0.0
	for _, s := range []*shadow{&low, &high} {
		more, err := o.cover(s)
		if err != nil {
			return err
		}
		bulge = max(bulge, more)
	}
	if gain <= outlineSlack && bulge <= outlineSlack/2 {
		return nil
	}
	one, two := c, c
	one[b], one[q], two[a], two[p] = low, high, low, high
	if err := o.join(one, splits-1); err != nil {
		return err
	}
	return o.join(two, splits-1)
}

// moves is about how far a tyre's corner moves between two poses, in the view.
func (o *outliner) moves(a, b *shadow) float64 {
	return r2.Norm(r2.Sub(a.centre, b.centre)) + o.profile.top*r2.Norm(r2.Sub(a.spin, b.spin))
}

// cover puts one pose into the swept shape and returns by how much it passed it.
func (o *outliner) cover(s *shadow) (gain float64, err error) {
	if !s.known {
		return 0, nil
	}
	o.hull = append(o.hull[:0], s)
	if err := o.wrap(); err != nil {
		return 0, err
	}
	return o.spread(true), nil
}

// wrap sets the corners of the hull.
func (o *outliner) wrap() error {
	o.corners = o.corners[:0]
	n := len(o.first)
	from := o.touch(o.first[0])
	for j := range n {
		a, b := o.first[j], o.first[(j+1)%n]
		to := o.touch(b)
		if r2.Dot(a, from) <= 0 {
			return ErrOutline
		}
		o.corners = append(o.corners, from)
		o.between(a, b, from, to)
		from = to
	}
	return nil
}

// spread returns by how much the hull passes the swept shape on any ray, and
// raises the rays if put. It goes round the corners once, counter-clockwise
// like the rays.
func (o *outliner) spread(put bool) (gain float64) {
	n, c := len(o.radius), o.corners
	j := int(math.Ceil(math.Atan2(c[0].Y, c[0].X) * float64(n) / (2 * math.Pi)))
	j, left := (j+n)%n, n
	for i, a := range c {
		b := c[(i+1)%len(c)]
		side := r2.Sub(b, a)
		// The ray meets the line a-b at (a x b) / (d x (b - a)).
		cross := r2.Cross(a, b)
		for ; left > 0; left-- {
			d := o.ray[j]
			if r2.Cross(d, b) < 0 {
				break // past b
			}
			if along := r2.Cross(d, side); along > 0 {
				r := cross / along
				if r > o.radius[j] {
					gain = max(gain, r-o.radius[j])
					if put {
						o.radius[j] = r
					}
				}
			}
			if j++; j == n {
				j = 0
			}
		}
	}
	return gain
}

// between adds the corners of the hull between two directions and the points
// where it is touched in them. The hull stays in the triangle of chord and
// tangents, which is at most half the chord times the tangent of half the turn
// high.
func (o *outliner) between(a, b, from, to r2.Vec) {
	cross, two := r2.Cross(a, b), 2*(1+r2.Dot(a, b)) // two: the square of a + b
	if high := o.sag * two; r2.Norm2(r2.Sub(to, from))*cross*cross <= high*high {
		return
	}
	mid := r2.Scale(1/math.Sqrt(two), r2.Add(a, b))
	at := o.touch(mid)
	o.between(a, mid, from, at)
	o.corners = append(o.corners, at)
	o.between(mid, b, at, to)
}

// touch returns the point of the hull that reaches farthest in a direction.
func (o *outliner) touch(d r2.Vec) r2.Vec {
	best, pick, pickAlong, far := math.Inf(-1), (*shadow)(nil), 0.0, false
	p := &o.profile
	for _, s := range o.hull {
		along := r2.Dot(d, s.spin)
		across := math.Sqrt(max(0, 1-along*along))
		base := r2.Dot(d, s.centre)
		u := math.Abs(along)
		if h := base + p.au*u + p.av*across + p.r; h > best {
			best, pick, pickAlong, far = h, s, along, false
		}
		if h := base + p.half*u + p.widest*across; h > best {
			best, pick, pickAlong, far = h, s, along, true
		}
	}
	// In space: out along the spin axis, off it toward d, and round the shoulder.
	u, v, r := p.au, p.av, p.r
	if far {
		u, v, r = p.half, p.widest, 0
	}
	off := r2.Sub(d, r2.Scale(pickAlong, pick.spin))
	if across := math.Sqrt(max(0, 1-pickAlong*pickAlong)); across > 0 {
		off = r2.Scale(v/across, off)
	}
	return r2.Add(r2.Add(pick.centre, r2.Scale(math.Copysign(u, pickAlong), pick.spin)), r2.Add(off, r2.Scale(r, d)))
}
