package units

import "fmt"

// EntryError says why a typed value was refused.
type EntryError struct {
	Text    string // as typed
	At      int    // the character the problem starts at, counted from 1; 0 if it is the whole text
	Problem string // in plain words
	Cure    string // what to type instead
}

// shownText is how many characters of the typed text an error repeats: enough
// to recognise it on one line.
const shownText = 60

// Error names text, place, problem and cure in one line.
func (e *EntryError) Error() string {
	text := []rune(e.Text)
	if len(text) > shownText {
		text = append(text[:shownText:shownText], '…')
	}
	if e.At == 0 {
		return fmt.Sprintf("%q: %s; %s", string(text), e.Problem, e.Cure)
	}
	return fmt.Sprintf("%q, character %d: %s; %s", string(text), e.At, e.Problem, e.Cure)
}
