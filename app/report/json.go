package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// readingJSON is one reading in a file: mm and degrees, null where there is none.
type readingJSON struct {
	Key      string   `json:"key"`
	Name     string   `json:"name"`
	Value    *float64 `json:"value"`
	Unit     string   `json:"unit"`
	Band     *float64 `json:"band_95"`
	Positive string   `json:"positive_when"`
	SignOpen bool     `json:"sign_open"`
	Estimate bool     `json:"estimate"`
	Assumed  []string `json:"assumed,omitempty"` // keys, the one that moves it most first
	Needs    string   `json:"needs,omitempty"`   // what it says nothing without
	Spread   *float64 `json:"estimate_spread"`
	// Note is what belongs to the value, or why there is none; its length is
	// in mm and stands beside it.
	Note      string   `json:"note,omitempty"`
	Reference *float64 `json:"reference_mm,omitempty"`
}

type readingsJSON struct {
	Job      string        `json:"job"`
	Variant  string        `json:"variant"`
	Travel   float64       `json:"travel_mm"`
	Rack     float64       `json:"rack_mm"`
	Within   float64       `json:"measured_within_mm"`
	Readings []readingJSON `json:"readings"`
	Limits   limitsJSON    `json:"assembled_travel"`
	Notes    []string      `json:"notes"`
	Caution  string        `json:"caution"`
}

// limitsJSON are both ends of the assembled travel.
type limitsJSON struct {
	Droop limitJSON `json:"droop"`
	Bump  limitJSON `json:"bump"`
}

type limitJSON struct {
	Travel *float64 `json:"travel_mm"`
	Link   string   `json:"link"`
}

// JSON prints the readings for a program.
func (r *Readings) JSON() string {
	s := r.Source
	s.Unit = units.Millimetre
	out := readingsJSON{Job: s.Job, Variant: s.Variant, Travel: r.Position.Travel, Rack: r.Position.Rack,
		Within: s.Within.Common(), Notes: append([]string{}, notes(&s, r.Position, r.Lines)...), Caution: Caution}
	for i := range r.Lines {
		l := &r.Lines[i]
		switch l.Key {
		case droopLimit:
			out.Limits.Droop = l.limit()
		case bumpLimit:
			out.Limits.Bump = l.limit()
		default:
			out.Readings = append(out.Readings, l.json())
		}
	}
	return encode(out)
}

func (l *Line) json() readingJSON {
	_, unit := l.inUnit(0, units.Millimetre)
	spread, _ := l.inUnit(l.Spread, units.Millimetre)
	note := l.Missing
	if l.Known {
		list := l.remarks(units.Millimetre)
		if l.Far != kinematics.Near {
			list = append([]string{l.Far.String()}, list...)
		}
		note = strings.Join(list, ", ")
	}
	return readingJSON{Key: l.Key, Name: l.Name, Value: l.number(), Unit: unit, Band: l.bandNumber(),
		Positive: l.Positive, SignOpen: l.SignOpen, Estimate: l.Estimate, Assumed: l.Assumed, Needs: l.Needs, Spread: orNull(spread, l.Estimate), Note: note,
		Reference: orNull(l.refer.mm, l.refer.words != "")}
}

func (l *Line) limit() limitJSON {
	return limitJSON{Travel: l.number(), Link: l.Binds.String()}
}

func (l *Line) number() *float64 {
	v, _ := l.inUnit(l.Value, units.Millimetre)
	return orNull(v, l.Known)
}

func (l *Line) bandNumber() *float64 {
	v, _ := l.inUnit(l.Band, units.Millimetre)
	return bandOrNull(v, l.HasBand)
}

func orNull(v float64, ok bool) *float64 { return rounded(v, ok, jsonDigits) }

// bandOrNull is orNull for a half-width.
func bandOrNull(v float64, ok bool) *float64 { return rounded(v, ok, bandDigits) }

func rounded(v float64, ok bool, digits int) *float64 {
	if !ok {
		return nil
	}
	if math.Abs(v) < jsonNought {
		v = 0
	}
	text := strconv.FormatFloat(v, 'g', digits, 64)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic(fmt.Sprintf("report: %v", err))
	}
	return &v
}

// jsonDigits, significant, are more than any measurement and fewer than what
// rounding leaves behind a number such as 0.1 degrees; jsonNought, in any of
// the units, is what rounding leaves of nought. A band comes from differences,
// which keep fewer digits: bandDigits are still more than it means.
const (
	jsonDigits = 12
	bandDigits = 6
	jsonNought = 1e-12
)

// encode prints a value as indented JSON. What the reports hold can always be
// encoded: a failure, such as a NaN, is a bug.
func encode(v any) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		panic(fmt.Sprintf("report: %v", err))
	}
	return b.String()
}
