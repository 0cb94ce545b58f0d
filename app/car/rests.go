package car

import (
	"armscribe/app/job"
	"armscribe/kinematics"
)

// Rest is what an answer rests on besides the points, the angles and the wheel of the
// corner: each may be assumed.
type Rest uint8

// The rests.
const (
	OnBump Rest = 1 << iota // the job's travel up, and down
	OnDroop
	OnRack   // the job's rack either way
	OnRim    // the rim's width, which shapes the tyre
	OnSpring // both ends of the spring
	OnDamper // the same, where an obstacle goes with the damper

	OnTravel = OnBump | OnDroop
	// OnRoom is all that the gaps around the wheel rest on.
	OnRoom = OnTravel | OnRack | OnRim | OnDamper
)

// Over is what rests on the job's own ends of a travel.
func (c *Car) Over(from, to float64) Rest {
	var on Rest
	if min(from, to) == -c.Droop {
		on |= OnDroop
	}
	if max(from, to) == c.Bump {
		on |= OnBump
	}
	return on
}

// Rests are the keys of the assumed values that an answer about the car rests on:
// every face of it says so. It is the one place that knows them.
func (c *Car) Rests(on Rest) []string {
	var keys []string
	spring := on&OnSpring != 0 || on&OnDamper != 0 && c.damper
	for _, at := range c.Within.Coordinates(&c.Corner) {
		ofSpring := at.Point == kinematics.SpringMoving || at.Point == kinematics.SpringBody
		if c.Within.RestsOn(at) && (spring || !ofSpring) {
			keys = append(keys, job.KeyIn(&c.Corner, at))
		}
	}
	if on&OnRim != 0 && c.rimAssumed {
		keys = append(keys, new(job.Variant).KeyOf(job.RimWidthValue))
	}
	return append(keys, c.AssumedEnds(on)...)
}

// AssumedEnds are the keys of travel and rack alone.
func (c *Car) AssumedEnds(on Rest) []string {
	var keys []string
	add := func(key string, assumed bool) {
		if assumed {
			keys = append(keys, key)
		}
	}
	add("travel.bump", on&OnBump != 0 && c.TravelAssumed[0])
	add("travel.droop", on&OnDroop != 0 && c.TravelAssumed[1])
	add("rack.left", on&OnRack != 0 && c.RackAssumed[0])
	add("rack.right", on&OnRack != 0 && c.RackAssumed[1])
	return keys
}
