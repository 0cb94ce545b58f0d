// Package figures is the one table of what a corner is described by: a row a
// quantity, with all that is said of it. The readings, the curves, the sweep, the
// comparison, the targets and every explanation go by it; anyone in app may read
// it. A new reading is one row here and its maths.
package figures

import (
	"slices"

	"armscribe/app/sheet"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
)

// Figure is one row.
type Figure struct {
	Key  string // stable name in files, without the unit
	Name string // the trade's
	// Short names it in the window's table of readings, Head over its column of a
	// sweep, Curve at its curve; empty where it does not stand there.
	Short, Head string
	Curve       Curve
	Kind        sheet.Kind
	Positive    string // when the value is positive; empty for what has no sign
	Meaning     string // what it is, and what a front view can and cannot tell of it
	Missing     string // what is said where it does not exist
	Group       Group
	Sense       Sense
	Lights      scene.Overlays // what stands out in the view while its line is lit
	Of          kinematics.Quantity
	// NoBand: none is computed.
	NoBand bool
	// Ground: it is computed from the tyre's contact centre, so it moves with the
	// loaded radius. The instant centre is not: it moves with the x of the contact
	// alone, which a wheel at rest does not change.
	Ground bool
	// Axle: the axle has it once, and not one for each wheel.
	Axle bool
	// Given: camber and toe at rest are taken as typed.
	Given bool
	// Digits are added where a kind's own say too little or too much: a tie-rod error
	// is small and decides much, a centre is poorly placed by a tape.
	Digits int

	when    func(a *around) bool
	compute func(a *around) Value
}

// Curve is how a figure stands as a curve: its title, what is positive, and its place
// among those that are offered, from 1.
type Curve struct {
	Title, Sign string
	Place       int
}

// Curves are the figures that are to be had as curves, in the order in which they
// are offered and stand.
func Curves() []*Figure {
	var list []*Figure
	for i := range table {
		if table[i].Curve.Place > 0 {
			list = append(list, &table[i])
		}
	}
	slices.SortFunc(list, func(a, b *Figure) int { return a.Curve.Place - b.Curve.Place })
	return list
}

// Shown are the figures of the window's table of readings.
func Shown() []*Figure {
	var list []*Figure
	for i := range table {
		if table[i].Short != "" {
			list = append(list, &table[i])
		}
	}
	return list
}

// At is the figure in the readings of one pose, for those that follow from them.
func (f *Figure) At(r *kinematics.Readings) (float64, bool) {
	v, ok := r.Of(f.Of)
	if f.IsReading() {
		return v, ok
	}
	return Inverse(v, ok)
}

// HalfAt is its half-width from those of the readings, likewise.
func (f *Figure) HalfAt(r *kinematics.Readings, bands *kinematics.Bands) (float64, bool) {
	half, ok := bands.Of(f.Of)
	if !f.IsReading() { // to first order
		v, _ := r.Of(f.Of)
		half /= v * v
	}
	return half, ok
}

// None is of a figure that is no reading of one pose.
const None = kinematics.QuantityCount

// Sense is what is better of a figure beyond doubt, whatever the job aims at.
type Sense uint8

// The senses.
const (
	NoSense Sense = iota // only an aim can tell
	Wished               // it is what the change is for
	Less                 // of its size
	More                 // likewise
)

// Group is a heading of the readings. They stand in this order.
type Group uint8

// The groups.
const (
	Wheel Group = iota
	Axis
	Centres
	Rod
	Spring
	Here
	Rest
	Travel
	Steering
	Range
)

var groupNames = [...]string{
	Wheel: "Wheel", Axis: "Steering axis", Centres: "Centres in the front view",
	Rod: "Tie rod", Spring: "Spring", Here: "Slopes at this position",
	Rest: "Slopes at rest", Travel: "Over the travel of the job",
	Steering: "Steering, at rest height", Range: "Travel over which the linkage assembles",
}

func (g Group) String() string { return groupNames[g] }

// Of returns the row of a reading.
func Of(q kinematics.Quantity) *Figure { return byQuantity[q] }

// Find returns the row with a key; another key is a bug.
func Find(key string) *Figure {
	for i := range table {
		if table[i].Key == key {
			return &table[i]
		}
	}
	panic("figures: no figure " + key)
}

// All are the rows, in the order in which they are listed everywhere.
func All() []Figure { return table[:] }

// ByQuantity are the readings in the order of kinematics, in which columns of files
// have come and will come.
func ByQuantity() []*Figure { return byQuantity[:] }

var byQuantity = func() (list [kinematics.QuantityCount]*Figure) {
	for i := range table {
		if f := &table[i]; f.Of != None && list[f.Of] == nil {
			list[f.Of] = f
		}
	}
	return list
}()

// IsReading tells whether the value is a reading of one pose, as kinematics gives it.
func (f *Figure) IsReading() bool { return f.Of != None && byQuantity[f.Of] == f }

// Is tells whether the figure is a reading of one pose, and this one.
func (f *Figure) Is(q kinematics.Quantity) bool { return f.IsReading() && f.Of == q }

// FileKey is the key with the unit of files: camber_deg.
func (f *Figure) FileKey() string {
	if unit := sheet.FileUnit(f.Kind); unit != "" {
		return f.Key + "_" + unit
	}
	return f.Key
}

// SignWords are Positive in files, where what has no sign is always positive.
func (f *Figure) SignWords() string {
	if f.Signed() {
		return f.Positive
	}
	return "always"
}

// Signed tells whether the sign carries a meaning.
func (f *Figure) Signed() bool { return f.Positive != "" }
