package report

import (
	"math"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

// WheelSpecOf is the wheel of a variant, and the brake that the job tells of.
// The tyre before, for the speedometer, is that of the measured variant where it
// has a size.
func WheelSpecOf(j *job.Job, variant int) WheelSpec {
	v := &j.Variants[variant]
	s := WheelSpec{Tyre: v.Wheel.Tyre, Rim: v.Wheel.RimWidth.MM, Offset: v.Wheel.Offset.MM, Spacer: v.Wheel.Spacer.MM,
		Hub: v.Hub.Y.MM, HasHub: true}
	if v.Wheel.LoadedRadius.Given {
		s.Loaded, s.RadiusFrom = v.Wheel.Loaded(), v.Wheel.LoadedFrom(j.Units)
	}
	if _, err := tyre.Parse(j.Variants[0].Wheel.Tyre); err == nil {
		s.Before = j.Variants[0].Wheel.Tyre
	}
	if j.Brake.Diameter.Given {
		s.Brake, s.BrakeGap = j.Brake.Diameter.MM, clearance.WishInRim
		if j.Brake.Gap.Given {
			s.BrakeGap = j.Brake.Gap.MM
		}
	}
	return s
}

// wheelWay says in plain words how one length moves: more when it grows, less
// when it shrinks.
type wheelWay struct{ key, more, less string }

// wheelWays are the lengths that a builder asks for first.
var wheelWays = []wheelWay{
	{"overall_diameter_mm", "tyre % taller", "tyre % lower"},
	{"loaded_radius_mm", "wheel centre % higher above the ground", "wheel centre % lower above the ground"},
	{"outer_side_wall_from_centre_mm", "tyre's outer face % farther out", "tyre's outer face % farther in"},
	{"inner_side_wall_from_centre_mm", "tyre's inner face % farther out", "tyre's inner face % nearer the chassis"},
	{"outer_lip_from_centre_mm", "outer lip % farther out", "outer lip % farther in"},
	{"inner_lip_from_hub_mm", "inner lip % farther from the upright", "inner lip % nearer the upright"},
	{"rim_inside_diameter_mm", "barrel % wider inside", "barrel % narrower inside"},
}

// likeWheel is a difference that no tape shows, mm.
const likeWheel = 0.05

// Against says in plain words how the wheel stands beside another, one fact a
// line; none where they are alike. Differences of estimates say so.
func (w *Wheel) Against(other *Wheel, u units.Unit) []string {
	var list []string
	for _, way := range wheelWays {
		a, b := w.Find(way.key), other.Find(way.key)
		if a == nil || b == nil || !a.Known || !b.Known {
			continue
		}
		d := a.MM - b.MM
		if math.Abs(d) < likeWheel {
			continue
		}
		text := way.more
		if d < 0 {
			text = way.less
		}
		text = fill(text, units.Taped.Length(math.Abs(d), u))
		if a.Estimate() || b.Estimate() {
			text += " (estimate)"
		}
		list = append(list, text)
	}
	return list
}
