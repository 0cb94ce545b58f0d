package window

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"armscribe/app/document"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/kinematics"
)

// What belongs to the job is typed over any variant, what belongs to a locked
// one is not: neither its spring nor its wheel.
func TestTheCarsPanelRespectsTheLock(t *testing.T) {
	w := open(t, "gravel-estate")
	w.showVariant(0)
	if !w.doc.Locked() {
		t.Fatal("the measured variant is not locked")
	}
	before := w.bytes(t)
	for name, edit := range map[string]error{
		"spring": w.car.OnVariant("carry spring by the upright", func(v *job.Variant) { v.Spring.CarriedBy = kinematics.OnUpright }),
		"wheel":  w.wheel.OnEdit("type spacer", func(v *job.Variant) { v.Wheel.Spacer.MM = 12.5 }),
	} {
		if !errors.Is(edit, document.ErrLocked) || w.bytes(t) != before {
			t.Errorf("%s of a locked variant: %v", name, edit)
		}
	}
	if err := w.car.OnEdit("type brake gap", func(j *job.Job) { j.Brake.Gap = length(3.5) }); err != nil || w.doc.UndoName() != "type brake gap" {
		t.Errorf("the job's own: %v, undo %q", err, w.doc.UndoName())
	}
	w.doc.SetLocked(false)
	if err := w.wheel.OnEdit("type spacer", func(v *job.Variant) { v.Wheel.Spacer.MM = 12.5 }); err != nil || w.doc.Variant().Wheel.Spacer.MM != 12.5 {
		t.Errorf("unlocked: %v", err)
	}
}

// A travel or rack that becomes shorter takes the shown position along, also
// when it does so by undo; curves over a rack that is gone go over travel.
func TestAShorterTravelKeepsThePositionWithin(t *testing.T) {
	w := open(t, "gravel-estate")
	w.setTravel(66)
	w.setRack(-61)
	edit := func(change func(j *job.Job)) {
		t.Helper()
		if err := w.car.OnEdit("type travel", change); err != nil {
			t.Fatal(err)
		}
	}
	edit(func(j *job.Job) { j.Travel.Bump.MM, j.Rack.Right.MM = 41.5, 52.5 })
	if w.position != (frame.Position{Travel: 41.5, Rack: -52.5}) {
		t.Errorf("at %+v", w.position)
	}
	edit(func(j *job.Job) { j.Travel.Bump.MM = 72 })
	w.setTravel(72)
	w.undo()
	if w.position.Travel != 41.5 {
		t.Errorf("undone, at %+v", w.position)
	}
	w.setOver(frame.OverRack)
	edit(func(j *job.Job) { j.Rack = job.Rack{} })
	if w.curves.Over != frame.OverTravel || w.position.Rack != 0 {
		t.Errorf("without a rack: over %v at %+v", w.curves.Over, w.position)
	}
}

// The card leads to travel and spring, and the keyboard is there.
func TestTheCardLeadsToTheCar(t *testing.T) {
	w := openWith(t, "gravel-estate", func(j *job.Job) {
		noTargets(j)
		j.Obstacles[2].Gap = length(40) // more than there is
	})
	if err := w.spring.OnVariant("remove spring", func(v *job.Variant) { v.Spring = job.Spring{} }); err != nil {
		t.Fatal(err)
	}
	w.lineOf(t, "Ride", "Spring's ends").Go()
	if !w.isOpen(ride, springSection) || w.win.Canvas().Focused() != w.spring.SpringField() {
		t.Errorf("the spring leads to %q, focus %T", w.book().Section().Name(), w.win.Canvas().Focused())
	}
	w.choose(atAGlance)
	w.lineOf(t, "Check", "arch lip too near").Go()
	if !w.isOpen(check, clearanceSection) {
		t.Errorf("the arch lip leads to %q", w.book().Section().Name())
	}
	if err := w.editRoom("remove obstacles", func(j *job.Job) { j.Obstacles = nil }); err != nil {
		t.Fatal(err)
	}
	w.choose(atAGlance)
	w.aim(t, func(a *job.Targets) { a.Track = job.LengthRange{Min: length(1000)} })
	w.lineOf(t, "Check", "Travel").Go()
	if !w.isOpen(measure, carSection) || w.win.Canvas().Focused() != w.car.FirstField() {
		t.Errorf("the travel leads to %q, focus %T", w.book().Section().Name(), w.win.Canvas().Focused())
	}
	test.Type(w.win.Canvas().Focused(), "64")
	w.win.Canvas().Unfocus()
	if w.doc.Job().Travel.Bump.MM != 64 || !strings.Contains(w.bytes(t), "{bump: 64, droop: 70}") {
		t.Errorf("typed bump is %v", w.doc.Job().Travel.Bump.MM)
	}
}
