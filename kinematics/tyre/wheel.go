package tyre

// Limits of a wheel, in mm: 2 to 24 in of rim, and offsets beyond any made.
// They catch a number in the wrong unit.
const (
	MinRimWidth = 2 * inch
	MaxRimWidth = 24 * inch
	MaxOffset   = 300.0 // either way
)

// flange is the rim beyond the bead seat on each side, in mm: half an inch.
// Source: a wheel maker's backspacing page, see the tests. J flanges are 11 to
// 13 mm (ETRTO and ISO 4000-2 drawings, from memory), so overall widths are
// good to about 4 mm.
const flange = inch / 2

// Wheel is a rim width and an offset. Make one with [NewWheel]; the methods
// of the zero Wheel panic.
//
//	       inboard        outboard
//	|<- flange          flange ->|
//	+--+----------|--------||-+--+
//	   |<- rim width -------||->|
//	           centre     mounting face, here with offset above zero
//
// Offset is that of ISO 4000: above zero when the mounting face stands
// outboard of the middle of the rim, so that the wheel sits further in.
type Wheel struct {
	rimWidth, offset float64
}

// NewWheel makes a wheel from the nominal rim width between the bead seats
// and the offset, in mm. The error is a *WheelError.
func NewWheel(rimWidth, offset float64) (Wheel, error) {
	if !(rimWidth >= MinRimWidth && rimWidth <= MaxRimWidth) {
		return Wheel{}, &WheelError{Measure: "rim width", Value: rimWidth, Min: MinRimWidth, Max: MaxRimWidth}
	}
	if !(offset >= -MaxOffset && offset <= MaxOffset) {
		return Wheel{}, &WheelError{Measure: "offset", Value: offset, Min: -MaxOffset, Max: MaxOffset}
	}
	return Wheel{rimWidth, offset}, nil
}

// OffsetFromBackspacing is the offset in mm of a wheel whose back edge, flange
// and all, stands backspacing mm inboard of its mounting face. It undoes
// [Wheel.Backspacing]; give the result to [NewWheel], which checks it.
func OffsetFromBackspacing(rimWidth, backspacing float64) float64 {
	return backspacing - (rimWidth/2 + flange)
}

// must panics for a Wheel that NewWheel did not make.
func (w Wheel) must() {
	if w.rimWidth == 0 {
		panic("kinematics: tyre: wheel not made by NewWheel")
	}
}

// RimWidth is the nominal width between the bead seats, mm.
func (w Wheel) RimWidth() float64 { w.must(); return w.rimWidth }

// Offset is the distance in mm from the middle of the rim to the mounting
// face, above zero outboard.
func (w Wheel) Offset() float64 { w.must(); return w.offset }

// OverallWidth is the width in mm from edge to edge, flanges and all.
func (w Wheel) OverallWidth() float64 { w.must(); return w.rimWidth + 2*flange }

// Backspacing is the distance in mm from the mounting face inboard to the
// back edge of the rim, over the flange: what a straightedge across the back
// shows. Below zero if the whole rim stands outboard of the face.
// Source: (W + 1)/2 + offset/25.4 in, a wheel maker's page, see the tests.
func (w Wheel) Backspacing() float64 { w.must(); return w.rimWidth/2 + flange + w.offset }

// BeadBackspacing is [Wheel.Backspacing] without the flange: to the bead seat.
func (w Wheel) BeadBackspacing() float64 { w.must(); return w.rimWidth/2 + w.offset }

// Lips returns where the edges of the rim stand from the wheel's mounting
// face, in mm, above zero outboard; inner is as a rule below zero. With a
// spacer add its thickness to both to measure from the hub's face.
func (w Wheel) Lips() (inner, outer float64) {
	w.must()
	return -(w.rimWidth/2 + flange + w.offset), w.rimWidth/2 + flange - w.offset
}
