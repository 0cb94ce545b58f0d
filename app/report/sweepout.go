package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"armscribe/app/job"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// column is one column of a sweep; ok is false where the thing is at infinity.
type column struct {
	name string // in CSV and JSON, with its unit
	head string // in tables, without
	of   Quantity
	read func(r *kinematics.Readings) (value float64, ok bool)
}

func place(name, head string, kind kinematics.Kind, read func(*kinematics.Readings) float64) column {
	return column{name, head, Quantity{Kind: kind}, func(r *kinematics.Readings) (float64, bool) { return read(r), true }}
}

func reading(name, head string, q kinematics.Quantity) column {
	return column{name, head, known(q), func(r *kinematics.Readings) (float64, bool) { return r.Of(q) }}
}

// sweepColumns are the columns behind the side, in the order of the file. The
// names are promised to those who read the files: add at the end, change none.
var sweepColumns = []column{
	place("travel_mm", "travel", kinematics.Length, func(r *kinematics.Readings) float64 { return r.Travel }),
	place("rack_mm", "rack", kinematics.Length, func(r *kinematics.Readings) float64 { return r.Rack }),
	place("roll_deg", "roll", kinematics.Angle, func(r *kinematics.Readings) float64 { return r.Roll }),
	reading("camber_deg", "camber", kinematics.Camber),
	reading("toe_deg", "toe", kinematics.Toe),
	reading("caster_deg", "caster", kinematics.Caster),
	reading("steering_axis_inclination_deg", "axis incl.", kinematics.SteeringAxisInclination),
	reading("scrub_radius_mm", "scrub", kinematics.ScrubRadius),
	reading("trail_mm", "trail", kinematics.Trail),
	reading("half_track_mm", "half track", kinematics.HalfTrack),
	reading("instant_centre_y_mm", "IC out", kinematics.InstantCentreY),
	reading("instant_centre_z_mm", "IC up", kinematics.InstantCentreZ),
	reading("swing_arm_mm", "swing arm", kinematics.SwingArm),
	reading("roll_centre_y_mm", "RC aside", kinematics.RollCentreY),
	reading("roll_centre_height_mm", "RC height", kinematics.RollCentreHeight),
	reading("tie_rod_error_mm", "rod error", kinematics.TieRodError),
}

// bandEnd is what the name of a column gets for the name of its band's.
const bandEnd = "_band_95"

// SweepColumns returns the names of the columns of CSV and JSON, in order: side
// and values, the variant, and the 95 % band of each value that has one.
func SweepColumns() []string {
	list := []string{"side"}
	for _, c := range sweepColumns {
		list = append(list, c.name)
	}
	list = append(list, "variant")
	for i := range sweepColumns {
		if _, ok := quantityOf(&sweepColumns[i]); ok {
			list = append(list, sweepColumns[i].name+bandEnd)
		}
	}
	return list
}

// record is a row of a file: mm and degrees, empty where there is no value.
func (w *Sweep) record(row *Row) []string {
	record := []string{row.Side}
	var bands []string
	for i := range sweepColumns {
		c := &sweepColumns[i]
		text := ""
		v, ok := c.inFile(&row.Readings)
		if ok {
			text = plain(v)
		}
		record = append(record, text)
		if q, isReading := quantityOf(c); isReading {
			band := ""
			if half, known := row.bands.Of(q); ok && known {
				if half < rounding(c.of.Kind) {
					half = 0
				}
				half, _ = c.of.inUnit(half, units.Millimetre)
				band = plain(*bandOrNull(half, true))
			}
			bands = append(bands, band)
		}
	}
	record = append(append(record, w.Source.Variant), bands...)
	if w.Source.Within.AnyAssumed() {
		record = append(record, job.RestsWords(&w.Source.Within, &w.Source.Corner))
	}
	return record
}

// columns are SweepColumns, and one more where the sweep rests on what is assumed.
func (w *Sweep) columns() []string {
	names := SweepColumns()
	if w.Source.Within.AnyAssumed() {
		names = append(names, "assumed")
	}
	return names
}

// fileDecimals of CSV: a nanometre, or a billionth of a degree.
const fileDecimals = 9

// inFile is a column's value in mm or degrees.
func (c *column) inFile(r *kinematics.Readings) (float64, bool) {
	v, ok := c.read(r)
	v, _ = c.of.inUnit(v, units.Millimetre)
	return v, ok
}

// CSV prints the sweep after RFC 4180, lines ending in CR LF: mm and degrees,
// an empty cell where a thing is at infinity or has no band.
func (w *Sweep) CSV() string {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.UseCRLF = true
	write := func(record []string) {
		if err := out.Write(record); err != nil {
			panic(fmt.Sprintf("report: %v", err)) // a buffer takes everything
		}
	}
	write(w.columns())
	for i := range w.Rows {
		write(w.record(&w.Rows[i]))
	}
	out.Flush()
	return b.String()
}

// plain prints a number for CSV; what rounds to nought has no sign.
func plain(v float64) string {
	text := strconv.FormatFloat(v, 'f', fileDecimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return text[strings.IndexByte(text, '0'):]
	}
	return text
}

// JSON prints the sweep as a list of objects with the names of the CSV
// columns, in their order, and the same numbers; null where a thing is at
// infinity.
func (w *Sweep) JSON() string {
	names := w.columns()
	var b strings.Builder
	b.WriteString("[")
	for i := range w.Rows {
		if i > 0 {
			b.WriteString(",")
		}
		for j, text := range w.record(&w.Rows[i]) {
			switch {
			case names[j] == "side" || names[j] == "variant" || names[j] == "assumed":
				quoted, err := json.Marshal(text)
				if err != nil {
					panic("report: " + err.Error()) // a text has no fault
				}
				text = string(quoted)
			case text == "":
				text = "null"
			default:
				text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
			}
			fmt.Fprintf(&b, "%s    %q: %s", pickWord(j == 0, "\n  {\n", ",\n"), names[j], text)
		}
		b.WriteString("\n  }")
	}
	b.WriteString("\n]\n")
	return b.String()
}

// Table prints the sweep for a person.
func (w *Sweep) Table() string {
	s := &w.Source
	shown := w.tableColumns()
	g := grid{columns: []align{left}}
	heads, unitNames := []string{"side"}, []string{""}
	for _, c := range shown {
		g.columns = append(g.columns, point)
		_, unit := c.of.inUnit(0, s.Unit)
		heads, unitNames = append(heads, c.head), append(unitNames, unit)
	}
	g.row(heads...)
	g.row(unitNames...)
	for i := range w.Rows {
		cells := []string{w.Rows[i].Side}
		for _, c := range shown {
			cells = append(cells, w.cell(c, &w.Rows[i]))
		}
		g.row(cells...)
	}
	return oneLine(s.Job) + ": " + oneLine(s.Variant) + "\n" + w.held() + "\n" + g.String() + "\n" + foot(w.notes())
}

// tableColumns leaves out of a table what says nothing in it.
func (w *Sweep) tableColumns() []*column {
	var list []*column
	for j := range sweepColumns {
		c := &sweepColumns[j]
		switch c.name {
		case "travel_mm":
			if w.Spec.Over == OverRack {
				continue
			}
		case "rack_mm":
			if w.Spec.Over != OverRack {
				continue
			}
		case "roll_deg", "roll_centre_y_mm":
			if w.Spec.Over != OverRoll {
				continue
			}
		case "tie_rod_error_mm":
			if w.Spec.Over == OverRack && w.Spec.Travel == 0 {
				continue // nought by its meaning, at every place of the rack
			}
		}
		list = append(list, c)
	}
	return list
}

func (w *Sweep) held() string {
	within := ", points measured within ±" + w.Source.within() + "\n"
	switch w.Spec.Over {
	case OverRack:
		return "over rack, travel " + signedLength(w.Spec.Travel, w.Source.Unit) + within
	case OverRoll:
		return "over roll, left side up positive, mean travel nought, rack " + signedLength(w.Spec.Rack, w.Source.Unit) + within
	}
	return "over travel, bump positive, rack " + signedLength(w.Spec.Rack, w.Source.Unit) + within
}

// cell prints a value with the digits that its own band leaves.
func (w *Sweep) cell(c *column, row *Row) string {
	v, ok := c.read(&row.Readings)
	if !ok {
		return "∞"
	}
	shown, _ := c.of.inUnit(v, w.Source.Unit)
	q, isReading := quantityOf(c)
	if !isReading {
		if c.of.Kind == kinematics.Length {
			return placeCell(v, w.Source.Unit)
		}
		return units.Signed(units.SmallAngles.Short(shown))
	}
	if far := row.bands.Far(&row.Readings); q.OfCentre() && far != kinematics.Near {
		return far.Sign()
	}
	if q == kinematics.RollCentreY {
		return units.Taped.Number(v, w.Source.Unit) // by symmetry it has no band at rest
	}
	half, ok := row.bands.Of(q)
	if !ok || half < rounding(c.of.Kind) {
		half = 0
	}
	text, _ := splitBand(c.of.Kind, v, half, w.Source.Unit)
	return text
}

// quantityOf is the quantity that a column shows; false for travel, rack, roll.
func quantityOf(c *column) (kinematics.Quantity, bool) {
	for q := range kinematics.QuantityCount {
		if q.String() == c.of.Key {
			return q, true
		}
	}
	return 0, false
}

// measure finds the bands.
func (w *Sweep) measure() error {
	m, err := w.Source.mechanism()
	if err != nil {
		return err
	}
	for i := range w.Rows {
		r := &w.Rows[i]
		travel, rack := r.Readings.Travel, r.Readings.Rack
		if r.Side == "right" {
			rack = -rack
		}
		if r.bands, err = m.Bands(w.Source.Within, travel, rack); err != nil {
			return w.Source.named(err)
		}
	}
	return nil
}

// notes explain what the table leaves out.
func (w *Sweep) notes() []string {
	list := []string{fmt.Sprintf("Digits follow the 95 %% band of points measured within ±%s; armcalc readings prints the bands. ∞: at infinity.",
		w.Source.within())}
	if text := job.RestsWords(&w.Source.Within, &w.Source.Corner); text != "" {
		list = append(list, text)
	}
	if w.Spec.Over == OverRack || w.Spec.Over == OverTravel && w.Spec.Rack != 0 {
		list = append(list, "RC height: where this corner's own line from tyre to instant centre crosses the centre plane.")
	}
	if w.Source.RadiusFrom != "" {
		list = append(list, "estimate: scrub, trail, half track, swing arm and RC rest on "+w.Source.radiusNote()+".")
	}
	return list
}
