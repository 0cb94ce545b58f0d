// Package pagetest is the bench on which pages are tested: a job in a document
// and a window about it, in one goroutine. For tests of pages and panels; no
// program links it.
package pagetest

import (
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics"
)

// Bench holds a job as a window does.
type Bench struct {
	Doc  *document.Document
	Unit units.Unit
	Win  fyne.Window
	// Changed is told after every change of the job; the page shows itself anew.
	Changed func()
	// Gone is where the page last sent the corner: travel, rack, roll.
	Gone []float64
	// Apart, if set, gets what the page runs beside the toolkit's goroutine;
	// otherwise that runs at once.
	Apart func(f func())
}

// Demo reads a demo job.
func Demo(t testing.TB, name string) *job.Job {
	t.Helper()
	data, ok := assets.Demo(name)
	if !ok {
		t.Fatalf("no demo job %q", name)
	}
	j, err := job.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// New opens a window on a job; Put puts the page into it.
func New(t testing.TB, j *job.Job) *Bench {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Mode: look.Light})
	return &Bench{Doc: document.New(j, "", true), Unit: j.Units, Win: test.NewTempWindow(t, widget.NewLabel("")), Changed: func() {}}
}

// Put shows a page in the window, brought up to date by changed.
func (b *Bench) Put(page fyne.CanvasObject, width, height float32, changed func()) {
	b.Changed = changed
	b.Win.SetContent(page)
	b.Win.Resize(fyne.NewSize(width, height))
	changed()
}

// Host is what a page asks of the window.
func (b *Bench) Host() pages.Host {
	return pages.Host{
		Job: b.Doc.Job, Variant: b.Doc.Current, Unit: func() units.Unit { return b.Unit },
		Edit: func(name string, change func(j *job.Job)) error { return b.Shown(b.Doc.EditJob(name, "", change)) },
		Keep: func(name, notes string, c kinematics.Corner, also func(v *job.Variant)) error {
			return b.Shown(b.Doc.AddVariant(name, func(v *job.Variant) {
				document.SetCorner(v, c)
				v.Notes = notes
				if also != nil {
					also(v)
				}
			}))
		},
		GoTo: func(travel, rack, roll float64) { b.Gone = []float64{travel, rack, roll} },
		Do:   func(f func()) { f() },
		Go: func(f func()) {
			if b.Apart != nil {
				b.Apart(f)
				return
			}
			f()
		},
		Dialogs: &keyed.Dialogs{Win: b.Win}, Folder: os.TempDir,
	}
}

// Shown tells of a change that was not refused, and hands its error on.
func (b *Bench) Shown(err error) error {
	if err == nil {
		b.Changed()
	}
	return err
}

// File is the job as a file.
func (b *Bench) File(t testing.TB) string {
	t.Helper()
	data, err := b.Doc.Job().Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Press taps the button of that text in the question that is open.
func (b *Bench) Press(t testing.TB, text string) {
	t.Helper()
	top := b.Win.Canvas().Overlays().Top()
	if top == nil {
		t.Fatalf("no question is open that could offer %q", text)
	}
	for _, k := range All[*keyed.Button](top) {
		if k.Text == text {
			test.Tap(k)
			return
		}
	}
	t.Fatalf("the question has no button %q", text)
}

// Walk calls f for an object and all that it shows.
func Walk(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	f(o)
	switch k := o.(type) {
	case *fyne.Container:
		for _, c := range k.Objects {
			Walk(c, f)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(k).Objects() {
			Walk(c, f)
		}
	}
}

// All are the objects of one kind within another.
func All[O fyne.CanvasObject](within fyne.CanvasObject) (list []O) {
	Walk(within, func(o fyne.CanvasObject) {
		if k, ok := o.(O); ok {
			list = append(list, k)
		}
	})
	return list
}

// Texts are all texts that a table shows, in its order.
func Texts(g *pages.Grid) (list []string) {
	for _, o := range g.Content.Objects {
		for _, t := range All[*fynecanvas.Text](o) {
			list = append(list, t.Text)
		}
	}
	return list
}

// Enter types a text into a field and leaves it with Enter.
func Enter(f *pages.Field, text string) {
	f.SetText(text)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// Said are the sentences that a view shows, one a line.
func Said(v *pages.View) string {
	var lines []string
	for _, l := range All[*widget.Label](v.Object()) {
		lines = append(lines, l.Text)
	}
	return strings.Join(lines, "\n")
}

// Foot are the notes that a view shows.
func Foot(v *pages.View) string {
	list := All[*widget.RichText](v.Object())
	if len(list) == 0 {
		return ""
	}
	return list[len(list)-1].String() // the others run over tables
}
