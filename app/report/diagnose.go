package report

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/job"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/bumpsteer"
)

// Diagnosed says what is wrong with a toe curve, where the rack end would have
// to be, and what moving the rack would do.
type Diagnosed struct {
	Source    Source
	Setup     tune.Setup
	Diagnosis bumpsteer.Diagnosis
	Ideal     bumpsteer.IdealRackEnd
	Fans      []Fan
}

// Fan is a family of toe curves with the rack moved one way.
type Fan struct {
	Freedom bumpsteer.Freedom
	Moves   []float64 // mm
	Curves  []bumpsteer.FanCurve
}

// fanMoves are the rack's moves from its present place, mm; round in the
// table's unit.
func fanMoves(u units.Unit) []float64 {
	if u == units.Inch {
		return []float64{-0.75 * mmPerInch, -0.5 * mmPerInch, -0.25 * mmPerInch, 0, 0.25 * mmPerInch, 0.5 * mmPerInch, 0.75 * mmPerInch}
	}
	return []float64{-20, -10, -5, 0, 5, 10, 20}
}

const mmPerInch = 25.4

// DiagnoseOf looks at one variant of a job without problems over a travel
// range that holds rest. Errors match bumpsteer.ErrRange or name the variant.
func DiagnoseOf(j *job.Job, variant int, from, to float64) (*Diagnosed, error) {
	d := &Diagnosed{Source: SourceOf(j, variant), Setup: tune.SetupOf(j, variant)}
	goal := bumpsteer.Goal{From: from, To: to}
	c, within := d.Source.Corner, d.Source.Within
	if _, err := bumpsteer.Measured(c, goal); err != nil {
		return nil, d.Source.named(err)
	}
	var err error
	if d.Diagnosis, err = bumpsteer.Diagnose(c, within, from, to); err != nil {
		return nil, d.Source.named(err)
	}
	if d.Ideal, err = bumpsteer.FindRackEnd(c, within, from, to); err != nil {
		return nil, d.Source.named(err)
	}
	for _, f := range []bumpsteer.Freedom{bumpsteer.RackHeight, bumpsteer.RackEndSide} {
		fan := Fan{Freedom: f, Moves: fanMoves(j.Units)}
		if fan.Curves, err = bumpsteer.Fan(c, f, fan.Moves, goal); err != nil {
			return nil, d.Source.named(err)
		}
		d.Fans = append(d.Fans, fan)
	}
	return d, nil
}

// Table prints the diagnosis for a person.
func (d *Diagnosed) Table() string {
	s, g := &d.Source, &d.Diagnosis
	parts := []string{s.first() + fmt.Sprintf("%s: %s, toe curve over travel from %s to %s\npoints measured within ±%s; largest change of toe from rest %s deg at %s\n",
		oneLine(s.Job), oneLine(s.Variant), signedLength(g.From, s.Unit), signedLength(g.To, s.Unit), s.within(),
		units.SmallAngles.Number(degrees(g.Change)), units.Place(g.ChangeAt, s.Unit)),
		diagnosisTable("Toe curve", &d.Setup, g, tune.ByTape), d.idealTable()}
	for i := range d.Fans {
		parts = append(parts, d.fanTable(&d.Fans[i]))
	}
	return strings.Join(append(parts, foot(d.notes())), "\n")
}

func (d *Diagnosed) inner() string { return d.Setup.InnerEnd() }

func (d *Diagnosed) idealTable() string {
	u := d.Source.Unit
	g := grid{columns: []align{left, point, left, left, left}}
	g.row("Present "+d.inner()+" from the ideal one", "by", "95 % band", "unit", "")
	line := func(name string, b bumpsteer.Banded, words [2]string) {
		number, half := lengthCells(b.Value, b.Half, u)
		word := words[0]
		if b.Value < 0 {
			word = words[1]
		}
		if !b.Decided() {
			word = "not decidable"
		}
		g.row("  "+name, units.Signed(number), half, u.String(), word)
	}
	along, across := [2]string{"rod too long", "rod too short"}, [2]string{"too high", "too low"}
	if d.Ideal.HasSpace {
		line(d.Setup.Rod()+" too long by (bows the curve)", d.Ideal.Space.Along, along)
		line(d.inner()+" too high by (slopes the curve)", d.Ideal.Space.Across, across)
	}
	line("ahead of the ideal one by", d.Ideal.ForeAft, [2]string{"ahead", "behind"})
	if d.Ideal.HasFlat {
		line("too long by, from the front view at rest alone", d.Ideal.Flat.Along, along)
		line("too high by, from the front view at rest alone", d.Ideal.Flat.Across, across)
	}
	c := d.Ideal.Centre
	_, left := splitBand(kinematics.Length, 0, d.Ideal.LeftOver, u)
	return g.String() + fmt.Sprintf("  ideal %s: x %s, y %s, z %s %s; the outer end's path leaves a sphere about it by at most %s\n", d.inner(),
		lengthCell(c.X, u), lengthCell(c.Y, u), lengthCell(c.Z, u), u, strings.TrimPrefix(left, "± ")+" "+u.String())
}

func (d *Diagnosed) fanTable(f *Fan) string {
	u := d.Source.Unit
	scale := units.In(1, u)
	g := grid{columns: []align{point}}
	title := fmt.Sprintf("If the %s moves up: change of toe from rest, deg, for each move", d.inner())
	if f.Freedom == bumpsteer.RackEndSide {
		title = fmt.Sprintf("If the %s moves out: change of toe from rest, deg, for each move", d.inner())
	}
	heads := []string{"travel, " + u.String()}
	for _, mm := range f.Moves {
		head := placeCell(mm, u) + " " + u.String()
		if mm == 0 {
			head = "present"
		}
		heads, g.columns = append(heads, head), append(g.columns, point)
	}
	g.row(heads...)
	from, to := d.Diagnosis.From, d.Diagnosis.To
	for _, h := range stations(from, to, tableSteps((to-from)*scale)/scale) {
		cells := []string{placeCell(h, u)}
		for i := range f.Curves {
			cells = append(cells, d.fanCell(&f.Curves[i], h))
		}
		g.row(cells...)
	}
	last := []string{"largest"}
	for i := range f.Curves {
		largest := 0.0
		for _, toe := range f.Curves[i].Curve.Toe {
			largest = max(largest, math.Abs(toe))
		}
		last = append(last, units.SmallAngles.Number(degrees(largest)))
	}
	g.row(last...)
	return title + "\n" + g.String()
}

// fanCell is the toe of a curve at a travel, solved there.
func (d *Diagnosed) fanCell(f *bumpsteer.FanCurve, h float64) string {
	c := d.Source.Corner
	for free, mm := range f.Moves {
		c.Shift(free.Coordinate(), mm)
	}
	curve, err := bumpsteer.ToeCurve(c, bumpsteer.OverTravel, []float64{h})
	if err != nil {
		return outOfReach
	}
	return toeText(curve.Toe[0])
}

func (d *Diagnosed) notes() []string {
	return []string{"Ideal: the point about which the outer end swings with the wheel held straight. too long: measured along the rod; too high: square to it.",
		"The rod is cut to keep the resting toe at each place."}
}

type idealJSON struct {
	Centre   []float64   `json:"centre_mm"`
	LeftOver float64     `json:"path_leaves_sphere_mm"`
	Along    *bandedJSON `json:"along_mm"`
	Across   *bandedJSON `json:"across_mm"`
	ForeAft  bandedJSON  `json:"fore_aft_mm"`
}

type fanJSON struct {
	Name   string         `json:"name"`
	Curves []fanCurveJSON `json:"curves"`
}

type fanCurveJSON struct {
	Move float64   `json:"move_mm"`
	At   []float64 `json:"travel_mm"`
	Toe  []float64 `json:"toe_change_deg"`
}

type diagnoseJSON struct {
	Job       string         `json:"job"`
	Variant   string         `json:"variant"`
	Within    float64        `json:"measured_within_mm"`
	Width     float64        `json:"gauge_width_mm"`
	Diagnosis *diagnosisJSON `json:"diagnosis"`
	Ideal     idealJSON      `json:"ideal_rack_end"`
	Fans      []fanJSON      `json:"if_the_rack_moves"`
	Notes     []string       `json:"notes"`
	Caution   string         `json:"caution"`
}

// JSON prints the diagnosis for a program: mm and degrees.
func (d *Diagnosed) JSON() string {
	i := &d.Ideal
	out := diagnoseJSON{Job: d.Source.Job, Variant: d.Source.Variant, Within: d.Source.Within.Common(), Width: number12(d.Setup.Gauge.Width),
		Diagnosis: diagnosisOf(d.Setup, &d.Diagnosis, tune.ByTape), Notes: d.notes(), Caution: Caution,
		Ideal: idealJSON{Centre: numbers([]float64{i.Centre.X, i.Centre.Y, i.Centre.Z}, 1), LeftOver: number12(i.LeftOver), ForeAft: bandedOf(i.ForeAft, 1)}}
	if i.HasSpace {
		along, across := bandedOf(i.Space.Along, 1), bandedOf(i.Space.Across, 1)
		out.Ideal.Along, out.Ideal.Across = &along, &across
	}
	for k := range d.Fans {
		f := fanJSON{Name: d.Fans[k].Freedom.Key()}
		for n, c := range d.Fans[k].Curves {
			f.Curves = append(f.Curves, fanCurveJSON{d.Fans[k].Moves[n], numbers(c.Curve.At, 1), numbers(c.Curve.Toe, degrees(1))})
		}
		out.Fans = append(out.Fans, f)
	}
	return encode(out)
}
