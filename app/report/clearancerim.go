package report

import (
	"fmt"
	"strings"

	"armscribe/app/room"
)

// rimJSON is a line of what stands inside the rim. A housing is that of a joint,
// as the job states it or assumed.
type rimJSON struct {
	Name    string   `json:"name"`
	Gap     float64  `json:"gap_mm"`
	Wish    float64  `json:"wished_mm"`
	Kept    bool     `json:"kept"`
	Housing *float64 `json:"housing_mm"`
	Assumed *bool    `json:"housing_assumed"`
}

// rimLines are the joints and, where its size is stated, the brake, against the
// barrel. A joint that has no answer is left out; the sweep says why.
func (c *Clearance) rimLines() (lines []rimJSON) {
	for i := range c.Rim.Joints {
		g := &c.Rim.Joints[i]
		if g.Err == nil {
			housing := number12(2 * g.Obstacle.Thick)
			lines = append(lines, rimJSON{g.Obstacle.Name, number12(g.Gap), number12(g.Wish), g.Keeps(), &housing, &c.housings[i].Assumed})
		}
	}
	if c.Rim.HasBrake {
		lines = append(lines, rimJSON{"brake", number12(c.Rim.Brake), number12(c.Rim.BrakeWish), c.Rim.BrakeErr == nil, nil, nil})
	}
	return lines
}

// rimTable prints them for a person.
func (c *Clearance) rimTable() string {
	u := c.Source.Unit
	g := grid{columns: []align{left, point, point, left, left}}
	g.row("Inside the rim", "gap", "wished", "unit", "")
	for _, l := range c.rimLines() {
		word := room.Kept.String()
		switch {
		case l.Gap < 0:
			word = room.Touches.String()
		case !l.Kept:
			word = room.Less.String()
		}
		if !l.Kept && l.Assumed != nil && *l.Assumed {
			word += ", housing assumed"
		}
		g.row("  "+l.Name, gapCell(l.Gap, u), gapCell(l.Wish, u), u.String(), word)
	}
	return g.String()
}

// rimNote says what the lines rest on.
func (c *Clearance) rimNote() string {
	u := c.Source.Unit
	note := fmt.Sprintf("Inside the rim: barrel %s across by estimate from the size code; measure yours.", lengthText(c.Rim.Barrel, u))
	var assumed []string
	for i, h := range c.housings {
		if h.Assumed {
			assumed = append(assumed, lengthText(h.Size, u)+" ("+[...]string{"outer end", "lower ball joint", "upper ball joint"}[i]+")")
		}
	}
	if len(assumed) > 0 {
		note += " Housings across assumed, common practice, no source: " + strings.Join(assumed, ", ") + "; say yours under housings."
	}
	return note
}
