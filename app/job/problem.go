package job

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Problem is one thing wrong with a job or its file.
type Problem struct {
	File    string // as it was named; empty for a job that was never in a file
	Line    int    // counted from 1; 0 if it concerns no line
	Key     string // path of keys, such as variants[1].lower_arm.ball_joint.y; may be empty
	Variant string // name of the variant concerned, if any
	Value   string // as found; may be empty
	What    string // what is wrong, in plain words
	Cure    string // what to do about it
	Err     error  // what lies beneath, for errors.Is and errors.As; may be nil
}

// Error names place, value, problem and cure in one line.
func (p Problem) Error() string {
	var b strings.Builder
	if p.File != "" {
		b.WriteString(oneLine(p.File))
		if p.Line > 0 {
			fmt.Fprintf(&b, ":%d", p.Line)
		}
		b.WriteString(": ")
	}
	if p.Key != "" {
		b.WriteString(shorten(p.Key))
		if strings.TrimSpace(p.Variant) != "" {
			fmt.Fprintf(&b, " (%s)", shorten(p.Variant))
		}
		if p.Value != "" {
			b.WriteString(" = " + shorten(p.Value))
		}
		b.WriteString(": ")
	}
	b.WriteString(p.What)
	if p.Cure != "" {
		b.WriteString("; " + p.Cure)
	}
	return b.String()
}

// Unwrap returns what lies beneath.
func (p Problem) Unwrap() error { return p.Err }

// Problems is everything wrong with a job or its file, in the order of its lines.
type Problems []Problem

// Error gives one line to each problem.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i := range ps {
		lines[i] = ps[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns each problem as an error.
func (ps Problems) Unwrap() []error {
	errs := make([]error, len(ps))
	for i := range ps {
		errs[i] = ps[i]
	}
	return errs
}

// orNil returns nil for no problems, so that no empty list passes as an error.
func (ps Problems) orNil() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

func (ps Problems) sortByLine() {
	slices.SortStableFunc(ps, func(a, b Problem) int { return a.Line - b.Line })
}

// shownText is how many characters of a key, name or value a problem repeats.
const shownText = 60

// shorten keeps a text on one line and within bounds.
func shorten(s string) string {
	if r := []rune(s); len(r) > shownText {
		s = string(r[:shownText]) + "…"
	}
	return oneLine(s)
}

// oneLine replaces what would break a line or move a terminal's cursor.
func oneLine(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsPrint(c) {
			return c
		}
		return '\ufffd'
	}, s)
}
