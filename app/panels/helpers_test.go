package panels

import (
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/car"
	"armscribe/app/document"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics/study"
)

var pictures = flag.String("panel-pictures", "", "folder to write painted panels to, for a look")

// bench is a panel's owner: a document and the frame of its variant.
type bench struct {
	t     testing.TB
	doc   *document.Document
	frame frame.Frame
	at    frame.Position
	unit  units.Unit
	names []string // of the edits asked for
}

func newBench(t testing.TB, demo string) *bench {
	t.Helper()
	data, ok := assets.Demo(demo)
	if !ok {
		t.Fatalf("no demo job %q", demo)
	}
	j, err := job.Read(demo, data)
	if err != nil {
		t.Fatal(err)
	}
	return &bench{t: t, doc: document.New(j, "", true), unit: units.Millimetre}
}

// input solves the frame anew and returns the input.
func (b *bench) input() Input {
	b.t.Helper()
	now := car.StudyOf(b.doc.Job(), b.doc.Variant())
	var before *study.Case
	if v, ok := b.doc.Compared(); ok && v.Name != b.doc.Variant().Name {
		c := car.StudyOf(b.doc.Job(), v)
		before = &c
	}
	if err := b.frame.Update(now, before, b.at); err != nil {
		b.t.Fatal(err)
	}
	return Input{Job: b.doc.Job(), Variant: b.doc.Variant(), Frame: &b.frame, Unit: b.unit}
}

// edit is the owner's answer to a panel's wish.
func (b *bench) edit(name string, change func(v *job.Variant)) error {
	b.names = append(b.names, name)
	return b.doc.Edit(name, "", change)
}

// show puts an object into a window of that size.
func show(t testing.TB, o fyne.CanvasObject, mode look.Mode, w, h float32) fyne.Window {
	t.Helper()
	a := test.NewTempApp(t)
	a.Settings().SetTheme(look.Theme{Mode: mode})
	win := test.NewTempWindow(t, o)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// picture writes what a window shows, if asked for.
func picture(t testing.TB, name string, w fyne.Window) {
	t.Helper()
	if *pictures == "" {
		return
	}
	f, err := os.Create(filepath.Join(*pictures, name+".png"))
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, w.Canvas().Capture()); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

var modes = map[string]look.Mode{"light": look.Light, "dark": look.Dark}
