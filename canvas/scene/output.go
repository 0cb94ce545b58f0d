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
	// kinematics lists them, then upright, wheel and ground, then obstacles. The
	// plan has no bodies.
	Spots []Spot

	// Bodies that can be taken hold of: the line between the ball joints, the
	// tyre's outline (closed), the height of the ground line.
	Upright [2]draw.Point
	Tyre    []draw.Point
	Ground  float64

	// Carries tells where the pose shown has what stands at rest elsewhere, by
	// clearance.Carrier.
	Carries [3]Carry

	// Loupe is the box around the loupe; empty without one.
	Loupe draw.Box

	// Homes is where labels and loupe stand; LeftOut names what found no room.
	Homes   Homes
	LeftOut []string

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
const fitBeside = 14

// steeredShare is the room beside the tyre that Fit asks for where the swept
// outline is shown, as a share of the tyre's radius: about what a wheel needs
// that steers 35 degrees.
const steeredShare = 0.55

// Margins of FitView, points: room for what has its size in points, such as the
// dimension under the ground.
const (
	fitLeft, fitRight = 20, 14
	fitTop, fitBottom = 30, 62
	// fitBelow is the share of spare height left under the ground; the rest
	// goes above the wheel, where loupe and labels look for room.
	fitBelow = 0.2
)

// FitView returns v showing the box of Fit as large as it may be, but no larger
// than most points per mm; 0 sets no limit.
func FitView(v draw.View, in *Input, most float64) draw.View {
	box := Fit(in)
	margins := draw.Margins{Left: fitLeft, Right: fitRight, Top: fitTop, Bottom: fitBottom}
	v = v.Fit(box, margins)
	if most > 0 && v.Zoom > most {
		v.Zoom, v.Centre = most, box.Mid()
		v = v.Pan((margins.Left-margins.Right)/2, (margins.Bottom-margins.Top)/2)
	}
	if spare := v.H - fitTop - fitBottom - box.H()*v.Zoom; spare > 0 {
		v = v.Pan(0, -(0.5-fitBelow)*spare)
	}
	return v
}

// Fit returns what should be seen at first, mm: from the centre plane to beyond
// the tyre, and from the ground to the top of the tyre over the whole travel;
// both corners in roll or with the other side, and the compared variant too; with
// Clearance, room for the steered wheel. Centres do not count: they may be far
// away. It does not depend on the present travel.
func Fit(in *Input) draw.Box {
	box := fitSubject(draw.EmptyBox(), &in.Now)
	if in.Overlays&Clearance != 0 {
		box.Max.X += steeredShare*planHalf(in) - fitBeside
	}
	if in.Before != nil && in.Overlays&BeforeOutline != 0 {
		box = fitSubject(box, in.Before)
	}
	box.Min.X = min(box.Min.X, 0)
	if in.Roll != 0 || in.Overlays&OtherSide != 0 {
		box.Min.X = -box.Max.X
	}
	return box
}

func fitSubject(box draw.Box, s *Subject) draw.Box {
	p := restPose(&s.Study.Mechanism)
	half := max(s.Section.SectionWidth, s.Section.RimOverallWidth) / 2
	top := max(s.Section.OverallDiameter/2, s.Study.Case.Corner.Wheel.LoadedRadius)
	out := p.WheelCentre.Y + half + fitBeside
	return box.With(draw.Point{X: out, Y: p.Contact.Z + min(s.Study.From, 0)}).
		With(draw.Point{X: out, Y: p.WheelCentre.Z + top + max(s.Study.To, 0)})
}

// restPose is the pose every mechanism has.
func restPose(m *kinematics.Mechanism) kinematics.Pose {
	p, err := m.At(0, 0)
	if err != nil {
		panic("scene: a mechanism that does not assemble at rest: " + err.Error())
	}
	return p
}
