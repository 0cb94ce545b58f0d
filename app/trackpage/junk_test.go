package trackpage

import (
	"testing"

	"armscribe/app/pages"
	"armscribe/canvas/draw"
)

// No text in any field ends in a crash or in a drawing that cannot be: what is
// no use is said, and the list panics on a number that is none.
func TestJunkInAnyField(t *testing.T) {
	junk := []string{"", " ", "NaN", "inf", "-", "1e400", "0", "-0.001", "9999", "10 m", "99999 m", "1/0", "205/65R15", "\x00\xff", "½", "0,5", "300", "-300", "50.8", "24 in"}
	for _, demo := range []string{"gravel-estate", "rear-toe-link"} {
		b := open(t, demo)
		f, w, r := b.facts, b.ways, b.reach
		var list draw.List
		for at, fields := range [][]*pages.Field{
			{f.tyre, f.rim.Field, f.offset.Field, f.back.Field, f.space.Field},
			{w.by.Field, w.scrub.Field},
			{r.to.Field, r.scrub.Field, r.spacer[0].Field, r.spacer[1].Field, r.arms[0].Field, r.arms[1].Field},
		} {
			b.Select(at)
			for _, field := range fields {
				good := field.Text
				for _, text := range junk {
					field.SetText(text)
					list.Reset()
					[]func(l *draw.List, w, h float64){f.picture.Plate.Draw, w.picture.Plate.Draw, r.picture.Plate.Draw}[at](&list, 431, 517)
					if len(list.Items()) == 0 {
						t.Fatalf("%s, section %d: nothing is drawn for %q", demo, at, text)
					}
				}
				field.SetText(good)
			}
			for _, note := range []*pages.Notice{f.note, w.note, r.note} {
				if !note.Hidden {
					t.Errorf("%s: the good texts are refused: %q", demo, note.Text)
				}
			}
		}
		if b.Doc.UndoName() != "" {
			t.Errorf("typing has changed the job: %s", b.Doc.UndoName())
		}
	}
}
