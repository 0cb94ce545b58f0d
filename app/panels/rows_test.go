package panels

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"armscribe/app/look"
)

// Where one row grows by what another gives up, the sum of all stays and the
// rows still have to move.
func TestRowsMoveThoughTheSumOfHeightsStays(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Mode: look.Light})
	c := newAskColumn()
	rows := [3]*textRow{newTextRow(), newTextRow(), newTextRow()}
	long := strings.Repeat("what the wheel must not touch ", 5)
	say := func(texts ...string) {
		for i, text := range texts {
			rows[i].say(text, look.ColorQuiet)
		}
	}
	say("short", "short", long)
	c.setRows([]row{rows[0], rows[1], rows[2]})
	win := test.NewTempWindow(t, c)
	win.Resize(fyne.NewSize(260, 400))
	before := c.content.MinSize()
	say(long, "short", "short")
	if c.content.MinSize() != before {
		t.Fatal("the sum of the heights changes: this test tells nothing")
	}
	c.follow()
	for i, r := range rows[1:] {
		if above := rows[i]; r.Position().Y < above.Position().Y+above.note.height(above.Size().Width) {
			t.Errorf("row %d begins at %g, above it one of %g high at %g", i+1, r.Position().Y, above.note.height(above.Size().Width), above.Position().Y)
		}
	}
}
