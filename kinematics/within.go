package kinematics

import (
	"fmt"
	"math"
)

// Within is how far off each measured coordinate of a corner may be: half-widths,
// mm, of independent errors that lie evenly between minus and plus as much. A
// coordinate may carry two of them, that of the tape and that of an assumption;
// one without either is exact. Camber, toe and offset are exact unless assumed.
// Beside them stand errors that move many coordinates at once: see Together. Readings may
// bound what the errors do together: see Taught. It is a plain value, to be compared and
// copied.
type Within struct {
	common            float64
	trackHeld         bool
	measured, assumed [errorRows][3]float64
	together          [MostTogether]Moves
	taught            taught
}

// Common is the measuring error of a coordinate of which nothing else is said, mm:
// that of Evenly.
func (w *Within) Common() float64 { return w.common }

// AtRest is no point: under it stand, as axes of a Coordinate, what an error may lie
// in besides the points. They are in rad, rad and mm.
const AtRest = pointCount

// The axes of AtRest.
const (
	CamberAtRest = iota
	ToeAtRest
	WheelOffset
)

// MostTogether is how many errors there may be that move many coordinates at once. They
// follow AtRest, three to a row.
const MostTogether = 9

const (
	togetherRow = AtRest + 1
	errorRows   = int(togetherRow) + MostTogether/3
)

// Moves is what an error does to coordinates, and to what stands under AtRest, where it is
// as large as it may be: mm, and rad.
type Moves [pointCount + 1][3]float64

// most is the largest of the moves, an angle counted by the arm on which it is worth a step.
func (m *Moves) most() float64 {
	most := 0.0
	for p := range m {
		for axis, by := range m[p] {
			if at := (Coordinate{Point(p), axis}); by != 0 {
				most = max(most, math.Abs(by)*bandStep/at.step())
			}
		}
	}
	return most
}

// Together returns w with one more error, which moves many coordinates at once, evenly
// between minus and plus what the moves say, beside what each of them may be off by itself.
// The i-th of two corners is one and the same. It panics for one that there is already.
func (w Within) Together(i int, moves Moves) Within {
	at := together(i)
	if w.measured[at.Point][at.Axis] != 0 {
		panic(fmt.Sprintf("kinematics: error %d that moves many coordinates stands twice", i))
	}
	if w.together[i] = moves; moves != (Moves{}) {
		w.measured[at.Point][at.Axis] = 1
	}
	w.taught = taught{}
	return w
}

// together is the coordinate that an error counts as.
func together(i int) Coordinate { return Coordinate{togetherRow + Point(i/3), i % 3} }

// movedBy is the error that a coordinate stands for; nil for one of its own.
func (w *Within) movedBy(at Coordinate) *Moves {
	if at.Point < togetherRow {
		return nil
	}
	return &w.together[3*int(at.Point-togetherRow)+at.Axis]
}

// TrackHeld returns w for a corner of which the track was measured: an error of
// camber, toe or offset then moves the hub and leaves the contact where it is.
func (w Within) TrackHeld() Within {
	w.trackHeld = true
	return w
}

// coordinates appends those that carry an error.
func (w *Within) coordinates(c *Corner, list []Coordinate) []Coordinate {
	list = c.appendCoordinates(list)
	n := 0
	for _, at := range list {
		if !w.of(at).none() {
			list[n] = at
			n++
		}
	}
	list = list[:n]
	for p := AtRest; int(p) < errorRows; p++ {
		for axis := range 3 {
			if at := (Coordinate{p, axis}); !w.of(at).none() {
				list = append(list, at)
			}
		}
	}
	return list
}

// Shift adds to one coordinate of a corner, or to what stands under AtRest, as an
// error of it would.
func (w *Within) Shift(c *Corner, at Coordinate, by float64) {
	if moves := w.movedBy(at); moves != nil {
		for p := range moves {
			for axis, each := range moves[p] {
				if at := (Coordinate{Point(p), axis}); each != 0 && (at.Point == AtRest || c.Has(at.Point)) {
					w.Shift(c, at, each*by)
				}
			}
		}
		return
	}
	if at.Point != AtRest {
		c.Shift(at, by)
		return
	}
	was := c.RestContact().Y
	switch at.Axis {
	case CamberAtRest:
		c.Camber += by
	case ToeAtRest:
		c.Toe += by
	default:
		c.Wheel.Offset += by
	}
	if w.trackHeld {
		c.Hub.Y += was - c.RestContact().Y
	}
}

// step is half a central difference by an error.
func (w *Within) step(at Coordinate) float64 {
	if moves := w.movedBy(at); moves != nil {
		return bandStep / moves.most()
	}
	return at.step()
}

func (at Coordinate) step() float64 {
	if at.Point == AtRest && at.Axis != WheelOffset {
		return angleStep
	}
	return bandStep
}

// Coordinates lists what carries an error in a corner; errors that move many of its
// coordinates at once follow these.
func (w *Within) Coordinates(c *Corner) []Coordinate {
	return w.coordinates(c, make([]Coordinate, 0, maxCoordinates))
}

// Size is the half-width of one even error that spreads as far as those of a
// coordinate together: mm, of camber and toe rad.
func (w *Within) Size(at Coordinate) float64 {
	squares := w.of(at).squares()
	if at.Point < togetherRow {
		for i := range w.together {
			by := w.together[i][at.Point][at.Axis]
			squares += by * by
		}
	}
	return math.Sqrt(squares)
}

// Own is Size without the errors that move others too.
func (w *Within) Own(at Coordinate) float64 { return w.of(at).root() }

// RestsOn tells whether a coordinate is assumed.
func (w *Within) RestsOn(at Coordinate) bool { return w.of(at).assumed > 0 }

// AnyAssumed tells whether anything is.
func (w *Within) AnyAssumed() bool { return w.assumed != [errorRows][3]float64{} }

// Measuring is the least and the most measuring error among a corner's coordinates, mm,
// of those that are not assumed; that of Evenly where all are.
func (w *Within) Measuring(c *Corner) (least, most float64) {
	least, most = math.Inf(1), 0
	for _, at := range c.Coordinates() {
		if w.of(at).assumed == 0 {
			mm := w.Size(at)
			least, most = min(least, mm), max(most, mm)
		}
	}
	if least > most {
		return w.common, w.common
	}
	return least, most
}

// Evenly is the same measuring error, ±mm, on every coordinate. It panics below
// zero and above MaxLength.
func Evenly(mm float64) Within {
	mustBeWithin(mm)
	w := Within{common: mm}
	for p := range pointCount {
		w.measured[p] = [3]float64{mm, mm, mm}
	}
	return w
}

// Measured returns w with another measuring error on one coordinate, and no other.
func (w Within) Measured(at Coordinate, mm float64) Within {
	mustBeWithin(mm)
	w.measured[at.Point][at.Axis] = mm
	for i := range w.together {
		if w.together[i][at.Point][at.Axis] = 0; w.together[i] == (Moves{}) {
			one := together(i)
			w.measured[one.Point][one.Axis] = 0
		}
	}
	w.taught = taught{}
	return w
}

// Assumed returns w with an assumption's error on one coordinate, beside that of
// the tape.
func (w Within) Assumed(at Coordinate, mm float64) Within {
	mustBeWithin(mm)
	w.assumed[at.Point][at.Axis] = mm
	w.taught = taught{}
	return w
}

func mustBeWithin(mm float64) {
	if !(mm >= 0 && mm <= MaxLength) {
		panic(fmt.Sprintf("kinematics: measured within %g mm", mm))
	}
}

// errorSize is what one coordinate's errors come to, and its part in what readings
// have taught.
type errorSize struct {
	measured, assumed float64
	taught            [mostTaught]float64
}

func (w *Within) of(at Coordinate) errorSize {
	e := errorSize{measured: w.measured[at.Point][at.Axis], assumed: w.assumed[at.Point][at.Axis]}
	for i := range w.taught {
		e.taught[i] = w.taught[i][at.Point][at.Axis]
	}
	return e
}

func (e errorSize) none() bool { return e.measured == 0 && e.assumed == 0 }

// larger is the size of an error that two corners share.
func (e errorSize) larger(o errorSize) errorSize {
	return errorSize{measured: max(e.measured, o.measured), assumed: max(e.assumed, o.assumed)}
}

// untaught is the error as the tape leaves it.
func (e errorSize) untaught() errorSize { return e.larger(errorSize{}) }

// root is the half-width of one even error as wide as both.
func (e errorSize) root() float64 { return math.Sqrt(e.squares()) }

func (e errorSize) squares() float64 { return e.measured*e.measured + e.assumed*e.assumed }
func (e errorSize) most() float64    { return e.measured + e.assumed }

// spread gathers what independent even errors do to a value.
type spread struct {
	squares, most float64
	taught        [mostTaught]float64
}

// add adds an error that moves the value by slope for each mm.
func (s *spread) add(slope float64, e errorSize) {
	s.squares += slope * slope * e.squares()
	s.most += math.Abs(slope) * e.most()
	if e.taught == ([mostTaught]float64{}) {
		return
	}
	along := slope * e.root()
	for i, part := range e.taught {
		s.taught[i] += along * part
	}
}

// left is the sum of squares less what readings have taken away.
func (s *spread) left() float64 {
	square := s.squares
	for _, t := range s.taught {
		square -= t * t
	}
	return max(0, square)
}

// Normal95 is the 97.5 % point of the normal distribution: a sum of many small
// errors lies within ±1.96 standard deviations 95 times in 100. An even error
// within ±w has the standard deviation w/√3. Source: any table of the normal
// distribution.
const Normal95 = 1.959963984540054

// even95 turns the root sum of squares of even errors into the 95 % half-width.
var even95 = Normal95 / math.Sqrt(3)

// half is the 95 % half-width: that of many small errors, and never more than
// all of them together can do, which counts where one or two decide.
func (s spread) half() float64 { return min(even95*math.Sqrt(s.left()), s.most) }
