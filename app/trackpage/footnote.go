package trackpage

import (
	"strings"

	"fyne.io/fyne/v2/widget"

	"armscribe/app/pages"
)

// footnote is the quiet text under a section.
type footnote struct{ *widget.RichText }

func newFootnote() footnote { return footnote{pages.Hint("")} }

// say shows sentences.
func (f footnote) say(sentences ...string) {
	f.Segments[0].(*widget.TextSegment).Text = strings.Join(sentences, " ")
	f.Refresh()
}
