package trackpage

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/look"
	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/kinematics"
)

// bench is a page on a demo job, as a window holds it.
type bench struct {
	*Page
	doc  *document.Document
	unit units.Unit
	win  fyne.Window
}

// The sections by their place.
const (
	factsAt = iota
	waysAt
	reachAt
)

// open makes a page on a demo job.
func open(t testing.TB, demo string) *bench {
	t.Helper()
	data, ok := assets.Demo(demo)
	if !ok {
		t.Fatalf("no demo job %q", demo)
	}
	j, err := job.Read(demo, data)
	if err != nil {
		t.Fatal(err)
	}
	return openJob(t, j)
}

func openJob(t testing.TB, j *job.Job) *bench {
	t.Helper()
	a := test.NewTempApp(t)
	a.Settings().SetTheme(look.Theme{Mode: look.Light})
	b := &bench{doc: document.New(j, "", true), unit: j.Units}
	b.win = test.NewTempWindow(t, widget.NewLabel(""))
	shown := func(err error) error {
		if err == nil {
			b.Show()
		}
		return err
	}
	b.Page = New(Host{
		Host: pages.Host{
			Job: b.doc.Job, Variant: b.doc.Current, Unit: func() units.Unit { return b.unit },
			Edit: func(name string, change func(j *job.Job)) error { return shown(b.doc.EditJob(name, "", change)) },
			Keep: func(name, notes string, c kinematics.Corner) error {
				return shown(b.doc.AddVariant(name, func(v *job.Variant) {
					document.SetCorner(v, c)
					v.Notes = notes
				}))
			},
			GoTo: func(travel, rack, roll float64) {},
			Do:   func(f func()) { f() }, Win: b.win,
		},
		Add: func(name string, from int, list []job.Variant) error {
			return shown(b.doc.EditJob(name, "", func(j *job.Job) { j.Variants = append(j.Variants, list...) }))
		},
	})
	b.win.SetContent(b.Object())
	b.win.Resize(fyne.NewSize(1340, 780))
	b.Show()
	return b
}

// retype puts another text in a field, as a hand that pastes it.
func retype(f *pages.Field, text string) { f.SetText(text) }

// shownTexts are all texts that a table shows, in its order.
func shownTexts(g *pages.Grid) []string {
	var list []string
	for _, o := range g.Content.Objects {
		walk(o, func(o fyne.CanvasObject) {
			if t, ok := textOf(o); ok {
				list = append(list, t)
			}
		})
	}
	return list
}

func walk(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	f(o)
	switch k := o.(type) {
	case *fyne.Container:
		for _, c := range k.Objects {
			walk(c, f)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(k).Objects() {
			walk(c, f)
		}
	}
}

// drawn paints a picture of a size and tells whether anything stands on it.
func drawn(t testing.TB, b *bench) bool {
	t.Helper()
	image := b.win.Canvas().Capture()
	bounds := image.Bounds()
	right := bounds.Min.X + bounds.Dx()*3/4
	first := image.At(right, bounds.Min.Y+bounds.Dy()/4)
	for y := bounds.Min.Y + bounds.Dy()/4; y < bounds.Min.Y+bounds.Dy()*3/4; y += 2 {
		for x := right; x < bounds.Max.X-40; x += 2 {
			if image.At(x, y) != first {
				return true
			}
		}
	}
	return false
}
