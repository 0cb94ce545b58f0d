package widen

import (
	"math"

	"armscribe/kinematics"
)

// PlaneForScrub returns how far outboard of the hub face, along the spin axis,
// the wheel's centre plane must stand for a scrub radius at rest, all in mm:
// spacer less offset. loadedRadius is that of the wheel in question, 0 for the
// corner's own. The answer is exact, see [Reach]; an offset that puts the
// plane there with the present spacer, and a spacer that does so with the
// present offset, keep the scrub radius alike.
//
// Errors: those of kinematics.New, and one that matches ErrWiden where the
// steering axis does not meet the ground or the scrub radius is no number.
func PlaneForScrub(c kinematics.Corner, loadedRadius, scrub float64) (float64, error) {
	if !(math.Abs(scrub) <= kinematics.MaxLength) {
		return 0, faultOf("a scrub radius of %s is not within ±%s; check the number and its unit", scrub, kinematics.MaxLength)
	}
	l, err := lineOf(c, &Choice{Offset: c.Wheel.Offset, LoadedRadius: loadedRadius}, false)
	if err != nil {
		return 0, err
	}
	if math.Abs(l.scrubT) < leastSlope {
		return 0, faultOf("moving the wheel does not change the scrub radius here; check the ball joints")
	}
	return (scrub-l.scrub)/l.scrubT - c.Wheel.Offset, nil
}

// leastSlope of the scrub radius by the spacer: it is near 1 on every car, and
// below this a spacer as thick as a car is long would change it by a finger's
// width.
const leastSlope = 1e-2
