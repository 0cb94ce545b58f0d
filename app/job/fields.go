package job

import (
	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// The file's keys, section by section, in the order in which a new file has
// them. Reading, writing and the hints in problems all go by these tables.

// field is one key of a section.
type field struct {
	key    string
	sample string // what its value may look like, for the cure of a problem
	below  string // instead of sample: what stands in the lines below it
	must   bool   // the section is not complete without it
	codec  codec
}

// codec moves one value between the file and the job.
type codec interface {
	// read sets the value from n, or reports why not.
	read(r *reader, n *yaml.Node, at string)
	// write returns the value as a node, or nil to leave the key out. old is
	// what the file had, or nil; comments and unchanged text come from it.
	write(w *writer, old *yaml.Node) *yaml.Node
	// schema describes what the value may be; see Schema.
	schema(s *schemer) object
}

// section is a part of the job that is a mapping in the file.
type section interface{ fields() []field }

// checked is a section with a rule about which keys go together.
type checked interface {
	section
	check(r *reader, at string, line int, has func(key string) bool)
}

const pointSample = "{x: 4, y: 705, z: 196}"

func (j *Job) fields() []field {
	return []field{
		{"armscribe", "1", "", true, formatCodec{}},
		{"name", "Gravel estate, front", "", true, textCodec{to: &j.Name}},
		{"invented", "true", "", false, boolCodec{&j.Invented}},
		{"axle", "front", "", true, wordCodec[Axle]{&j.Axle, axleWords}},
		{"units", "mm", "", true, wordCodec[units.Unit]{&j.Units, unitWords}},
		{"measured_within", "1", "", false, lengthCodec{to: &j.MeasuredWithin, absent: defaultWithin, mayLack: true}},
		{"travel", "{bump: 70, droop: 60}", "", true, sectionCodec{sec: &j.Travel, flow: true}},
		{"rack", "{left: 62, right: 62}", "", false, sectionCodec{sec: &j.Rack, flow: true,
			mayLack: func() bool { return j.Axle == Rear && j.Rack == Rack{} }}},
		{"wheelbase", "2540", "", false, optionalCodec{&j.Wheelbase}},
		{"steering", "{rack_per_turn: 45, wheel_diameter: 360}", "", false, sectionCodec{sec: &j.Steering, flow: true, lacks: func() bool { return !j.Steering.Any() }}},
		{"corner_weight", "350 kg", "", false, weightCodec{&j.CornerWeight}},
		{"brake", "{diameter: 330, gap: 5}", "", false, sectionCodec{sec: &j.Brake, flow: true, lacks: func() bool { return !j.Brake.Any() }}},
		{"housings", "{outer_end: 32, lower_ball: 44, upper_ball: 44}", "", false, sectionCodec{sec: &j.Housings, flow: true, lacks: func() bool { return !j.Housings.Any() }}},
		{"joint_limits", "{upper_ball: 25, lower_ball: 25, outer_end: 20, rack_end: 20}", "", false, sectionCodec{sec: &j.JointLimits, flow: true, lacks: func() bool { return !j.JointLimits.Any() }}},
		{"targets", "", "what you aim at, such as 'scrub_radius: {min: 5, max: 30}'", false, sectionCodec{sec: &j.Targets,
			lacks: func() bool { return !j.Targets.Any() }}},
		{"spacers", "{stock: [1, 1.5, 2, 3, 5, 10], tallest: 20}", "", false, sectionCodec{sec: &j.Spacers, lacks: func() bool { return !j.Spacers.Any() }}},
		{"toe_gauge", "{width: 18 in, reads_within: 0.05}", "", false, sectionCodec{sec: &j.ToeGauge, flow: true, lacks: func() bool { return !j.ToeGauge.Any() }}},
		{"adjusters", "", "each adjuster, from '- name: upper front rod end' on", false, listCodec[Adjuster]{to: &j.Adjusters, most: MaxAdjusters, what: "adjusters", item: adjusterItem{}}},
		{"obstacles", "", "each obstacle, from '- name: inner wing' on", false, listCodec[Obstacle]{to: &j.Obstacles, most: MaxObstacles, what: "obstacles", item: obstacleItem{}}},
		{"wheels", "", "each wheel that can be had, from '- {name: 15 x 6 in' on", false, listCodec[WheelChoice]{to: &j.Wheels, most: MaxWheels, what: "wheels", item: wheelItem{}}},
		{"photo", "", "file, and what places the picture", false, photoCodec{&j.Photo}},
		{"variants", "", "each variant, from '- name: as measured' on", true, variantsCodec{&j.Variants}},
	}
}

// check asks for a rack where the wheels are steered.
func (j *Job) check(r *reader, at string, line int, has func(string) bool) {
	if j.Axle == Front && !has("rack") {
		r.missingKey(line, at, j, "rack")
	}
}

func (t *Travel) fields() []field {
	return []field{
		{"bump", "70", "", true, lengthCodec{to: &t.Bump}},
		{"droop", "60", "", true, lengthCodec{to: &t.Droop}},
		{"assumed", "[bump]", "", false, sidesCodec{&t.Assumed, [2]string{"bump", "droop"}}},
	}
}

func (k *Rack) fields() []field {
	return []field{
		{"left", "62", "", true, lengthCodec{to: &k.Left}},
		{"right", "62", "", true, lengthCodec{to: &k.Right}},
		{"assumed", "[left]", "", false, sidesCodec{&k.Assumed, [2]string{"left", "right"}}},
	}
}

func (v *Variant) fields() []field {
	return []field{
		{"name", "as measured", "", true, textCodec{to: &v.Name}},
		{"notes", "what was done", "", false, textCodec{to: &v.Notes, mayLack: true}},
		{"measured_within", "0.5", "", false, optionalCodec{&v.MeasuredWithin}},
		{"upper_arm", "", "front_pivot, rear_pivot and ball_joint", true, sectionCodec{sec: &v.UpperArm}},
		{"lower_arm", "", "front_pivot, rear_pivot and ball_joint", true, sectionCodec{sec: &v.LowerArm}},
		{"tie_rod", "", "rack_end and outer_end", true, sectionCodec{sec: &v.TieRod}},
		{"hub", "{y: 762, z: 315}", "", true, sectionCodec{sec: &hubPlace{v}, flow: true}},
		{"camber", "-1.5", "", true, degreesCodec{to: &v.Camber}},
		{"camber_within", "0.4", "", false, degreesCodec{to: &v.CamberWithin, mayLack: true}},
		{"toe", "0.05", "", true, toeCodec{v}},
		{"toe_within", "0.05", "", false, degreesCodec{to: &v.ToeWithin, mayLack: true}},
		{"track", "1548", "", false, optionalCodec{&v.Track}},
		{"wheel", "{tyre: 205/65R15, rim_width: 6 in, offset: 18}", "", true, sectionCodec{sec: &v.Wheel, flow: true}},
		{"spring", "", "carried_by, moving_end and body_end", false, sectionCodec{sec: &v.Spring,
			lacks: func() bool { return v.Spring.CarriedBy == kinematics.NoSpring }}},
		{"assumed", "[hub.y, camber]", "", false, assumedCodec{v}},
		{"picked_together", "", "each error, as '- {name: scale, moves: {hub.z: 2.4}}'", false, listCodec[Together]{to: &v.Together, most: kinematics.MostTogether, what: "errors", item: togetherItem{v}}},
		{"stack", "{under: [2, 0.5]}", "", false, sectionCodec{sec: &v.Stack, flow: true, lacks: func() bool { return len(v.Stack.Pieces) == 0 }}},
		{"fitted_to", "", "each reading, as '- {travel: -40, toe: 0.31, side: left}'", false, listCodec[ToeReading]{to: &v.FittedTo, most: MaxReadings, what: "toe readings", item: toeReadingItem{}}},
		{"toe_readings", "", "each reading, as '- {travel: -40, toe: 0.31, side: left}'", false, listCodec[ToeReading]{to: &v.ToeReadings, most: MaxReadings, what: "toe readings", item: toeReadingItem{}}},
	}
}

func (a *Arm) fields() []field {
	return []field{
		{"pivot", "{y: 330, z: 210}", "", false, pivotCodec{sectionCodec{sec: &a.Front, flow: true, lacks: func() bool { return !a.Flat }}, a}},
		{"front_pivot", "{x: 110, y: 395, z: 470}", "", false, sectionCodec{sec: &a.Front, flow: true, lacks: func() bool { return a.Flat }}},
		{"rear_pivot", "{x: -120, y: 395, z: 462}", "", false, sectionCodec{sec: &a.Rear, flow: true, lacks: func() bool { return a.Flat }}},
		{"ball_joint", pointSample, "", true, sectionCodec{sec: &a.Ball, flow: true}},
	}
}

// check asks for one way of giving the pivots, and for all of it.
func (a *Arm) check(r *reader, at string, line int, has func(string) bool) {
	one, front, rear := has("pivot"), has("front_pivot"), has("rear_pivot")
	switch {
	case one && (front || rear):
		r.add(line, at, "", "pivot stands beside front_pivot or rear_pivot",
			"keep pivot for the short form with one front-view pivot, or the other two")
	case one || front && rear:
	case front:
		r.missingKey(line, at, a, "rear_pivot")
	case rear:
		r.missingKey(line, at, a, "front_pivot")
	default:
		r.add(line, at, "", "has no pivot",
			"add front_pivot and rear_pivot, or in the short form pivot: "+lengths("{y: 330, z: 210}", r.units))
	}
}

func (t *TieRod) fields() []field {
	return []field{
		{"rack_end", "{x: 118, y: 345, z: 232}", "", true, sectionCodec{sec: &t.RackEnd, flow: true}},
		{"outer_end", "{x: 126, y: 690, z: 214}", "", true, sectionCodec{sec: &t.OuterEnd, flow: true}},
	}
}

func (w *Wheel) fields() []field {
	return []field{
		{"tyre", "205/65R15", "", true, textCodec{to: &w.Tyre}},
		{"rim_width", "6 in", "", true, lengthCodec{to: &w.RimWidth}},
		{"offset", "20", "", true, lengthCodec{to: &w.Offset}},
		{"spacer", "0", "", false, lengthCodec{to: &w.Spacer, mayLack: true}},
		{"loaded_radius", "312", "", false, optionalCodec{&w.LoadedRadius}},
		{"radius_tyre", "205/65R15", "", false, textCodec{to: &w.RadiusTyre, mayLack: true}},
	}
}

func (s *Spring) fields() []field {
	return []field{
		{"carried_by", "lower_arm", "", true, wordCodec[kinematics.Carrier]{&s.CarriedBy, carrierWords}},
		{"moving_end", "{x: -22, y: 566, z: 224}", "", true, sectionCodec{sec: &s.Moving, flow: true}},
		{"body_end", "{x: -30, y: 456, z: 560}", "", true, sectionCodec{sec: &s.Body, flow: true}},
	}
}

func (p *Position) fields() []field {
	return []field{
		{"x", "4", "", false, lengthCodec{to: &p.X, mayLack: true}},
		{"y", "705", "", true, lengthCodec{to: &p.Y}},
		{"z", "196", "", true, lengthCodec{to: &p.Z}},
		{"within", "3", "", false, withinCodec{&p.Within}},
	}
}

// word is a value that the file spells out.
type word[T comparable] struct {
	value T
	text  string
}

var (
	axleWords    = []word[Axle]{{Front, "front"}, {Rear, "rear"}}
	unitWords    = []word[units.Unit]{{units.Millimetre, "mm"}, {units.Inch, "in"}}
	carrierWords = []word[kinematics.Carrier]{{kinematics.OnLowerArm, "lower_arm"},
		{kinematics.OnUpperArm, "upper_arm"}, {kinematics.OnUpright, "upright"}}
)

// wordOf returns how the file spells a value, or "" for one it has no word for.
func wordOf[T comparable](words []word[T], value T) string {
	for _, w := range words {
		if w.value == value {
			return w.text
		}
	}
	return ""
}
