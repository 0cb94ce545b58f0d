package job

import (
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// optionalDegreesCodec is an angle that may be missing.
type optionalDegreesCodec struct{ to *OptionalDegrees }

func (c optionalDegreesCodec) read(r *reader, n *yaml.Node, at string) {
	if d, ok := r.degrees(n, at); ok {
		*c.to = OptionalDegrees{d, true}
	}
}

func (c optionalDegreesCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.to.Given {
		return nil
	}
	return degreesCodec{to: &c.to.Degrees}.write(w, old)
}

// slopeCodec is a slope that may be missing: a plain number is in degrees for
// each of the file's units, a text says it.
type slopeCodec struct{ to *OptionalSlope }

func (c slopeCodec) read(r *reader, n *yaml.Node, at string) {
	if !r.isScalar(n, at, "degrees for a length of travel") {
		return
	}
	s, err := parseSlope(n.Value, r.units)
	switch {
	case err == nil:
		*c.to = OptionalSlope{s, true}
	case !r.noNumber(n, at):
		r.entryError(n, at, err)
	}
}

func (c slopeCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.to.Given {
		return nil
	}
	same := false
	if old != nil && old.Kind == yaml.ScalarNode {
		was, err := parseSlope(old.Value, w.units)
		same = err == nil && was == c.to.Slope
	}
	if c.to.Per != w.units {
		return w.text(old, slopeText(c.to.Slope), same)
	}
	return w.scalar(old, strconv.FormatFloat(float64(c.to.Degrees), 'f', -1, 64), same)
}

// ratioCodec is a plain number that may be missing.
type ratioCodec struct{ to *OptionalRatio }

func (c ratioCodec) read(r *reader, n *yaml.Node, at string) {
	numberCodec{to: &c.to.Value}.read(r, n, at)
	c.to.Given = true
}

func (c ratioCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.to.Given {
		return nil
	}
	return numberCodec{to: &c.to.Value}.write(w, old)
}

// ParseRatio reads a plain number that is a ratio.
func ParseRatio(text string) (float64, error) {
	if v, ok := parseNumber(strings.TrimSpace(text)); ok {
		return v, nil
	}
	return 0, &units.EntryError{Text: text, Problem: "is not a plain number", Cure: "write digits and a decimal point, without a unit"}
}

// parseSlope reads '-0.025', '-0.025 deg/mm', '-0.6 deg/in'.
func parseSlope(text string, bare units.Unit) (Slope, error) {
	number, per := text, bare
	if before, unit, found := cutLast(text, "/"); found {
		for _, w := range unitWords {
			if strings.TrimSpace(unit) == w.text {
				number, per = before, w.value
			}
		}
		if number == text && strings.HasSuffix(strings.TrimSpace(before), "deg") {
			return Slope{}, &units.EntryError{Text: text, Problem: "is for a length that is none here", Cure: "write deg/mm or deg/in"}
		}
	}
	d, err := ParseDegrees(number)
	return Slope{d, per}, err
}

// cutLast is strings.Cut around the last separator: a fraction has one too.
func cutLast(s, separator string) (before, after string, found bool) {
	if i := strings.LastIndex(s, separator); i >= 0 {
		return s[:i], s[i+len(separator):], true
	}
	return s, "", false
}

func slopeText(s Slope) string {
	return strconv.FormatFloat(float64(s.Degrees), 'f', -1, 64) + " deg/" + wordOf(unitWords, s.Per)
}

// ParseSlope reads a slope as a job file states it: a plain number is in
// degrees for each of the unit, a text says it ('-0.6 deg/in').
func ParseSlope(text string, bare units.Unit) (Slope, error) { return parseSlope(text, bare) }
