package report

import (
	"armscribe/app/clearance"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/kinematics"
	swept "armscribe/kinematics/clearance"
)

// Plate is the picture of a wheel's section, on a corner at rest with what stands
// around it; of a corner that is no mechanism the wheel alone.
func (w *Wheel) Plate(gaps *clearance.Judgement, c *kinematics.Corner, u units.Unit) *plates.Section {
	say := func(name string, mm float64) string { return name + " " + units.Taped.Length(mm, u) }
	t, f := w.Fitted.Tyre, &w.Fitted
	const treadOfSection = 0.92 // at most
	s := &plates.Section{Offset: w.Spec.Offset, Spacer: w.Spec.Spacer, Width: f.SectionWidth, Rim: f.Wheel.RimWidth(),
		Tread: min(t.TreadFace().Value, treadOfSection*f.SectionWidth), Outer: t.Diameter() / 2, Seat: t.RimDiameter() / 2, Barrel: t.RimInside().Value / 2,
		WidthText: say("section", f.SectionWidth), RimText: say("rim overall", f.Wheel.OverallWidth()),
		OffsetText: say("offset", w.Spec.Offset), Backspacing: say("backspacing", f.Wheel.Backspacing())}
	s.Note.Words = "outboard is to the right"
	m, err := kinematics.New(c)
	if err != nil {
		return s
	}
	pose, err := m.At(0, 0)
	if err != nil {
		return s
	}
	s.Corner, s.Pose, s.Foot = c, &pose, "gaps: the least over travel and rack"
	for i := range gaps.Items {
		it := &gaps.Items[i]
		if it.Err != nil || it.Place == clearance.Brake || it.Place == clearance.Face {
			continue
		}
		p := plates.Part{At: onAxle(&it.Obstacle), Thick: it.Obstacle.Thick, Words: it.Short(u), Brief: say(it.Obstacle.Name, it.Gap.Gap), Short: it.Verdict != clearance.Kept}
		if !p.Short {
			p.Words = p.Brief
		}
		s.Parts = append(s.Parts, p)
	}
	return s
}

// onAxle is the point of an obstacle that a section across the axle shows: of what
// goes along the car where it passes the axle, of a circle or arc its top.
func onAxle(o *swept.Obstacle) kinematics.Vec {
	switch o.Shape {
	case swept.Line:
		t := 0.0
		if d := o.B.X - o.A.X; d != 0 {
			t = max(0, min(-o.A.X/d, 1))
		}
		return kinematics.Vec{X: o.A.X + t*(o.B.X-o.A.X), Y: o.A.Y + t*(o.B.Y-o.A.Y), Z: o.A.Z + t*(o.B.Z-o.A.Z)}
	case swept.Circle:
		return kinematics.Vec{X: o.A.X, Y: o.A.Y, Z: o.A.Z + o.Radius}
	case swept.Arc:
		top := o.A
		for _, p := range []kinematics.Vec{o.B, o.C} {
			if p.Z > top.Z {
				top = p
			}
		}
		return top
	}
	return o.A
}
