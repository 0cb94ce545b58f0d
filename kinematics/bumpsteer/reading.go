package bumpsteer

import (
	"errors"
	"fmt"
	"math"

	"armscribe/kinematics"
)

// Side tells on which side of the car a reading was taken.
type Side uint8

// The sides. Each has its own gauge zero.
const (
	SideNotGiven Side = iota
	LeftSide
	RightSide
	sideCount
)

// Reading is one reading of a toe gauge.
type Reading struct {
	Travel float64 // mm
	Toe    float64 // rad, toe change from rest of one wheel, toe-in positive on either side
	Side   Side
	Sigma  float64 // rad, standard deviation of this reading; 0 for that of the fit
}

// Errors of readings, for errors.Is. A travel out of reach matches
// kinematics.ErrUnreachable too.
var (
	ErrReading        = errors.New("a reading cannot be used")
	ErrTooFewReadings = errors.New("too few readings")
)

// minReadings: fewer settle neither slope nor bow with a gauge zero to find.
const minReadings = 3

// ReadingError is one reading that cannot be used. It matches ErrReading and
// what it wraps.
type ReadingError struct {
	Index   int // from 0
	Reading Reading
	Problem string
	Err     error // may be nil
}

// Error names the reading by its number from 1, its travel and the problem.
func (e *ReadingError) Error() string {
	return e.line(fmt.Sprintf("%+.4g mm", e.Reading.Travel))
}

// Say is Error with the travel printed in another unit.
func (e *ReadingError) Say(_, place func(mm float64) string) string {
	return e.line(place(e.Reading.Travel))
}

func (e *ReadingError) line(travel string) string {
	text := fmt.Sprintf("reading %d, travel %s: %s", e.Index+1, travel, e.Problem)
	if e.Err != nil {
		text += ": " + e.Err.Error()
	}
	return text
}

// Is makes errors.Is(err, ErrReading) true.
func (e *ReadingError) Is(target error) bool { return target == ErrReading }

// Unwrap returns the cause.
func (e *ReadingError) Unwrap() error { return e.Err }

// checkReadings reports every reading that cannot be used.
func checkReadings(c *kinematics.Corner, readings []Reading) error {
	m, err := kinematics.New(c)
	if err != nil {
		return err
	}
	var errs []error
	moved := 0
	for i, r := range readings {
		bad := func(problem string, err error) {
			errs = append(errs, &ReadingError{i, r, problem, err})
		}
		switch {
		case !(math.Abs(r.Travel) <= kinematics.MaxLength):
			bad("travel is not within ±10 m; check the number and its unit", nil)
			continue
		case !(math.Abs(r.Toe) <= kinematics.MaxStaticAngle):
			bad("toe change is not within ±45 degrees; check the number and its unit", nil)
		case !(r.Sigma >= 0 && r.Sigma <= math.Pi):
			bad("its standard deviation is not a small angle", nil)
		case r.Side >= sideCount:
			panic(fmt.Sprintf("kinematics: no side %d", r.Side))
		}
		if _, err := m.At(r.Travel, 0); err != nil {
			bad("the measured points do not reach there", err)
		}
		if math.Abs(r.Travel) >= kinematics.MinSpan {
			moved++
		}
	}
	if moved < minReadings {
		errs = append(errs, fmt.Errorf("%d readings away from rest: take at least %d: %w", moved, minReadings, ErrTooFewReadings))
	}
	return errors.Join(errs...)
}
