package kinematics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// RackEndFlat returns the ideal rack end of the front view: the centre of
// curvature of the path of the outer tie-rod end, with the arms' front-view
// lines as links. A rod from there keeps the wheel straight to second order.
// ok as of CentreOfCurvature. It is exact when the pivot axes are square to
// the front view.
func (m *Mechanism) RackEndFlat() (centre Place, ok bool) {
	c := &m.corner
	for _, arm := range [...]Flat{
		r2.Sub(Front(m.upper.centre), Front(c.Upper.Ball)), r2.Sub(Front(m.lower.centre), Front(c.Lower.Ball)),
	} {
		if r2.Norm(arm) < MinSpan {
			return Place{}, false // an arm seen from its end has no line in this view
		}
	}
	return CentreOfCurvature(Front(c.TieRod.OuterEnd),
		Front(m.upper.centre), Front(c.Upper.Ball), Front(m.lower.centre), Front(c.Lower.Ball))
}

// HeldPath returns where the outer tie-rod end goes over the given travels
// with the wheel held at its resting toe: the path that an ideal tie rod would
// follow. Errors are those of At.
func (m *Mechanism) HeldPath(travel []float64) ([]Vec, error) {
	path := make([]Vec, 0, len(travel))
	for _, h := range travel {
		p, err := m.At(h, 0)
		if err != nil {
			return path, err
		}
		end, ok := m.heldOuterEnd(&p, m.atRest)
		if !ok {
			return path, fmt.Errorf("the resting toe cannot be held at travel %s mm: %w", Placed(h), ErrUnreachable)
		}
		path = append(path, end)
	}
	return path, nil
}

// rackEndRank is the share of the largest singular value below which a
// direction of the fit is left as the present rack end has it. A path of
// ±20 mm on a rod of 400 mm settles two directions, the weaker with a share of
// 0.013. What the path does square to its own plane comes out lower, and a
// centre drawn from it would move by metres for a hundredth of a mm.
const rackEndRank = 3e-3

// RackEndSpace returns the centre of the sphere that best fits HeldPath over
// the travels, and the largest distance by which the path leaves that sphere.
//
// Every point p of a sphere with centre q obeys 2 p.q + (R^2 - q.q) = p.p,
// which is linear in q and the bracket; the least-squares solution comes from
// a singular value decomposition. The path is nearly flat, and then it says
// nothing about q square to its plane: there the present rack end is kept. At
// least four travels are needed. Errors are those of HeldPath.
func (m *Mechanism) RackEndSpace(travel []float64) (centre Vec, leftOver float64, err error) {
	if len(travel) < 4 {
		panic("kinematics: a sphere needs four points")
	}
	path, err := m.HeldPath(travel)
	if err != nil {
		return Vec{}, 0, err
	}
	q, err := sphereNear(path, m.corner.TieRod.RackEnd)
	if err != nil {
		return Vec{}, 0, err
	}
	mean := 0.0
	for _, p := range path {
		mean += length(r3.Sub(p, q)) / float64(len(path))
	}
	for _, p := range path {
		leftOver = max(leftOver, math.Abs(length(r3.Sub(p, q))-mean))
	}
	return q, leftOver, nil
}

// sphereNear fits a sphere's centre, keeping to `near` in directions the
// points do not settle.
func sphereNear(points []Vec, near Vec) (Vec, error) {
	var mid Vec
	for _, p := range points {
		mid = r3.Add(mid, r3.Scale(1/float64(len(points)), p))
	}
	// Differences from the mean remove the bracket; differences from `near`
	// make the smallest solution the nearest one.
	a := mat.NewDense(len(points), 3, nil)
	b := mat.NewDense(len(points), 1, nil)
	meanSquare := 0.0
	for _, p := range points {
		d := r3.Sub(p, near)
		meanSquare += r3.Dot(d, d) / float64(len(points))
	}
	for i, p := range points {
		e, d := r3.Sub(p, mid), r3.Sub(p, near)
		a.SetRow(i, []float64{2 * e.X, 2 * e.Y, 2 * e.Z})
		b.Set(i, 0, r3.Dot(d, d)-meanSquare)
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return Vec{}, fmt.Errorf("the path of the outer end fits no sphere: %w", ErrGeometry)
	}
	rank := svd.Rank(rackEndRank)
	if rank == 0 {
		return Vec{}, fmt.Errorf("the outer end does not move over this travel: %w", ErrGeometry)
	}
	var x mat.Dense
	svd.SolveTo(&x, b, rank)
	return r3.Add(near, Vec{X: x.At(0, 0), Y: x.At(1, 0), Z: x.At(2, 0)}), nil
}
