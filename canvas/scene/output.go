package scene

import (
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// Spot is where a handle stands in the picture.
type Spot struct {
	Handle Handle
	At     draw.Point // mm, y outboard and z up
	Role   draw.Role  // of its mark; bodies have a mark only while pointed at
	OnBody bool       // fixed to the body, not moving with the wheel
}

// Output is what a widget needs to know of the picture that Build drew. Give
// the same Output to every Build: it keeps memory, but what Build draws does
// not depend on what it held before. It must not be copied. All places are in
// mm of the drawing.
type Output struct {
	// Travel, Rack and Roll shown: those of the Input, or, with an error, those
	// nearest that the linkage reaches. In roll, Travel is the left wheel's.
	Travel, Rack, Roll float64

	// Left is the corner shown. Rolled tells that the axle is in roll and Right
	// holds the other corner, in its own mirror image.
	Left, Right kinematics.Pose
	Rolled      bool
	Readings    kinematics.Readings // of the left corner, in roll those of the axle

	// Spots lists the handles in the order Tab walks them: points as
	// kinematics lists them, then upright, wheel and ground.
	Spots []Spot

	// Bodies that can be taken hold of: the line between the ball joints, the
	// tyre's outline (closed), the height of the ground line.
	Upright [2]draw.Point
	Tyre    []draw.Point
	Ground  float64

	// Loupe is the box around the loupe and its legend; empty without one.
	Loupe draw.Box

	work builder
}

// Spot returns the spot of a handle; false if the picture has none.
func (o *Output) Spot(h Handle) (Spot, bool) {
	for _, s := range o.Spots {
		if s.Handle == h {
			return s, true
		}
	}
	return Spot{}, false
}

// fitBeside is the room beside the tyre that Fit asks for, mm.
const fitBeside = 45

// FitMargins are the margins for draw.View.Fit around the box of Fit: room for
// what has its size in points, such as the dimension under the ground.
func FitMargins() draw.Margins { return draw.Margins{Left: 34, Right: 14, Top: 30, Bottom: 64} }

// Fit returns what should be seen at first, mm: from the centre plane to beyond
// the tyre, from the ground to the top of the tyre, of both corners in roll and
// of the compared variant too. Centres do not count: they may be far away. It
// does not depend on travel.
func Fit(in *Input) draw.Box {
	box := fitSubject(draw.EmptyBox().With(draw.Point{}), &in.Now)
	if in.Before != nil && in.Overlays&BeforeOutline != 0 {
		box = fitSubject(box, in.Before)
	}
	rest := restPose(&in.Now.Study.Mechanism)
	box.Min.Y = rest.Contact.Z
	if in.Roll != 0 {
		box.Min.X = -box.Max.X
	}
	return box
}

func fitSubject(box draw.Box, s *Subject) draw.Box {
	p := restPose(&s.Study.Mechanism)
	half := max(s.Section.SectionWidth, s.Section.RimOverallWidth) / 2
	top := max(s.Section.OverallDiameter/2, s.Study.Case.Corner.Wheel.LoadedRadius)
	return box.With(draw.Point{X: p.WheelCentre.Y + half + fitBeside, Y: p.WheelCentre.Z + top})
}

// restPose is the pose every mechanism has.
func restPose(m *kinematics.Mechanism) kinematics.Pose {
	p, err := m.At(0, 0)
	if err != nil {
		panic("scene: a mechanism that does not assemble at rest: " + err.Error())
	}
	return p
}
