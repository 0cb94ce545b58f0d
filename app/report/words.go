package report

import (
	"math"

	"armscribe/app/sheet"
	"armscribe/app/units"
)

func degrees(rad float64) float64 { return rad * (180 / math.Pi) }

// oneLine makes a name fit one line.
func oneLine(s string) string { return sheet.OneLine(s) }

func pickWord(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// toeText prints a toe change, deg.
func toeText(rad float64) string { return units.Signed(units.SmallAngles.Number(degrees(rad))) }

// moveCell prints a move with its sign, in the unit of a table.
func moveCell(mm float64, unit units.Unit) string { return units.Signed(lengthCell(mm, unit)) }

// lengthCell prints a place or length in the unit of a table.
func lengthCell(mm float64, unit units.Unit) string { return units.Gauged.Number(mm, unit) }

// lengthText prints a length that was chosen, as short as it is.
func lengthText(mm float64, unit units.Unit) string { return units.ShortLength(mm, unit) }

// signedLength is lengthText with its sign.
func signedLength(mm float64, unit units.Unit) string { return units.Signed(lengthText(mm, unit)) }
