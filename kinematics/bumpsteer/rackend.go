package bumpsteer

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
)

// RackEndOffset is how far the present rack end is from an ideal one, in the
// front view, on the line from the outer end to the ideal rack end.
type RackEndOffset struct {
	// Along is measured on that line, mm, positive with the present rack end
	// beyond the ideal one as seen from the outer end: the rod is too long, and
	// the toe curve is bowed.
	Along Banded
	// Across is measured square to it, mm, positive with the present rack end
	// above the line: the toe curve slopes.
	Across Banded
}

// IdealRackEnd is where the rack end would have to be, by two constructions.
type IdealRackEnd struct {
	// Front is the centre of curvature of the front view
	// (Mechanism.RackEndFlat): exact with pivot axes square to the front view,
	// and the textbook's drawing for all others. Flat is the offset from it;
	// only if HasFlat. A centre at infinity, as of parallel arms of unequal
	// length in some places, has no offset.
	Front   kinematics.Place
	Flat    RackEndOffset
	HasFlat bool
	// Centre is that of the sphere that best fits the path of the outer end
	// over the travel with the wheel held straight (Mechanism.RackEndSpace),
	// and LeftOver how far the path leaves that sphere, mm: what no rod
	// follows. Space is the offset from it in the front view, only if HasSpace:
	// a centre on the outer end has no line to measure on. ForeAft is the rest,
	// mm, positive with the present rack end ahead of the centre.
	Centre   kinematics.Vec
	LeftOver float64
	Space    RackEndOffset
	HasSpace bool
	ForeAft  Banded
}

// spherePlaces is the number of travels of the fitted sphere.
const spherePlaces = 13

// FindRackEnd returns the ideal rack end of a corner over a travel range that
// holds rest, and how far the present one is from it, with the bands that
// follow from every coordinate being known within: first order,
// root sum of squares. Errors match ErrRange or are those of kinematics.New
// and Mechanism.HeldPath.
func FindRackEnd(c kinematics.Corner, within kinematics.Within, from, to float64) (IdealRackEnd, error) {
	g := Goal{From: from, To: to}
	if err := g.check(); err != nil {
		return IdealRackEnd{}, err
	}
	at := g.steps(spherePlaces)
	ideal, err := rackEndOf(c, at)
	if err != nil {
		return IdealRackEnd{}, err
	}
	values := func(e *IdealRackEnd) [5]*Banded {
		return [...]*Banded{&e.Flat.Along, &e.Flat.Across, &e.Space.Along, &e.Space.Across, &e.ForeAft}
	}
	l, err := kinematics.Linearise(&c, within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		e, err := rackEndOf(*c, at)
		var list []kinematics.Value
		for i, v := range values(&e) {
			list = append(list, kinematics.Number(v.Value, [...]bool{e.HasFlat, e.HasFlat, e.HasSpace, e.HasSpace, true}[i]))
		}
		return list, err
	})
	if err == nil {
		err = l.Edge
	}
	if err != nil {
		return IdealRackEnd{}, err
	}
	for i, v := range values(&ideal) {
		*v = banded(&l, i)
	}
	_, hasFlat := l.Half(0)
	_, hasSpace := l.Half(2)
	ideal.HasFlat, ideal.HasSpace = hasFlat, hasSpace
	if !ideal.HasFlat {
		ideal.Flat = RackEndOffset{}
	}
	if !ideal.HasSpace {
		ideal.Space = RackEndOffset{}
	}
	return ideal, nil
}

// rackEndOf is FindRackEnd without bands.
func rackEndOf(c kinematics.Corner, at []float64) (IdealRackEnd, error) {
	m, err := kinematics.New(&c)
	if err != nil {
		return IdealRackEnd{}, err
	}
	var e IdealRackEnd
	var ok bool
	if e.Front, ok = m.RackEndFlat(); ok && !e.Front.AtInfinity {
		e.Flat.Along.Value, e.Flat.Across.Value, e.HasFlat = offset(&c, e.Front.At)
	}
	if e.Centre, e.LeftOver, err = m.RackEndSpace(at); err != nil {
		return IdealRackEnd{}, err
	}
	e.Space.Along.Value, e.Space.Across.Value, e.HasSpace = offset(&c, kinematics.Front(e.Centre))
	e.ForeAft.Value = r3.Sub(c.TieRod.RackEnd, e.Centre).X
	return e, nil
}

// offset measures the present rack end on the line from outer end to ideal end.
func offset(c *kinematics.Corner, ideal kinematics.Flat) (along, across float64, ok bool) {
	rod := r2.Sub(ideal, kinematics.Front(c.TieRod.OuterEnd))
	length := r2.Norm(rod)
	if length < kinematics.MinSpan {
		return 0, 0, false
	}
	u := r2.Scale(1/length, rod)
	up := kinematics.Flat{X: -u.Y, Y: u.X}
	if up.Y < 0 {
		up = r2.Scale(-1, up)
	}
	off := r2.Sub(kinematics.Front(c.TieRod.RackEnd), ideal)
	return r2.Dot(off, u), r2.Dot(off, up), true
}
