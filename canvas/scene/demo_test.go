package scene

import (
	"math"
	"testing"

	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// The corners of the tests: invented, asymmetric, and as far from each other as
// one drawing code must serve.

func at(x, y, z float64) kinematics.Vec { return kinematics.Vec{X: x, Y: y, Z: z} }

const degree = math.Pi / 180

// wide is a corner with inclined pivot axes, a spring and a big wheel.
func wide() kinematics.Corner {
	return kinematics.Corner{
		Upper:  kinematics.Arm{Front: at(104, 372, 449), Rear: at(-131, 377, 436), Ball: at(-18, 624, 481)},
		Lower:  kinematics.Arm{Front: at(152, 316, 188), Rear: at(-171, 309, 179), Ball: at(5, 672, 191)},
		TieRod: kinematics.TieRod{RackEnd: at(117, 341, 214), OuterEnd: at(129, 688, 219)},
		Hub:    at(0, 742, 306), Camber: -1.4 * degree, Toe: 0.1 * degree,
		Wheel:  kinematics.Wheel{Offset: 20, LoadedRadius: 304},
		Spring: kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: at(-22, 566, 224), Body: at(-30, 456, 560)},
	}
}

// longer is wide with arms and tie rod 50 mm longer.
func longer() kinematics.Corner {
	c := wide()
	for _, p := range []kinematics.Point{kinematics.UpperBall, kinematics.LowerBall, kinematics.OuterEnd, kinematics.HubFace} {
		c.At(p).Y += 50
	}
	return c
}

// spaced is wide on 50 mm spacers.
func spaced() kinematics.Corner {
	c := wide()
	c.Wheel.Spacer = 50
	return c
}

// rear has its link behind the axle, a tall tyre and a wheel that stands out.
func rear() kinematics.Corner {
	const in = 25.4
	return kinematics.Corner{
		Upper:  kinematics.Arm{Front: at(4.5*in, 15.25*in, 19.125*in), Rear: at(-6.75*in, 15.5*in, 18.875*in), Ball: at(-0.25*in, 24.25*in, 19.75*in)},
		Lower:  kinematics.Arm{Front: at(9.5*in, 10.75*in, 9.5*in), Rear: at(-8.25*in, 11.125*in, 9.25*in), Ball: at(0.375*in, 26*in, 9.625*in)},
		TieRod: kinematics.TieRod{RackEnd: at(-7.625*in, 12.625*in, 10.5*in), OuterEnd: at(-6.875*in, 25.5*in, 11.125*in)},
		Hub:    at(0, 28.5*in, 14.5*in), Camber: -0.75 * degree, Toe: 0.12 * degree,
		Wheel:  kinematics.Wheel{Offset: -5, LoadedRadius: 381},
		Spring: kinematics.Spring{Carrier: kinematics.OnLowerArm, Moving: at(-2.5*in, 21.5*in, 11.25*in), Body: at(-3.25*in, 17.75*in, 24*in)},
	}
}

// level has equal, parallel arms: no instant centre, and no spring.
func level() kinematics.Corner {
	return kinematics.Corner{
		Upper:  kinematics.FlatArm(at(0, 312, 461), at(-14, 668, 455)),
		Lower:  kinematics.FlatArm(at(0, 312, 204), at(6, 668, 198)),
		TieRod: kinematics.TieRod{RackEnd: at(131, 312, 214), OuterEnd: at(131, 668, 198)},
		Hub:    at(0, 731, 311), Camber: -0.5 * degree, Toe: 0.1 * degree,
		Wheel: kinematics.Wheel{Offset: 35, LoadedRadius: 303},
	}
}

// steep has arms that meet close inboard of the wheel.
func steep() kinematics.Corner {
	return kinematics.Corner{
		Upper:  kinematics.FlatArm(at(0, 405, 418), at(-9, 622, 492)),
		Lower:  kinematics.FlatArm(at(0, 352, 243), at(3, 679, 187)),
		TieRod: kinematics.TieRod{RackEnd: at(-121, 371, 262), OuterEnd: at(-133, 684, 229)},
		Hub:    at(0, 748, 313), Camber: -2 * degree, Toe: -0.2 * degree,
		Wheel: kinematics.Wheel{Offset: 31, Spacer: 12, LoadedRadius: 309},
	}
}

var (
	wideSection  = Section{OverallDiameter: 628, SectionWidth: 290, RimDiameter: 457, RimOverallWidth: 292}
	tallSection  = Section{OverallDiameter: 787, SectionWidth: 272, RimDiameter: 381, RimOverallWidth: 241}
	levelSection = Section{OverallDiameter: 627, SectionWidth: 209, RimDiameter: 381, RimOverallWidth: 190}
)

func subject(t testing.TB, name string, c kinematics.Corner, sec Section, within float64) Subject {
	t.Helper()
	s := Subject{Name: name, Study: new(study.Study), Section: sec}
	span := study.Span{Bump: 70, Droop: 60, Left: 62, Right: 62}
	if err := s.Study.Update(study.Case{Corner: c, Within: kinematics.Evenly(within), Span: span}, 0); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return s
}

// steered is a subject whose study stands at a rack position.
func steered(t testing.TB, s Subject, rack float64) Subject {
	t.Helper()
	st := new(study.Study)
	if err := st.Update(s.Study.Case, rack); err != nil {
		t.Fatalf("rack %g: %v", rack, err)
	}
	s.Study = st
	return s
}

// oneSide are all overlays of the corner shown but those of the room around it.
const oneSide = AllOverlays &^ (OtherSide | Clearance)

func inputOf(s Subject) *Input {
	return &Input{Now: s, Overlays: oneSide, Selected: NoHandle, Hover: NoHandle, Focus: NoHandle}
}

// demo is one picture of the tests.
type demo struct {
	name string
	in   *Input
}

// demos returns pictures of every state a view can be in.
func demos(t testing.TB) []demo {
	t.Helper()
	was := subject(t, "as measured", wide(), wideSection, 1)
	var list []demo
	add := func(name string, s Subject, change func(in *Input)) {
		in := inputOf(s)
		if change != nil {
			change(in)
		}
		list = append(list, demo{name, in})
	}
	add("wide", was, nil)
	add("wide-bump", was, func(in *Input) { in.Travel = 43 })
	add("both", was, func(in *Input) { in.Overlays = AllOverlays })
	add("longer", subject(t, "longer arms", longer(), wideSection, 1), func(in *Input) {
		in.Travel, in.Before = 20, &was
		in.Selected = OfPoint(kinematics.OuterEnd)
		in.Note = []string{"outer tie-rod end 738.0 | 219.0", "moved 0.0 | −8.0"}
		in.Held = []Handle{OfPoint(kinematics.LowerBall)}
		in.Focus = OfPoint(kinematics.UpperBall)
	})
	add("spaced", subject(t, "spacers", spaced(), wideSection, 1), func(in *Input) { in.Before, in.Travel = &was, -31 })
	add("rear", subject(t, "rear", rear(), tallSection, 0.8), func(in *Input) { in.Rear = true })
	add("level", subject(t, "level", level(), levelSection, 0.2), nil)
	add("steep", subject(t, "steep", steep(), wideSection, 1), func(in *Input) { in.Travel = 12 })
	add("roll", was, func(in *Input) { in.Roll = 3 * degree })
	add("roll-before", subject(t, "longer arms", longer(), wideSection, 1), func(in *Input) {
		in.Roll, in.Rack, in.Before = -2.3*degree, 17, &was
	})
	add("rack", steered(t, was, 38), func(in *Input) { in.Rack, in.Travel = 38, 27 })
	add("bare", was, func(in *Input) { in.Overlays = 0 })
	add("lit", was, func(in *Input) { in.Overlays, in.Lit = 0, RollCentre })
	add("lit-camber", was, func(in *Input) { in.Overlays, in.Lit = ScrubAxis, CamberLine })
	add("lit-track", was, func(in *Input) { in.Overlays, in.Lit = ScrubAxis|RollCentre, HalfTrackLine })
	add("guide", was, func(in *Input) {
		in.Guides = []Guide{{Z: 219, Level: true}, {Y: 688}}
		in.Hover = UprightBody
	})
	list = append(list, demo{"roomy", roomy(t)})
	in := roomy(t)
	in.Travel, in.Rack, in.Overlays = in.Obstacles[0].Travel, in.Obstacles[0].Rack, Clearance|ScrubAxis
	in.Hover, in.Note = OfObstacle(0, 0), []string{"Inner wing", "x −118 mm  y 541 mm  z 596 mm"}
	list = append(list, demo{"roomy-worst", in})
	in = roomy(t)
	in.Roll, in.Rack, in.Overlays = 2.7*degree, -23, Clearance
	return append(list, demo{"roomy-roll", in})
}
