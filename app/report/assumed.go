package report

import (
	"fmt"

	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// AssumedLoading is what stands in for what neither the caller nor a job of the unit
// says, with the weight on each wheel: pounds where lengths are in inches.
func AssumedLoading(unit units.Unit) (Loading, job.Weight) {
	weight := job.Kilograms(assumedMass)
	if unit == units.Inch {
		weight = job.Weight{Kg: assumedPounds * job.KgPerPound, Typed: units.AsTyped(assumedPounds) + " lb", Given: true}
	}
	return Loading{Load: weight.Kg * Gravity, RackPerTurn: units.Suggested(assumedRackPerTurn, unit), RimDiameter: units.Suggested(assumedRimDiameter, unit)}, weight
}

// assumedMark says that a value rests on assumptions, and on which most.
func (l *Line) assumedMark() string {
	text := "assumed: " + l.Assumed[0]
	if more := len(l.Assumed) - 1; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// assumedCell is what a value in a file rests on.
func assumedCell(keys []string) sheet.Cell { return sheet.Texts(keys).If(len(keys) > 0) }

// restsReadings is what readings rest on besides the points.
const restsReadings = car.OnTravel | car.OnSpring

// restsNote says of one of several variants what an answer about it rests on; empty
// where nothing is assumed.
func (s *Source) restsNote(on car.Rest) string {
	if text := sheet.RestsWords(s.Rests(on)); text != "" {
		return "assumed: " + oneLine(s.Variant) + ": " + text
	}
	return ""
}

// assumedNote explains the mark; empty where no line has it.
func assumedNote(lines []Line) string {
	for i := range lines {
		if len(lines[i].Assumed) > 0 {
			return "assumed: rests on values that nobody has measured; the band spans what they may be, and where that says nothing, 'needs' what. Measure the one named first."
		}
	}
	return ""
}

// assumedIf stands behind what may be assumed.
func assumedIf(assumed bool) string {
	if assumed {
		return " (assumed)"
	}
	return ""
}
