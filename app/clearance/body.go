package clearance

import (
	"armscribe/app/job"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

// treadOfSection is the most of a section that its tread takes: a tread wider
// than a stretched section leaves room for is taken narrower. Common practice,
// no source.
const treadOfSection = 0.92

// TyreOf is the variant's tyre as a round-shouldered body, by its code and
// rim; ok is false where the code says too little.
func TyreOf(v *job.Variant) (body clearance.Tyre, ok bool) {
	t, err := tyre.Parse(v.Wheel.Tyre)
	if err != nil {
		return clearance.Tyre{}, false
	}
	wheel, err := tyre.NewWheel(v.Wheel.RimWidth.MM, v.Wheel.Offset.MM)
	if err != nil {
		return clearance.Tyre{}, false
	}
	section := tyre.Fit(t, wheel).SectionWidth
	tread := min(t.TreadFace().Value, treadOfSection*section)
	radius := t.Diameter() / 2
	body = clearance.Tyre{Radius: radius, Section: section, Tread: tread, Shoulder: t.Shoulder(section, tread), Widest: radius - t.SectionHeight()/2}
	return body, body.Validate() == nil
}

// RingOf is the rim about the brake, by the code of the tyre on it: its inside
// diameter is an estimate. Errors are those of package tyre, and a
// *clearance.RingError where rim and tyre do not belong together.
func RingOf(v *job.Variant, body clearance.Tyre) (clearance.Ring, error) {
	t, err := tyre.Parse(v.Wheel.Tyre)
	if err != nil {
		return clearance.Ring{}, err
	}
	wheel, err := tyre.NewWheel(v.Wheel.RimWidth.MM, v.Wheel.Offset.MM)
	if err != nil {
		return clearance.Ring{}, err
	}
	r := clearance.Ring{Barrel: t.RimInside().Value, Seat: t.RimDiameter(), Overall: wheel.OverallWidth()}
	return r, r.Validate(body)
}
