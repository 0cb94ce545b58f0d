package panels

import (
	"fmt"
	"math"
	"strings"

	"armscribe/app/figures"
	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// sentence says what a line is, what its sign means and how far it can be
// trusted.
func (s *snapshot) sentence(it item) string {
	parts := []string{s.sentenceName(it) + ": " + lowerFirst(it.Meaning)}
	parts = append(parts, s.signOf(it))
	if it.Of == kinematics.Toe {
		parts = append(parts, s.toeAtRim())
	}
	if s.hasRight {
		parts = append(parts, s.changeInRoll(it))
	}
	parts = append(parts, s.trust(it))
	if s.hasBands && s.bands.Assumed(it.Of) {
		parts = append(parts, s.restsOn(it))
	}
	if s.estimated && it.Ground {
		parts = append(parts, "est.: it rests on a loaded radius estimated from the tyre; measure wheel centre to ground.")
	}
	if s.against && !s.compared {
		parts = append(parts, "Not compared: one of the variants does not reach this position.")
	}
	return s.words(joined(parts))
}

// restsOn says of a line that it rests on what is assumed.
func (s *snapshot) restsOn(it item) string {
	text := "assumed: it rests on values that nobody has measured yet"
	if at, ok := s.bands.Needs(it.Of); ok {
		_, full := job.NeedsWords(&s.corner, at)
		return text + ", which may be anything in their ranges: it " + full + " measured before it says anything."
	}
	return text + ", and its band spans what they may be; measure them and type them over."
}

// sentenceName is the trade's name, with its side where the line names one.
func (s *snapshot) sentenceName(it item) string {
	switch it.Of {
	case kinematics.InstantCentreY, kinematics.RollCentreY:
		text, _ := s.label(it, func(string) bool { return true })
		return strings.Replace(text, "Inst. centre", "Instant centre", 1)
	}
	return it.Name
}

// signOf says when the figure is positive, or which way it counts.
func (s *snapshot) signOf(it item) string {
	_, sign := s.label(it, func(string) bool { return true })
	switch {
	case it.Of == kinematics.InstantCentreY && sign < 0:
		return "It lies beyond the centre plane, on the other side of the car."
	case it.Of == kinematics.InstantCentreY && !s.mixed():
		return "It lies on the wheel's own side of the centre plane."
	case it.Of == kinematics.RollCentreY:
		return "Counted from the centre plane."
	}
	if it.Signed() {
		return "Positive when " + it.Positive + "."
	}
	return ""
}

// mixed tells whether the instant centres of both wheels lie on different sides.
func (s *snapshot) mixed() bool {
	text, _ := s.label(figures.Of(kinematics.InstantCentreY), func(string) bool { return true })
	return strings.HasSuffix(text, "+")
}

// joined puts a space between the parts that say something.
func joined(parts []string) string {
	var b strings.Builder
	for _, p := range parts {
		if p == "" {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(p)
	}
	return b.String()
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// toeAtRim gives toe as a length, which means something only with its diameter.
func (s *snapshot) toeAtRim() string {
	v, ok := s.now.Of(kinematics.Toe)
	if !ok || s.rim == 0 {
		return ""
	}
	sc := scaleOfKind(sheet.Length, s.unit)
	text := sc.figures(v*s.rim, -1, 0, false).value
	if s.hasRight {
		w, _ := s.right.Of(kinematics.Toe)
		text = "left " + text + ", right " + sc.figures(w*s.rim, -1, 0, false).value
	}
	return fmt.Sprintf("Across the rim of %s diameter: %s.", units.Guessed.Length(s.rim, s.unit), text)
}

// changeInRoll says in words what the columns of roll have no room for.
func (s *snapshot) changeInRoll(it item) string {
	if !s.compared {
		return ""
	}
	sc := scaleOf(it, s.unit)
	_, sign := s.label(it, func(string) bool { return true })
	change := func(now, was *kinematics.Readings) (string, bool) {
		v, ok := it.At(now)
		w, had := it.At(was)
		return units.Signed(sc.number(sign*(v-w))) + sc.suffix, ok && had
	}
	left, ok := change(&s.now, &s.before)
	right, ok2 := change(&s.right, &s.rightWas)
	switch {
	case it.Axle && ok:
		return fmt.Sprintf("Against the compared variant: %s.", left)
	case ok && ok2:
		return fmt.Sprintf("Against the compared variant: left %s, right %s.", left, right)
	}
	return ""
}

// trust says how far the value can be trusted.
func (s *snapshot) trust(it item) string {
	v, ok := it.At(&s.now)
	half := s.half(it)
	sc := scaleOf(it, s.unit)
	switch {
	case it.Of.OfCentre() && s.far() == kinematics.FarEither && ok:
		return fmt.Sprintf("With points measured within ±%s the arms may be parallel: the instant centre may lie on either side.", s.withinText())
	case !ok || it.Of.OfCentre() && s.far() != kinematics.Near:
		return ""
	case s.hasRight:
		return "In roll no band is computed; that at the same travel without roll is near it."
	case half < 0:
		return "No band is known here."
	case half < it.Kind.Rounding() && it.Given:
		return "As typed: given, not measured by points, so it has no band and is as good as the gauge it was read from."
	case half < it.Kind.Rounding():
		return "Here measuring error does not change it."
	}
	f := sc.figures(v, half, 0, false)
	text := fmt.Sprintf("With points measured within ±%s it lies within %s%s of the figure, 95 times in 100.",
		s.withinText(), f.band, sc.suffix)
	if it.Signed() && math.Abs(v) < half {
		text += " The band spans zero: its sign is not decidable, use a gauge."
	}
	return text
}

// place says where the car stands.
func (s *snapshot) place() string {
	at := figures.Position{Travel: s.position.Travel, Rack: s.position.Rack, Roll: s.position.Roll}
	if s.outOfReach() { // the readings stand elsewhere
		at = figures.Position{Travel: s.now.Travel, Rack: s.now.Rack, Roll: s.now.Roll}
	}
	if !s.hasRight {
		at.Roll = 0
	}
	return at.Words(s.unit)
}

// warning says why the position is out of reach and what is shown instead.
func (s *snapshot) warning() string {
	switch {
	case !s.solved:
		return "No readings: these points make no mechanism."
	case s.failure != "":
		return "Out of reach: " + s.words(s.failure) + ". Shown " + s.place() + "."
	case s.reach.Link == kinematics.NoLink:
		return ""
	}
	r := &s.reach
	what := "short"
	if r.TooLong {
		what = "too long"
	}
	amount := units.Taped.Length(r.Short, s.unit)
	if units.In(r.Short, s.unit) < 0.05 {
		amount = "a hair"
	}
	text := fmt.Sprintf("Out of reach: the %s is %s %s at %s", s.words(r.Link.String()), amount, what, figures.TravelWords(r.Travel, s.unit))
	if r.Rack != 0 {
		text += ", " + figures.RackWords(r.Rack, s.unit)
	}
	text += "."
	if r.HasLimit {
		text += " It binds at " + figures.TravelWords(r.Limit, s.unit) + "."
	}
	return text + " Shown " + s.place() + "."
}
