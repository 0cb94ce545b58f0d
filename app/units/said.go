package units

import "strings"

// sayer is an error that can print the lengths that it names in another unit.
type sayer interface {
	error
	Say(amount, place func(mm float64) string) string
}

// said is an error with another text.
type said struct {
	error
	text string
}

// Error is the text.
func (s *said) Error() string { return s.text }

// Unwrap is the error that it stands for.
func (s *said) Unwrap() error { return s.error }

// Said is an error with the amounts and places that it names, or those that it
// wraps or joins, in a unit: kinematics has them in mm. Nil stays nil.
func Said(err error, unit Unit) error {
	if err == nil || unit == Millimetre {
		return err
	}
	text := err.Error()
	var walk func(err error)
	walk = func(err error) {
		if s, ok := err.(sayer); ok {
			now := s.Say(func(mm float64) string { return Built.Length(mm, unit) }, func(mm float64) string { return Place(mm, unit) })
			text = strings.ReplaceAll(text, s.Error(), now)
			return
		}
		switch w := err.(type) {
		case interface{ Unwrap() error }:
			if inner := w.Unwrap(); inner != nil {
				walk(inner)
			}
		case interface{ Unwrap() []error }:
			for _, inner := range w.Unwrap() {
				walk(inner)
			}
		}
	}
	walk(err)
	if text == err.Error() {
		return err
	}
	return &said{err, text}
}
