package targets

import (
	"fmt"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/kinematics"
)

// Kind names a target.
type Kind uint8

// The targets, in the order of the job file.
const (
	ScrubRadius Kind = iota
	CamberGain
	RideToe
	RollCentreHeight
	RollCentreMovement
	SwingArm
	Track
	Camber
	Caster
	MotionRatio
	Count
)

// About describes a target.
type About struct {
	Key  string // in the job file
	Name string
	// Of is the reading whose curve shows the target, and Brief what is said of it
	// under that reading.
	Of    kinematics.Quantity
	Brief string
	// Over tells that it holds over a travel, and is about how much the reading
	// changes there.
	Over bool
	Kind sheet.Kind
	// In finds what is asked in a job's targets.
	In func(t *job.Targets) Ends
}

// Ends are the values of a target: each a *job.Optional, *job.OptionalDegrees,
// *job.OptionalSlope or *job.OptionalRatio. Over is nil for one at rest, and Min for
// one over a travel.
type Ends struct {
	Min, Max any
	Over     *job.Travel
}

var about = func() [Count]About {
	list := [Count]About{
		ScrubRadius: {Key: "scrub_radius", Name: "Scrub radius", Of: kinematics.ScrubRadius, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.ScrubRadius.Min, &t.ScrubRadius.Max, nil} }},
		CamberGain: {Key: "camber_gain", Name: "Camber gain at rest", Of: kinematics.CamberGain, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.CamberGain.Min, &t.CamberGain.Max, nil} }},
		RideToe: {Key: "ride_toe", Name: "Toe change over travel", Of: kinematics.Toe, Brief: "change", Over: true,
			In: func(t *job.Targets) Ends { return Ends{nil, &t.RideToe.Max, &t.RideToe.Over} }},
		RollCentreHeight: {Key: "roll_centre_height", Name: "Roll centre height", Of: kinematics.RollCentreHeight, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.RollCentreHeight.Min, &t.RollCentreHeight.Max, nil} }},
		RollCentreMovement: {Key: "roll_centre_movement", Name: "Roll centre movement over travel", Of: kinematics.RollCentreHeight, Brief: "movement", Over: true,
			In: func(t *job.Targets) Ends { return Ends{nil, &t.RollCentreMovement.Max, &t.RollCentreMovement.Over} }},
		SwingArm: {Key: "swing_arm", Name: "Swing arm", Of: kinematics.SwingArm, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.SwingArm.Min, &t.SwingArm.Max, nil} }},
		Track: {Key: "track", Name: "Track", Of: kinematics.HalfTrack, Brief: "track",
			In: func(t *job.Targets) Ends { return Ends{&t.Track.Min, &t.Track.Max, nil} }},
		Camber: {Key: "camber", Name: "Camber at rest", Of: kinematics.Camber, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.Camber.Min, &t.Camber.Max, nil} }},
		Caster: {Key: "caster", Name: "Caster", Of: kinematics.Caster, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.Caster.Min, &t.Caster.Max, nil} }},
		MotionRatio: {Key: "motion_ratio", Name: "Motion ratio", Of: kinematics.MotionRatio, Brief: "at rest",
			In: func(t *job.Targets) Ends { return Ends{&t.MotionRatio.Min, &t.MotionRatio.Max, nil} }},
	}
	for k := range list {
		list[k].Kind = figures.Of(list[k].Of).Kind
	}
	return list
}()

// About returns the words for the target.
func (k Kind) About() About {
	if k >= Count {
		panic(fmt.Sprintf("targets: no target %d", k))
	}
	return about[k]
}

// String returns the target's key in the job file.
func (k Kind) String() string { return k.About().Key }

// Range is what a target asks for, in mm, rad, rad/mm or a plain ratio. A side that is not
// given is open.
type Range struct {
	Min, Max       float64
	HasMin, HasMax bool
	// Bump and Droop, mm, both counted from rest, are the travel over which it
	// is to hold; nought for what is asked at rest.
	Bump, Droop float64
}

// Asked returns what the job asks for, and false where it has no such target.
func Asked(t *job.Targets, k Kind) (Range, bool) {
	ends := k.About().In(t)
	var r Range
	r.Min, r.HasMin = value(ends.Min)
	r.Max, r.HasMax = value(ends.Max)
	if ends.Over != nil {
		r.Bump, r.Droop = ends.Over.Bump.MM, ends.Over.Droop.MM
	}
	return r, r.HasMin || r.HasMax
}

// value is an end in mm, rad, rad/mm or plain.
func value(of any) (float64, bool) {
	switch x := of.(type) {
	case *job.Optional:
		return x.MM, x.Given
	case *job.OptionalDegrees:
		return x.Radians(), x.Given
	case *job.OptionalSlope:
		return x.PerMM(), x.Given
	case *job.OptionalRatio:
		return x.Value, x.Given
	}
	return 0, false
}

// miss is how far a value lies outside the range; nought inside.
func (r Range) miss(v float64) float64 {
	switch {
	case r.HasMin && v < r.Min:
		return r.Min - v
	case r.HasMax && v > r.Max:
		return v - r.Max
	}
	return 0
}

// Shade is a target as it lies on the curve of a reading over travel.
type Shade struct {
	Kind     Kind
	Range    Range   // in the reading's own unit; of half the track for a track
	From, To float64 // mm of travel where it holds; both nought: at rest only
	// AboutRest: the range is to be laid about the reading's value at rest.
	AboutRest bool
}

// Shades lists the targets that the curve of a quantity shows.
func Shades(t *job.Targets, q kinematics.Quantity) []Shade {
	var list []Shade
	for k := range Count {
		r, ok := Asked(t, k)
		if !ok || about[k].Of != q {
			continue
		}
		s := Shade{Kind: k, Range: r, From: -r.Droop, To: r.Bump}
		switch k {
		case RideToe, RollCentreMovement:
			s.AboutRest, s.Range.Min, s.Range.HasMin = true, -r.Max, true
		case Track:
			s.Range.Min, s.Range.Max = r.Min/2, r.Max/2
		}
		list = append(list, s)
	}
	return list
}
