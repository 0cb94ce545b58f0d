package figures

import (
	"math"
	"strings"

	"armscribe/app/units"
)

// Words say where the car stands: "at rest", "at 20.0 mm bump, rack 5.0 mm left".
func (at Position) Words(unit units.Unit) string {
	var parts []string
	switch {
	case at.Roll != 0:
		parts = append(parts, "roll "+units.Signed(units.FormatDegrees(at.Roll, 1)))
	case at.Travel != 0:
		parts = append(parts, TravelWords(at.Travel, unit))
	}
	if at.Rack != 0 {
		parts = append(parts, RackWords(at.Rack, unit))
	}
	if len(parts) == 0 {
		return "at rest"
	}
	return "at " + strings.Join(parts, ", ")
}

// TravelWords is a travel in words: the direction is a word, so the number has no
// sign.
func TravelWords(mm float64, unit units.Unit) string { return away(mm, unit, " bump", " droop") }

// RackWords is a position of the rack, which moves to the car's left or right.
func RackWords(mm float64, unit units.Unit) string {
	return "rack " + away(mm, unit, " left", " right")
}

// away prints a length without its sign, which the word says.
func away(mm float64, unit units.Unit, above, below string) string {
	text := units.Taped.Length(math.Abs(mm), unit)
	switch {
	case mm > 0:
		return text + above
	case mm < 0:
		return text + below
	}
	return text
}
