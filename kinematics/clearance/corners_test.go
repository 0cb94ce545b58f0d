package clearance

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/kinematics"
	"armscribe/kinematics/internal/checkcorner"
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// ahead is a corner with inclined axes and the rack ahead of the axle, and
// behind one with its rack behind, camber, toe and a long way from either.
func ahead() kinematics.Corner {
	c := checkcorner.Inclined()
	c.Hub, c.Camber, c.Toe = Vec{X: 1, Y: 751, Z: 309}, rad(-1.3), rad(0.15)
	c.Wheel = kinematics.Wheel{Offset: 18, Spacer: 5, LoadedRadius: 307}
	c.Spring = kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: Vec{X: -3, Y: 550, Z: 195}, Body: Vec{X: -10, Y: 420, Z: 600}}
	return c
}

func behind() kinematics.Corner {
	c := ahead()
	c.TieRod = kinematics.TieRod{RackEnd: Vec{X: -122, Y: 338, Z: 226}, OuterEnd: Vec{X: -131, Y: 664, Z: 219}}
	c.Hub, c.Camber, c.Wheel.Spacer = Vec{X: -2, Y: 764, Z: 303}, rad(-2.4), 31
	return c
}

// wide is a tyre with a flank, plain one whose side wall runs into the arc.
func wide() Tyre { return Tyre{Radius: 314.5, Section: 295, Tread: 241, Shoulder: 19, Widest: 268} }
func plain() Tyre {
	return Tyre{Radius: 302, Section: 214, Tread: 156, Shoulder: 29, Widest: 273}
}

func seeded(t *testing.T, seed uint64) *rand.Rand {
	t.Helper()
	t.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 0x77))
}

// section walks once over a tyre's section, from the inner side of the tread
// over the outer side down to the spin axis and back up the inner side, in
// steps of about `step`, built from the drawing of the package page and not
// from its formulas: arc, then the tangent found by trying.
func section(t Tyre, step float64) (points [][2]float64) {
	au, av := t.Tread/2, t.Radius-t.Shoulder
	add := func(u, v float64) { points = append(points, [2]float64{u, v}, [2]float64{-u, v}) }
	line := func(u0, v0, u1, v1 float64) {
		n := math.Ceil(math.Hypot(u1-u0, v1-v0) / step)
		for i := 0.0; i <= n; i++ {
			add(u0+(u1-u0)*i/n, v0+(v1-v0)*i/n)
		}
	}
	line(0, t.Radius, au, t.Radius)
	// The tangent from the widest place: the angle of the arc at which the line
	// there leaves the arc square to its radius, by bisection.
	square := func(a float64) float64 {
		s, c := math.Sincos(a)
		return (t.Section/2-au-t.Shoulder*c)*c + (t.Widest-av-t.Shoulder*s)*s
	}
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		if mid := (lo + hi) / 2; square(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	for i, n := 0.0, math.Ceil(t.Shoulder*(math.Pi/2-lo)/step); i <= n; i++ {
		s, c := math.Sincos(lo + (math.Pi/2-lo)*i/n)
		add(au+t.Shoulder*c, av+t.Shoulder*s)
	}
	s, c := math.Sincos(lo)
	line(au+t.Shoulder*c, av+t.Shoulder*s, t.Section/2, t.Widest)
	line(t.Section/2, t.Widest, t.Section/2, 0)
	return points
}

// surface gives about n points of a tyre's surface as it stands in a pose.
func surface(t Tyre, p *kinematics.Pose, n int, each func(Vec)) {
	// Rings of points at each place of the section, about as dense along as across.
	area := 2 * math.Pi * t.Radius * (t.Section + t.Radius)
	step := math.Sqrt(area / float64(n))
	e := r3.Unit(r3.Cross(p.Spin, Vec{Z: 1}))
	f := r3.Cross(p.Spin, e)
	for _, uv := range section(t, step) {
		k := max(1, math.Ceil(2*math.Pi*uv[1]/step))
		on := r3.Add(p.WheelCentre, r3.Scale(uv[0], p.Spin))
		for i := 0.0; i < k; i++ {
			s, c := math.Sincos(2 * math.Pi * i / k)
			each(r3.Add(on, r3.Add(r3.Scale(uv[1]*c, e), r3.Scale(uv[1]*s, f))))
		}
	}
}
