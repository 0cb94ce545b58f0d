package bumppage

import (
	"math"

	"armscribe/app/pages"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// figure prints a length without its unit.
func (p *Page) figure(mm float64) string {
	return units.Built.Number(mm, p.setup.Unit)
}

// short prints a length that somebody chose, without its unit.
func (p *Page) short(mm float64) string { return units.ShortNumber(mm, p.setup.Unit) }

// way prints a move with its sign, without its unit.
func (p *Page) way(mm float64) string { return units.Signed(p.figure(mm)) }

// toeText prints a toe change in degrees, with its sign.
func toeText(rad float64) string { return units.Signed(units.SmallAngles.Number(rad * pages.Degree)) }

// banded prints a value with its band, times a factor; a band of rounding alone
// is none.
func banded(b bumpsteer.Banded, factor float64) string {
	const rounding = 1e-6
	v, half := b.Value*factor, math.Abs(b.Half*factor)
	if half < rounding {
		return units.FormatNumber(v, 3)
	}
	return units.FormatWithBand(v, half)
}

// lengthBand prints a length with its band, without its unit.
func (p *Page) lengthBand(b bumpsteer.Banded) string {
	return banded(b, units.In(1, p.setup.Unit))
}

// rimText prints a toe change as a length across the gauge's width.
func (p *Page) rimText(rad float64) string {
	return units.Gauged.Number(p.setup.Gauge.Length(rad), p.setup.Unit)
}

// across says what toe as a length is measured over; empty where nothing says.
func (p *Page) across() string {
	g := &p.setup
	switch {
	case g.Gauge.Width == 0:
		return ""
	case g.FromRim:
		return "across the rim of " + units.ShortLength(g.Gauge.Width, p.setup.Unit)
	}
	return "across the gauge of " + units.ShortLength(g.Gauge.Width, p.setup.Unit)
}

// said is an error in the unit on display.
func (p *Page) said(err error) error { return units.Said(err, p.setup.Unit) }
