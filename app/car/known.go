package car

import (
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Known is how well the points of a corner are known, for every sentence that says it.
type Known struct {
	Least, Most     float64 // mm, of what was measured of the points
	Assumed, Taught bool    // something is assumed; readings told more
}

// KnownOf sums up how well a corner's points are known.
func KnownOf(w *kinematics.Within, c *kinematics.Corner) Known {
	k := Known{Assumed: w.AnyAssumed(), Taught: w.AnyTaught()}
	k.Least, k.Most = w.Measuring(c)
	return k
}

// Known is how well the car's points are.
func (c *Car) Known() Known { return KnownOf(&c.Within, &c.Corner) }

// Text says it, as behind "±": "1 mm", "1/32 to 1/8 in (each point its own)".
func (k Known) Text(unit units.Unit) string {
	text := units.ShortLength(k.Most, unit)
	var but []string
	if k.Least != k.Most {
		text = units.ShortNumber(k.Least, unit) + " to " + text
		but = append(but, "each point its own")
	}
	if k.Assumed {
		but = append(but, "what is assumed, by more")
	}
	if k.Taught {
		but = append(but, "toe, by the readings that they were fitted to")
	}
	if but == nil {
		return text
	}
	return text + " (" + strings.Join(but, "; ") + ")"
}
