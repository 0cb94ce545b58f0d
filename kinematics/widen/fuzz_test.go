package widen

import (
	"encoding/binary"
	"math"
	"reflect"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/effort"
	"armscribe/kinematics/jointangle"
)

// fuzzCorner moves every number of a corner by what two bytes of data say: by
// up to 512 mm, camber and toe by up to 10 degrees.
func fuzzCorner(data []byte) kinematics.Corner {
	c := inclined()
	if len(data) > 0 {
		c.Spring.Carrier = kinematics.Carrier(data[0] & 3)
		c.Lower.Flat, c.Upper.Flat = data[0]&4 != 0, data[0]&8 != 0
		data = data[1:]
	}
	by := func() float64 {
		if len(data) < 2 {
			return 0
		}
		v := float64(int16(binary.LittleEndian.Uint16(data))) / math.MaxInt16
		data = data[2:]
		return v
	}
	for _, v := range []*vec{&c.Lower.Front, &c.Lower.Rear, &c.Lower.Ball, &c.Upper.Front, &c.Upper.Rear, &c.Upper.Ball,
		&c.TieRod.RackEnd, &c.TieRod.OuterEnd, &c.Hub, &c.Spring.Moving, &c.Spring.Body} {
		v.X, v.Y, v.Z = v.X+512*by(), v.Y+512*by(), v.Z+512*by()
	}
	c.Camber, c.Toe = rad(10*by()), rad(10*by())
	c.Wheel.Offset, c.Wheel.Spacer, c.Wheel.LoadedRadius = c.Wheel.Offset+512*by(), c.Wheel.Spacer+512*by(), c.Wheel.LoadedRadius+512*by()
	return c
}

// finite fails where any number within v is none.
func finite(t *testing.T, what string, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Errorf("%s is %g", what, v.Float())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, what+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finite(t, what, v.Index(i))
		}
	}
}

// FuzzBeside: whatever the corner, if it is a mechanism all that is computed
// beside its readings is finite: widening, efforts, joints, gaps.
func FuzzBeside(f *testing.F) {
	for form := range byte(16) {
		f.Add([]byte{form})
		f.Add([]byte{form, 40, 1, 17, 0, 250, 255, 99, 2, 3, 254, 12, 1, 77, 0, 200, 254, 31, 3})
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c := fuzzCorner(data)
		m, err := kinematics.New(&c)
		if err != nil {
			return
		}
		look := func(what string, v any, err error) {
			if err == nil {
				finite(t, what, reflect.ValueOf(v))
			}
		}
		s := Setup{Travel: []float64{-31, -12, 9, 37}, Rack: []float64{-23, 3, 21}, Gear: effort.Gear{RackPerTurn: 47, RimRadius: 177},
			Conditions: effort.Usual(3300, 231), Tyre: wide(), Within: kinematics.Evenly(0.7)}
		table, err := Compare(c, 43.7, s)
		look("table", table, err)
		spring, err := effort.SpringForce(&m, 3300)
		look("spring force", spring, err)
		most, _ := jointangle.Over(&m, s.Travel, s.Rack)
		look("tilts", most, nil)
		circle, err := clearance.TurningCircleAt(&m, wide(), 19, 2450)
		look("circle", circle, err)
		for _, plane := range []float64{11, -40} {
			offset, err := PlaneForScrub(c, 311, plane)
			look("plane", offset, err)
		}
		cs := clearance.Case{Tyre: wide(), Ring: clearance.Ring{Barrel: 411, Seat: 457, Overall: 292},
			Obstacles: append(clearance.JointsInRim(&c, 29, 37, 31, 5),
				clearance.Obstacle{Name: "wing", A: vec{X: 284, Y: 611, Z: 402}, Wish: 10},
				clearance.Obstacle{Name: "lip", Shape: clearance.Circle, A: vec{X: 8, Y: 915, Z: 330}, B: vec{X: 0.03, Y: 1, Z: -0.06}, Radius: 371},
				clearance.Obstacle{Name: "rail", Shape: clearance.Line, A: vec{X: -420, Y: 455, Z: 242}, B: vec{X: 520, Y: 431, Z: 236}, Thick: 20})}
		gaps, err := clearance.Sweep(&m, cs, clearance.Coarse(clearance.Span{Bump: 37, Droop: 31, Left: 21, Right: 23, Roll: 0.03}))
		look("gaps", gaps, err)
		lock, err := clearance.LockLeft(&m, cs, s.Travel, 21)
		look("lock", lock, err)
	})
}
