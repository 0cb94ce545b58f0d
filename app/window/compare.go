package window

import (
	"strconv"

	"fyne.io/fyne/v2"

	"armscribe/app/figures"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
)

// compareSize is that of the page of all variants: as large as the window has
// room for.
var compareSize = fyne.NewSize(1600, 1000)

// showCompare opens the page with all variants side by side.
func (w *Window) showCompare() {
	view := w.compareView()
	lines := keyed.NewScroll(view.Object())
	w.openPage("All variants side by side", lines, compareSize, func() { view.Show(w.comparison().Sheet()) })
	w.win.Canvas().Focus(lines)
}

// compareView leads to a variant by its button.
func (w *Window) compareView() *pages.View {
	view := pages.NewView()
	view.Act = func(variant string, _ int) {
		i, err := strconv.Atoi(variant)
		if err != nil {
			panic("window: no variant " + variant)
		}
		w.closePage()
		w.showVariant(i)
	}
	return view
}

// comparison sets every variant at the present position against the one compared
// with, else the measured one.
func (w *Window) comparison() *report.Comparison {
	sources := report.SourcesOf(w.doc.Job())
	for i := range sources {
		sources[i].Unit = w.unit
	}
	return w.compareOf(sources)
}

func (w *Window) compareOf(sources []report.Source) *report.Comparison {
	at := figures.Position{Travel: w.position.Travel, Rack: w.position.Rack, Roll: w.position.Roll}
	c := report.CompareAt(sources, max(w.doc.ComparedIndex(), 0), at)
	c.Shown, c.Targets = w.doc.Current(), report.TargetsOf(w.doc.Job())
	return c
}
