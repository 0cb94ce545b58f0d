package report

import (
	"armscribe/app/clearance"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/canvas/plates"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
	"armscribe/kinematics/tyre"
)

// SectionOf is the wheel and tyre of a variant of a job without problems as drawn.
// Where a size has no published rule for its width, the wheel's own width stands in
// for the drawing; a tyre without a size that can be read has no outline.
func SectionOf(v *job.Variant) scene.Section {
	var s scene.Section
	if rim, err := tyre.NewWheel(v.Wheel.RimWidth.MM, v.Wheel.Offset.MM); err == nil {
		s.RimOverallWidth, s.SectionWidth = rim.OverallWidth(), rim.OverallWidth()
	}
	t, err := tyre.Parse(v.Wheel.Tyre)
	if err != nil {
		return s
	}
	s.OverallDiameter, s.RimDiameter = t.Diameter(), t.RimDiameter()
	if width, ok := t.SectionWidth(v.Wheel.RimWidth.MM); ok {
		s.SectionWidth = width
	}
	s.Tyre, _ = clearance.TyreOf(v)
	return s
}

// ViewLength writes lengths of a view in a unit.
func ViewLength(unit units.Unit) scene.Formatter {
	return func(dst []byte, mm, half float64) []byte {
		if half > 0 {
			return append(dst, sheet.Banded(sheet.Length, mm, half).Phrase(unit)...)
		}
		return append(dst, units.Built.OnTape(mm, unit)...)
	}
}

// subject solves a corner on the wheel of a variant for a picture; nil where it is no
// mechanism.
func (s *Source) subject(v *job.Variant, c *kinematics.Corner) *scene.Subject {
	car := s.With(c)
	of := &study.Study{}
	if of.Update(car.Study(), 0) != nil {
		return nil
	}
	return &scene.Subject{Name: oneLine(v.Name), Study: of, Section: SectionOf(v)}
}

// front is a picture of corners over the source's own.
func (s *Source) front(from *job.Variant) *plates.Front {
	return &plates.Front{Before: s.subject(from, &s.Corner), Format: ViewLength(s.Unit), Rear: s.Rear,
		Note: plates.Note{Words: "from the front, at rest"}}
}

// add puts a corner beside those of a picture, if it is a mechanism.
func (s *Source) add(f *plates.Front, v *job.Variant, c *kinematics.Corner, title, done string) {
	if now := s.subject(v, c); now != nil && f.Before != nil {
		f.Views = append(f.Views, plates.FrontView{Now: *now, Title: title, Done: done})
	}
}

// Plate is the picture of both ways over the corner as it is.
func (w *Widened) Plate(j *job.Job, from int) *plates.Front {
	v := &j.Variants[from]
	f := w.Source.front(v)
	for _, way := range w.Ways() {
		c := w.Corner(way)
		w.Source.add(f, v, &c, upperFirst(w.WayName(way))+", "+w.size()+" a side", "")
	}
	return f
}

// Plate is the picture of one of the ways over the corner as it is, with what is
// wished.
func (r *Reached) Plate(j *job.Job, from, answer int) *plates.Front {
	made := r.Variant(j, from, answer)
	c := made.Corner()
	f := r.Source.front(&j.Variants[from])
	r.Source.add(f, &made, &c, r.WheelWords(answer), r.DoneWords(answer))
	f.Wish, f.Wished = r.Spec.To, pickWord(r.Spec.ByFace, "wing's edge ", "half track wished ")+lengthText(r.Spec.To, r.Source.Unit)
	return f
}

// Plate is the picture of forces as bars; beside the other variant if they are compared.
func (b *EffortsBeside) Plate(compared bool, u units.Unit) *plates.Bars {
	type value struct {
		key, name string
		scale     int // moments, forces in rods or rack, pulls at the hand
	}
	values := []value{{"left_moment", "axis, left", 0}, {"right_moment", "axis, right", 0}, {"rack", "rack", 1}, {"rim_pull", "hand", 2}}
	if b.Now.Source.Rear {
		values = append(values[:2], value{"left_rod", "link, left", 1}, value{"right_rod", "link, right", 1})
	}
	p := &plates.Bars{Title: "Sizes of moments and forces, indicative", Now: oneLine(b.Now.Source.Variant),
		Notes: []string{"one scale each for moments, forces and hand; | : 95 % of the measured points", "one scale each; | : 95 % of the measured points", "one scale each; | : 95 %"}}
	if compared {
		p.Before = oneLine(b.Before.Source.Variant)
	}
	for i := range b.Cases {
		g := plates.BarGroup{Name: b.Cases[i].Name}
		for _, v := range values {
			if l := b.Find(b.Cases[i].Key, v.key); l != nil {
				g.Bars = append(g.Bars, plates.Bar{Name: v.name, Scale: v.scale, Now: l.Now.Value, Band: l.Now.Band, NowText: l.Now.Text(u),
					Before: l.Before.Value, BeforeText: l.Before.Text(u)})
			}
		}
		p.Groups = append(p.Groups, g)
	}
	return p
}

// Plate is the picture of how far joints tilt, beside the measured variant's if that
// is not nil.
func (a *Joints) Plate(before *Joints) *plates.Joints {
	p := &plates.Joints{}
	if before != nil {
		p.Before = oneLine(before.Source.Variant)
	}
	for i := range a.List {
		t := &a.List[i]
		k := plates.Joint{Name: upperFirst(t.Name), Figures: t.cell().Text(a.Source.Unit) + "°",
			Tilt: t.Tilt, Limit: t.Limit, HasLimit: t.HasLimit, Over: t.HasLimit && t.Verdict == LimitPassed}
		if t.HasLimit {
			k.Figures += " of " + sheet.Number(sheet.Stated, t.Limit).Text(a.Source.Unit) + "°"
		}
		k.Figures += ", " + t.Word()
		if before != nil {
			k.Before, k.HasBefore = before.List[i].Tilt, true
		}
		p.List = append(p.List, k)
	}
	return p
}
