package pages

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/look"
	"armscribe/app/look/looktest"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// randomTable makes up a table as answers have them; every text in it is another one.
func randomTable(r *rand.Rand) *sheet.Table {
	n := 0
	word := func(most int) string {
		n++
		return fmt.Sprintf("w%d", n) + strings.Repeat("m", r.IntN(most))
	}
	t := &sheet.Table{Title: word(20), Columns: []sheet.Column{{Role: sheet.Name}}}
	for range 1 + r.IntN(8) {
		c := sheet.Column{Title: word(10)}
		if r.IntN(3) == 0 {
			c.Role = sheet.Text
		} else if r.IntN(2) == 0 {
			c.Band = word(6)
		}
		t.Columns = append(t.Columns, c)
	}
	t.Columns = append(t.Columns, sheet.Column{Role: sheet.Text, Under: true})
	for range 1 + r.IntN(3) {
		g := sheet.Group{}
		if r.IntN(2) == 0 {
			g.Name = word(30)
		}
		for range 1 + r.IntN(4) {
			row := sheet.Row{sheet.Words(word(30))}
			for _, c := range t.Columns[1 : len(t.Columns)-1] {
				n++
				if c.Role == sheet.Text {
					row = append(row, sheet.Words(word(12)))
				} else {
					row = append(row, sheet.Banded(sheet.Length, 1000+float64(n), 1))
				}
			}
			g.Rows = append(g.Rows, append(row, sheet.Words(word(40))))
		}
		t.Groups = append(t.Groups, g)
	}
	return t
}

// Every text of a table is seen in every width, none of them cut off, whichever way it
// is folded.
func TestATableFoldsIntoAnyWidth(t *testing.T) {
	useLook(t)
	const seed = 20261202
	r := rand.New(rand.NewPCG(seed, 1))
	for n := range 60 {
		table := randomTable(r)
		v := NewView()
		v.Show(&sheet.Sheet{Title: "x", Unit: units.Millimetre, Items: []sheet.Item{table}})
		win := test.NewTempWindow(t, v.Object())
		win.SetPadded(false)
		for _, width := range []float32{1400, 420, 300, 620, 240} {
			win.Resize(fyne.NewSize(width, 900))
			shown := map[string]bool{}
			for _, o := range test.LaidOutObjects(v.Object()) {
				switch k := o.(type) {
				case *word:
					shown[k.text.Text] = true
					at := fyne.CurrentApp().Driver().AbsolutePositionForObject(k)
					if right := at.X + k.MinSize().Width; right > width+1 && len(k.text.Text) < 12 {
						t.Errorf("seed %d, table %d at %g: %q ends at %g", seed, n, width, k.text.Text, right)
					}
				case *widget.RichText:
					shown[k.String()] = true
				case *fynecanvas.Text:
					shown[k.Text] = true
				}
			}
			laid := table.Lay(sheet.OnWindow, units.Millimetre)
			for _, row := range laid.Rows {
				for _, text := range append(append([]sheet.LaidText{{Text: row.Heading}}, row.Texts...), row.Under...) {
					if text.Text != "" && !shown[text.Text] {
						t.Errorf("seed %d, table %d at %g: %q is not seen", seed, n, width, text.Text)
					}
				}
			}
			for _, head := range laid.Heads {
				for _, text := range head {
					if text != "" && !shown[text] {
						t.Errorf("seed %d, table %d at %g: the head %q is not seen", seed, n, width, text)
					}
				}
			}
		}
	}
}

// The name of a tab, and the bar under the one that is open, are seen, painted light and
// dark.
func TestTabsStandOut(t *testing.T) {
	for _, mode := range []look.Mode{look.Light, look.Dark} {
		test.NewTempApp(t).Settings().SetTheme(look.Theme{Mode: mode})
		for _, chosen := range []bool{false, true} {
			k := newTab("Cure", func() {})
			k.choose(chosen)
			win := test.NewTempWindow(t, k)
			win.SetPadded(false)
			win.Resize(k.MinSize())
			img := win.Canvas().Capture()
			text, bar := img.Bounds(), img.Bounds()
			text.Max.Y -= tabBar + 1
			bar.Min.Y = bar.Max.Y - tabBar + 1
			const textLeast, markLeast = 4.5, 3
			if got := looktest.StandsOut(img, text); got < textLeast {
				t.Errorf("mode %d, open %t: the name %.2f : 1", mode, chosen, got)
			}
			if got := looktest.StandsOut(img, bar); (got >= markLeast) != chosen {
				t.Errorf("mode %d, open %t: the bar %.2f : 1", mode, chosen, got)
			}
		}
	}
}
