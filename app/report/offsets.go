package report

import (
	"armscribe/app/car"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// Offsets are, for each wheel that can be had, the offset and the spacer with which a
// variant keeps the measured scrub radius.
type Offsets struct {
	Source Source
	Rows   []OffsetsRow
}

// OffsetsRow is one wheel; Kept is nil where Fault says why nothing is known.
type OffsetsRow struct {
	Name  string
	Wheel job.Wheel
	Kept  *ScrubKept
	Fault error
}

// OffsetsOf asks for the variant's own wheel and for those that a job without problems
// lists. A wheel without an answer has its fault in its row.
func OffsetsOf(j *job.Job, variant int) *Offsets {
	o := &Offsets{Source: SourceOf(j, variant)}
	own := j.Variants[variant].Wheel
	add := func(name string, w job.Wheel) {
		next := j.Clone()
		next.Variants[variant].Wheel = w
		row := OffsetsRow{Name: name, Wheel: w}
		row.Kept, row.Fault = KeepScrub(j, variant, WheelSpecOf(next, variant))
		o.Rows = append(o.Rows, row)
	}
	add(ownWheel, own)
	for i := range j.Wheels {
		if w := j.Wheels[i].On(&own, units.Length{}); !sameWheel(&w, &own) {
			add(oneLine(j.Wheels[i].Name), w)
		}
	}
	return o
}

// Sheet is the answer.
func (o *Offsets) Sheet() *sheet.Sheet {
	t := &sheet.Table{Key: "wheels", Columns: []sheet.Column{
		{Role: sheet.Name, Key: "name"},
		{Title: "tyre", Role: sheet.Text, Key: "tyre"},
		{Title: "offset", UnitIn: true, Key: "offset_mm"},
		{Title: "spacer", UnitIn: true, Key: "spacer_mm"},
		{Title: "scrub radius", UnitIn: true, Band: " ", Key: "scrub_radius_mm"},
		{Title: "offset that keeps it", UnitIn: true, Band: " ", Key: "keeping_offset_mm"},
		{Title: "or spacer", UnitIn: true, Band: " ", Key: "keeping_spacer_mm"},
		{Role: sheet.Text, Key: "missing", Under: true, Whole: true},
		{Key: "scrub_radius_band_95_mm", On: sheet.InFile}, {Key: "keeping_offset_band_95_mm", On: sheet.InFile}, {Key: "keeping_spacer_band_95_mm", On: sheet.InFile},
	}, Groups: sheet.Rows()}
	for i := range o.Rows {
		t.Groups[0].Rows = append(t.Groups[0].Rows, o.Rows[i].row())
	}
	return o.Source.sheet(car.OnRim, "offsets that keep the measured scrub radius", o.notes, t)
}

func (r *OffsetsRow) row() sheet.Row {
	k, fault := r.Kept, ""
	if r.Fault != nil {
		k, fault = &ScrubKept{}, r.Fault.Error()
	}
	known := func(c sheet.Cell) sheet.Cell { return c.If(r.Fault == nil) }
	spacer, spacerBand := sheet.Missing(sheet.Taped, "none"), sheet.Cell{}.If(false)
	if k.Spacer > -likeWheel && k.Spacer <= MaxSpacer {
		spacerBand = sheet.Half(sheet.Taped, k.spacer.half).If(k.spacer.ok)
		spacer = sheet.BandedIf(sheet.Taped, max(0, k.Spacer), k.spacer.half, k.spacer.ok)
	}
	return sheet.Row{sheet.Words(r.Name), sheet.Words(r.Wheel.Tyre), sheet.Number(sheet.Chosen, r.Wheel.Offset.MM), sheet.Number(sheet.Chosen, r.Wheel.Spacer.MM),
		known(sheet.BandedIf(sheet.Taped, k.Now, k.now.half, k.now.ok)), known(sheet.BandedIf(sheet.Taped, k.Offset, k.offset.half, k.offset.ok)), known(spacer), sheet.Words(fault).If(r.Fault != nil),
		sheet.Half(sheet.Taped, k.now.half).If(k.now.ok), sheet.Half(sheet.Taped, k.offset.half).If(k.offset.ok), spacerBand}
}

func (o *Offsets) notes(u units.Unit) []sheet.Note {
	list := sheet.Notes("Beside the lengths their 95 % bands. The offset that keeps it goes with the spacer of the row, the spacer with its offset; none where the wheel stands too far out without one. "+
		"The steering axis is that of the variant, put to the loaded radius of each wheel.",
		"Whether rim and tyre clear brake, joints and body is for armcalc reach and clearance.")
	for i := range o.Rows {
		if k := o.Rows[i].Kept; k != nil {
			m := sheet.Banded(sheet.Length, k.Measured.Value, k.Measured.Band).Phrase(u)
			return append(sheet.Notes("Measured scrub radius: "+m+"."), list...)
		}
	}
	return list
}
