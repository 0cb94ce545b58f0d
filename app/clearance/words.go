package clearance

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"armscribe/app/units"
	"armscribe/kinematics"
	"armscribe/kinematics/clearance"
	"armscribe/kinematics/tyre"
)

// number prints a length without its unit.
func number(mm float64, u units.Unit) string { return units.Taped.Number(mm, u) }

// place prints how far along its way something stands.
func place(mm float64, u units.Unit) string { return units.Taped.NumberOnTape(mm, u) }

// signed prints a length with the sign of its way.
func signed(mm float64, u units.Unit) string {
	return units.Signed(number(mm, u))
}

// way prints a length with the word for its way, or the word for none.
func way(mm float64, u units.Unit, up, down, none string) string {
	text := place(math.Abs(mm), u)
	switch {
	case strings.Trim(text, "0.") == "":
		return none
	case mm < 0:
		up = down
	}
	return text + " " + u.String() + " " + up
}

// Words say how a gap stands to its wish, as "12.3 mm, wished 10: kept". A coarse
// gap is marked with ≈.
func (g *Gap) Words(u units.Unit, fine bool) string {
	if g.Err != nil {
		return Problem(g.Err)
	}
	about := "≈ "
	if fine || !g.Moves() {
		about = ""
	}
	v := g.Verdict()
	switch {
	case v == Inside:
		return fmt.Sprintf("%s%s %s deep: %s", about, number(-g.Rest, u), u, v)
	case v == Touches:
		return fmt.Sprintf("%s%s %s deep: %s", about, number(-g.Gap, u), u, v)
	}
	return fmt.Sprintf("%s%s %s, wished %s: %s", about, number(g.Gap, u), u, short(g.Wish, u), v)
}

// InRim is Words for a joint inside the rim, which has no travel of its own.
func (g *Gap) InRim(u units.Unit) string {
	if g.Err == nil && g.Gap < 0 {
		return fmt.Sprintf("%s %s deep: %s rim or tyre", number(-g.Gap, u), u, Touches)
	}
	return g.Words(u, true)
}

// short prints a length with no more digits than it has.
func short(mm float64, u units.Unit) string {
	v := units.In(mm, u)
	if v == math.Trunc(v) {
		return units.FormatNumber(v, 0)
	}
	return place(mm, u)
}

// Where says at which place the gap is least, as "at 70.0 mm bump, rack 62.0 mm
// left, roll −2.0°"; for what the upright carries, that it is the same everywhere.
func (g *Gap) Where(u units.Unit) string {
	switch {
	case g.Err != nil:
		return ""
	case !g.Moves():
		return "goes with the wheel: the same everywhere"
	case g.Verdict() == Inside:
		return "check its place, and the wheel's offset and spacer"
	}
	wheel, roll := "", g.Roll
	if g.Right {
		wheel, roll = "right wheel, ", -g.Roll
	}
	text := wheel + "at " + way(g.Travel, u, "bump", "droop", "rest height") + ", rack " + way(g.CarRack(), u, "left", "right", "straight")
	if roll != 0 {
		sign := ""
		if roll > 0 {
			sign = "+"
		}
		text += ", roll " + sign + units.FormatDegrees(roll, 1)
	}
	return text
}

// Jump tells in a sentence where the wheel now stands, with the body's heave
// where roll adds to the travel.
func (g *Gap) Jump(m *kinematics.Mechanism, u units.Unit) string {
	if !g.Moves() {
		return fmt.Sprintf("%s: %s %s, the same everywhere. Shown at rest.", g.Obstacle.Name, number(g.Gap, u), u)
	}
	if g.Verdict() == Inside {
		return fmt.Sprintf("%s stands %s %s inside the tyre at rest: %s.", g.Obstacle.Name, number(-g.Rest, u), u, g.Where(u))
	}
	text := fmt.Sprintf("%s: least gap %s %s, %s.", g.Obstacle.Name, number(g.Gap, u), u, g.Where(u))
	if g.Roll != 0 {
		text += fmt.Sprintf(" Roll and a heave of %s %s bring this wheel there; it is shown against the level body.", signed(g.Heave(m), u), u)
	}
	return text + " Ctrl+R goes back to rest."
}

// Problem puts what keeps an obstacle or a wheel from an answer into one line,
// without the name that stands beside it.
func Problem(err error) string {
	var o *clearance.ObstacleError
	if errors.As(err, &o) {
		return fmt.Sprintf("%s (%s); %s", o.Problem, o.Value, o.Cure)
	}
	return err.Error()
}

// BrakeWords say how the brake stands to the barrel.
func (r *Rim) BrakeWords(u units.Unit) string {
	if r.BrakeErr != nil {
		return fitWords(r.BrakeErr, u)
	}
	return fmt.Sprintf("%s %s all round, wished %s: %s", number(r.Brake, u), u, short(r.BrakeWish, u), Kept)
}

// OffsetWords say what is wrong with the offset; empty where nothing is.
func (r *Rim) OffsetWords(u units.Unit) string {
	if r.OffsetErr == nil {
		return ""
	}
	return fitWords(r.OffsetErr, u)
}

// fitWords is a tyre.FitError in the unit on display.
func fitWords(err error, u units.Unit) string {
	var f *tyre.FitError
	if !errors.As(err, &f) {
		return err.Error()
	}
	return fmt.Sprintf("%s of %s %s %s %s %s; %s", f.Place, number(f.Value, u), u, f.Problem, number(f.Limit, u), u, f.Cure)
}
