package room

import (
	"errors"

	"armscribe/app/job"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

// Housings are those of the joints on the upright, across, mm.
type Housings struct{ OuterEnd, LowerBall, UpperBall float64 }

// AssumedHousings are taken where nothing is typed: usual sizes of a tie rod's
// end and of a ball joint for a passenger car. Common practice, no source.
var AssumedHousings = Housings{OuterEnd: 32, LowerBall: 44, UpperBall: 44}

// Rim is how what stands inside the barrel stands to it. The barrel is an
// estimate from the tyre's code: see RingOf.
type Rim struct {
	Barrel float64 // inside diameter, mm
	// Joints are the outer end, the lower and the upper ball joint.
	Joints []Gap
	// Brake is what is left all round the brake, mm; only if HasBrake. BrakeErr
	// is a *tyre.FitError where it does not pass with its gap, or is no brake.
	Brake, BrakeWish float64
	HasBrake         bool
	BrakeErr         error
	// OffsetErr is a *tyre.FitError where the mounting face lies outside the rim.
	OffsetErr error
}

// RimOf looks into the rim of one variant of a job without problems, with its
// corner as it is held. Errors match ErrNoTyre, are those of RingOf, or of a corner that
// makes no mechanism.
func RimOf(j *job.Job, variant int, c *kinematics.Corner, h Housings) (Rim, error) {
	r := Rim{OffsetErr: offsetFits(&j.Variants[variant])}
	around, err := CaseOf(j, variant, c.Hub)
	if err != nil {
		return r, err
	}
	m, err := kinematics.New(c)
	if err != nil {
		return r, err
	}
	r.Barrel = around.Ring.Barrel
	q := Query{Corner: *c, Case: around}
	q.Case.Obstacles = clearance.JointsInRim(c, h.OuterEnd/2, h.LowerBall/2, h.UpperBall/2, clearance.WishInRim)
	r.Joints, _ = gaps(&m, &q, false) // they do not move against the rim: coarse is exact
	r.brake(&j.Brake)
	return r, nil
}

// WheelFit is the part of RimOf that a wheel decides by itself: how brake and
// offset stand, without any joint. Without a tyre and rim that can be read the
// barrel is 0 and nothing is said of the brake.
func WheelFit(j *job.Job, v *job.Variant) Rim {
	r := Rim{OffsetErr: offsetFits(v)}
	body, ok := TyreOf(v)
	if !ok {
		return r
	}
	if ring, err := RingOf(v, body); err == nil {
		r.Barrel = ring.Barrel
		r.brake(&j.Brake)
	}
	return r
}

func (r *Rim) brake(b *job.Brake) {
	if !b.Diameter.Given {
		return
	}
	r.HasBrake, r.BrakeWish = true, clearance.WishInRim
	if b.Gap.Given {
		r.BrakeWish = b.Gap.MM
	}
	r.Brake = (r.Barrel - b.Diameter.MM) / 2
	r.BrakeErr = tyre.CheckBrake(r.Barrel, b.Diameter.MM, r.BrakeWish)
}

// offsetFits is nil where the mounting face lies within the rim, or where the
// wheel is none at all, which RimOf says itself.
func offsetFits(v *job.Variant) error {
	w, err := tyre.NewWheel(v.Wheel.RimWidth.MM, v.Wheel.Offset.MM)
	if err != nil {
		return nil
	}
	err = w.CheckOffset()
	if errors.Is(err, tyre.ErrFit) {
		return err
	}
	return nil
}
