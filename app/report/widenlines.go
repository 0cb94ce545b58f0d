package report

import (
	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/targets"
	"armscribe/kinematics/widen"
)

// widenLine describes one measure of a comparison.
type widenLine struct {
	measure   widen.Measure
	key, name string
	kind      sheet.Kind
	steered   bool // only where the axle is steered
	sense     figures.Sense
	pulls     bool // its sign is felt: the wheel pulls the other way
}

// widenPart is a heading and its measures.
type widenPart struct {
	name  string
	lines []widenLine
}

// widenParts are the measures under their headings.
var widenParts = []widenPart{
	{"Track and steering axis", []widenLine{
		{widen.HalfTrack, "half_track", "half track", sheet.Taped, false, figures.Wished, false},
		{widen.Face, "tyre_face", "tyre's outer face from the centre", sheet.Taped, false, figures.Wished, false},
		{widen.ScrubRadius, "scrub_radius", "scrub radius", sheet.Taped, false, figures.Less, true},
		{widen.SwingFront, "swing_front", "swing of the tyre, front", sheet.Taped, true, figures.Less, false},
		{widen.SwingRear, "swing_rear", "swing of the tyre, rear", sheet.Taped, true, figures.Less, false},
	}},
	{"Suspension", []widenLine{
		{widen.CamberGain, "camber_gain", "camber gain", sheet.Slope, false, figures.NoSense, false},
		{widen.RollCentre, "roll_centre_height", "roll centre height", sheet.Taped, false, figures.NoSense, false},
		{widen.MotionRatio, "motion_ratio", "motion ratio, spring / wheel", sheet.Ratio, false, figures.NoSense, false},
		{widen.SpringForce, "spring_force", "force in the spring", sheet.Force, false, figures.NoSense, false},
	}},
	{"Toe over bumps", []widenLine{
		{widen.RideToeRate, "ride_toe", "ride toe at rest", sheet.Slope, false, figures.Less, false},
		{widen.RideToeMost, "toe_change", "largest change, rod lengthened", sheet.Angle, false, figures.Less, false},
		{widen.RideToeRodKept, "toe_change_rod_kept", "largest change, old rod, wider rack", sheet.Angle, false, figures.Less, false},
		{widen.RideToeRefitted, "toe_change_refitted", "largest change, rack end refitted", sheet.Angle, false, figures.Less, false},
	}},
	{"Parking", []widenLine{
		{widen.ParkingMoment, "parking_moment", "about the steering axis, left", sheet.Moment, true, figures.Less, false},
		{widen.ParkingRack, "parking_rack", "rack", sheet.Force, true, figures.Less, false},
		{widen.ParkingPull, "parking_pull", "pull at the steering wheel", sheet.Force, true, figures.Less, false},
	}},
	{"Braking, less grip on the right", []widenLine{
		{widen.BrakingMoment, "braking_moment", "about the steering axis, left", sheet.Moment, false, figures.Less, true},
		{widen.BrakingRack, "braking_rack", "rack", sheet.Force, true, figures.Less, true},
		{widen.BrakingPull, "braking_pull", "pull at the steering wheel", sheet.Force, true, figures.Less, true},
	}},
	{"Bump under the left wheel", []widenLine{
		{widen.BumpMoment, "bump_moment", "about the steering axis, left", sheet.Moment, false, figures.Less, true},
		{widen.BumpRack, "bump_rack", "rack", sheet.Force, true, figures.Less, true},
		{widen.BumpPull, "bump_pull", "pull at the steering wheel", sheet.Force, true, figures.Less, true},
	}},
	{"Largest tilt of the joints from rest", []widenLine{
		{widen.UpperBallTilt, "upper_ball_tilt", "upper ball joint", sheet.Angle, false, figures.Less, false},
		{widen.LowerBallTilt, "lower_ball_tilt", "lower ball joint", sheet.Angle, false, figures.Less, false},
		{widen.OuterEndTilt, "outer_end_tilt", "outer tie-rod end", sheet.Angle, false, figures.Less, false},
		{widen.RackEndTilt, "rack_end_tilt", "inner tie-rod end", sheet.Angle, false, figures.Less, false},
	}},
}

// rearNames are those of a fixed toe link, which no rack moves.
var rearNames = map[widen.Measure]string{
	widen.RideToeMost: "largest change, link lengthened", widen.RideToeRodKept: "largest change, old link, inner end out",
	widen.RideToeRefitted: "largest change, inner end refitted", widen.RackEndTilt: "inner end of the link", widen.OuterEndTilt: "outer end of the link",
}

// nameOf is the name of a measure on this axle.
func (w *Widened) nameOf(l *widenLine) string {
	if name, ok := rearNames[l.measure]; ok && w.Source.Rear {
		return name
	}
	return l.name
}

var limitWord = map[LimitVerdict]string{LimitKept: "within", LimitPassed: "over", LimitOpen: "open"}

// parts are the headings and lines that this axle has.
func (w *Widened) parts() []widenPart {
	var list []widenPart
	for _, p := range widenParts {
		part := widenPart{name: p.name}
		for _, l := range p.lines {
			if !(l.steered && w.Source.Rear) {
				part.lines = append(part.lines, l)
			}
		}
		if len(part.lines) > 0 {
			list = append(list, part)
		}
	}
	return list
}

// targetsOf are what the job aims at in measures at rest.
func targetsOf(t *job.Targets) map[widen.Measure]targets.Range {
	list := map[widen.Measure]targets.Range{}
	for measure, k := range map[widen.Measure]targets.Kind{widen.ScrubRadius: targets.ScrubRadius, widen.CamberGain: targets.CamberGain, widen.RollCentre: targets.RollCentreHeight} {
		if r, ok := targets.Asked(t, k); ok {
			list[measure] = r
		}
	}
	return list
}
