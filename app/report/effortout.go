package report

import (
	"fmt"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// Table prints the cases for a person.
func (e *Efforts) Table() string {
	s := &e.Source
	g := grid{columns: []align{left, point, left, left, left}}
	g.row("", "value", "95 % band", "unit", "positive when it")
	for i := range e.Cases {
		c := &e.Cases[i]
		g.row(c.Name)
		if c.Missing != "" {
			g.row("  no answer: " + oneLine(c.Missing))
			continue
		}
		for n := range c.Lines {
			value, band, unit := c.Lines[n].Cells()
			g.row("  "+c.Lines[n].Name, value, band, unit, c.Lines[n].Positive)
		}
	}
	what := "steering"
	if e.loading.rear {
		what = "toe links"
	}
	head := fmt.Sprintf("%s: %s, forces in the %s; INDICATIVE ONLY\npoints measured within ±%s\n", oneLine(s.Job), oneLine(s.Variant), what, lengthText(s.Within, s.Unit))
	return head + "\n" + g.String() + "\n" + foot(e.notes())
}

// Notes say under what the forces were reckoned, and by what formula, to one
// who has a window and no flags.
func (e *Efforts) Notes() []string {
	bare := *e
	bare.loading = e.loading.bare()
	return bare.notes()
}

// springNote says what a spring on the upright does to the moments; none for a
// spring elsewhere.
func (s *Source) springNote() []string {
	if s.Corner.Spring.Carrier != kinematics.OnUpright {
		return nil
	}
	return []string{"The spring stands on the upright and turns it about the steering axis too: its share is in the moments and forces."}
}

func (e *Efforts) notes() []string {
	list := e.loading.words(e.Source.Unit)
	list = append(list, e.Source.springNote()...)
	if !e.loading.rear {
		list = append(list, "Parking torque: J. J. Taborek, Mechanics of Vehicles (1957), from memory: grip x load x root(tread² / 8 + arm²), arm from where the axis meets the ground to the tyre's contact; the tread is "+
			lengthText(e.loading.tread, e.Source.Unit)+" wide. Its mean arm is a root mean square: some 6 % more than friction summed over an evenly loaded round patch.")
	}
	if s := e.Source.radiusNote(); s != "" {
		list = append(list, "They rest on "+s+".")
	}
	return append(list, "Bands are those of the measured points alone.")
}

type effortLineJSON struct {
	Key      string   `json:"key"`
	Name     string   `json:"name"`
	Value    float64  `json:"value"`
	Unit     string   `json:"unit"`
	Band     *float64 `json:"band_95"`
	Positive string   `json:"positive_when_it"`
}

type effortCaseJSON struct {
	Key     string           `json:"key"`
	Name    string           `json:"name"`
	Lines   []effortLineJSON `json:"values"`
	Missing string           `json:"missing,omitempty"`
}

type effortJSON struct {
	Job        string           `json:"job"`
	Variant    string           `json:"variant"`
	Within     float64          `json:"measured_within_mm"`
	Indicative bool             `json:"indicative_only"`
	Cases      []effortCaseJSON `json:"cases"`
	Loading    loadingJSON      `json:"conditions"`
	Notes      []string         `json:"notes"`
	Caution    string           `json:"caution"`
}

// JSON prints the cases for a program: N and N m.
func (e *Efforts) JSON() string {
	mm := *e
	mm.Source.Unit = units.Millimetre
	out := effortJSON{Job: e.Source.Job, Variant: e.Source.Variant, Within: e.Source.Within, Indicative: true, Loading: e.loading.json(), Notes: mm.notes(), Caution: Caution}
	for i := range e.Cases {
		c := &e.Cases[i]
		list := effortCaseJSON{Key: c.Key, Name: c.Name, Lines: []effortLineJSON{}, Missing: c.Missing}
		for n := range c.Lines {
			if l := &c.Lines[n]; c.Missing == "" {
				v, unit := l.amount.inUnit(l.Value, units.Millimetre)
				half, _ := l.amount.inUnit(l.Band, units.Millimetre)
				list.Lines = append(list.Lines, effortLineJSON{l.Key, l.Name, number12(v), unit, bandOrNull(half, l.HasBand), l.Positive})
			}
		}
		out.Cases = append(out.Cases, list)
	}
	return encode(out)
}
