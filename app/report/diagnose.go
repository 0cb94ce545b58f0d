package report

import (
	"fmt"
	"strings"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// Diagnosed says what is wrong with a toe curve, where the rack end would have
// to be, and what moving the rack would do.
type Diagnosed struct {
	Source    Source
	Setup     tune.Setup
	Diagnosis bumpsteer.Diagnosis
	Ideal     bumpsteer.IdealRackEnd
	Moved     []*RackMoved
}

// DiagnoseOf looks at one variant of a job without problems over a travel
// range that holds rest, the rack moved in steps of mm. Errors match
// bumpsteer.ErrRange, are those of RackMovedOf or name the variant.
func DiagnoseOf(j *job.Job, variant int, step, from, to float64) (*Diagnosed, error) {
	d := &Diagnosed{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant)}
	goal := bumpsteer.Goal{From: from, To: to}
	c, within := d.Source.Corner, d.Source.Within
	if _, err := bumpsteer.Measured(c, goal); err != nil {
		return nil, d.Source.Named(err)
	}
	var err error
	if d.Diagnosis, err = bumpsteer.Diagnose(c, within, from, to); err != nil {
		return nil, d.Source.Named(err)
	}
	if d.Ideal, err = bumpsteer.FindRackEnd(c, within, from, to); err != nil {
		return nil, d.Source.Named(err)
	}
	for _, f := range RackFreedoms {
		m, err := RackMovedOf(j, variant, f, step, from, to)
		if err != nil {
			return nil, err
		}
		d.Moved = append(d.Moved, m)
	}
	return d, nil
}

// InUnit has screens show lengths in another unit than the job's.
func (d *Diagnosed) InUnit(u units.Unit) { d.Source.Unit, d.Setup.Unit = u, u }

// sentence says by how much toe changes.
func (d *Diagnosed) sentence() string {
	g, u, k := &d.Diagnosis, d.Source.Unit, d.Setup.Gauge
	text := fmt.Sprintf("The toe of each wheel changes by up to %s from rest", sheet.Number(sheet.Toe, g.Change).Phrase(u))
	if k.Width > 0 {
		from := "the gauge's width"
		if d.Setup.FromRim {
			from = "the rim"
		}
		text += fmt.Sprintf(", or %s across %s of %s", sheet.Number(sheet.LaidOut, k.Length(g.Change)).Phrase(u), from, lengthText(k.Width, u))
	}
	return text + ": at " + units.Place(g.ChangeAt, u) + "."
}

// Sheet is the answer.
func (d *Diagnosed) Sheet() *sheet.Sheet {
	s, g := &d.Source, &d.Diagnosis
	items := []sheet.Item{sheet.Field{Key: "gauge_width_mm", Cell: sheet.Number(sheet.Chosen, d.Setup.Gauge.Width)}}
	items = append(items, sheet.Prose{On: sheet.OnWindow, Lines: []sheet.Line{{Text: d.sentence()}}})
	items = append(items, toeParts("Toe curve", "diagnosis", &d.Setup, g, tune.ByTape)...)
	items = append(items, d.ends(), d.idealWords(), d.idealFile())
	for _, m := range d.Moved {
		t := m.table()
		t.On = sheet.OnText // a window has a page of them
		items = append(items, t)
	}
	out := s.sheet(s.Over(g.From, g.To), "toe curve over travel from "+signedLength(g.From, s.Unit)+" to "+signedLength(g.To, s.Unit), d.notes, append(items, rackFile(d.Moved...))...)
	out.Head[len(out.Head)-1] += "; largest change of toe from rest " + sheet.Number(sheet.Toe, g.Change).Phrase(s.Unit) + " at " + units.Place(g.ChangeAt, s.Unit)
	return out
}

func (d *Diagnosed) inner() string { return d.Setup.InnerEnd() }

// ends are how far the present inner end stands from the ideal one.
func (d *Diagnosed) ends() *sheet.Table {
	t := &sheet.Table{Title: "Present " + d.inner() + " from the ideal one", On: sheet.OnScreens, Groups: sheet.Rows(), Columns: []sheet.Column{
		{Role: sheet.Name}, {Title: "by", Band: "95 % band", UnitTitle: "unit"}, {Role: sheet.Text}}}
	line := func(name string, b bumpsteer.Banded, more, less string) {
		word := more
		if b.Value < 0 {
			word = less
		}
		if !b.Decided() {
			word = "not decidable"
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, sheet.Row{sheet.Words(name), sheet.Banded(sheet.Length, b.Value, b.Half).Signed(), sheet.Words(word)})
	}
	if d.Ideal.HasSpace {
		line(d.Setup.Rod()+" too long by (bows the curve)", d.Ideal.Space.Along, "rod too long", "rod too short")
		line(d.inner()+" too high by (slopes the curve)", d.Ideal.Space.Across, "too high", "too low")
	}
	line("ahead of the ideal one by", d.Ideal.ForeAft, "ahead", "behind")
	if d.Ideal.HasFlat {
		line("too long by, from the front view at rest alone", d.Ideal.Flat.Along, "rod too long", "rod too short")
		line("too high by, from the front view at rest alone", d.Ideal.Flat.Across, "too high", "too low")
	}
	return t
}

func (d *Diagnosed) idealWords() sheet.Prose {
	u, c := d.Source.Unit, d.Ideal.Centre
	at := func(mm float64) string { return sheet.Number(sheet.LaidOut, mm).Text(u) }
	left := sheet.Banded(sheet.Length, 0, d.Ideal.LeftOver).Half(u)
	return sheet.Prose{On: sheet.OnScreens, Lines: []sheet.Line{{Text: fmt.Sprintf("ideal %s: x %s, y %s, z %s %s; the outer end's path leaves a sphere about it by at most %s", d.inner(),
		at(c.X), at(c.Y), at(c.Z), u, strings.TrimPrefix(left, "± ")+" "+u.String())}}}
}

func (d *Diagnosed) idealFile() sheet.Object {
	i := &d.Ideal
	o := sheet.Object{Key: "ideal_rack_end", Fields: []sheet.Field{{Key: "centre_mm", Cell: sheet.Numbers(sheet.Length, []float64{i.Centre.X, i.Centre.Y, i.Centre.Z})},
		{Key: "path_leaves_sphere_mm", Cell: sheet.Number(sheet.Length, i.LeftOver)}}}
	add := func(key string, b bumpsteer.Banded, ok bool) {
		o.Fields = append(o.Fields, sheet.PairOf(key, sheet.Banded(sheet.Length, b.Value, b.Half).If(ok)))
	}
	add("along_mm", i.Space.Along, i.HasSpace)
	add("across_mm", i.Space.Across, i.HasSpace)
	add("fore_aft_mm", i.ForeAft, true)
	return o
}

func (d *Diagnosed) notes(units.Unit) []sheet.Note {
	return sheet.Notes("Ideal: the point about which the outer end swings with the wheel held straight. too long: measured along the rod; too high: square to it.",
		rackNote)
}
