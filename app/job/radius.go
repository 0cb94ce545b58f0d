package job

import (
	"fmt"
	"slices"

	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
)

// LoadedRadius is the height of the wheel centre above the ground in mm, and
// whether it is an estimate; see [Wheel.Loaded].
func (v *Variant) LoadedRadius() (mm float64, estimated bool) {
	r := v.Wheel.Loaded()
	return r.Radius, r.Estimate
}

// Loaded is the loaded radius: as measured; where it was measured with another size
// an estimate by that; without one an estimate from the size code. Of a code that
// cannot be read, which Problems reports, it is as measured or 0.
func (w *Wheel) Loaded() tyre.LoadedRadius {
	measured := tyre.LoadedRadius{Radius: w.LoadedRadius.MM, Low: w.LoadedRadius.MM, High: w.LoadedRadius.MM}
	t, err := tyre.Parse(w.Tyre)
	switch {
	case err != nil:
		measured.Estimate = !w.LoadedRadius.Given
		return measured
	case !w.LoadedRadius.Given:
		return t.EstimateLoadedRadius()
	}
	other, err := tyre.Parse(w.measuredWith())
	if err != nil || t.SameSize(other) {
		return measured
	}
	return t.LoadedLike(other, measured.Radius)
}

// measuredWith is the size that the loaded radius was measured with.
func (w *Wheel) measuredWith() string {
	if w.RadiusTyre != "" {
		return w.RadiusTyre
	}
	return w.Tyre
}

// LoadedFrom says what an estimated loaded radius follows from; empty for a
// measured one.
func (w *Wheel) LoadedFrom(u units.Unit) string {
	switch {
	case !w.Loaded().Estimate:
		return ""
	case !w.LoadedRadius.Given:
		return oneLine(w.Tyre)
	}
	return fmt.Sprintf("%s by the %s measured with %s", oneLine(w.Tyre), units.Taped.Length(w.LoadedRadius.MM, u), oneLine(w.RadiusTyre))
}

// SetTyre puts a tyre of another size on the wheel. A measured radius stays that of
// the tyre it was measured with.
func (w *Wheel) SetTyre(code string) {
	with := w.measuredWith()
	w.Tyre, w.RadiusTyre = code, ""
	t, err := tyre.Parse(code)
	if !w.LoadedRadius.Given || err != nil {
		return
	}
	if other, err := tyre.Parse(with); err == nil && !t.SameSize(other) {
		w.RadiusTyre = with
	}
}

// SetRadius takes a radius measured with the tyre on the wheel, or none.
func (w *Wheel) SetRadius(r Optional) { w.LoadedRadius, w.RadiusTyre = r, "" }

// takenOver tells whether a file without radius_tyre is read as if a variant had
// taken its radius over with another tyre: it is the measured variant's, to the last
// digit.
func (j *Job) takenOver(variant int) bool {
	w, first := &j.Variants[variant].Wheel, &j.Variants[0].Wheel
	if variant == 0 || w.RadiusTyre != "" || !w.LoadedRadius.Given || !first.LoadedRadius.Given || w.LoadedRadius.MM != first.LoadedRadius.MM {
		return false
	}
	t, err := tyre.Parse(w.Tyre)
	other, err2 := tyre.Parse(first.measuredWith())
	return err == nil && err2 == nil && !t.SameSize(other)
}

// inheritRadii marks the radii that variants have taken over. One that says to have
// been measured with the tyre on its wheel was.
func (j *Job) inheritRadii() {
	for i := range j.Variants {
		switch w := &j.Variants[i].Wheel; {
		case j.takenOver(i):
			w.RadiusTyre = j.Variants[0].Wheel.measuredWith()
		case i > 0 && w.RadiusTyre == w.Tyre:
			w.RadiusTyre = ""
		}
	}
}

// stating is the job as a file says it: with what inheritRadii would take for something
// else, and without a typed toe that its angle has left.
func (j *Job) stating() *Job {
	out := *j
	out.Variants = slices.Clone(j.Variants)
	for i := range out.Variants {
		v := &out.Variants[i]
		v.ToeTyped = j.ToeAsTyped(&j.Variants[i])
		if j.takenOver(i) {
			v.Wheel.RadiusTyre = v.Wheel.Tyre
		}
	}
	return &out
}

// loadedRadius refuses a wheel centre that stands lower than the rim or higher
// than the tyre that it was measured with. Without one that can be read it must
// only be above zero.
func (c *checker) loadedRadius(w *Wheel, key string) {
	const measure = "measure from the wheel centre down to the ground"
	at, with, mm := key+".loaded_radius", key+".radius_tyre", w.LoadedRadius.MM
	t, err := tyre.Parse(w.measuredWith())
	if w.RadiusTyre != "" && !c.skips(with) && !c.skips(at) {
		if code, bad := err.(*tyre.CodeError); bad { // Parse makes no other
			c.add(with, w.RadiusTyre, code.Problem, code.Cure, err)
		}
		if !w.LoadedRadius.Given {
			c.add(with, w.RadiusTyre, "stands without loaded_radius, which was measured with it", "add loaded_radius, or remove the key", nil)
		}
	}
	if !w.LoadedRadius.Given || c.skips(at) {
		return
	}
	if !(mm >= kinematics.MinSpan) {
		c.add(at, valueOf(w.LoadedRadius.Length, c.units), "must be above zero", measure+", or leave the key out for an estimate from the tyre", nil)
		return
	}
	if err != nil || c.skips(key+".tyre") || c.skips(with) {
		return
	}
	least, most := t.LoadedLimits()
	switch {
	case mm < least:
		c.add(at, valueOf(w.LoadedRadius.Length, c.units), fmt.Sprintf("is less than the radius of the rim, %s", computedOf(least, c.units)),
			measure+", or check the tyre size", nil)
	case mm > most:
		c.add(at, valueOf(w.LoadedRadius.Length, c.units), fmt.Sprintf("is more than a tyre of %s can have, half whose diameter is %s", t, computedOf(t.Diameter()/2, c.units)),
			measure+", or check the tyre size; name the tyre it was measured with in radius_tyre if that was another", nil)
	}
}
