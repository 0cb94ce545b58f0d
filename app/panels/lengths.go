package panels

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"gonum.org/v1/gonum/spatial/r3"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/report"
	"armscribe/app/units"
	"armscribe/kinematics"
)

// link is a member whose length can be typed: that part longer, with the same
// upright. The corner is put together again at its ride height, as of
// kinematics.Reassemble. To move a joint in the upright, type its place.
type link struct {
	name   string  // of the edit
	hint   string  // with a place for how much longer
	step   float64 // mm, as the hint has it
	length func(c *kinematics.Corner) float64
	// grown is the change that makes the link mm longer.
	grown func(mm float64) kinematics.Change
}

var links = [...]link{
	{"upper arm length", "pivot axis to ball joint; same upright, camber follows; %s makes it that much longer", 10,
		func(c *kinematics.Corner) float64 { return armLength(&c.Upper) },
		func(mm float64) kinematics.Change { return kinematics.Change{Upper: mm} }},
	{"lower arm length", "pivot axis to ball joint; same upright, camber follows; %s makes it that much longer", 10,
		func(c *kinematics.Corner) float64 { return armLength(&c.Lower) },
		func(mm float64) kinematics.Change { return kinematics.Change{Lower: mm} }},
	{"tie rod length", "between the joints; same upright, toe follows; %s makes it that much longer", 2,
		func(c *kinematics.Corner) float64 { return r3.Norm(r3.Sub(c.TieRod.OuterEnd, c.TieRod.RackEnd)) },
		func(mm float64) (ch kinematics.Change) {
			ch.Longer[kinematics.TieRodLeg] = mm
			return ch
		}},
}

// armLength is the distance of a ball joint from its pivot axis.
func armLength(a *kinematics.Arm) float64 { return r3.Norm(r3.Sub(a.Ball, footOn(a))) }

// footOn is the point of an arm's pivot axis level with the ball joint.
func footOn(a *kinematics.Arm) kinematics.Vec {
	along := kinematics.Vec{X: 1}
	if !a.Flat {
		along = r3.Sub(a.Front, a.Rear)
		if r3.Norm(along) < kinematics.MinSpan {
			return a.Front // both pivots in one place: the job is refused anyhow
		}
	}
	u := r3.Unit(along)
	return r3.Add(a.Front, r3.Scale(r3.Dot(r3.Sub(a.Ball, a.Front), u), u))
}

// hinted is the hint where lengths are in a unit.
func (l *link) hinted(unit units.Unit) string {
	return fmt.Sprintf(l.hint, "+"+units.ShortLength(units.Suggested(l.step, unit), unit))
}

// lengthError is a length that no link has.
type lengthError struct{}

func (e lengthError) Error() string {
	mm := func(mm float64) string { return units.ShortLength(mm, units.Millimetre) }
	return e.Say(mm, mm)
}

// Say is Error with lengths as amount prints them; see units.Said.
func (lengthError) Say(amount, _ func(mm float64) string) string {
	return "a length is at least " + amount(kinematics.MinSpan) + "; with a sign it is how much longer or shorter"
}

// set returns a corner with the link mm long. An arm's rod is cut anew for the
// toe, or stays as it is.
func (l *link) set(c kinematics.Corner, mm float64, cutRod bool) (kinematics.Corner, error) {
	if mm < kinematics.MinSpan {
		return c, lengthError{}
	}
	by := mm - l.length(&c)
	if math.Abs(by) < sameLength {
		return c, nil
	}
	ch := l.grown(by)
	ch.CutRod = cutRod && ch.Longer[kinematics.TieRodLeg] == 0
	return kinematics.Reassemble(c, ch)
}

// sameLength, mm: a length typed as it is shown changes nothing.
const sameLength = 1e-9

// signed tells whether a text begins with a sign. A length has none: with one it is by
// how much the part is made longer or shorter.
func signed(text string) bool {
	return strings.IndexAny(strings.TrimSpace(text), "+-\u2212") == 0
}

// lengthRow makes the field of a link's length.
func (p *Points) lengthRow(i int) *valueRow {
	l := &links[i]
	f := newField(p.words(l.name))
	make := func(text string) (mm float64, next kinematics.Corner, err error) {
		if mm, err = units.Parse(text, p.in.Unit); err == nil {
			c := p.in.Variant.Corner()
			if signed(text) {
				mm += l.length(&c)
			}
			next, err = l.set(c, mm, p.cutRod.check.Checked)
		}
		return mm, next, units.Said(err, p.in.Unit)
	}
	within := func(mm float64) (camber, toe job.Degrees) { // the part is made longer by so much, whatever it measures
		now := p.in.Variant.Corner()
		by := mm - l.length(&now)
		cut := p.cutRod.check.Checked
		i := slices.IndexFunc(p.in.Job.Variants, func(v job.Variant) bool { return v.Name == p.in.Variant.Name })
		return report.AnglesAfter(p.in.Job, i, func(c kinematics.Corner) (kinematics.Corner, error) { return l.set(c, l.length(&c)+by, cut) })
	}
	f.check = func(text string) (string, error) {
		mm, next, err := make(text)
		echo := units.FormatBoth(mm)
		if now := p.in.Variant.Corner(); err == nil && next != now {
			if next.Camber != now.Camber {
				echo += "; camber " + units.FormatDegrees(next.Camber, restDecimals)
			}
			if next.Toe != now.Toe {
				echo += "; toe " + units.FormatDegrees(next.Toe, restDecimals)
			}
		}
		return echo, err
	}
	f.hand = func(text string) error {
		mm, next, err := make(text)
		if err != nil {
			return err
		}
		camber, toe := within(mm)
		return p.OnEdit("type "+f.name+", same upright", func(v *job.Variant) {
			document.SetCorner(v, next)
			v.CamberWithin, v.ToeWithin = camber, toe
		})
	}
	p.lengths[i] = newValueRow(&p.form, "length", f)
	return p.lengths[i]
}

// checkRow is a switch of the form.
type checkRow struct{ check *keyed.Check }

func (r *checkRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.check} }
func (r *checkRow) height(float32) float32       { return fieldHeight + rowGap }

func (r *checkRow) place(x, y, w float32) {
	r.check.Move(fyne.NewPos(x, y))
	r.check.Resize(fyne.NewSize(w, fieldHeight))
}
