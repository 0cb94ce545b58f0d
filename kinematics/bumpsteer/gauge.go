package bumpsteer

import (
	"errors"
	"fmt"

	"armscribe/kinematics"
)

// Gauge is how toe is read on the car. The three ways are the same angle:
//
//   - as an angle, rad, toe-in positive;
//   - as a length across a stated width: angle times Width, the convention of
//     the package page for toe as a length;
//   - on two dials that stand on the floor on a line along the car, one at the
//     front and one at the rear of a plate on the hub, Spacing apart, and count
//     up as the plate moves outboard. The plate turns with the wheel, so the
//     rear dial reads more than the front one by angle times Spacing; camber and
//     sideways motion move both alike and cancel.
//
// Lengths are the angle, rad, times the width or the spacing: one convention for
// all. The tangent, which dials follow, is longer by a thirtieth of a percent at
// 1.8 degrees, less than any dial shows.
type Gauge struct {
	Width   float64 // mm over which toe as a length is given
	Spacing float64 // mm between the dials, along the car
}

// ErrGauge: a width or spacing that no gauge has.
var ErrGauge = errors.New("the gauge cannot be used")

// Check tells whether width and spacing can be used: above zero, at most 10 m.
// Zero is allowed for what is not used. The error matches ErrGauge.
func (g Gauge) Check() error {
	for _, s := range []struct {
		what string
		mm   float64
	}{{"gauge width", g.Width}, {"dial spacing", g.Spacing}} {
		if !(s.mm >= 0 && s.mm <= kinematics.MaxLength) {
			return fmt.Errorf("%s %g mm: must be above zero and at most 10 m: %w", s.what, s.mm, ErrGauge)
		}
	}
	return nil
}

// Length returns toe, rad, as a length across the width, mm.
func (g Gauge) Length(toe float64) float64 { return toe * g.Width }

// FromLength is the inverse of Length; the width must be above zero.
func (g Gauge) FromLength(mm float64) float64 {
	if !(g.Width > 0) {
		panic("kinematics: toe as a length without a width")
	}
	return mm / g.Width
}

// Dials returns by how much the rear dial reads more than the front one, mm,
// at a toe, rad.
func (g Gauge) Dials(toe float64) float64 { return toe * g.Spacing }

// FromDials returns the toe, rad, from both dials' readings, mm, both zeroed
// on a straight edge along the car; the spacing must be above zero.
func (g Gauge) FromDials(front, rear float64) float64 {
	if !(g.Spacing > 0) {
		panic("kinematics: two dials without a spacing")
	}
	return (rear - front) / g.Spacing
}

// GaugeLine is one line of a gauge sheet.
type GaugeLine struct {
	Travel float64 // mm
	Change Banded  // rad, toe change from rest
	Toe    float64 // rad, with the resting toe
	Length float64 // mm, Change across the gauge width; zero without a width
	Dials  float64 // mm by which the difference of the dials changes from rest; zero without a spacing
}

// GaugeSheet predicts what a toe gauge reads at each travel, with the bands
// that follow from every coordinate being known within (the
// resting toe is set on the car and taken as exact). Errors match ErrGauge or
// are those of kinematics.New and Mechanism.At.
func GaugeSheet(c kinematics.Corner, within kinematics.Within, travel []float64, g Gauge) ([]GaugeLine, error) {
	if err := g.Check(); err != nil {
		return nil, err
	}
	m, err := kinematics.New(&c)
	if err != nil {
		return nil, err
	}
	readings := make([]kinematics.Readings, len(travel))
	if _, err := m.SweepTravel(readings, travel, 0); err != nil {
		return nil, err
	}
	bands := make([]kinematics.Bands, len(travel))
	if err := m.SweepBands(bands, within, travel, 0); err != nil {
		return nil, err
	}
	sheet := make([]GaugeLine, len(travel))
	for i, h := range travel {
		toe, _ := readings[i].Of(kinematics.Toe)
		half, _ := bands[i].Of(kinematics.Toe)
		sheet[i] = GaugeLine{Travel: h, Change: Banded{toe - c.Toe, half}, Toe: toe,
			Length: g.Length(toe - c.Toe), Dials: g.Dials(toe - c.Toe)}
	}
	return sheet, nil
}
