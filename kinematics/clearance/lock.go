package clearance

import (
	"errors"
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Lock is how far the rack goes one way before a gap falls to the wished one.
type Lock struct {
	Rack     float64 // mm, with the sign of the way; the stop where nothing touches
	Steer    float64 // rad, of this wheel at rest height, positive to the left, toe included
	Limited  bool    // an obstacle ends the lock before the stop
	Obstacle int     // which; only if Limited
	Travel   float64 // mm, at which it does; only if Limited
}

// Sizes of the search for the lock.
const (
	lockLooks = 32   // from rest to the stop
	lockFine  = 1e-4 // mm of rack
)

// LockLeft returns the lock between rest and a stop of the rack, `stop` mm with
// its sign, over the given travels: the rack at which the first gap to an
// obstacle on body or damper falls below the wished one, bracketed and halved
// down to 0.1 micrometre. Where a gap is too small already with the rack in the
// middle, the lock is 0; what touches over less than a 32nd of the way and comes
// free again is not seen. Travels out of reach do not count. Errors are those of
// Sweep, and of kinematics where the linkage does not assemble at rest height
// with the rack so far.
func LockLeft(m *kinematics.Mechanism, c Case, travel []float64, stop float64) (Lock, error) {
	w, err := newWork(m, c)
	if err != nil {
		return Lock{}, err
	}
	l := Lock{Rack: stop}
	free := 0.0
	for k := range lockLooks + 1 {
		rack := stop * float64(k) / lockLooks
		obstacle, at, touches := w.touching(travel, rack)
		if !touches {
			free = rack
			continue
		}
		l = Lock{Limited: true, Obstacle: obstacle, Travel: at}
		for k > 0 && math.Abs(rack-free) > lockFine {
			mid := (rack + free) / 2
			if obstacle, at, touches := w.touching(travel, mid); touches {
				rack, l.Obstacle, l.Travel = mid, obstacle, at
			} else {
				free = mid
			}
		}
		l.Rack = free
		break
	}
	p, err := m.At(0, l.Rack)
	if err != nil {
		return Lock{}, err
	}
	l.Steer = -math.Atan2(p.Spin.X, p.Spin.Y)
	return l, nil
}

// touching returns the obstacle whose gap falls farthest below the wished one
// at a rack position, if any does.
func (w *work) touching(travel []float64, rack float64) (obstacle int, at float64, touches bool) {
	worst := 0.0
	for _, h := range travel {
		p, err := w.solve(h, rack, 0)
		if err != nil {
			continue
		}
		for i := range w.c.Obstacles {
			o := &w.c.Obstacles[i]
			if o.Carrier == OnUpright {
				continue
			}
			if gap, _ := w.gap(i, &p, o.Wish+worst); gap-o.Wish < worst {
				worst, obstacle, at, touches = gap-o.Wish, i, h, true
			}
		}
	}
	return obstacle, at, touches
}

// TurningCircle is what an axle needs to turn round at one rack position, at
// rest height and low speed, with the other axle's wheels straight. Only where
// Spread is 0 do both wheels roll without slip.
type TurningCircle struct {
	// WallToWall is the diameter, mm, that the farthest point of either tyre
	// describes. Bodywork ahead of the wheel sweeps more.
	WallToWall float64
	// KerbToKerb is the diameter of the outer tyre's contact centre.
	KerbToKerb float64
	// Spread is how far apart, mm, the two wheels' own turn centres lie on the
	// other axle's line; the circle is about their middle.
	Spread float64
	// Centre is that middle, z aside: x is minus the wheelbase, y counts toward
	// the car's left.
	Centre Vec
}

// ErrStraight: the wheels do not turn one way, so there is no circle.
var ErrStraight = errors.New("the wheels do not steer to one side")

// leastSteer, rad: below it a turn is wider than any road, 5 km on a wheelbase of 2.5 m.
const leastSteer = 5e-4

// TurningCircleAt returns the turning circle at a rack position. The turn
// centre lies on the line of the other axle, wheelbase mm behind this
// one, midway between the points where the axes of the two wheels meet it;
// with an Ackermann error of 0 they meet in one. Errors: *TyreError, those of
// [kinematics.Mechanism.At], and one that matches ErrStraight. A wheelbase that
// is not above zero is a caller's bug.
func TurningCircleAt(m *kinematics.Mechanism, t Tyre, rack, wheelbase float64) (TurningCircle, error) {
	if err := t.Validate(); err != nil {
		return TurningCircle{}, err
	}
	c, poses, err := turnAt(m, rack, wheelbase)
	if err != nil {
		return TurningCircle{}, err
	}
	prof := t.profile()
	for i, sign := range [...]float64{1, -1} {
		p, on := &poses[i], Vec{X: -wheelbase, Y: sign * c.Centre.Y}
		s := standOf(p)
		forward, _ := p.Heading()
		for _, ahead := range [...]Vec{forward, {X: -forward.X, Y: -forward.Y}} {
			for _, side := range [...]float64{-1, 1} {
				c.WallToWall = max(c.WallToWall, 2*prof.farthest(&s, on, Vec{Z: 1}, side, ahead))
			}
		}
	}
	return c, nil
}

// KerbCircleAt is TurningCircleAt without WallToWall, for which it needs no tyre
// and next to no time.
func KerbCircleAt(m *kinematics.Mechanism, rack, wheelbase float64) (TurningCircle, error) {
	c, _, err := turnAt(m, rack, wheelbase)
	return c, err
}

// turnAt finds the turn centre and the circle of the contact, with the poses of
// the left wheel and of the right one in its mirror image.
func turnAt(m *kinematics.Mechanism, rack, wheelbase float64) (c TurningCircle, poses [2]kinematics.Pose, err error) {
	if !(wheelbase > 0) {
		panic("kinematics: clearance: no wheelbase")
	}
	var centre [2]float64 // y of the turn centre, toward the car's left
	for i, sign := range [...]float64{1, -1} {
		p, err := m.At(0, sign*rack)
		if err != nil {
			return TurningCircle{}, poses, fmt.Errorf("the turning circle at rack %s mm: %w", kinematics.Placed(rack), err)
		}
		steer := -sign * math.Atan2(p.Spin.X, p.Spin.Y)
		if math.Abs(steer) < leastSteer {
			return TurningCircle{}, poses, ErrStraight
		}
		poses[i], centre[i] = p, sign*p.Contact.Y+(p.Contact.X+wheelbase)/math.Tan(steer)
	}
	if centre[0]*centre[1] <= 0 {
		return TurningCircle{}, poses, ErrStraight
	}
	c = TurningCircle{Spread: math.Abs(centre[0] - centre[1]), Centre: Vec{X: -wheelbase, Y: (centre[0] + centre[1]) / 2}}
	for i, sign := range [...]float64{1, -1} {
		p := &poses[i]
		c.KerbToKerb = max(c.KerbToKerb, 2*math.Hypot(p.Contact.X+wheelbase, p.Contact.Y-sign*c.Centre.Y))
	}
	return c, poses, nil
}
