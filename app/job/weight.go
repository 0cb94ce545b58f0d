package job

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
)

// Weight is what a scale under a wheel shows, kept the way it was typed. A job
// may leave it out.
type Weight struct {
	Kg float64
	// Typed is the text with its unit; empty where Text needs none to say it.
	Typed string
	Given bool
}

// KgPerPound is the pound (international yard and pound agreement, 1959).
const KgPerPound = 0.45359237

// MaxWeight on one wheel, kg: beyond any car.
const MaxWeight = 5000.0

// Kilograms returns a weight of plain kilograms.
func Kilograms(kg float64) Weight { return Weight{Kg: kg, Given: true} }

// Text is the weight as a file keeps it, with its unit; empty for none.
func (w Weight) Text() string {
	switch {
	case !w.Given:
		return ""
	case w.Typed != "":
		return w.Typed
	}
	return strconv.FormatFloat(w.Kg, 'f', -1, 64) + " kg"
}

// weightUnits are what a weight may be typed in; the first is that of a plain
// number where lengths are in mm, the second where they are in inches.
var weightUnits = []struct {
	name string
	kg   float64
}{{"kg", 1}, {"lb", KgPerPound}}

const weightCure = "write it as 350 kg or 770 lb"

// ParseWeight reads '350 kg' or '770 lb'. A plain number is in kg where
// lengths are in mm, and in lb where they are in inches. Every error is a
// *units.EntryError; limits are for Problems to say.
func ParseWeight(text string, lengths units.Unit) (Weight, error) {
	number, unit := strings.TrimSpace(text), weightUnits[0]
	if lengths == units.Inch {
		unit = weightUnits[1]
	}
	typed := ""
	for _, u := range weightUnits {
		if rest, ok := strings.CutSuffix(strings.ToLower(number), u.name); ok {
			number, unit, typed = strings.TrimSpace(number[:len(rest)]), u, number
			break
		}
	}
	v, ok := parseNumber(number)
	switch {
	case strings.Contains(number, ","):
		return Weight{}, &units.EntryError{Text: text, Problem: "a comma is not read", Cure: "write a decimal point, as in 352.5 kg"}
	case !ok:
		return Weight{}, &units.EntryError{Text: text, Problem: "is not a weight", Cure: weightCure}
	}
	if typed == "" {
		typed = number + " " + unit.name
	}
	w := Kilograms(v * unit.kg)
	if w.Text() != typed {
		w.Typed = typed
	}
	return w, nil
}

// weightCodec is a weight that may be missing.
type weightCodec struct{ to *Weight }

func (c weightCodec) read(r *reader, n *yaml.Node, at string) {
	if !r.isScalar(n, at, "a weight") {
		return
	}
	w, err := ParseWeight(n.Value, r.units)
	switch {
	case err == nil:
		*c.to = w
	case !r.noNumber(n, at):
		r.entryError(n, at, err)
	}
}

func (c weightCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.to.Given {
		return nil
	}
	same := false
	if old != nil && old.Kind == yaml.ScalarNode {
		was, err := ParseWeight(old.Value, w.units)
		same = err == nil && was == *c.to
	}
	return w.text(old, c.to.Text(), same)
}

func (weightCodec) schema(*schemer) object {
	return typed("weight: a number in kg, in lb where the file's units are in, or text with its unit, as 770 lb")
}

// weight refuses one that no wheel carries; a NaN too.
func (c *checker) weight(key string, w Weight) {
	if !w.Given || c.skips(key) || w.Kg > 0 && w.Kg <= MaxWeight {
		return
	}
	c.add(key, w.Text(), fmt.Sprintf("is not above zero and at most %g kg on one wheel", MaxWeight), "check the number and its unit", nil)
}
