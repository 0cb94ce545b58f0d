package job

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/tyre"
)

// Limits of what a job may say, besides those of units and kinematics.
const (
	// MaxWithin is the poorest measuring that still says anything of a
	// corner, in mm: beyond it the number is in the wrong unit.
	MaxWithin = 50.0
	// MaxName is the longest name, in characters, and MaxNotes the longest notes.
	MaxName  = 100
	MaxNotes = 5000
)

// Problems reports everything that keeps the job from being used and saved,
// by the keys the file has for it. It returns nil for a job that is fine. A
// job that was loaded is fine until it is edited.
func (j *Job) Problems() Problems {
	var c checker
	c.job(j)
	return c.found
}

// values runs the checks of Problems on what has just been read, save where a
// value could not even be read.
func (r *reader) values(j *Job) {
	if r.unsaid > 0 {
		return // enough to mend already
	}
	c := checker{unread: r.unread}
	c.job(j)
	for _, p := range c.found {
		p.Line = r.lineOf(p.Key)
		r.report(p)
	}
}

// unread tells whether there was a problem with the key or within it.
func (r *reader) unread(key string) bool {
	for bad := range r.bad {
		if within(bad, key) || within(key, bad) {
			return true
		}
	}
	return false
}

// within tells whether the key inner is outer or lies in its section.
func within(inner, outer string) bool {
	rest, ok := strings.CutPrefix(inner, outer)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// lineOf returns the line of a key, or of the section that lacks it.
func (r *reader) lineOf(key string) int {
	for key != "" {
		if line, ok := r.lines[key]; ok {
			return line
		}
		key = key[:max(0, strings.LastIndexAny(key, ".["))]
	}
	return 1
}

// checker collects the problems of a job's values.
type checker struct {
	found   Problems
	variant string
	units   units.Unit            // of the job
	unread  func(key string) bool // nil when all is there
}

func (c *checker) add(key, value, what, cure string, err error) {
	c.found = append(c.found, Problem{Key: key, Variant: c.variant, Value: value, What: what, Cure: cure, Err: err})
}

func (c *checker) skips(key string) bool { return c.unread != nil && c.unread(key) }

func (c *checker) job(j *Job) {
	c.units = j.Units
	c.name("name", j.Name)
	if !c.skips("axle") && wordOf(axleWords, j.Axle) == "" {
		c.add("axle", "", "is none", "choose front or rear", nil)
	}
	if !c.skips("units") && wordOf(unitWords, j.Units) == "" {
		c.add("units", "", "are none", "choose mm or in", nil)
	}
	c.length("measured_within", j.MeasuredWithin, 0, MaxWithin)
	c.length("travel.bump", j.Travel.Bump, 0, units.MaxLength)
	c.length("travel.droop", j.Travel.Droop, 0, units.MaxLength)
	c.length("rack.left", j.Rack.Left, 0, units.MaxLength)
	c.length("rack.right", j.Rack.Right, 0, units.MaxLength)
	if j.Wheelbase.Given {
		c.length("wheelbase", j.Wheelbase.Length, kinematics.MinSpan, units.MaxLength)
	}
	c.targets(&j.Targets)
	c.spacers(&j.Spacers)
	c.gauge(&j.ToeGauge)
	c.adjusters(j.Adjusters)
	c.obstacles(j.Obstacles)
	c.fittings(j)
	c.wheels(j.Wheels)
	c.photo(&j.Photo)
	c.manyTogether(j)
	switch {
	case c.skips("variants") && len(j.Variants) == 0:
		return
	case len(j.Variants) == 0:
		c.add("variants", "", "holds no variant", "add one, as measured", nil)
	case len(j.Variants) > MaxVariants:
		c.add("variants", "", fmt.Sprintf("holds %d variants, more than %d", len(j.Variants), MaxVariants), "split the job into several files", nil)
		return
	}
	c.names(j)
	for i := range j.Variants {
		c.variant = j.Variants[i].Name
		c.one(&j.Variants[i], variantKey(i))
		c.toeReadings(j.Variants[i].ToeReadings, &j.ToeGauge, variantKey(i)+".toe_readings")
		c.toeReadings(j.Variants[i].FittedTo, &j.ToeGauge, variantKey(i)+".fitted_to")
		c.stack(&j.Variants[i].Stack, variantKey(i)+".stack")
	}
	c.variant = ""
}

func variantKey(i int) string { return fmt.Sprintf("variants[%d]", i) }

// names refuses two variants of one name: a command and a report tell them
// apart by nothing else.
func (c *checker) names(j *Job) {
	first := map[string]int{}
	for i := range j.Variants {
		key, name := variantKey(i)+".name", j.Variants[i].Name
		if c.skips(key) {
			continue
		}
		if k, ok := first[name]; ok {
			c.add(key, name, "is the name of "+variantKey(k)+" too", "give each variant its own name", nil)
			continue
		}
		first[name] = i
	}
}

// one checks a variant, and its geometry if all of its points are there.
func (c *checker) one(v *Variant, key string) {
	c.name(key+".name", v.Name)
	c.text(key+".notes", v.Notes, MaxNotes, "\n\t")
	if v.MeasuredWithin.Given {
		c.length(key+".measured_within", v.MeasuredWithin.Length, 0, MaxWithin)
	}
	c.assumed(v, key+".assumed")
	c.together(v, key+".picked_together")
	before := len(c.found)
	c.wheel(&v.Wheel, key+".wheel")
	corner := v.Corner()
	if len(c.found) > before || c.skips(key+".wheel") {
		corner.Wheel = standIn()
	}
	if v.Track.Given {
		c.length(key+".track", v.Track.Length, kinematics.MinSpan, units.MaxLength)
	}
	c.degrees(key+".camber", v.Camber)
	c.angleWithin(key, "camber", v.CamberWithin)
	c.angleWithin(key, "toe", v.ToeWithin)
	c.degrees(key+".toe", v.Toe)
	if steep(v.Camber) || steep(v.Toe) {
		corner.Camber, corner.Toe = 0, 0
	}
	before = len(c.found)
	c.points(v, key)
	if len(c.found) == before && c.has(key) {
		c.geometry(v, key, &corner)
	}
}

// has tells whether all points of the variant could be read.
func (c *checker) has(key string) bool {
	for _, part := range []string{".upper_arm", ".lower_arm", ".tie_rod", ".hub", ".spring"} {
		if c.skips(key + part) {
			return false
		}
	}
	return true
}

// points refuses coordinates that no file may hold. Where the mechanism has a
// say in them too, this comes first.
func (c *checker) points(v *Variant, key string) {
	corner := v.Corner()
	for _, p := range corner.Points() {
		at, place := v.Position(p), key+"."+v.pointKey(p)
		c.length(place+".x", at.X, -units.MaxLength, units.MaxLength)
		c.length(place+".y", at.Y, -units.MaxLength, units.MaxLength)
		c.length(place+".z", at.Z, -units.MaxLength, units.MaxLength)
		c.within(place+".within", &at.Within)
	}
}

func (c *checker) wheel(w *Wheel, key string) {
	if at := key + ".tyre"; !c.skips(at) {
		var code *tyre.CodeError
		if _, err := tyre.Parse(w.Tyre); errors.As(err, &code) {
			c.add(at, w.Tyre, code.Problem, code.Cure, err)
		}
	}
	c.length(key+".rim_width", w.RimWidth, tyre.MinRimWidth, tyre.MaxRimWidth)
	c.length(key+".offset", w.Offset, -tyre.MaxOffset, tyre.MaxOffset)
	c.length(key+".spacer", w.Spacer, 0, units.MaxLength)
	c.loadedRadius(w, key)
}

// angleWithin refuses an error of an angle that no way of measuring has.
func (c *checker) angleWithin(key, of string, d Degrees) {
	if at := key + "." + of + "_within"; !c.skips(at) && !(d >= 0 && d <= maxAngleWithin) {
		c.add(at, fmt.Sprint(float64(d)), "is not between 0 and 10 degrees", "leave it out, or measure the "+of, nil)
	}
}

// degrees refuses an angle at rest that no wheel has; a NaN too.
func (c *checker) degrees(key string, d Degrees) {
	if c.skips(key) || !steep(d) {
		return
	}
	c.add(key, fmt.Sprintf("%v deg", float64(d)), "is not within ±45 degrees", "check the number", nil)
}

// steep tells whether an angle at rest is more than any wheel has, or none.
func steep(d Degrees) bool { return !(math.Abs(d.Radians()) <= kinematics.MaxStaticAngle) }

// length refuses a length outside its limits, in mm; a NaN too.
func (c *checker) length(key string, l units.Length, low, high float64) {
	if c.skips(key) || l.MM >= low && l.MM <= high {
		return
	}
	c.add(key, valueOf(l, c.units), c.limitText(low, high), "check the number and its unit", nil)
}

func valueOf(l units.Length, u units.Unit) string {
	if l.Typed != "" {
		return l.Typed
	}
	return sizeOf(l.MM, u)
}

func (c *checker) limitText(low, high float64) string {
	switch {
	case low == -units.MaxLength:
		return "is not within ±" + units.LimitText(c.units)
	case low == 0 && high == units.MaxLength:
		return "must not be below zero"
	case low == kinematics.MinSpan && high == units.MaxLength:
		return "must be above zero"
	}
	return fmt.Sprintf("is not between %s and %s", limitOf(low, c.units), limitOf(high, c.units))
}

// sizeOf is a length in the job's unit, as plain as a file has it.
func sizeOf(mm float64, u units.Unit) string {
	u = readUnit(u)
	return fmt.Sprintf("%.6g %s", units.In(mm, u), u)
}

// computedOf is a length that follows from others, no finer than can be found on a car.
func computedOf(mm float64, u units.Unit) string {
	u = readUnit(u)
	return units.Gauged.Short(mm, u) + " " + u.String()
}

// readUnit is the unit of a job, or mm where it is not read.
func readUnit(u units.Unit) units.Unit {
	if u != units.Inch {
		return units.Millimetre
	}
	return u
}

func (c *checker) name(key, name string) {
	if c.skips(key) {
		return
	}
	if strings.TrimSpace(name) == "" {
		c.add(key, "", "is empty", "write a name", nil)
		return
	}
	c.text(key, name, MaxName, "")
}

// text refuses characters that show nothing, save the allowed ones: they would
// not come back from a file as they were, or spoil a line of a report.
func (c *checker) text(key, text string, longest int, allowed string) {
	if c.skips(key) {
		return
	}
	if n := len([]rune(text)); n > longest {
		c.add(key, text, fmt.Sprintf("has %d characters, more than %d", n, longest), "shorten it", nil)
		return
	}
	for i, ch := range []rune(text) {
		if ch == unicode.ReplacementChar || !unicode.IsPrint(ch) && !strings.ContainsRune(allowed, ch) {
			c.add(key, text, fmt.Sprintf("character %d does not print (%U)", i+1, ch), "remove it", nil)
			return
		}
	}
}

// standIn is a wheel to check the points with: what is wrong with the wheel
// itself is reported elsewhere.
func standIn() kinematics.Wheel { return kinematics.Wheel{LoadedRadius: 300} }

// geometry reports what the mechanism has against the points.
func (c *checker) geometry(v *Variant, key string, corner *kinematics.Corner) {
	for _, e := range split(corner.Validate()) {
		var g *kinematics.GeometryError
		if !errors.As(e, &g) {
			c.add(key, "", e.Error(), "check the points", e)
			continue
		}
		value := g.Value
		if c.units == units.Inch {
			value = g.ValueIn(func(mm float64) string { return computedOf(mm, c.units) })
		}
		what := fmt.Sprintf("%s: %s (%s)", g.Place, g.Problem, value)
		c.add(key+"."+v.pointKey(g.Point), "", what, g.Cure, e)
	}
}

func split(err error) []error {
	if err == nil {
		return nil
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		return many.Unwrap()
	}
	return []error{err}
}

// limitOf is sizeOf with the digits that a limit needs.
func limitOf(mm float64, u units.Unit) string {
	if u == units.Inch {
		return fmt.Sprintf("%.3g %s", units.In(mm, u), u)
	}
	return sizeOf(mm, u)
}
