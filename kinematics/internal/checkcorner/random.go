package checkcorner

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"armscribe/kinematics"
)

// Random draws a corner such as a car may have: inclined axes, unequal arms,
// sometimes one front-view pivot, rack ahead of or behind the axle, a tie rod
// that may be far from where it would have to be. It has no spring.
func Random(r *rand.Rand) kinematics.Corner {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	var c kinematics.Corner
	c.Lower.Ball = kinematics.Vec{X: in(-20, 25), Y: in(620, 720), Z: in(160, 220)}
	c.Upper.Ball = kinematics.Vec{X: in(-35, 10), Y: c.Lower.Ball.Y - in(5, 60), Z: c.Lower.Ball.Z + in(220, 340)}
	arm := func(ball kinematics.Vec, reach float64) kinematics.Arm {
		y, z := ball.Y-reach, ball.Z+in(-30, 35)
		if r.IntN(6) == 0 {
			return kinematics.FlatArm(kinematics.Vec{Y: y, Z: z}, ball)
		}
		return kinematics.Arm{Ball: ball, Front: kinematics.Vec{X: ball.X + in(70, 190), Y: y + in(-25, 25), Z: z + in(-18, 18)},
			Rear: kinematics.Vec{X: ball.X - in(70, 190), Y: y + in(-25, 25), Z: z + in(-18, 18)}}
	}
	c.Lower, c.Upper = arm(c.Lower.Ball, in(300, 430)), arm(c.Upper.Ball, in(210, 360))
	ahead := 1.0
	if r.IntN(2) == 0 {
		ahead = -1
	}
	c.TieRod.OuterEnd = kinematics.Vec{X: c.Lower.Ball.X + ahead*in(95, 150), Y: c.Lower.Ball.Y + in(-35, 25), Z: c.Lower.Ball.Z + in(15, 130)}
	c.TieRod.RackEnd = kinematics.Vec{X: c.TieRod.OuterEnd.X + in(-40, 40), Y: c.TieRod.OuterEnd.Y - in(290, 400), Z: c.TieRod.OuterEnd.Z + in(-25, 25)}
	c.Hub = kinematics.Vec{X: in(-4, 4), Y: c.Lower.Ball.Y + in(30, 85), Z: in(285, 340)}
	c.Camber, c.Toe = in(-3.5, 1)*math.Pi/180, in(-0.6, 0.6)*math.Pi/180
	c.Wheel = kinematics.Wheel{Offset: in(-40, 45), Spacer: in(0, 30), LoadedRadius: c.Hub.Z + in(-12, 12)}
	return c
}

// MeasuredWrong is a corner with every coordinate off by a normal error whose
// 95 % half-width is that which package kinematics takes for points measured
// within ±within mm.
func MeasuredWrong(r *rand.Rand, c kinematics.Corner, within float64) kinematics.Corner {
	for _, at := range c.Coordinates() {
		c.Shift(at, within/math.Sqrt(3)*r.NormFloat64())
	}
	return c
}

// Trials is how many draws a statistical test makes: short, or long with
// ARMSCRIBE_LONG set, as make long does.
func Trials(t testing.TB, short, long int) int {
	n := short
	if os.Getenv("ARMSCRIBE_LONG") != "" {
		n = long
	}
	t.Logf("%d draws", n)
	return n
}

// Covered ends the test unless a 95 % band holds 93 to 97 % of the draws, give
// or take three standard deviations of so many draws where they are few.
func Covered(t testing.TB, what string, held, draws int) {
	t.Helper()
	share := float64(held) / float64(draws)
	chance := 3 * math.Sqrt(0.05*0.95/float64(draws))
	t.Logf("%s: the band holds %d of %d, %.1f %%", what, held, draws, 100*share)
	if share < min(0.93, 0.95-chance) || share > max(0.97, 0.95+chance) {
		t.Errorf("%s: the 95 %% band holds %.1f %%", what, 100*share)
	}
}
