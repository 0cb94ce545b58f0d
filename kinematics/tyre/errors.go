package tyre

import "fmt"

// CodeError says why a tyre code was refused.
type CodeError struct {
	Code    string // as typed
	Problem string
	Cure    string // with an example
}

// shownCode is how many characters of a code an error repeats.
const shownCode = 40

// Error names code, problem and cure in one line.
func (e *CodeError) Error() string {
	code := []rune(e.Code)
	if len(code) > shownCode {
		code = append(code[:shownCode:shownCode], '…')
	}
	return fmt.Sprintf("tyre %q: %s; %s", string(code), e.Problem, e.Cure)
}

// WheelError says which measure of a wheel is out of range.
type WheelError struct {
	Measure  string  // "rim width" or "offset"
	Value    float64 // mm as given; may be NaN or Inf
	Min, Max float64 // mm
}

// Error names measure, value, limits and cure in one line.
func (e *WheelError) Error() string {
	return fmt.Sprintf("wheel %s %g mm is not between %g and %g mm; check the number and its unit",
		e.Measure, e.Value, e.Min, e.Max)
}
