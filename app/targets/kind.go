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
}

var about = func() [Count]About {
	list := [Count]About{
		ScrubRadius:        {"scrub_radius", "Scrub radius", kinematics.ScrubRadius, "at rest", false, 0},
		CamberGain:         {"camber_gain", "Camber gain at rest", kinematics.CamberGain, "at rest", false, 0},
		RideToe:            {"ride_toe", "Toe change over travel", kinematics.Toe, "change", true, 0},
		RollCentreHeight:   {"roll_centre_height", "Roll centre height", kinematics.RollCentreHeight, "at rest", false, 0},
		RollCentreMovement: {"roll_centre_movement", "Roll centre movement over travel", kinematics.RollCentreHeight, "movement", true, 0},
		SwingArm:           {"swing_arm", "Swing arm", kinematics.SwingArm, "at rest", false, 0},
		Track:              {"track", "Track", kinematics.HalfTrack, "track", false, 0},
		Camber:             {"camber", "Camber at rest", kinematics.Camber, "at rest", false, 0},
		Caster:             {"caster", "Caster", kinematics.Caster, "at rest", false, 0},
		MotionRatio:        {"motion_ratio", "Motion ratio", kinematics.MotionRatio, "at rest", false, 0},
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
	switch k {
	case ScrubRadius:
		return lengths(t.ScrubRadius)
	case RollCentreHeight:
		return lengths(t.RollCentreHeight)
	case SwingArm:
		return lengths(t.SwingArm)
	case Track:
		return lengths(t.Track)
	case Camber:
		return angles(t.Camber)
	case Caster:
		return angles(t.Caster)
	case MotionRatio:
		r := t.MotionRatio
		return Range{Min: r.Min.Value, Max: r.Max.Value, HasMin: r.Min.Given, HasMax: r.Max.Given}, r.Given()
	case CamberGain:
		r := t.CamberGain
		return Range{Min: r.Min.PerMM(), Max: r.Max.PerMM(), HasMin: r.Min.Given, HasMax: r.Max.Given}, r.Given()
	case RideToe:
		a := t.RideToe
		return Range{Max: a.Max.Radians(), HasMax: true, Bump: a.Over.Bump.MM, Droop: a.Over.Droop.MM}, a.Given()
	case RollCentreMovement:
		a := t.RollCentreMovement
		return Range{Max: a.Max.MM, HasMax: true, Bump: a.Over.Bump.MM, Droop: a.Over.Droop.MM}, a.Given()
	}
	panic(fmt.Sprintf("targets: no target %d", k))
}

func lengths(r job.LengthRange) (Range, bool) {
	return Range{Min: r.Min.MM, Max: r.Max.MM, HasMin: r.Min.Given, HasMax: r.Max.Given}, r.Given()
}

func angles(r job.AngleRange) (Range, bool) {
	return Range{Min: r.Min.Radians(), Max: r.Max.Radians(), HasMin: r.Min.Given, HasMax: r.Max.Given}, r.Given()
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
