package trackpage

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/pages/pagetest"
)

// bench is a page on a job.
type bench struct {
	*Page
	*pages.Book
	*pagetest.Bench
}

// The sections by their place.
const (
	factsAt = iota
	waysAt
	reachAt
)

const (
	frontDemo = "gravel-estate"
	rearDemo  = "rear-toe-link"
)

// The variants of the demo job of a front axle.
const (
	asMeasured = iota
	spacersOnly
	longerArms
)

// open makes a page on a demo job.
func open(t testing.TB, demo string) *bench {
	t.Helper()
	return openJob(t, pagetest.Demo(t, demo))
}

func openJob(t testing.TB, j *job.Job) *bench {
	t.Helper()
	b := &bench{Bench: pagetest.New(t, j)}
	b.Page = New(Host{Host: b.Host(), Add: func(name string, from int, list []job.Variant) error {
		return b.Shown(b.Doc.EditJob(name, "", func(j *job.Job) { j.Variants = append(j.Variants, list...) }))
	}})
	b.Book = pages.NewBook("", append(append(b.Fit(), b.Arms()...), b.Check()...)...)
	b.Put(b.Object(), 1340, 900, b.Book.Show)
	return b
}

// openAt makes a page on a variant of a demo job, open at a section.
func openAt(t testing.TB, demo string, variant int, section string) *bench {
	t.Helper()
	b := open(t, demo)
	b.Doc.Show(variant)
	b.section(t, section)
	return b
}

// section shows a section by its name.
func (b *bench) section(t testing.TB, name string) {
	t.Helper()
	const sections = 7
	for i := range sections {
		b.Select(i)
		if b.Section().Name() == name {
			return
		}
	}
	t.Fatalf("no section %q", name)
}

// buttons are the open section's whose text begins so.
func (b *bench) buttons(begin string) (list []*keyed.Button) {
	for _, k := range pagetest.All[*keyed.Button](b.Section().Object()) {
		if strings.HasPrefix(k.Text, begin) {
			list = append(list, k)
		}
	}
	return list
}

// retype puts another text in a field, as a hand that pastes it.
func retype(f *pages.Field, text string) { f.SetText(text) }

// drawn paints the section's picture and tells whether anything stands on it.
func drawn(t testing.TB, b *bench) bool {
	t.Helper()
	list := pagetest.All[*pages.Picture](b.Section().Object())
	if len(list) != 1 || list[0].Size().Width < 300 || list[0].Size().Height < 200 {
		return false
	}
	image := list[0].Paint(600, 400)
	for y := 0; y < 400; y += 2 {
		for x := 0; x < 600; x += 2 {
			if image.At(x, y) != image.At(0, 0) {
				return true
			}
		}
	}
	return false
}

// Every field of every section is painted: a field in a wrapper of its own would
// take its room and stay blank.
func TestEveryFieldIsPainted(t *testing.T) {
	s := open(t, frontDemo)
	for i, name := range []string{"Wheel and tyre", "Two ways", "Find a way", "Lock and circle", "Effort", "Joint angles"} {
		s.Select(i)
		fields := 0
		pagetest.Walk(s.Section().Object(), func(o fyne.CanvasObject) {
			w, ok := o.(fyne.Widget)
			if _, focusable := o.(fyne.Focusable); !ok || !focusable || !o.Visible() {
				return
			}
			fields++
			for _, part := range test.WidgetRenderer(w).Objects() {
				if part.Size().Width > 0 {
					return
				}
			}
			t.Errorf("%s: a %T of %v has no part with a size", name, o, o.Size())
		})
		if fields == 0 {
			t.Errorf("%s: no field", name)
		}
	}
}
