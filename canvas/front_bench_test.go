package canvas

import (
	"image"
	"testing"

	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/study"
)

// BenchmarkPaint is building and painting the front view with every overlay at
// 1400 x 900.
func BenchmarkPaint(b *testing.B) {
	v, in := benchView(b)
	for b.Loop() {
		in.Travel = -in.Travel
		v.in = in
		v.stale = true
		v.paint(1400, 900)
	}
}

// BenchmarkBuild is BenchmarkPaint without the painting.
func BenchmarkBuild(b *testing.B) {
	v, in := benchView(b)
	b.ReportAllocs()
	for b.Loop() {
		in.Travel = -in.Travel
		v.in = in
		v.stale = true
		v.build()
	}
}

func benchView(b *testing.B) (*FrontView, scene.Input) {
	subject := func(st *study.Study, spacer float64) scene.Subject {
		c := sampleCorner()
		c.Wheel.Spacer = spacer
		if err := st.Update(study.Case{Corner: c, Within: kinematics.Evenly(1), Span: study.Span{Bump: 71, Droop: 63}}, 0); err != nil {
			b.Fatal(err)
		}
		return scene.Subject{Name: "sample", Study: st, Section: sampleSection}
	}
	before := subject(&study.Study{}, 0)
	in := scene.Input{Now: subject(&study.Study{}, 12), Before: &before, Travel: 31, Overlays: scene.AllOverlays}
	v := NewFrontView()
	v.view = draw.View{Zoom: 1, W: 1400, H: 900}
	v.BaseWidget.Resize(sizeOf(1400, 900))
	v.SetInput(in)
	v.selected = scene.NoHandle
	return v, in
}

// BenchmarkPaintOnPhoto is BenchmarkPaint over a photo that stays where it is,
// BenchmarkTransformPhoto what a change of the view adds: 12 megapixels.
func BenchmarkPaintOnPhoto(b *testing.B) {
	v, in := benchView(b)
	v.SetUnderlay(benchPhoto())
	v.paint(1400, 900)
	for b.Loop() {
		in.Travel = -in.Travel
		v.in = in
		v.stale = true
		v.paint(1400, 900)
	}
}

func BenchmarkTransformPhoto(b *testing.B) {
	v, _ := benchView(b)
	u := benchPhoto()
	for b.Loop() {
		u.X++
		v.SetUnderlay(u)
		v.ground(1400, 900)
	}
}

func benchPhoto() Underlay {
	img := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for i := range img.Pix {
		img.Pix[i] = uint8(i>>7) | 3
		if i%4 == 3 {
			img.Pix[i] = 255
		}
	}
	return Underlay{Image: img, XX: 0.4, XY: 0.02, X: -100, YX: 0.02, YY: -0.4, Y: 900, Opacity: 0.5}
}

// BenchmarkDragAmongObstacles is one frame of a drag with ten obstacles, whose
// gaps and outlines are there: front view at 1400 x 560 and plan at 1400 x 340.
func BenchmarkDragAmongObstacles(b *testing.B) {
	front, in := benchView(b)
	plan := NewPlanView()
	amongObstacles(b, &in, tenObstacles())
	front.BaseWidget.Resize(sizeOf(1400, 560))
	front.view.H = 560
	plan.Resize(sizeOf(1400, 340))
	plan.StandUnder(front)
	front.SetInput(in)
	plan.SetInput(in)
	for b.Loop() {
		in.Travel = -in.Travel
		front.SetInput(in)
		plan.SetInput(in)
		front.paint(1400, 560)
		plan.paint(1400, 340)
	}
}

// amongObstacles puts in obstacles, their gaps, and fine outlines.
func amongObstacles(t testing.TB, in *scene.Input, list []scene.Obstacle) {
	body := clearance.Tyre{Radius: 320, Section: 205, Tread: 161, Shoulder: 18, Widest: 279}
	ring := clearance.Ring{Barrel: 370, Seat: 406, Overall: 191}
	in.Now.Section.Tyre = body
	span := clearance.Span{Bump: 71, Droop: 63, Left: 40, Right: 40}
	c := clearance.Case{Tyre: body, Ring: ring}
	for _, o := range list {
		c.Obstacles = append(c.Obstacles, o.Obstacle)
	}
	r, err := clearance.Sweep(&in.Now.Study.Mechanism, c, clearance.Coarse(span))
	if err != nil {
		t.Fatal(err)
	}
	in.Obstacles = nil
	for i, o := range c.Obstacles {
		in.Obstacles = append(in.Obstacles, scene.ObstacleOf(o, &r.Answers[i]))
	}
	for view := range in.Swept {
		if in.Swept[view], err = clearance.Outline(&in.Now.Study.Mechanism, body, span, clearance.View(view), true); err != nil {
			t.Fatal(err)
		}
	}
}

// tenObstacles are ten of three kinds.
func tenObstacles() (list []scene.Obstacle) {
	for i := range 10 {
		o := sampleObstacles()[i%3]
		o.A.X += 17 * float64(i)
		if o.Shape == clearance.Line {
			o.B.X += 17 * float64(i)
		}
		list = append(list, o)
	}
	return list
}
