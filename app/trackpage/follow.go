package trackpage

import (
	"armscribe/app/pages"
	"armscribe/app/units"
)

// follow turns a field's number into another unit. A text that says the same in
// any unit stays, and one that would lose by rounding names its unit instead.
func follow(n *pages.Number, unit units.Unit) {
	text := n.Text
	mm, err := n.Value()
	inMM, errMM := units.Parse(text, units.Millimetre)
	inInch, errIn := units.Parse(text, units.Inch)
	n.Show(unit)
	switch now, errNow := n.Value(); {
	case err != nil:
	case errMM == nil && errIn == nil && inMM == inInch:
		n.SetText(text)
	case errNow != nil || now != mm:
		n.SetText(named(mm))
	}
}

// named writes a length with its unit, in the one that takes fewer digits.
func named(mm float64) string {
	a, b := units.Plain(mm, units.Millimetre)+" mm", units.Plain(mm, units.Inch)+" in"
	if len(b) < len(a) {
		return b
	}
	return a
}

// put shows a length as it was typed where that names its unit.
func put(n *pages.Number, l units.Length, unit units.Unit) {
	n.Set(l.MM, unit)
	if l.Typed != "" {
		n.SetText(l.Typed)
		follow(n, unit)
	}
}
