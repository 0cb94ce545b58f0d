package job_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// beyond is the number next to a limit, away from nought and toward it.
func beyond(v float64) float64 { return math.Nextafter(v, math.Copysign(math.Inf(1), v)) }
func within(v float64) float64 { return math.Nextafter(v, 0) }

// A limit itself is taken, and the number next to it beyond is refused, once and by
// its key.
func TestLimitsAreTaken(t *testing.T) {
	mm := func(v float64) units.Length { return units.Length{MM: v} }
	copies := func(n int) (names []string) {
		for i := range n {
			names = append(names, fmt.Sprint("no ", i))
		}
		return names
	}
	for key, c := range map[string]func(j *job.Job, beyond bool){
		"adjusters": func(j *job.Job, b bool) {
			a := j.Adjusters[0]
			j.Adjusters = nil
			for _, name := range copies(job.MaxAdjusters + one(b)) {
				a.Name = name
				j.Adjusters = append(j.Adjusters, a)
			}
		},
		"obstacles": func(j *job.Job, b bool) {
			o := j.Obstacles[0]
			j.Obstacles = nil
			for _, name := range copies(job.MaxObstacles + one(b)) {
				o.Name = name
				j.Obstacles = append(j.Obstacles, o)
			}
		},
		"wheels": func(j *job.Job, b bool) {
			w := j.Wheels[0]
			j.Wheels = nil
			for _, name := range copies(job.MaxWheels + one(b)) {
				w.Name = name
				j.Wheels = append(j.Wheels, w)
			}
		},
		"spacers.stock": func(j *job.Job, b bool) {
			j.Spacers.Stock = slices.Repeat([]job.Stock{{Thickness: mm(2)}}, job.MaxStock+one(b))
		},
		"spacers.stock[0].count": func(j *job.Job, b bool) { j.Spacers.Stock[0].Count = 1000 + one(b) },
		"spacers.longest_bolt": func(j *job.Job, b bool) {
			j.Spacers.Grip, j.Spacers.LongestBolt = job.Given(mm(40)), job.Given(mm(pick(b, within(40), 40)))
		},
		"variants[0].stack.under": func(j *job.Job, b bool) {
			j.Variants[0].Stack = job.Stack{Pieces: slices.Repeat([]units.Length{mm(1)}, job.MaxPieces+one(b))}
		},
		"variants[0].toe_readings": func(j *job.Job, b bool) {
			j.Variants[0].ToeReadings = slices.Repeat(j.Variants[0].ToeReadings[:1], job.MaxReadings+one(b))
		},
		"variants[0].camber_within": func(j *job.Job, b bool) { j.Variants[0].CamberWithin = job.Degrees(pick(b, beyond(10), 10)) },
		"variants[0].toe_within":    func(j *job.Job, b bool) { j.Variants[0].ToeWithin = job.Degrees(pick(b, beyond(10), 10)) },
		"variants[0].camber": func(j *job.Job, b bool) {
			j.Variants[0].Camber = job.DegreesOf(kinematics.MaxStaticAngle)
			for b && j.Variants[0].Camber.Radians() <= kinematics.MaxStaticAngle {
				j.Variants[0].Camber = job.Degrees(beyond(float64(j.Variants[0].Camber)))
			}
		},
		"travel.bump":     func(j *job.Job, b bool) { j.Travel.Bump = mm(pick(b, beyond(units.MaxLength), units.MaxLength)) },
		"travel.droop":    func(j *job.Job, b bool) { j.Travel.Droop = mm(pick(b, beyond(units.MaxLength), units.MaxLength)) },
		"rack.left":       func(j *job.Job, b bool) { j.Rack.Left = mm(pick(b, beyond(units.MaxLength), units.MaxLength)) },
		"rack.right":      func(j *job.Job, b bool) { j.Rack.Right = mm(pick(b, math.Nextafter(0, -1), 0)) },
		"measured_within": func(j *job.Job, b bool) { j.MeasuredWithin = mm(pick(b, beyond(job.MaxWithin), job.MaxWithin)) },
		"variants[0].measured_within": func(j *job.Job, b bool) {
			j.Variants[0].MeasuredWithin = job.Given(mm(pick(b, math.Nextafter(0, -1), 0)))
		},
		"variants[0].wheel.spacer": func(j *job.Job, b bool) {
			j.Variants[0].Wheel.Spacer = mm(pick(b, beyond(units.MaxLength), units.MaxLength))
		},
		"variants": func(j *job.Job, b bool) {
			v := j.Variants[0]
			j.Variants = nil
			for _, name := range copies(job.MaxVariants + one(b)) {
				v.Name = name
				j.Variants = append(j.Variants, v)
			}
		},
		"variants[0].notes": func(j *job.Job, b bool) { j.Variants[0].Notes = strings.Repeat("n", job.MaxNotes+one(b)) },
		"variants[0].name":  func(j *job.Job, b bool) { j.Variants[0].Name = strings.Repeat("n", job.MaxName+one(b)) },
		"name":              func(j *job.Job, b bool) { j.Name = strings.Repeat("ä", job.MaxName+one(b)) },
		"wheelbase":         func(j *job.Job, b bool) { j.Wheelbase = job.Given(mm(pick(b, within(1), 1))) },
		"corner_weight": func(j *job.Job, b bool) {
			j.CornerWeight = job.Kilograms(pick(b, beyond(job.MaxWeight), job.MaxWeight))
		},
		"joint_limits.rack_end":  func(j *job.Job, b bool) { j.JointLimits.RackEnd = angleOf(pick(b, beyond(90), 90)) },
		"joint_limits.outer_end": func(j *job.Job, b bool) { j.JointLimits.OuterEnd = angleOf(pick(b, 0, math.SmallestNonzeroFloat64)) },
		"adjusters[0].thread.pitch": func(j *job.Job, b bool) {
			th := &j.Adjusters[0].Thread
			th.Pitch, th.Diameter = mm(pick(b, beyond(12), 12)), mm(12)
		},
		"adjusters[2].now": func(j *job.Job, b bool) {
			j.Adjusters[2] = job.Adjuster{Name: "cam", Kind: job.Eccentric, Pivot: job.LowerRearPlace, Direction: job.Direction{Y: 1}, Throw: mm(6), Now: mm(pick(b, beyond(-6), -6))}
		},
		"obstacles[0].to": func(j *job.Job, b bool) {
			o := &j.Obstacles[0]
			o.Shape, o.At, o.To = job.LineShape, job.At(kinematics.Vec{Y: 400, Z: 300}), job.At(kinematics.Vec{Y: 400, Z: 300 + kinematics.MinSpan})
			if b {
				o.To.Z.MM = within(o.To.Z.MM)
			}
		},
		"toe_gauge.reads_within": func(j *job.Job, b bool) {
			j.ToeGauge.ReadsWithin = angleOf(pick(b, beyond(float64(job.MaxReadsWithin)), float64(job.MaxReadsWithin)))
		},
		"targets.scrub_radius": func(j *job.Job, b bool) {
			j.Targets.ScrubRadius = job.LengthRange{Min: job.Given(mm(pick(b, beyond(12), 12))), Max: job.Given(mm(12))}
		},
		"targets.camber": func(j *job.Job, b bool) {
			j.Targets.Camber = job.AngleRange{Min: angleOf(pick(b, beyond(2), 2)), Max: angleOf(2)}
		},
		"targets.camber_gain": func(j *job.Job, b bool) {
			j.Targets.CamberGain = job.SlopeRange{Min: slopeOf(pick(b, beyond(0.02), 0.02)), Max: slopeOf(0.02)}
		},
		"targets.camber_gain.max": func(j *job.Job, b bool) { j.Targets.CamberGain = job.SlopeRange{Max: slopeOf(pick(b, 1+1e-12, 1))} },
		"targets.motion_ratio": func(j *job.Job, b bool) {
			j.Targets.MotionRatio = job.RatioRange{Min: ratioOf(pick(b, beyond(0.6), 0.6)), Max: ratioOf(0.6)}
		},
		"targets.motion_ratio.max": func(j *job.Job, b bool) { j.Targets.MotionRatio = job.RatioRange{Max: ratioOf(pick(b, beyond(5), 5))} },
		"targets.motion_ratio.min": func(j *job.Job, b bool) {
			j.Targets.MotionRatio = job.RatioRange{Min: ratioOf(pick(b, 0, math.SmallestNonzeroFloat64))}
		},
		"targets.ride_toe.max": func(j *job.Job, b bool) {
			j.Targets.RideToe.Over = job.Travel{Bump: mm(40), Droop: mm(40)}
			j.Targets.RideToe.Max = angleOf(pick(b, beyond(job.MaxTargetAngle), job.MaxTargetAngle))
		},
		"photo.opacity":            func(j *job.Job, b bool) { j.Photo.Opacity = pick(b, beyond(1), 1) },
		"photo.opacity (least)":    func(j *job.Job, b bool) { j.Photo.Opacity = pick(b, math.Nextafter(0, -1), 0) },
		"photo.calibration.within": func(j *job.Job, b bool) { j.Photo.Calibration.Within = pick(b, beyond(job.MaxPixel), job.MaxPixel) },
		"photo.calibration": func(j *job.Job, b bool) {
			j.Photo.Calibration.B = job.Pixel{X: j.Photo.Calibration.A.X + pick(b, 1.5, 2), Y: j.Photo.Calibration.A.Y}
		},
		"photo.calibration.a.x":       func(j *job.Job, b bool) { j.Photo.Calibration.A.X = pick(b, beyond(-job.MaxPixel), -job.MaxPixel) },
		"variants[0].wheel.offset":    func(j *job.Job, b bool) { j.Variants[0].Wheel.Offset = mm(pick(b, beyond(-300), -300)) },
		"obstacles[0].angles (from)":  func(j *job.Job, b bool) { arc(j, pick(b, beyond(-720), -720), -700) },
		"obstacles[0].angles (to)":    func(j *job.Job, b bool) { arc(j, 700, pick(b, beyond(720), 720)) },
		"obstacles[0].angles (least)": func(j *job.Job, b bool) { arc(j, 10, 10+pick(b, 0.999, 1)) },
		"obstacles[0].angles (most)":  func(j *job.Job, b bool) { arc(j, 0, pick(b, 350.001, 350)) },
	} {
		for _, b := range []bool{false, true} {
			j := everything(t)
			if !j.Photo.Calibration.Given {
				j.Photo = job.Photo{File: "left.png", Opacity: 0.5, Calibration: job.Calibration{Given: true, A: job.Pixel{X: 10, Y: 20}, B: job.Pixel{X: 700, Y: 30}, Distance: mm(400)}}
			}
			c(j, b)
			p := j.Problems()
			want, _, _ := cut(key)
			switch {
			case !b && len(p) > 0:
				t.Errorf("%s at its limit: %v", key, p)
			case b && (len(p) != 1 || p[0].Key != want):
				t.Errorf("%s beyond its limit: %v", key, p)
			}
		}
	}
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func pick(yes bool, a, b float64) float64 {
	if yes {
		return a
	}
	return b
}

func cut(key string) (name, more string, ok bool) { return strings.Cut(key, " (") }

func angleOf(d float64) job.OptionalDegrees {
	return job.OptionalDegrees{Degrees: job.Degrees(d), Given: true}
}

func slopeOf(d float64) job.OptionalSlope {
	return job.OptionalSlope{Slope: job.Slope{Degrees: job.Degrees(d), Per: units.Millimetre}, Given: true}
}

func ratioOf(v float64) job.OptionalRatio { return job.OptionalRatio{Value: v, Given: true} }

func arc(j *job.Job, from, to float64) {
	o := &j.Obstacles[0]
	o.Shape, o.Radius, o.Facing, o.Angles = job.ArcShape, units.Length{MM: 340}, job.Direction{Y: 1}, job.Angles{From: job.Degrees(from), To: job.Degrees(to)}
}
