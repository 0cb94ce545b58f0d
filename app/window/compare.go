package window

import (
	"strconv"

	"armscribe/app/figures"
	"armscribe/app/pages"
	"armscribe/app/report"
)

// showCompare leads to all variants side by side.
func (w *Window) showCompare() { w.open(handOver, besideSection) }

// compareView leads to a variant by its button.
func (w *Window) compareView() *pages.View {
	view := pages.NewView()
	view.Act = func(variant string, _ int) {
		i, err := strconv.Atoi(variant)
		if err != nil {
			panic("window: no variant " + variant)
		}
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
