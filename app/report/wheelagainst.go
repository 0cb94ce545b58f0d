package report

import (
	"math"
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/units"
	swept "armscribe/kinematics/clearance"
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
		s.Brake, s.BrakeGap = j.Brake.Diameter.MM, swept.WishInRim
		if j.Brake.Gap.Given {
			s.BrakeGap = j.Brake.Gap.MM
		}
	}
	return s
}

// wheelWay says in plain words how one length moves: more when it grows, less
// when it shrinks.
type wheelWay struct{ key, more, less string }

// wheelWays are the lengths that a builder asks for first; where the wheel stands to
// the parts around it is said by its gaps.
var wheelWays = []wheelWay{
	{"overall_diameter_mm", "tyre % taller", "tyre % lower"},
	{"loaded_radius_mm", "wheel centre % higher above the ground", "wheel centre % lower above the ground"},
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

// WheelGaps judge a wheel on a variant of a job without problems by the gaps to all
// that it must not meet.
func WheelGaps(j *job.Job, variant int, w job.Wheel) clearance.Judgement {
	next := j.Clone()
	v := &next.Variants[variant]
	v.Wheel = w
	c := v.Corner()
	return clearance.JudgementOf(next, variant, &c)
}

// GapWords name every part with its gap, the worst first.
func GapWords(of *clearance.Judgement, u units.Unit) string {
	if of.Err != nil {
		return clearance.NotKnown + ": " + strings.TrimPrefix(oneLine(of.Err.Error()), "clearance ")
	}
	parts := make([]string, len(of.Items))
	for i := range parts {
		parts[i] = of.Items[i].Short(u)
	}
	text := "gaps over travel and rack: " + strings.Join(parts, "; ")
	if of.Stated == 0 {
		text += "; of wing and body nothing is known, for the job states no obstacles"
	}
	return text
}
