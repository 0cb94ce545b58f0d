package report

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
	"armscribe/kinematics/widen"
)

// ScrubKept is which offset or spacer gives a wheel the scrub radius of the
// measured variant, on the steering axis of the variant asked for. Lengths in mm.
type ScrubKept struct {
	Spec     WheelSpec
	Measured Line    // scrub radius of the measured variant, with its band
	Now      float64 // scrub radius with the wheel as it is asked for
	// Offset keeps it with the spacer of the wheel, Spacer with its offset; one
	// below nought cannot be had. With an estimated loaded radius Plane, spacer
	// less offset, may well lie between Low and High; both nought for none.
	Offset, Spacer, Low, High float64
	// Bands of Now, Offset and Spacer, 95 %.
	now, offset, spacer band
}

// KeepScrub computes it. Errors are those of WheelOf, name the variant and are
// those of its geometry, or match widen.ErrWiden.
func KeepScrub(j *job.Job, variant int, spec WheelSpec) (*ScrubKept, error) {
	w, err := WheelOf(spec)
	if err != nil {
		return nil, err
	}
	first, err := ReadingsOf(SourceOf(j, 0), figures.Position{})
	if err != nil {
		return nil, err
	}
	k := &ScrubKept{Spec: spec}
	line := first.Find(kinematics.ScrubRadius.String())
	if line == nil || !line.Known {
		return nil, errors.New("the measured steering axis does not meet the ground: there is no scrub radius to keep")
	}
	k.Measured = *line
	s := SourceOf(j, variant)
	plane := func(radius float64) (float64, error) { return widen.PlaneForScrub(s.Corner, radius, line.Value) }
	e := w.Spec.Loaded
	at, err := plane(e.Radius)
	if err != nil {
		return nil, s.Named(err)
	}
	k.Offset, k.Spacer = spec.Spacer-at, spec.Offset+at
	if e.Estimate {
		a, errA := plane(e.Low)
		b, errB := plane(e.High)
		if err := errors.Join(errA, errB); err != nil {
			return nil, s.Named(err)
		}
		k.Low, k.High = min(a, b), max(a, b)
	}
	if k.Now, err = s.scrubWith(spec, e.Radius); err != nil {
		return nil, err
	}
	own := SourceOf(j, 0)
	return k, k.setBands(&own, &s, e.Radius)
}

// setBands finds what measuring and assumptions leave open: a coordinate that both
// corners share was measured once. A wheel with the offset of the variant's own is that
// one, and its offset as uncertain.
func (k *ScrubKept) setBands(own, s *Source, radius float64) error {
	wheel := func(c *kinematics.Corner) float64 {
		if k.Spec.Offset == s.Corner.Wheel.Offset {
			return c.Wheel.Offset
		}
		return k.Spec.Offset
	}
	of, err := kinematics.Linearise(&s.Corner, s.Within, func(c *kinematics.Corner) ([]kinematics.Value, error) {
		with, spec := Source{s.With(c)}, k.Spec
		spec.Offset = wheel(c)
		now, err := with.scrubWith(spec, radius)
		if err != nil {
			return nil, err
		}
		plane, err := widen.PlaneForScrub(*c, radius, k.Measured.Value)
		return []kinematics.Value{kinematics.Number(now, true), kinematics.Number(plane, true), kinematics.Number(wheel(c)+plane, true)}, err
	})
	if err != nil {
		return s.Named(err)
	}
	// By how much the plane goes out for each mm of scrub radius to keep.
	next, err := widen.PlaneForScrub(s.Corner, radius, k.Measured.Value+1)
	if err != nil {
		return s.Named(err)
	}
	by := next - of.Base[1].Num
	keep := own.slopes(func(m *kinematics.Mechanism) []kinematics.Value {
		p, err := m.At(0, 0)
		if err != nil {
			return []kinematics.Value{{}}
		}
		r := p.Readings()
		scrub, ok := r.Of(kinematics.ScrubRadius)
		return []kinematics.Value{kinematics.Number(-by*scrub, ok)}
	})
	pair, rounding := besides(&keep, &of), sheet.Taped.Rounding()
	k.now = bandAbove(rounding)(of.Half(0))
	k.offset, k.spacer = pair.change(0, 1, rounding), pair.change(0, 2, rounding)
	return nil
}

// scrubWith is the scrub radius at rest with another wheel.
func (s Source) scrubWith(spec WheelSpec, radius float64) (float64, error) {
	s.Corner.Wheel = kinematics.Wheel{Offset: spec.Offset, Spacer: spec.Spacer, LoadedRadius: radius}
	m, err := s.Mechanism()
	if err != nil {
		return 0, err
	}
	p, err := m.At(0, 0)
	if err != nil {
		return 0, s.Named(err)
	}
	r := p.Readings()
	v, ok := r.Of(kinematics.ScrubRadius)
	if !ok {
		return 0, s.Named(widen.ErrWiden)
	}
	return v, nil
}

// Words say it in sentences.
func (k *ScrubKept) Words(u units.Unit) []string {
	measured := sheet.Banded(sheet.Length, k.Measured.Value, k.Measured.Band).Phrase(u)
	list := []string{fmt.Sprintf("Measured scrub radius: %s. With this wheel: %s.", measured, k.now.text(k.Now, u))}
	if math.Abs(k.Now-k.Measured.Value) < likeWheel {
		return append(list, "This wheel keeps it.")
	}
	return append(list, k.offsetWords(u), k.spacerWords(u))
}

// lengthAt is a length as tables have it, with its unit.
func lengthAt(mm float64, u units.Unit) string { return units.Taped.Length(mm, u) }

// text is a length with its band, which is left out where there is none.
func (b band) text(mm float64, u units.Unit) string {
	if b.ok && b.half == 0 {
		return lengthAt(mm, u)
	}
	return sheet.BandedIf(sheet.Taped, mm, b.half, b.ok).Phrase(u)
}

func (k *ScrubKept) offsetWords(u units.Unit) string {
	with := "with no spacer"
	if k.Spec.Spacer != 0 {
		with = "with the spacer of " + lengthText(k.Spec.Spacer, u)
	}
	wheel, err := tyre.NewWheel(k.Spec.Rim, k.Offset)
	if err == nil {
		err = wheel.CheckOffset()
	}
	if err != nil {
		return fmt.Sprintf("No offset of this rim keeps it %s: it would take %s, which puts the mounting face outside the rim.", with, lengthAt(k.Offset, u))
	}
	return fmt.Sprintf("An offset of %s keeps it %s%s.", k.offset.text(k.Offset, u), with, k.span(k.Spec.Spacer-k.High, k.Spec.Spacer-k.Low, u))
}

func (k *ScrubKept) spacerWords(u units.Unit) string {
	switch {
	case k.Spacer < -likeWheel:
		return fmt.Sprintf("No spacer keeps it with the offset of %s: the wheel stands %s too far out without one.", lengthText(k.Spec.Offset, u), lengthAt(-k.Spacer, u))
	case k.Spacer > MaxSpacer:
		return fmt.Sprintf("No spacer keeps it with the offset of %s: it would take %s.", lengthText(k.Spec.Offset, u), lengthAt(k.Spacer, u))
	}
	if k.Spacer < likeWheel {
		return fmt.Sprintf("It takes no spacer to keep it with the offset of %s%s.", lengthText(k.Spec.Offset, u), k.span(k.Spec.Offset+k.Low, k.Spec.Offset+k.High, u))
	}
	return fmt.Sprintf("A spacer of %s keeps it with the offset of %s%s.", k.spacer.text(k.Spacer, u), lengthText(k.Spec.Offset, u), k.span(k.Spec.Offset+k.Low, k.Spec.Offset+k.High, u))
}

// span says where the answer may lie with an estimated loaded radius.
func (k *ScrubKept) span(low, high float64, u units.Unit) string {
	if k.Low == 0 && k.High == 0 {
		return ""
	}
	return fmt.Sprintf(", likely %s to %s by the estimate of the loaded radius", units.Taped.Number(low, u), lengthAt(high, u))
}

// fill puts a value in place of the mark in a text.
func fill(text, value string) string { return strings.Replace(text, "%", value, 1) }
