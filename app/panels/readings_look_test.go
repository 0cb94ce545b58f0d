package panels

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/app/frame"
	"armscribe/app/targets"
	"armscribe/app/units"
	"armscribe/canvas/draw"
	"armscribe/kinematics"
)

// scenes are the states of the readings that must look well.
var scenes = []struct {
	name  string
	demo  string
	at    frame.Position
	unit  units.Unit
	aim   bool
	w, h  float32
	hover float32
}{
	{name: "bump", demo: "gravel-estate", at: frame.Position{Travel: 20}, unit: units.Millimetre, w: 248, h: 560, hover: 200},
	{name: "tall", demo: "gravel-estate", at: frame.Position{Travel: -15.8}, unit: units.Millimetre, w: 248, h: 705, hover: 140},
	{name: "tall-roll", demo: "gravel-estate", at: frame.Position{Rack: 35.7, Roll: 0.026}, unit: units.Millimetre, w: 248, h: 705},
	{name: "rear", demo: "rear-toe-link", unit: units.Inch, w: 248, h: 705},
	{name: "inch", demo: "gravel-estate", at: frame.Position{Travel: -30, Rack: 12.7}, unit: units.Inch, w: 248, h: 560},
	{name: "rest", demo: "gravel-estate", unit: units.Millimetre, w: 248, h: 560},
	{name: "roll", demo: "gravel-estate", at: frame.Position{Rack: 9, Roll: 0.037}, unit: units.Millimetre, w: 248, h: 560},
	{name: "flat", demo: "flat-teaching", unit: units.Millimetre, w: 248, h: 560},
	{name: "out", demo: "gravel-estate", at: frame.Position{Travel: 2000}, unit: units.Millimetre, w: 248, h: 560},
	{name: "short", demo: "gravel-estate", at: frame.Position{Travel: 20}, unit: units.Millimetre, w: 248, h: 300, aim: true},
	{name: "wide", demo: "gravel-estate", at: frame.Position{Travel: 20}, unit: units.Millimetre, w: 330, h: 620, aim: true},
	{name: "narrow", demo: "gravel-estate", at: frame.Position{Travel: -30}, unit: units.Inch, w: 200, h: 560},
	{name: "sliver", demo: "gravel-estate", at: frame.Position{Travel: -30}, unit: units.Inch, w: 150, h: 560},
	{name: "narrow-roll", demo: "gravel-estate", at: frame.Position{Roll: -0.05}, unit: units.Inch, w: 200, h: 560},
}

var aims = []Target{
	{Of: kinematics.Toe, Verdict: targets.Missed, Words: "aim −0.05 to 0.15"},
	{Of: kinematics.ScrubRadius, Verdict: targets.Met, Words: "aim 25 to 45"},
	{Of: kinematics.RollCentreHeight, Verdict: targets.Undecided, Words: "aim 55 to 70"},
}

// Pictures for a look, and of each the check that texts do not overlap and stay
// inside.
func TestReadingsDoNotOverlap(t *testing.T) {
	for _, s := range scenes {
		b := newBench(t, s.demo)
		b.at, b.unit = s.at, s.unit
		for name, mode := range modes {
			r := NewReadings()
			w := show(t, r, mode, s.w, s.h)
			in := b.input()
			if s.aim {
				in.Targets = aims
			}
			r.SetInput(in)
			if s.hover > 0 {
				r.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(80, s.hover)}})
			}
			picture(t, fmt.Sprintf("readings-%s-%s", s.name, name), w)
			checkTexts(t, s.name, r, float64(s.w), float64(s.h))
		}
	}
}

// checkTexts lays all texts of the readings out and looks for overlaps among
// those that scroll together.
func checkTexts(t *testing.T, scene string, r *Readings, w, h float64) {
	t.Helper()
	var l draw.List
	r.draw(&l, w, h)
	type box struct {
		draw.Box
		text  string
		layer draw.Layer
	}
	var list []box
	for i := range l.Items() {
		it := &l.Items()[i]
		if it.Kind != draw.KindText {
			continue
		}
		text := l.TextOf(it)
		o := r.Styles().TextOrigin(it.Role, draw.OnScreen, it.Align, text)
		tw, up, down := r.Styles().TextSize(it.Role, draw.OnScreen, text)
		x, y := it.Centre.At.X+o.X, it.Centre.At.Y+o.Y
		// Capitals and figures reach less far than accents do.
		b := box{draw.Box{Min: draw.Point{X: x, Y: y - down*0.8}, Max: draw.Point{X: x + tw, Y: y + up*0.9}}, string(text), it.Layer}
		if b.Min.X < 4 || b.Max.X > w-4 {
			t.Errorf("%s: %q runs from %.0f to %.0f of %.0f points", scene, text, b.Min.X, b.Max.X, w)
		}
		list = append(list, b)
	}
	if len(list) < 12 {
		t.Errorf("%s: only %d texts", scene, len(list))
	}
	for i, a := range list {
		for _, b := range list[:i] {
			if a.layer == b.layer && a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y {
				t.Errorf("%s: %q and %q overlap", scene, a.text, b.text)
			}
		}
	}
}
