// Package checkcorner holds the corners that the tests beside package
// kinematics share, and solves them or ends the test. For tests below
// kinematics; no program links it.
package checkcorner

import (
	"testing"

	"armscribe/kinematics"
)

// Flat is the reference corner of testdata/kinematics/casea.yaml: one front-view
// pivot an arm, and a tie rod that copies the lower arm.
func Flat() kinematics.Corner {
	return kinematics.Corner{
		Lower:  kinematics.FlatArm(kinematics.Vec{Y: 250, Z: 200}, kinematics.Vec{Y: 690, Z: 180}),
		Upper:  kinematics.FlatArm(kinematics.Vec{Y: 320, Z: 430}, kinematics.Vec{Y: 640, Z: 460}),
		TieRod: kinematics.TieRod{RackEnd: kinematics.Vec{X: 120, Y: 250, Z: 200}, OuterEnd: kinematics.Vec{X: 120, Y: 690, Z: 180}},
		Hub:    kinematics.Vec{Y: 750, Z: 310},
		Wheel:  kinematics.Wheel{LoadedRadius: 310},
	}
}

// Inclined is the reference corner of testdata/kinematics/caseb.yaml: inclined
// axes and the rack ahead of the axle. It has no spring.
func Inclined() kinematics.Corner {
	c := Flat()
	c.Lower = kinematics.Arm{
		Front: kinematics.Vec{X: 150, Y: 300, Z: 190}, Rear: kinematics.Vec{X: -170, Y: 310, Z: 185},
		Ball: kinematics.Vec{X: 10, Y: 690, Z: 180},
	}
	c.Upper = kinematics.Arm{
		Front: kinematics.Vec{X: 110, Y: 340, Z: 420}, Rear: kinematics.Vec{X: -150, Y: 350, Z: 410},
		Ball: kinematics.Vec{X: -15, Y: 650, Z: 455},
	}
	c.TieRod = kinematics.TieRod{RackEnd: kinematics.Vec{X: 130, Y: 330, Z: 235}, OuterEnd: kinematics.Vec{X: 140, Y: 680, Z: 230}}
	return c
}

// New is the mechanism of a corner that must be one.
func New(t testing.TB, c kinematics.Corner) *kinematics.Mechanism {
	t.Helper()
	m, err := kinematics.New(&c)
	if err != nil {
		t.Fatal(err)
	}
	return &m
}

// At is the pose at a travel and rack position, mm, that must be within reach.
func At(t testing.TB, m *kinematics.Mechanism, travel, rack float64) kinematics.Pose {
	t.Helper()
	p, err := m.At(travel, rack)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
