package trackpage

import (
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/units"
)

// write shows the answer.
func (f *facts) write() {
	defer f.picture.Redraw()
	if a := f.answer; a == nil {
		f.view.Show(nil)
	} else {
		f.tell(f.name(&a.now.Spec))
		a.plate = a.now.Plate(&a.Gaps, &a.corner, f.p.unit())
		f.view.Show(a.now.Sheet(f.p.unit(), &a.WheelBeside))
	}
}

// inches prints a rim's width as the trade does.
func inches(mm float64) string {
	return units.Trimmed(units.In(mm, units.Inch), 2) + " in"
}

// name is the wheel in short.
func (f *facts) name(spec *report.WheelSpec) string {
	return spec.Tyre + " on " + inches(spec.Rim) + ", offset " + pages.ShortLength(spec.Offset, f.p.unit()) + " " + f.p.unit().String()
}
