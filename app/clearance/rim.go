package clearance

import (
	"errors"
	"strings"

	"armscribe/app/job"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

// Housing is that of a joint on the upright, across, mm.
type Housing struct {
	Size    float64
	Assumed bool // the job states none
}

// HousingsOf are the housings of outer end, lower and upper ball joint. Where the
// job states none, usual sizes of a tie rod's end and of a ball joint for a
// passenger car are taken. Common practice, no source.
func HousingsOf(j *job.Job) [3]Housing {
	const rodEnd, ball = 32, 44
	h := &j.Housings
	var list [3]Housing
	for i, o := range [...]struct {
		stated  job.Optional
		assumed float64
	}{{h.OuterEnd, rodEnd}, {h.LowerBall, ball}, {h.UpperBall, ball}} {
		if list[i] = (Housing{o.assumed, true}); o.stated.Given {
			list[i] = Housing{o.stated.MM, false}
		}
	}
	return list
}

// Rim is how what stands inside the barrel stands to it. The barrel is an
// estimate from the tyre's code: see RingOf.
type Rim struct {
	Barrel float64 // inside diameter, mm
	// Joints are the outer end, the lower and the upper ball joint, as HousingsOf
	// has them.
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
// corner as it is held. Errors match ErrNoTyre or are those of RingOf.
func RimOf(j *job.Job, variant int, m *kinematics.Mechanism) (Rim, error) {
	r := Rim{OffsetErr: offsetFits(&j.Variants[variant])}
	c := m.Corner()
	around, err := CaseOf(j, variant, c.Hub)
	if err != nil {
		return r, err
	}
	r.Barrel = around.Ring.Barrel
	h := HousingsOf(j)
	q := Query{Corner: c, Case: around}
	q.Case.Obstacles = clearance.JointsInRim(&c, h[0].Size/2, h[1].Size/2, h[2].Size/2, clearance.WishInRim)
	r.Joints, _ = gaps(m, &q, false) // they do not move against the rim: coarse is exact
	if j.Axle == job.Rear {
		for i := range r.Joints {
			o := &r.Joints[i].Obstacle
			o.Name = strings.Replace(o.Name, "tie-rod", "toe-link", 1)
		}
	}
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
