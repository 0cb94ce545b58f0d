package report

import (
	"math"

	"armscribe/app/room"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// bandedJSON is a value with its 95 % half-width.
type bandedJSON struct {
	Value float64  `json:"value"`
	Band  *float64 `json:"band_95"`
}

func bandedOf(b bumpsteer.Banded, scale float64) bandedJSON {
	return bandedJSON{*orNull(b.Value*scale, true), bandOrNull(b.Half*scale, true)}
}

// partJSON is one part of a toe curve.
type partJSON struct {
	Name    string      `json:"name"`
	Per     *bandedJSON `json:"per,omitempty"`
	PerUnit string      `json:"per_unit,omitempty"`
	AtEnd   bandedJSON  `json:"at_end_deg"`
	AtRim   *bandedJSON `json:"at_end_across_width_mm,omitempty"`
	Move    *bandedJSON `json:"cure_mm,omitempty"`
	Decided bool        `json:"decided"`
	Words   string      `json:"words"`
}

type diagnosisJSON struct {
	From   float64    `json:"from_mm"`
	To     float64    `json:"to_mm"`
	End    float64    `json:"end_mm"`
	Change float64    `json:"max_toe_change_deg"`
	At     float64    `json:"max_toe_change_at_mm"`
	Parts  []partJSON `json:"parts"`
}

func diagnosisOf(s tune.Setup, d *bumpsteer.Diagnosis, by tune.Basis) *diagnosisJSON {
	s.Unit = units.Millimetre
	out := &diagnosisJSON{From: number12(d.From), To: number12(d.To), End: number12(tune.FarEnd(d)), Change: number12(degrees(d.Change)), At: number12(d.ChangeAt)}
	for _, p := range s.Parts(d, by) {
		j := partJSON{Name: p.Name, AtEnd: bandedOf(p.AtEnd, degrees(1)), Decided: p.Decided, Words: p.Words}
		if !p.HasBand {
			j.AtEnd.Band = nil
		}
		if s.Gauge.Width > 0 {
			rim := bandedOf(p.AtEnd, s.Gauge.Width)
			if !p.HasBand {
				rim.Band = nil
			}
			j.AtRim = &rim
		}
		if p.HasPer {
			per := bandedOf(p.Per, degrees(1))
			j.Per, j.PerUnit = &per, "deg/mm"
			if p.Name == "bow" {
				j.PerUnit = "deg/mm2"
			}
		}
		if p.HasMove {
			move := bandedOf(p.Move, 1)
			j.Move = &move
		}
		out.Parts = append(out.Parts, j)
	}
	return out
}

// number12 is a number with the digits that a file gets.
func number12(v float64) float64 { return *orNull(v, true) }

type moveJSON struct {
	Name  string   `json:"name"`
	Words string   `json:"words"`
	From  float64  `json:"from_mm"`
	To    float64  `json:"to_mm"`
	By    float64  `json:"by_mm"`
	Band  *float64 `json:"band_95_mm"`
	Min   float64  `json:"min_mm"`
	Max   float64  `json:"max_mm"`
	Limit string   `json:"stands_at"`
	Exact float64  `json:"by_exactly_mm"`
	// Off is the building error and the room that the next three are for.
	Off  float64  `json:"off_mm"`
	More *float64 `json:"max_distance_with_more_room_deg"`
	// What a building error adds to the largest distance, deg; null where it is out
	// of reach.
	Plus  *float64 `json:"extra_for_more_deg"`
	Minus *float64 `json:"extra_for_less_deg"`
}

type stackJSON struct {
	Pieces []float64 `json:"pieces_mm"`
	Height float64   `json:"height_mm"`
	Raise  float64   `json:"raise_mm"`
	Tall   bool      `json:"tall"`
	Bolt   *float64  `json:"grip_and_stack_mm"`
	Rod    float64   `json:"tie_rod_mm"`
	Change float64   `json:"max_toe_change_deg"`
	Miss   float64   `json:"max_distance_deg"`
	Curve  []float64 `json:"toe_change_deg"`
	Room   roomJSON  `json:"clearance"`
}

// roomJSON is how the wheel stands with what is offered.
type roomJSON struct {
	Touches *bool  `json:"touches"` // null where it is not known
	Words   string `json:"words"`
}

func roomOf(v *room.Judgement) roomJSON {
	out := roomJSON{Words: v.Words(units.Millimetre)}
	if touches := v.InTheWay(); touches || v.Known() {
		out.Touches = &touches
	}
	return out
}

type tuneJSON struct {
	Job     string  `json:"job"`
	Variant string  `json:"variant"`
	Over    string  `json:"over"`
	From    float64 `json:"from"`
	To      float64 `json:"to"`
	Unit    string  `json:"from_to_unit"`
	Slope   float64 `json:"wanted_slope"`
	SlopeIn string  `json:"wanted_slope_unit"`
	Within  float64 `json:"measured_within_mm"`
	Width   float64 `json:"gauge_width_mm"`

	Before     float64        `json:"before_max_toe_change_deg"`
	BeforeAt   float64        `json:"before_max_toe_change_at"`
	After      float64        `json:"after_max_toe_change_deg"`
	AfterAt    float64        `json:"after_max_toe_change_at"`
	BeforeMiss float64        `json:"before_max_distance_deg"`
	AfterMiss  float64        `json:"after_max_distance_deg"`
	Least      float64        `json:"least_max_distance_deg"`
	Moves      []moveJSON     `json:"moves"`
	RodFrom    float64        `json:"tie_rod_from_mm"`
	RodTo      float64        `json:"tie_rod_to_mm"`
	Diagnosis  *diagnosisJSON `json:"diagnosis"`
	Left       *diagnosisJSON `json:"what_is_left"`
	Room       roomJSON       `json:"clearance"`
	Stacks     []stackJSON    `json:"stacks"`
	Curves     curvesJSON     `json:"toe_curves"`
	Notes      []string       `json:"notes"`
	Caution    string         `json:"caution"`
}

type curvesJSON struct {
	At     []float64 `json:"at"`
	Before []float64 `json:"before_toe_change_deg"`
	After  []float64 `json:"after_toe_change_deg"`
}

var limitKeys = map[bumpsteer.AtLimit]string{bumpsteer.Inside: "inside", bumpsteer.AtMin: "min", bumpsteer.AtMax: "max"}

// JSON prints the cure for a program: mm and degrees.
func (t *Tuned) JSON() string {
	mm := *t
	mm.Source.Unit, mm.Setup.Unit = units.Millimetre, units.Millimetre
	r, g := &mm.Result, mm.Spec.Goal
	scale, unit, slopeUnit := 1.0, "mm", "deg/mm"
	if g.Over == bumpsteer.OverRoll {
		scale, unit, slopeUnit = degrees(1), "deg", "deg/deg"
	}
	slope := degrees(g.Slope) / scale
	out := tuneJSON{Job: t.Source.Job, Variant: t.Source.Variant, Over: overWord(g.Over), From: number12(g.From * scale), To: number12(g.To * scale), Unit: unit,
		Slope: number12(slope), SlopeIn: slopeUnit, Within: t.Source.Within.Common(), Width: number12(t.Setup.Gauge.Width),
		Before: number12(degrees(r.Before.Change)), BeforeAt: number12(r.Before.ChangeAt * scale),
		After: number12(degrees(r.After.Change)), AfterAt: number12(r.After.ChangeAt * scale),
		BeforeMiss: number12(degrees(r.Before.Largest)), AfterMiss: number12(degrees(r.After.Largest)), Least: number12(degrees(r.Least)),
		RodFrom: number12(r.RodFrom), RodTo: number12(r.RodTo), Room: roomOf(t.Clear), Stacks: []stackJSON{},
		Curves: curvesJSON{numbers(r.Before.ToeChange.At, scale), numbers(r.Before.ToeChange.Toe, degrees(1)), numbers(r.After.ToeChange.Toe, degrees(1))},
		Notes:  mm.remarks(), Caution: Caution}
	for i := range r.Moves {
		m := &r.Moves[i]
		out.Moves = append(out.Moves, moveJSON{Name: m.Free.Freedom.Key(), Words: mm.Setup.FreedomName(m.Free.Freedom),
			From: number12(m.From), To: number12(m.To), By: number12(m.By()), Band: bandOrNull(m.Band, m.Limit == bumpsteer.Inside),
			Min: number12(m.Free.Min), Max: number12(m.Free.Max), Limit: limitKeys[m.Limit],
			Exact: number12(m.Exact), Off: number12(tune.BuildOff(t.Source.Unit)), More: orNull(degrees(m.OneMore), m.HasOneMore),
			Plus: orNull(degrees(m.ExtraPlus), m.HasExtraPlus), Minus: orNull(degrees(m.ExtraMinus), m.HasExtraMinus)})
	}
	if t.HasBefore {
		out.Diagnosis = diagnosisOf(mm.Setup, &t.Before, tune.ByTape)
	}
	if r.HasLeft {
		out.Left = diagnosisOf(mm.Setup, &r.Left, tune.ByTape)
	}
	for i := range t.Plan {
		k := &t.Plan[i]
		out.Stacks = append(out.Stacks, stackJSON{Pieces: numbers(k.Pieces, 1), Height: number12(k.Height), Raise: number12(k.Raise), Tall: k.Tall,
			Bolt: orNull(k.Bolt, k.Bolt > 0), Rod: number12(k.Rod), Change: number12(degrees(k.Measure.Change)), Miss: number12(degrees(k.Measure.Largest)),
			Curve: numbers(k.Measure.ToeChange.Toe, degrees(1)), Room: roomOf(t.PlanClear[i])})
	}
	return encode(out)
}

// numbers scales a list for a file; never null.
func numbers(list []float64, scale float64) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		if math.IsNaN(v) {
			panic("report: no number")
		}
		out[i] = number12(v * scale)
	}
	return out
}
