package report

import (
	"fmt"
	"strconv"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics/widen"
)

// ReachLine is one answer as it is printed, in the unit of the source.
type ReachLine struct {
	Rank          string // empty for one that does not lead to the wish
	Wheel         string
	Spacer, Arms  string
	Track, Face   string
	Scrub         string
	Note          string // what is missing or open, and whether the brake passes
	TrackBand     string
	ScrubBand     string
	Reaches, Fits bool // Fits: the brake passes, or none is known
	Touches       bool // the tyre touches what stands around it
}

// Lines are the answers as they are printed, best first.
func (r *Reached) Lines() []ReachLine {
	u := r.Source.Unit
	list := make([]ReachLine, len(r.Answers))
	for i := range r.Answers {
		a := &r.Answers[i]
		l := &list[i]
		l.Wheel, l.Spacer, l.Arms = r.wheelWords(a.Wheel), lengthCell(a.Spacer, u), moveCell(a.Arms, u)
		l.Track, l.TrackBand = splitBand(units.In(a.HalfTrack, u), units.In(a.TrackBand, u))
		l.Scrub, l.ScrubBand = splitBand(units.In(a.ScrubRadius, u), units.In(a.ScrubBand, u))
		if a.HasFace {
			l.Face, _ = splitBand(units.In(a.Face, u), units.In(a.TrackBand, u))
		}
		l.Reaches, l.Fits = a.Reaches(), a.Wheel.Brake == nil
		var notes []string
		if l.Reaches {
			if l.Fits {
				l.Rank = strconv.Itoa(i + 1)
			}
			if a.Scrub == LimitOpen {
				notes = append(notes, "scrub radius: the band spans the limit")
			}
		} else {
			notes = append(notes, "NOT REACHED: "+a.missWords(u, r.Spec.ByFace))
		}
		if !l.Fits && a.Room.Err != nil { // else the row says it
			notes = append(notes, "the brake does NOT pass")
		}
		if row := a.Room.Row(u); row != "" {
			notes = append(notes, row)
		}
		l.Touches = a.Room.InTheWay()
		l.Note = strings.Join(notes, "; ")
	}
	return list
}

// wheelWords name a wheel with its sizes.
func (r *Reached) wheelWords(w *ReachWheel) string {
	inches := strings.TrimRight(strings.TrimRight(units.FormatNumber(units.In(w.Wheel.RimWidth.MM, units.Inch), 2), "0"), ".")
	return fmt.Sprintf("%s: %s on %s in, offset %s", w.Name, oneLine(w.Wheel.Tyre), inches, lengthText(w.Wheel.Offset.MM, r.Source.Unit))
}

// WishWords say what is wished.
func (r *Reached) WishWords() string {
	u := r.Source.Unit
	text := "half track of " + lengthText(r.Spec.To, u)
	if r.Spec.ByFace {
		text = "tyre's face flush at " + lengthText(r.Spec.To, u) + " from the centre"
	}
	if r.Spec.HasScrubMax {
		text += ", scrub radius of at most " + lengthText(r.Spec.ScrubMax, u)
	}
	return text
}

// RangeWords say within what is looked.
func (r *Reached) RangeWords() string {
	u, s := r.Source.Unit, &r.Spec
	spacer := fmt.Sprintf("no spacer, or one of %s to %s", units.ShortNumber(s.SpacerMin, u), lengthText(s.SpacerMax, u))
	if s.SpacerMin == 0 {
		spacer = "spacer up to " + lengthText(s.SpacerMax, u)
	}
	order := "least scrub radius first"
	if s.Order == widen.LeastArms {
		order = "least change of the arms first"
	}
	return fmt.Sprintf("%s; arms from %s to %s longer; %s", spacer, signedLength(s.ArmsMin, u), signedLength(s.ArmsMax, u), order)
}

// Text prints the answers for a person.
func (r *Reached) Text() string {
	s := &r.Source
	head := s.first() + fmt.Sprintf("%s: %s, ways to a %s\n%s\npoints measured within ±%s\n", oneLine(s.Job), oneLine(s.Variant), r.WishWords(), r.RangeWords(), s.within())
	u := s.Unit.String()
	g := grid{columns: []align{left, left, point, point, point, left, point, point, left, left}}
	g.row("", "wheel", "spacer, "+u, "arms, "+u, "half track", "95 % band", "face", "scrub radius", "95 % band", "")
	for _, l := range r.Lines() {
		g.row(l.Rank, l.Wheel, l.Spacer, l.Arms, l.Track, l.TrackBand, l.Face, l.Scrub, l.ScrubBand, l.Note)
	}
	return head + "\n" + g.String() + "\n" + foot(r.notes())
}

// Notes explain the answers.
func (r *Reached) notes() []string {
	list := []string{"Spacer: thickness in all. Arms: by how much the whole upright moves out; arms and tie rod grow by about that, rack and pivots stay.",
		"Face: y of the tyre's outer face over its upper half, by its size code; real tyres differ by millimetres. Computed at rest, exact for the points as measured."}
	around := "The wheel of each way is carried through travel and rack, and judged as Clearance judges it."
	if r.Around == 0 {
		around = "The job states no obstacles: of clearance only the joints inside the rim are looked at, and the brake where its size is stated."
	}
	list = append(list, around)
	if off := r.radiusOff(); off > 0 {
		list = append(list, "The loaded radius of a wheel that states none is an estimate, likely within "+units.Guessed.Length(off, r.Source.Unit)+
			" either way, and not in the bands: with inclined axes it moves the scrub radius.")
	}
	for _, l := range r.Left {
		list = append(list, "Not looked at: "+l+".")
	}
	return list
}

// radiusOff is how far the estimated loaded radius of a wheel is likely to be
// off, mm: the most of all wheels, 0 where every radius was measured.
func (r *Reached) radiusOff() (most float64) {
	for i := range r.Wheels {
		if e := r.Wheels[i].Wheel.Loaded(); e.Estimate {
			most = max(most, e.High-e.Radius, e.Radius-e.Low)
		}
	}
	return most
}

// Notes explain the answers.
func (r *Reached) Notes() []string { return r.notes() }

type reachAnswerJSON struct {
	Reaches   bool     `json:"reaches"`
	Wheel     string   `json:"wheel"`
	Tyre      string   `json:"tyre"`
	Rim       float64  `json:"rim_width_mm"`
	Offset    float64  `json:"offset_mm"`
	Spacer    float64  `json:"spacer_mm"`
	Arms      float64  `json:"arms_mm"`
	Track     float64  `json:"half_track_mm"`
	TrackBand *float64 `json:"half_track_band_95_mm"`
	Face      *float64 `json:"tyre_face_mm"`
	Scrub     float64  `json:"scrub_radius_mm"`
	ScrubBand *float64 `json:"scrub_radius_band_95_mm"`
	Limit     *string  `json:"scrub_limit"`
	Short     float64  `json:"short_mm"`
	OverScrub float64  `json:"scrub_over_limit_mm"`
	Brake     bool     `json:"brake_passes"`
	Touches   *bool    `json:"tyre_touches"` // null where it is not known
	Room      string   `json:"clearance"`    // what is not kept; empty where all is
}

type reachJSON struct {
	Job       string            `json:"job"`
	Variant   string            `json:"variant"`
	Track     *float64          `json:"wished_half_track_mm"`
	Face      *float64          `json:"wished_tyre_face_mm"`
	ScrubMax  *float64          `json:"scrub_max_mm"`
	SpacerMin float64           `json:"spacer_min_mm"`
	SpacerMax float64           `json:"spacer_max_mm"`
	ArmsMin   float64           `json:"arms_min_mm"`
	ArmsMax   float64           `json:"arms_max_mm"`
	Within    float64           `json:"measured_within_mm"`
	Answers   []reachAnswerJSON `json:"answers"`
	Notes     []string          `json:"notes"`
	Caution   string            `json:"caution"`
}

// JSON prints the answers for a program, in mm.
func (r *Reached) JSON() string {
	s := &r.Spec
	out := reachJSON{Job: r.Source.Job, Variant: r.Source.Variant, Track: orNull(s.To, !s.ByFace), Face: orNull(s.To, s.ByFace), ScrubMax: orNull(s.ScrubMax, s.HasScrubMax),
		SpacerMin: number12(s.SpacerMin), SpacerMax: number12(s.SpacerMax), ArmsMin: number12(s.ArmsMin), ArmsMax: number12(s.ArmsMax),
		Within: r.Source.Within.Common(), Notes: r.notes(), Caution: Caution}
	for i := range r.Answers {
		a := &r.Answers[i]
		w := &a.Wheel.Wheel
		line := reachAnswerJSON{Reaches: a.Reaches(), Wheel: a.Wheel.Name, Tyre: w.Tyre, Rim: number12(w.RimWidth.MM), Offset: number12(w.Offset.MM),
			Spacer: number12(a.Spacer), Arms: number12(a.Arms), Track: number12(a.HalfTrack), TrackBand: bandOrNull(a.TrackBand, true),
			Face: orNull(a.Face, a.HasFace), Scrub: number12(a.ScrubRadius), ScrubBand: bandOrNull(a.ScrubBand, true),
			Short: number12(a.Short), OverScrub: number12(a.OverScrub), Brake: a.Wheel.Brake == nil, Room: a.Room.Row(units.Millimetre)}
		line.Touches = roomOf(&a.Room).Touches
		if s.HasScrubMax {
			word := limitWord[a.Scrub]
			line.Limit = &word
		}
		out.Answers = append(out.Answers, line)
	}
	return encode(out)
}
