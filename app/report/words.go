package report

import (
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

func degrees(rad float64) float64 { return rad * (180 / math.Pi) }

const outOfReach = figures.OutOfReach

func missingWord(q kinematics.Quantity) string { return figures.Of(q).Missing }

func rounding(k kinematics.Kind) float64 {
	return map[kinematics.Kind]float64{kinematics.Length: 1e-6, kinematics.Angle: 1e-9, kinematics.Slope: 1e-11, kinematics.Ratio: 1e-5}[k]
}

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

// splitBand prints a value and its band, from mm and radians, to the digits that the
// band leaves.
func splitBand(k kinematics.Kind, value, band float64, length units.Unit) (number, half string) {
	number, half, _ = strings.Cut(units.WithBand(k, value, band, length), " ± ")
	return number, "± " + half
}
