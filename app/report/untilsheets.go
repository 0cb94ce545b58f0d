package report

import (
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// Quantity is what the answers print that are no sheets yet.
type Quantity struct{ Kind kinematics.Kind }

func (q *Quantity) inUnit(v float64, length units.Unit) (float64, string) {
	return units.InKind(q.Kind, v, length)
}

func missingWord(q kinematics.Quantity) string { return figures.Of(q).Missing }

func foot(notes []string) string { return strings.Join(append(notes, Caution), "\n") + "\n" }

func degrees(rad float64) float64 { return rad * (180 / math.Pi) }

const outOfReach = figures.OutOfReach

func rounding(k kinematics.Kind) float64 {
	return map[kinematics.Kind]float64{kinematics.Length: 1e-6, kinematics.Angle: 1e-9, kinematics.Slope: 1e-11, kinematics.Ratio: 1e-5}[k]
}
