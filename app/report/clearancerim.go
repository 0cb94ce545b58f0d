package report

import (
	"fmt"
	"strings"

	"armscribe/app/clearance"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// inRim are the joints and, where its size is stated, the brake, against the
// barrel. A joint that has no answer is left out; the sweep says why. A housing is
// that of a joint, as the job states it or assumed.
func (c *Clearance) inRim() *sheet.Table {
	t := &sheet.Table{Title: "Inside the rim", Key: "inside_the_rim", Columns: []sheet.Column{
		{Role: sheet.Name, Key: "name"},
		{Title: "gap", Key: "gap_mm"},
		{Title: "wished", UnitTitle: "unit", Key: "wished_mm"},
		{Key: "kept", On: sheet.InFile},
		{Role: sheet.Text, On: sheet.OnScreens},
		{Key: "housing_mm", On: sheet.InFile},
		{Key: "housing_assumed", On: sheet.InFile},
	}, Groups: sheet.Rows()}
	add := func(name string, gap, wish float64, kept, assumed bool, housing ...sheet.Cell) {
		verdict := clearance.Kept
		switch {
		case gap < 0:
			verdict = clearance.Touches
		case !kept:
			verdict = clearance.Less
		}
		word := verdict.String()
		if !kept && assumed {
			word += ", housing assumed"
		}
		t.Groups[0].Rows = append(t.Groups[0].Rows, append(sheet.Row{sheet.Words(name), sheet.Number(sheet.Taped, gap), sheet.Number(sheet.Taped, wish), sheet.Flag(kept),
			sheet.Words(word).Marked(gapMark(verdict == clearance.Kept))}, housing...))
	}
	for i := range c.Rim.Joints {
		if g := &c.Rim.Joints[i]; g.Err == nil {
			assumed := c.housings[i].Assumed
			add(g.Obstacle.Name, g.Gap, g.Wish, g.Keeps(), assumed, sheet.Number(sheet.Length, 2*g.Obstacle.Thick), sheet.Flag(assumed))
		}
	}
	if c.Rim.HasBrake {
		none := sheet.Cell{}.If(false)
		add("brake", c.Rim.Brake, c.Rim.BrakeWish, c.Rim.BrakeErr == nil, false, none, none)
	}
	return t
}

// rimNote says what the lines rest on.
func (c *Clearance) rimNote(u units.Unit) string {
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
