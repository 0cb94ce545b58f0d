package trackpage

import (
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/canvas/plates"
)

// write shows the answer.
func (f *facts) write() {
	a := f.answer
	if a == nil {
		f.view.Show(nil)
		f.picture.Put(plates.Words("no wheel to draw"))
		return
	}
	f.tell(f.name(&a.now.Spec))
	plate := a.now.Plate(&a.Gaps, &a.corner, f.p.unit())
	plate.Note.Stale = f.stale
	f.picture.Put(plate)
	f.view.Show(a.now.Sheet(f.p.unit(), &a.WheelBeside))
}

// inches prints a rim's width as the trade does.
func inches(mm float64) string {
	return units.Trimmed(units.In(mm, units.Inch), 2) + " in"
}

// name is the wheel in short.
func (f *facts) name(spec *report.WheelSpec) string {
	return spec.Tyre + " on " + inches(spec.Rim) + ", offset " + pages.ShortLength(spec.Offset, f.p.unit()) + " " + f.p.unit().String()
}
