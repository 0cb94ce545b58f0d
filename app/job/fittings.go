package job

import (
	"fmt"

	"armscribe/kinematics"
)

// Steering is what stands between the hand and the rack. An axle that is not
// steered has none.
type Steering struct {
	RackPerTurn   Optional // how far one turn of the steering wheel moves the rack
	WheelDiameter Optional // of the steering wheel's rim
}

// Any tells whether anything is said of the steering.
func (s *Steering) Any() bool { return *s != Steering{} }

// Brake is the room that disc and caliper need inside the wheel.
type Brake struct {
	Diameter Optional // across disc and caliper, about the spin axis
	Gap      Optional // wished all round it
}

// Any tells whether anything is said of the brake.
func (b *Brake) Any() bool { return *b != Brake{} }

// JointLimits is how far each joint may tilt from where it is at rest, either
// way, as its maker or its housing allows.
type JointLimits struct {
	UpperBall, LowerBall OptionalDegrees
	OuterEnd, RackEnd    OptionalDegrees
}

// Any tells whether there is any limit.
func (l *JointLimits) Any() bool { return *l != JointLimits{} }

// Housings are how large the joints on the upright are, across, to keep them off
// the rim.
type Housings struct {
	OuterEnd             Optional // of the tie rod
	LowerBall, UpperBall Optional
}

// Any tells whether there is any housing.
func (h *Housings) Any() bool { return *h != Housings{} }

// Limits of what a car may have.
const (
	// MaxSteering is the most that a rack can move in one turn, and the
	// largest steering wheel that can be meant, mm.
	MaxSteering = 1000.0
	// MaxBrake is the largest brake that can be meant, mm.
	MaxBrake = 1000.0
	// MaxHousing is the largest housing of a joint that can be meant, mm.
	MaxHousing = 200.0
	// MaxJointLimit is the most that a joint's limit can be, deg: a rod that
	// lies flat on its housing.
	MaxJointLimit Degrees = 90
)

func (s *Steering) fields() []field {
	return []field{
		{"rack_per_turn", "45", "", false, optionalCodec{&s.RackPerTurn}},
		{"wheel_diameter", "360", "", false, optionalCodec{&s.WheelDiameter}},
	}
}

// check refuses a steering of which nothing is said.
func (s *Steering) check(r *reader, at string, line int, has func(string) bool) {
	if !has("rack_per_turn") && !has("wheel_diameter") {
		r.add(line, at, "", "says nothing of the steering", "add rack_per_turn or wheel_diameter, or remove it")
	}
}

func (b *Brake) fields() []field {
	return []field{
		{"diameter", "330", "", false, optionalCodec{&b.Diameter}},
		{"gap", "5", "", false, optionalCodec{&b.Gap}},
	}
}

// check refuses a brake of which nothing is said.
func (b *Brake) check(r *reader, at string, line int, has func(string) bool) {
	if !has("diameter") && !has("gap") {
		r.add(line, at, "", "says nothing of the brake", "add diameter or gap, or remove it")
	}
}

func (l *JointLimits) fields() []field {
	return []field{
		{"upper_ball", "25", "", false, optionalDegreesCodec{&l.UpperBall}},
		{"lower_ball", "25", "", false, optionalDegreesCodec{&l.LowerBall}},
		{"outer_end", "20", "", false, optionalDegreesCodec{&l.OuterEnd}},
		{"rack_end", "20", "", false, optionalDegreesCodec{&l.RackEnd}},
	}
}

// check refuses limits of no joint.
func (l *JointLimits) check(r *reader, at string, line int, has func(string) bool) {
	for _, f := range l.fields() {
		if has(f.key) {
			return
		}
	}
	r.add(line, at, "", "limits no joint", "add upper_ball, lower_ball, outer_end or rack_end, or remove it")
}

func (h *Housings) fields() []field {
	return []field{
		{"outer_end", "32", "", false, optionalCodec{&h.OuterEnd}},
		{"lower_ball", "44", "", false, optionalCodec{&h.LowerBall}},
		{"upper_ball", "44", "", false, optionalCodec{&h.UpperBall}},
	}
}

// check refuses housings of no joint.
func (h *Housings) check(r *reader, at string, line int, has func(string) bool) {
	for _, f := range h.fields() {
		if has(f.key) {
			return
		}
	}
	r.add(line, at, "", "says nothing of the joints", "add outer_end, lower_ball or upper_ball, or remove it")
}

// fittings checks steering, corner weight, brake, housings and joint limits.
func (c *checker) fittings(j *Job) {
	if j.Axle == Rear && j.Steering.Any() && !c.skips("axle") && !c.skips("steering") {
		c.add("steering", "", "does not belong to a rear axle, which is not steered", "remove it, or write 'axle: front'", nil)
	}
	c.optional("steering.rack_per_turn", j.Steering.RackPerTurn, kinematics.MinSpan, MaxSteering)
	c.optional("steering.wheel_diameter", j.Steering.WheelDiameter, kinematics.MinSpan, MaxSteering)
	c.weight("corner_weight", j.CornerWeight)
	c.optional("brake.diameter", j.Brake.Diameter, kinematics.MinSpan, MaxBrake)
	c.optional("brake.gap", j.Brake.Gap, 0, MaxGap)
	c.optional("housings.outer_end", j.Housings.OuterEnd, kinematics.MinSpan, MaxHousing)
	c.optional("housings.lower_ball", j.Housings.LowerBall, kinematics.MinSpan, MaxHousing)
	c.optional("housings.upper_ball", j.Housings.UpperBall, kinematics.MinSpan, MaxHousing)
	for _, l := range []struct {
		key string
		d   OptionalDegrees
	}{{"upper_ball", j.JointLimits.UpperBall}, {"lower_ball", j.JointLimits.LowerBall},
		{"outer_end", j.JointLimits.OuterEnd}, {"rack_end", j.JointLimits.RackEnd}} {
		at := "joint_limits." + l.key
		if l.d.Given && !c.skips(at) && !(l.d.Degrees > 0 && l.d.Degrees <= MaxJointLimit) {
			c.add(at, fmt.Sprintf("%v deg", float64(l.d.Degrees)), fmt.Sprintf("is not above zero and up to %g degrees", float64(MaxJointLimit)),
				"write how far the joint may tilt from rest, either way", nil)
		}
	}
}

// optional is length for one that may be missing.
func (c *checker) optional(key string, o Optional, low, high float64) {
	if o.Given {
		c.length(key, o.Length, low, high)
	}
}
